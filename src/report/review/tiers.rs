//! The review's table of tiers.

use crate::reading::problem::printable;
use crate::report::layout::Table;
use crate::report::minutes_text::ROUGH_RANGES;
use crate::report::screen::Screen;
use crate::report::wage_text::{interval, known_hours, totals};
use crate::report::words::{Currency, RANGE_AND_CERTAINTY, in_letters, verdict_and_certainty};
use crate::review::bridge::SMALL;
use crate::review::minutes::MinutesTable;
use crate::review::{By, Review, Row};

/// Tiers with their totals.
#[must_use]
pub fn tiers(review: &Review, currency: &Currency) -> Table {
    let table = &review.tiers;
    let estimated = is_estimated(review);
    let mut headings = vec!["tier"];
    headings.extend((!estimated).then_some("orders"));
    headings.extend(["pieces", "you got\neach", "fair\nprice", "hours", "hourly\npay"]);
    headings.extend(estimated.then_some("range\n(90 %)"));
    headings.extend(["above /\nbelow", "verdict"]);
    headings.extend(estimated.then_some("how\nsure"));
    let cells = |row: &Row| {
        let mut cells = vec![printable(&row.key)];
        cells.extend((!estimated).then(|| row.orders.to_string()));
        cells.extend([
            if row.pieces == 0 { String::new() } else { row.pieces.to_string() },
            currency.known(row.known.price().or(row.price_per_piece)),
            currency.known(row.fair_price),
            known_hours(row),
            currency.known(row.wage_per_hour),
        ]);
        cells.extend(estimated.then(|| interval(row, currency)));
        let [verdict, sure] = verdict_and_certainty(row, By::Tier);
        cells.extend([currency.known(row.known.surplus()), verdict.to_owned()]);
        cells.extend(estimated.then(|| sure.to_owned()));
        cells
    };
    let totals = totals(table);
    Table { headings, rows: table.rows.iter().chain(&totals).map(cells).collect(), totals: totals.len() }
}

/// That few orders stand behind the table, where they do.
#[must_use]
pub fn few_orders(review: &Review) -> Option<String> {
    let orders = review.headline.orders_known;
    let these = if orders == 1 {
        "Only one order with hours stands".to_owned()
    } else {
        format!("Only {} orders with hours stand", in_letters(i64::try_from(orders).unwrap_or(i64::MAX)))
    };
    (0 < orders && orders < SMALL).then(|| format!("{these} behind this: a few orders say little."))
}

/// Whether any tier's wage is an estimate with a range.
fn is_estimated(review: &Review) -> bool {
    review.tiers.rows.iter().any(|row| row.interval.is_some())
}

/// What the range in the table is, where it has one.
#[must_use]
pub fn of_the_range(review: &Review, screen: Screen) -> Option<String> {
    let rough =
        if review.minutes.as_ref().is_some_and(MinutesTable::has_rough_ranges) { format!(" {ROUGH_RANGES}.") } else { String::new() };
    let counted = if screen.is_whole() { " Totals are counted from your logs, not estimated." } else { "" };
    is_estimated(review).then(|| format!("{RANGE_AND_CERTAINTY}{counted}{rough}"))
}
