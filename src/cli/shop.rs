//! Opens a shop for a command: reads it, checks it and leaves bad rows out on request.

use super::error::Error;
use super::progress::while_saying;
use super::shell::command;
use crate::costing::bill::Bill;
use crate::costing::{Costed, Options, cost};
use crate::reading::{Place, Problem, Severity};
use crate::report::document::{Block, Content};
use crate::report::minutes_document::ROUGH_RANGES;
use crate::report::problems::{Listing, count, errors, hides_some, how_many, sentences};
use crate::report::terminal;
use crate::report::words::counted;
use crate::shop::load::{Skipped, TableRead};
use crate::shop::naming::Naming;
use crate::shop::settings::Proposal;
use crate::shop::{Folder, Shop};
use std::fmt::Write;
use std::path::Path;

/// A shop that can be costed.
pub(crate) struct Opened {
    /// Its folder, as it was read.
    pub folder: Folder,
    /// The shop.
    pub shop: Shop,
    /// Warnings, assumptions, and errors of rows that were left out.
    pub problems: Vec<Problem>,
}

/// A shop, as far as it can be read.
pub(crate) struct Attempt {
    /// The folder, as it was read.
    pub folder: Folder,
    /// The shop; `None` if its settings or orders cannot be read.
    pub shop: Option<Shop>,
    /// The tables read.
    pub tables: Vec<TableRead>,
    /// What the tables suggest for `shop.toml`.
    pub proposals: Vec<Proposal>,
    /// All problems.
    pub problems: Vec<Problem>,
    /// Errors whose rows were left out.
    pub left_out: Vec<Problem>,
}

/// Reads a shop and checks what can be checked without costing it.
pub(crate) fn attempt(path: &Path, skip_bad_rows: bool, hide_orders: bool) -> Result<Attempt, Error> {
    let folder = Folder::open(path);
    let mut skipped = Skipped::new();
    let mut left_out: Vec<Problem> = Vec::new();
    loop {
        let mut loaded = folder.load(&skipped);
        if hide_orders {
            // What ids are read as would show them.
            loaded.tables.iter_mut().for_each(|table| table.words.retain(|(column, _)| *column != "order"));
        }
        match &mut loaded.shop {
            _ if !hide_orders => {}
            Some(shop) => hide_ids(shop, &mut loaded.problems),
            None => loaded.problems.iter_mut().for_each(|problem| problem.hide_order(|_| "an order".to_owned())),
        }
        let mut problems = loaded.problems;
        if let Some(shop) = &loaded.shop {
            let mut of_bill = Vec::new();
            Bill::of(shop, &mut of_bill)?;
            // Costing lists the built-in weights.
            of_bill.retain(|problem| problem.severity != Severity::Assumed);
            folder.name_problems(&mut of_bill);
            problems.append(&mut of_bill);
        }
        let bad: Vec<&Problem> = problems.iter().filter(|problem| problem.severity == Severity::Error).collect();
        let rows: Vec<&&Problem> = bad.iter().filter(|problem| problem.is_of_row()).collect();
        let is_short = rows.len() < bad.len();
        let rows: Vec<Place> = rows.iter().flat_map(|problem| problem.place.iter().chain(&problem.other_rows)).copied().collect();
        let nothing_new = rows.iter().all(|place| skipped.get(&place.source).is_some_and(|rows| rows.contains(&place.row)));
        if !skip_bad_rows || nothing_new || is_short {
            return Ok(Attempt { folder, shop: loaded.shop, tables: loaded.tables, proposals: loaded.proposals, problems, left_out });
        }
        for place in rows {
            skipped.entry(place.source).or_default().insert(place.row);
        }
        left_out.extend(bad.into_iter().cloned());
    }
}

/// Whether problems are of a single row.
fn is_one_row<'a>(mut problems: impl Iterator<Item = &'a Problem>) -> bool {
    let first = problems.next();
    first.is_some_and(|problem| problem.other_rows.is_empty()) && problems.next().is_none()
}

/// Replaces order ids by date and number, in the shop and in its problems.
fn hide_ids(shop: &mut Shop, problems: &mut [Problem]) {
    let shown = shop.orders.dated_ids();
    for problem in problems {
        problem.hide_order(|id| shop.orders.ids.find(id).map_or("an order", |order| shown.text(order)).to_owned());
    }
    shop.orders.ids = shown;
}

/// Reads a shop; fails with the list of its errors, if it has any.
pub fn open(path: &Path, skip_bad_rows: bool, hide_orders: bool) -> Result<Opened, Error> {
    let attempt = attempt(path, skip_bad_rows, hide_orders)?;
    let is_sound = count(&attempt.problems, Severity::Error) == 0;
    let Some(shop) = attempt.shop.filter(|_| is_sound) else {
        return Err(Error::data(refusal(&attempt.problems, path, &attempt.folder.naming())));
    };
    let mut problems = attempt.problems;
    problems.extend(attempt.left_out);
    Ok(Opened { folder: attempt.folder, shop, problems })
}

/// Lists the errors and says what to do next. A folder or a file that is not there is not to be corrected: its line says what to do.
fn refusal(problems: &[Problem], path: &Path, naming: &Naming) -> String {
    let bad = || problems.iter().filter(|problem| problem.severity == Severity::Error);
    let it = if bad().count() == 1 { "it" } else { "them" };
    let rows = if is_one_row(bad()) { "the row" } else { "the rows" };
    let or_skip = if bad().all(Problem::is_of_row) { format!(", or leave {rows} out with --skip-bad-rows") } else { String::new() };
    let is_written = |problem: &Problem| problem.place.is_some() || problem.column.is_some();
    let what_next = if bad().any(is_written) { format!(" Correct {it}{or_skip}.") } else { String::new() };
    let mut text = format!("{}Nothing was worked out.{what_next}\n", errors(problems, |text| naming.reworded(text)));
    if hides_some(problems, Severity::Error) {
        let _ = writeln!(text, "To list each one: {}", command(["check", &path.display().to_string(), "--all"]));
    }
    text
}

/// Costs an opened shop and adds what that finds to its problems.
pub fn costed(opened: &mut Opened, options: Options) -> Result<Costed, Error> {
    let orders = opened.shop.orders.ids.len();
    let notice = format!("Working it out from {} …", counted(orders, "order", "orders"));
    let mut costed = while_saying(&notice, || cost(&opened.shop, options))?;
    opened.folder.name_problems(&mut costed.problems);
    opened.problems.append(&mut costed.problems);
    Ok(costed)
}

/// Lists every row left out and why, for the error stream; empty if none was.
pub(crate) fn left_out_note(problems: &[Problem]) -> String {
    let count = count(problems, Severity::Error);
    if count == 0 {
        return String::new();
    }
    let errors = problems.iter().filter(|problem| problem.severity == Severity::Error);
    let rows = if is_one_row(errors) { "this row was" } else { "these rows were" };
    let lead = format!("{}, so {rows} left out:", how_many(count, Severity::Error));
    let listed = terminal::list(&lead, &sentences(problems, Severity::Error, Listing::Each, None));
    format!("{listed}An order or a recipe that lost a row is costed without it, so its figures are incomplete.\n")
}

/// Says that ranges are rough, if they are.
pub(crate) fn rough_note(costed: &Costed) -> Option<Block> {
    costed.has_rough_ranges().then(|| Block::note(format!("{ROUGH_RANGES}.")))
}

/// Says how many warnings there are and how to list them.
pub(crate) fn warnings_note(problems: &[Problem], path: &Path) -> Option<Block> {
    let count = count(problems, Severity::Warning);
    let note = || {
        format!(
            "{}. To list {}: {}",
            how_many(count, Severity::Warning),
            if count == 1 { "it" } else { "them" },
            command(["check", &path.display().to_string()])
        )
    };
    (count > 0).then(|| Content::Line(note()).into())
}
