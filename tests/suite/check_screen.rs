//! What `check` shows a person: problems of one kind together and the dearest first, and each by itself with `--all`.

use crate::demo::SHOP;
use crate::harness::{Trial, repository, run_on};
use serde_json::Value;
use std::fmt::Write;

fn check(options: &[&str]) -> String {
    let outcome = run_on(&repository(SHOP), "check", options);
    assert_eq!((outcome.code, outcome.err.as_str()), (0, ""));
    outcome.out
}

/// Lines that begin a problem or a group; those of the tables read stand below.
fn items(text: &str) -> Vec<&str> {
    let problems = text.split("\nTables read").next().unwrap_or_default();
    problems.lines().filter(|line| line.starts_with("  ") && !line.starts_with("    ")).collect()
}

#[test]
fn the_first_screen_of_the_demo_is_short_and_has_the_timer_left_on_at_its_top() {
    let text = check(&[]);
    assert!(text.lines().filter(|line| !line.is_empty()).count() <= 30, "{text}");
    assert!(text.lines().all(|line| line.chars().count() <= 100), "{text}");
    let (_, warnings) = text.split_once("63 warnings in 5 groups:\n").unwrap();
    assert!(warnings.starts_with("  hours.csv, row 271, column minutes: the timer ran for 12 h 40 min ($253.33 at stake)"), "{text}");
    let flat = text.replace("\n    ", " ");
    assert!(flat.contains("  53 prices are under the list price ($115.75 at stake): orders.csv, row 365 ('"), "{flat}");
    assert!(flat.contains("  3 orders have no hours: orders.csv, row 96 ('L024'), row 449 ('L111') and row 463 ('L115'). "), "{flat}");
    assert!(text.ends_with("\nNo errors. 63 warnings in 5 groups.\n--all lists each problem and assumption.\n"), "{text}");
}

#[test]
fn all_of_it_lists_each_problem() {
    let json: Value = serde_json::from_str(&check(&["--json"])).unwrap();
    let text = check(&["--all"]);
    assert_eq!(items(&text).len(), json["problems"].as_array().unwrap().len());
    assert!(text.lines().all(|line| line.chars().count() <= 100), "{text}");
    assert!(text.ends_with("\nNo errors. 63 warnings in 5 groups.\n"), "{text}");
    let flat = text.replace("\n    ", " ");
    assert!(
        flat.contains(
            "the count on 2026-06-30 found 14 fewer bags than the logs say ($1.34 at stake); the orders that used bags are charged for this;"
        ),
        "{flat}"
    );
}

#[test]
fn programs_are_told_the_group_of_each_problem_and_what_is_at_stake() {
    let json: Value = serde_json::from_str(&check(&["--json"])).unwrap();
    let problems = json["problems"].as_array().unwrap();
    let of = |group: &str| problems.iter().filter(|problem| problem["group"] == group).collect::<Vec<_>>();
    let counts = ["long-timer", "under-list-price", "count-gap", "order-without-hours", "published-weight", "card-fees"]
        .map(|group| of(group).len());
    assert_eq!((counts, problems.len()), ([1, 53, 5, 3, 5, 1], 69));
    // 760 minutes at $20 an hour.
    assert_eq!((&of("long-timer")[0]["at_stake"], &of("order-without-hours")[0]["at_stake"]), (&"253.333333".into(), &Value::Null));
    for field in ["severity", "file", "row", "line", "column", "found", "what", "instead"] {
        assert!(problems.iter().all(|problem| problem.get(field).is_some()), "{field}");
    }
}

/// Orders with so many dates that are none.
fn with_wrong_dates(count: u32) -> Trial {
    let mut orders = "order,date,design,quantity,price\nA0,2026-03-07,moon,12,4.00\n".to_owned();
    for order in 1..=count {
        let _ = writeln!(orders, "A{order},7 Marhc 2026,moon,12,4.00");
    }
    Trial::new(&[("orders.csv", &orders), ("hours.csv", "date,minutes\n2026-03-06,60\n")])
}

#[test]
fn one_error_or_five_hundred_of_a_kind_take_the_same_room() {
    for (count, shown, last) in [
        (1, "1 error:\n  orders.csv, row 3, column date: '7 Marhc 2026' is not a date;", "1 error. Correct it and check again"),
        (
            2,
            "2 errors in 1 group:\n  2 dates cannot be read: orders.csv, row 3 ('7 Marhc 2026') and row 4 ('7 Marhc 2026').",
            "2 errors. Correct them",
        ),
        (
            500,
            "500 errors in 1 group:\n  500 dates cannot be read: orders.csv, row 3 ('7 Marhc 2026'), row 4 ('7 Marhc 2026'), row 5 (",
            "500 errors. Correct them",
        ),
    ] {
        let trial = with_wrong_dates(count);
        let outcome = trial.run("check", &[]);
        let flat = outcome.out.replace("\n    ", " ");
        // No date that can be read is far from the others.
        assert_eq!((outcome.code, items(&outcome.out).len()), (1, 1), "{}", outcome.out);
        assert!(flat.contains(shown) && flat.contains(last), "{}", outcome.out);
        assert_eq!(flat.contains(" and 497 more. "), count == 500, "{flat}");
        assert_eq!(items(&trial.run("check", &["--all"]).out).len(), usize::try_from(count).unwrap());
        let refused = trial.run("tiers", &[]);
        assert_eq!((refused.code, items(&refused.err).len()), (1, 1), "{}", refused.err);
        let advice = format!("fairdozen check {} --all\n", trial.path().display());
        assert_eq!(refused.err.contains(&advice), count > 1, "{}", refused.err);
    }
}

#[test]
fn a_shop_without_a_fault_says_so_in_one_line() {
    let outcome = run_on(&repository("fixtures/tiny-shop"), "check", &[]);
    assert_eq!(
        outcome.out,
        "1 assumption:\n  orders.csv, column payments: 2 of 3 orders bear card fees: 2 do not say, so [fees] payments\n    counts; \
         write cash, or 0, for one that was not paid by card\n\nTables read (not in the folder: counts, tiers):\n  orders.csv: 6 rows\n  purchases.csv: 4 rows\n  hours.csv: 8 rows\n  \
         overheads.csv: 1 row\n  designs.csv: 2 rows\n  recipes.csv: 6 rows\n  items.csv: 1 row\n\nNo errors and no warnings.\n"
    );
}
