//! Hourly wage by tier and by theme against the target.

use super::{amounts, standing};
use crate::chart::{WageBar, WageChart};
use crate::quantity::millionths::Money;
use crate::report::words::{Currency, capitalised, counted, period_in_words};
use crate::review::{Review, Row};

/// By tier, best paid first.
#[must_use]
pub fn wage_by_tier(review: &Review, currency: &Currency) -> WageChart {
    wage(&review.tiers.rows, "tier", review, currency)
}

/// By theme, best paid first; those without a theme last.
#[must_use]
pub fn wage_by_theme(review: &Review, currency: &Currency) -> WageChart {
    wage(&review.themes.rows, "theme", review, currency)
}

/// Whether any order had a theme.
#[must_use]
pub fn has_themes(review: &Review) -> bool {
    review.themes.rows.iter().any(|row| row.pieces > 0 && row.key != "no theme")
}

/// The most bars shown.
const MOST: usize = 24;

fn wage(rows: &[Row], by: &str, review: &Review, currency: &Currency) -> WageChart {
    let none = format!("no {by}");
    let mut rows: Vec<&Row> = rows.iter().filter(|row| row.pieces > 0).collect();
    rows.sort_by_key(|row| (row.key == none, row.wage_per_hour.is_none(), row.wage_per_hour.map(|wage| -wage)));
    let left_out = rows.len().saturating_sub(MOST);
    let title = finding(&rows, &none, currency);
    rows.truncate(MOST);
    let bars = rows
        .iter()
        .map(|row| WageBar {
            name: row.key.clone(),
            wage: row.wage_per_hour.map(Money::decimal),
            label: row.wage_per_hour.map_or_else(|| "no hours".to_owned(), |wage| currency.exact(wage)),
            note: stands_on(row),
            low: row.interval.map(|interval| interval.low.decimal()),
            high: row.interval.map(|interval| interval.high.decimal()),
            standing: standing(row, review.target),
        })
        .collect();
    WageChart {
        title,
        subtitle: format!(
            "Hourly pay by {by}, set-up included, {}{}",
            period_in_words(review.period),
            if left_out == 0 { String::new() } else { format!("; {left_out} more that paid less are left out") }
        ),
        axis: "hourly pay, before your own taxes".to_owned(),
        amounts: amounts(currency),
        bars,
        target: review.target.map(|target| (target.decimal(), format!("target {}", currency.exact(target)))),
    }
}

/// The orders and pieces that a wage stands on: those with known hours.
fn stands_on(row: &Row) -> String {
    let (orders, pieces) = if row.known.pieces > 0 { (row.known.orders, row.known.pieces) } else { (row.orders, row.pieces) };
    format!("{}, {}", counted(orders, "order", "orders"), counted(pieces, "piece", "pieces"))
}

/// The worst paid and the best.
fn finding(rows: &[&Row], none: &str, currency: &Currency) -> String {
    let paid: Vec<(&str, Money)> = rows.iter().filter_map(|row| Some((row.key.as_str(), row.wage_per_hour?))).collect();
    let named: Vec<&(&str, Money)> = paid.iter().filter(|(name, _)| *name != none).collect();
    match (named.as_slice(), paid.as_slice()) {
        ([], []) => "Hourly pay is not known".to_owned(),
        ([], [(_, wage), ..]) => format!("You earned {} an hour", currency.exact(*wage)),
        ([(only, wage)], _) => format!("{} paid {} an hour", capitalised(only), currency.exact(*wage)),
        ([(best, most), .., (worst, least)], _) => {
            format!("{} paid {} an hour; {best} {}", capitalised(worst), currency.exact(*least), currency.exact(*most))
        }
    }
}
