//! What the logs lack, a sentence each.

use crate::costing::unassigned::Unassigned;
use crate::quantity::millionths::Money;
use crate::quantity::unit::Dimension;
use crate::reading::problem::printable;
use crate::report::words::{Currency, counted, percent};
use crate::report::words::{left_out_in_words, untied_in_words};
use crate::review::Review;
use crate::review::stock::Missing;
use rust_decimal::Decimal;

/// The most items named of a kind.
const MOST_ITEMS: usize = 3;

/// Orders without hours, hours and costs not tied to an order, orders left out, costs that are incomplete, what ran short or was
/// missing, and how many warnings there are.
#[must_use]
pub fn lacks(review: &Review, currency: &Currency, warnings: usize) -> Vec<String> {
    let mut lacks = Vec::new();
    let mut line = |line: String| lacks.push(line);
    let total = &review.designs.total;
    if total.pieces > total.known.pieces && total.known.pieces > 0 {
        let share = percent(total.hours_known);
        line(format!("hours are known for {share} of the pieces: what you got, costs, hours, pay and verdicts cover only those"));
    }
    let without = &review.orders_without_hours;
    if !without.is_empty() {
        let shown: Vec<String> = without.iter().take(8).map(|order| printable(order)).collect();
        let more = if without.len() > shown.len() { " …" } else { "" };
        line(format!("{} no hours: {}{more}", counted(without.len(), "order has", "orders have"), shown.join(", ")));
    }
    let unassigned = &review.designs.unassigned;
    if *unassigned != Unassigned::default() {
        line(format!("hours and costs not tied to an order: {}", untied_in_words(&review.designs.untied, review.period, currency)));
    }
    let left = review.designs.left_out;
    if left.quoted + left.cancelled > 0 {
        let but = if review.reconciliation.deposits_kept == Money::ZERO { "" } else { ", except for deposits kept" };
        let are = if left.quoted + left.cancelled == 1 { "is" } else { "are" };
        line(format!("{} {are} left out{but}", left_out_in_words(left)));
    }
    for short in review.shortfalls.iter().take(MOST_ITEMS) {
        line(format!("{}: you used {} more than you bought", printable(&short.item), amount(short)));
    }
    for gap in review.gaps.iter().take(MOST_ITEMS) {
        let less = if gap.measured == Dimension::Count { "fewer" } else { "less" };
        let way = if gap.quantity.amount.0 < 0 { "more" } else { less };
        let cost = currency.exact(Money(gap.quantity.cost.abs()));
        line(format!("{}: a count found {} {way} than your logs say ({cost})", printable(&gap.item), amount(gap)));
    }
    if review.designs.rows.iter().any(|row| row.incomplete) {
        line("costs marked * are too low: an item they need was never bought, or a design has no recipe".to_owned());
    }
    if warnings > 0 {
        line(format!("{} in all your logs: fairdozen check lists them", counted(warnings, "warning", "warnings")));
    }
    lacks
}

/// `1,250 g`, `3 each`: to a whole unit, or two decimals below ten.
#[must_use]
pub fn amount(missing: &Missing) -> String {
    let amount = Decimal::try_from_i128_with_scale(missing.quantity.amount.0.abs(), 12).unwrap_or_default();
    let decimals = if amount < Decimal::TEN { 2 } else { 0 };
    let rounded = amount.round_dp_with_strategy(decimals, rust_decimal::RoundingStrategy::MidpointAwayFromZero).normalize();
    if missing.measured == Dimension::Count { rounded.to_string() } else { format!("{rounded} {}", missing.measured.base_unit()) }
}
