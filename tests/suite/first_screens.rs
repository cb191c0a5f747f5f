//! The first screen of each command fits on the demo, and `--details` holds all of it and what it leaves out.

use crate::harness::{Trial, repository, run_on};
use std::path::Path;

const SHOP: &str = "fixtures/ninebell-quay";
const SET: &str = "6 numeral, 12 shape, 6 character";

/// A command with its options, the lines its first screen may have, and what stands only under `--details`.
type Answer = (&'static str, &'static [&'static str], usize, &'static [&'static str]);

const ANSWERS: [Answer; 11] = [
    ("wage", &[], 25, &["dotted bell", "Prepaid: ", "Left out: 1 quoted order", "The minutes of whole orders are split by"]),
    ("wage", &["--both"], 25, &["dotted bell"]),
    ("wage", &["--by", "order"], 25, &["L001", "These hours are counted from your logs, not estimated."]),
    ("wage", &["--by", "month"], 25, &["2025-08"]),
    ("minutes", &[], 36, &["Half of your orders take within 12 %", "R-hat"]),
    ("minutes", &["--by", "stage"], 36, &["Aug 2025"]),
    ("tiers", &[], 30, &["Design by design", "What the fair price", "What would help instead", "What this is based on", "drop 70 pieces"]),
    ("whatif", &["--fewer", "character 20%"], 25, &["A piece not sold takes", "cover the orders with known hours"]),
    ("whatif", &["--minimum", "24", "--by", "order"], 25, &["L001", "cover the orders with known hours"]),
    (
        "quote",
        &[SET, "--colours", "6"],
        22,
        &["The chance that it pays $20 an hour is", "A larger set would not help", "Minutes come from"],
    ),
    ("review", &["--month", "2026-10"], 48, &["Hours by stage", "What changed since", "Check it against", "What your logs lack"]),
];

fn printed(shop: &Path, command: &str, options: &[&str]) -> String {
    let out = tempfile::tempdir().unwrap();
    let folder = ["--out", out.path().to_str().unwrap()];
    let outcome = run_on(shop, command, &[options, if command == "review" { &folder } else { &[] }].concat());
    assert_eq!((outcome.code, outcome.err.as_str()), (0, ""), "{command} {options:?}");
    outcome.out.replace(out.path().to_str().unwrap(), "OUT")
}

/// The words of a text with one space between each two.
fn flowing(text: &str) -> String {
    text.split_whitespace().collect::<Vec<_>>().join(" ")
}

fn fits(text: &str, most: usize) {
    assert!(text.lines().all(|line| line.chars().count() <= 100), "{text}");
    let lines = text.lines().filter(|line| !line.trim().is_empty()).count();
    assert!(lines <= most, "{lines} lines, not {most}:\n{text}");
    assert!(text.lines().last().unwrap().starts_with("--details shows "), "{text}");
}

#[test]
fn each_first_screen_fits_and_details_hold_the_rest() {
    for (command, options, most, only_in_details) in ANSWERS {
        let first = printed(&repository(SHOP), command, options);
        fits(&first, most);
        let details = printed(&repository(SHOP), command, &[options, &["--details"]].concat());
        assert!(!details.contains("--details shows"), "{command}: {details}");
        assert!(details.lines().all(|line| line.chars().count() <= 100), "{details}");
        for said in only_in_details {
            assert!(details.contains(said) && !first.contains(said), "{command} {options:?}: {said}\n{details}");
        }
        // Nothing on the first screen is lost but the count of what it leaves out; names may be cut to another width.
        let whole = flowing(&details);
        let counts_hidden = |line: &str| [" nearer to ", " are earlier.", " changed less than "].iter().any(|said| line.contains(said));
        for line in first.lines().filter(|line| !line.contains(['…', '─']) && !counts_hidden(line) && !line.starts_with("--details")) {
            assert!(whole.contains(flowing(line).trim_end_matches('.')), "{command} {options:?}: {line}\n{details}");
        }
    }
}

/// Without a command: the check in one line, then the first screen of the review.
#[test]
fn without_a_command_the_first_screen_of_the_review_is_printed() {
    let shop = Trial::new(&[]);
    for entry in std::fs::read_dir(repository(SHOP)).unwrap() {
        let path = entry.unwrap().path();
        if path.is_file() {
            shop.write(path.file_name().unwrap().to_str().unwrap(), &std::fs::read(&path).unwrap());
        }
    }
    let outcome = shop.run("", &[]);
    let answer = printed(&repository(SHOP), "review", &["--month", "2026-10"]);
    let (answer, _) = answer.split_once("\nThe page").unwrap();
    assert!(outcome.out.contains(answer), "{}", outcome.out);
    // Where a shop lies is no matter of ours: its path may be longer than a line.
    fits(&outcome.out.replace(shop.path().to_str().unwrap(), "SHOP"), 48);
    assert!(shop.run("", &["--details"]).out.contains("Check it against your own books"));
}
