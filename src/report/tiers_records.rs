//! The next price list for programs: JSON (`fairdozen.tiers/1`) and CSV, stable.

use super::record::{Form, Text, json, records};
use crate::pricing::next_list::{DesignRow, NextList, TierRow};
use crate::pricing::what_if::Figures;
use crate::quantity::Price;
use crate::quantity::millionths::Money;
use serde::Serialize;
use std::collections::BTreeSet;

/// The JSON object, pretty-printed with a last line break.
#[must_use]
pub fn tiers_json(list: &NextList, currency: &str) -> String {
    json(&ListRecord {
        schema: "fairdozen.tiers/1",
        currency,
        target: list.target,
        floor: list.floor,
        rows: list.rows.iter().map(|row| DesignRecord::of(row, Form::Json)).collect(),
        tiers: list.tiers.iter().map(TierRecord::of).collect(),
        season: SeasonRecord { before: PayRecord::of(&list.all_in.before), after: PayRecord::of(&list.all_in.after) },
        smallest_order: list.smallest.pieces(),
    })
}

/// The designs, one row each.
#[must_use]
pub fn tiers_csv(list: &NextList) -> String {
    records(list.rows.iter().map(|row| DesignRecord::of(row, Form::Csv)))
}

/// The list itself, as `whatif` reads it: tiers that designs stay in, and each design that moves or has moved, at its new price. So it
/// says the same of any past day, before it is written and after. Names are as the shop has them.
#[must_use]
pub fn next_list_csv(list: &NextList) -> String {
    let stays = |row: &&DesignRow| row.old_tier.as_deref() == Some(&row.new_tier);
    let kept: BTreeSet<&str> = list.rows.iter().filter(stays).map(|row| row.new_tier.as_str()).collect();
    let text = |name| Some(Form::Csv.text(name));
    let price = |amount| Price { amount, pieces: 1 }.to_string();
    let tiers = list.tiers.iter().filter(|tier| kept.contains(tier.tier.as_str()));
    let tiers = tiers.map(|tier| PriceRecord { tier: text(&tier.tier), design: None, price: price(tier.price) });
    let designs = list.rows.iter().filter(|row| !stays(row) || row.has_moved_before);
    let designs = designs.map(|row| PriceRecord { tier: None, design: text(&row.key), price: price(row.new_price) });
    records(tiers.chain(designs))
}

/// A line of [`next_list_csv`]: a list price as the tables write it.
#[derive(Debug, Default, Serialize)]
pub struct PriceRecord<'a> {
    tier: Option<Text<'a>>,
    design: Option<Text<'a>>,
    price: String,
}

#[derive(Serialize)]
struct ListRecord<'a> {
    schema: &'static str,
    currency: &'a str,
    target: Money,
    floor: Option<Money>,
    rows: Vec<DesignRecord<'a>>,
    tiers: Vec<TierRecord<'a>>,
    season: SeasonRecord,
    smallest_order: Option<i64>,
}

#[derive(Default, Serialize)]
struct DesignRecord<'a> {
    key: Text<'a>,
    pieces: i64,
    old_tier: Option<Text<'a>>,
    new_tier: Text<'a>,
    old_price: Money,
    new_price: Money,
    fair_price: Money,
    fair_low: Option<Money>,
    fair_high: Option<Money>,
    wage_per_hour: Option<Money>,
    chance_of_target: Option<Money>,
}

impl<'a> DesignRecord<'a> {
    fn of(row: &'a DesignRow, form: Form) -> Self {
        Self {
            key: form.text(&row.key),
            pieces: row.pieces,
            old_tier: form.known(row.old_tier.as_ref()),
            new_tier: form.text(&row.new_tier),
            old_price: row.old_price,
            new_price: row.new_price,
            fair_price: row.fair_price,
            fair_low: row.fair.map(|(low, _)| low),
            fair_high: row.fair.map(|(_, high)| high),
            wage_per_hour: row.wage,
            chance_of_target: row.chance,
        }
    }
}

#[derive(Serialize)]
struct TierRecord<'a> {
    tier: &'a str,
    price: Money,
    pieces: i64,
    wage_per_hour: Option<Money>,
    wage_low: Option<Money>,
    wage_high: Option<Money>,
    may_lose_for_pay: Option<Money>,
    may_lose_for_wage: Option<Money>,
}

impl<'a> TierRecord<'a> {
    fn of(row: &'a TierRow) -> Self {
        Self {
            tier: &row.tier,
            price: row.price,
            pieces: row.pieces,
            wage_per_hour: row.wage,
            wage_low: row.range.map(|(low, _)| low),
            wage_high: row.range.map(|(_, high)| high),
            may_lose_for_pay: row.may_lose.for_pay,
            may_lose_for_wage: row.may_lose.for_wage,
        }
    }
}

#[derive(Serialize)]
struct SeasonRecord {
    before: PayRecord,
    after: PayRecord,
}

#[derive(Serialize)]
struct PayRecord {
    revenue: Money,
    owner_pay: Money,
    wage_per_hour: Option<Money>,
}

impl PayRecord {
    fn of(figures: &Figures) -> Self {
        Self { revenue: figures.revenue, owner_pay: figures.owner_pay, wage_per_hour: figures.wage() }
    }
}
