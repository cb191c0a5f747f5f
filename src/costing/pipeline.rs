//! From a shop to its facts: the sums of this room, in turn.

use super::bill::Bill;
use super::facts::{Facts, Parts};
use super::fees::Fees;
use super::labour::Labour;
use super::lines::Lines;
use super::materials::Materials;
use super::minutes_each::{MinutesEach, MinutesFrom};
use super::overheads::Overheads;
use super::posterior::Posterior;
use super::revenue::{Charged, Revenue};
use super::unassigned::UnassignedLog;
use crate::ids::{Design, IdVec};
use crate::minutes::fit::{Method, thinning};
use crate::minutes::{Learned, Unlearned, learn, learnable};
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
    /// What whole-order minutes are split by.
    pub minutes: MinutesBy,
}

/// What whole-order minutes are split by, where it can be.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub enum MinutesBy {
    /// Minutes learned from the logs, else the card. The program's own choice; a fit takes a moment, so libraries ask
    /// for it by name.
    Learned {
        /// Look for a trend a year, however short the logs.
        trend: bool,
    },
    /// The card's guesses, else equally.
    #[default]
    Card,
    /// As if every piece took as long as any other.
    Equal,
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
    /// The same by design.
    pub minutes_from_of: IdVec<Design, MinutesFrom>,
    /// What was learned, or why not; `None` where it was not asked for.
    pub learned: Option<Result<Learned, Unlearned>>,
    /// What is needed to redo splits for each draw, where minutes were learned.
    pub posterior: Option<Posterior>,
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

impl Costed {
    /// Whether ranges rest on the best fit alone, because sampling did not settle.
    #[must_use]
    pub fn has_rough_ranges(&self) -> bool {
        matches!(&self.learned, Some(Ok(learned)) if learned.diagnostics.method == Method::Unsettled)
    }
}

/// Costs a shop whose tables are sound.
///
/// # Errors
/// [`TooLarge`] where a figure outgrows what can be held exactly. Errors in recipes are in the problems of
/// [`Bill::of`], to be looked at before.
pub fn cost(shop: &Shop, options: Options) -> Result<Costed, TooLarge> {
    let learned = match options.minutes {
        MinutesBy::Learned { trend } => Some(learn(shop, trend)),
        MinutesBy::Card | MinutesBy::Equal => None,
    };
    cost_by(shop, options, learned)
}

/// Costs a shop by minutes already learned, or by the card or equally where there are none.
///
/// # Errors
/// As [`cost`].
pub fn cost_by(shop: &Shop, options: Options, learned: Option<Result<Learned, Unlearned>>) -> Result<Costed, TooLarge> {
    costed(shop, options, learned, None)
}

/// What costing finds worth a look, in a shop whose tables are sound. Minutes are not learned for it: no remark rests on them,
/// and of learning itself only what can be seen without it is listed.
///
/// # Errors
/// As [`cost`].
pub fn examine(shop: &Shop, cost_flow: Option<CostFlow>) -> Result<Vec<Problem>, TooLarge> {
    let options = Options { cost_flow, minutes: MinutesBy::Card };
    match learnable(shop, false) {
        Ok((_, prepared)) => {
            let mut problems = costed(shop, options, None, Some(MinutesFrom::Learned))?.problems;
            super::remarks::of_part_used(thinning(&prepared.model), &mut problems);
            Ok(problems)
        }
        Err(why) => Ok(cost_by(shop, options, Some(Err(why)))?.problems),
    }
}

/// Costs a shop; `assumed_from` is where minutes come from in the remarks, where that is not what this run splits by.
fn costed(
    shop: &Shop,
    options: Options,
    learned: Option<Result<Learned, Unlearned>>,
    assumed_from: Option<MinutesFrom>,
) -> Result<Costed, TooLarge> {
    let mut problems = Vec::new();
    let mut unassigned = UnassignedLog::default();
    let cost_flow = options.cost_flow.unwrap_or(shop.settings.cost_flow);
    let lines = Lines::of(&shop.orders)?;
    let charged = Charged::by_order(&shop.orders)?;
    let revenue = Revenue::of(shop, &lines, &charged)?;
    let fees = Fees::of(shop, &lines, &charged, &revenue)?;
    let bill = Bill::of(shop, &mut problems)?;
    let materials = Materials::of(shop, &lines, &bill, cost_flow, &mut unassigned)?;
    let minutes_each = match (&learned, options.minutes) {
        (Some(Ok(learned)), _) => MinutesEach::of_learned(learned, shop),
        (_, MinutesBy::Equal) => MinutesEach::equal(shop),
        _ => MinutesEach::of_card(shop),
    };
    let labour = Labour::of(shop, &lines, &bill, &minutes_each, &mut unassigned)?;
    let overheads = Overheads::of(shop, &lines, &revenue.revenue, &labour, &mut unassigned)?;
    let parts = Parts { revenue: &revenue, fees: &fees, materials: &materials, labour: &labour, overheads: &overheads };
    let facts = Facts::of(shop, &lines, &parts)?;
    super::remarks::of_materials(shop, &lines, &bill, &materials, &mut problems);
    super::remarks::of_assumptions(shop, assumed_from.unwrap_or(minutes_each.from), cost_flow, &mut problems);
    if let Some(learned) = &learned {
        super::remarks::of_learning(learned.as_ref().map(|learned| &learned.diagnostics).map_err(|why| *why), &mut problems);
    }
    problems.retain(|problem| problem.severity != Severity::Error);
    Ok(Costed {
        unassigned,
        prepaid: overheads.prepaid,
        minutes_from: minutes_each.from,
        minutes_from_of: minutes_each.of_design,
        posterior: match &learned {
            Some(Ok(learned)) => Some(Posterior::of(shop, learned, &facts, labour.estimated, overheads.by_hours).map_err(|_| TooLarge)?),
            _ => None,
        },
        learned,
        facts,
        any_hours: labour.any,
        by_months: labour.by_months,
        materials,
        bill,
        cost_flow,
        problems,
    })
}
