//! `check`: reads every table and lists errors, warnings and assumptions.

use super::arguments::{Check, CostingArguments};
use super::error::Error;
use super::files::tables::Change;
use super::outcome::Outcome;
use super::screen::on_screen;
use super::settings_file;
use super::shop::{Attempt, attempt};
use crate::costing::{CostingError, examine};
use crate::reading::problem::printable;
use crate::reading::{Problem, ProblemKind, Severity};
use crate::report::check_document::{check_document, check_json};
use crate::report::excerpt::excerpt;
use crate::report::problems::{Listing, errors};
use crate::report::screen::Screen;
use crate::report::words::{Currency, counted};
use crate::review::problem_groups::row_by_row;
use crate::shop::also_called::{Proposal, add, propose};
use crate::shop::load::Skipped;
use crate::shop::new_card;
use crate::shop::specification::DESIGNS;
use crate::shop::table_edit::{Renamed, TableEdit};
use crate::shop::writable::NotWritable;
use crate::shop::{Shop, card_fees};
use std::collections::BTreeSet;
use std::fmt::Write;
use std::io::IsTerminal;
use std::sync::OnceLock;

/// Set where problems may be shown with their rows.
static SHOWS_ROWS: OnceLock<()> = OnceLock::new();

/// Lets `check --all` show each problem with its row, where the output is a terminal; in files and pipes each stays a sentence.
pub fn show_rows_on_a_terminal() {
    if std::io::stdout().is_terminal() {
        SHOWS_ROWS.get_or_init(|| ());
    }
}

pub fn run(arguments: &Check) -> Result<Outcome, Error> {
    let read = || attempt(&arguments.shop, false, arguments.hide_orders);
    let mut attempt = read()?;
    if arguments.names {
        return names(arguments, &attempt);
    }
    let written = if arguments.write { settings_file::write(&attempt, arguments.currency.as_deref())? + "\n" } else { String::new() };
    if !written.is_empty() {
        attempt = read()?;
    }
    add_remarks(&mut attempt, arguments)?;
    let out = if arguments.json {
        check_json(&attempt.tables, &attempt.problems, &attempt.proposals)?
    } else {
        let currency = attempt.shop.as_ref().map(|shop| Currency::of(&shop.settings.currency));
        let listing = if arguments.all { Listing::Each } else { Listing::Grouped };
        // A row shows its order's id, whatever the problem is of.
        let is_shown = arguments.all && !arguments.hide_orders && SHOWS_ROWS.get().is_some();
        let (shown, listed) = if is_shown { excerpts(&attempt, currency.as_ref()) } else { (String::new(), attempt.problems.clone()) };
        let document = check_document(&attempt.tables, &attempt.problems, &listed, &attempt.proposals, listing, currency.as_ref());
        // What a group has in common is worded for files.
        let naming = attempt.folder.naming();
        shown + &on_screen(&document.with_lists(|text| naming.reworded(text)), Screen::Details)
    };
    let is_sound = attempt.problems.iter().all(|problem| problem.severity != Severity::Error);
    Ok(Outcome { out: written + &out, err: String::new(), code: u8::from(!is_sound) })
}

/// Each error and warning of one cell, with its row; and the problems that are of none.
fn excerpts(attempt: &Attempt, currency: Option<&Currency>) -> (String, Vec<Problem>) {
    let is_coloured = std::env::var_os("NO_COLOR").is_none_or(|value| value.is_empty());
    let sorted: Vec<&Problem> =
        [Severity::Error, Severity::Warning].into_iter().flat_map(|severity| row_by_row(&attempt.problems, severity)).collect();
    let (mut text, mut listed) = (String::new(), Vec::new());
    for (problem, row) in sorted.iter().zip(attempt.folder.excerpts(&sorted)) {
        match row {
            Some(row) => text += &(excerpt(problem, &row, currency, is_coloured) + "\n"),
            None => listed.push((*problem).clone()),
        }
    }
    listed.extend(attempt.problems.iter().filter(|problem| problem.severity == Severity::Assumed).cloned());
    (text, listed)
}

/// A shop whose figures are too large to be costed.
static NOT_COSTED: ProblemKind = ProblemKind::single(Severity::Error, "not-costed");

/// Costs a shop without errors, which finds shortfalls and assumptions.
fn add_remarks(attempt: &mut Attempt, arguments: &Check) -> Result<(), Error> {
    let is_sound = attempt.problems.iter().all(|problem| problem.severity != Severity::Error);
    if let (Some(shop), true) = (&attempt.shop, is_sound) {
        attempt.problems.extend(card_fees::assumed(shop));
        let options = CostingArguments { cost_flow: arguments.cost_flow, ..CostingArguments::default() }.options();
        match examine(shop, options.cost_flow) {
            Ok(mut problems) => {
                attempt.folder.name_problems(&mut problems);
                attempt.problems.append(&mut problems);
            }
            Err(CostingError::TooLarge(error)) => attempt.problems.push(Problem::of_file(&NOT_COSTED, "all tables", error.to_string())),
            Err(error) => return Err(error.into()),
        }
    }
    Ok(())
}

/// Lists unknown names with the design each probably stands for; `--write` adds them to the card, but for those excepted.
fn names(arguments: &Check, attempt: &Attempt) -> Result<Outcome, Error> {
    let writable = attempt.folder.writable(&DESIGNS);
    let Some(shop) = &attempt.shop else {
        let naming = attempt.folder.naming();
        let listed = errors(&attempt.problems, |text| naming.reworded(text));
        return Err(Error::data(format!("{listed}Names cannot be looked up before that.\n")));
    };
    if !shop.designs.on_card {
        return new_card(arguments, attempt, writable, shop);
    }
    let proposals: BTreeSet<Proposal> =
        propose(&shop.designs, &attempt.problems).into_iter().filter(|proposal| !arguments.except.contains(&proposal.written)).collect();
    if proposals.is_empty() {
        return Ok(Outcome::of("No unknown name is close to a design's name.\n"));
    }
    let mut out = String::new();
    for proposal in &proposals {
        let _ = writeln!(out, "'{}' is probably {}", proposal.written, proposal.design);
    }
    if !arguments.write {
        let _ = match &writable {
            Ok(file) => {
                writeln!(out, "--write adds them under also_called in {}; --except NAME leaves one out.", attempt.folder.name(file))
            }
            Err(why) => writeln!(out, "Write them under also_called by hand: {why}."),
        };
        return Ok(Outcome::of(out));
    }
    let file = writable?;
    let change = with_names(attempt, &file, shop, &proposals).ok_or_else(|| {
        let card = attempt.folder.name(&file);
        Error::data(format!("{card}: the names could not be added, so nothing was changed; write them under also_called by hand\n"))
    })?;
    change.commit()?;
    let _ = writeln!(out, "Added under also_called in {}.", attempt.folder.name(&file));
    Ok(Outcome::of(out))
}

/// Lists the rows of a designs card for a shop that has none; `--write` creates it.
fn new_card(arguments: &Check, attempt: &Attempt, writable: Result<String, NotWritable>, shop: &Shop) -> Result<Outcome, Error> {
    let rows = new_card::rows(&shop.designs, &shop.orders, &attempt.problems, &arguments.except);
    let old = writable.as_ref().ok().and_then(|file| attempt.folder.bytes(file)).filter(|old| !old.trim_ascii().is_empty());
    let none = Renamed::new();
    let renamed = shop.settings.columns.get(DESIGNS.name).unwrap_or(&none);
    let mut card = TableEdit::of(old.unwrap_or(new_card::HEADINGS.as_bytes()), &DESIGNS, renamed);
    let written = card.as_mut().and_then(|card| new_card::add(card, &rows).map(|()| card.finish()));
    let name = match &writable {
        Ok(file) => attempt.folder.name(file).to_owned(),
        Err(_) => attempt.folder.naming().reworded(&DESIGNS.file()),
    };
    let Some(written) = written else {
        return Err(Error::data(format!("{name} cannot be changed as it stands, so nothing was written; correct its headings first\n")));
    };
    let designs = counted(rows.len(), "design", "designs");
    if arguments.write {
        Change::new(&attempt.folder, vec![(writable?, written)]).commit()?;
        return Ok(Outcome::of(format!("Your new {name} has {designs}. Fill in their tiers and sizes where you have them.\n")));
    }
    let text = String::from_utf8_lossy(&written);
    let lead =
        if old.is_some() || writable.is_err() { format!("No designs are listed in {name}.") } else { format!("You have no {name}.") };
    let mut out = format!("{lead} These rows would list the {designs} you sold, each with the\nnames that look like it:\n\n");
    for line in text.lines() {
        let _ = writeln!(out, "  {}", printable(line));
    }
    let _ = match writable {
        Ok(_) => writeln!(out, "\n--write puts them into {name}; --except NAME keeps a name as a design of its own."),
        Err(why) => writeln!(out, "\nWrite them there by hand: {why}."),
    };
    Ok(Outcome::of(out))
}

/// Adds the names to the designs card and reads it again: `None` unless every name then finds its design.
fn with_names<'a>(attempt: &'a Attempt, file: &str, shop: &Shop, proposals: &BTreeSet<Proposal>) -> Option<Change<'a>> {
    let none = Renamed::new();
    let renamed = shop.settings.columns.get(DESIGNS.name).unwrap_or(&none);
    let mut card = TableEdit::of(attempt.folder.bytes(file)?, &DESIGNS, renamed)?;
    add(&mut card, &shop.designs, proposals)?;
    let change = Change::new(&attempt.folder, vec![(file.to_owned(), card.finish())]);
    let changed = change.changed().load(&Skipped::new()).shop?.designs;
    let is_known = |Proposal { written, design }: &Proposal| changed.find(written).is_some_and(|found| changed.names.text(found) == design);
    proposals.iter().all(is_known).then_some(change)
}
