//! Sentences that must fit what they speak of: singular or plural, all of the orders or the others, this shop's own tiers.

use crate::harness::{Trial, repository, run_on};

fn demo(command: &str, options: &[&str]) -> String {
    let outcome = run_on(&repository("fixtures/ninebell-quay"), command, options);
    flowing(&(outcome.out + &outcome.err))
}

fn flowing(text: &str) -> String {
    text.split_whitespace().collect::<Vec<_>>().join(" ")
}

#[test]
fn a_what_if_names_the_orders_that_are_left() {
    let minimum = demo("whatif", &["--minimum", "24"]);
    assert!(minimum.starts_with("With no order under 24 pieces, the other 75 orders in your logs would have paid you"), "{minimum}");
    assert!(minimum.contains("43 orders are turned away"), "{minimum}");
    let fewer = demo("whatif", &["--fewer", "orders 10%"]);
    assert!(fewer.starts_with("With 10 % fewer orders, your logs would have paid you"), "{fewer}");
    let dearer = demo("whatif", &["--if", "egg x2"]);
    assert!(dearer.starts_with("With egg at twice the price, the 118 orders in your logs would have paid you"), "{dearer}");
    let none = demo("whatif", &["--minimum", "12"]);
    assert!(none.contains("the 118 orders in your logs would have paid you the same: $"), "{none}");
    assert!(none.contains("No order has fewer than 12 pieces, so nothing changes."), "{none}");
}

#[test]
fn what_is_not_there_is_said_and_nothing_more() {
    let month = demo("wage", &["--month", "2026-01"]);
    assert!(month.starts_with("Nothing was handed over in January 2026.") && !month.contains("Hourly pay by design"), "{month}");
    let shop = Trial::new(&[("orders.csv", "order,date,design,quantity,price\nA,2026-03-07,moth,12,5\n")]);
    assert_eq!(shop.run("minutes", &["--by", "stage"]).out, "No hours are logged yet.\n");
}

#[test]
fn advice_is_of_the_shops_own_tiers_and_of_as_many_as_there_can_be() {
    assert!(demo("quote", &[""]).contains("the set is empty; write it as \"6 "), "{}", demo("quote", &[""]));
    assert!(!demo("quote", &[""]).contains("patterned"));
    let shop = Trial::new(&[
        ("shop.toml", "currency = \"USD\"\n[wage]\ntarget = 20\n"),
        ("orders.csv", "order,date,design,quantity,price\nA,2026-03-07,moth,12,5\nB,2026-03-14,moth,24,5\n"),
        ("hours.csv", "date,minutes,stage,order\n2026-03-06,120,decorate,A\n2026-03-13,240,decorate,B\n"),
    ]);
    let list = flowing(&shop.run("tiers", &["--tiers", "3"]).out);
    assert!(list.contains("Only 1 design was sold, so the list has 1 tier."), "{list}");
}

#[test]
fn a_range_holds_the_figure_it_is_about() {
    let wage = demo("wage", &["--by", "theme"]);
    assert!(!wage.contains("$0.57 $1 "), "{wage}");
}

#[test]
fn the_orders_left_out_are_not_counted_again_as_rows() {
    let wage = demo("wage", &["--details"]);
    assert!(wage.contains("Left out: 1 quoted order and the cookies of 1 cancelled order (its deposit counts)."), "{wage}");
}
