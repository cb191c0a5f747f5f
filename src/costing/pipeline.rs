//! From a shop to its facts: the sums of this room, in turn.

use super::bill::Bill;
use super::facts::{Facts, Parts};
use super::fees::Fees;
use super::labour::Labour;
use super::lines::Lines;
use super::materials::Materials;
use super::minutes_each::{MinutesEach, MinutesFrom};
use super::overheads::Overheads;
use super::revenue::{Charged, Revenue};
use super::unassigned::UnassignedLog;
use crate::quantity::millionths::{Minutes, Money};
use crate::quantity::{Month, TooLarge};
use crate::reading::{Problem, Severity};
use crate::shop::Shop;
use crate::shop::settings::CostFlow;
use std::collections::BTreeMap;

/// What may be chosen for one run.
#[derive(Debug, Clone, Copy, Default)]
pub struct Options {
    /// In place of the shop's own cost flow.
    pub cost_flow: Option<CostFlow>,
    /// Split whole-order minutes as if every piece took as long as any other.
    pub equal_minutes: bool,
}

/// A shop, costed.
#[derive(Debug)]
pub struct Costed {
    /// One row a line.
    pub facts: Facts,
    /// What no line can carry.
    pub unassigned: UnassignedLog,
    /// Overhead of months ahead of the logs.
    pub prepaid: BTreeMap<Month, Money>,
    /// Where minutes a piece came from.
    pub minutes_from: MinutesFrom,
    /// Whether any hours of work are logged.
    pub any_hours: bool,
    /// The owner's minutes by the month they were worked in and the month of hand-over they served.
    pub by_months: BTreeMap<(Month, Month), Minutes>,
    /// Materials: how each item's stock ran.
    pub materials: Materials,
    /// What takes what.
    pub bill: Bill,
    /// The cost flow used.
    pub cost_flow: CostFlow,
    /// Warnings and assumptions of the costing.
    pub problems: Vec<Problem>,
}

/// Costs a shop whose tables are sound.
///
/// # Errors
/// [`TooLarge`] where a figure outgrows what can be held exactly. Errors in recipes are in the problems of
/// [`Bill::of`], to be looked at before.
pub fn cost(shop: &Shop, options: Options) -> Result<Costed, TooLarge> {
    let mut problems = Vec::new();
    let mut unassigned = UnassignedLog::default();
    let cost_flow = options.cost_flow.unwrap_or(shop.settings.cost_flow);
    let lines = Lines::of(&shop.orders)?;
    let charged = Charged::by_order(&shop.orders)?;
    let revenue = Revenue::of(shop, &lines, &charged)?;
    let fees = Fees::of(shop, &lines, &charged, &revenue)?;
    let bill = Bill::of(shop, &mut problems)?;
    let materials = Materials::of(shop, &lines, &bill, cost_flow, &mut unassigned)?;
    let minutes_each = if options.equal_minutes { MinutesEach::equal(shop) } else { MinutesEach::of_card(shop) };
    let labour = Labour::of(shop, &lines, &bill, &minutes_each, &mut unassigned)?;
    let overheads = Overheads::of(shop, &lines, &revenue.revenue, &labour, &mut unassigned)?;
    let parts = Parts { revenue: &revenue, fees: &fees, materials: &materials, labour: &labour, overheads: &overheads };
    let facts = Facts::of(shop, &lines, &parts)?;
    super::remarks::of_materials(shop, &lines, &bill, &materials, &mut problems);
    super::remarks::of_assumptions(shop, &minutes_each, cost_flow, &mut problems);
    problems.retain(|problem| problem.severity != Severity::Error);
    Ok(Costed {
        facts,
        unassigned,
        prepaid: overheads.prepaid,
        minutes_from: minutes_each.from,
        any_hours: labour.any,
        by_months: labour.by_months,
        materials,
        bill,
        cost_flow,
        problems,
    })
}
