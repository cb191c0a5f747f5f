//! What `check` found: the errors, the warnings, what was assumed and what each table was understood to be.

use super::document::{Content, Document};
use super::lines_to_paste::lines_to_paste;
use super::problems::{Listing, count, heading, hides_some, how_many, in_groups, sentences};
use super::record::{WriteError, json, record};
use super::understood::{file_of, proposed, understood, understood_as};
use super::words::Currency;
use crate::reading::table::ColumnRead;
use crate::reading::{Problem, Severity};
use crate::shop::load::TableRead;
use crate::shop::settings::Proposal;
use std::collections::BTreeMap;

/// Problems of one group that programs are given.
const MOST: usize = 1000;
/// In the order a person reads them.
const SEVERITIES: [Severity; 3] = [Severity::Error, Severity::Warning, Severity::Assumed];

/// All of it, for a person: what is wrong, then what each table was understood to be. Of the problems, those in `listed` are listed;
/// the others have been shown already.
#[must_use]
pub(crate) fn check_document(
    tables: &[TableRead],
    problems: &[Problem],
    listed: &[Problem],
    proposals: &[Proposal],
    listing: Listing,
    currency: Option<&Currency>,
) -> Document {
    let mut document = Document::default();
    for severity in SEVERITIES {
        document.push(Content::List(heading(listed, severity, listing), sentences(listed, severity, listing, currency)));
    }
    if !tables.is_empty() {
        document.push(Content::List(understood_as(tables), tables.iter().flat_map(understood).collect()));
    }
    document.extend(proposed(proposals));
    document.extend(lines_to_paste(problems, listing));
    document.note(verdict(problems));
    let hides_some = listing == Listing::Grouped && SEVERITIES.iter().any(|severity| hides_some(problems, *severity));
    document.note(if hides_some { "--all lists each problem and assumption." } else { "" });
    document
}

/// One line that says whether the figures can be trusted, and what to do where they cannot.
#[must_use]
pub fn verdict(problems: &[Problem]) -> String {
    let (errors, warnings) = (count(problems, Severity::Error), count(problems, Severity::Warning));
    match (errors, warnings) {
        (0, 0) => "No errors and no warnings.".to_owned(),
        (0, 1) => "No errors. 1 warning.".to_owned(),
        (0, _) => format!("No errors. {}{}.", how_many(warnings, Severity::Warning), in_groups(problems, Severity::Warning)),
        (errors, _) => {
            let bad = || problems.iter().filter(|problem| problem.severity == Severity::Error);
            let it = if errors == 1 { "it" } else { "them" };
            let rows = match (errors, bad().all(|problem| problem.other_rows.is_empty())) {
                (1, true) => "its row",
                (1, false) => "its rows",
                _ => "their rows",
            };
            let until = if bad().all(Problem::is_of_row) {
                format!("until then other commands need --skip-bad-rows, which leaves {rows} out")
            } else {
                "until then nothing can be worked out".to_owned()
            };
            format!("{}. Correct {it} and check again: {until}.", how_many(errors, Severity::Error))
        }
    }
}

/// For programs (`fairdozen.check/1`): of each group the first thousand problems, and all of them counted.
///
/// # Errors
/// Where a record cannot be written.
pub fn check_json(tables: &[TableRead], problems: &[Problem], proposals: &[Proposal]) -> Result<String, WriteError> {
    let mut listed: BTreeMap<&str, usize> = BTreeMap::new();
    let is_listed = |problem: &&Problem| {
        let before = listed.entry(problem.kind.key).or_default();
        *before += 1;
        *before <= MOST
    };
    let shown = problems.iter().filter(is_listed).cloned().collect();
    json(&CheckRecord::of(tables, problems, shown, proposals))
}

record! {
    CheckRecord(tables: &[TableRead], all: &[Problem], shown: Vec<Problem>, proposals: &[Proposal]) {
        schema: &'static str = "fairdozen.check/1",
        files: Vec<FileRecord> = tables.iter().flat_map(FileRecord::all).collect(),
        tables: Vec<TableRecord> = tables.iter().filter(|table| !table.files.is_empty()).map(TableRecord::of).collect(),
        errors: usize = count(all, Severity::Error),
        warnings: usize = count(all, Severity::Warning),
        assumed: usize = count(all, Severity::Assumed),
        assumptions: Vec<String> = sentences(all, Severity::Assumed, Listing::Grouped, None),
        problems: Vec<Problem> = shown,
        proposals: Vec<ProposalRecord> = proposals.iter().map(ProposalRecord::of).collect(),
    }
}

record! {
    FileRecord(file: String, rows: Option<usize>, ignored: Vec<String>) {
        file: String = file,
        rows: Option<usize> = rows,
        ignored_columns: Vec<String> = ignored,
    }
}

impl FileRecord {
    /// Each file of a table; where the shop lacks the table, the file it would be, without rows.
    fn all(table: &TableRead) -> Vec<Self> {
        match table.files.as_slice() {
            [] => vec![Self::of(file_of(table), None, Vec::new())],
            files => files.iter().map(|file| Self::of(file.file.clone(), Some(file.rows), file.ignored.clone())).collect(),
        }
    }
}

record! {
    TableRecord(of: &TableRead) {
        table: &'static str = of.table,
        files: Vec<String> = of.files.iter().map(|file| file.file.clone()).collect(),
        rows: usize = of.rows,
        rows_in_several_files: usize = of.repeated,
        total_rows: usize = of.files.iter().map(|file| file.left_out.len()).sum(),
        example_rows: usize = of.files.iter().map(|file| file.examples).sum(),
        hidden_rows: usize = of.files.iter().map(|file| file.sheet.hidden_rows).sum(),
        hidden_columns: usize = of.files.iter().map(|file| file.sheet.hidden_columns).sum(),
        merged_cells: usize = of.files.iter().map(|file| file.sheet.merged).sum(),
        rounded_cells: usize = of.files.iter().map(|file| file.sheet.rounded).sum(),
        shortened_cells: usize = of.files.iter().map(|file| file.sheet.shortened).sum(),
        columns: Vec<ColumnRecord> =
            of.files.iter().flat_map(|file| file.understood.iter().map(|read| ColumnRecord::of(file.file.clone(), read))).collect(),
    }
}

record! {
    ColumnRecord(file: String, of: &ColumnRead) {
        file: String = file,
        heading: String = of.heading.clone(),
        column: &'static str = of.column,
        format: Option<String> = of.format.clone(),
        cells: usize = of.cells,
    }
}

record! {
    ProposalRecord(of: &Proposal) {
        key: String = of.path(),
        value: String = of.value.clone(),
        because: String = of.because.clone(),
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
        let at = |row| Problem::of_file(kind, "orders.csv", "is odd").at(Place::of_row(row, row)).column("x").found("1");
        (2..2 + count).map(at).collect()
    }

    #[test]
    fn the_last_line_is_right_for_one_and_for_many() {
        let warned = |prices, timers| verdict(&[of(&PRICE, prices), of(&TIMER, timers)].concat());
        assert_eq!(warned(0, 0), "No errors and no warnings.");
        assert_eq!(warned(1, 0), "No errors. 1 warning.");
        assert_eq!(warned(2, 0), "No errors. 2 warnings in 1 group.");
        assert_eq!(warned(1, 1), "No errors. 2 warnings in 2 groups.");
        assert_eq!(warned(1200, 3), "No errors. 1,203 warnings in 2 groups.");
        let until = "until then other commands need --skip-bad-rows, which leaves";
        assert_eq!(verdict(&of(&DATE, 1)), format!("1 error. Correct it and check again: {until} its row out."));
        let errors = [of(&DATE, 500), of(&PRICE, 3)].concat();
        assert_eq!(verdict(&errors), format!("500 errors. Correct them and check again: {until} their rows out."));
        let of_file = [errors, vec![Problem::of_file(&DATE, "orders.csv", "is missing")]].concat();
        assert_eq!(verdict(&of_file), "501 errors. Correct them and check again: until then nothing can be worked out.");
    }

    #[test]
    fn a_group_is_one_item_and_all_of_it_is_every_problem() {
        let mut problems = of(&PRICE, 54);
        problems[0] = problems[0].clone().at_stake(crate::quantity::millionths::Money(1_340_000));
        let dollars = Currency::of("USD");
        let list = |problems: &[Problem], listing, currency| {
            let shown = sentences(problems, Severity::Warning, listing, currency);
            terminal::list(&heading(problems, Severity::Warning, listing), &shown)
        };
        let shown = |listing, currency| list(&problems, listing, currency);
        assert_eq!(
            shown(Listing::Grouped, Some(&dollars)),
            "54 warnings in 1 group:\n  54 prices are low ($1.34 at stake): orders.csv, row 2 ('1'), row 3 ('1'), row 4 ('1') and 51 more.\n    Check them.\n"
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
        let json: serde_json::Value = serde_json::from_str(&check_json(&[], &problems, &[]).unwrap()).unwrap();
        let of_group = |key: &str| json["problems"].as_array().unwrap().iter().filter(|problem| problem["group"] == key).count();
        assert_eq!((of_group("date"), of_group("price"), &json["errors"]), (1000, 2, &serde_json::json!(1500)));
    }
}
