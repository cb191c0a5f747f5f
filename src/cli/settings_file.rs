//! Writes into `shop.toml` what `check` understood: headings of her own and the formats of columns, never what is in doubt.

use super::error::Error;
use super::files::tables::Change;
use super::shop::Attempt;
use crate::reading::{Problem, Severity};
use crate::report::understood::block;
use crate::shop::Folder;
use crate::shop::kinds::{MISSING_FILE, NO_CURRENCY};
use crate::shop::load::Skipped;
use crate::shop::settings::{FILE, Proposal, with_currency, with_proposals};
use std::fmt::Write;

const MARK: &str = "\u{FEFF}";

/// Writes all proposals, and the currency where the shop has none; says what was written.
pub fn write(attempt: &Attempt, currency: Option<&str>) -> Result<String, Error> {
    let folder = &attempt.folder;
    let old = match folder.bytes(FILE).map(std::str::from_utf8) {
        Some(Ok(text)) => text,
        None => "",
        Some(Err(_)) => return Err(Error::data(format!("{FILE} has letters that are not UTF-8: save it as UTF-8, then run this again\n"))),
    };
    let (mark, plain) = old.strip_prefix(MARK).map_or(("", old), |plain| (MARK, plain));
    let mut text = with_currency_asked(attempt, plain, currency)?;
    let mut written: Vec<Proposal> = Vec::new();
    // A heading that is mapped has a column behind it, whose format may then be found.
    loop {
        let loaded = changed(folder, &text).load(&Skipped::new());
        let new: Vec<Proposal> = loaded.proposals.into_iter().filter(|proposal| !written.contains(proposal)).collect();
        if new.is_empty() {
            refuse_new_errors(attempt, &loaded.problems)?;
            break;
        }
        text = with_proposals(&text, &new)
            .ok_or_else(|| Error::data(format!("{FILE} could not be changed as it stands, so nothing was written; correct it first\n")))?;
        written.extend(new);
    }
    if text == plain {
        return Ok(format!("Nothing was written: {FILE} holds all that was understood already.\n"));
    }
    Change::new(folder, vec![(FILE.to_owned(), format!("{mark}{text}").into_bytes())]).commit()?;
    let is_new = folder.bytes(FILE).is_none();
    let mut said = format!("{} {}:\n", if is_new { "Your new" } else { "Written into" }, folder.name(FILE));
    if currency.is_some() {
        let _ = writeln!(said, "  {}", text.lines().find(|line| line.starts_with("currency")).unwrap_or_default());
    }
    for line in block(&written) {
        let _ = writeln!(said, "  {line}");
    }
    Ok(said)
}

fn changed(folder: &Folder, text: &str) -> Folder {
    folder.with([(FILE, text.as_bytes())])
}

/// The settings with the currency that was asked for, where they have none.
fn with_currency_asked(attempt: &Attempt, text: &str, currency: Option<&str>) -> Result<String, Error> {
    let is_missing =
        attempt.problems.iter().any(|problem| *problem.kind == NO_CURRENCY || (*problem.kind == MISSING_FILE && problem.file == FILE));
    let Some(code) = currency.map(str::to_uppercase) else {
        return if is_missing {
            Err(Error::usage(format!("{FILE} does not say your currency; add --currency USD, or your own three-letter code")))
        } else {
            Ok(text.to_owned())
        };
    };
    if !is_missing {
        return Err(Error::usage(format!("{FILE} names your currency already; leave --currency out")));
    }
    with_currency(text, &code).ok_or_else(|| Error::usage(format!("'{code}' is not a currency; write USD, EUR, GBP or another")))
}

/// What was read alike before must be read alike after: no error of the settings may be new.
fn refuse_new_errors(attempt: &Attempt, problems: &[Problem]) -> Result<(), Error> {
    let is_new = |problem: &&Problem| problem.severity == Severity::Error && !problem.is_of_table() && !attempt.problems.contains(problem);
    match problems.iter().find(is_new) {
        Some(problem) => Err(Error::data(format!("Nothing was written, because {FILE} would have an error: {problem}\n"))),
        None => Ok(()),
    }
}
