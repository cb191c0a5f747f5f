//! `check`: reads every table and lists what to mend, what is worth a look, and what was taken to be so.

use super::arguments::{Check, CostingArguments};
use super::files;
use super::outcome::Outcome;
use super::shop::{Attempt, attempt};
use crate::costing::examine;
use crate::reading::{Problem, Severity};
use crate::report::check_text::{check_json, check_text};
use crate::shop::also_called::{Proposal, propose, written_into};
use crate::shop::specification::DESIGNS;
use std::collections::BTreeSet;
use std::fmt::Write;

pub fn run(arguments: &Check) -> Outcome {
    answer(arguments).unwrap_or_else(|outcome| outcome)
}

fn answer(arguments: &Check) -> Result<Outcome, Outcome> {
    let mut attempt = attempt(&arguments.shop, false, arguments.hide_orders)?;
    if arguments.names {
        return names(arguments, &attempt);
    }
    add_remarks(&mut attempt, arguments);
    let out = if arguments.json { check_json(&attempt.files, &attempt.problems) } else { check_text(&attempt.files, &attempt.problems) };
    let is_sound = attempt.problems.iter().all(|problem| problem.severity != Severity::Error);
    Ok(Outcome { out, err: String::new(), code: u8::from(!is_sound) })
}

/// A sound shop is costed, because shortfalls and assumptions only show then.
fn add_remarks(attempt: &mut Attempt, arguments: &Check) {
    let is_sound = attempt.problems.iter().all(|problem| problem.severity != Severity::Error);
    if let (Some(shop), true) = (&attempt.shop, is_sound) {
        let options = CostingArguments { cost_flow: arguments.cost_flow, ..CostingArguments::default() }.options();
        match examine(shop, options.cost_flow) {
            Ok(problems) => attempt.problems.extend(problems),
            Err(error) => attempt.problems.push(Problem::of_file(Severity::Error, "all tables", error.to_string())),
        }
    }
}

/// Misspelt designs and what they were probably meant to be; `--write` adds those accepted to the card.
fn names(arguments: &Check, attempt: &Attempt) -> Result<Outcome, Outcome> {
    let Some(shop) = attempt.shop.as_ref().filter(|shop| shop.designs.on_card) else {
        return Err(Outcome::data("Names can be added to designs.csv once that file is in the folder and can be read.\n"));
    };
    let proposals: BTreeSet<Proposal> =
        propose(&shop.designs, &attempt.problems).into_iter().filter(|proposal| !arguments.except.contains(&proposal.written)).collect();
    if proposals.is_empty() {
        return Ok(Outcome::of("No unknown design is near a known one.\n"));
    }
    let mut out = String::new();
    for proposal in &proposals {
        let _ = writeln!(out, "'{}' was probably meant to be {}", proposal.written, proposal.design);
    }
    if !arguments.write {
        out.push_str("--write adds these to also_called in designs.csv; --except NAME leaves one out.\n");
        return Ok(Outcome::of(out));
    }
    let path = arguments.shop.join(DESIGNS.file());
    let unreadable = |why: &dyn std::fmt::Display| {
        Outcome::data(format!("{}: {why}\n", Problem::of_file(Severity::Error, &DESIGNS.file(), "cannot be written")))
    };
    let card = std::fs::read(&path).map_err(|error| unreadable(&error))?;
    let none = std::collections::BTreeMap::new();
    let renamed = shop.settings.columns.get(DESIGNS.name).unwrap_or(&none);
    let card = written_into(&card, renamed, &proposals).ok_or_else(|| unreadable(&"it has no heading design"))?;
    files::write(&path, &card)?;
    out.push_str("Added to also_called in designs.csv.\n");
    Ok(Outcome::of(out))
}
