//! What `check` found: the rows read, the errors, the warnings and what was assumed.

use super::document::{Block, Content, Document};
use super::problems::{Listing, count, heading, hides_some, how_many, sentences};
use super::record::{json, record};
use super::words::{Currency, number};
use crate::reading::problem::printable;
use crate::reading::{Problem, Severity};
use crate::review::problem_groups::grouped;
use crate::shop::load::FileRead;
use std::collections::BTreeMap;

/// Problems of one group that programs are given.
const MOST: usize = 1000;
/// In the order a person reads them.
const SEVERITIES: [Severity; 3] = [Severity::Error, Severity::Warning, Severity::Assumed];

/// All of it, for a person.
#[must_use]
pub fn check_document(files: &[FileRead], problems: &[Problem], listing: Listing, currency: Option<&Currency>) -> Document {
    let mut document = Document::default();
    document.push(Block::paragraph(if files.is_empty() { String::new() } else { rows_read(files) }));
    for file in files.iter().filter(|file| !file.ignored.is_empty()) {
        let columns = if file.ignored.len() == 1 { "column" } else { "columns" };
        let names = printable(&file.ignored.join(", "));
        document.push(Block::list(vec![format!("{}: {columns} not used and not kept: {names}", file.file)]));
    }
    for severity in SEVERITIES {
        document.push(Content::List(heading(problems, severity), sentences(problems, severity, listing, currency)));
    }
    document.note(verdict(problems));
    let hides_some = listing == Listing::Grouped && SEVERITIES.iter().any(|severity| hides_some(problems, *severity));
    document.note(if hides_some { "--all lists each problem and assumption." } else { "" });
    document
}

/// Rows by table, and the tables the shop does without: "Rows read: orders 482, hours 1,115. Not in the folder: counts."
fn rows_read(files: &[FileRead]) -> String {
    let name = |file: &FileRead| file.file.trim_end_matches(".csv").to_owned();
    let read: Vec<String> = files.iter().filter_map(|file| Some(format!("{} {}", name(file), number(file.rows?)))).collect();
    let absent: Vec<String> = files.iter().filter(|file| file.rows.is_none()).map(name).collect();
    let absent = if absent.is_empty() { String::new() } else { format!(" Not in the folder: {}.", absent.join(", ")) };
    format!("Rows read: {}.{absent}", if read.is_empty() { "none".to_owned() } else { read.join(", ") })
}

/// One line that says whether the figures can be trusted, and what to do where they cannot.
#[must_use]
pub fn verdict(problems: &[Problem]) -> String {
    let (errors, warnings) = (count(problems, Severity::Error), count(problems, Severity::Warning));
    let groups = grouped(problems, Severity::Warning).len();
    let how_many_warnings = how_many(warnings, Severity::Warning);
    match (errors, warnings, groups) {
        (0, 0, _) => "No errors and no warnings.".to_owned(),
        (0, 1, _) => "No errors. 1 warning.".to_owned(),
        (0, _, 1) => format!("No errors. {how_many_warnings}, all of one kind."),
        (0, ..) => format!("No errors. {how_many_warnings} in {groups} groups."),
        (1, ..) => "1 error. Correct it and check again: until then nothing can be worked out.".to_owned(),
        (errors, ..) => {
            format!("{}. Correct them and check again: until then nothing can be worked out.", how_many(errors, Severity::Error))
        }
    }
}

/// For programs (`fairdozen.check/1`): of each group the first thousand problems, and all of them counted.
///
/// # Errors
/// Where serde fails.
pub fn check_json(files: &[FileRead], problems: &[Problem]) -> serde_json::Result<String> {
    let mut listed: BTreeMap<&str, usize> = BTreeMap::new();
    let is_listed = |problem: &&Problem| {
        let before = listed.entry(problem.kind.key).or_default();
        *before += 1;
        *before <= MOST
    };
    let shown = problems.iter().filter(is_listed).cloned().collect();
    json(&CheckRecord::of(files, problems, shown))
}

record! {
    CheckRecord(files: &[FileRead], all: &[Problem], shown: Vec<Problem>) {
        schema: &'static str = "fairdozen.check/1",
        files: Vec<FileRecord> = files.iter().map(FileRecord::of).collect(),
        errors: usize = count(all, Severity::Error),
        warnings: usize = count(all, Severity::Warning),
        assumed: usize = count(all, Severity::Assumed),
        problems: Vec<Problem> = shown,
    }
}

record! {
    FileRecord(of: &FileRead) {
        file: String = of.file.clone(),
        rows: Option<usize> = of.rows,
        ignored_columns: Vec<String> = of.ignored.clone(),
    }
}

#[cfg(test)]
mod tests {
    use super::super::terminal;
    use super::*;
    use crate::reading::{Place, ProblemKind};

    static PRICE: ProblemKind = ProblemKind::warning("price", "prices are low", "Check them.");
    static DATE: ProblemKind = ProblemKind::error("date", "dates cannot be read", "Correct them.");
    static TIMER: ProblemKind = ProblemKind::warning("timer", "timers ran long", "Check them.");

    fn of(kind: &'static ProblemKind, count: u32) -> Vec<Problem> {
        let at = |row| Problem::of_file(kind, "orders.csv", "is odd").at(Place { row, line: row }).column("x").found("1");
        (2..2 + count).map(at).collect()
    }

    #[test]
    fn the_last_line_is_right_for_one_and_for_many() {
        let warned = |prices, timers| verdict(&[of(&PRICE, prices), of(&TIMER, timers)].concat());
        assert_eq!(warned(0, 0), "No errors and no warnings.");
        assert_eq!(warned(1, 0), "No errors. 1 warning.");
        assert_eq!(warned(2, 0), "No errors. 2 warnings, all of one kind.");
        assert_eq!(warned(1, 1), "No errors. 2 warnings in 2 groups.");
        assert_eq!(warned(1200, 3), "No errors. 1,203 warnings in 2 groups.");
        assert_eq!(verdict(&of(&DATE, 1)), "1 error. Correct it and check again: until then nothing can be worked out.");
        let errors = [of(&DATE, 500), of(&PRICE, 3)].concat();
        assert_eq!(verdict(&errors), "500 errors. Correct them and check again: until then nothing can be worked out.");
    }

    #[test]
    fn a_group_is_one_item_and_all_of_it_is_every_problem() {
        let mut problems = of(&PRICE, 54);
        problems[0] = problems[0].clone().at_stake(crate::quantity::millionths::Money(1_340_000));
        let dollars = Currency::of("USD");
        let list = |problems: &[Problem], listing, currency| {
            let shown = sentences(problems, Severity::Warning, listing, currency);
            terminal::list(&heading(problems, Severity::Warning), &shown)
        };
        let shown = |listing, currency| list(&problems, listing, currency);
        assert_eq!(
            shown(Listing::Grouped, Some(&dollars)),
            "54 warnings:\n  54 prices are low ($1.34 at stake): orders.csv, row 2 ('1'), row 3 ('1'), row 4 ('1') and 51 more.\n    Check them.\n"
        );
        assert!(!shown(Listing::Grouped, None).contains('$'));
        let each = shown(Listing::Each, Some(&dollars));
        assert_eq!(each.lines().count(), 55);
        assert!(
            each.contains("  orders.csv, row 2, column x: '1' is odd ($1.34 at stake)\n  orders.csv, row 3, column x: '1' is odd\n"),
            "{each}"
        );
        assert_eq!(list(&problems[..1], Listing::Grouped, None), "1 warning:\n  orders.csv, row 2, column x: '1' is odd\n");
    }

    #[test]
    fn programs_are_given_a_thousand_problems_of_a_group_and_the_number_of_all() {
        let problems = [of(&DATE, 1500), of(&PRICE, 2)].concat();
        let json: serde_json::Value = serde_json::from_str(&check_json(&[], &problems).unwrap()).unwrap();
        let of_group = |key: &str| json["problems"].as_array().unwrap().iter().filter(|problem| problem["group"] == key).count();
        assert_eq!((of_group("date"), of_group("price"), &json["errors"]), (1000, 2, &serde_json::json!(1500)));
    }
}
