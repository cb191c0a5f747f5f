//! Price beside the full cost of a piece.

use super::{amounts, shown};
use crate::chart::{BarRow, Bars, Figure, Fill, Heading, Row as Words, Series, Sign, Tone};
use crate::costing::figure::Figure as Cost;
use crate::quantity::millionths::Money;
use crate::report::words::{Currency, capitalised, period_in_words};
use crate::review::row::Known;
use crate::review::{Review, Row};
use rust_decimal::Decimal;

/// The most designs shown.
const MOST: usize = 24;

/// Charts the price beside the full cost of a piece, stacked by element, by design, most short a piece first. Rests on the lines
/// with known hours, as wages do; a design without any stands last, its time at 0.
#[must_use]
pub(crate) fn price_and_cost(review: &Review, currency: &Currency) -> Bars {
    let mut rows: Vec<(&Row, Known)> = review.designs.rows.iter().filter(|row| row.pieces > 0).map(|row| (row, shown(row))).collect();
    let short_each = |known: &Known| known.surplus().and_then(|surplus| surplus.each_of(known.pieces));
    rows.sort_by_key(|(_, known)| (short_each(known).is_none(), short_each(known)));
    let surely: Vec<&str> = rows.iter().filter(|(row, known)| is_surely_short(row, known)).map(|(row, _)| row.key.as_str()).collect();
    let close = rows.iter().filter(|(row, _)| !row.is_conclusive()).count();
    let judged = rows.iter().filter(|(_, known)| known.surplus().is_some()).count();
    let title = finding(&surely, judged, close, review, currency);
    let left_out = rows.len().saturating_sub(MOST);
    rows.truncate(MOST);
    let time = review
        .target
        .map_or_else(|| "your time, not counted".to_owned(), |target| format!("your time at {} an hour", currency.exact(target)));
    // The time follows the costs, and then the price.
    let elements = Cost::COSTS.map(Cost::in_words).into_iter().chain([time]).enumerate();
    let series = elements.map(|(at, name)| Series::said(Sign::Bar(Fill::Part(at)), name)).chain([Series::new(Sign::Pin, "price")]);
    let subtitle = format!(
        "What you got for a piece, and its full cost, {}{}",
        period_in_words(review.period),
        if left_out == 0 { String::new() } else { format!("; {left_out} more designs, nearer to the target, are left out") }
    );
    Bars {
        heading: Heading { title, subtitle },
        axis: "a piece".to_owned(),
        amounts: amounts(currency),
        series: series.collect(),
        uncovered: "not covered".to_owned(),
        columns: ["price", "cost"].map(str::to_owned).into(),
        rows: rows.into_iter().map(|(row, known)| cost_row(row, &known, currency)).collect(),
        ..Bars::default()
    }
}

/// How many pay less than is aimed at, and how many are too close to call.
fn finding(short: &[&str], judged: usize, close: usize, review: &Review, currency: &Currency) -> String {
    let Some(target) = review.target.filter(|_| judged > 0).map(|target| currency.short(target)) else {
        let is_empty = review.designs.rows.iter().all(|row| row.pieces == 0);
        return if is_empty { "Nothing was sold in this period" } else { "Price and cost of a piece, without your time" }.to_owned();
    };
    let told = match short {
        [] if close > 0 => format!("No design is sure to pay less than {target} an hour"),
        [] => format!("Every design pays {target} an hour or more"),
        [only] if judged == 1 => format!("{} pays less than {target} an hour", capitalised(only)),
        [only] => format!("{} pays less than {target} an hour, of {judged} designs", capitalised(only)),
        all if all.len() == judged => format!("None of {judged} designs pays {target} an hour"),
        some => format!("{} of {judged} designs pay less than {target} an hour", some.len()),
    };
    if close == 0 { told } else { format!("{told}; for {close} your logs can't tell yet") }
}

/// Whether it is short, and not too close to call.
fn is_surely_short(row: &Row, known: &Known) -> bool {
    row.is_conclusive() && known.surplus().is_some_and(|surplus| surplus < Money::ZERO)
}

fn cost_row(row: &Row, known: &Known, currency: &Currency) -> BarRow {
    let each = |money: Money| money.each_of(known.pieces).unwrap_or_default().decimal();
    let parts: Vec<Decimal> = known.costs.into_iter().chain([known.time.unwrap_or_default()]).map(each).collect();
    let out_of_pocket = known.costs.into_iter().sum::<Money>().each_of(known.pieces);
    let without_hours = if row.known.pieces == 0 { ", no hours" } else { "" };
    let price = each(known.revenue);
    let cost = Figure::new(currency.known(known.full_cost().or(out_of_pocket)));
    let is_short = is_surely_short(row, known);
    let figures = vec![Figure::new(currency.known(known.price())), if is_short { cost.with("short", Tone::Bad) } else { cost }];
    BarRow {
        row: Words { name: format!("{}{without_hours}", row.key), figures, ..Words::default() },
        points: vec![(parts.len(), price)],
        parts: parts.into_iter().enumerate().collect(),
        covered: is_short.then_some(price),
        ..BarRow::default()
    }
}
