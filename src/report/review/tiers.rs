//! The review's table of tiers.

use crate::report::document::{Block, Column, Table, Tells};
use crate::report::minutes_document::ROUGH_RANGES;
use crate::report::wage_document::{INCOMPLETE, above_or_below, interval, known_hours, starred, totals};
use crate::report::words::{Currency, in_letters, number, number_unless_zero, range_and_certainty, verdict_and_certainty};
use crate::review::bridge::SMALL;
use crate::review::minutes::MinutesTable;
use crate::review::{By, Review, Row};

/// Builds the table of tiers, with its totals.
#[must_use]
pub fn tiers(review: &Review, currency: &Currency) -> Table {
    let table = &review.tiers;
    let (estimated, has_target, has_verdicts) = (is_estimated(review), review.target.is_some(), has_verdicts(review));
    let mut columns = vec![Column::name("tier")];
    columns.extend((!estimated).then(|| Column::figures("orders")));
    columns.extend(["pieces", "you got\neach"].map(Column::figures));
    columns.extend(has_target.then(|| Column::figures("fair\nprice")));
    columns.push(Column::figures("hours"));
    columns.push(Column::of(Tells::HourlyPay));
    columns.extend(estimated.then(|| Column::of(Tells::Range)));
    columns.extend(has_target.then(|| Column::of(Tells::Surplus)));
    columns.extend(has_verdicts.then(|| Column::of(Tells::Verdict)));
    columns.extend((estimated && has_verdicts).then(|| Column::of(Tells::Certainty)));
    let cells = |row: &Row| {
        let mut cells = vec![starred(row)];
        cells.extend((!estimated).then(|| number(row.orders)));
        cells.extend([number_unless_zero(row.pieces), currency.known(row.known.price().or(row.price_per_piece))]);
        cells.extend(has_target.then(|| currency.known(row.fair_price)));
        cells.extend([known_hours(row), currency.known(row.wage_per_hour)]);
        cells.extend(estimated.then(|| interval(row, currency)));
        let [verdict, sure] = verdict_and_certainty(row, By::Tier);
        cells.extend(has_target.then(|| above_or_below(row, currency)));
        cells.extend(has_verdicts.then(|| verdict.to_owned()));
        cells.extend((estimated && has_verdicts).then(|| sure.to_owned()));
        cells
    };
    let totals = totals(table);
    Table { columns, rows: table.rows.iter().chain(&totals).map(cells).collect(), totals: totals.len() }
}

/// Says that few orders stand behind the table, where they do.
#[must_use]
pub(crate) fn few_orders(review: &Review) -> Option<String> {
    let orders = review.headline.orders_known;
    let these = if orders == 1 {
        "Only one order with hours stands".to_owned()
    } else {
        format!("Only {} orders with hours stand", in_letters(orders))
    };
    (0 < orders && orders < SMALL).then(|| format!("{these} behind this, so it is rough."))
}

fn has_verdicts(review: &Review) -> bool {
    review.tiers.rows.iter().any(|row| row.verdict.is_some())
}

/// Whether any tier's wage is an estimate with a range.
fn is_estimated(review: &Review) -> bool {
    review.tiers.rows.iter().any(|row| row.interval.is_some())
}

/// Says what the range in the table is, where it has one: on a first screen and under `--details`.
#[must_use]
pub(crate) fn of_the_range(review: &Review, currency: &Currency) -> Option<[String; 2]> {
    let rough =
        if review.minutes.as_ref().is_some_and(MinutesTable::has_rough_ranges) { format!(" {ROUGH_RANGES}.") } else { String::new() };
    let counted = "Totals are counted from your logs, not estimated.";
    let fair = review.target.map_or_else(String::new, |target| {
        format!(" A fair price is what a piece must bring in to pay {} an hour.", currency.short(target))
    });
    let range = range_and_certainty(has_verdicts(review));
    is_estimated(review).then(|| [format!("{range}{fair}{rough}"), format!("{range}{fair} {counted}{rough}")])
}

/// Says what a star in the table means, where it has one.
#[must_use]
pub fn incomplete(review: &Review) -> Option<&'static str> {
    review.tiers.rows.iter().any(|row| row.incomplete).then_some(INCOMPLETE)
}

/// Builds the table and what to know of it.
#[must_use]
pub(crate) fn tiers_with_notes(review: &Review, currency: &Currency) -> Vec<Block> {
    let range =
        of_the_range(review, currency).map(|[first, whole]| [Block::paragraph(first).on_first(), Block::paragraph(whole).under_details()]);
    let few = few_orders(review).map(Block::paragraph);
    let starred = incomplete(review).map(Block::paragraph);
    std::iter::once(tiers(review, currency).into()).chain(starred).chain(range.into_iter().flatten()).chain(few).collect()
}
