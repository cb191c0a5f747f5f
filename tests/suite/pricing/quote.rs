//! New sets, priced.

use super::{CARD, by_hand, fine, flowing, json, number, rows};
use crate::demo::SHOP;
use crate::harness::{Trial, figure, repository, run_on};
use rust_decimal::Decimal;
use serde_json::Value;

#[test]
fn a_set_is_quoted_by_hand() {
    let shop = by_hand("18");
    let quote = |options: &[&str]| json(shop.path(), "quote", &[options, &CARD].concat());
    let of = quote(&["6 acorn, 2 gate"]);
    // 20 + 6 × 4 + 2 × 12 minutes; 18 + 18 for them; fair at 0.30 a minute; set-up 6.00 over 21.60 left by eight pieces.
    assert_eq!((figure(&of, "owner_minutes"), figure(&of, "price"), figure(&of, "fair_price")), ("68.000000", "36.000000", "20.400000"));
    assert_eq!((figure(&of, "wage_per_hour"), &of["smallest_order"], &of["charge_more"]), ("31.764706", &3.into(), &Value::Null));
    // Tiers, dozens, new designs, a rush: 12 × 3 + 1 × 9 and a fifth more.
    let of = quote(&["1 dozen small, 1 iron gate:large", "--rush=20%"]);
    assert_eq!((figure(&of, "price"), figure(&of, "rush"), &rows(&of, "rows")[1]["new_design"]), ("54.000000", "9.000000", &true.into()));
    // One acorn alone: 24 minutes at 0.30 are 7.20, of which it brings 3.00; three more bring 1.80 each.
    let of = quote(&["1 acorns"]);
    assert_eq!((figure(&of, "charge_more"), &of["more_pieces"]["pieces"], &of["smallest_order"]), ("4.200000", &3.into(), &4.into()));
}

#[test]
fn a_quote_that_cannot_be_read_says_what_to_write() {
    let shop = by_hand("18");
    for (set, says) in [
        ("", "the set is empty"),
        ("acorn", "write how many and of what"),
        ("0 acorn", "write a number from 1 to"),
        ("99999999 acorn", "write a number from 1 to"),
        ("x acorn", "write how many and of what"),
        ("1.5 acorn", "write how many and of what"),
        ("6 acron", "did you mean acorn?"),
        ("6 fox", "if it is new, name its tier: \"6 fox:large\""),
        ("6 fox:lrge", "did you mean large?"),
        ("6 gate:small", "gate is no new design; leave the tier out: \"6 gate\""),
        ("6 :large", "write how many and of what"),
    ] {
        let outcome = shop.run("quote", &[set]);
        assert_eq!((outcome.code, outcome.out.as_str()), (2, ""), "{set}");
        assert!(flowing(&outcome.err).contains(says), "{set}: {}", outcome.err);
        assert!(outcome.err.lines().all(|line| line.chars().count() <= 100), "{}", outcome.err);
    }
}

/// What is not counted is said beside the figure that lacks it.
#[test]
fn prices_without_ingredients_say_so() {
    let shop = by_hand("18");
    let said = |command: &str, options: &[&str]| flowing(&fine(shop.run(command, &[options, &CARD].concat())));
    assert!(said("tiers", &[]).contains("No ingredients are counted for any design"));
    assert!(said("quote", &["6 acorn"]).contains("Some of its ingredients are not counted"));
    shop.write("shop.toml", b"currency = \"USD\"\n[wage]\ntarget = 18\n[materials]\nregular = 0.30\n");
    assert!(!said("tiers", &[]).contains("No ingredients") && !said("quote", &["6 acorn"]).contains("No ingredients"));
}

/// A rush is charged on every piece, so a set that pays with it is not too small with it.
#[test]
fn a_rush_counts_for_the_size_worth_its_set_up() {
    let shop = by_hand("20");
    for rush in 0..60 {
        let quote = json(shop.path(), "quote", &[&["2 acorn, 1 gate", &format!("--rush={rush}%")], &CARD[..]].concat());
        let pays = number(&quote, "price") >= number(&quote, "fair_price");
        assert_eq!(quote["smallest_order"].as_i64().is_some_and(|pieces| pieces <= 3), pays, "{rush} %: {quote}");
    }
}

/// A piece more brings its part of the rush: as many more as are asked for are enough, and one fewer is not.
#[test]
fn more_pieces_bring_more_rush() {
    let shop = Trial::new(&[
        ("shop.toml", "currency = \"USD\"\n[wage]\ntarget = 20\n"),
        ("tiers.csv", "tier,price\nmini,3.00\n"),
        ("designs.csv", "design,tier,minutes_each\nbell,mini,5\n"),
        ("orders.csv", "order,date,design,quantity,price\nA,2026-03-10,bell,12,\n"),
        ("hours.csv", "date,minutes,stage,order\n2026-03-09,105,decorate,A\n2026-03-09,60,plan,A\n"),
    ]);
    let quote = |pieces: i64| json(shop.path(), "quote", &[&format!("{pieces} bell"), "--rush=20%", "--minutes", "card"]);
    // 20 an hour for 60 minutes and 8.75 a piece, of 3.60: 20 ÷ (3.60 − 2.916667) is 29.3 pieces.
    assert_eq!((&quote(18)["more_pieces"]["pieces"], &quote(18)["smallest_order"]), (&12.into(), &30.into()));
    assert_eq!((&quote(30)["charge_more"], &quote(29)["more_pieces"]["pieces"]), (&Value::Null, &1.into()));
}

/// What is not known of a new design is how it differs from its tier's others: that widens its range, not its middle.
#[test]
fn a_new_design_is_less_certain_than_its_tier() {
    let shop = repository(SHOP);
    let (tier, new) = (json(&shop, "quote", &["12 character"]), json(&shop, "quote", &["12 lighthouse:character"]));
    assert_eq!((&tier["price"], &tier["fair_price"], &tier["wage_per_hour"]), (&new["price"], &new["fair_price"], &new["wage_per_hour"]));
    let width = |quote: &Value| number(quote, "fair_high") - number(quote, "fair_low");
    assert!(width(&new) > width(&tier) * "1.5".parse::<Decimal>().unwrap(), "{new} {tier}");
    let known = json(&shop, "quote", &["12 orchard fox"]);
    assert!(number(&new, "fair_low") > number(&known, "fair_low") / Decimal::from(2));
}

#[test]
fn a_day_before_the_list_has_no_price() {
    let told = run_on(&repository(SHOP), "quote", &["6 shape", "--date", "2020-01-01"]);
    assert_eq!((told.code, told.err.as_str()), (2, "shape has no list price on 2020-01-01; tiers.csv gives its first from 2025-08-01\n"));
}
