//! Every cent and every minute of the logs is somewhere (DESIGN §4): on a line, unassigned, prepaid or earlier, to the last
//! stored digit. What the logs come to is worked out from their rows by other code than the program's.

use crate::harness::{Trial, figure};
use crate::random_shop::for_many_shops;
use crate::what_logs_say::{Logs, millionths};
use fairdozen::costing::{Options, cost};
use fairdozen::shop::load::{Folder, Skipped};
use fairdozen::shop::settings::CostFlow;
use proptest::prelude::*;
use serde_json::Value;
use std::collections::BTreeMap;

/// What a wage table may be by.
pub const VIEWS: [&str; 8] = ["design", "tier", "order", "month", "theme", "channel", "order-size", "colours"];
/// Figures that add up.
const SUMS: [&str; 9] =
    ["list_value", "revenue", "ingredients", "packaging", "fees", "helper_pay", "overhead", "owner_minutes", "owner_pay"];

/// A stored figure, in millionths.
fn stored(row: &Value, field: &str) -> i128 {
    exact(figure(row, field))
}

fn exact(text: &str) -> i128 {
    millionths(text.parse().unwrap())
}

fn rows(table: &Value) -> &[Value] {
    table["rows"].as_array().unwrap()
}

/// The facts, a map from column to cell for each line.
fn facts(shop: &Trial, options: &[&str]) -> Vec<BTreeMap<String, String>> {
    let outcome = shop.run("export", options);
    assert_eq!(outcome.code, 0, "{}", outcome.err);
    csv::Reader::from_reader(outcome.out.as_bytes()).deserialize().map(Result::unwrap).collect()
}

fn sum(facts: &[BTreeMap<String, String>], column: &str) -> i128 {
    facts.iter().map(|line| exact(&line[column])).sum()
}

#[test]
fn minutes_and_helper_pay_equal_the_hours_log() {
    for_many_shops(48, 1, |shop, _| {
        let (trial, logs) = (shop.trial(), Logs::of(&shop));
        let (table, facts) = (trial.wage("design", &[]), facts(&trial, &[]));
        let unassigned = &table["unassigned"];
        prop_assert_eq!(stored(&table["total"], "owner_minutes") + stored(unassigned, "owner_minutes"), logs.owner_minutes());
        prop_assert_eq!(stored(&table["all_in"], "owner_minutes"), logs.owner_minutes());
        prop_assert_eq!(sum(&facts, "owner_minutes"), stored(&table["total"], "owner_minutes"));
        prop_assert_eq!(sum(&facts, "helper_minutes") + stored(unassigned, "helper_minutes"), logs.helper_minutes());
        prop_assert_eq!(sum(&facts, "helper_pay") + stored(unassigned, "helper_pay"), logs.helper_pay());
        prop_assert_eq!(stored(&table["all_in"], "helper_pay"), logs.helper_pay());
        // On each line, minutes by level and by stage are its minutes once more.
        for line in &facts {
            let worked = exact(&line["owner_minutes"]) + exact(&line["helper_minutes"]);
            let of = |is_level: bool| -> i128 {
                let columns = line.iter().filter(|(name, _)| name.starts_with("minutes_") && *name != "minutes_from");
                columns.filter(|(name, _)| name.starts_with("minutes_naming_") == is_level).map(|(_, minutes)| exact(minutes)).sum()
            };
            prop_assert_eq!((of(true), of(false)), (worked, worked), "{:?}", line);
        }
        Ok(())
    });
}

#[test]
fn overhead_equals_what_was_paid() {
    for_many_shops(48, 2, |shop, _| {
        let table = shop.trial().wage("design", &[]);
        let parts: i128 = ["unassigned", "prepaid", "earlier"].iter().map(|part| stored(&table[*part], "overhead")).sum();
        prop_assert_eq!(stored(&table["total"], "overhead") + parts, Logs::of(&shop).overheads());
        Ok(())
    });
}

#[test]
fn revenue_and_fees_of_each_order_equal_what_was_charged() {
    for_many_shops(48, 3, |shop, _| {
        let logs = Logs::of(&shop);
        let (revenue, fees) = (logs.revenue(), logs.fees());
        let table = shop.trial().wage("order", &[]);
        prop_assert_eq!(stored(&table["total"], "revenue"), revenue.values().sum::<i128>());
        prop_assert_eq!(stored(&table["total"], "fees"), fees.values().sum::<i128>());
        for row in rows(&table) {
            let id = figure(row, "key");
            prop_assert_eq!((stored(row, "revenue"), stored(row, "fees")), (revenue[id], fees[id]), "{}", id);
        }
        // An order without a row is not done and kept nothing.
        for (id, order) in &logs.orders {
            let has_row = rows(&table).iter().any(|row| row["key"] == *id);
            prop_assert!(has_row || (!order.done && revenue[id] == 0), "{}", id);
        }
        Ok(())
    });
}

#[test]
fn materials_and_stock_equal_what_was_bought() {
    for_many_shops(48, 4, |shop, _| {
        let (trial, logs) = (shop.trial(), Logs::of(&shop));
        let read = Folder::open(trial.path()).load(&Skipped::new()).shop.unwrap();
        for (flow, word) in [(CostFlow::Fifo, "fifo"), (CostFlow::Average, "average")] {
            let runs = cost(&read, Options { cost_flow: Some(flow), ..Options::default() }).unwrap().materials.runs;
            let left: i128 = runs.iter().map(|run| run.left.cost).sum();
            let opening: i128 = runs.iter().map(|run| run.opening).sum();
            let short: i128 = runs.iter().flat_map(|run| &run.shortfalls).map(|(_, short)| short.cost).sum();
            let table = trial.wage("design", &["--cost-flow", word]);
            let used = |part: &Value| stored(part, "ingredients") + stored(part, "packaging");
            let assigned = used(&table["total"]) - logs.assumed_materials();
            prop_assert_eq!(assigned + used(&table["unassigned"]) + left, logs.purchases() + short + opening, "{}", word);
        }
        Ok(())
    });
}

#[test]
fn every_view_adds_up_to_the_same_total() {
    for_many_shops(20, 5, |shop, _| {
        let trial = shop.trial();
        let facts = facts(&trial, &[]);
        for by in VIEWS {
            let table = trial.wage(by, &[]);
            let (total, all_in, unassigned) = (&table["total"], &table["all_in"], &table["unassigned"]);
            for field in SUMS {
                let of_rows: i128 = rows(&table).iter().map(|row| stored(row, field)).sum();
                prop_assert_eq!((of_rows, stored(total, field)), (sum(&facts, field), sum(&facts, field)), "{} by {}", field, by);
            }
            let pieces: i64 = rows(&table).iter().map(|row| row["pieces"].as_i64().unwrap()).sum();
            prop_assert_eq!(Some(pieces), total["pieces"].as_i64());
            for row in rows(&table).iter().chain([total, all_in]) {
                let costs: i128 = ["ingredients", "packaging", "fees", "helper_pay", "overhead"].map(|cost| stored(row, cost)).iter().sum();
                prop_assert_eq!(stored(row, "owner_pay"), stored(row, "revenue") - costs);
            }
            for field in ["ingredients", "packaging", "helper_pay", "overhead", "owner_minutes"] {
                prop_assert_eq!(stored(all_in, field), stored(total, field) + stored(unassigned, field), "{}", field);
            }
        }
        Ok(())
    });
}

#[test]
fn months_add_up_to_all_time() {
    for_many_shops(12, 6, |shop, _| {
        let trial = shop.trial();
        let (first, last) = Logs::of(&shop).days();
        let mut months: Vec<String> = first.iter_days().take_while(|day| *day <= last).map(|day| day.format("%Y-%m").to_string()).collect();
        months.dedup();
        let whole = trial.wage("design", &[]);
        let tables: Vec<Value> = months.iter().map(|month| trial.wage("design", &["--month", month])).collect();
        for part in ["total", "all_in", "unassigned", "prepaid", "earlier"] {
            for (field, value) in whole[part].as_object().unwrap() {
                if SUMS.contains(&field.as_str()) || ["unassigned", "prepaid", "earlier"].contains(&part) {
                    let of_months: i128 = tables.iter().map(|table| stored(&table[part], field)).sum();
                    prop_assert_eq!(of_months, exact(value.as_str().unwrap()), "{} of {}", field, part);
                }
            }
        }
        for field in ["quoted", "cancelled"] {
            let of_months: i64 = tables.iter().map(|table| table["left_out"][field].as_i64().unwrap()).sum();
            prop_assert_eq!(Some(of_months), whole["left_out"][field].as_i64());
        }
        Ok(())
    });
}
