//! What `check` found: the rows read, the errors, the warnings and what was assumed.

use super::layout::{item, wrapped};
use super::problem_groups::grouped;
use super::problems::{Listing, hides_some, how_many, listed};
use super::words::{Currency, counted};
use crate::reading::problem::printable;
use crate::reading::{Problem, Severity};
use crate::shop::load::FileRead;
use serde_json::json;
use std::collections::BTreeMap;
use std::fmt::Write;

/// Problems of one group that programs are given.
const MOST: usize = 1000;
/// In the order a person reads them.
const SEVERITIES: [Severity; 3] = [Severity::Error, Severity::Warning, Severity::Assumed];

/// All of it, for a person.
#[must_use]
pub fn check_text(files: &[FileRead], problems: &[Problem], listing: Listing, currency: Option<&Currency>) -> String {
    let mut text = String::new();
    if !files.is_empty() {
        let _ = writeln!(text, "{}\n", wrapped(&rows_read(files), 0));
    }
    for file in files.iter().filter(|file| !file.ignored.is_empty()) {
        let columns = if file.ignored.len() == 1 { "column" } else { "columns" };
        let names = printable(&file.ignored.join(", "));
        let _ = writeln!(text, "{}\n", item(&format!("{}: {columns} not used and not kept: {names}", file.file)));
    }
    for severity in SEVERITIES {
        let list = listed(problems, severity, listing, currency);
        if !list.is_empty() {
            let _ = writeln!(text, "{list}");
        }
    }
    text.push_str(&verdict(problems));
    if listing == Listing::Grouped && SEVERITIES.iter().any(|severity| hides_some(problems, *severity)) {
        text.push_str("Add --all to list each one.\n");
    }
    text
}

/// Rows by table, and the tables the shop does without: "Rows read: orders 482, hours 1,115. Not in the folder: counts."
fn rows_read(files: &[FileRead]) -> String {
    let name = |file: &FileRead| file.file.trim_end_matches(".csv").to_owned();
    let rows = |file: &FileRead| Some(counted(i64::try_from(file.rows?).unwrap_or(i64::MAX), "", "").trim_end().to_owned());
    let read: Vec<String> = files.iter().filter_map(|file| Some(format!("{} {}", name(file), rows(file)?))).collect();
    let absent: Vec<String> = files.iter().filter(|file| file.rows.is_none()).map(name).collect();
    let mut text = format!("Rows read: {}.", if read.is_empty() { "none".to_owned() } else { read.join(", ") });
    if !absent.is_empty() {
        let _ = write!(text, " Not in the folder: {}.", absent.join(", "));
    }
    text
}

/// One line that says whether the figures can be trusted, and what to do where they cannot.
#[must_use]
pub fn verdict(problems: &[Problem]) -> String {
    let count = |severity| problems.iter().filter(|problem| problem.severity == severity).count();
    let (errors, warnings) = (count(Severity::Error), count(Severity::Warning));
    let groups = grouped(problems, Severity::Warning).len();
    let how_many_warnings = how_many(warnings, Severity::Warning);
    match (errors, warnings, groups) {
        (0, 0, _) => "No errors and no warnings.\n".to_owned(),
        (0, 1, _) => "No errors. 1 warning.\n".to_owned(),
        (0, _, 1) => format!("No errors. {how_many_warnings}, all of one kind.\n"),
        (0, ..) => format!("No errors. {how_many_warnings} in {groups} groups.\n"),
        (1, ..) => "1 error. Correct it and check again: until then nothing can be worked out.\n".to_owned(),
        (errors, ..) => {
            format!("{}. Correct them and check again: until then nothing can be worked out.\n", how_many(errors, Severity::Error))
        }
    }
}

/// For programs (`fairdozen.check/1`): of each group the first thousand problems, and all of them counted.
#[must_use]
pub fn check_json(files: &[FileRead], problems: &[Problem]) -> String {
    let count = |severity| problems.iter().filter(|problem| problem.severity == severity).count();
    let files: Vec<_> = files.iter().map(|file| json!({ "file": file.file, "rows": file.rows, "ignored_columns": file.ignored })).collect();
    let mut listed: BTreeMap<&str, usize> = BTreeMap::new();
    let is_listed = |problem: &&Problem| {
        let before = listed.entry(problem.kind.key).or_default();
        *before += 1;
        *before <= MOST
    };
    let object = json!({
        "schema": "fairdozen.check/1",
        "files": files,
        "errors": count(Severity::Error),
        "warnings": count(Severity::Warning),
        "assumed": count(Severity::Assumed),
        "problems": problems.iter().filter(is_listed).collect::<Vec<_>>(),
    });
    format!("{object:#}\n")
}

#[cfg(test)]
mod tests {
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
        assert_eq!(warned(0, 0), "No errors and no warnings.\n");
        assert_eq!(warned(1, 0), "No errors. 1 warning.\n");
        assert_eq!(warned(2, 0), "No errors. 2 warnings, all of one kind.\n");
        assert_eq!(warned(1, 1), "No errors. 2 warnings in 2 groups.\n");
        assert_eq!(warned(1200, 3), "No errors. 1,203 warnings in 2 groups.\n");
        assert_eq!(verdict(&of(&DATE, 1)), "1 error. Correct it and check again: until then nothing can be worked out.\n");
        let errors = [of(&DATE, 500), of(&PRICE, 3)].concat();
        assert_eq!(verdict(&errors), "500 errors. Correct them and check again: until then nothing can be worked out.\n");
    }

    #[test]
    fn a_group_is_one_item_and_all_of_it_is_every_problem() {
        let mut problems = of(&PRICE, 54);
        problems[0] = problems[0].clone().at_stake(crate::quantity::millionths::Money(1_340_000));
        let dollars = Currency::of("USD");
        let shown = |listing, currency| listed(&problems, Severity::Warning, listing, currency);
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
        assert_eq!(
            listed(&problems[..1], Severity::Warning, Listing::Grouped, None),
            "1 warning:\n  orders.csv, row 2, column x: '1' is odd\n"
        );
    }

    #[test]
    fn programs_are_given_a_thousand_problems_of_a_group_and_the_number_of_all() {
        let problems = [of(&DATE, 1500), of(&PRICE, 2)].concat();
        let json: serde_json::Value = serde_json::from_str(&check_json(&[], &problems)).unwrap();
        let of_group = |key: &str| json["problems"].as_array().unwrap().iter().filter(|problem| problem["group"] == key).count();
        assert_eq!((of_group("date"), of_group("price"), &json["errors"]), (1000, 2, &json!(1500)));
    }
}
