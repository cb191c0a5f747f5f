//! Verdicts as a maker reads them, and how sure each is.

use super::Currency;
use crate::quantity::millionths::Money;
use crate::review::certainty::Certainty;
use crate::review::{By, Row, Verdict};

/// What a verdict says that cannot be told from chance.
pub const OPEN: &str = "can't tell yet";

/// Says what a range is, and a verdict's certainty where there are verdicts; once wherever a table has them.
#[must_use]
pub fn range_and_certainty(has_verdicts: bool) -> &'static str {
    if has_verdicts {
        "Range: hourly pay lies in it with 90 % probability. A verdict is sure from 95 %, likely from 80 %."
    } else {
        "Range: hourly pay lies in it with 90 % probability."
    }
}

/// Returns a verdict in a few words that fit what a row is: a design's orders are too small, one order is, and a month or a channel
/// only shows that set-up eats the pay.
#[must_use]
pub fn verdict(verdict: Verdict, by: By) -> &'static str {
    match (verdict, by) {
        (Verdict::LosesMoney, _) => "loses money",
        (Verdict::Pays, _) => "pays",
        (Verdict::SetUpTooDear, By::Design | By::Tier | By::Theme) => "orders too small",
        (Verdict::SetUpTooDear, By::Order | By::OrderSize) => "too small",
        (Verdict::SetUpTooDear, By::Month | By::Channel | By::Colours) => "set-up eats the pay",
        (Verdict::Underpaid, _) => "underpaid",
    }
}

/// Returns a row's verdict, and beside it how sure that is: `underpaid` and `sure`, `can't tell yet` and nothing; both blank where
/// there is none.
#[must_use]
pub fn verdict_and_certainty(row: &Row, by: By) -> [&'static str; 2] {
    let Some(said) = row.verdict.map(|found| verdict(found, by)) else {
        return [row.lacking.as_ref().map_or("", |lacking| if lacking.stages.is_empty() { "no hours" } else { "hours missing" }), ""];
    };
    match row.interval.and_then(|interval| interval.certainty) {
        None => [said, ""],
        Some(Certainty::Sure) => [said, "sure"],
        Some(Certainty::Likely) => [said, "likely"],
        Some(Certainty::Open) => [OPEN, ""],
    }
}

/// Writes a row's verdict with how sure it is in brackets: `underpaid (sure)`.
#[must_use]
pub fn verdict_of(row: &Row, by: By) -> String {
    match verdict_and_certainty(row, by) {
        [said, ""] => said.to_owned(),
        [said, sure] => format!("{said} ({sure})"),
    }
}

/// Says how pay compares with the target, in all and not by the hour: `That is $312 less in all than $20 an hour would have paid.`
#[must_use]
pub fn beside_target(surplus: Money, target: Money, currency: &Currency) -> String {
    let target = currency.short(target);
    if currency.is_nil(surplus) {
        return format!("That is exactly {target} an hour.");
    }
    let way = if surplus < Money::ZERO { "less" } else { "more" };
    format!("That is {} {way} in all than {target} an hour would have paid.", currency.size(surplus))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn pay_is_compared_in_all() {
        let said = |surplus| beside_target(Money(surplus), Money(20_000_000), &Currency::of("USD"));
        let expected = [
            "That is $312 less in all than $20 an hour would have paid.",
            "That is $55 more in all than $20 an hour would have paid.",
            "That is $0.30 more in all than $20 an hour would have paid.",
            "That is exactly $20 an hour.",
        ];
        assert_eq!([-312_400_000, 55_000_000, 300_000, -4_000].map(said), expected);
    }

    #[test]
    fn a_verdict_fits_what_a_row_is() {
        let of_set_up = [By::Design, By::Order, By::Month].map(|by| verdict(Verdict::SetUpTooDear, by));
        assert_eq!(of_set_up, ["orders too small", "too small", "set-up eats the pay"]);
        let verdicts = [Verdict::LosesMoney, Verdict::Pays, Verdict::Underpaid].map(|found| verdict(found, By::Tier));
        assert_eq!(verdicts, ["loses money", "pays", "underpaid"]);
    }
}
