//! Orders whose hourly pay is unknown, because they lack hours or a usual stage, and their usual time.

use crate::costing::Costed;
use crate::costing::facts::Facts;
use crate::costing::usual_time::UsualTime;
use crate::costing::{column, facts::Figure};
use crate::ids::{Id, Order};
use crate::quantity::Period;
use crate::quantity::millionths::Money;
use crate::shop::Shop;
use crate::shop::orders::Status;
use polars::prelude::PolarsResult;
use std::collections::BTreeMap;

/// An order handed over whose hours are not all logged.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Lacking {
    /// The order.
    pub order: Id<Order>,
    /// Its name.
    pub name: String,
    /// Usual stages it lacks, by name; none where it has no hours at all.
    pub stages: Vec<String>,
    /// Whether only its delivery lacks hours.
    pub is_delivery: bool,
    /// The usual time of what it lacks.
    pub usual: UsualTime,
    /// What it brought in, of which the hourly pay is unknown.
    pub revenue: Money,
}

/// Lists the orders of a period that lack hours or a usual stage: first those without any hours, then by name.
///
/// # Errors
/// Where polars fails.
pub fn lacking(shop: &Shop, costed: &Costed, period: Period) -> PolarsResult<Vec<Lacking>> {
    if !costed.hours_known.any {
        return Ok(Vec::new());
    }
    let unknown = unknown_revenue(&costed.facts)?;
    let done = shop.orders.heads.pairs().filter(|(_, head)| head.status == Status::Done && period.holds(head.day));
    let lacking = done.filter_map(|(order, _)| {
        let lacks = &costed.hours_known.lacks[order];
        let is_delivery = lacks.nothing();
        if is_delivery && lacks.of_delivery.is_empty() {
            return None;
        }
        let stages = if is_delivery { &lacks.of_delivery } else { &lacks.stages };
        let stages = stages.iter().filter(|_| !lacks.hours).map(|stage| shop.hours.stages.text(*stage).to_owned());
        Some(Lacking {
            order,
            name: shop.orders.ids.text(order).to_owned(),
            stages: stages.collect(),
            is_delivery,
            usual: costed.usual_time.get(&order).copied().unwrap_or_default(),
            revenue: unknown.get(&order).copied().unwrap_or_default(),
        })
    });
    let mut lacking: Vec<Lacking> = lacking.collect();
    lacking.sort_by_key(|of| !of.stages.is_empty());
    Ok(lacking)
}

/// Sums the revenue of lines without known hours by order.
fn unknown_revenue(facts: &Facts) -> PolarsResult<BTreeMap<Id<Order>, Money>> {
    let mut unknown = BTreeMap::new();
    let lines = facts.values(&column::ORDER)?.into_iter().zip(facts.values(&column::KNOWN)?).zip(facts.figure(Figure::Revenue)?);
    for ((order, _), revenue) in lines.filter(|((_, is_known), _)| !is_known) {
        *unknown.entry(order).or_insert(Money::ZERO) += Money(revenue.into());
    }
    Ok(unknown)
}
