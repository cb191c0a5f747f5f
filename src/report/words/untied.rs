//! What stands beside the orders handed over: hours and costs not tied to one, and orders that are not done.

use super::{Currency, NAMED, and, counted, first_of, hours, period_in_words};
use crate::costing::unassigned::Unassigned;
use crate::quantity::Period;
use crate::quantity::millionths::{Minutes, Money};
use crate::reading::problem::printable;
use crate::review::untied::{For, Untied};
use crate::review::wage::LeftOut;

/// Lists hours and costs not tied to an order by what they are: `1.0 hours (admin); $109.00 for January to May 2026 (insurance)`. In a
/// period of one month the month goes without saying.
#[must_use]
pub fn untied_in_words(untied: &[Untied], period: Period, currency: &Currency) -> String {
    let (mut work, mut overheads, mut items) = (Vec::new(), Vec::new(), Vec::new());
    for untied in untied {
        match &untied.what {
            For::Stage(stage) => work.push((stage.as_deref().unwrap_or("no stage"), untied)),
            For::Overhead(what) => overheads.push((what.as_str(), untied)),
            For::Item(item) => items.push((item.as_str(), untied)),
        }
    }
    [hours_of(&work, currency), costs_of(&overheads, period, currency), stock_of(&items, currency)]
        .into_iter()
        .flatten()
        .collect::<Vec<_>>()
        .join("; ")
}

/// What something is called, with its amount.
type Named<'a> = (&'a str, &'a Untied);

fn hours_of(work: &[Named<'_>], currency: &Currency) -> Option<String> {
    let sum = |of: fn(&Unassigned) -> Minutes| work.iter().map(|(_, untied)| of(&untied.amount)).sum::<Minutes>();
    let (own, helpers) = (sum(|amount| amount.owner_minutes), sum(|amount| amount.helper_minutes));
    let pay: Money = work.iter().map(|(_, untied)| untied.amount.helper_pay).sum();
    let own = (own != Minutes::ZERO).then(|| format!("{} hours", hours(own)));
    let helpers = (helpers != Minutes::ZERO).then(|| format!("{} hours of helpers at {}", hours(helpers), currency.exact(pay)));
    let said = own.into_iter().chain(helpers).collect::<Vec<_>>().join(" and ");
    (!said.is_empty()).then(|| format!("{said} ({})", names(work)))
}

fn costs_of(overheads: &[Named<'_>], period: Period, currency: &Currency) -> Option<String> {
    let first = overheads.iter().map(|(_, untied)| untied.months.0).min()?;
    let last = overheads.iter().map(|(_, untied)| untied.months.1).max()?;
    let cost: Money = overheads.iter().map(|(_, untied)| untied.amount.overhead).sum();
    let months = period_in_words(Period { from: Some(first.first()), to: Some(last.last()) });
    let when = if period.month().is_some() { String::new() } else { format!(" for {months}") };
    Some(format!("{}{when} ({})", currency.exact(cost), names(overheads)))
}

fn stock_of(items: &[Named<'_>], currency: &Currency) -> Option<String> {
    let cost: Money = items.iter().map(|(_, untied)| untied.amount.cost()).sum();
    (!items.is_empty()).then(|| format!("{} of stock ({})", currency.exact(cost), names(items)))
}

fn names(named: &[Named<'_>]) -> String {
    first_of(&named.iter().map(|(name, _)| printable(name)).collect::<Vec<_>>(), NAMED)
}

/// Says how long a table of work leaves out: `Not in the table: 12.0 hours of drying and other waiting, never paid.`
#[must_use]
pub fn waiting_in_words(waited: Minutes) -> String {
    format!("Not in the table: {} hours of drying and other waiting, never paid.", hours(waited))
}

/// Counts orders not handed over: `1 quoted order and 2 cancelled orders`. Of so many cancelled ones the deposit was kept, and is counted:
/// `the cookies of 1 cancelled order (its deposit counts)`.
#[must_use]
pub fn left_out_in_words(left: LeftOut, deposits_kept: i64) -> String {
    let count = |orders: usize, kind: &str| (orders > 0).then(|| counted(orders, &format!("{kind} order"), &format!("{kind} orders")));
    let kept = usize::try_from(deposits_kept).unwrap_or_default().min(left.cancelled);
    let cookies = count(kept, "cancelled").map(|orders| {
        let deposits = if kept == 1 { "its deposit counts" } else { "their deposits count" };
        format!("the cookies of {orders} ({deposits})")
    });
    let said: Vec<String> =
        [count(left.quoted, "quoted"), count(left.cancelled - kept, "cancelled"), cookies].into_iter().flatten().collect();
    and(&said)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::quantity::Day;

    #[test]
    fn only_what_there_is_is_said() {
        let dollars = Currency::of("USD");
        let month = |text: &str| Day::parse(text).unwrap().month();
        let of = |what: For, amount: Unassigned| Untied { what, months: (month("2026-01-01"), month("2026-05-01")), amount };
        let insurance = of(For::Overhead("insurance".into()), Unassigned { overhead: Money(109_000_000), ..Unassigned::default() });
        let admin = of(For::Stage(Some("admin".into())), Unassigned { owner_minutes: Minutes(60_000_000), ..Unassigned::default() });
        let untied = [insurance, admin];
        assert_eq!(untied_in_words(&untied, Period::default(), &dollars), "1.0 hours (admin); $109.00 for January to May 2026 (insurance)");
        assert_eq!(untied_in_words(&untied[..1], Period::of(month("2026-03-01")), &dollars), "$109.00 (insurance)");
        assert_eq!(untied_in_words(&[], Period::default(), &dollars), "");
        assert_eq!(left_out_in_words(LeftOut { quoted: 1, cancelled: 2 }, 0), "1 quoted order and 2 cancelled orders");
        assert_eq!(
            left_out_in_words(LeftOut { quoted: 1, cancelled: 1 }, 1),
            "1 quoted order and the cookies of 1 cancelled order (its deposit counts)"
        );
    }
}
