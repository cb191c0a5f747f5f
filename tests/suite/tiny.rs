//! A shop small enough to check by hand: `fixtures/tiny-shop/README.md` works out every figure that stands here.

use crate::harness::{repository, row, run_on};
use serde_json::{Value, json};

fn wage(by: &str) -> Value {
    let outcome = run_on(&repository("fixtures/tiny-shop"), "wage", &["--by", by, "--minutes", "card", "--json"]);
    assert_eq!((outcome.code, outcome.err.as_str()), (0, ""));
    serde_json::from_str(&outcome.out).unwrap()
}

/// Holds a row against figures written one `name value` a line; all figures of a row must be named.
fn holds(row: &Value, figures: &str) {
    let expected: Vec<(&str, &str)> = figures.lines().filter_map(|line| line.trim().split_once(' ')).collect();
    let found: Vec<(&str, String)> = row
        .as_object()
        .unwrap()
        .iter()
        .filter(|(name, _)| {
            let alike = ["minutes_from", "helper_pay", "set_priced_share", "wage_low", "wage_high", "certainty"];
            !alike.iter().chain(&["key", "tier"]).any(|other| other == name)
        })
        .map(|(name, value)| (name.as_str(), value.as_str().map_or_else(|| value.to_string(), str::to_owned)))
        .collect();
    assert_eq!(found.iter().map(|(name, value)| (*name, value.as_str())).collect::<Vec<_>>(), expected, "{}", row["key"]);
    // No helper works here, nothing is priced by the set, and minutes from the card have no interval and no doubt.
    let alike = ["helper_pay", "set_priced_share", "wage_low", "wage_high", "certainty", "minutes_from"].map(|name| row[name].clone());
    assert_eq!(alike, [json!("0.000000"), json!("0.000000"), Value::Null, Value::Null, Value::Null, json!("card")], "{}", row["key"]);
}

#[test]
fn designs_are_as_worked_by_hand() {
    let table = wage("design");
    assert_eq!(table["rows"].as_array().unwrap().iter().map(|row| &row["key"]).collect::<Vec<_>>(), ["acorn", "gate", "delivery"]);
    assert_eq!(
        (&row(&table, "acorn")["tier"], &row(&table, "gate")["tier"], &row(&table, "delivery")["tier"]),
        (&json!("small"), &json!("large"), &Value::Null)
    );
    holds(
        row(&table, "acorn"),
        "orders 2
        pieces 36
        list_value 96.000000
        revenue 92.000000
        ingredients 3.465000
        packaging 1.584000
        fees 3.235000
        overhead 18.500000
        owner_minutes 148.000000
        owner_pay 65.216000
        hours_known 1.000000
        wage_per_hour 26.438919
        one_more_piece_wage 40.648154
        price_per_piece 2.555556
        full_cost_per_piece 1.977333
        fair_price 1.959450
        surplus 20.816000
        verdict pays",
    );
    holds(
        row(&table, "gate"),
        "orders 2
        pieces 10
        list_value 84.000000
        revenue 80.000000
        ingredients 2.517500
        packaging 0.440000
        fees 1.135000
        overhead 40.250000
        owner_minutes 172.000000
        owner_pay 35.657500
        hours_known 1.000000
        wage_per_hour 12.438663
        one_more_piece_wage 33.550699
        price_per_piece 8.000000
        full_cost_per_piece 9.594250
        fair_price 9.613613
        surplus -15.942500
        verdict set-up too dear",
    );
    holds(
        row(&table, "delivery"),
        "orders 1
        pieces 0
        list_value 10.000000
        revenue 10.000000
        ingredients 0.000000
        packaging 0.000000
        fees 0.350000
        overhead 2.250000
        owner_minutes 18.000000
        owner_pay 7.400000
        hours_known 1.000000
        wage_per_hour 24.666667
        one_more_piece_wage null
        price_per_piece null
        full_cost_per_piece null
        fair_price null
        surplus 2.000000
        verdict pays",
    );
}

#[test]
fn orders_are_as_worked_by_hand() {
    let table = wage("order");
    assert_eq!(table["rows"].as_array().unwrap().len(), 3);
    holds(
        row(&table, "T1"),
        "orders 1
        pieces 16
        list_value 72.000000
        revenue 64.000000
        ingredients 2.090000
        packaging 0.704000
        fees 2.270000
        overhead 20.000000
        owner_minutes 160.000000
        owner_pay 38.936000
        hours_known 1.000000
        wage_per_hour 14.601000
        one_more_piece_wage 31.427813
        price_per_piece 4.000000
        full_cost_per_piece 4.566500
        fair_price 4.584021
        surplus -9.064000
        verdict set-up too dear",
    );
    holds(
        row(&table, "T2"),
        "orders 1
        pieces 24
        list_value 70.000000
        revenue 70.000000
        ingredients 2.310000
        packaging 1.056000
        fees 2.450000
        overhead 11.000000
        owner_minutes 88.000000
        owner_pay 53.184000
        hours_known 1.000000
        wage_per_hour 36.261818
        one_more_piece_wage 47.000571
        price_per_piece 2.916667
        full_cost_per_piece 1.800667
        fair_price 1.766151
        surplus 26.784000
        verdict pays",
    );
    holds(
        row(&table, "T3"),
        "orders 1
        pieces 6
        list_value 48.000000
        revenue 48.000000
        ingredients 1.582500
        packaging 0.264000
        fees 0.000000
        overhead 30.000000
        owner_minutes 90.000000
        owner_pay 16.153500
        hours_known 1.000000
        wage_per_hour 10.769000
        one_more_piece_wage 36.922800
        price_per_piece 8.000000
        full_cost_per_piece 9.807750
        fair_price 9.807750
        surplus -10.846500
        verdict set-up too dear",
    );
}

#[test]
fn total_and_all_in_are_as_worked_by_hand_whatever_the_rows_are_of() {
    for by in ["design", "tier", "order", "month", "theme", "channel", "order-size", "colours"] {
        let table = wage(by);
        let shared = "orders 3
            pieces 46
            list_value 190.000000
            revenue 182.000000
            ingredients 5.982500
            packaging 2.024000
            fees 4.720000
            overhead 61.000000";
        holds(
            &table["total"],
            &format!(
                "{shared}
                owner_minutes 338.000000
                owner_pay 108.273500
                hours_known 1.000000
                wage_per_hour 19.220148
                one_more_piece_wage 36.930440
                price_per_piece 3.956522
                full_cost_per_piece 3.807098
                fair_price 3.803723
                surplus 6.873500
                verdict pays"
            ),
        );
        holds(
            &table["all_in"],
            &format!(
                "{shared}
                owner_minutes 368.000000
                owner_pay 108.273500
                hours_known 1.000000
                wage_per_hour 17.653288
                one_more_piece_wage 36.930440
                price_per_piece 3.956522
                full_cost_per_piece 4.002750
                fair_price 4.003794
                surplus -2.126500
                verdict set-up too dear"
            ),
        );
        assert_eq!(table["unassigned"]["owner_minutes"], "30.000000", "{by}");
        assert_eq!((&table["prepaid"]["overhead"], &table["problems"]), (&json!("0.000000"), &json!([])), "{by}");
    }
}

#[test]
fn the_page_beside_the_shop_says_every_figure_tested_here() {
    let page = std::fs::read_to_string(repository("fixtures/tiny-shop/README.md")).unwrap();
    let digits: String = page.chars().filter(|c| *c != ',').collect();
    let mut told = 0;
    for table in [wage("design"), wage("order")] {
        for row in table["rows"].as_array().unwrap().iter().chain([&table["total"], &table["all_in"]]) {
            for value in row.as_object().unwrap().values().filter_map(Value::as_str).filter(|value| value.contains('.')) {
                let shortest = value.trim_start_matches('-').trim_end_matches('0').trim_end_matches('.');
                assert!(digits.contains(shortest), "the page does not say {shortest}");
                told += 1;
            }
        }
    }
    assert!(told > 100);
}
