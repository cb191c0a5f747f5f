//! What the logs lack, a sentence each.

use crate::costing::unassigned::Unassigned;
use crate::quantity::millionths::Money;
use crate::quantity::unit::Dimension;
use crate::reading::problem::printable;
use crate::report::words::{Currency, NAMED, amount, counted, lacking_by_name, left_out_in_words, percent, untied_in_words};
use crate::review::Review;

/// Lists orders without hours, hours and costs not tied to an order, orders left out, costs that are incomplete, what ran short or was
/// missing, and how many warnings there are.
#[must_use]
pub fn lacks(review: &Review, currency: &Currency, warnings: usize) -> Vec<String> {
    let mut lacks = Vec::new();
    let mut line = |line: String| lacks.push(line);
    let total = &review.designs.total;
    if total.pieces > total.known.pieces && total.known.pieces > 0 {
        let share = percent(total.hours_known);
        line(format!("hours are known for {share} of the pieces: what you got, fair prices, hours, pay and verdicts cover only those"));
    }
    for missing in lacking_by_name(&review.headline.lacking) {
        line(format!("no {missing}: hourly pay unknown"));
    }
    let unassigned = &review.designs.unassigned;
    if *unassigned != Unassigned::default() {
        line(format!("hours and costs not tied to an order: {}", untied_in_words(&review.designs.untied, review.period, currency)));
    }
    let left = review.designs.left_out;
    if left.quoted + left.cancelled > 0 {
        line(format!("left out: {}", left_out_in_words(left, review.designs.deposits_kept)));
    }
    for short in review.shortfalls.iter().take(NAMED) {
        line(format!("{}: you used {} more than you bought", printable(&short.item), amount(short)));
    }
    for gap in review.gaps.iter().take(NAMED) {
        let less = if gap.measured == Dimension::Count { "fewer" } else { "less" };
        let way = if gap.quantity.amount.0 < 0 { "more" } else { less };
        let cost = currency.exact(Money(gap.quantity.cost.abs()));
        line(format!("{}: a count found {} {way} than your logs say ({cost})", printable(&gap.item), amount(gap)));
    }
    if review.designs.rows.iter().any(|row| row.incomplete) {
        line("rows marked * cost too little: an item they need was never bought, or a design has no recipe".to_owned());
    }
    if warnings > 0 {
        line(format!("{} in all your logs: fairdozen check lists them", counted(warnings, "warning", "warnings")));
    }
    lacks
}
