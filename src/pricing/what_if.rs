//! Past orders at other prices, costs, minimums or volumes, compared with what happened.
//!
//! Prices and costs are changed in the shop's own tables and the shop is costed again, by the same minutes; volumes and
//! minimums are taken off the lines after that. Overhead and what is unassigned stay as they were. Nothing changed
//! gives the facts back to the last digit. From which size an order pays is asked of the cost model.

use super::at_prices::{Landed, Listed, list_in_force, with_prices, with_purchases};
use super::cost::{Season, Smallest};
use super::error::PricingError;
use super::figures::Both;
use super::lines::{self, Line};
use super::season::Reference;
use crate::costing::lines::LineKind;
use crate::costing::unassigned::Unassigned;
use crate::costing::{Costed, Options, cost_by};
use crate::ids::{Design, Id, Item, Order, Tier};
use crate::quantity::Factor;
use crate::quantity::millionths::{MILLION, Money};
use crate::quantity::{Day, Period, Price, TooLarge};
use crate::shop::Shop;
use crate::shop::price_file::PriceFile;
use std::collections::{BTreeMap, BTreeSet};

/// What there is less of.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Of {
    /// Pieces of a design.
    Design(Id<Design>),
    /// Pieces of a tier.
    Tier(Id<Tier>),
    /// Whole orders.
    Orders,
}

/// What is changed of the past.
#[derive(Debug, Default)]
pub struct Scenario {
    /// Another price list.
    pub prices: Option<PriceFile>,
    /// Other landed prices, by item.
    pub costs: BTreeMap<Id<Item>, Factor>,
    /// What is left of what there is less of.
    pub fewer: Vec<(Of, Factor)>,
    /// Orders of fewer pieces are turned away.
    pub minimum: Option<i64>,
}

/// What rows are of.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum By {
    /// A tier.
    Tier,
    /// A design.
    Design,
    /// An order.
    Order,
}

impl By {
    /// The word for it.
    #[must_use]
    pub fn word(self) -> &'static str {
        match self {
            Self::Tier => "tier",
            Self::Design => "design",
            Self::Order => "order",
        }
    }
}

/// A row of the answer.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Row {
    /// What it is of.
    pub key: String,
    /// The tier of a design or a tier.
    pub tier: Option<String>,
    /// Its sums.
    pub both: Both,
}

/// The answer.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct WhatIf {
    /// What rows are of.
    pub by: By,
    /// Which orders.
    pub period: Period,
    /// The rows, by key; deliveries and kept deposits last.
    pub rows: Vec<Row>,
    /// Their sum.
    pub total: Both,
    /// With what is unassigned: the headline.
    pub all_in: Both,
    /// Orders handed over.
    pub orders: usize,
    /// Of these, how many the minimum would turn away.
    pub turned_away: usize,
    /// The smallest order worth its set-up at these prices and costs, where a minimum and a wage are aimed at.
    pub smallest_order: Option<Smallest>,
    /// The wage aimed at.
    pub target: Option<Money>,
}

/// The lines of a period before and after, in one order, with what is unassigned.
#[derive(Debug, Clone)]
pub struct Compared {
    /// As they were.
    pub before: Vec<Line>,
    /// As they would have been.
    pub after: Vec<Line>,
    /// What is unassigned, before and after.
    pub unassigned: (Unassigned, Unassigned),
    /// Orders turned away.
    pub turned_away: BTreeSet<Id<Order>>,
}

/// Asks what would have been.
///
/// # Errors
/// Where polars fails or a figure does not fit.
pub fn compare(shop: &Shop, costed: &Costed, options: Options, period: Period, scenario: &Scenario) -> Result<Compared, PricingError> {
    let old = old_list(shop, costed, period)?;
    match &scenario.prices {
        None => compare_lists(shop, costed, options, period, scenario, &old, &old),
        Some(list) => {
            let new = |design: Id<Design>, day: Day| list.price(shop, design, day).or_else(|| old(design, day));
            compare_lists(shop, costed, options, period, scenario, &old, &new)
        }
    }
}

/// As [`compare`], between any two lists.
///
/// # Errors
/// As [`compare`].
pub(crate) fn compare_lists(
    shop: &Shop,
    costed: &Costed,
    options: Options,
    period: Period,
    scenario: &Scenario,
    old: &impl Listed,
    new: &impl Listed,
) -> Result<Compared, PricingError> {
    let priced = if scenario.costs.is_empty() { shop.clone() } else { with_purchases(shop, Landed::AsBought, &scenario.costs)? };
    let changed = with_prices(priced, old, new)?;
    let recosted = cost_by(&changed, options, costed.learned.clone())?;
    let read = |costed: &Costed| -> Result<Vec<Line>, PricingError> {
        Ok(lines::read(shop, &costed.facts.within(period)?)?.into_iter().map(|(line, _)| line).collect())
    };
    let (mut before, mut after) = (read(costed)?, read(&recosted)?);
    // Other prices may sort an order's lines otherwise: its rows do not change.
    for lines in [&mut before, &mut after] {
        lines.sort_by_key(|line| (line.order, line.kind, line.row));
    }
    let turned_away = too_small(&before, scenario.minimum);
    for line in &mut after {
        *line = left(line, scenario, &turned_away)?;
    }
    let unassigned = (costed.unassigned.within(period), recosted.unassigned.within(period));
    Ok(Compared { before, after, unassigned, turned_away })
}

/// The list that was in force in a period.
///
/// # Errors
/// Where polars fails.
pub(crate) fn old_list<'a>(
    shop: &'a Shop,
    costed: &Costed,
    period: Period,
) -> Result<impl Fn(Id<Design>, Day) -> Option<Price> + use<'a>, PricingError> {
    Ok(list_in_force(shop, &lines::read(shop, &costed.facts.within(period)?)?)?)
}

/// The smallest order worth its set-up at a scenario's prices and costs, of a season's mix: the cost model's answer, as the review and
/// the price list give it. `day` is the one whose list is today's. `None` where nothing was sold at a price or no hours are known.
///
/// # Errors
/// Where polars fails or a figure does not fit.
pub fn smallest_order(
    shop: &Shop,
    costed: &Costed,
    scenario: &Scenario,
    (period, day): (Period, Day),
    target: Money,
) -> Result<Option<Smallest>, PricingError> {
    let season = Season::at_present(shop, costed, Reference { period, day, unassigned: true, costs: &scenario.costs })?;
    let mut list = season.old_price.clone();
    if let Some(prices) = &scenario.prices {
        let starts = prices.first_start().map_or(day, |first| first.max(day));
        for design in shop.designs.all().filter(|design| season.old_price[*design].is_some()) {
            if let Some(price) = prices.price(shop, design, starts) {
                list[design] = Some(price.times(1)?);
            }
        }
    }
    Ok(season.smallest_order(|design| list[design], target)?)
}

/// Orders of fewer pieces than the minimum; those of deliveries alone are none.
fn too_small(lines: &[Line], minimum: Option<i64>) -> BTreeSet<Id<Order>> {
    let Some(minimum) = minimum else { return BTreeSet::new() };
    let mut pieces: BTreeMap<Id<Order>, i128> = BTreeMap::new();
    for line in lines.iter().filter(|line| line.kind == LineKind::Cookie) {
        *pieces.entry(line.order).or_default() += line.pieces;
    }
    pieces.into_iter().filter(|(_, pieces)| *pieces < i128::from(minimum) * MILLION).map(|(order, _)| order).collect()
}

/// A line with what is less taken off it.
fn left(line: &Line, scenario: &Scenario, turned_away: &BTreeSet<Id<Order>>) -> Result<Line, TooLarge> {
    if line.kind == LineKind::DepositKept {
        return Ok(*line);
    }
    let mut line = if turned_away.contains(&line.order) { line.with_fewer_orders(Factor::ZERO)? } else { *line };
    for (of, times) in &scenario.fewer {
        line = match of {
            Of::Design(design) if line.design == Some(*design) => line.with_fewer_pieces(*times)?,
            Of::Tier(tier) if line.kind == LineKind::Cookie && line.tier == Some(*tier) => line.with_fewer_pieces(*times)?,
            Of::Orders => line.with_fewer_orders(*times)?,
            _ => line,
        };
    }
    Ok(line)
}

/// What a row is of, in the order of rows.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
enum Group {
    Order(Id<Order>),
    Tier(Id<Tier>),
    Design(Id<Design>),
    NoTier,
    NoDesign,
    Delivery,
    KeptDeposits,
}

impl Group {
    fn of(line: &Line, by: By) -> Self {
        match (by, line.kind) {
            (By::Order, _) => Self::Order(line.order),
            (_, LineKind::Delivery) => Self::Delivery,
            (_, LineKind::DepositKept) => Self::KeptDeposits,
            (By::Design, LineKind::Cookie) => line.design.map_or(Self::NoDesign, Self::Design),
            (By::Tier, LineKind::Cookie) => line.tier.map_or(Self::NoTier, Self::Tier),
        }
    }

    /// Its key, and its tier.
    fn names(self, shop: &Shop) -> (String, Option<String>) {
        let tier = |tier: Id<Tier>| shop.designs.tiers.text(tier).to_owned();
        match self {
            Self::Order(order) => (shop.orders.ids.text(order).to_owned(), None),
            Self::Tier(of) => (tier(of), Some(tier(of))),
            Self::Design(design) => (shop.designs.names.text(design).to_owned(), shop.designs.tier[design].map(tier)),
            Self::NoTier => ("no tier".to_owned(), None),
            Self::NoDesign => ("no design".to_owned(), None),
            Self::Delivery => ("delivery".to_owned(), None),
            Self::KeptDeposits => ("kept deposits".to_owned(), None),
        }
    }
}

impl WhatIf {
    /// Rows and totals of what was compared.
    ///
    /// # Errors
    /// [`TooLarge`] where a figure does not fit.
    pub fn of(shop: &Shop, compared: &Compared, by: By, period: Period, target: Option<Money>) -> Result<Self, TooLarge> {
        let mut groups: BTreeMap<Group, Both> = BTreeMap::new();
        let mut total = Both::default();
        for (before, after) in compared.before.iter().zip(&compared.after) {
            for both in [groups.entry(Group::of(before, by)).or_default(), &mut total] {
                both.before.add(before);
                both.after.add(after);
            }
        }
        let row = |(group, both): (Group, Both)| {
            let (key, tier) = group.names(shop);
            Ok(Row { key, tier, both: both.against(target)? })
        };
        let all_in = Both { before: total.before.all_in(&compared.unassigned.0), after: total.after.all_in(&compared.unassigned.1) };
        let orders: BTreeSet<Id<Order>> =
            compared.before.iter().filter(|line| line.kind != LineKind::DepositKept).map(|line| line.order).collect();
        Ok(Self {
            by,
            period,
            rows: groups.into_iter().map(row).collect::<Result<_, TooLarge>>()?,
            total: total.against(target)?,
            all_in: all_in.against(target)?,
            orders: orders.len(),
            turned_away: compared.turned_away.len(),
            smallest_order: None,
            target,
        })
    }
}
