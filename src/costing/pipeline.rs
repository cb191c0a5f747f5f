//! Runs the steps of costing in turn, from a shop to its facts.

use super::bill::Bill;
use super::error::CostingError;
use super::facts::{Facts, Parts};
use super::fees::Fees;
use super::hours_known::HoursKnown;
use super::labour::Labour;
use super::lines::Lines;
use super::materials::Materials;
use super::minutes_each::{MinutesEach, MinutesFrom};
use super::overheads::{Outside, Overheads};
use super::posterior::Posterior;
use super::revenue::{Charged, Revenue};
use super::slips::slips;
use super::unassigned::UnassignedLog;
use super::usual_time::UsualTime;
use crate::ids::{Design, Id, IdVec, Order};
use crate::minutes::fit::{Method, thinning};
use crate::minutes::{Learned, Unlearned, learn, learnable};
use crate::quantity::Month;
use crate::quantity::millionths::Minutes;
use crate::reading::{Problem, Severity};
use crate::shop::Shop;
use crate::shop::settings::CostFlow;
use std::collections::BTreeMap;

/// Options of one run.
#[derive(Debug, Clone, Copy, Default)]
pub struct Options {
    /// Cost flow to use in place of the shop's own.
    pub cost_flow: Option<CostFlow>,
    /// Source of the minutes per piece.
    pub minutes: MinutesBy,
}

/// Source of the minutes per piece to use, if the shop has it.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub enum MinutesBy {
    /// Minutes learned from the logs, else the card's. The program's default; not the library's, because a fit takes
    /// time.
    Learned {
        /// Fit a yearly trend, however short the logs.
        trend: bool,
    },
    /// The card's guesses, else equally.
    #[default]
    Card,
    /// The same minutes for every piece.
    Equal,
}

/// The result of costing a shop.
#[derive(Debug)]
pub struct Costed {
    /// One row per line.
    pub facts: Facts,
    /// Hours and costs that no line can carry.
    pub unassigned: UnassignedLog,
    /// Overhead of months after the logs' last.
    pub prepaid: Outside,
    /// Overhead of months before the logs' first.
    pub earlier: Outside,
    /// Source of the minutes per piece.
    pub minutes_from: MinutesFrom,
    /// Source of the minutes per piece, by design.
    pub minutes_from_of: IdVec<Design, MinutesFrom>,
    /// The learned minutes, or why there are none; `None` if they were not asked for.
    pub learned: Option<Result<Learned, Unlearned>>,
    /// Data to repeat splits for each posterior draw, if minutes were learned.
    pub posterior: Option<Posterior>,
    /// What the hours log tells of each order.
    pub hours_known: HoursKnown,
    /// The usual time of what orders lack, for those that lack any.
    pub usual_time: BTreeMap<Id<Order>, UsualTime>,
    /// The owner's minutes by month worked and month of hand-over.
    pub by_months: BTreeMap<(Month, Month), Minutes>,
    /// Materials, with each item's stock ledger.
    pub materials: Materials,
    /// The bill of materials.
    pub bill: Bill,
    /// The cost flow used.
    pub cost_flow: CostFlow,
    /// Warnings and assumptions of the costing.
    pub problems: Vec<Problem>,
}

impl Costed {
    /// Whether ranges rest on the approximation alone, because sampling did not converge.
    #[must_use]
    pub(crate) fn has_rough_ranges(&self) -> bool {
        matches!(&self.learned, Some(Ok(learned)) if learned.diagnostics.method == Method::Unsettled)
    }
}

/// Costs a shop without errors in its tables.
///
/// # Errors
/// [`CostingError::TooLarge`] where a figure outgrows what can be held exactly. Errors in recipes are in the problems of
/// [`Bill::of`], to be looked at before.
pub fn cost(shop: &Shop, options: Options) -> Result<Costed, CostingError> {
    let learned = match options.minutes {
        MinutesBy::Learned { trend } => Some(learn(shop, trend)),
        MinutesBy::Card | MinutesBy::Equal => None,
    };
    cost_by(shop, options, learned)
}

/// Costs a shop by minutes already learned; without them, by the card or equally.
///
/// # Errors
/// As [`cost`].
pub fn cost_by(shop: &Shop, options: Options, learned: Option<Result<Learned, Unlearned>>) -> Result<Costed, CostingError> {
    costed(shop, options, learned, None)
}

/// Lists the warnings and assumptions of costing a shop without errors in its tables. Learns no minutes: no remark
/// depends on them, and of learning it lists only what shows without a fit.
///
/// # Errors
/// As [`cost`].
pub fn examine(shop: &Shop, cost_flow: Option<CostFlow>) -> Result<Vec<Problem>, CostingError> {
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

/// Costs a shop. `assumed_from` is the source of minutes that remarks name, if it differs from this run's.
fn costed(
    shop: &Shop,
    options: Options,
    learned: Option<Result<Learned, Unlearned>>,
    assumed_from: Option<MinutesFrom>,
) -> Result<Costed, CostingError> {
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
    let overheads = Overheads::of(shop, &lines, &revenue.total, &labour, &mut unassigned)?;
    let parts = Parts { revenue: &revenue, fees: &fees, materials: &materials, labour: &labour, overheads: &overheads };
    let facts = Facts::of(shop, &lines, &parts)?;
    super::remarks::of_slips(shop, &slips(shop, &bill)?, &mut problems);
    super::remarks::of_earlier(&overheads.earlier, &mut problems);
    super::remarks::of_hours(shop, &labour.hours_known, &mut problems);
    super::remarks::of_materials(shop, &lines, &bill, &materials, &mut problems);
    super::remarks::of_assumptions(shop, assumed_from.unwrap_or(minutes_each.from), cost_flow, &mut problems);
    if let Some(learned) = &learned {
        super::remarks::of_learning(learned.as_ref().map(|learned| &learned.diagnostics).map_err(|why| *why), &mut problems);
    }
    problems.retain(|problem| problem.severity != Severity::Error);
    Ok(Costed {
        unassigned,
        prepaid: overheads.prepaid,
        earlier: overheads.earlier,
        minutes_from: minutes_each.from,
        minutes_from_of: minutes_each.of_design,
        posterior: match &learned {
            Some(Ok(learned)) => Some(Posterior::of(shop, learned, &facts, labour.estimated, overheads.by_hours)?),
            _ => None,
        },
        learned,
        facts,
        hours_known: labour.hours_known,
        usual_time: labour.usual_time,
        by_months: labour.by_months,
        materials,
        bill,
        cost_flow,
        problems,
    })
}
