//! The cells of CSV files as others have agreed to read them: the npm package `csv-spectrum` 2.0.0
//! (`fixtures/csv-spectrum`), each case as it is and with its line breaks swapped.
//!
//! Our cells have no white space around them; no case has any there, so every answer holds as it is written.

use crate::every_cell::every_cell;
use crate::harness::repository;
use serde_json::{Value, json};

/// A case's file and its answer, always as a list of rows.
fn case(name: &str) -> (Vec<u8>, Value) {
    let folder = repository("fixtures/csv-spectrum");
    let csv = std::fs::read(folder.join("csvs").join(name).with_extension("csv")).unwrap();
    let answer = std::fs::read(folder.join("json").join(name).with_extension("json")).unwrap();
    let mut answer: Value = serde_json::from_slice(&answer).unwrap();
    if name == "location_coordinates" {
        // The package's answer is a lone object, and has another number than its file (see the README beside it).
        answer["Contact Phone Number"] = json!("2095257564");
        answer = json!([answer]);
    }
    (csv, answer)
}

fn cases() -> Vec<String> {
    let files = std::fs::read_dir(repository("fixtures/csv-spectrum/csvs")).unwrap();
    let mut names: Vec<String> =
        files.map(|file| file.unwrap().path().file_stem().and_then(|stem| stem.to_str()).unwrap().to_owned()).collect();
    names.sort();
    names
}

/// Headings and rows as a list of objects.
fn read(csv: &[u8]) -> Value {
    let cells = every_cell(csv);
    assert_eq!(cells.problems, []);
    let columns: Vec<Vec<&str>> = (0..cells.headings.len()).map(|column| cells.column(column).collect()).collect();
    let row = |row: usize| -> Value {
        cells.headings.iter().zip(&columns).map(|(heading, column)| (heading.clone(), json!(column[row]))).collect()
    };
    (0..cells.places().len()).map(row).collect()
}

/// The text with CRLF where it had LF, or the other way round.
fn swapped(text: &str) -> String {
    if text.contains("\r\n") { text.replace("\r\n", "\n") } else { text.replace('\n', "\r\n") }
}

/// An answer with the line breaks inside its cells swapped as well.
fn with_breaks_swapped(answer: &Value, csv: &str) -> Value {
    let (from, to) = if csv.contains("\r\n") { ("\\r\\n", "\\n") } else { ("\\n", "\\r\\n") };
    serde_json::from_str(&answer.to_string().replace(from, to)).unwrap()
}

#[test]
fn there_are_twelve_cases_each_with_its_answer() {
    let cases = cases();
    assert_eq!(cases.len(), 12, "{cases:?}");
    for name in cases {
        assert!(!case(&name).1.as_array().unwrap().is_empty(), "{name}");
    }
}

#[test]
fn every_case_is_read_as_the_package_says() {
    for name in cases() {
        let (csv, answer) = case(&name);
        assert_eq!(read(&csv), answer, "{name}");
    }
}

#[test]
fn every_case_is_read_the_same_with_its_line_breaks_swapped() {
    for name in cases() {
        let (csv, answer) = case(&name);
        let text = String::from_utf8(csv).unwrap();
        assert_eq!(read(swapped(&text).as_bytes()), with_breaks_swapped(&answer, &text), "{name}");
    }
}

#[test]
fn every_case_is_read_the_same_with_a_byte_order_mark_and_a_last_line_break() {
    // RFC 4180, section 2, rule 2: the last record may or may not end in a line break.
    for name in cases() {
        let (csv, answer) = case(&name);
        let text = String::from_utf8(csv).unwrap();
        let bare = text.trim_end_matches(['\r', '\n']);
        for dressed in [bare.to_owned(), format!("{bare}\n"), format!("{bare}\r\n\r\n"), format!("\u{FEFF}{text}")] {
            assert_eq!(read(dressed.as_bytes()), answer, "{name}: {dressed:?}");
        }
    }
}

#[test]
fn white_space_around_a_cell_is_dropped_and_inside_it_is_kept() {
    // RFC 4180 keeps it (section 2, rule 4); people type it by accident, so we do not.
    assert_eq!(read(b"a , b\n 1,\" x  y \"\n"), json!([{ "a": "1", "b": "x  y" }]));
}
