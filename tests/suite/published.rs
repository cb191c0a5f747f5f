//! Worked examples of cost accounting from textbooks, as shops run through the program.
//!
//! The figures stand in `fixtures/published`, where `README.md` names editions and licences. Each test says how the
//! example is put in our terms.

use crate::harness::{Trial, figure, repository, row};
use rust_decimal::Decimal;
use serde_json::Value;
use std::collections::BTreeMap;
use std::fmt::Write;

/// A table of `fixtures/published`, each row by its headings.
pub fn table(name: &str) -> Vec<BTreeMap<String, String>> {
    let mut reader = csv::Reader::from_path(repository("fixtures/published").join(name)).unwrap();
    let rows: Vec<BTreeMap<String, String>> = reader.deserialize().map(Result::unwrap).collect();
    assert!(!rows.is_empty(), "{name} is empty");
    rows
}

/// Reads a decimal number.
pub fn decimal(text: &str) -> Decimal {
    text.parse().unwrap_or_else(|_| panic!("'{text}' is no number"))
}

/// A money figure of a row.
pub fn money(row: &Value, field: &str) -> Decimal {
    decimal(figure(row, field))
}

fn cell<'a>(rows: &'a [BTreeMap<String, String>], key: (&str, &str), column: &str) -> &'a str {
    rows.iter().find(|row| row[key.0] == key.1).map_or_else(|| panic!("no row {key:?}"), |row| row[column].as_str())
}

/// One card of `joborder_cases.csv`: its quantities by name.
fn card(case: &str) -> BTreeMap<String, Decimal> {
    let rows = table("joborder_cases.csv");
    rows.iter().filter(|row| row["case_id"] == case).map(|row| (row["quantity"].clone(), decimal(&row["value"]))).collect()
}

/// `OpenStax`, *Principles of Accounting 2*, ch. 4.2–4.4, job MAC001. Materials are bought and taken by the one piece of
/// the job; labour is two helpers' hours; the overhead applied is the month's, the job being the only one in it.
#[test]
fn a_job_costs_its_materials_labour_and_overhead() {
    let card = card("dinosaur_vinyl_MAC001");
    // Read in 4.2: 300 + 2 × 50 + 60 + 60 + 12 × 10 + 40 × 1.50.
    let materials = [("a", 1, "300"), ("b", 2, "50"), ("c", 1, "60"), ("d", 1, "60"), ("e", 12, "10"), ("f", 40, "1.50")];
    let mut purchases = "date,item,packs,size,unit,paid\n".to_owned();
    let mut recipes = "for,item,amount,unit\n".to_owned();
    for (item, count, price) in materials {
        let paid = decimal(price) * Decimal::from(count);
        let _ = writeln!(purchases, "2026-01-02,material {item},{count},1,each,{paid}");
        let _ = writeln!(recipes, "job,material {item},{count},each");
    }
    let overheads = format!("from,to,what,paid\n2026-01-01,2026-01-31,overhead applied,{}\n", card["applied_overhead"]);
    let trial = Trial::new(&[
        ("shop.toml", "currency = \"USD\"\n[helpers]\none = 15.00\nother = 18.00\n"),
        ("orders.csv", &format!("order,date,design,quantity,price\nMAC001,2026-01-20,job,1,{}\n", card["sale_price"])),
        ("purchases.csv", &purchases),
        ("recipes.csv", &recipes),
        ("hours.csv", "date,minutes,order,who\n2026-01-10,120,MAC001,one\n2026-01-11,120,MAC001,other\n"),
        ("overheads.csv", &overheads),
    ]);
    let wage = trial.wage("order", &[]);
    let job = row(&wage, "MAC001");
    assert_eq!(money(job, "ingredients"), card["direct_materials"]);
    assert_eq!(money(job, "helper_pay"), card["direct_labor"]);
    assert_eq!(money(job, "overhead"), card["applied_overhead"]);
    assert_eq!(money(job, "revenue") - money(job, "owner_pay"), card["job_cost"]);
}

/// `OpenStax`, *Principles of Accounting 2*, ch. 8.1: two standard cost cards. Material by weight; labour as helpers'
/// hours; variable and fixed overhead of the one piece as the month's.
#[test]
fn a_standard_cost_card_is_the_cost_of_one_piece() {
    // Case; material (unit, amount, price); labour (minutes, rate an hour); overhead: 6.75 h × (5 + 3), and 0.05 + 0.10.
    for (case, (unit, amount, price), labour, overhead) in [
        ("bicycle_standard_card", ("lb", "4", "5.25"), &[("165", "11"), ("240", "15")][..], "54"),
        ("coffee_standard_card", ("oz", "0.5", "0.50"), &[("1", "12")], "0.15"),
    ] {
        let helpers: Vec<String> = labour.iter().enumerate().map(|(at, (_, rate))| format!("helper{at} = {rate}")).collect();
        let hours: Vec<String> =
            labour.iter().enumerate().map(|(at, (minutes, _))| format!("2026-01-10,{minutes},A1,helper{at}")).collect();
        let trial = Trial::new(&[
            ("shop.toml", &format!("currency = \"USD\"\n[helpers]\n{}\n", helpers.join("\n"))),
            ("orders.csv", "order,date,design,quantity,price\nA1,2026-01-20,piece,1,0\n"),
            (
                "purchases.csv",
                &format!("date,item,packs,size,unit,paid\n2026-01-02,material,1000,1,{unit},{}\n", decimal(price) * Decimal::from(1000)),
            ),
            ("recipes.csv", &format!("for,item,amount,unit\npiece,material,{amount},{unit}\n")),
            ("hours.csv", &format!("date,minutes,order,who\n{}\n", hours.join("\n"))),
            ("overheads.csv", &format!("from,what,paid\n2026-01-20,overhead,{overhead}\n")),
        ]);
        let wage = trial.wage("design", &[]);
        assert_eq!(-money(row(&wage, "piece"), "owner_pay"), card(case)["standard_cost"], "{case}");
    }
}

const PRODUCTS: [&str; 3] = ["solo", "band", "orchestra"];

/// The three products as one order each in a month, with a third, a fifth … of the year's units: `parts`.
fn orders_of(month: u32, parts: i64) -> String {
    let units = table("abc_expected.csv");
    let line = |product: &&str| {
        let units: i64 = cell(&units, ("measure", "units"), product).parse().unwrap();
        assert_eq!(units % parts, 0, "{product} does not divide evenly");
        format!("{product}-{month},2026-{month:02}-20,{product},{},0\n", units / parts)
    };
    PRODUCTS.iter().map(line).collect()
}

/// `OpenStax`, *Principles of Accounting 2*, ch. 6.3, Musicality. Each pool is the overhead of a month of its own, its
/// cost driver is logged as that month's minutes by product, and overhead is shared by hours: a pool over its driver.
#[test]
fn overhead_pools_are_shared_by_their_drivers() {
    let pools = table("abc_cases.csv");
    let mut orders = "order,date,design,quantity,price\n".to_owned();
    let mut hours = "date,minutes,order\n".to_owned();
    let mut overheads = "from,to,what,paid,shared_by\n".to_owned();
    for (month, pool) in (1..).zip(&pools) {
        orders += &orders_of(month, 5);
        let _ = writeln!(overheads, "2026-{month:02}-01,2026-{month:02}-28,{},{},hours", pool["pool"], pool["overhead"]);
        for product in PRODUCTS {
            let _ = writeln!(hours, "2026-{month:02}-10,{},{product}-{month}", pool[product]);
        }
    }
    let trial = Trial::new(&[("orders.csv", &orders), ("hours.csv", &hours), ("overheads.csv", &overheads)]);
    let wage = trial.wage("design", &[]);
    let expected = table("abc_expected.csv");
    for product in PRODUCTS {
        let found = row(&wage, product);
        let overhead = money(found, "overhead");
        assert_eq!(overhead, decimal(cell(&expected, ("measure", "overhead_total"), product)), "{product}");
        let published = decimal(expected.iter().find(|row| row["measure"] == "overhead_per_unit").unwrap()[product].as_str());
        assert_eq!(overhead / Decimal::from(found["pieces"].as_i64().unwrap()), published, "{product}");
    }
}

/// The same pools at the published rates: a driver's rate is a helper's pay a minute, its count the minutes.
#[test]
fn driver_rates_times_driver_counts_are_the_overhead_of_each_product() {
    let mut helpers = "currency = \"USD\"\n[helpers]\n".to_owned();
    let mut hours = "date,minutes,order,who\n".to_owned();
    for pool in table("abc_cases.csv") {
        let _ = writeln!(helpers, "\"{}\" = {}", pool["driver"], decimal(&pool["published_rate"]) * Decimal::from(60));
        for product in PRODUCTS {
            let _ = writeln!(hours, "2026-01-10,{},{product}-1,{}", pool[product], pool["driver"]);
        }
    }
    let orders = format!("order,date,design,quantity,price\n{}", orders_of(1, 1));
    let trial = Trial::new(&[("shop.toml", &helpers), ("orders.csv", &orders), ("hours.csv", &hours)]);
    let wage = trial.wage("design", &[]);
    let expected = table("abc_expected.csv");
    for product in PRODUCTS {
        assert_eq!(money(row(&wage, product), "helper_pay"), decimal(cell(&expected, ("measure", "overhead_total"), product)), "{product}");
    }
    assert_eq!(money(&wage["total"], "helper_pay"), decimal(cell(&expected, ("measure", "overhead_total"), "total")));
}

/// `OpenStax`, *Principles of Accounting 2*, ch. 6.1: the traditional method, all overhead over direct labour hours, and
/// the cost and gross profit of a unit. Direct labour is a helper a product, at its pay over its hours.
#[test]
fn overhead_by_labour_hours_is_the_traditional_rate() {
    let rows = table("abc_expected.csv");
    let of = |case: &str, measure: &str, product: &str| {
        decimal(&rows.iter().find(|row| row["case_id"] == case && row["measure"] == measure).unwrap()[product])
    };
    let (abc, traditional) = ("musicality_abc", "musicality_traditional");
    let mut shop = "currency = \"USD\"\n[helpers]\n".to_owned();
    let mut orders = "order,date,design,quantity,price\n".to_owned();
    let mut purchases = "date,item,size,unit,paid\n".to_owned();
    let mut recipes = "for,item,amount,unit\n".to_owned();
    let mut hours = "date,minutes,order,who\n".to_owned();
    for product in PRODUCTS {
        let (units, labour_hours) = (of(abc, "units", product), of(traditional, "dl_hours", product));
        let pay = of(abc, "direct_labor_per_unit", product) * units / labour_hours;
        let _ = writeln!(shop, "{product} = {}", pay.normalize());
        let _ = writeln!(orders, "{product}-1,2026-01-20,{product},{units},{}", of(abc, "sales_price", product));
        let _ = writeln!(purchases, "2026-01-02,{product} parts,1,each,{}", of(abc, "direct_material_per_unit", product));
        let _ = writeln!(recipes, "{product},{product} parts,1,each");
        let _ = writeln!(hours, "2026-01-10,{},{product}-1,{product}", labour_hours * Decimal::from(60));
    }
    let overhead = card(traditional)["budget_overhead"];
    let trial = Trial::new(&[
        ("shop.toml", &shop),
        ("orders.csv", &orders),
        ("purchases.csv", &purchases),
        ("recipes.csv", &recipes),
        ("hours.csv", &hours),
        ("overheads.csv", &format!("from,to,what,paid,shared_by\n2026-01-01,2026-01-31,factory,{overhead},hours\n")),
    ]);
    let wage = trial.wage("design", &[]);
    for product in PRODUCTS {
        let found = row(&wage, product);
        let units = of(abc, "units", product);
        assert_eq!(money(found, "overhead") / units, of(traditional, "overhead_per_unit", product), "{product}");
        let cost = (money(found, "revenue") - money(found, "owner_pay")) / units;
        assert_eq!(cost, of(traditional, "cost_per_unit", product), "{product}");
        let profit = money(found, "owner_pay") / units * of(abc, "units_sold", product);
        assert_eq!(profit, of(traditional, "gross_profit_total", product), "{product}: units sold × gross profit of a unit");
    }
}
