//! Hourly wage by tier and by theme against the target.

use super::{RANGE, Standing, amounts, target_line};
use crate::chart::{BarRow, Bars, Figure, Heading, Row as Words, Series, Sign};
use crate::quantity::millionths::Money;
use crate::report::words::{Currency, capitalised, counted, period_in_words};
use crate::review::{Key, Review, Row};

/// Charts hourly pay by tier, best paid first.
#[must_use]
pub(crate) fn wage_by_tier(review: &Review, currency: &Currency) -> Bars {
    wage(&review.tiers.rows, "tier", review, currency)
}

/// Charts hourly pay by theme, best paid first; those without a theme last.
#[must_use]
pub(crate) fn wage_by_theme(review: &Review, currency: &Currency) -> Bars {
    wage(&review.themes.rows, "theme", review, currency)
}

/// Returns whether any order had a theme.
#[must_use]
pub(crate) fn has_themes(review: &Review) -> bool {
    review.themes.rows.iter().any(|row| row.pieces > 0 && row.group != Some(Key::NotLogged))
}

/// The most bars shown.
const MOST: usize = 24;

fn wage(rows: &[Row], by: &str, review: &Review, currency: &Currency) -> Bars {
    let mut rows: Vec<&Row> = rows.iter().filter(|row| row.pieces > 0).collect();
    rows.sort_by_key(|row| (row.group == Some(Key::NotLogged), row.wage_per_hour.is_none(), row.wage_per_hour.map(|wage| -wage)));
    let left_out = rows.len().saturating_sub(MOST);
    let title = finding(&rows, currency);
    rows.truncate(MOST);
    let subtitle = format!(
        "Hourly pay by {by}, set-up included, {}{}{}",
        period_in_words(review.period),
        if rows.iter().any(|row| row.known.orders < row.orders) { "; counts are of orders with hours" } else { "" },
        if left_out == 0 { String::new() } else { format!("; {left_out} more that paid less are left out") }
    );
    let series = Standing::ALL.map(|standing| Series::new(Sign::Bar(standing.fill()), standing.in_key(review.target)));
    Bars {
        heading: Heading { title, subtitle },
        axis: "hourly pay, before your own taxes".to_owned(),
        amounts: amounts(currency),
        series: series.into(),
        range: RANGE.to_owned(),
        columns: vec![String::new()],
        rows: rows.iter().map(|row| bar(row, Standing::of_row(row, review.target), currency)).collect(),
        line: target_line(review.target, currency),
        ..Bars::default()
    }
}

fn bar(row: &Row, standing: Standing, currency: &Currency) -> BarRow {
    let figure = match (row.wage_per_hour, standing.word()) {
        (None, _) => Figure::light("no hours"),
        (Some(wage), None) => Figure::new(currency.exact(wage)),
        (Some(wage), Some((word, tone))) => Figure::new(currency.exact(wage)).with(word, tone),
    };
    BarRow {
        row: Words { name: row.key.clone(), note: stands_on(row), figures: vec![figure], ..Words::default() },
        parts: row.wage_per_hour.map(|wage| (standing as usize, wage.decimal())).into_iter().collect(),
        range: row.wage_per_hour.and(row.interval).map(|interval| (interval.low.decimal(), interval.high.decimal())),
        ..BarRow::default()
    }
}

/// The orders and pieces that a wage stands on: those with known hours.
fn stands_on(row: &Row) -> String {
    let (orders, pieces) = if row.known.pieces > 0 { (row.known.orders, row.known.pieces) } else { (row.orders, row.pieces) };
    format!("{}, {}", counted(orders, "order", "orders"), counted(pieces, "piece", "pieces"))
}

/// The worst paid and the best.
fn finding(rows: &[&Row], currency: &Currency) -> String {
    let paid: Vec<(&Row, Money)> = rows.iter().filter_map(|row| Some((*row, row.wage_per_hour?))).collect();
    let is_named = |(row, _): &&(&Row, Money)| row.group != Some(Key::NotLogged);
    let named: Vec<(&str, Money)> = paid.iter().filter(is_named).map(|(row, wage)| (row.key.as_str(), *wage)).collect();
    match (named.as_slice(), paid.as_slice()) {
        ([], []) => "Hourly pay is not known".to_owned(),
        ([], [(_, wage), ..]) => format!("You earned {} an hour", currency.exact(*wage)),
        ([(only, wage)], _) => format!("{} paid {} an hour", capitalised(only), currency.exact(*wage)),
        ([(best, most), .., (worst, least)], _) => {
            format!("{} paid {} an hour; {best} {}", capitalised(worst), currency.exact(*least), currency.exact(*most))
        }
    }
}
