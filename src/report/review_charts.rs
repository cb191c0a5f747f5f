//! A review's charts: its figures with their labels, ready to be drawn.

use super::figures::{Currency, counted};
use super::wage_text::in_words;
use crate::chart::{AmountStyle, CostChart, CostRow, Standing, WageBar, WageChart};
use crate::quantity::millionths::Money;
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
            low: None,
            high: None,
            standing: match (row.wage_per_hour, review.target) {
                (Some(wage), Some(target)) if wage >= target => Standing::Over,
                (Some(_), Some(_)) => Standing::Short,
                _ => Standing::Unknown,
            },
        })
        .collect();
    WageChart {
        title: wage_finding(&rows, currency),
        subtitle: format!("Hourly wage by tier, its share of whole orders, {}", in_words(review.period)),
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
        [(only, wage)] => format!("{} paid {} an hour", capitalised(only), currency.exact(*wage)),
        [(best, most), .., (worst, least)] => {
            format!("{} paid {} an hour; {best} {}", capitalised(worst), currency.exact(*least), currency.exact(*most))
        }
    }
}

fn capitalised(name: &str) -> String {
    let mut letters = name.chars();
    letters.next().map_or_else(String::new, |first| first.to_uppercase().chain(letters).collect())
}

/// Price beside the full cost of a piece, stacked by element, by design, most short a piece first.
#[must_use]
pub fn price_and_cost(review: &Review, currency: &Currency) -> CostChart {
    let mut rows: Vec<&Row> = review.designs.rows.iter().filter(|row| row.pieces > 0).collect();
    let short_each = |row: &Row| row.surplus.and_then(|surplus| surplus.each_of(row.pieces));
    rows.sort_by_key(|row| (short_each(row).is_none(), short_each(row)));
    let short: Vec<&&Row> = rows.iter().filter(|row| row.surplus.is_some_and(|surplus| surplus < Money::ZERO)).collect();
    let title = match (short.as_slice(), rows.len()) {
        (_, 0) => "Nothing was sold in this time".to_owned(),
        ([], _) if review.target.is_none() => "Price and cost of a piece, your time apart".to_owned(),
        ([], _) => "Every design brings in its full cost".to_owned(),
        ([only], 1) => format!("{} costs more than it brings in", capitalised(&only.key)),
        (short, all) => format!("{} of {all} designs cost more than they bring in", short.len()),
    };
    let time = review
        .target
        .map_or_else(|| "your time, not counted".to_owned(), |target| format!("your time at {} an hour", currency.exact(target)));
    let elements = ["ingredients", "packaging", "fees", "helper pay", "overhead"].map(str::to_owned).into_iter().chain([time]).collect();
    CostChart {
        title,
        subtitle: format!("A piece of each design, {}: what it brought in, and its full cost", in_words(review.period)),
        axis: "a piece".to_owned(),
        amounts: amounts(currency),
        elements,
        rows: rows.into_iter().map(|row| cost_row(row, currency)).collect(),
    }
}

fn cost_row(row: &Row, currency: &Currency) -> CostRow {
    let each = |money: Money| money.each_of(row.pieces).unwrap_or_default().decimal();
    let out_of_pocket = row.revenue - row.owner_pay;
    let full_cost = row.surplus.map_or(out_of_pocket, |surplus| row.revenue - surplus);
    let parts: Vec<Decimal> =
        [row.ingredients, row.packaging, row.fees, row.helper_pay, row.overhead, full_cost - out_of_pocket].map(each).into();
    CostRow {
        name: row.key.clone(),
        parts,
        price: each(row.revenue),
        price_label: currency.known(row.price_per_piece),
        cost_label: currency.known(full_cost.each_of(row.pieces)),
        short: row.surplus.is_some_and(|surplus| surplus < Money::ZERO),
    }
}
