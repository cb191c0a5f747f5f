//! A review checked against her own books: each line with its figure.

use crate::costing::figure::Figure;
use crate::quantity::millionths::{Minutes, Money};
use crate::report::words::{Currency, hours};
use crate::review::Review;

/// Lists hours, then money, each line with its figure; one indented by two spaces is a part of the one above. Lines of 0 are left out, sums are not.
#[must_use]
pub(crate) fn ties(review: &Review, currency: &Currency) -> [Vec<(&'static str, String)>; 2] {
    let (ties, all_in) = (&review.reconciliation, &review.designs.all_in);
    let zero = Minutes::ZERO;
    let on_unknown = review.minutes_of_unknown_orders();
    let time = [
        ("hours you logged in this period", Some(ties.logged)),
        ("less: work on orders handed over in other months", ties.for_others.filter(|minutes| *minutes != zero).map(|minutes| -minutes)),
        ("plus: work on these orders in other months", ties.from_others.filter(|minutes| *minutes != zero)),
        ("hours counted", Some(ties.counted)),
        ("  of these, not tied to an order", Some(review.designs.unassigned.owner_minutes).filter(|minutes| *minutes != zero)),
        ("  of these, on quoted and cancelled orders", Some(ties.on_orders_not_done).filter(|minutes| *minutes != zero)),
        ("less: shared time on orders without hours of their own", Some(-on_unknown).filter(|minutes| *minutes != zero)),
        ("hours behind your hourly pay", Some(review.headline.minutes).filter(|_| on_unknown != zero)),
        ("helpers' hours", Some(ties.helper_minutes).filter(|minutes| *minutes != zero)),
    ];
    let unless_zero = |money: Money| Some(money).filter(|money| *money != Money::ZERO);
    let money = [
        ("ingredients bought, with their shipping and tax", unless_zero(ties.ingredients_bought)),
        ("ingredients used", Some(ties.ingredients_used)),
        ("packaging bought, with its shipping and tax", unless_zero(ties.packaging_bought)),
        ("packaging used", unless_zero(ties.packaging_used)),
        ("stock left when your logs end, at cost", ties.stock_left.and_then(unless_zero)),
        ("card fees", unless_zero(all_in.figures.money(Figure::Fees))),
        ("paid to helpers", unless_zero(all_in.figures.money(Figure::HelperPay))),
        ("overhead", unless_zero(all_in.figures.money(Figure::Overhead))),
        ("deposits kept from cancelled orders, in the revenue", unless_zero(ties.deposits_kept)),
        (if ties.tips_count { "tips, in the revenue" } else { "tips, not counted" }, unless_zero(ties.tips)),
        ("sales tax collected, never income", unless_zero(ties.sales_tax)),
        ("revenue", Some(review.designs.total.revenue)),
        ("left for your time", Some(all_in.owner_pay)),
        ("less: left by orders without hours", unless_zero(-review.pay_of_unknown_orders())),
        (
            "paid you, for the hours behind your hourly pay",
            Some(review.headline.pay).filter(|_| review.pay_of_unknown_orders() != Money::ZERO),
        ),
    ];
    let time = time.into_iter().filter_map(|(label, minutes)| Some((label, hours(minutes?))));
    let money = money.into_iter().filter_map(|(label, money)| Some((label, currency.exact(money?))));
    [time.collect(), money.collect()]
}
