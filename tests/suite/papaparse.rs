//! The cells of CSV files as a widely used reader has agreed to read them: cases of the npm package `papaparse` 5.7.1
//! (`fixtures/papaparse`), below headings of ours, and with their own first row as headings.
//!
//! Our cells have no white space around them, so the answers are compared without it.

use crate::every_cell::every_cell;
use crate::harness::repository;
use fairdozen::reading::Cells;
use fairdozen::reading::problem_kind::CELL_OF_MANY_LINES;
use fairdozen::reading::separator::Separator;
use serde_json::Value;
use std::collections::BTreeSet;

struct Case {
    description: String,
    separator: char,
    input: String,
    rows: Vec<Vec<String>>,
}

fn cases() -> Vec<Case> {
    let text = std::fs::read_to_string(repository("fixtures/papaparse/cases.json")).unwrap();
    let cases: Vec<Value> = serde_json::from_str(&text).unwrap();
    let trimmed = |cell: &Value| cell.as_str().unwrap().trim().to_owned();
    let rows = |case: &Value| -> Vec<Vec<String>> {
        case["rows"].as_array().unwrap().iter().map(|row| row.as_array().unwrap().iter().map(trimmed).collect()).collect()
    };
    let text = |case: &Value, key: &str| case[key].as_str().unwrap().to_owned();
    let read = |case: &Value| Case {
        description: text(case, "description"),
        separator: text(case, "separator").chars().next().unwrap(),
        input: text(case, "input"),
        rows: rows(case),
    };
    cases.iter().map(read).collect()
}

fn rows(cells: &Cells) -> Vec<Vec<String>> {
    let columns: Vec<Vec<&str>> = (0..cells.headings.len()).map(|column| cells.column(column).collect()).collect();
    (0..cells.places().len()).map(|row| columns.iter().map(|column| column[row].to_owned()).collect()).collect()
}

#[test]
fn every_case_is_read_the_same_below_headings_of_ours() {
    let cases = cases();
    assert!(cases.len() >= 50, "only {} cases", cases.len());
    for case in cases.iter().filter(|case| !case.input.starts_with('\u{FEFF}')) {
        let headings: Vec<String> = (0..case.rows[0].len()).map(|column| format!("column {column}")).collect();
        let text = format!("{}\n{}", headings.join(&case.separator.to_string()), case.input);
        let cells = every_cell(text.as_bytes());
        // A cell of more than four lines is doubtful, and is read all the same.
        assert!(cells.problems.iter().all(|problem| *problem.kind == CELL_OF_MANY_LINES), "{}", case.description);
        assert_eq!(rows(&cells), case.rows, "{}", case.description);
    }
}

#[test]
fn every_case_that_begins_with_headings_is_read_the_same_and_its_separator_found() {
    let mut separators = BTreeSet::new();
    for case in cases() {
        let headings = &case.rows[0];
        let folded: BTreeSet<String> = headings.iter().map(|heading| heading.to_lowercase()).collect();
        if folded.len() < headings.len() || folded.contains("") {
            continue;
        }
        let cells = every_cell(case.input.as_bytes());
        assert_eq!((&cells.headings, rows(&cells).as_slice()), (headings, &case.rows[1..]), "{}", case.description);
        if headings.len() > 1 {
            assert_eq!(cells.separator.map(|separator| char::from(separator.byte())), Some(case.separator), "{}", case.description);
            separators.insert(case.separator);
        }
    }
    let all = [Separator::Tab, Separator::Comma, Separator::Semicolon].map(|separator| char::from(separator.byte()));
    assert_eq!(separators, BTreeSet::from(all));
}
