//! The first check of a maker's own files says everything at once, and counts nothing twice.

use super::harness::Trial;
use serde_json::Value;
use std::collections::BTreeMap;

/// An order book under headings of her own: ids once per order, two ways of paying and a status of her own.
const ORDERS: &str = "Ord.,Pick up,Customer,Cookie,How many,$ each,Paid with,Found me,Status\n\
    214,9/2/26,Sommer,dino,4,$7.00,Square,fair,\n,,,onesie,1 doz,5.25,,,\n215,9/13/26,Sommer,leaf,12 ct,$4.25,venmo,fair,gone\n";
/// A log of hours under headings of her own, with a stage of her own.
const HOURS: &str =
    "When,How long,Doing,Order(s),Which\n9/1/26,55 min,Baking,214,\n9/2/26,45 min,Fiddling,214,dino\n9/13/26,45 min,Fiddling,215,\n";
/// Receipts with their date and store on their first row alone.
const RECEIPTS: &str = "When,Where,What,How many,Size,Price,Ship\n8/28/26,Barn Supply,flour,2,10 lb,$11.96,$6.95\n,,butter,2,4 lb,$30.98,\n\
    8/28/26,Market,eggs,1,18 ct,$4.79,\n,,salt,,2 lb,$1.49,\n9/4/26,Barn Supply,butter,1,4 lb,$15.49,\n";
const SHOP: &str = "currency = \"USD\"\n";

fn shop(files: &[(&str, &str)]) -> Trial {
    Trial::new(&[&[("shop.toml", SHOP)], files].concat())
}

fn checked(shop: &Trial) -> Value {
    serde_json::from_str(&shop.run("check", &["--json"]).out).unwrap()
}

/// How many errors there are of each group.
fn errors(check: &Value) -> BTreeMap<String, usize> {
    let mut groups = BTreeMap::new();
    for problem in check["problems"].as_array().unwrap().iter().filter(|problem| problem["severity"] == "error") {
        *groups.entry(problem["group"].as_str().unwrap().to_owned()).or_default() += 1;
    }
    groups
}

fn groups(expected: &[(&str, usize)]) -> BTreeMap<String, usize> {
    expected.iter().map(|(group, count)| ((*group).to_owned(), *count)).collect()
}

/// Pairs of a proposed key and its value.
fn proposed(check: &Value) -> BTreeMap<String, String> {
    let text = |value: &Value| value.as_str().unwrap().to_owned();
    check["proposals"].as_array().unwrap().iter().map(|one| (text(&one["key"]), text(&one["value"]))).collect()
}

#[test]
fn one_check_names_every_error_and_the_next_has_only_what_was_not_corrected() {
    let shop = shop(&[("orders.csv", ORDERS), ("hours.csv", HOURS), ("purchases.csv", RECEIPTS)]);
    let first = checked(&shop);
    let own = [("unknown-payment", 2), ("unknown-stage", 2), ("unknown-word", 1)];
    // Order, date and price; the date of the hours; item, paid and date of the receipts.
    assert_eq!(errors(&first), groups(&[&own[..], &[("unmapped-heading", 7)]].concat()), "{first:#}");
    assert_eq!(shop.run("check", &["--write"]).code, 1);
    let second = checked(&shop);
    assert_eq!(errors(&second), groups(&own));
    assert_eq!(proposed(&second), BTreeMap::new(), "the first block had all of it");
    let settings = std::fs::read_to_string(shop.path().join("shop.toml")).unwrap();
    shop.write(
        "shop.toml",
        (settings + "[words]\nFiddling = \"decorate\"\ngone = \"done\"\n[payments]\nSquare = 1\nvenmo = 0\n").as_bytes(),
    );
    assert_eq!(errors(&checked(&shop)), groups(&[]));
}

#[test]
fn everyday_headings_are_in_the_block() {
    let shop = shop(&[("orders.csv", ORDERS), ("hours.csv", HOURS), ("purchases.csv", RECEIPTS)]);
    let found = proposed(&checked(&shop));
    for (key, value) in [
        ("columns.orders.\"Ord.\"", "order"),
        ("columns.orders.\"How many\"", "quantity"),
        ("columns.orders.\"$ each\"", "price"),
        ("columns.orders.\"Paid with\"", "payments"),
        ("columns.orders.\"Found me\"", "channel"),
        ("columns.hours.\"When\"", "date"),
        ("columns.hours.\"How long\"", "minutes"),
        ("columns.hours.\"Doing\"", "stage"),
        ("columns.hours.\"Which\"", "design"),
        ("columns.purchases.\"How many\"", "packs"),
        ("columns.purchases.\"Price\"", "paid"),
        ("columns.purchases.\"Ship\"", "shipping"),
        ("columns.purchases.\"Where\"", "supplier"),
        ("formats.hours.date", "month/day/year"),
    ] {
        assert_eq!(found.get(key).map(String::as_str), Some(value), "{key}: {found:#?}");
    }
}

#[test]
fn a_heading_that_two_columns_could_be_asks_unless_the_cells_tell() {
    let orders = "order,date,design,quantity,price,Payment,Paid with\n1,2026-09-01,leaf,1,4,$4.00,card\n";
    let found = checked(&shop(&[("orders.csv", orders)]));
    assert_eq!(proposed(&found), [("columns.orders.\"Paid with\"".to_owned(), "payments".to_owned())].into());
    let hours = "date,minutes,Which\n2026-09-01,30,leaf\n";
    let all = shop(&[("orders.csv", orders), ("hours.csv", hours)]).run("check", &["--all"]).out;
    let asked = all.split_whitespace().collect::<Vec<_>>().join(" ");
    assert!(
        asked.contains("write the one you mean under [columns.hours] in shop.toml: \"Which\" = \"order\" or \"Which\" = \"design\""),
        "{all}"
    );
}

#[test]
fn a_table_that_cannot_be_read_whole_hides_no_error_of_another_and_brings_none() {
    let orders = "order,date,design,quantity\n1,2026-09-01,leaf,1\n";
    let hours = "date,minutes,stage,order,design\n2026-09-01,30,Fiddling,7,moth\n";
    let found = checked(&shop(&[("orders.csv", orders), ("hours.csv", hours)]));
    assert_eq!(errors(&found), groups(&[("missing-column", 1), ("unknown-stage", 1)]), "{found:#}");
}

#[test]
fn a_receipts_blank_dates_are_those_of_its_first_row_and_no_others() {
    let shop = shop(&[
        ("orders.csv", "order,date,design,quantity,price\n1,2026-09-01,leaf,1,4\n"),
        (
            "purchases.csv",
            "date,item,size,unit,paid,shipping,receipt\n2026-08-28,flour,1,lb,1.00,0.50,R1\n,butter,1,lb,3.00,,\n2026-08-29,eggs,12,each,2.00,,R2\n\n,salt,1,lb,1.00,,\n",
        ),
    ]);
    let found = checked(&shop);
    assert_eq!(errors(&found), groups(&[("blank-cell", 1)]), "{found:#}");
    let blank = found["problems"].as_array().unwrap().iter().find(|problem| problem["group"] == "blank-cell").unwrap();
    assert_eq!((&blank["row"], &blank["column"]), (&6.into(), &"date".into()), "a blank row ends the receipt");
    let said = shop.run("check", &[]).out;
    assert!(said.contains("purchases.csv, date: 1 blank cell is as in the row above"), "{said}");
}

#[test]
fn rows_below_a_row_left_out_keep_their_own_order() {
    let orders = "order,date,design,quantity,price\n1,2026-09-01,leaf,1,4\n,,moth,1,4\n2,2026-09-02,leaf,some,4\n,2026-09-02,moth,5,4\n";
    let shop = shop(&[("orders.csv", orders)]);
    let wage = shop.wage("order", &["--skip-bad-rows"]);
    let pieces: Vec<(&str, i64)> =
        wage["rows"].as_array().unwrap().iter().map(|row| (row["key"].as_str().unwrap(), row["pieces"].as_i64().unwrap())).collect();
    assert_eq!(pieces, [("1", 2), ("2", 5)]);
}

#[test]
fn a_design_under_two_names_says_so_and_the_card_is_made() {
    let orders = "order,date,design,quantity,price\n1,2026-09-01,ghost,6,4\n1,2026-09-01,moth,6,4\n2,2026-09-02,Ghosts,6,4\n2,2026-09-02,ghost,1,4\n";
    let hours =
        "date,minutes,stage,order,design\n2026-09-01,30,decorate,1,Ghosts\n2026-09-01,30,decorate,1,Moths\n2026-09-02,60,decorate,2,\n";
    let shop = shop(&[("orders.csv", orders), ("hours.csv", hours)]);
    let found = checked(&shop);
    assert_eq!(errors(&found), groups(&[("other-name-in-order", 1), ("design-of-no-order", 1)]), "{found:#}");
    let shown = shop.run("check", &["--names"]);
    let card = "design,tier,size,also_called\nghost,,,Ghosts\nmoth,,,Moths\n";
    assert!(card.lines().all(|line| shown.out.contains(&format!("\n  {line}\n"))), "{}", shown.out);
    assert_eq!(shop.run("check", &["--names", "--write"]).code, 0);
    assert_eq!(std::fs::read_to_string(shop.path().join("designs.csv")).unwrap(), card);
    assert_eq!(errors(&checked(&shop)), groups(&[]));
}
