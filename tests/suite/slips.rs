//! Slips of the pen: `check` names each by its row, with the money at stake.

use crate::harness::Trial;
use serde_json::Value;

/// What `check` says of a group, as row and money at stake.
fn named(trial: &Trial, group: &str) -> Vec<(i64, String)> {
    let out = trial.run("check", &["--json"]).out;
    let check: Value = serde_json::from_str(&out).unwrap();
    let problems = check["problems"].as_array().unwrap().iter().filter(|problem| problem["group"] == group);
    problems.map(|problem| (problem["row"].as_i64().unwrap(), problem["at_stake"].as_str().unwrap_or_default().to_owned())).collect()
}

/// Nine orders of a dozen owls at 4.50, of which one row is replaced.
fn orders(replaced: usize, by: &str) -> String {
    let row = |order: usize| {
        let own = format!("S{order},2026-05-0{order},owl,12,4.50\n");
        if order == replaced { format!("{by}\n") } else { own }
    };
    "order,date,design,quantity,price\n".to_owned() + &(1..=9).map(row).collect::<String>()
}

#[test]
fn a_total_written_as_a_price_is_named_with_what_it_adds() {
    let trial = Trial::new(&[("orders.csv", &orders(4, "S4,2026-05-04,owl,12,54.00"))]);
    // 12 × (54.00 − 4.50).
    assert_eq!(named(&trial, "far-price"), [(5, "594.000000".to_owned())]);
    let listed = [("tiers.csv", "tier,price\nplain,4.50\n"), ("designs.csv", "design,tier\nowl,plain\n")];
    let one = "order,date,design,quantity,price\nS1,2026-05-01,owl,12,0.50\n";
    let by_list = Trial::new(&[listed[0], listed[1], ("orders.csv", one)]);
    assert_eq!(named(&by_list, "far-price"), [(2, "48.000000".to_owned())], "one row is enough beside a list price");
}

#[test]
fn gifts_friends_prices_and_few_rows_are_no_slips() {
    for row in ["S4,2026-05-04,owl,12,0", "S4,2026-05-04,owl,12,2.25", "S4,2026-05-04,bear,12,54.00"] {
        assert_eq!(named(&Trial::new(&[("orders.csv", &orders(4, row))]), "far-price"), [], "{row}");
    }
}

#[test]
fn an_order_handed_over_before_any_of_its_hours_is_named() {
    let hours = "date,minutes,order\n2026-05-03,60,S4\n2026-05-04,60,S5\n2026-05-07,60,S6\n";
    let trial = Trial::new(&[("orders.csv", &orders(4, "S4,2025-05-04,owl,12,4.50")), ("hours.csv", hours)]);
    // S4 is a year early; S6 was worked on the day after; S5 the day before.
    assert_eq!(named(&trial, "worked-after").into_iter().map(|(row, _)| row).collect::<Vec<_>>(), [5, 7]);
}

#[test]
fn a_receipt_of_ten_times_the_usual_price_is_named() {
    let bought = |paid: &str| {
        format!(
            "date,item,packs,size,unit,paid\n2026-04-01,butter,1,1,lb,4.00\n2026-04-08,butter,2,1,lb,8.40\n2026-04-15,butter,1,454,g,4.20\n2026-04-22,butter,1,1,lb,{paid}\n"
        )
    };
    let purchases = bought("42.00");
    let trial = Trial::new(&[("orders.csv", &orders(0, "")), ("purchases.csv", &purchases)]);
    // The usual price is the middle one of the others, 4.20 a pound.
    let found = named(&trial, "far-cost");
    assert_eq!((found.len(), found[0].0), (1, 5));
    assert!((found[0].1.parse::<f64>().unwrap() - 37.80).abs() < 0.01, "{found:?}");
    let purchases = bought("6.00");
    assert_eq!(named(&Trial::new(&[("orders.csv", &orders(0, "")), ("purchases.csv", &purchases)]), "far-cost"), []);
}
