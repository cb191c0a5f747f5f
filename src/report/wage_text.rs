//! The wage table as a person reads it.

use super::figures::{Currency, counted, hours};
use super::layout::aligned;
use crate::quantity::millionths::{Minutes, Money};
use crate::quantity::{Month, Period};
use crate::reading::problem::printable;
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
    let mut headings = vec![heading(table.by)];
    if !style.both {
        headings.push("orders");
    }
    headings.extend(["pieces", "price\na piece", "full cost\na piece", "hours", "paid\nan hour"]);
    if style.both {
        headings.push("one more\npiece");
    }
    headings.extend(["over or\nshort", "verdict"]);
    let mut rows: Vec<Vec<String>> = table.rows.iter().map(|row| cells(row, style)).collect();
    rows.push(cells(&Row { key: "total".into(), ..table.total.clone() }, style));
    rows.push(cells(&Row { key: "all in".into(), ..table.all_in.clone() }, style));
    text.push_str(&aligned(&headings, &rows, 2));
    text.push('\n');
    text.push_str(&notes(table, style));
    text
}

fn heading(by: By) -> &'static str {
    match by {
        By::OrderSize => "pieces in the order",
        By::Colours => "colours in the order",
        other => other.word(),
    }
}

fn title(table: &WageTable, style: Style<'_>) -> String {
    let target = style.target.map_or_else(String::new, |target| format!(", against {} an hour", style.currency.exact(target)));
    format!("What each {} paid, its share of whole orders, {}{target}", heading(table.by), in_words(table.period))
}

/// A period in words.
#[must_use]
pub fn in_words(period: Period) -> String {
    match (period.month().map(Month::in_words), period.from, period.to) {
        (Some(month), ..) => month,
        (None, None, None) => "all time".into(),
        (None, Some(from), None) => format!("from {from}"),
        (None, None, Some(to)) => format!("until {to}"),
        (None, Some(from), Some(to)) => format!("{from} to {to}"),
    }
}

fn cells(row: &Row, style: Style<'_>) -> Vec<String> {
    let money = |money| style.currency.known(money);
    let mut name = printable(&row.key);
    if row.incomplete {
        name.push_str(" *");
    }
    let mut cells = vec![name];
    if !style.both {
        cells.push(row.orders.to_string());
    }
    cells.extend([
        if row.pieces == 0 { String::new() } else { row.pieces.to_string() },
        money(row.known.price().or(row.price_per_piece)),
        money(row.known.full_cost()),
        hours(row.owner_minutes),
        money(row.wage_per_hour),
    ]);
    if style.both {
        cells.push(money(row.one_more_piece_wage));
    }
    cells.push(money(row.known.surplus()));
    cells.push(row.verdict.map_or("", crate::review::Verdict::words).to_owned());
    cells
}

/// What ties the table to the logs.
fn notes(table: &WageTable, style: Style<'_>) -> String {
    let mut text = String::new();
    let unassigned = &table.unassigned;
    if unassigned.owner_minutes != Minutes::ZERO || unassigned.cost() != Money::ZERO {
        let hours = hours(unassigned.owner_minutes);
        let cost =
            if unassigned.cost() == Money::ZERO { String::new() } else { format!(" and {}", style.currency.exact(unassigned.cost())) };
        let _ = writeln!(text, "Unassigned: {hours} hours{cost} that no order explains; the last line counts them in.");
    }
    if table.prepaid != Money::ZERO {
        let _ = writeln!(text, "Prepaid: {} of overhead serves months after the logs end.", style.currency.exact(table.prepaid));
    }
    let left = table.left_out;
    if left.quoted + left.cancelled > 0 {
        let quoted = counted(i64::try_from(left.quoted).unwrap_or_default(), "quoted order", "quoted orders");
        let cancelled = counted(i64::try_from(left.cancelled).unwrap_or_default(), "cancelled one", "cancelled ones");
        let _ = writeln!(text, "Left out: {quoted} and {cancelled}.");
    }
    if table.total.pieces > 0 && table.total.hours_known < Money(1_000_000) {
        let share = super::figures::percent(table.total.hours_known);
        let _ = writeln!(text, "Hours are known for {share} of the pieces: price, full cost, pay and verdict rest on those.");
    }
    if table.rows.iter().any(|row| row.incomplete) {
        let _ = writeln!(text, "* takes something without a price: its cost is incomplete (check says which).");
    }
    let _ = writeln!(
        text,
        "Minutes of whole orders are split by {}.",
        match table.total.minutes_from {
            crate::costing::minutes_each::MinutesFrom::Card => "your own guesses on the design card",
            crate::costing::minutes_each::MinutesFrom::Equal => "pieces, each taken to last as long as any other",
        }
    );
    text
}
