//! What a maker types is understood: months by name, percentages, dozens; what is not gets the word she probably meant.

use crate::harness::{Trial, figure, repository, run_on};
use fairdozen::cli::Outcome;
use serde_json::Value;

const SHOP: &str = "fixtures/ninebell-quay";

fn json(outcome: &Outcome) -> Value {
    assert_eq!(outcome.code, 0, "{}", outcome.err);
    serde_json::from_str(&outcome.out).unwrap()
}

fn demo(command: &str, options: &[&str]) -> Outcome {
    run_on(&repository(SHOP), command, options)
}

/// The demo's logs run from August 2025 to October 2026.
#[test]
fn a_month_may_be_typed_by_its_name() {
    let from = |month: &str| json(&demo("wage", &["--json", "--month", month]))["from"].as_str().unwrap().to_owned();
    for (typed, first) in [
        ("october", "2026-10-01"),
        ("Sep", "2026-09-01"),
        ("july", "2026-07-01"),
        ("November", "2025-11-01"),
        ("july 2026", "2026-07-01"),
        ("2026-7", "2026-07-01"),
        ("7/2026", "2026-07-01"),
        ("october 2025", "2025-10-01"),
    ] {
        assert_eq!(from(typed), first, "{typed}");
    }
    for (typed, says) in [("jully", "did you mean july?"), ("7", "write a month as october"), ("july 26", "write a month as october")] {
        let outcome = demo("wage", &["--month", typed]);
        assert_eq!(outcome.code, 2);
        assert!(outcome.err.contains(says), "{}", outcome.err);
    }
    let short = Trial::new(&[("orders.csv", "order,date,design,quantity,price\nA1,2026-03-04,moth,12,3.00\n")]);
    let outcome = short.run("wage", &["--month", "july"]);
    let says = "your logs have no July: they run from March 2026 to March 2026; give the year, as in \"July 2026\"\n";
    assert_eq!((outcome.code, outcome.err.as_str()), (2, says));
    short.write("orders.csv", b"order,date,design,quantity,price\n");
    assert_eq!(short.run("wage", &["--month", "july"]).err, "your logs are empty, so give the year of July\n");
}

#[test]
fn a_review_may_be_compared_with_a_month_by_its_name() {
    let out = tempfile::tempdir().unwrap();
    let review = |against: &str| {
        let outcome = demo("review", &["--month", "october", "--against", against, "--details", "--out", out.path().to_str().unwrap()]);
        outcome.out + &outcome.err
    };
    let june = review("2026-06");
    assert!(june.contains("June 2026"), "{june}");
    for typed in ["june", "June 2026", "6/2026"] {
        assert_eq!(review(typed), june, "{typed}");
    }
    assert!(review("october 2026").contains("names the period under review itself"));
    assert!(review("jnue").contains("did you mean 'june'?"), "{}", review("jnue"));
    assert!(review("last-yaer").contains("did you mean 'last-year'?"));
}

#[test]
fn a_percentage_may_follow_its_option_in_any_dress() {
    let set = "12 shape";
    let rush = |words: &[&str]| json(&demo("quote", &[&[set, "--json"], words].concat()))["rush"].clone();
    let fifth = rush(&["--rush=20%"]);
    for words in [&["--rush", "20%"][..], &["--rush", "20 %"], &["--rush", "20"], &["--rush=20"], &["--rush=20 %"]] {
        assert_eq!(rush(words), fifth, "{words:?}");
    }
    let usual = rush(&["--rush"]);
    assert!(usual != fifth && usual.is_string(), "{usual}");
    // Alone before another word it is the usual one all the same.
    let shop = repository(SHOP);
    let before = fairdozen::cli::run(["fairdozen", "quote", "--rush", shop.to_str().unwrap(), set, "--json"]);
    assert_eq!(json(&before)["rush"], usual);
    let wrong = demo("quote", &[set, "--rush=lots"]);
    assert!(wrong.code == 2 && wrong.err.contains("'lots' is not a percentage; write it as 15%"), "{}", wrong.err);
}

#[test]
fn a_set_may_be_typed_as_it_is_said() {
    let quote = |set: &str| {
        let mut quote = json(&demo("quote", &[set, "--json", "--minutes", "card"]));
        quote["rows"].take();
        quote
    };
    let plain = quote("24 numeral, 6 shape, 1 character");
    for set in [
        "2 dz numeral, half dozen shape, a character",
        "2 dozen numeral and half a dozen shape and one character",
        "2dz numerals; 1/2 doz shapes; 1x character",
        "two dozen numeral + 6 pcs shape + 1 ct character",
        "24 numeral & 6 shape & 1 character",
        "2 doz of numeral, 6 shape, and a character",
    ] {
        assert_eq!(quote(set), plain, "{set}");
    }
    let refused = demo("quote", &["2 dz numerla"]);
    assert!(refused.code == 2 && refused.err.contains("did you mean numeral?"), "{}", refused.err);
}

/// A name that the shop knows is never taken apart.
#[test]
fn a_design_whose_name_holds_and_is_one_design() {
    let shop = Trial::new(&[
        ("shop.toml", "currency = \"USD\"\n[wage]\ntarget = 20\n"),
        ("orders.csv", "order,date,design,quantity,price\nA1,2026-03-04,sun and 2 moons,12,3.00\nA1,2026-03-04,sun,12,2.00\n"),
        ("hours.csv", "date,minutes,stage,order\n2026-03-03,120,decorate,A1\n"),
    ]);
    let quote = json(&shop.run("quote", &["2 dozen sun and 2 moons and 6 sun", "--json"]));
    assert_eq!((quote["rows"].as_array().unwrap().len(), &quote["pieces"], figure(&quote, "price")), (2, &30.into(), "84.000000"));
}

/// The advice for an order handed over on two days, followed to the letter, passes the check.
#[test]
fn an_order_handed_over_twice_becomes_two() {
    let hours = "date,minutes,stage,order\n2026-09-04,150,decorate,A1\n";
    let shop = Trial::new(&[
        ("orders.csv", "order,date,design,quantity,price\nA1,2026-09-05,gate,10,2.00\nA1,2026-09-06,gate,14,2.00\nA1,,acorn,6,3.00\n"),
        ("hours.csv", hours),
    ]);
    let outcome = shop.run("check", &[]);
    assert_eq!(outcome.code, 1);
    let said = outcome.out.split_whitespace().collect::<Vec<_>>().join(" ");
    assert!(said.contains("give each hand-over its own order, as A1a and A1b, and write A1a+A1b in hours"), "{said}");
    shop.write(
        "orders.csv",
        b"order,date,design,quantity,price\nA1a,2026-09-05,gate,10,2.00\nA1b,2026-09-06,gate,14,2.00\nA1b,,acorn,6,3.00\n",
    );
    assert_eq!(shop.run("check", &[]).code, 1, "hours still name A1");
    shop.write("hours.csv", hours.replace("A1", "A1a+A1b").as_bytes());
    assert_eq!(shop.run("check", &[]).code, 0, "{}", shop.run("check", &[]).out);
    let table = shop.wage("order", &[]);
    // 150 minutes over 30 pieces alike: 50 and 100.
    assert_eq!(figure(&table["total"], "owner_minutes"), "150.000000");
    assert_eq!(
        table["rows"].as_array().unwrap().iter().map(|row| figure(row, "owner_minutes")).collect::<Vec<_>>(),
        ["50.000000", "100.000000"]
    );
}
