//! The price ladder: designs in a row by fair price, cut into tiers, each at one price on the shop's endings.
//!
//! Each tier pays the target and each design the floor; with a cap on any rise, first the least that is short of them. Then
//! the fewest designs out of place. No design is priced below both what is fair and what it is sold for now. And where two tiers meet,
//! the design on either side stands about as near to its own tier's price as to the other's (no more than a quarter as far again), by what
//! is fair or by what it is sold for; without that a cheap design would be put among dear ones to pay for them. Then the least Σ pieces × |new − old price|, the fewest designs moved, lower prices, the order of names. Exact:
//! every price that could be best is among the candidates (see `candidates`), and [`best_runs`] tries them all.

mod candidates;
mod group;
mod rules;
mod score;

use crate::pricing::runs::best_runs;
use crate::quantity::TooLarge;
use crate::quantity::millionths::Money;
use candidates::Candidates;
use rules::NEAR;
pub use rules::{LadderDesign, Rules};
pub use score::Score;
use score::short;

/// A tier of the new ladder.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Step {
    /// Its designs, by their places among those given.
    pub designs: Vec<usize>,
    /// Its price.
    pub price: Money,
    /// What its season falls short of the target, in money; 0 where it does not.
    pub short: Money,
    /// Those of its designs that stay under the floor, by their places among those given.
    pub under_floor: Vec<usize>,
}

/// The new ladder, lowest tier first.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Ladder {
    /// Its tiers.
    pub steps: Vec<Step>,
    /// How good it is; less is better.
    pub score: Score,
    /// Whether the row of prices was too long to try all of it, so that a slightly better ladder may exist.
    pub thinned: bool,
}

/// Why there is no ladder.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum NoLadder {
    /// Nothing is left of a price, whatever it is.
    NothingKept,
    /// So many rising prices do not lie within the cap.
    Capped,
    /// A figure does not fit.
    TooLarge,
}

impl From<TooLarge> for NoLadder {
    fn from(_: TooLarge) -> Self {
        Self::TooLarge
    }
}

/// The order of the ladder: by fair price, then by name.
#[must_use]
pub(crate) fn by_fair_price(all: &[LadderDesign]) -> Vec<usize> {
    let mut order: Vec<usize> = (0..all.len()).collect();
    order.sort_by(|one, other| (all[*one].needs, &all[*one].name).cmp(&(all[*other].needs, &all[*other].name)));
    order
}

/// The best ladder of exactly min(`tiers`, designs) tiers.
///
/// # Errors
/// [`NoLadder`], which says why there is none.
pub fn best(all: &[LadderDesign], tiers: usize, rules: &Rules) -> Result<Ladder, NoLadder> {
    best_of_row(all, tiers, rules, candidates::WHOLE_ROW)
}

/// The same, with a thinned search where the row of prices is longer than that.
pub(in crate::pricing) fn best_of_row(all: &[LadderDesign], tiers: usize, rules: &Rules, whole_row: i128) -> Result<Ladder, NoLadder> {
    let order = by_fair_price(all);
    let tiers = tiers.min(order.len());
    if rules.kept.numerator <= 0 {
        return Err(NoLadder::NothingKept);
    }
    let Candidates { places, thinned } = candidates::candidates(all, &order, tiers, rules, whole_row)?;
    let prices: Vec<Money> = places.iter().map(|place| rules.endings.price(*place)).collect();
    let between = order.iter().map(|at| candidates::between(&all[*at], rules)).collect::<Result<Vec<(Money, Money)>, _>>()?;
    // From the last design below: no more than a quarter farther from its own price than from the upper; from the first above: the same
    // of the lower.
    let link = |start: usize, place: usize| {
        let (below, above) = (between[start - 1].0.0, between[start].1.0);
        let from = prices.partition_point(|lower| NEAR.0 * lower.0 + NEAR.1 * prices[place].0 < (NEAR.0 + NEAR.1) * below);
        let to = prices.partition_point(|lower| NEAR.1 * lower.0 + NEAR.0 * prices[place].0 <= (NEAR.0 + NEAR.1) * above);
        from..to.max(from)
    };
    let mut tier = group::Group::new(&prices);
    let mut failed = false;
    let stray = Score { out_of_place: 1, ..Score::default() };
    let found = best_runs(order.len(), tiers, prices.len(), (Score::default(), stray), link, |start, end, scores| {
        if end == start + 1 {
            tier = group::Group::new(&prices);
        }
        failed |= tier.add(&all[order[end - 1]], rules).and_then(|()| tier.scores(rules, scores)).is_err();
    });
    if failed {
        return Err(NoLadder::TooLarge);
    }
    let found = found.ok_or(NoLadder::Capped)?;
    let mut start = 0;
    let mut steps = Vec::with_capacity(tiers);
    for (end, place) in found.runs {
        let designs: Vec<usize> = order[start..end].to_vec();
        steps.push(step(all, designs, prices[place], rules)?);
        start = end;
    }
    Ok(Ladder { steps, score: found.score, thinned })
}

/// One price for designs that stay together.
///
/// # Errors
/// As [`best`].
pub(crate) fn price_together(all: &[LadderDesign], designs: &[usize], rules: &Rules) -> Result<Step, NoLadder> {
    if rules.kept.numerator <= 0 {
        return Err(NoLadder::NothingKept);
    }
    let Candidates { places, .. } = candidates::candidates(all, designs, 1, rules, candidates::WHOLE_ROW)?;
    let prices: Vec<Money> = places.into_iter().map(|place| rules.endings.price(place)).collect();
    let mut group = group::Group::new(&prices);
    for at in designs {
        group.add(&all[*at], rules)?;
    }
    let mut scores = vec![None; prices.len()];
    group.scores(rules, &mut scores)?;
    let allowed = scores.into_iter().zip(&prices).filter_map(|(score, price)| Some((score?, *price)));
    let (_, price) = allowed.min().ok_or(NoLadder::Capped)?;
    Ok(step(all, designs.to_vec(), price, rules)?)
}

fn step(all: &[LadderDesign], designs: Vec<usize>, price: Money, rules: &Rules) -> Result<Step, TooLarge> {
    let mut group = group::Group::new(&[]);
    let mut under_floor = Vec::new();
    for at in &designs {
        let design = &all[*at];
        group.add(design, rules)?;
        if design.floor_needs.map_or(Ok(0), |needs| short(needs.0, price, 1, rules.kept))? > 0 {
            under_floor.push(*at);
        }
    }
    Ok(Step { short: Money(short(group.needs, price, group.pieces, rules.kept)?), under_floor, designs, price })
}
