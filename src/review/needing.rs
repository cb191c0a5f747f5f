//! Designs that do not pay: why, and what would mend it.

use super::row::{Row, Verdict};
use super::sums::{self, Figure};
use super::wage::{DELIVERY, KEPT_DEPOSITS, WageTable};
use crate::costing::Costed;
use crate::costing::facts::column;
use crate::quantity::millionths::{MILLION, Minutes, Money};
use crate::quantity::ratio;
use crate::shop::Shop;
use polars::prelude::*;
use std::collections::{BTreeMap, BTreeSet};

/// One design that does not pay.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Needing {
    /// The design's row.
    pub row: Row,
    /// Why.
    pub verdict: Verdict,
    /// Whether whole orders pay less than the floor.
    pub below_floor: bool,
    /// Whether the orders it was in, together, reach the target.
    pub carried_by_its_sets: bool,
    /// How much more a piece would have to bring.
    pub raise_per_piece: Option<Money>,
    /// How many minutes a piece would have to be saved instead.
    pub save_minutes_per_piece: Option<Minutes>,
}

/// Designs of a table that do not pay, most short first.
///
/// # Errors
/// Where polars fails.
pub fn needing(shop: &Shop, costed: &Costed, designs: &WageTable) -> PolarsResult<Vec<Needing>> {
    let facts = costed.facts.within(designs.period)?;
    let by_order: BTreeMap<i64, _> = sums::by_key(&facts, col(column::ORDER))?.into_iter().collect();
    let orders_of = orders_by_design(facts.frame())?;
    let mut needing = Vec::new();
    for row in &designs.rows {
        let of_design =
            shop.designs.names.find(&row.key).filter(|_| !(row.pieces == 0 && matches!(row.key.as_str(), DELIVERY | KEPT_DEPOSITS)));
        let (Some(design), Some(verdict)) = (of_design, row.verdict.filter(|verdict| *verdict != Verdict::Pays)) else { continue };
        let orders = orders_of.get(&i64::from(design.0)).into_iter().flatten().filter_map(|order| by_order.get(order));
        let (pay, minutes) =
            orders.fold((0, 0), |(pay, minutes), sums| (pay + sums.known[Figure::OwnerPay], minutes + sums.known[Figure::OwnerMinutes]));
        let together = Money(pay).an_hour(Minutes(minutes));
        let raise = row.fair_price.zip(row.price_per_piece).map(|(fair, price)| fair - price).filter(|raise| *raise > Money::ZERO);
        needing.push(Needing {
            verdict,
            below_floor: row.wage_per_hour.zip(shop.settings.floor).is_some_and(|(wage, floor)| wage < floor),
            carried_by_its_sets: together.zip(shop.settings.target).is_some_and(|(together, target)| together >= target),
            raise_per_piece: raise,
            save_minutes_per_piece: save_minutes(row, shop.settings.target),
            row: row.clone(),
        });
    }
    needing.sort_by_key(|design| design.row.surplus);
    Ok(needing)
}

/// The minutes a piece that its shortfall is worth at the target; `None` where even no time at all would not mend it.
fn save_minutes(row: &Row, target: Option<Money>) -> Option<Minutes> {
    let target = target.filter(|target| *target > Money::ZERO)?;
    let short = row.surplus.filter(|surplus| *surplus < Money::ZERO && row.owner_pay > Money::ZERO)?;
    let each = (-short).each_of(row.pieces)?;
    ratio::multiply_divide(each.0, 60 * MILLION, target.0).ok().map(Minutes)
}

fn orders_by_design(frame: &DataFrame) -> PolarsResult<BTreeMap<i64, BTreeSet<i64>>> {
    let pairs = frame.select([column::DESIGN, column::ORDER])?;
    let (design, order) = (pairs.column(column::DESIGN)?.cast(&DataType::Int64)?, pairs.column(column::ORDER)?.cast(&DataType::Int64)?);
    let mut orders: BTreeMap<i64, BTreeSet<i64>> = BTreeMap::new();
    for (design, order) in design.i64()?.iter().zip(order.i64()?.iter()) {
        if let (Some(design), Some(order)) = (design, order) {
            orders.entry(design).or_default().insert(order);
        }
    }
    Ok(orders)
}
