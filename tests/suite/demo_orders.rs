//! What was planted in the demo's orders and cards is treated as it should be. Rows are those its page names.

use crate::demo::{FACTS, Rows, SHOP, number, table, wage};
use crate::harness::{figure, repository, row, run_on};
use rust_decimal::Decimal;
use serde_json::Value;
use std::collections::BTreeMap;

fn decimal(text: &str) -> Decimal {
    text.parse().unwrap()
}

/// Every problem `check` finds, as file, row, and what.
pub fn problems() -> Vec<(String, Option<u64>, String)> {
    let check: Value = serde_json::from_str(&run_on(&repository(SHOP), "check", &["--json"]).out).unwrap();
    let text = |problem: &Value, field: &str| problem[field].as_str().unwrap_or_default().to_owned();
    check["problems"]
        .as_array()
        .unwrap()
        .iter()
        .map(|problem| (text(problem, "file"), problem["row"].as_u64(), text(problem, "what")))
        .collect()
}

/// What stands in an order besides its cookies.
fn charged(order: &Rows, kind: &str) -> Decimal {
    order.with("kind", kind).sum("price")
}

/// What was charged for each order, from its rows and its lines' list values alone.
struct Charged {
    /// Without tax and tip.
    goods: Decimal,
    beside: Decimal,
}

fn charged_of(order: &Rows, id: &str) -> Charged {
    let set = order.with("kind", "set");
    let cookies = if set.len() == 0 { FACTS.with("order", id).with("kind", "cookie").sum("list_value") } else { set.sum("price") };
    let goods = cookies + charged(order, "delivery") + charged(order, "rush") - charged(order, "discount");
    Charged { goods, beside: charged(order, "tax") + charged(order, "tip") }
}

#[test]
fn revenue_is_what_was_charged_less_refunds_and_never_tax_or_tips() {
    let (orders, view) = (table("orders.csv"), wage("order", &[]));
    let mut met = BTreeMap::new();
    for id in orders.different("order") {
        let order = orders.with("order", id);
        if !order.different("status").is_empty() {
            continue;
        }
        let revenue = charged_of(&order, id).goods - charged(&order, "refund");
        assert_eq!(number(row(&view, id), "revenue"), revenue, "{id}");
        for kind in order.different("kind") {
            *met.entry(kind.to_owned()).or_insert(0) += 1;
        }
    }
    // Each kind that was planted was met: 8 tips, 5 rush charges, 2 friends' prices, 1 refund, 7 times tax.
    let expected = [("delivery", 11), ("discount", 2), ("refund", 1), ("rush", 5), ("set", 8), ("tax", 7), ("tip", 8)];
    assert_eq!(met.iter().map(|(kind, count)| (kind.as_str(), *count)).collect::<Vec<_>>(), expected);
}

#[test]
fn fees_follow_channel_payments_and_all_that_was_charged() {
    let (orders, view) = (table("orders.csv"), wage("order", &[]));
    let (mut cash, mut twice, mut many) = (0, 0, 0);
    for id in orders.different("order") {
        let order = orders.with("order", id);
        if !order.different("status").is_empty() {
            continue;
        }
        let market = order.different("channel").contains("market");
        let (percent, fixed) = if market { (decimal("0.026"), decimal("0.10")) } else { (decimal("0.029"), decimal("0.30")) };
        let payments = order.iter().filter_map(|row| row["payments"].parse::<i64>().ok()).max().unwrap_or(1);
        let Charged { goods, beside } = charged_of(&order, id);
        let fees = if payments == 0 { Decimal::ZERO } else { percent * (goods + beside) + fixed * Decimal::from(payments) };
        assert_eq!(number(row(&view, id), "fees"), fees.max(Decimal::ZERO), "{id}");
        cash += usize::from(payments == 0);
        twice += usize::from(payments == 2 && !market);
        many += usize::from(payments > 2 && market);
    }
    assert!(cash > 3 && twice > 20 && many > 10, "{cash} {twice} {many}");
}

#[test]
fn designs_under_other_names_are_counted_with_their_own() {
    let orders = table("orders.csv");
    for (names, design) in [(&["five", "number 5"][..], "numeral"), (&["fox"], "orchard fox")] {
        for name in names {
            assert!(orders.with("design", name).len() > 0, "{name}");
            assert_eq!(FACTS.with("design", name).len(), 0, "{name}");
        }
        let done = |name: &str| orders.with("design", name).with("status", "").len();
        assert_eq!(FACTS.with("design", design).len(), done(design) + names.iter().map(|name| done(name)).sum::<usize>(), "{design}");
    }
}

#[test]
fn list_prices_hold_from_their_day_and_dozens_are_twelve() {
    let line = |row: &str| FACTS.with("line_row", row).at(2).clone();
    // A numeral was 3.00, and 3.25 from February 2026; both rows leave the price blank and sell a dozen.
    assert_eq!((&line("30")["list_value"], &line("30")["pieces"]), (&"36.000000".to_owned(), &"12".to_owned()));
    assert_eq!((&line("268")["date"][..7], &line("268")["list_value"]), ("2026-05", &"39.000000".to_owned()));
    // 39/dozen for one dozen; 6/dozen for two.
    assert_eq!(line("197")["list_value"], "39.000000");
    assert_eq!((&line("311")["pieces"], &line("311")["list_value"]), (&"24".to_owned(), &"12.000000".to_owned()));
}

#[test]
fn sets_are_shared_by_list_value_and_marked() {
    let orders = table("orders.csv");
    let sets = orders.with("kind", "set");
    assert!(sets.len() > 5);
    for set in sets.iter().filter(|set| set["status"].is_empty()) {
        let lines = FACTS.with("order", &set["order"]).with("kind", "cookie");
        assert_eq!(lines.sum("list_value") + lines.sum("set_difference"), decimal(&set["price"]), "{}", set["order"]);
        assert_eq!(lines.sum("set_priced_pieces"), lines.sum("pieces"), "{}", set["order"]);
        let (value, difference) = (lines.sum("list_value"), lines.sum("set_difference"));
        for line in lines.iter() {
            let exact = difference * decimal(&line["list_value"]) / value;
            assert!((decimal(&line["set_difference"]) - exact).abs() <= decimal("0.000001"), "{}", set["order"]);
        }
    }
}

#[test]
fn gifts_and_charity_bring_little_and_cost_all_the_same() {
    let (view, lines) = (wage("order", &[]), |row: &str| FACTS.with("line_row", row).at(2).clone());
    let free = row(&view, "L007");
    assert_eq!(["list_value", "revenue", "fees"].map(|field| figure(free, field)), ["0.000000"; 3]);
    assert!(
        number(free, "ingredients") > Decimal::ZERO
            && number(free, "packaging") > Decimal::ZERO
            && number(free, "owner_minutes") > Decimal::ZERO
    );
    assert_eq!((free["verdict"].as_str(), number(free, "owner_pay") < Decimal::ZERO), (Some("loses money"), true));
    // Given along with a paid set: it bears cost and no fee.
    let given = lines("419");
    assert_eq!((given["revenue"].as_str(), given["fees"].as_str(), given["design"].as_str()), ("0.000000", "0.000000", "school acorn"));
    assert!(decimal(&given["ingredients"]) > Decimal::ZERO && decimal(&given["owner_minutes"]) > Decimal::ZERO);
    assert!(
        problems().iter().any(|(file, row, what)| file == "orders.csv"
            && *row == Some(311)
            && what == "is far from the usual 4.75 for one school acorn")
    );
    // A price of nothing is meant, and not warned of.
    assert!(!problems().iter().any(|(file, row, _)| file == "orders.csv" && [Some(28), Some(29), Some(419)].contains(row)));
}

#[test]
fn a_remake_takes_its_dough_twice() {
    // Three herons sold and six made; the others made three and a tenth spare. 6 ÷ 3.3 is 1.82, prices of two weeks apart aside.
    let each = |row: &str| {
        let line = FACTS.with("line_row", row);
        line.sum("ingredients") / line.sum("pieces")
    };
    let ratio = each("200") / each("227");
    assert!(ratio > decimal("1.72") && ratio < decimal("1.92"), "{ratio}");
    // Packaging goes by pieces sold.
    assert_eq!(table("orders.csv").at(200)["made"], "6");
}

#[test]
fn orders_not_done_are_left_out_and_their_deposit_counts() {
    let view = wage("design", &[]);
    assert_eq!((&view["left_out"]["quoted"], &view["left_out"]["cancelled"]), (&1.into(), &1.into()));
    assert_eq!(FACTS.with("order", "L120").len(), 0);
    let kept = FACTS.with("order", "L059");
    assert_eq!((kept.len(), kept.at(2)["kind"].as_str()), (1, "deposit kept"));
    // 45 kept; 2.9 % and 0.30 of it go to the card.
    let row = row(&view, "kept deposits");
    assert_eq!(
        ["revenue", "fees", "owner_minutes", "overhead", "owner_pay"].map(|field| figure(row, field)),
        ["45.000000", "1.605000", "0.000000", "0.000000", "43.395000"]
    );
    // Their planning is worked time that no order carries: 20 minutes in March, 10 in October.
    for (month, minutes) in [("2026-03", "20.000000"), ("2026-10", "10.000000")] {
        assert_eq!(wage("tier", &["--month", month])["unassigned"]["owner_minutes"], minutes, "{month}");
    }
}

#[test]
fn orders_without_hours_are_told_and_judged_by_money_only() {
    let view = wage("order", &[]);
    let told: Vec<Option<u64>> = problems().into_iter().filter(|(_, _, what)| what == "has no hours").map(|(_, row, _)| row).collect();
    assert_eq!(told, [Some(96), Some(449), Some(463)]);
    for id in ["L024", "L111", "L115"] {
        let row = row(&view, id);
        assert_eq!(figure(row, "hours_known"), "0.000000", "{id}");
        for field in ["wage_per_hour", "one_more_piece_wage", "fair_price", "verdict"] {
            assert_eq!(row[field], Value::Null, "{id} {field}");
        }
        assert!(number(row, "revenue") > Decimal::ZERO && number(row, "ingredients") > Decimal::ZERO, "{id}");
    }
}

#[test]
fn colours_nobody_wrote_down_have_a_row_of_their_own() {
    let (orders, view) = (table("orders.csv"), wage("colours", &[]));
    let blank = orders.different("order").into_iter().filter(|id| {
        let order = orders.with("order", id);
        order.different("status").is_empty() && order.different("colours").is_empty()
    });
    assert_eq!(row(&view, "not logged")["orders"], Value::from(blank.count()));
}

#[test]
fn the_page_names_the_rows_where_orders_begin() {
    let page = std::fs::read_to_string(repository(SHOP).join("README.md")).unwrap();
    let orders = table("orders.csv");
    let places: Vec<(&str, usize)> = page
        .lines()
        .filter_map(|line| line.strip_prefix("- orders.csv, ")?.rsplit_once(": "))
        .flat_map(|(_, places)| places.split(", "))
        .filter_map(|place| place.trim_end_matches(')').split_once(" (row "))
        .map(|(id, row)| (id, row.parse().unwrap()))
        .collect();
    assert!(places.len() > 25);
    for (id, row) in places {
        assert_eq!((orders.at(row)["order"].as_str(), orders.at(row - 1)["order"] == id), (id, false), "row {row}");
    }
}
