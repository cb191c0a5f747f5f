//! The wage table as a person reads it.

use super::layout::{Table, wrapped};
use super::screen::Screen;
use super::words::{
    Currency, RANGE_AND_CERTAINTY, UNKNOWN, beside_target, capitalised, counted, during, hours, left_out_in_words, nothing_handed_over,
    percent, untied_in_words, verdict_and_certainty,
};
use crate::costing::minutes_each::MinutesFrom;
use crate::costing::unassigned::Unassigned;
use crate::quantity::millionths::{MILLION, Money};
use crate::reading::problem::printable;
use crate::review::{By, Row, WageTable};

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

/// What `--details` adds.
pub const MORE: &str = "every row, what is prepaid or left out, and how minutes were split";

/// The answer, the table with its totals, and what to know of it.
#[must_use]
pub fn wage_text(table: &WageTable, style: Style<'_>, screen: Screen) -> String {
    let rows = if screen.is_whole() { table.rows.iter().collect() } else { first_rows(table) };
    let mut text = format!("{}\n\n{}\n\n", wrapped(&answer(table, style), 0), title(table));
    let columns = Columns { hours: !(style.both && has_intervals(table)), ..Columns::all(table, style) };
    text.push_str(&of_rows(table, &rows, style, columns).text());
    text.push('\n');
    text.push_str(&notes(table, rows.len(), style, screen));
    text
}

/// Rows on a first screen.
const FIRST_ROWS: usize = 11;

/// The rows farthest above or below the target in money, in their order, or those with most revenue where there is no target; of
/// months, the latest.
fn first_rows(table: &WageTable) -> Vec<&Row> {
    let mut kept: Vec<usize> = (0..table.rows.len()).collect();
    if table.by == By::Month {
        kept.drain(..kept.len().saturating_sub(FIRST_ROWS));
    } else {
        let is_judged = table.rows.iter().any(|row| row.known.surplus().is_some());
        kept.sort_by_key(|at| {
            let row = &table.rows[*at];
            -(if is_judged { row.known.surplus().unwrap_or_default() } else { row.revenue }).0.abs()
        });
        kept.truncate(FIRST_ROWS);
        kept.sort_unstable();
    }
    kept.into_iter().map(|at| &table.rows[at]).collect()
}

/// The whole table alone, with its totals.
#[must_use]
pub fn wage_table(table: &WageTable, style: Style<'_>) -> Table {
    of_rows(table, &table.rows.iter().collect::<Vec<_>>(), style, Columns::all(table, style))
}

fn of_rows(table: &WageTable, shown: &[&Row], style: Style<'_>, columns: Columns) -> Table {
    let mut headings = vec![grouping(table.by)];
    if columns.orders {
        headings.push("orders");
    }
    headings.extend(["pieces", "you got\neach", "costs\neach"]);
    headings.extend(columns.hours.then_some("hours"));
    headings.push("hourly\npay");
    if columns.intervals {
        headings.push("range\n(90 %)");
    }
    if style.both {
        headings.push("1 more\npiece");
    }
    headings.extend(["above /\nbelow", "verdict"]);
    headings.extend(columns.intervals.then_some("how\nsure"));
    let totals = totals(table);
    let rows = shown.iter().copied().chain(&totals).map(|row| cells(row, table.by, style, columns)).collect();
    Table { headings, rows, totals: totals.len() }
}

fn grouping(by: By) -> &'static str {
    match by {
        By::OrderSize => "pieces in the order",
        By::Colours => "colours in the order",
        other => other.word(),
    }
}

fn title(table: &WageTable) -> String {
    format!("Hourly pay by {}, set-up included", grouping(table.by))
}

/// What an hour paid in all, beside the target, and what that stands on.
fn answer(table: &WageTable, style: Style<'_>) -> String {
    let (all, when) = (&table.all_in, capitalised(&during(table.period)));
    if table.total.orders == 0 {
        return nothing_handed_over(table.period);
    }
    let Some(wage) = all.wage_per_hour else {
        let left = style.currency.whole(all.owner_pay);
        return format!("{when} you were left with {left} for your time; no hours are known, so hourly pay is unknown.");
    };
    let known = if table.total.hours_known < Money(MILLION) {
        format!(" ({} of pieces have hours)", percent(table.total.hours_known))
    } else {
        String::new()
    };
    let beside = match (style.target, all.known.surplus()) {
        (Some(target), Some(surplus)) => format!(", {}", beside_target(surplus, target, style.currency)),
        _ => String::new(),
    };
    format!("{when} you earned {} an hour{beside}{known}.", style.currency.exact(wage))
}

/// The total, and the total with costs outside these orders where there are any. Neither has a verdict: what to do differs by
/// design.
#[must_use]
pub fn totals(table: &WageTable) -> Vec<Row> {
    let named = |key: &str, row: &Row| Row { key: key.into(), verdict: None, ..row.clone() };
    let mut totals = vec![named("total", &table.total)];
    if table.unassigned != Unassigned::default() {
        totals.push(named(WITH_ALL_COSTS, &table.all_in));
    }
    totals
}

/// The row that adds hours and costs not tied to an order.
pub const WITH_ALL_COSTS: &str = "with all costs";

/// Hours of the lines with known hours, which wages rest on.
#[must_use]
pub fn known_hours(row: &Row) -> String {
    if row.hours_known == Money::ZERO { UNKNOWN.to_owned() } else { hours(row.known.owner_minutes) }
}

/// Columns that are not always there: with a range, the count of orders gives way.
#[derive(Debug, Clone, Copy)]
struct Columns {
    orders: bool,
    intervals: bool,
    /// Not on a terminal with both views and a range: a line has no room for them.
    hours: bool,
}

impl Columns {
    fn all(table: &WageTable, style: Style<'_>) -> Self {
        let intervals = has_intervals(table);
        Self { orders: !style.both && !intervals, intervals, hours: true }
    }
}

/// Whether any row is estimated from learned minutes.
fn has_intervals(table: &WageTable) -> bool {
    table.rows.iter().any(|row| row.interval.is_some())
}

/// The 90 % range of hourly pay; blank where pay is counted.
#[must_use]
pub fn interval(row: &Row, currency: &Currency) -> String {
    row.interval.map_or_else(String::new, |interval| currency.range(interval.low, interval.high))
}

fn cells(row: &Row, by: By, style: Style<'_>, columns: Columns) -> Vec<String> {
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
    ]);
    cells.extend(columns.hours.then(|| known_hours(row)));
    cells.push(money(row.wage_per_hour));
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
    let [verdict, sure] = verdict_and_certainty(row, by);
    cells.push(verdict.to_owned());
    cells.extend(columns.intervals.then(|| sure.to_owned()));
    cells
}

/// What to know of the table, the rest of it with `--details`.
fn notes(table: &WageTable, shown: usize, style: Style<'_>, screen: Screen) -> String {
    let mut notes = Vec::new();
    notes.extend(not_shown(table, shown, style));
    if table.unassigned != Unassigned::default() {
        notes.push(format!(
            "The last row adds hours and costs not tied to an order: {}.",
            untied_in_words(&table.untied, table.period, style.currency)
        ));
    }
    if table.rows.iter().any(|row| row.incomplete) {
        notes.push("* uses something without a price, so its cost is too low; fairdozen check names it.".to_owned());
    }
    if has_intervals(table) {
        notes.push(RANGE_AND_CERTAINTY.to_owned());
    }
    if screen.is_whole() {
        notes.extend(how_worked_out(table, style));
    }
    notes.iter().map(|note| wrapped(note, 0) + "\n").collect()
}

/// That rows are left to `--details`.
fn not_shown(table: &WageTable, shown: usize, style: Style<'_>) -> Option<String> {
    let hidden = i64::try_from(table.rows.len() - shown).ok().filter(|hidden| *hidden > 0)?;
    let rows = counted(hidden, "more row", "more rows");
    Some(match (table.by, style.target) {
        (By::Month, _) => format!("{rows}: earlier months."),
        (_, Some(target)) => format!("{rows}, each with less money above or below {} an hour.", style.currency.short(target)),
        _ => format!("{rows}, each with less revenue."),
    })
}

fn how_worked_out(table: &WageTable, style: Style<'_>) -> Vec<String> {
    let mut notes = Vec::new();
    if table.prepaid != Money::ZERO {
        notes.push(format!("Prepaid: {} of overhead is for months after your logs end.", style.currency.exact(table.prepaid)));
    }
    let left = table.left_out;
    if left.quoted + left.cancelled > 0 {
        notes.push(format!("Left out: {}.", left_out_in_words(left)));
    }
    if table.total.known.pieces > 0 && table.total.hours_known < Money(MILLION) {
        let share = percent(table.total.hours_known);
        notes.push(format!("Hours are known for {share} of the pieces: what you got, costs, pay and verdicts cover only those."));
    }
    if has_intervals(table) {
        notes.push("Hourly pay in a row is the best estimate. Totals are counted from your logs, not estimated.".to_owned());
    } else if table.total.minutes_from == MinutesFrom::Learned {
        notes.push("These hours are counted from your logs, not estimated.".to_owned());
    }
    notes.push(format!(
        "The minutes of whole orders are split by {}.",
        match table.total.minutes_from {
            MinutesFrom::Learned => "the minutes per piece that your logs show",
            MinutesFrom::Card => "your own guesses on the design card",
            MinutesFrom::Equal => "pieces: every piece is assumed to take the same time to decorate",
        }
    ));
    notes
}
