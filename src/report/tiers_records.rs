//! The next price list for programs: JSON (`fairdozen.tiers/1`) and CSV, stable.

use super::record::{Form, WriteError, json, record, records};
use crate::pricing::figures::{Both, Totals};
use crate::pricing::next_list::{DesignRow, NextList, TierRow};
use crate::quantity::Price;
use crate::quantity::millionths::Money;
use std::collections::BTreeSet;

/// Writes the JSON object, pretty-printed with a last line break.
///
/// # Errors
/// Where a record cannot be written.
pub(crate) fn tiers_json(list: &NextList, currency: &str) -> Result<String, WriteError> {
    json(&ListRecord::of(list, currency))
}

/// Writes the designs as CSV, one row each.
///
/// # Errors
/// Where a record cannot be written.
pub(crate) fn tiers_csv(list: &NextList) -> Result<String, WriteError> {
    records(list.rows.iter().map(|row| DesignRecord::of(row, Form::Csv)))
}

/// Writes the list itself as CSV, as `whatif` reads it: tiers that designs stay in, and each design that moves or has moved, at its new price. So it
/// says the same of any past day, before it is written and after. Names are as the shop has them.
///
/// # Errors
/// Where a record cannot be written.
pub(crate) fn next_list_csv(list: &NextList) -> Result<String, WriteError> {
    let stays = |row: &&DesignRow| row.old_tier.as_deref() == Some(&row.new_tier);
    let kept: BTreeSet<&str> = list.rows.iter().filter(stays).map(|row| row.new_tier.as_str()).collect();
    let tiers = list.tiers.iter().filter(|tier| kept.contains(tier.tier.as_str()));
    let tiers = tiers.map(|tier| PriceRecord::of(Some(&tier.tier), None, tier.price));
    let designs = list.rows.iter().filter(|row| !stays(row) || row.has_moved_before);
    let designs = designs.map(|row| PriceRecord::of(None, Some(&row.key), row.new_price));
    records(tiers.chain(designs))
}

record! {
    /// A line of [`next_list_csv`]: a list price as the tables write it.
    pub PriceRecord(tier: Option<&String>, design: Option<&String>, amount: Money) {
        tier: Option<String> = Form::Csv.known(tier),
        design: Option<String> = Form::Csv.known(design),
        price: String = Price { amount, pieces: 1 }.to_string(),
    }
}

record! {
    ListRecord(list: &NextList, currency: &str) {
        schema: &'static str = "fairdozen.tiers/1",
        currency: String = currency.to_owned(),
        target: Money = list.target,
        floor: Option<Money> = list.floor,
        rows: Vec<DesignRecord> = list.rows.iter().map(|row| DesignRecord::of(row, Form::Json)).collect(),
        tiers: Vec<TierRecord> = list.tiers.iter().map(TierRecord::of).collect(),
        season: SeasonRecord = SeasonRecord::of(&list.all_in),
        smallest_order: Option<i64> = list.smallest.pieces(),
        smallest_order_at_old_prices: Option<i64> = list.alternatives.smallest.pieces(),
        search_thinned: bool = list.search_thinned,
    }
}

record! {
    DesignRecord(row: &DesignRow, form: Form) {
        key: String = form.text(&row.key),
        pieces: i64 = row.pieces,
        old_tier: Option<String> = form.known(row.old_tier.as_ref()),
        new_tier: String = form.text(&row.new_tier),
        old_price: Money = row.old_price,
        new_price: Money = row.new_price,
        fair_price: Money = row.fair_price,
        fair_low: Option<Money> = row.fair.map(|(low, _)| low),
        fair_high: Option<Money> = row.fair.map(|(_, high)| high),
        wage_per_hour: Option<Money> = row.wage,
        chance_of_target: Option<Money> = row.chance,
    }
}

record! {
    TierRecord(row: &TierRow) {
        tier: String = row.tier.clone(),
        price: Money = row.price,
        pieces: i64 = row.pieces,
        wage_per_hour: Option<Money> = row.wage,
        wage_low: Option<Money> = row.range.map(|(low, _)| low),
        wage_high: Option<Money> = row.range.map(|(_, high)| high),
        may_lose_for_pay: Option<Money> = row.may_lose.for_pay,
        may_lose_for_wage: Option<Money> = row.may_lose.for_wage,
    }
}

record! { SeasonRecord(both: &Both) { before: PayRecord = PayRecord::of(&both.before), after: PayRecord = PayRecord::of(&both.after), } }

record! {
    PayRecord(figures: &Totals) {
        revenue: Money = figures.revenue(),
        owner_pay: Money = figures.owner_pay(),
        wage_per_hour: Option<Money> = figures.wage(),
    }
}
