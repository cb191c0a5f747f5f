//! Designs below the target wage: why, and what would raise them to it.

use super::key::{By, Key};
use super::list_prices::{ListPrice, ListPrices};
use super::row::{Known, Row};
use super::sums;
use super::verdict::Verdict;
use super::wage::WageTable;
use crate::costing::Costed;
use crate::costing::column;
use crate::costing::facts::{Facts, Figures};
use crate::ids::{Design, Id, Order};
use crate::quantity::millionths::{MILLION, Minutes, Money};
use crate::quantity::ratio;
use crate::shop::Shop;
use polars::prelude::PolarsResult;
use std::collections::{BTreeMap, BTreeSet};

/// A design below the target wage. Its figures rest on the lines with known hours, as its verdict does.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct BelowTarget {
    /// The design's row.
    pub row: Row,
    /// Its verdict.
    pub verdict: Verdict,
    /// Whether its hourly pay is below the floor.
    pub below_floor: bool,
    /// Whether the orders it was in reach the target together.
    pub carried_by_its_sets: bool,
    /// Minutes to save per piece in place of a raise; `None` if no saving would be enough.
    pub save_minutes: Option<Minutes>,
    /// Its list price and the one that pays the target, by the cost model; `None` where that knows none.
    pub list_price: Option<ListPrice>,
}

impl BelowTarget {
    /// The list price to ask, where a raise would make it pay.
    #[must_use]
    pub fn raise(&self) -> Option<ListPrice> {
        self.list_price.filter(|price| price.is_raise)
    }
}

/// Finds the designs of a table below target, the largest shortfall first.
///
/// # Errors
/// Where polars fails.
pub fn below_target(shop: &Shop, costed: &Costed, designs: &WageTable, prices: &ListPrices) -> PolarsResult<Vec<BelowTarget>> {
    let facts = costed.facts.within(designs.period)?;
    let by_order = sums::by_key(&facts, By::Order)?;
    let orders_of = orders_by_design(&facts, false)?;
    let mut below_target = Vec::new();
    for row in &designs.rows {
        let (Some(Key::Design(design)), Some(verdict)) = (row.group, row.verdict.filter(|verdict| *verdict != Verdict::Pays)) else {
            continue;
        };
        let mut together = Figures::default();
        for sums in orders_of.get(&design).into_iter().flatten().filter_map(|order| by_order.get(&Key::Order(*order))) {
            together += &sums.known;
        }
        below_target.push(BelowTarget {
            verdict,
            below_floor: row.wage_per_hour.zip(shop.settings.floor).is_some_and(|(wage, floor)| wage < floor),
            carried_by_its_sets: together.wage().zip(shop.settings.target).is_some_and(|(together, target)| together >= target),
            save_minutes: save_minutes(&row.known, shop.settings.target),
            list_price: prices.by_design.get(&design).copied(),
            row: row.clone(),
        });
    }
    below_target.sort_by_key(|design| design.row.known.surplus());
    Ok(below_target)
}

/// Computes the minutes per piece beyond those its pay covers at the target.
fn save_minutes(known: &Known, target: Option<Money>) -> Option<Minutes> {
    let target = target.filter(|target| *target > Money::ZERO)?;
    let paid_for = ratio::multiply_divide(known.owner_pay().0, 60 * MILLION, target.0).ok()?;
    let beyond = known.owner_minutes.0 - paid_for;
    (paid_for > 0 && beyond > 0).then(|| ratio::divide(beyond, known.pieces.into()).ok().map(Minutes)).flatten()
}

/// Lists the orders with each design; if `known`, only those with known hours.
///
/// # Errors
/// Where polars fails.
pub(super) fn orders_by_design(facts: &Facts, known: bool) -> PolarsResult<BTreeMap<Id<Design>, BTreeSet<Id<Order>>>> {
    let mut orders: BTreeMap<Id<Design>, BTreeSet<Id<Order>>> = BTreeMap::new();
    let of_lines = facts.values(&column::DESIGN)?.into_iter().zip(facts.values(&column::ORDER)?);
    for ((design, order), is_known) in of_lines.zip(facts.values(&column::KNOWN)?) {
        if let Some(design) = design.filter(|_| is_known || !known) {
            orders.entry(design).or_default().insert(order);
        }
    }
    Ok(orders)
}
