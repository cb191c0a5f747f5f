//! What must not change a figure: the order of rows, a purchase or an entry written as two halves; and the one
//! comparison that must always hold between a design's two views.

use crate::conservation::VIEWS;
use crate::harness::Trial;
use crate::random_shop::{RandomShop, Row, cell, dice::Dice, for_many_shops};
use fairdozen::costing::facts::{Facts, Figure};
use fairdozen::costing::{Options, column, cost};
use fairdozen::ids::{Design, Id};
use fairdozen::shop::load::{Folder, Skipped};
use proptest::prelude::*;
use rust_decimal::Decimal;
use serde_json::Value;
use std::collections::BTreeMap;

/// Where a wage table of two shops differs first.
fn difference(before: &Trial, after: &Trial, by: &str, options: &[&str]) -> Option<String> {
    let (one, other) = (before.wage(by, options), after.wage(by, options));
    let parts = ["rows", "total", "all_in", "unassigned", "prepaid", "earlier", "left_out"];
    parts
        .iter()
        .find_map(|part| first_difference(part, &one[part], &other[part]))
        .map(|difference| format!("by {by} {options:?}: {difference}"))
}

fn first_difference(place: &str, one: &Value, other: &Value) -> Option<String> {
    match (one, other) {
        _ if one == other => None,
        (Value::Array(one), Value::Array(other)) if one.len() == other.len() => {
            one.iter().zip(other).find_map(|(one, other)| first_difference(&format!("{place} {}", one["key"]), one, other))
        }
        (Value::Object(one), Value::Object(other)) => {
            one.iter().find_map(|(field, value)| first_difference(&format!("{place} {field}"), value, other.get(field)?))
        }
        _ => Some(format!("{place} was {one}, is {other}")),
    }
}

#[test]
fn the_order_of_rows_changes_nothing() {
    for_many_shops(24, 11, |mut shop, mut dice| {
        let before = shop.trial();
        for table in shop.tables.values_mut() {
            dice.shuffle(&mut table.rows);
        }
        let after = shop.trial();
        for by in VIEWS {
            prop_assert_eq!(difference(&before, &after, by, &[]), None);
        }
        Ok(())
    });
}

/// Replaces a row of a table by two.
fn replace(shop: &mut RandomShop, table: &str, at: usize, halves: [Row; 2]) {
    let rows = &mut shop.tables.get_mut(table).unwrap().rows;
    rows.remove(at);
    rows.extend(halves);
}

/// A row of a table, by chance.
fn any_row(shop: &RandomShop, dice: &mut Dice, table: &str) -> Option<(usize, Row)> {
    let rows = shop.rows(table);
    let last = i64::try_from(rows.len()).unwrap() - 1;
    let at = (last >= 0).then(|| usize::try_from(dice.whole(0, last)).unwrap())?;
    Some((at, rows[at].clone()))
}

fn half(row: &Row, column: &str) -> String {
    (cell(row, column).parse::<Decimal>().unwrap() / Decimal::TWO).normalize().to_string()
}

#[test]
fn a_purchase_written_as_two_halves_changes_nothing() {
    for_many_shops(24, 12, |mut shop, mut dice| {
        let before = shop.trial();
        let Some((at, mut row)) = any_row(&shop, &mut dice, "purchases") else { return Ok(()) };
        row.extend([("packs", half(&row, "packs")), ("paid", half(&row, "paid"))]);
        if cell(&row, "receipt").is_empty() {
            row.insert("receipt", "of its own".to_owned());
        }
        let mut other = row.clone();
        other.remove("shipping");
        other.remove("tax");
        replace(&mut shop, "purchases", at, [row.clone(), other]);
        let after = shop.trial();
        for flow in ["latest", "average", "fifo"] {
            prop_assert_eq!(difference(&before, &after, "order", &["--cost-flow", flow]), None, "{:?}", row);
        }
        Ok(())
    });
}

#[test]
fn an_hours_entry_written_as_two_changes_nothing() {
    for_many_shops(48, 13, |mut shop, mut dice| {
        let before = shop.trial();
        let Some((at, mut row)) = any_row(&shop, &mut dice, "hours") else { return Ok(()) };
        if cell(&row, "minutes").is_empty() {
            return Ok(());
        }
        let minutes: Decimal = cell(&row, "minutes").parse().unwrap();
        let part = minutes.min(Decimal::new(dice.whole(1, 3_000_000), 6));
        row.insert("minutes", part.to_string());
        let mut other = row.clone();
        other.insert("minutes", (minutes - part).to_string());
        replace(&mut shop, "hours", at, [row.clone(), other]);
        let after = shop.trial();
        prop_assert_eq!(difference(&before, &after, "order", &[]), None, "{:?}", row);
        Ok(())
    });
}

/// Rush charges, set prices and tips that count may be earned by the order as it is and not by one more piece.
fn without_extras(shop: &mut RandomShop) {
    shop.options.tips_count = false;
    for row in &mut shop.tables.get_mut("orders").unwrap().rows {
        match cell(row, "kind") {
            "rush" | "set" => drop(row.insert("kind", "refund".to_owned())),
            // Only a set price may stand in for a price that is nowhere written.
            "" | "cookie" if cell(row, "price").is_empty() => drop(row.insert("price", "3.10".to_owned())),
            _ => {}
        }
    }
}

/// Each design's minutes that one more piece takes, on lines with known hours, in millionths.
fn piece_minutes(facts: &Facts) -> BTreeMap<Id<Design>, i128> {
    let (designs, minutes, known) =
        (facts.values(&column::DESIGN).unwrap(), facts.figure(Figure::PieceMinutes).unwrap(), facts.values(&column::KNOWN).unwrap());
    let mut sums = BTreeMap::new();
    for ((design, minutes), known) in designs.into_iter().zip(minutes).zip(known) {
        if let (Some(design), true) = (design, known) {
            *sums.entry(design).or_default() += i128::from(minutes);
        }
    }
    sums
}

#[test]
fn one_more_piece_never_pays_less_than_whole_orders() {
    for_many_shops(64, 14, |mut shop, _| {
        without_extras(&mut shop);
        // Found stock credits what orders take beside their pieces, which makes whole orders cheaper than nothing.
        shop.tables.remove("counts");
        let trial = shop.trial();
        let read = Folder::open(trial.path()).load(&Skipped::new()).shop.unwrap();
        let costed = cost(&read, Options::default()).unwrap();
        let (minutes, lines) = (piece_minutes(&costed.facts), costed.facts.lines());
        let table = trial.wage("design", &[]);
        for row in table["rows"].as_array().unwrap() {
            let (Some(whole), Some(one_more)) = (row["wage_per_hour"].as_str(), row["one_more_piece_wage"].as_str()) else { continue };
            let (whole, one_more): (Decimal, Decimal) = (whole.parse().unwrap(), one_more.parse().unwrap());
            // Below nil the price does not cover the piece's own materials and helper pay.
            if one_more < Decimal::ZERO {
                continue;
            }
            // Each line's fees are rounded on their own in either view: so many millionths an hour at most.
            let design = read.designs.find(row["key"].as_str().unwrap()).unwrap();
            let rounding = Decimal::from(2 * lines) * Decimal::from(60) / Decimal::from(minutes[&design]);
            prop_assert!(one_more + rounding + Decimal::new(2, 6) >= whole, "{}: {one_more} an hour, whole orders {whole}", row["key"]);
        }
        Ok(())
    });
}
/// Lines alike but for their theme: which of them has the odd millionth must not hang on their order in the file.
#[test]
fn lines_alike_but_for_their_theme_keep_their_parts_in_any_order() {
    let rows = ["A1,2026-03-04,moth,1,1.00,harvest\n", "A1,2026-03-04,moth,1,1.00,wedding\n", "A1,2026-03-04,moth,1,1.00,\n"];
    let shop = |order: [usize; 3]| {
        let orders = "order,date,design,quantity,price,theme\n".to_owned() + &order.map(|at| rows[at]).concat();
        Trial::new(&[("orders.csv", &orders), ("shop.toml", "currency = \"USD\"\n[fees]\nfixed = 0.01\n")])
    };
    assert_eq!(difference(&shop([0, 1, 2]), &shop([1, 0, 2]), "theme", &[]), None);
}

/// Shipping of 0.01 over three items paid alike: the odd millionth must not move when one of them is written as two halves.
#[test]
fn a_receipt_is_shared_over_items_not_over_rows() {
    let shop = |butter: &str| {
        let purchases = format!(
            "date,item,packs,size,unit,paid,shipping,receipt\n2026-03-01,agar,1,100,g,1.00,0.01,R1\n{butter}2026-03-01,cocoa,1,100,g,1.00,,R1\n"
        );
        Trial::new(&[
            ("orders.csv", "order,date,design,quantity,price\nA1,2026-03-04,moth,1,5.00\n"),
            ("recipes.csv", "for,item,amount,unit\nmoth,butter,100,g\n"),
            ("purchases.csv", &purchases),
        ])
    };
    let whole = shop("2026-03-01,butter,2,50,g,1.00,,R1\n");
    let halves = shop("2026-03-01,butter,1,50,g,0.50,,R1\n2026-03-01,butter,1,50,g,0.50,,R1\n");
    assert_eq!(difference(&whole, &halves, "order", &[]), None);
}
