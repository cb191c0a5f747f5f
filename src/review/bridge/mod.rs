//! The bridge: explains the change in surplus and hourly wage between two periods by parts that add up to it exactly,
//! in all and by design.
//!
//! [`sides`] sums each period's facts into a `side`; `variances` compares them at the `standard` of the base
//! period; `valued` turns pay and minutes into surplus and wage; [`base_period`] says which period is the base.
//! Only [`sides`] knows of a shop, so that textbook examples run through the same sums.
//!
//! What goes with each piece (charged price, ingredients, packaging, fees, helper pay, the owner's minutes) is flexed
//! by pieces: volume and mix are valued at the base period's surplus per piece, its time included. Discounts,
//! refunds, rush charges, tips, deliveries, kept deposits, overhead and unassigned amounts do not go with pieces:
//! each is a part by its whole change.

pub(crate) mod base_period;
pub(crate) mod findings;
mod part;
mod side;
pub mod sides;
mod standard;
mod valued;
mod variances;

use crate::costing::minutes_each::MinutesFrom;
use crate::costing::{Costed, CostingError};
use crate::ids::{Design, Id, Item, Names, Order, Tier};
use crate::minutes::predicted::{Prediction, predictions};
use crate::quantity::millionths::Money;
use crate::quantity::{Period, TooLarge};
use crate::shop::Shop;
pub use base_period::BasePeriod;
pub use part::Part;
pub use side::{Group, Side, Sums};
use sides::SideWithOrders;
pub use standard::StandardFrom;
use std::collections::BTreeMap;
pub use valued::{Effect, Whole};
pub use variances::ItemVariance;
use variances::Variances;

/// One period of a bridge.
#[derive(Debug, Clone, PartialEq, Eq, Default)]
pub struct End {
    /// Its days.
    pub period: Period,
    /// Its season, if `shop.toml` names one.
    pub season: Option<String>,
    /// Pay, hours, surplus and wage, as in the headline.
    pub whole: Whole,
    /// Number of orders counted.
    pub orders: usize,
    /// Number of orders left out, because their hours are unknown.
    pub left_out: usize,
    /// Pieces sold.
    pub pieces: i64,
}

/// The change of one group.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct GroupVariance {
    /// The group.
    pub group: Group,
    /// Its tier, if it is a design.
    pub tier: Option<Id<Tier>>,
    /// Orders then and now.
    pub orders: (i64, i64),
    /// Pieces then and now.
    pub pieces: (i64, i64),
    /// Whose average is its standard, if it is a design.
    pub standard: Option<StandardFrom>,
    /// Whether its pieces now were free.
    pub given_away: bool,
    /// Its parts, in order, without those of zero.
    pub parts: Vec<(Part, Effect)>,
    /// Its whole change.
    pub change: Effect,
}

/// The names of what a bridge is of.
#[derive(Debug, Clone, Default, PartialEq, Eq)]
pub struct BridgeNames {
    /// Of designs.
    pub designs: Names<Design>,
    /// Of tiers.
    pub tiers: Names<Tier>,
    /// Of ingredients.
    pub items: Names<Item>,
}

/// A finished bridge. Parts add up to the change, and groups to the parts, to the last stored digit.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Bridge {
    /// The base period.
    pub then: End,
    /// The period in question.
    pub now: End,
    /// The target wage; without it, or without any hours, the surplus is the owner's pay.
    pub target: Option<Money>,
    /// All parts, in order, including those of zero.
    pub parts: Vec<(Part, Effect)>,
    /// The whole change.
    pub change: Effect,
    /// By group: designs by name, then deliveries, kept deposits and unassigned.
    pub groups: Vec<GroupVariance>,
    /// By ingredient: the effect of its price and of its use on pay.
    pub items: BTreeMap<Id<Item>, ItemVariance>,
    /// The names of designs, tiers and ingredients; none where it was made of sums alone.
    pub names: BridgeNames,
    /// Orders of either period whose logged minutes are so far off that a mistake is likelier than chance; those
    /// logged together are joined by `+`.
    pub doubtful: Vec<String>,
    /// Whether designs' minutes were learned and so are estimates; those of all designs together are counted.
    pub estimated: bool,
}

/// A step of a waterfall.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Step {
    /// The part; `None` is the sum of the rest.
    pub part: Option<Part>,
    /// Its effect on the surplus.
    pub change: Money,
    /// The surplus after this step.
    pub reached: Money,
}

impl Bridge {
    /// Explains the change from the period `then` to the period `now`.
    ///
    /// # Errors
    /// Where polars fails, or a figure does not fit.
    pub fn of(shop: &Shop, costed: &Costed, then: Period, now: Period) -> Result<Self, CostingError> {
        let [before, after] = sides::sides(shop, costed, [then, now])?;
        let mut bridge = Self::between(&before.side, &after.side)?;
        let season = |period: Period| shop.settings.seasons.iter().find(|(_, season)| **season == period).map(|(name, _)| name.clone());
        let end = |end: &mut End, period: Period, counted: &SideWithOrders| {
            (end.period, end.season, end.orders, end.left_out) = (period, season(period), counted.orders, counted.left_out);
        };
        end(&mut bridge.then, then, &before);
        end(&mut bridge.now, now, &after);
        bridge.target = shop.settings.target.filter(|_| costed.hours_known.any);
        bridge.estimated = costed.minutes_from == MinutesFrom::Learned;
        bridge.doubtful = doubtful(shop, costed, [then, now]);
        let designs = &shop.designs;
        bridge.names = BridgeNames { designs: designs.names.clone(), tiers: designs.tiers.clone(), items: shop.item_names.clone() };
        Ok(bridge)
    }

    /// Explains the change between two sides from their sums alone. Orders are counted once for each group they lie
    /// in.
    ///
    /// # Errors
    /// [`TooLarge`] where a figure does not fit.
    pub fn between(then: &Side, now: &Side) -> Result<Self, TooLarge> {
        let Variances { cells, items, sources } = Variances::between(then, now)?;
        let effects = valued::effects(&cells, then, now)?;
        let (before, after) = (end(then)?, end(now)?);
        let has_wages = before.whole.wage.is_some() && after.whole.wage.is_some();
        let zero = Effect { wage: has_wages.then_some(Money::ZERO), ..Effect::default() };
        let mut parts: Vec<(Part, Effect)> = Part::ALL.map(|part| (part, zero)).into();
        let mut groups: Vec<GroupVariance> = Vec::new();
        let mut change = zero;
        for (cell, effect) in cells.iter().zip(effects) {
            change.add(&effect);
            if let Some((_, sum)) = parts.iter_mut().find(|(part, _)| *part == cell.part) {
                sum.add(&effect);
            }
            if groups.last().is_none_or(|last| last.group != cell.group) {
                groups.push(of_group(cell.group, [then, now], sources.get(&cell.group).copied(), zero)?);
            }
            if let Some(group) = groups.last_mut() {
                group.change.add(&effect);
                if effect != zero {
                    group.parts.push((cell.part, effect));
                }
            }
        }
        let target = (now.target != Money::ZERO).then_some(now.target);
        let (names, doubtful) = (BridgeNames::default(), Vec::new());
        Ok(Self { then: before, now: after, target, parts, change, groups, items, names, doubtful, estimated: false })
    }

    /// Returns a part's effect over all groups.
    #[must_use]
    pub fn part(&self, part: Part) -> Effect {
        self.parts.iter().find(|(found, _)| *found == part).map(|(_, effect)| *effect).unwrap_or_default()
    }

    /// Lists the parts that changed the surplus or the wage, the largest first.
    #[must_use]
    pub fn moved(&self) -> Vec<(Part, Effect)> {
        let mut moved: Vec<(Part, Effect)> = self.parts.clone();
        moved.retain(|(_, effect)| effect.surplus != Money::ZERO || effect.wage.is_some_and(|wage| wage != Money::ZERO));
        moved.sort_by_key(|(part, effect)| (-effect.surplus.0.abs(), *part));
        moved
    }

    /// Computes the steps of a waterfall from the surplus then to the surplus now, the largest first: at most `most`,
    /// the last being the rest if there are more parts.
    #[must_use]
    pub fn steps(&self, most: usize) -> Vec<Step> {
        let mut moved: Vec<(Option<Part>, Money)> = self.moved().into_iter().map(|(part, effect)| (Some(part), effect.surplus)).collect();
        moved.retain(|(_, change)| *change != Money::ZERO);
        if moved.len() > most {
            let rest = moved.split_off(most.saturating_sub(1)).into_iter().map(|(_, change)| change).sum();
            moved.push((None, rest));
        }
        let mut reached = self.then.whole.surplus;
        let step = |(part, change)| {
            reached += change;
            Step { part, change, reached }
        };
        moved.into_iter().map(step).collect()
    }

    /// Lists designs by their effect on the surplus, the largest first.
    #[must_use]
    fn designs_moved(&self) -> Vec<&GroupVariance> {
        let mut designs: Vec<&GroupVariance> = self.groups.iter().filter(|group| group.is_design()).collect();
        designs.sort_by_key(|design| -design.change.surplus.0.abs());
        designs
    }

    /// Whether either period has fewer orders than [`SMALL`].
    #[must_use]
    pub(crate) fn is_small(&self) -> bool {
        self.then.orders.min(self.now.orders) < SMALL
    }
}

/// Orders below which a period says little.
pub(crate) const SMALL: usize = 5;

/// Lists orders far from their expected minutes, if minutes were learned.
fn doubtful(shop: &Shop, costed: &Costed, periods: [Period; 2]) -> Vec<String> {
    let Some(Ok(learned)) = &costed.learned else { return Vec::new() };
    let lies_within = |order: &Id<Order>| periods.iter().any(|period| period.holds(shop.orders.head(*order).day));
    let far = predictions(learned).into_iter().filter(|found| found.far_off && found.orders.iter().any(lies_within));
    let ids = |found: Prediction| found.orders.iter().map(|order| shop.orders.ids.text(*order)).collect::<Vec<&str>>().join("+");
    far.map(ids).collect()
}

fn end(side: &Side) -> Result<End, TooLarge> {
    let designs = side.designs(None)?;
    Ok(End {
        whole: Whole::of(side)?,
        orders: usize::try_from(designs.orders).unwrap_or_default(),
        pieces: designs.figures.pieces()?,
        ..End::default()
    })
}

fn of_group(group: Group, sides: [&Side; 2], standard: Option<StandardFrom>, zero: Effect) -> Result<GroupVariance, TooLarge> {
    let nothing = Sums::default();
    let [then, now] = sides.map(|side| side.groups.get(&group).unwrap_or(&nothing));
    let pieces = (then.figures.pieces()?, now.figures.pieces()?);
    Ok(GroupVariance {
        group,
        tier: now.tier.or(then.tier),
        orders: (then.orders, now.orders),
        pieces,
        standard,
        given_away: pieces.1 > 0 && now.charged() == Money::ZERO,
        parts: Vec::new(),
        change: zero,
    })
}
