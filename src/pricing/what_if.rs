//! Past orders at other prices, costs, minimums or volumes, beside what happened.
//!
//! Prices and costs are changed in the shop's own tables and the shop is costed again, by the same minutes; volumes and
//! minimums are taken off the lines after that. Overhead and what no order explains stay as they were. Nothing changed
//! gives the facts back to the last digit.

use super::at_prices::{Landed, Listed, list_in_force, with_prices, with_purchases};
use super::change::Times;
pub use super::figures::{Both, Figures};
use super::lines::{self, Kind, Line};
use crate::costing::unassigned::Unassigned;
use crate::costing::{Costed, Options, cost_by};
use crate::ids::{Design, Id, Item, Order, Tier};
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

/// What is other than it was.
#[derive(Debug, Default)]
pub struct Other {
    /// Another price list.
    pub prices: Option<PriceFile>,
    /// Other landed prices, by item.
    pub costs: BTreeMap<Id<Item>, Times>,
    /// What is left of what there is less of.
    pub fewer: Vec<(Of, Times)>,
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
    /// With what no order explains: the headline.
    pub all_in: Both,
    /// Orders handed over.
    pub orders: usize,
    /// Of these, how many the minimum would turn away.
    pub turned_away: usize,
    /// The wage aimed at.
    pub target: Option<Money>,
}

/// The lines of a period before and after, in one order, with what no order explains.
#[derive(Debug, Clone)]
pub struct Compared {
    /// As they were.
    pub before: Vec<Line>,
    /// As they would have been.
    pub after: Vec<Line>,
    /// What no order explains, before and after.
    pub unassigned: (Unassigned, Unassigned),
    /// Orders turned away.
    pub turned_away: BTreeSet<Id<Order>>,
}

/// Asks what would have been.
///
/// # Errors
/// Where polars fails or a figure does not fit.
pub fn compare(shop: &Shop, costed: &Costed, options: Options, period: Period, other: &Other) -> Result<Compared, String> {
    let old = old_list(shop, costed, period)?;
    match &other.prices {
        None => compare_lists(shop, costed, options, period, other, &old, &old),
        Some(list) => {
            let new = |design: Id<Design>, day: Day| list.price(shop, design, day).or_else(|| old(design, day));
            compare_lists(shop, costed, options, period, other, &old, &new)
        }
    }
}

/// As [`compare`], between any two lists.
///
/// # Errors
/// As [`compare`].
pub fn compare_lists(
    shop: &Shop,
    costed: &Costed,
    options: Options,
    period: Period,
    other: &Other,
    old: &impl Listed,
    new: &impl Listed,
) -> Result<Compared, String> {
    let told = |error: TooLarge| error.to_string();
    let priced = if other.costs.is_empty() { shop.clone() } else { with_purchases(shop, Landed::AsBought, &other.costs).map_err(told)? };
    let changed = with_prices(priced, old, new).map_err(told)?;
    let recosted = cost_by(&changed, options, costed.learned.clone()).map_err(told)?;
    let read = |costed: &Costed| -> Result<Vec<Line>, String> {
        let facts = costed.facts.within(period).map_err(|error| error.to_string())?;
        Ok(lines::read(shop, &facts).map_err(|error| error.to_string())?.into_iter().map(|(line, _)| line).collect())
    };
    let (mut before, mut after) = (read(costed)?, read(&recosted)?);
    // Other prices may sort an order's lines otherwise: its rows do not change.
    for lines in [&mut before, &mut after] {
        lines.sort_by_key(|line| (line.order, line.kind, line.row));
    }
    let turned_away = too_small(&before, other.minimum);
    for line in &mut after {
        *line = left(line, other, &turned_away).map_err(told)?;
    }
    let unassigned = (costed.unassigned.within(period), recosted.unassigned.within(period));
    Ok(Compared { before, after, unassigned, turned_away })
}

/// The list that was in force in a period.
///
/// # Errors
/// Where polars fails.
pub fn old_list<'a>(
    shop: &'a Shop,
    costed: &Costed,
    period: Period,
) -> Result<impl Fn(Id<Design>, Day) -> Option<Price> + use<'a>, String> {
    let facts = costed.facts.within(period).map_err(|error| error.to_string())?;
    let lines = lines::read(shop, &facts).map_err(|error| error.to_string())?;
    Ok(list_in_force(shop, &lines))
}

/// Orders of fewer pieces than the minimum; those of deliveries alone are none.
fn too_small(lines: &[Line], minimum: Option<i64>) -> BTreeSet<Id<Order>> {
    let Some(minimum) = minimum else { return BTreeSet::new() };
    let mut pieces: BTreeMap<Id<Order>, i128> = BTreeMap::new();
    for line in lines.iter().filter(|line| line.kind == Kind::Cookie) {
        *pieces.entry(line.order).or_default() += line.pieces;
    }
    pieces.into_iter().filter(|(_, pieces)| *pieces < i128::from(minimum) * MILLION).map(|(order, _)| order).collect()
}

/// A line with what is less taken off it.
fn left(line: &Line, other: &Other, turned_away: &BTreeSet<Id<Order>>) -> Result<Line, TooLarge> {
    if line.kind == Kind::DepositKept {
        return Ok(*line);
    }
    let mut line = if turned_away.contains(&line.order) { line.with_fewer_orders(Times::NIL)? } else { *line };
    for (of, times) in &other.fewer {
        line = match of {
            Of::Design(design) if line.design == Some(*design) => line.with_fewer_pieces(*times)?,
            Of::Tier(tier) if line.kind == Kind::Cookie && line.tier == Some(*tier) => line.with_fewer_pieces(*times)?,
            Of::Orders => line.with_fewer_orders(*times)?,
            _ => line,
        };
    }
    Ok(line)
}

impl WhatIf {
    /// Rows and totals of what was compared.
    #[must_use]
    pub fn of(shop: &Shop, compared: &Compared, by: By, period: Period, target: Option<Money>) -> Self {
        let mut groups: BTreeMap<(u8, u32), Both> = BTreeMap::new();
        let mut total = Both::default();
        for (before, after) in compared.before.iter().zip(&compared.after) {
            let both = groups.entry(group(before, by)).or_default();
            both.before.add(before);
            both.after.add(after);
            total.before.add(before);
            total.after.add(after);
        }
        let rows = groups.into_iter().map(|((part, at), both)| {
            let (key, tier) = named(shop, by, part, at);
            Row { key, tier, both }
        });
        let orders: BTreeSet<Id<Order>> =
            compared.before.iter().filter(|line| line.kind != Kind::DepositKept).map(|line| line.order).collect();
        Self {
            by,
            period,
            rows: rows.collect(),
            total,
            all_in: Both { before: total.before.all_in(&compared.unassigned.0), after: total.after.all_in(&compared.unassigned.1) },
            orders: orders.len(),
            turned_away: compared.turned_away.len(),
            target,
        }
    }
}

/// A line's group: named ones first, then those of none, deliveries, kept deposits.
fn group(line: &Line, by: By) -> (u8, u32) {
    match (by, line.kind) {
        (By::Order, _) => (0, line.order.number()),
        (_, Kind::Delivery) => (2, 0),
        (_, Kind::DepositKept) => (3, 0),
        (By::Design, Kind::Cookie) => line.design.map_or((1, 0), |design| (0, design.number())),
        (By::Tier, Kind::Cookie) => line.tier.map_or((1, 0), |tier| (0, tier.number())),
    }
}

fn named(shop: &Shop, by: By, part: u8, at: u32) -> (String, Option<String>) {
    match (part, by) {
        (0, By::Order) => (shop.orders.ids.text(Id::new(at)).to_owned(), None),
        (0, By::Design) => {
            let tier = shop.designs.tier[Id::new(at)].map(|tier| shop.designs.tiers.text(tier).to_owned());
            (shop.designs.names.text(Id::new(at)).to_owned(), tier)
        }
        (0, By::Tier) => (shop.designs.tiers.text(Id::new(at)).to_owned(), Some(shop.designs.tiers.text(Id::new(at)).to_owned())),
        (1, _) => (if by == By::Tier { "no tier" } else { "no design" }.to_owned(), None),
        (2, _) => ("delivery".to_owned(), None),
        _ => ("kept deposits".to_owned(), None),
    }
}
