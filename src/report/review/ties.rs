//! What ties a review to her own sums: each line with its figure.

use crate::quantity::millionths::{Minutes, Money};
use crate::report::words::{Currency, hours};
use crate::review::Review;

/// A line and its figure; lines indented by two spaces are parts of the one above.
pub type Tie = (&'static str, String);

/// Hours, then money. Lines that are nil are left out but for the sums.
#[must_use]
pub fn ties(review: &Review, currency: &Currency) -> [Vec<Tie>; 2] {
    let (ties, all_in) = (&review.ties, &review.designs.all_in);
    let nil = Minutes::ZERO;
    let on_unknown = ties.counted - review.headline.minutes;
    let time = [
        ("hours you logged in this time", Some(ties.logged)),
        ("less: for orders handed over before or after it", ties.for_others.filter(|minutes| *minutes != nil).map(|minutes| -minutes)),
        ("plus: logged before or after it, for its orders", ties.from_others.filter(|minutes| *minutes != nil)),
        ("hours counted", Some(ties.counted)),
        ("  of these, hours no order explains", Some(review.designs.unassigned.owner_minutes).filter(|minutes| *minutes != nil)),
        ("  of these, on quoted and cancelled orders", Some(ties.on_orders_not_done).filter(|minutes| *minutes != nil)),
        ("less: shared time on orders without hours of their own", Some(-on_unknown).filter(|minutes| *minutes != nil)),
        ("hours that the wage stands on", Some(review.headline.minutes).filter(|_| on_unknown != nil)),
        ("helpers' hours", Some(ties.helper_minutes).filter(|minutes| *minutes != nil)),
    ];
    let unless_nil = |money: Money| Some(money).filter(|money| *money != Money::ZERO);
    let money = [
        ("ingredients bought, with their shipping and tax", unless_nil(ties.ingredients_bought)),
        ("ingredients used", Some(ties.ingredients_used)),
        ("packaging bought, with its shipping and tax", unless_nil(ties.packaging_bought)),
        ("packaging used", unless_nil(ties.packaging_used)),
        ("stock left at the end of the logs, at cost", ties.stock_left.and_then(unless_nil)),
        ("card fees", unless_nil(all_in.fees)),
        ("paid to helpers", unless_nil(all_in.helper_pay)),
        ("overhead", unless_nil(all_in.overhead)),
        ("deposits kept of cancelled orders, in the revenue", unless_nil(ties.deposits_kept)),
        (if ties.tips_count { "tips, in the revenue" } else { "tips, not counted" }, unless_nil(ties.tips)),
        ("sales tax collected, never income", unless_nil(ties.sales_tax)),
        ("revenue", Some(review.designs.total.revenue)),
        ("left for your time", Some(all_in.owner_pay)),
        ("less: left by orders without hours", unless_nil(review.headline.pay - all_in.owner_pay)),
        ("paid you, for the hours that the wage stands on", Some(review.headline.pay).filter(|pay| *pay != all_in.owner_pay)),
    ];
    let time = time.into_iter().filter_map(|(label, minutes)| Some((label, hours(minutes?))));
    let money = money.into_iter().filter_map(|(label, money)| Some((label, currency.exact(money?))));
    [time.collect(), money.collect()]
}
