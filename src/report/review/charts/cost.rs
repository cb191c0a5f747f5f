//! Price beside the full cost of a piece.

use super::{amounts, shown};
use crate::chart::{CostChart, CostRow};
use crate::quantity::millionths::Money;
use crate::report::figures::{Currency, capitalised, period_in_words};
use crate::review::row::Known;
use crate::review::{Review, Row};
use rust_decimal::Decimal;

/// Price beside the full cost of a piece, stacked by element, by design, most short a piece first. Rests on the lines
/// with known hours, as wages do; a design without any stands last, its time at nil.
#[must_use]
pub fn price_and_cost(review: &Review, currency: &Currency) -> CostChart {
    let mut rows: Vec<(&Row, Known)> = review.designs.rows.iter().filter(|row| row.pieces > 0).map(|row| (row, shown(row))).collect();
    let short_each = |known: &Known| known.surplus().and_then(|surplus| surplus.each_of(known.pieces));
    rows.sort_by_key(|(_, known)| (short_each(known).is_none(), short_each(known)));
    let short: Vec<&str> = rows.iter().filter(|(row, known)| is_surely_short(row, known)).map(|(row, _)| row.key.as_str()).collect();
    let close = rows.iter().filter(|(row, _)| !row.is_told()).count();
    let title = match (short.as_slice(), rows.len()) {
        (_, 0) => "Nothing was sold in this time".to_owned(),
        ([], _) if review.target.is_none() => "Price and cost of a piece, your time apart".to_owned(),
        ([], _) if close > 0 => "No design surely costs more than it brings in".to_owned(),
        ([], _) => "Every design brings in its full cost".to_owned(),
        ([only], 1) => format!("{} costs more than it brings in", capitalised(only)),
        (short, all) if short.len() == all => format!("All {all} designs cost more than they bring in"),
        (short, all) => format!("{} of {all} designs cost more than they bring in", short.len()),
    };
    let title = if close == 0 || rows.is_empty() { title } else { format!("{title}; {close} too close to call") };
    let time = review
        .target
        .map_or_else(|| "your time, not counted".to_owned(), |target| format!("your time at {} an hour", currency.exact(target)));
    let elements = ["ingredients", "packaging", "fees", "helper pay", "overhead"].map(str::to_owned).into_iter().chain([time]).collect();
    CostChart {
        title,
        subtitle: format!("A piece of each design, {}: what it brought in, and its full cost", period_in_words(review.period)),
        axis: "a piece".to_owned(),
        amounts: amounts(currency),
        elements,
        rows: rows.into_iter().map(|(row, known)| cost_row(row, &known, currency)).collect(),
    }
}

/// Whether it is short, and not too close to call.
fn is_surely_short(row: &Row, known: &Known) -> bool {
    row.is_told() && known.surplus().is_some_and(|surplus| surplus < Money::ZERO)
}

fn cost_row(row: &Row, known: &Known, currency: &Currency) -> CostRow {
    let each = |money: Money| money.each_of(known.pieces).unwrap_or_default().decimal();
    let parts: Vec<Decimal> = known.costs.into_iter().chain([known.time.unwrap_or_default()]).map(each).collect();
    let out_of_pocket = known.costs.into_iter().sum::<Money>().each_of(known.pieces);
    let without_hours = if row.known.pieces == 0 { ", no hours" } else { "" };
    CostRow {
        name: format!("{}{without_hours}", row.key),
        parts,
        price: each(known.revenue),
        price_label: currency.known(known.price()),
        cost_label: currency.known(known.full_cost().or(out_of_pocket)),
        short: is_surely_short(row, known),
    }
}
