//! A review's charts: its figures with their labels, ready to be drawn.

use crate::chart::{AmountStyle, CostChart, CostRow, Standing, WageBar, WageChart};
use crate::quantity::millionths::Money;
use crate::report::figures::{Currency, capitalised, counted, period_in_words};
use crate::review::row::Known;
use crate::review::{Review, Row};
use rust_decimal::Decimal;

fn amounts(currency: &Currency) -> AmountStyle {
    AmountStyle { prefix: currency.sign.clone(), suffix: String::new(), decimals: currency.decimals }
}

/// Hourly wage by tier against the target, best paid first.
#[must_use]
pub fn wage_by_tier(review: &Review, currency: &Currency) -> WageChart {
    let mut rows: Vec<&Row> = review.tiers.rows.iter().filter(|row| row.pieces > 0).collect();
    rows.sort_by_key(|row| (row.wage_per_hour.is_none(), row.wage_per_hour.map(|wage| -wage)));
    let bars = rows
        .iter()
        .map(|row| WageBar {
            name: row.key.clone(),
            wage: row.wage_per_hour.map(Money::decimal),
            label: row.wage_per_hour.map_or_else(|| "no hours".to_owned(), |wage| currency.exact(wage)),
            note: format!("{}, {}", counted(row.orders, "order", "orders"), counted(row.pieces, "piece", "pieces")),
            low: row.interval.map(|interval| interval.low.decimal()),
            high: row.interval.map(|interval| interval.high.decimal()),
            standing: match (row.wage_per_hour, review.target) {
                _ if !row.is_told() => Standing::Unknown,
                (Some(wage), Some(target)) if wage >= target => Standing::Over,
                (Some(_), Some(_)) => Standing::Short,
                _ => Standing::Unknown,
            },
        })
        .collect();
    WageChart {
        title: wage_finding(&rows, currency),
        subtitle: format!("Hourly wage by tier, set-up and all, {}", period_in_words(review.period)),
        axis: "paid for an hour of your time, before your own taxes".to_owned(),
        amounts: amounts(currency),
        bars,
        target: review.target.map(|target| (target.decimal(), format!("your wage {}", currency.exact(target)))),
    }
}

fn wage_finding(rows: &[&Row], currency: &Currency) -> String {
    let paid: Vec<(&str, Money)> = rows.iter().filter_map(|row| Some((row.key.as_str(), row.wage_per_hour?))).collect();
    match paid.as_slice() {
        [] => "No hourly wage can be told".to_owned(),
        [("no tier", wage)] => format!("You were paid {} an hour", currency.exact(*wage)),
        [(only, wage)] => format!("{} paid {} an hour", capitalised(only), currency.exact(*wage)),
        [(best, most), .., (worst, least)] => {
            format!("{} paid {} an hour; {best} {}", capitalised(worst), currency.exact(*least), currency.exact(*most))
        }
    }
}

/// Price beside the full cost of a piece, stacked by element, by design, most short a piece first. Rests on the lines
/// with known hours, as wages do; a design without any stands last, its time at nil.
#[must_use]
pub fn price_and_cost(review: &Review, currency: &Currency) -> CostChart {
    let mut rows: Vec<(&Row, Known)> = review.designs.rows.iter().filter(|row| row.pieces > 0).map(|row| (row, shown(row))).collect();
    let short_each = |known: &Known| known.surplus().and_then(|surplus| surplus.each_of(known.pieces));
    rows.sort_by_key(|(_, known)| (short_each(known).is_none(), short_each(known)));
    let short: Vec<&str> = rows.iter().filter(|(_, known)| is_short(known)).map(|(row, _)| row.key.as_str()).collect();
    let title = match (short.as_slice(), rows.len()) {
        (_, 0) => "Nothing was sold in this time".to_owned(),
        ([], _) if review.target.is_none() => "Price and cost of a piece, your time apart".to_owned(),
        ([], _) => "Every design brings in its full cost".to_owned(),
        ([only], 1) => format!("{} costs more than it brings in", capitalised(only)),
        (short, all) if short.len() == all => format!("All {all} designs cost more than they bring in"),
        (short, all) => format!("{} of {all} designs cost more than they bring in", short.len()),
    };
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

/// The lines with known hours; all of them, time apart, where none has.
fn shown(row: &Row) -> Known {
    if row.known.pieces > 0 {
        return row.known;
    }
    let costs = [row.ingredients, row.packaging, row.fees, row.helper_pay, row.overhead];
    Known { pieces: row.pieces, revenue: row.revenue, costs, ..Known::default() }
}

fn is_short(known: &Known) -> bool {
    known.surplus().is_some_and(|surplus| surplus < Money::ZERO)
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
        short: is_short(known),
    }
}
