//! What a maker's files say of her customers goes nowhere: names, addresses and phones planted in every table and format are looked
//! for in all that the program prints and writes.

use super::book::{self, Cell, Sheet};
use crate::harness::Trial;
use fairdozen::reading::TableSpecification;
use fairdozen::shop::specification::TABLES;
use std::path::Path;

const PLANTED: [&str; 3] = ["Zebulon Quackenbush", "77 Nowhere Crescent", "555-0199-31"];
const HEADINGS: [&str; 3] = ["Customer", "Address", "Phone"];

/// A table with every column of ours, its example row, and three columns of hers. Every other row is broken in some way: a cell too many,
/// a cell too few, a word that is no word.
fn table(name: &str, separator: &str) -> String {
    let table = TABLES.iter().find(|table| table.name == name).unwrap();
    let ours: Vec<&str> = table.columns.iter().map(|column| column.name).collect();
    let row: Vec<&str> = table.columns.iter().map(|column| column.example).collect();
    let broken: Vec<&str> = row.iter().map(|_| "?").collect();
    let line = |cells: &[&str], more: &[&str]| cells.iter().chain(more).copied().collect::<Vec<_>>().join(separator);
    [
        line(&ours, &HEADINGS),
        line(&row, &PLANTED),
        line(&row, &[&PLANTED[..], &["one too many"]].concat()),
        line(&row, &PLANTED[..2]),
        line(&broken, &PLANTED),
        line(&PLANTED, &[]),
    ]
    .join("\n")
}

/// Everything under a folder but what was there before.
fn written(folder: &Path, skip: &[String]) -> Vec<u8> {
    let mut all = Vec::new();
    for entry in std::fs::read_dir(folder).unwrap().flatten() {
        let path = entry.path();
        if path.is_dir() {
            all.extend(written(&path, &[]));
        } else if !skip.contains(&entry.file_name().into_string().unwrap()) {
            all.extend(std::fs::read(path).unwrap());
        }
    }
    all
}

fn assert_silent(bytes: &[u8], of: &str) {
    let text = String::from_utf8_lossy(bytes);
    for planted in PLANTED.iter().flat_map(|planted| planted.split(' ')).filter(|word| word.len() > 3) {
        assert!(!text.contains(planted), "{planted} in {of}:\n{text}");
    }
}

/// A workbook with a sheet for each table: a row that can be read, one of words that are none, and a formula that failed, each with three
/// cells of hers; a sheet of customers, and one of sales whose name is of no table.
fn sheets() -> Vec<Sheet> {
    let of_table = |table: &TableSpecification| {
        let ours: Vec<&str> = table.columns.iter().map(|column| column.name).collect();
        let row: Vec<&str> = table.columns.iter().map(|column| column.example).collect();
        let broken: Vec<&str> = row.iter().map(|_| "?").collect();
        let beyond = [&PLANTED[..], &["one too many", PLANTED[0]]].concat();
        let rows = [[&ours[..], &HEADINGS].concat(), [&row[..], &beyond].concat(), [&broken[..], &PLANTED].concat()];
        let mut sheet = Sheet::of_texts(table.name, &rows);
        sheet.rows.push(ours.iter().map(|_| Cell::Error).chain(PLANTED.map(|text| Cell::Text(text.to_owned()))).collect());
        sheet.rows.insert(0, vec![Cell::Text(PLANTED.join(" "))]);
        sheet
    };
    let mut sheets: Vec<Sheet> = TABLES.iter().map(of_table).collect();
    let customers = [HEADINGS.to_vec(), PLANTED.to_vec(), PLANTED.to_vec()];
    sheets.push(Sheet::of_texts("Customers", &customers));
    sheets.push(Sheet { name: "Sales 2025".to_owned(), ..sheets[0].clone() });
    sheets.push(Sheet::of_texts("settings", &[vec!["setting", "value", "note"], vec!["currency", "USD", PLANTED[0]]]));
    sheets
}

#[test]
fn names_addresses_and_phones_in_sheets_are_in_nothing_that_is_written() {
    for ending in ["xlsx", "ods"] {
        let trial = Trial::new(&[]);
        std::fs::remove_file(trial.path().join("shop.toml")).unwrap();
        let file = format!("cookies.{ending}");
        trial.write(&file, &book::bytes(&sheets(), ending));
        let check = trial.run("check", &["--all"]).out;
        assert!(check.contains("'?' is not") && check.contains("a formula that failed") && check.contains("Sales 2025"), "{check}");
        assert_is_silent(&trial, ending, &[file]);
    }
}

#[test]
fn names_addresses_and_phones_are_in_nothing_that_is_written() {
    for separator in [",", ";", "\t"] {
        let trial = Trial::new(&[]);
        let files: Vec<String> = TABLES.iter().map(TableSpecification::file).collect();
        for (table_of, file) in TABLES.iter().zip(&files) {
            trial.write(file, table(table_of.name, separator).as_bytes());
        }
        assert_is_silent(&trial, separator, &files);
    }
}

/// Runs every command and looks at all that it prints and writes; `hers` are her own files.
fn assert_is_silent(trial: &Trial, how: &str, hers: &[String]) {
    let out = trial.path().join("out");
    for (command, options) in [
        ("", &[][..]),
        ("check", &["--all"]),
        ("check", &["--json"]),
        ("check", &["--write"]),
        ("wage", &["--skip-bad-rows"]),
        ("wage", &["--skip-bad-rows", "--json"]),
        ("minutes", &["--skip-bad-rows"]),
        ("tiers", &["--skip-bad-rows"]),
        ("review", &["--skip-bad-rows", "--out", out.to_str().unwrap()]),
        ("export", &["--skip-bad-rows"]),
    ] {
        let outcome = trial.run(command, options);
        assert_silent(outcome.out.as_bytes(), &format!("stdout of {command} {options:?} with {how:?}"));
        assert_silent(outcome.err.as_bytes(), &format!("stderr of {command} {options:?} with {how:?}"));
    }
    assert_silent(&written(trial.path(), hers), "a file written");
}
