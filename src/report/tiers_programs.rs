//! The next price list for programs: JSON (`fairdozen.tiers/1`) and CSV, stable.

use super::csv_text::{Cell, csv};
use crate::pricing::next_list::{DesignRow, NextList, TierRow};
use crate::pricing::what_if::Figures;
use crate::quantity::Price;
use crate::quantity::millionths::Money;
use serde_json::{Value, json};
use std::collections::BTreeSet;

/// The JSON object, pretty-printed with a last line break.
#[must_use]
pub fn tiers_json(list: &NextList, currency: &str) -> String {
    let object =
        |fields: Vec<(&'static str, Value)>| Value::Object(fields.into_iter().map(|(name, value)| (name.to_owned(), value)).collect());
    let object = json!({
        "schema": "fairdozen.tiers/1",
        "currency": currency,
        "target": list.target.stored(),
        "floor": list.floor.map(Money::stored),
        "rows": list.rows.iter().map(|row| object(fields(row))).collect::<Vec<Value>>(),
        "tiers": list.tiers.iter().map(|tier| object(tier_fields(tier))).collect::<Vec<Value>>(),
        "season": { "before": season(&list.all_in.before), "after": season(&list.all_in.after) },
        "smallest_order": list.smallest.pieces(),
        "smallest_order_at_old_prices": list.alternatives.smallest.pieces(),
        "search_thinned": list.search_thinned,
    });
    format!("{object:#}\n")
}

/// The designs, one row each.
#[must_use]
pub fn tiers_csv(list: &NextList) -> String {
    let headings = "key pieces old_tier new_tier old_price new_price fair_price fair_low fair_high wage_per_hour chance_of_target";
    let headings: Vec<String> = headings.split_whitespace().map(str::to_owned).collect();
    let cells = |row: &DesignRow| {
        fields(row).iter().map(|(name, value)| Cell::of(value, matches!(*name, "key" | "old_tier" | "new_tier"))).collect()
    };
    csv(&headings, list.rows.iter().map(cells))
}

/// The headings of [`next_list_csv`].
pub const NEXT_LIST_HEADINGS: [&str; 3] = ["tier", "design", "price"];

/// The list itself, as `whatif` reads it: tiers that designs stay in, and each design that moves or has moved, at its new price. So it
/// says the same of any past day, before it is written and after. Names are as the shop has them.
#[must_use]
pub fn next_list_csv(list: &NextList) -> String {
    let stays = |row: &&DesignRow| row.old_tier.as_deref() == Some(&row.new_tier);
    let kept: BTreeSet<&str> = list.rows.iter().filter(stays).map(|row| row.new_tier.as_str()).collect();
    let tiers = list.tiers.iter().filter(|tier| kept.contains(tier.tier.as_str()));
    let tiers = tiers.map(|tier| vec![Cell::Text(tier.tier.clone()), Cell::Unknown, price(tier.price)]);
    let designs = list.rows.iter().filter(|row| !stays(row) || row.has_moved_before);
    let designs = designs.map(|row| vec![Cell::Unknown, Cell::Text(row.key.clone()), price(row.new_price)]);
    csv(&NEXT_LIST_HEADINGS.map(str::to_owned), tiers.chain(designs))
}

/// A list price as the tables write it.
fn price(amount: Money) -> Cell {
    Cell::Figure(Price { amount, pieces: 1 }.to_string())
}

fn season(figures: &Figures) -> Value {
    json!({
        "revenue": figures.revenue.stored(),
        "owner_pay": figures.owner_pay.stored(),
        "wage_per_hour": figures.wage().map(Money::stored),
    })
}

/// A design's fields, in their stable order.
fn fields(row: &DesignRow) -> Vec<(&'static str, Value)> {
    let known = |money: Option<Money>| json!(money.map(Money::stored));
    vec![
        ("key", json!(row.key)),
        ("pieces", json!(row.pieces)),
        ("old_tier", json!(row.old_tier)),
        ("new_tier", json!(row.new_tier)),
        ("old_price", json!(row.old_price.stored())),
        ("new_price", json!(row.new_price.stored())),
        ("fair_price", json!(row.fair_price.stored())),
        ("fair_low", known(row.fair.map(|(low, _)| low))),
        ("fair_high", known(row.fair.map(|(_, high)| high))),
        ("wage_per_hour", known(row.wage)),
        ("chance_of_target", known(row.chance)),
    ]
}

/// A tier's fields, in their stable order.
fn tier_fields(tier: &TierRow) -> Vec<(&'static str, Value)> {
    let known = |money: Option<Money>| json!(money.map(Money::stored));
    vec![
        ("tier", json!(tier.tier)),
        ("price", json!(tier.price.stored())),
        ("pieces", json!(tier.pieces)),
        ("wage_per_hour", known(tier.wage)),
        ("wage_low", known(tier.range.map(|(low, _)| low))),
        ("wage_high", known(tier.range.map(|(_, high)| high))),
        ("may_lose_for_pay", known(tier.may_lose.for_pay)),
        ("may_lose_for_wage", known(tier.may_lose.for_wage)),
    ]
}
