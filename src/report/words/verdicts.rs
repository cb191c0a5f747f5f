//! Verdicts as a maker reads them, and how sure each is.

use super::Currency;
use crate::quantity::millionths::Money;
use crate::review::certainty::Certainty;
use crate::review::{By, Row, Verdict};

/// What a verdict says that cannot be told from chance.
pub const OPEN: &str = "can't tell yet";

/// What a range and a verdict's certainty are; said once wherever a table has them.
pub const RANGE_AND_CERTAINTY: &str = "Range: hourly pay lies in it with 90 % probability. A verdict is sure from 95 %, likely from 80 %.";

/// A verdict in a word or three: `underpaid`, `orders too small`.
#[must_use]
pub fn verdict(verdict: Verdict, by: By) -> &'static str {
    match (verdict, by) {
        (Verdict::LosesMoney, _) => "loses money",
        (Verdict::Pays, _) => "pays",
        (Verdict::SetUpTooDear, By::Order) => "order too small",
        (Verdict::SetUpTooDear, _) => "orders too small",
        (Verdict::Underpaid, _) => "underpaid",
    }
}

/// A row's verdict, and beside it how sure that is: `underpaid` and `sure`, `can't tell yet` and nothing; both blank where there
/// is none.
#[must_use]
pub fn verdict_and_certainty(row: &Row, by: By) -> [&'static str; 2] {
    let Some(said) = row.verdict.map(|found| verdict(found, by)) else { return ["", ""] };
    match row.interval.and_then(|interval| interval.certainty) {
        None => [said, ""],
        Some(Certainty::Sure) => [said, "sure"],
        Some(Certainty::Likely) => [said, "likely"],
        Some(Certainty::Open) => [OPEN, ""],
    }
}

/// A row's verdict, with how sure it is in brackets: `underpaid (sure)`.
#[must_use]
pub fn verdict_of(row: &Row, by: By) -> String {
    match verdict_and_certainty(row, by) {
        [said, ""] => said.to_owned(),
        [said, sure] => format!("{said} ({sure})"),
    }
}

/// Where pay stands beside the target: `$312 below $20 an hour`, `$55 above $20 an hour`, `exactly $20 an hour`.
#[must_use]
pub fn beside_target(surplus: Money, target: Money, currency: &Currency) -> String {
    let target = currency.short(target);
    match surplus {
        Money::ZERO => format!("exactly {target} an hour"),
        below if below < Money::ZERO => format!("{} below {target} an hour", currency.whole(-below)),
        above => format!("{} above {target} an hour", currency.whole(above)),
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn pay_stands_above_below_or_at_the_target() {
        let said = |surplus| beside_target(Money(surplus), Money(20_000_000), &Currency::of("USD"));
        assert_eq!([-312_400_000, 55_000_000, 0].map(said), ["$312 below $20 an hour", "$55 above $20 an hour", "exactly $20 an hour"]);
    }

    #[test]
    fn one_order_is_too_small_and_a_designs_orders_are() {
        assert_eq!([By::Order, By::Design].map(|by| verdict(Verdict::SetUpTooDear, by)), ["order too small", "orders too small"]);
        let verdicts = [Verdict::LosesMoney, Verdict::Pays, Verdict::Underpaid].map(|found| verdict(found, By::Tier));
        assert_eq!(verdicts, ["loses money", "pays", "underpaid"]);
    }
}
