//! Her own files: a shop written by chance as makers write (each column in a way of its own, another separator and encoding,
//! totals and titles about it) gives the figures of the same shop written plainly, or asks. It never gives others.

pub mod book;
mod dress;
mod export;
mod her_words;
mod locales;
mod look;
mod privacy;
mod several;
mod sheets;

use crate::conservation::VIEWS;
use crate::harness::Trial;
use crate::random_shop::for_many_shops;
use proptest::prelude::*;
use serde_json::Value;
use std::cell::Cell;

/// Groups of errors that ask what only the maker knows.
const QUESTIONS: [&str; 2] = ["ambiguous-format", "unclear-heading"];

/// The answers of a shop that must not depend on how it is written, in small letters: the spelling of a name may.
pub fn answers(trial: &Trial) -> Vec<Value> {
    VIEWS
        .iter()
        .map(|by| {
            let mut answer = trial.wage(by, &["--minutes", "card"]);
            answer["rows"].as_array_mut().unwrap().sort_by_cached_key(|row| row["key"].to_string().to_lowercase());
            let parts = ["rows", "total", "all_in", "unassigned", "prepaid", "earlier", "left_out"]
                .map(|part| answer[part].to_string().to_lowercase());
            serde_json::from_str(&format!("[{}]", parts.join(","))).unwrap()
        })
        .collect()
}

/// The groups of the errors that `check` finds.
pub fn groups_of_errors(trial: &Trial) -> Vec<String> {
    groups_of(trial, "error")
}

/// The groups of the problems of a severity that `check` finds.
pub fn groups_of(trial: &Trial, severity: &str) -> Vec<String> {
    let answer: Value = serde_json::from_str(&trial.run("check", &["--json"]).out).unwrap();
    let problems = answer["problems"].as_array().unwrap().iter();
    problems.filter(|problem| problem["severity"] == severity).map(|problem| problem["group"].as_str().unwrap().to_owned()).collect()
}

#[test]
fn a_shop_written_messily_reads_as_it_was_meant_or_asks() {
    let (read, asked) = (Cell::new(0), Cell::new(0));
    for_many_shops(40, 61, |shop, mut dice| {
        let messy = dress::messy(&shop, &mut dice);
        let written = messy.run("check", &["--write"]);
        let errors = groups_of_errors(&messy);
        if errors.is_empty() {
            prop_assert_eq!(answers(&messy), answers(&shop.trial()), "{}", written.out);
            // What was written is what was understood: nothing is left to write, and the answers stay.
            let again = std::fs::read(messy.path().join("shop.toml")).unwrap();
            messy.run("check", &["--write"]);
            prop_assert_eq!(std::fs::read(messy.path().join("shop.toml")).unwrap(), again);
            read.set(read.get() + 1);
        } else {
            let unasked: Vec<&String> = errors.iter().filter(|group| !QUESTIONS.contains(&group.as_str())).collect();
            prop_assert!(unasked.is_empty(), "{:?}\n{}", unasked, messy.run("check", &["--all"]).out);
            asked.set(asked.get() + 1);
        }
        Ok(())
    });
    assert!(read.get() >= 12, "only {} shops were read, {} asked", read.get(), asked.get());
}
