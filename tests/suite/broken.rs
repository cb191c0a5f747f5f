//! Broken shops: each folder of `fixtures/broken` has one mistake or one family of them.
//!
//! `expected.txt` is the exact list of errors, as `check --all` has it, and `refused.txt` what every other command says. Where every
//! error is of a row, `--skip-bad-rows` goes on and lists the same; `left-out.txt` is what it lists where more follows from the rows left
//! out. With `WRITE_EXPECTED=1` in the environment all are written anew: read the difference before keeping it.

use crate::harness::{repository, run_on};
use fairdozen::reading::TableSpecification;
use fairdozen::shop::settings;
use fairdozen::shop::specification::TABLES;
use serde_json::Value;
use std::path::{Path, PathBuf};

fn is_writing() -> bool {
    std::env::var_os("WRITE_EXPECTED").is_some()
}

/// What is said below the rows that were left out.
const NOT_WHOLE: &str = "An order or a recipe that lost a row is costed without it, so its figures are incomplete.";

/// Compared exactly, or written where that is asked for.
fn assert_written(path: &Path, text: &str) {
    if is_writing() {
        std::fs::write(path, text).unwrap();
    }
    let expected = std::fs::read_to_string(path).unwrap_or_default();
    assert_eq!(text, expected, "{}", path.display());
}

fn folders() -> Vec<PathBuf> {
    let mut folders: Vec<PathBuf> = std::fs::read_dir(repository("fixtures/broken")).unwrap().map(|entry| entry.unwrap().path()).collect();
    folders.retain(|path| path.is_dir());
    folders.sort();
    folders
}

/// What a command says that refuses, with the folder's name left open in the one line that is a command to type.
fn refusal(folder: &Path, err: &str) -> String {
    err.replace(&format!("fairdozen check {} --all\n", folder.display()), "fairdozen check SHOP --all\n")
}

fn broken(name: &str) -> PathBuf {
    repository("fixtures/broken").join(name)
}

#[test]
fn every_problem_is_told_once_and_nothing_is_worked_out() {
    let folders = folders();
    assert!(folders.len() >= 30, "only {} broken shops were found", folders.len());
    for folder in folders {
        let name = folder.display();
        for options in [&[][..], &["--json"], &["--csv"]] {
            let outcome = run_on(&folder, "wage", options);
            let refused = refusal(&folder, &outcome.err);
            assert_written(&folder.join("refused.txt"), &refused);
            assert_eq!((outcome.out.as_str(), outcome.code), ("", 1), "{name}");
            assert!(!refused.contains(&name.to_string()), "the folder's path is shown: {refused}");
            assert!(refused.lines().all(|line| line.chars().count() <= 100), "{name}: {refused}");
        }
        let check = run_on(&folder, "check", &["--all"]);
        assert_eq!((check.err.as_str(), check.code), ("", 1), "{name}");
        let errors = errors(&check.out);
        assert_written(&folder.join("expected.txt"), &errors);
        let mut told: Vec<&str> = errors.lines().filter_map(place_of).collect();
        let count = told.len();
        told.sort_unstable();
        told.dedup();
        assert_eq!(told.len(), count, "{name}: a cell is told of twice\n{errors}");
    }
}

/// The errors of a check, under their heading and each on one line.
fn errors(check: &str) -> String {
    let is_heading = |line: &&str| line.ends_with(" errors:") || line.contains(" errors in ") || *line == "1 error:";
    let lines = check.lines().skip_while(|line| !is_heading(line)).take_while(|line| !line.is_empty());
    let broken: String = lines.flat_map(|line| [line, "\n"]).collect();
    broken.replace("\n    ", " ")
}

/// File, row and column of a problem; `None` where it is not of one cell.
fn place_of(line: &str) -> Option<&str> {
    let (place, _) = line.split_once(": ")?;
    place.contains(", column ").then_some(place)
}

/// What a group says of a kind of error: its number, and three places at most.
#[test]
fn a_refusal_counts_each_kind_and_shows_three_places() {
    for folder in folders() {
        let check: Value = serde_json::from_str(&run_on(&folder, "check", &["--json"]).out).unwrap();
        let problems = check["problems"].as_array().unwrap();
        let mut kinds: std::collections::BTreeMap<&str, usize> = std::collections::BTreeMap::new();
        for problem in problems.iter().filter(|problem| problem["severity"] == "error") {
            *kinds.entry(problem["group"].as_str().unwrap()).or_default() += 1;
        }
        let refused = std::fs::read_to_string(folder.join("refused.txt")).unwrap();
        let items: Vec<&str> = refused.lines().filter(|line| line.starts_with("  ") && !line.starts_with("    ")).collect();
        assert_eq!(items.len(), kinds.len(), "{}: a line for each kind\n{refused}", folder.display());
        let unwrapped = refused.replace("\n    ", " ");
        for (kind, count) in kinds.into_iter().filter(|(_, count)| *count > 1) {
            let item = unwrapped.lines().find(|line| line.starts_with(&format!("  {count} ")));
            let item = item.unwrap_or_else(|| panic!("{}: no group of {count} for {kind}\n{refused}", folder.display()));
            assert_eq!(item.contains(&format!(" and {} more", count.saturating_sub(3))), count > 3, "{item}");
        }
    }
}

#[test]
fn every_table_has_a_broken_example() {
    let told: String = folders().iter().map(|folder| std::fs::read_to_string(folder.join("expected.txt")).unwrap()).collect();
    for file in TABLES.iter().map(TableSpecification::file).chain([settings::FILE.to_owned()]) {
        assert!(told.contains(&format!("  {file}, ")), "no broken shop has a mistake in {file}");
    }
}

#[test]
fn every_file_of_a_broken_shop_is_there_for_a_reason() {
    for folder in folders() {
        let told = std::fs::read_to_string(folder.join("expected.txt")).unwrap();
        for entry in std::fs::read_dir(&folder).unwrap() {
            let name = entry.unwrap().file_name().into_string().unwrap();
            let sound = ["expected.txt", "refused.txt", "left-out.txt", "shop.toml", "orders.csv"];
            let supports = told.contains(&name) || SUPPORTING.contains(&(folder.file_name().unwrap().to_str().unwrap(), &name));
            assert!(sound.contains(&name.as_str()) || supports, "{}: nothing is said of {name}", folder.display());
        }
    }
}

/// Sound tables that a mistake elsewhere needs beside it.
const SUPPORTING: &[(&str, &str)] = &[
    ("no-orders", "hours.csv"),
    ("no-price-on-the-list", "designs.csv"),
    ("no-price-on-the-list", "tiers.csv"),
    ("mistyped-names", "tiers.csv"),
    ("units-that-do-not-convert", "items.csv"),
    ("weights-needed-to-share-hours", "hours.csv"),
    ("written-twice", "purchases.csv"),
];

#[test]
fn bad_rows_are_left_out_only_when_asked_and_then_listed() {
    let mut skippable = 0;
    for folder in folders() {
        let expected = std::fs::read_to_string(folder.join("expected.txt")).unwrap();
        let told: Vec<&str> = expected.lines().filter(|line| line.starts_with("  ")).collect();
        let outcome = run_on(&folder, "wage", &["--json", "--skip-bad-rows"]);
        let name = folder.display();
        if !told.iter().all(|line| line.contains(".csv, row ")) {
            let refused = std::fs::read_to_string(folder.join("refused.txt")).unwrap();
            assert_eq!((outcome.out.as_str(), refusal(&folder, &outcome.err), outcome.code), ("", refused, 1), "{name}");
            continue;
        }
        assert_eq!(outcome.code, 0, "{name}: {}", outcome.err);
        let heading = match told.len() {
            1 => "1 error, so this row was left out:".to_owned(),
            count => format!("{count} errors, so these rows were left out:"),
        };
        let same = format!("{heading}\n{}\n{NOT_WHOLE}\n", told.join("\n"));
        assert!(outcome.err.lines().all(|line| line.chars().count() <= 100), "{name}: {}", outcome.err);
        let said = outcome.err.replace("\n    ", " ");
        if folder.join("left-out.txt").exists() || (said != same && is_writing()) {
            assert_written(&folder.join("left-out.txt"), &said);
            assert_ne!(said, same, "{name}: left-out.txt says nothing that expected.txt does not");
        } else {
            assert_eq!(said, same, "{name}");
        }
        let table: Value = serde_json::from_str(&outcome.out).unwrap();
        let errors = table["problems"].as_array().unwrap().iter().filter(|problem| problem["severity"] == "error").count();
        assert_eq!(errors, said.lines().filter(|line| line.starts_with("  ")).count(), "{name}: the JSON lists what the error stream does");
        skippable += 1;
    }
    assert!(skippable >= 15, "only {skippable} broken shops went on without their bad rows");
}

#[test]
fn the_rest_is_costed_when_bad_rows_are_left_out() {
    // Pieces and money of the rows that are sound, added by hand.
    for (name, orders, pieces, revenue) in [
        ("ragged-rows", 1, 24, "96.000000"),
        ("two-encodings", 1, 24, "96.000000"),
        ("rows-of-an-order-disagree", 1, 24, "96.000000"),
        ("deposit-kept-of-a-done-order", 2, 36, "144.000000"),
        ("orders-with-nothing-to-carry-the-money", 1, 24, "96.000000"),
        ("hours-without-minutes", 1, 24, "96.000000"),
        ("no-price-on-the-list", 1, 24, "96.000000"),
    ] {
        let outcome = run_on(&broken(name), "wage", &["--json", "--skip-bad-rows"]);
        let table: Value = serde_json::from_str(&outcome.out).unwrap();
        let total = &table["total"];
        assert_eq!((&total["orders"], &total["pieces"], &total["revenue"]), (&orders.into(), &pieces.into(), &revenue.into()), "{name}");
    }
}
