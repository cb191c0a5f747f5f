//! The wage table as a person reads it.

use super::layout::{Table, wrapped};
use super::words::{Currency, UNKNOWN, counted, hours, period_in_words};
use crate::costing::minutes_each::MinutesFrom;
use crate::costing::unassigned::Unassigned;
use crate::quantity::millionths::{Minutes, Money};
use crate::reading::problem::printable;
use crate::review::wage::LeftOut;
use crate::review::{By, Row, WageTable};
use std::fmt::Write;

/// How to show it.
#[derive(Debug, Clone, Copy)]
pub struct Style<'a> {
    /// The shop's currency.
    pub currency: &'a Currency,
    /// The wage aimed at.
    pub target: Option<Money>,
    /// Whether to show the second view, one more piece, too.
    pub both: bool,
}

/// The table with its totals and what ties it to the logs.
#[must_use]
pub fn wage_text(table: &WageTable, style: Style<'_>) -> String {
    let mut text = String::new();
    let _ = writeln!(text, "{}\n", title(table, style));
    text.push_str(&wage_table(table, style).text());
    text.push('\n');
    text.push_str(&notes(table, style));
    text
}

/// The table alone, with its totals.
#[must_use]
pub fn wage_table(table: &WageTable, style: Style<'_>) -> Table {
    let columns = Columns { orders: !style.both && !has_intervals(table), intervals: has_intervals(table) };
    let mut headings = vec![heading(table.by)];
    if columns.orders {
        headings.push("orders");
    }
    headings.extend(["pieces", "brings\neach", "costs\neach", "hours", "paid\nan hour"]);
    if columns.intervals {
        headings.push("could\nbe");
    }
    if style.both {
        headings.push("one more\npiece");
    }
    headings.extend(["over or\nshort", "verdict"]);
    let mut rows: Vec<Vec<String>> = table.rows.iter().map(|row| cells(row, style, columns)).collect();
    let totals = totals(table);
    rows.extend(totals.iter().map(|row| cells(row, style, columns)));
    Table { headings, rows, totals: totals.len() }
}

fn heading(by: By) -> &'static str {
    match by {
        By::OrderSize => "pieces in the order",
        By::Colours => "colours in the order",
        other => other.word(),
    }
}

fn title(table: &WageTable, style: Style<'_>) -> String {
    let target = style.target.map_or_else(String::new, |target| format!("; your wage is {}", style.currency.exact(target)));
    let by = match table.by {
        By::OrderSize => "pieces in the order",
        By::Colours => "colours in the order",
        other => other.word(),
    };
    format!("What an hour paid by {by}, set-up and all, {}{target}", period_in_words(table.period))
}

/// The total, and what it is with all that no order explains where there is any. Without a verdict: one design may be
/// short while the rest are over, and the remedy is the design's.
#[must_use]
pub fn totals(table: &WageTable) -> Vec<Row> {
    let named = |key: &str, row: &Row| Row { key: key.into(), verdict: None, ..row.clone() };
    let mut totals = vec![named("total", &table.total)];
    if table.unassigned != Unassigned::default() {
        totals.push(named("all in", &table.all_in));
    }
    totals
}

/// Hours of the lines with known hours, which wages rest on.
#[must_use]
pub fn known_hours(row: &Row) -> String {
    if row.hours_known == Money::ZERO { UNKNOWN.to_owned() } else { hours(row.known.owner_minutes) }
}

/// Columns that are not always there: with the range that the logs fit, the count of orders gives way.
#[derive(Debug, Clone, Copy)]
struct Columns {
    orders: bool,
    intervals: bool,
}

/// Whether any row is estimated from learned minutes.
fn has_intervals(table: &WageTable) -> bool {
    table.rows.iter().any(|row| row.interval.is_some())
}

/// The range that the logs fit; blank where the row is counted.
#[must_use]
pub fn interval(row: &Row, currency: &Currency) -> String {
    row.interval.map_or_else(String::new, |interval| currency.range(interval.low, interval.high))
}

fn cells(row: &Row, style: Style<'_>, columns: Columns) -> Vec<String> {
    let money = |money| style.currency.known(money);
    let mut name = printable(&row.key);
    if row.incomplete {
        name.push_str(" *");
    }
    let mut cells = vec![name];
    if columns.orders {
        cells.push(row.orders.to_string());
    }
    cells.extend([
        if row.pieces == 0 { String::new() } else { row.pieces.to_string() },
        money(row.known.price().or(row.price_per_piece)),
        money(row.known.full_cost()),
        known_hours(row),
        money(row.wage_per_hour),
    ]);
    if columns.intervals {
        cells.push(interval(row, style.currency));
    }
    if style.both {
        cells.push(money(row.one_more_piece_wage));
    }
    let surplus = row.known.surplus();
    cells.push(if columns.intervals {
        surplus.map_or_else(|| UNKNOWN.to_owned(), |surplus| style.currency.whole(surplus))
    } else {
        money(surplus)
    });
    cells.push(row.verdict_in_words());
    cells
}

/// What is unassigned, each part that there is: `0.5 hours, $12.40 of overhead`.
#[must_use]
pub fn unassigned_in_words(unassigned: &Unassigned, currency: &Currency) -> String {
    let time = |minutes: Minutes, of: &str| (minutes != Minutes::ZERO).then(|| format!("{} hours{of}", hours(minutes)));
    let cost = |money: Money, of: &str| (money != Money::ZERO).then(|| format!("{} of {of}", currency.exact(money)));
    let parts = [
        time(unassigned.owner_minutes, ""),
        time(unassigned.helper_minutes, " of helpers"),
        cost(unassigned.helper_pay, "helper pay"),
        cost(unassigned.ingredients, "ingredients"),
        cost(unassigned.packaging, "packaging"),
        cost(unassigned.overhead, "overhead"),
    ];
    parts.into_iter().flatten().collect::<Vec<_>>().join(", ")
}

/// Orders not handed over: `1 quoted order and 2 cancelled orders`.
#[must_use]
pub fn left_out_in_words(left: LeftOut) -> String {
    let count = |orders: usize, kind: &str| {
        let orders = i64::try_from(orders).unwrap_or(i64::MAX);
        (orders > 0).then(|| counted(orders, &format!("{kind} order"), &format!("{kind} orders")))
    };
    [count(left.quoted, "quoted"), count(left.cancelled, "cancelled")].into_iter().flatten().collect::<Vec<_>>().join(" and ")
}

/// What ties the table to the logs.
fn notes(table: &WageTable, style: Style<'_>) -> String {
    let mut text = String::new();
    let unassigned = &table.unassigned;
    if *unassigned != Unassigned::default() {
        let _ = writeln!(
            text,
            "Unassigned: {}, which no order explains; \"all in\" counts it.",
            unassigned_in_words(unassigned, style.currency)
        );
    }
    if table.prepaid != Money::ZERO {
        let _ = writeln!(text, "Prepaid: {} of overhead serves months after the logs end.", style.currency.exact(table.prepaid));
    }
    let left = table.left_out;
    if left.quoted + left.cancelled > 0 {
        let _ = writeln!(text, "Left out: {}.", left_out_in_words(left));
    }
    if table.total.pieces > 0 && table.total.hours_known < Money(1_000_000) {
        let share = super::words::percent(table.total.hours_known);
        let _ = writeln!(text, "Hours are known for {share} of the pieces: price, full cost, pay and verdict rest on those.");
    }
    if table.rows.iter().any(|row| row.incomplete) {
        let _ = writeln!(text, "* takes something without a price: its cost is incomplete (check says which).");
    }
    if has_intervals(table) {
        let note = "Paid an hour is the best estimate; what it could be is what your logs fit, nine times in ten. \
             \"Clearly\" is 19 times in 20, \"probably\" four in five. Totals are counted, not estimated.";
        let _ = writeln!(text, "{}", wrapped(note, 0));
    } else if table.total.minutes_from == MinutesFrom::Learned {
        let _ = writeln!(text, "These hours are counted from your logs, not estimated.");
    }
    let _ = writeln!(
        text,
        "Minutes of whole orders are split by {}.",
        match table.total.minutes_from {
            MinutesFrom::Learned => "minutes a piece worked out from your logs",
            MinutesFrom::Card => "your own guesses on the design card",
            MinutesFrom::Equal => "pieces, each taken to last as long as any other",
        }
    );
    text
}
