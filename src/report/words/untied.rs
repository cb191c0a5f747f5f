//! What stands beside the orders handed over: hours and costs not tied to one, and orders that are not done.

use super::{Currency, counted, hours};
use crate::costing::unassigned::Unassigned;
use crate::quantity::millionths::{Minutes, Money};
use crate::review::wage::LeftOut;

/// Hours and costs not tied to an order, each part that there is: `0.5 hours, $12.40 of overhead`.
#[must_use]
pub fn unassigned_in_words(unassigned: &Unassigned, currency: &Currency) -> String {
    let time = |minutes: Minutes, of: &str| (minutes != Minutes::ZERO).then(|| format!("{} hours{of}", hours(minutes)));
    let cost = |money: Money, of: &str| (money != Money::ZERO).then(|| format!("{} of {of}", currency.exact(money)));
    let parts = [
        time(unassigned.owner_minutes, ""),
        time(unassigned.helper_minutes, " of helpers"),
        cost(unassigned.helper_pay, "helper pay"),
        cost(unassigned.ingredients, "ingredients"),
        cost(unassigned.packaging, "packaging"),
        cost(unassigned.overhead, "overhead"),
    ];
    parts.into_iter().flatten().collect::<Vec<_>>().join(", ")
}

/// Orders not handed over: `1 quoted order and 2 cancelled orders`.
#[must_use]
pub fn left_out_in_words(left: LeftOut) -> String {
    let count =
        |orders: usize, kind: &str| (orders > 0).then(|| counted(orders, &format!("{kind} order"), &format!("{kind} orders")));
    [count(left.quoted, "quoted"), count(left.cancelled, "cancelled")].into_iter().flatten().collect::<Vec<_>>().join(" and ")
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn only_what_there_is_is_said() {
        let dollars = Currency::of("USD");
        let untied = Unassigned { owner_minutes: Minutes(60_000_000), overhead: Money(1_340_000), ..Unassigned::default() };
        assert_eq!(unassigned_in_words(&untied, &dollars), "1.0 hours, $1.34 of overhead");
        assert_eq!(unassigned_in_words(&Unassigned::default(), &dollars), "");
        assert_eq!(left_out_in_words(LeftOut { quoted: 1, cancelled: 2 }), "1 quoted order and 2 cancelled orders");
    }
}
