//! The wage table as a person reads it.

use super::document::{Block, Column, Document, Table, Tells};
use super::words::{
    Currency, UNKNOWN, and, beside_target, capitalised, counted, during, hours, lacking_by_name, left_out_in_words, nothing_handed_over,
    number, number_unless_zero, percent, range_and_certainty, untied_in_words, verdict_and_certainty,
};
use crate::costing::minutes_each::MinutesFrom;
use crate::costing::unassigned::Unassigned;
use crate::quantity::millionths::{MILLION, Money};
use crate::reading::problem::printable;
use crate::review::first_rows::first_rows;
use crate::review::lacking::Lacking;
use crate::review::{By, Key, Row, WageTable};

/// How to show it.
#[derive(Debug, Clone, Copy)]
pub(crate) struct Style<'a> {
    /// The shop's currency.
    pub currency: &'a Currency,
    /// The wage aimed at.
    pub target: Option<Money>,
    /// Whether to show the second view, one more piece, too.
    pub both: bool,
}

/// Builds the answer, the table with its totals, and what to know of it.
#[must_use]
pub(crate) fn wage_document(table: &WageTable, style: Style<'_>) -> Document {
    let mut document = Document::new("every row, what is prepaid or left out, and how minutes were split");
    document.push(Block::paragraph(answer(table, style)));
    if table.rows.is_empty() {
        return Document { details: "", ..document };
    }
    document.section(format!("Hourly pay by {}, set-up included", grouping(table.by).replace('\n', " ")));
    let (first, all) = (first_rows(table), table.rows.iter().collect::<Vec<_>>());
    let columns = Columns { hours: !(style.both && has_intervals(table)), ..Columns::all(table, style) };
    document.push(Block::from(of_rows(table, &first, style, columns)).on_first());
    document.push(Block::from(of_rows(table, &all, style, columns)).under_details());
    let hidden: Vec<&Row> = all.iter().filter(|row| !first.contains(row)).copied().collect();
    document.extend(not_shown(table, &hidden, style).map(|note| Block::note(note).on_first()));
    // By month and by order the notes below have a sentence more.
    let leave = |note: Block| if matches!(table.by, By::Month | By::Order) { note.under_details() } else { note };
    document.extend(kept_deposits(table, columns).map(Block::note).map(leave));
    let lacking: Vec<Lacking> = table.rows.iter().filter_map(|row| row.lacking.clone()).collect();
    if !lacking.is_empty() {
        document.note(format!("Not logged: {}.", lacking_by_name(&lacking).join("; ")));
    }
    if table.unassigned != Unassigned::default() {
        let untied = untied_in_words(&table.untied, table.period, style.currency);
        let but = if table.by == By::Month { "A month's review counts what is not tied to an order, its row here does not. " } else { "" };
        document.note(format!("{but}The last row adds hours and costs not tied to an order: {untied}."));
    }
    if table.rows.iter().any(|row| row.incomplete) {
        document.note(INCOMPLETE);
    }
    document.note(if has_intervals(table) { range_and_certainty(columns.verdicts) } else { "" });
    document.extend(how_worked_out(table, style).into_iter().map(|note| Block::note(note).under_details()));
    document
}

/// What a star after a name says.
pub(crate) const INCOMPLETE: &str = "* uses something without a price, so its cost is too low; fairdozen check names it.";

/// Builds the whole table alone, with its totals.
#[must_use]
pub(crate) fn wage_table(table: &WageTable, style: Style<'_>) -> Table {
    of_rows(table, &table.rows.iter().collect::<Vec<_>>(), style, Columns::all(table, style))
}

fn of_rows(table: &WageTable, shown: &[&Row], style: Style<'_>, has: Columns) -> Table {
    let mut columns = vec![Column::name(grouping(table.by))];
    columns.extend(has.orders.then(|| Column::figures("orders")));
    let you_got = if has.hours { "you got\neach" } else { "got\neach" };
    columns.extend(["pieces", you_got].map(Column::figures));
    columns.extend(has.target.then(|| Column::figures("fair\nprice")));
    columns.extend(has.hours.then(|| Column::figures("hours")));
    columns.push(Column::of(Tells::HourlyPay));
    columns.extend(has.intervals.then(|| Column::of(Tells::Range)));
    columns.extend(style.both.then(|| Column::figures("1 more\npiece")));
    columns.extend(has.target.then(|| Column::of(Tells::Surplus)));
    columns.extend(has.verdicts.then(|| Column::of(Tells::Verdict)));
    columns.extend((has.intervals && has.verdicts).then(|| Column::of(Tells::Certainty)));
    let totals = totals(table);
    let rows = shown.iter().copied().chain(&totals).map(|row| cells(row, table.by, style, has)).collect();
    Table { columns, rows, totals: totals.len() }
}

fn grouping(by: By) -> &'static str {
    match by {
        By::OrderSize => "pieces in\nthe order",
        By::Colours => "colours in\nthe order",
        other => other.word(),
    }
}

/// What an hour paid in all, beside the target, and what that stands on.
fn answer(table: &WageTable, style: Style<'_>) -> String {
    let (all, when) = (&table.all_in, capitalised(&during(table.period)));
    if table.total.orders == 0 {
        return nothing_handed_over(table.period);
    }
    let Some(wage) = all.wage_per_hour else {
        let left = style.currency.whole(all.owner_pay);
        return format!("{when} you were left with {left} for your time. Log your hours to see your hourly pay.");
    };
    let known = if table.total.hours_known < Money(MILLION) {
        format!(" ({} of pieces have hours)", percent(table.total.hours_known))
    } else {
        String::new()
    };
    let beside = match (style.target, all.known.surplus()) {
        (Some(target), Some(surplus)) => format!(" {}", beside_target(surplus, target, style.currency)),
        _ => String::new(),
    };
    format!("{when} you earned {} an hour{known}.{beside}", style.currency.exact(wage))
}

/// Returns the total, and the total with costs not tied to an order where there are any. Neither has a verdict: what to do differs by
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
pub(crate) const WITH_ALL_COSTS: &str = "with all costs";

/// Writes the hours of the lines with known hours, which wages rest on.
#[must_use]
pub(crate) fn known_hours(row: &Row) -> String {
    if row.hours_known == Money::ZERO { UNKNOWN.to_owned() } else { hours(row.known.owner_minutes) }
}

/// Columns that are not always there: with a range, the count of orders gives way.
#[derive(Debug, Clone, Copy)]
#[expect(clippy::struct_excessive_bools, reason = "each is a column")]
struct Columns {
    orders: bool,
    intervals: bool,
    /// What is compared with the target.
    target: bool,
    verdicts: bool,
    /// Not on a terminal with both views and a range: a line has no room for them.
    hours: bool,
}

impl Columns {
    fn all(table: &WageTable, style: Style<'_>) -> Self {
        let intervals = has_intervals(table);
        let verdicts = table.rows.iter().any(|row| row.verdict.is_some());
        let orders = !style.both && !intervals && table.by != By::Order;
        Self { orders, intervals, target: style.target.is_some(), verdicts, hours: true }
    }
}

/// Whether any row is estimated from learned minutes.
fn has_intervals(table: &WageTable) -> bool {
    table.rows.iter().any(|row| row.interval.is_some())
}

/// Writes the 90 % range of hourly pay; blank where pay is counted, or too narrow for whole amounts.
#[must_use]
pub fn interval(row: &Row, currency: &Currency) -> String {
    row.interval.zip(row.wage_per_hour).map_or_else(String::new, |(interval, wage)| currency.whole_range(interval.low, wage, interval.high))
}

/// Writes the money above or below the target, to the main unit.
#[must_use]
pub(crate) fn above_or_below(row: &Row, currency: &Currency) -> String {
    row.known.surplus().map_or_else(|| UNKNOWN.to_owned(), |surplus| currency.whole(surplus))
}

/// Writes a row's name, with a star where its cost is incomplete.
#[must_use]
pub(crate) fn starred(row: &Row) -> String {
    format!("{}{}", printable(&row.key), if row.incomplete { " *" } else { "" })
}

fn cells(row: &Row, by: By, style: Style<'_>, columns: Columns) -> Vec<String> {
    let money = |money| style.currency.known(money);
    let mut cells = vec![starred(row)];
    if columns.orders {
        cells.push(number(row.orders));
    }
    cells.extend([number_unless_zero(row.pieces), money(row.known.price().or(row.price_per_piece))]);
    cells.extend(columns.target.then(|| money(row.fair_price)));
    cells.extend(columns.hours.then(|| known_hours(row)));
    cells.push(money(row.wage_per_hour));
    if columns.intervals {
        cells.push(interval(row, style.currency));
    }
    if style.both {
        cells.push(money(row.one_more_piece_wage));
    }
    cells.extend(columns.target.then(|| above_or_below(row, style.currency)));
    let [verdict, sure] = verdict_and_certainty(row, by);
    cells.extend(columns.verdicts.then(|| verdict.to_owned()));
    cells.extend((columns.intervals && columns.verdicts).then(|| sure.to_owned()));
    cells
}

/// Why there are more orders here than were handed over.
fn kept_deposits(table: &WageTable, columns: Columns) -> Option<String> {
    let (kept, all) = (table.deposits_kept, table.total.orders);
    let cancelled = if kept == 1 {
        "1 was cancelled and its deposit".to_owned()
    } else {
        format!("{} were cancelled and their deposits", number(kept))
    };
    let handed_over = if all - kept == 1 { "1 was".to_owned() } else { format!("{} were", number(all - kept)) };
    let orders = counted(all, "order", "orders");
    ((columns.orders || table.by == By::Order) && kept > 0).then(|| format!("Of the {orders} {handed_over} handed over; {cancelled} kept."))
}

/// That rows are left to `--details`: `6 more designs and delivery are nearer to $20 an hour in all.`
fn not_shown(table: &WageTable, hidden: &[&Row], style: Style<'_>) -> Option<String> {
    let (one, many) = match table.by {
        By::Design => ("design", "designs"),
        By::Tier => ("tier", "tiers"),
        By::Order => ("order", "orders"),
        By::Month => ("month", "months"),
        By::Theme => ("theme", "themes"),
        By::Channel => ("channel", "channels"),
        By::OrderSize => ("size", "sizes"),
        By::Colours => ("number of colours", "numbers of colours"),
    };
    let is_named = |row: &Row| row.group.is_some_and(|key| key == Key::NotLogged || key.has_no_cookies());
    let (named, counted_rows): (Vec<&Row>, Vec<&Row>) = hidden.iter().partition(|row| is_named(row));
    let count = counted_rows.len();
    let first = (count > 0).then(|| counted(count, &format!("more {one}"), &format!("more {many}")));
    let told: Vec<String> = first.into_iter().chain(named.iter().map(|row| printable(&row.key))).collect();
    let (are, have) = if hidden.len() == 1 { ("is", "has") } else { ("are", "have") };
    (!hidden.is_empty()).then(|| match (table.by, style.target) {
        (By::Month, _) => format!("{} {are} earlier.", and(&told)),
        (_, Some(target)) => format!("{} {are} nearer to {} an hour in all.", and(&told), style.currency.short(target)),
        _ => format!("{} {have} less revenue.", and(&told)),
    })
}

fn how_worked_out(table: &WageTable, style: Style<'_>) -> Vec<String> {
    let mut notes = Vec::new();
    if let Some(target) = style.target {
        let cost = table.total.known.full_cost().map_or_else(String::new, |cost| {
            format!(": cost + time ({} on average), with card fees as they would be at that price", style.currency.exact(cost))
        });
        notes.push(format!("A fair price is what a piece must bring in to pay {} an hour{cost}.", style.currency.short(target)));
    }
    if table.earlier != Money::ZERO {
        notes.push(format!("Earlier: {} of overhead is for months before your logs begin.", style.currency.exact(table.earlier)));
    }
    if table.prepaid != Money::ZERO {
        notes.push(format!("Prepaid: {} of overhead is for months after your logs end.", style.currency.exact(table.prepaid)));
    }
    let left = table.left_out;
    if left.quoted + left.cancelled > 0 {
        notes.push(format!("Left out: {}.", left_out_in_words(left, table.deposits_kept)));
    }
    if table.total.known.pieces > 0 && table.total.hours_known < Money(MILLION) {
        let share = percent(table.total.hours_known);
        notes.push(format!("Hours are known for {share} of the pieces: what you got, fair prices, pay and verdicts cover only those."));
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
            MinutesFrom::Card => "your own guesses (minutes_each)",
            MinutesFrom::Equal => "pieces: every piece is assumed to take the same time to decorate",
        }
    ));
    notes
}
