//! What a table's files suggest for `shop.toml`: headings of her own.

use super::kinds::{HEADING_UNCLEAR, NO_SUCH_HEADING};
use super::settings::{self, Proposal};
use crate::reading::folding;
use crate::reading::headings::{Candidates, candidates, quoted};
use crate::reading::nearest::nearest;
use crate::reading::specification::Kind;
use crate::reading::table::Reading;
use crate::reading::{Problem, Table, TableSpecification};
use std::collections::{BTreeMap, BTreeSet};

/// One file of a table, as far as its headings go.
pub(super) struct Headed<'a> {
    /// What to call it.
    pub file: &'a str,
    /// Its headings; none where they could not be read.
    pub headings: Vec<String>,
    /// Reads it anew in another way, with what is then wrong in it.
    pub reread: Box<dyn Fn(&Reading) -> (Table, Vec<Problem>) + 'a>,
}

/// Most unreadable cells in ten for a heading to be proposed for a column.
const UNREADABLE_IN_TEN: usize = 1;
/// Text columns of names or words: a column of numbers or dates is none of them.
const WORDED: [&str; 8] = ["item", "supplier", "stage", "what", "theme", "channel", "who", "design"];

/// Headings that are surely a column of the table in each of its files that has them; the others are asked about.
///
/// A heading is surely a column where it is an everyday word or a near spelling of that one alone, no other heading of the file could be
/// the column, and the cells look like it. Where several headings or columns come in question, the cells may leave one pair.
pub(super) fn heading_proposals(
    table: &TableSpecification,
    files: &[Headed<'_>],
    reading: &Reading,
    problems: &mut Vec<Problem>,
) -> Vec<Proposal> {
    let with = |file: &Headed<'_>, heading: &str| file.headings.iter().any(|other| folding::word(other) == folding::word(heading));
    let looks_like = |heading: &str, column: &str| {
        let mut mapped = reading.clone();
        mapped.columns.insert(heading.to_owned(), column.to_owned());
        let is_read = |file: &Headed<'_>| !with(file, heading) || is_readable(table, &(file.reread)(&mapped), column);
        files.iter().all(is_read)
    };
    let mut found: Vec<Candidates> = files.iter().map(|file| candidates(table, &file.headings, &reading.columns)).collect();
    for found in &mut found {
        found.open.retain(|(headings, columns)| {
            let pairs = headings.iter().flat_map(|heading| columns.iter().map(move |column| (heading, *column)));
            let pairs: Vec<(&String, &'static str)> = pairs.filter(|(heading, column)| looks_like(heading, column)).collect();
            let [(heading, column)] = pairs.as_slice() else { return true };
            found.sure.push(((*heading).clone(), column));
            false
        });
    }
    let mut sure: BTreeMap<&str, BTreeSet<&'static str>> = BTreeMap::new();
    for (heading, column) in found.iter().flat_map(|found| &found.sure) {
        sure.entry(heading).or_default().insert(column);
    }
    let is_sure = |heading: &str, column: &str| {
        let is_sure =
            |found: &Candidates| found.sure.iter().any(|(other, of)| folding::word(other) == folding::word(heading) && *of == column);
        files.iter().zip(&found).all(|(file, found)| !with(file, heading) || is_sure(found))
    };
    let mut sure: BTreeMap<&str, &str> = sure
        .into_iter()
        .filter_map(|(heading, columns)| Some((heading, columns.first().copied().filter(|_| columns.len() == 1)?)))
        .filter(|(heading, column)| is_sure(heading, column))
        .collect();
    // One line is enough for headings that are read alike, as `Qty` and `Qty.`.
    let mut named = BTreeSet::new();
    sure.retain(|heading, _| named.insert(folding::word(heading)));
    let mut mapped = reading.clone();
    mapped.columns.extend(sure.iter().map(|(heading, column)| ((*heading).to_owned(), (*column).to_owned())));
    // Each file that has some of them is read once more, with all of them.
    let reread: Vec<Option<(Table, Vec<Problem>)>> =
        files.iter().map(|file| sure.keys().any(|heading| with(file, heading)).then(|| (file.reread)(&mapped))).collect();
    let mut proposals = Vec::new();
    for (heading, column) in sure {
        let Some(file) = files.iter().find(|file| with(file, heading)) else { continue };
        let mut read = files.iter().zip(&reread).filter(|(file, _)| with(file, heading)).filter_map(|(_, read)| read.as_ref());
        if read.all(|read| is_readable(table, read, column)) {
            let because = format!("no other heading of {} could be {column}", file.file);
            let section = format!("columns.{}", table.name);
            proposals.push(Proposal { section, key: heading.to_owned(), value: column.to_owned(), because });
        } else if !is_required(table, column) {
            problems.push(unlike(table, file.file, heading, column));
        }
    }
    for (file, found) in files.iter().zip(&found) {
        problems.extend(found.open.iter().filter_map(|(headings, columns)| question(table, file.file, headings, columns)));
    }
    proposals
}

/// Whether the cells that a column was read from look like it.
///
/// Of ten at most one cannot be read; how an order was paid may be any word, and what is a name has letters in half its cells at least.
fn is_readable(specification: &TableSpecification, (table, problems): &(Table, Vec<Problem>), column: &str) -> bool {
    let has_letter = |text: &str| text.chars().any(char::is_alphabetic);
    let Some(read) = table.understood.iter().find(|read| read.column == column) else { return false };
    let kind = specification.column(column).map(|at| specification.columns[at].kind);
    let wrong = match kind {
        Some(Kind::Text) if WORDED.contains(&column) => {
            let named: usize = table.tally(column).iter().filter(|(text, _)| has_letter(text)).map(|(_, cells)| cells).sum();
            return named * 2 >= read.cells;
        }
        Some(Kind::Payments) => {
            let is_word = |problem: &Problem| problem.found.as_deref().is_some_and(has_letter);
            problems.iter().filter(|problem| problem.column.as_deref() == Some(column) && !is_word(problem)).count()
        }
        _ => table.wrong_cells(column),
    };
    // Cells whose format is open can be read once she says which it is.
    read.is_open || wrong * 10 <= read.cells * UNREADABLE_IN_TEN
}

fn is_required(table: &TableSpecification, name: &str) -> bool {
    table.columns.iter().any(|column| column.name == name && column.required)
}

/// That a heading is a column's everyday word, but the cells under it do not look like that column.
fn unlike(table: &TableSpecification, file: &str, heading: &str, column: &str) -> Problem {
    let what = format!("could be the column {column}, but more than one in ten of its cells cannot be read as such, so it is not used");
    let problem = Problem::of_file(&HEADING_UNCLEAR, file, what).found(heading);
    problem.instead(format!("if it is, write {} = \"{column}\" under [columns.{}] in shop.toml", quoted(heading), table.name))
}

/// Asks which heading, or which column, is meant; a required column is asked about where it is missed.
fn question(table: &TableSpecification, file: &str, headings: &[String], columns: &[&'static str]) -> Option<Problem> {
    if let ([column], true) = (columns, columns.iter().all(|column| is_required(table, column))) {
        debug_assert!(headings.len() > 1, "one heading for {column} would be no question");
        return None;
    }
    let lines: Vec<String> =
        headings.iter().flat_map(|heading| columns.iter().map(move |column| format!("{} = \"{column}\"", quoted(heading)))).collect();
    let what = match headings {
        [_] => format!("could be the column {}", columns.join(" or ")),
        _ => format!("could each be the column {}, so none is used", columns.join(" or ")),
    };
    let problem = Problem::of_file(&HEADING_UNCLEAR, file, what).found(&headings.join("', '"));
    Some(problem.instead(format!("write the one you mean under [columns.{}] in shop.toml: {}", table.name, lines.join(" or "))))
}

/// A heading mapped in the settings must be in one of the table's files.
pub(super) fn check_mapped(table: &TableSpecification, files: &[Headed<'_>], reading: &Reading, problems: &mut Vec<Problem>) {
    if files.is_empty() || files.iter().any(|file| file.headings.is_empty()) {
        return;
    }
    let all = || files.iter().flat_map(|file| &file.headings);
    for mapped in reading.columns.keys().filter(|mapped| all().all(|heading| folding::word(heading) != folding::word(mapped))) {
        let whose = if let [only] = files { only.file.to_owned() } else { format!("any file of {}", table.name) };
        let problem = Problem::of_file(&NO_SUCH_HEADING, settings::FILE, format!("is not a heading of {whose}"));
        let problem = problem.column(&format!("columns.{}", table.name)).found(mapped);
        problems.push(match nearest(mapped, all().map(String::as_str)) {
            Some(near) => problem.did_you_mean(near),
            None => problem.instead("remove the line, or write the heading as the file does"),
        });
    }
}
