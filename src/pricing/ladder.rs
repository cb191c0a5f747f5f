//! The price ladder: designs in a row by fair price, cut into tiers, each at one price on the shop's endings.
//!
//! Each tier pays the target and each design the floor; with a cap on any rise, first the least that is short of them. Then
//! each design belongs where the price is near: where two tiers meet, the design on either side stands at the price nearer to
//! what it costs or is sold for now, as far as the endings allow. Without that a cheap design would be put among dear ones to pay
//! for them. Then the least Σ pieces × |new − old price|, the fewest designs moved, lower prices, the order of names. Exact:
//! every price that could be best is among the candidates (see `candidates`), and [`best_runs`] tries them all.

use super::change::Times;
use super::endings::Endings;
use super::runs::best_runs;
use crate::quantity::millionths::Money;
use crate::quantity::{Percent, TooLarge};
use std::collections::BTreeSet;

/// A design on the ladder.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Rung {
    /// Its name.
    pub name: String,
    /// Pieces sold in the season that prices are set by.
    pub pieces: i64,
    /// Its list price now.
    pub old: Money,
    /// The tier it sits in now.
    pub tier: Option<usize>,
    /// What a piece must leave, percentage fees and discounts taken off, for the target wage.
    pub needs: Money,
    /// The same for the least wage.
    pub floor_needs: Option<Money>,
}

/// What prices must keep to.
#[derive(Debug, Clone)]
pub struct Rules {
    /// What is left of an amount on the list after discounts and percentage fees.
    pub kept: Times,
    /// The prices the shop writes.
    pub endings: Endings,
    /// The most any design's price may rise.
    pub max_rise: Option<Percent>,
}

/// A tier of the new ladder.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Step {
    /// Its designs, by their places among the rungs.
    pub designs: Vec<usize>,
    /// Its price.
    pub price: Money,
    /// What its season falls short of the target, in money; nil where it does not.
    pub short: Money,
    /// Those of its designs that stay under the floor, by their places among the rungs.
    pub under_floor: Vec<usize>,
}

/// The new ladder, lowest tier first.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Ladder {
    /// Its tiers.
    pub steps: Vec<Step>,
    /// How good it is; less is better.
    pub score: Score,
}

/// What is to be least, the first part first.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Default)]
pub struct Score {
    /// Money short of target and floors.
    pub short: i64,
    /// Places where two tiers meet and the design above is nearer to the lower price, or the one below nearer to the upper, by its
    /// fair price and by its old one.
    pub strays: i64,
    /// Σ pieces × |new − old price|.
    pub movement: i64,
    /// In each tier, designs beside the largest part of it that shared one. (A tier cut in two counts none: which part keeps the name is
    /// told later.)
    pub moved: i64,
    /// Sum of the designs' prices.
    pub prices: i64,
}

impl std::ops::Add for Score {
    type Output = Self;
    fn add(self, other: Self) -> Self {
        Self {
            // What is past all bounds stays worse than anything within them.
            short: self.short.saturating_add(other.short),
            strays: self.strays + other.strays,
            movement: self.movement.saturating_add(other.movement),
            moved: self.moved + other.moved,
            prices: self.prices.saturating_add(other.prices),
        }
    }
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
pub fn by_fair_price(rungs: &[Rung]) -> Vec<usize> {
    let mut order: Vec<usize> = (0..rungs.len()).collect();
    order.sort_by(|one, other| (rungs[*one].needs, &rungs[*one].name).cmp(&(rungs[*other].needs, &rungs[*other].name)));
    order
}

/// The best ladder of exactly min(`tiers`, designs) tiers.
///
/// # Errors
/// [`NoLadder`], which says why there is none.
pub fn best(rungs: &[Rung], tiers: usize, rules: &Rules) -> Result<Ladder, NoLadder> {
    best_of_row(rungs, tiers, rules, WHOLE_ROW)
}

/// The same, with candidates beyond a row of so many prices.
pub(super) fn best_of_row(rungs: &[Rung], tiers: usize, rules: &Rules, whole_row: i128) -> Result<Ladder, NoLadder> {
    let order = by_fair_price(rungs);
    let tiers = tiers.min(order.len());
    if rules.kept.numerator <= 0 {
        return Err(NoLadder::NothingKept);
    }
    let places = candidates(rungs, &order, tiers, rules, whole_row)?;
    let prices: Vec<Money> = places.iter().map(|place| rules.endings.price(*place)).collect();
    let ends = order.iter().map(|design| nearness(&rungs[*design], rules)).collect::<Result<Vec<(Money, Money)>, _>>()?;
    // Nearer to its own tier's price: twice the amount lies on its side of the two prices' sum.
    let link = |start: usize, place: usize| {
        let from = prices.partition_point(|below| below.0 + prices[place].0 < 2 * ends[start - 1].0.0);
        let to = prices.partition_point(|below| below.0 + prices[place].0 <= 2 * ends[start].1.0);
        from..to.max(from)
    };
    let mut tier = Group::new(&prices);
    let mut failed = false;
    let stray = Score { strays: 1, ..Score::default() };
    let found = best_runs(order.len(), tiers, prices.len(), (Score::default(), stray), link, |start, end, scores| {
        if end == start + 1 {
            tier = Group::new(&prices);
        }
        failed |= tier.take(&rungs[order[end - 1]], rules).and_then(|()| tier.scores(rules, scores)).is_err();
    });
    if failed {
        return Err(NoLadder::TooLarge);
    }
    let found = found.ok_or(NoLadder::Capped)?;
    let mut start = 0;
    let mut steps = Vec::with_capacity(tiers);
    for (end, place) in found.runs {
        let designs: Vec<usize> = order[start..end].to_vec();
        steps.push(step(rungs, designs, prices[place], rules)?);
        start = end;
    }
    Ok(Ladder { steps, score: found.score })
}

/// One price for designs that stay together.
///
/// # Errors
/// As [`best`].
pub fn price_together(rungs: &[Rung], designs: &[usize], rules: &Rules) -> Result<Step, NoLadder> {
    if rules.kept.numerator <= 0 {
        return Err(NoLadder::NothingKept);
    }
    let prices: Vec<Money> = candidates(rungs, designs, 1, rules, WHOLE_ROW)?.into_iter().map(|place| rules.endings.price(place)).collect();
    let mut group = Group::new(&prices);
    for design in designs {
        group.take(&rungs[*design], rules)?;
    }
    let mut scores = vec![None; prices.len()];
    group.scores(rules, &mut scores)?;
    let allowed = scores.into_iter().zip(&prices).filter_map(|(score, price)| Some((score?, *price)));
    let (_, price) = allowed.min().ok_or(NoLadder::Capped)?;
    Ok(step(rungs, designs.to_vec(), price, rules)?)
}

/// The lesser and the greater of a design's fair and old price.
fn nearness(rung: &Rung, rules: &Rules) -> Result<(Money, Money), TooLarge> {
    let fair = least(rung.needs.0, 1, rules.kept)?;
    Ok((fair.min(rung.old), fair.max(rung.old)))
}

fn step(rungs: &[Rung], designs: Vec<usize>, price: Money, rules: &Rules) -> Result<Step, TooLarge> {
    let mut group = Group::new(&[]);
    let mut under_floor = Vec::new();
    for design in &designs {
        let rung = &rungs[*design];
        group.take(rung, rules)?;
        if rung.floor_needs.map_or(Ok(0), |needs| short(needs.0, price, 1, rules.kept))? > 0 {
            under_floor.push(*design);
        }
    }
    Ok(Step { short: Money(short(group.needs, price, group.pieces, rules.kept)?), under_floor, designs, price })
}

/// Designs taken into a tier one after another, with their sums at each price it may have.
struct Group<'a> {
    prices: &'a [Money],
    at: Vec<AtPrice>,
    designs: i64,
    pieces: i128,
    needs: i128,
    /// The least of the prices its cap allows.
    most: Option<Money>,
    by_tier: Vec<(usize, i64)>,
    largest: i64,
}

/// Sums over a tier's designs at one price.
#[derive(Clone, Copy, Default)]
struct AtPrice {
    below_floor: i128,
    movement: i128,
}

impl<'a> Group<'a> {
    fn new(prices: &'a [Money]) -> Self {
        let at = vec![AtPrice::default(); prices.len()];
        Self { prices, at, designs: 0, pieces: 0, needs: 0, most: None, by_tier: Vec::new(), largest: 0 }
    }

    fn take(&mut self, rung: &Rung, rules: &Rules) -> Result<(), TooLarge> {
        let pieces = i128::from(rung.pieces);
        let of_all = |needs: Money| needs.0.checked_mul(pieces).ok_or(TooLarge);
        self.designs += 1;
        self.pieces += pieces;
        self.needs = self.needs.checked_add(of_all(rung.needs)?).ok_or(TooLarge)?;
        if let Some(most) = most(rung, rules) {
            self.most = Some(self.most.map_or(most, |known| known.min(most)));
        }
        if let Some(tier) = rung.tier {
            let count = match self.by_tier.iter_mut().find(|(known, _)| *known == tier) {
                Some((_, count)) => {
                    *count += 1;
                    *count
                }
                None => {
                    self.by_tier.push((tier, 1));
                    1
                }
            };
            self.largest = self.largest.max(count);
        }
        let floor = rung.floor_needs.map(of_all).transpose()?;
        for (price, at) in self.prices.iter().zip(&mut self.at) {
            if let Some(needs) = floor {
                at.below_floor += short(needs, *price, pieces, rules.kept)?;
            }
            at.movement += (price.0 - rung.old.0).abs().checked_mul(pieces).ok_or(TooLarge)?;
        }
        Ok(())
    }

    /// How good the tier is at each price; `None` where it may not have it.
    fn scores(&self, rules: &Rules, scores: &mut [Option<Score>]) -> Result<(), TooLarge> {
        for ((price, at), score) in self.prices.iter().zip(&self.at).zip(scores) {
            let short = short(self.needs, *price, self.pieces, rules.kept)? + at.below_floor;
            let allowed = self.most.is_none_or(|most| *price <= most) && (rules.max_rise.is_some() || short == 0);
            let narrow = |sum: i128| i64::try_from(sum).unwrap_or(i64::MAX);
            *score = allowed.then(|| Score {
                short: narrow(short),
                strays: 0,
                movement: narrow(at.movement),
                moved: self.designs - self.largest,
                prices: narrow(price.0.saturating_mul(self.designs.into())),
            });
        }
        Ok(())
    }
}

/// What is missing at a price, in money rounded up to the millionth; nil where nothing is.
fn short(needs: i128, price: Money, pieces: i128, kept: Times) -> Result<i128, TooLarge> {
    let brought = price.0.checked_mul(pieces).and_then(|listed| listed.checked_mul(kept.numerator)).ok_or(TooLarge)?;
    let missing = needs.checked_mul(kept.divisor).ok_or(TooLarge)? - brought;
    Ok(if missing <= 0 { 0 } else { missing / kept.divisor + i128::from(missing % kept.divisor != 0) })
}

/// The most a capped design may cost.
fn most(rung: &Rung, rules: &Rules) -> Option<Money> {
    let rise = rules.max_rise?;
    (rung.old > Money::ZERO).then(|| Money(rung.old.0.saturating_mul(Percent::WHOLE + i128::from(rise.0)) / Percent::WHOLE))
}

/// Prices that are all tried: a row up to $250 by quarters.
const WHOLE_ROW: i128 = 1000;

/// Places of all prices that a best ladder may need, rising.
///
/// A tier's score is, on the row of prices, convex with corners at its designs' old prices and caps and at the least
/// prices that meet target and floors. With tier k's price moved down by k places the ladder need only not fall, and of
/// convex functions so tied together (isotonic regression) a best solution lies at corners: each corner, and up to `tiers` − 1
/// places above and below it, are enough. That designs stand at the nearer price ties the sum of two neighbours' prices to
/// twice a fair or old price, so a corner may also lie mirrored in one, and that mirrored again: a row that is not very long is therefore
/// taken whole, and only in a longer one are corners, once mirrored, all there is to choose from.
fn candidates(rungs: &[Rung], order: &[usize], tiers: usize, rules: &Rules, whole_row: i128) -> Result<Vec<i128>, TooLarge> {
    let mut corners: BTreeSet<i128> = BTreeSet::new();
    let mut corner = |price: Money| {
        corners.insert(rules.endings.at_most(price));
        corners.insert(rules.endings.at_least(price));
    };
    for (at, design) in order.iter().enumerate() {
        let rung = &rungs[*design];
        corner(rung.old);
        if let Some(most) = most(rung, rules) {
            corner(most);
        }
        if let Some(needs) = rung.floor_needs {
            corner(least(needs.0, 1, rules.kept)?);
        }
        let (mut needs, mut pieces) = (0_i128, 0_i128);
        for design in &order[at..] {
            let rung = &rungs[*design];
            pieces += i128::from(rung.pieces);
            needs += rung.needs.0.checked_mul(rung.pieces.into()).ok_or(TooLarge)?;
            corner(least(needs, pieces, rules.kept)?);
        }
    }
    let reach = i128::try_from(tiers).unwrap_or(1) - 1;
    let lowest = rules.endings.at_least(Money(1));
    let ends = order.iter().map(|design| nearness(&rungs[*design], rules)).collect::<Result<Vec<(Money, Money)>, _>>()?;
    let mirrored: Vec<i128> = ends
        .into_iter()
        .flat_map(|(lesser, greater)| [lesser, greater])
        .flat_map(|end| corners.iter().map(move |corner| Money(2 * end.0 - rules.endings.price(*corner).0)).collect::<Vec<_>>())
        .flat_map(|price| [rules.endings.at_most(price), rules.endings.at_least(price)])
        .collect();
    corners.extend(mirrored);
    let highest = corners.last().copied().unwrap_or(lowest) + reach;
    if highest - lowest < whole_row {
        return Ok((lowest..=highest).collect());
    }
    let places: BTreeSet<i128> =
        corners.into_iter().flat_map(|corner| corner - reach..=corner + reach).map(|place| place.max(lowest)).collect();
    // Where corners crowd at the bottom, strictly rising prices still need room.
    Ok(places.into_iter().chain(lowest..=lowest + reach).collect::<BTreeSet<_>>().into_iter().collect())
}

/// The least list price at which pieces leave what they need, rounded up to the millionth.
///
/// # Errors
/// [`TooLarge`] where it does not fit, or nothing is kept.
pub fn least(needs: i128, pieces: i128, kept: Times) -> Result<Money, TooLarge> {
    let whole = pieces.checked_mul(kept.numerator).filter(|whole| *whole > 0).ok_or(TooLarge)?;
    let needed = needs.checked_mul(kept.divisor).ok_or(TooLarge)?;
    Ok(Money(needed.div_euclid(whole) + i128::from(needed.rem_euclid(whole) != 0)))
}
