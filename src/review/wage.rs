//! The wage table: what each design, tier, order, month … cost and paid an hour, with totals that equal the logs.

use super::certainty::Interval;
use super::row::{Judge, Row, all_in};
use super::sums::{self, Sums};
use crate::costing::facts::{Facts, column};
use crate::costing::redone::InEachDraw;
use crate::costing::{Costed, unassigned::Unassigned};
use crate::quantity::millionths::Money;
use crate::quantity::{Day, Month, Period};
use crate::reading::Name;
use crate::shop::Shop;
use crate::shop::orders::Status;
use polars::prelude::*;
use std::collections::{BTreeMap, BTreeSet};

/// What rows are of.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum By {
    /// A design.
    Design,
    /// A tier.
    Tier,
    /// An order.
    Order,
    /// A month of hand-over.
    Month,
    /// A theme.
    Theme,
    /// A channel.
    Channel,
    /// Pieces in the order.
    OrderSize,
    /// Colours in the order.
    Colours,
}

impl By {
    /// All of them.
    pub const ALL: [Self; 8] =
        [Self::Design, Self::Tier, Self::Order, Self::Month, Self::Theme, Self::Channel, Self::OrderSize, Self::Colours];

    /// The word for it.
    #[must_use]
    pub fn word(self) -> &'static str {
        match self {
            Self::Design => "design",
            Self::Tier => "tier",
            Self::Order => "order",
            Self::Month => "month",
            Self::Theme => "theme",
            Self::Channel => "channel",
            Self::OrderSize => "order-size",
            Self::Colours => "colours",
        }
    }
}

/// The row of delivery lines, by design and by tier.
pub const DELIVERY: &str = "delivery";
/// The row of kept deposits.
pub const KEPT_DEPOSITS: &str = "kept deposits";

/// Keys below nil: lines that have no key of their own.
const OF_DELIVERY: i64 = -1;
const OF_DEPOSITS: i64 = -2;
const NONE: i64 = -3;
const NO_PIECES: i64 = -4;

/// A question over the facts.
#[derive(Debug, Clone, Copy)]
pub struct Question {
    /// What rows are of.
    pub by: By,
    /// Which lines.
    pub period: Period,
}

/// Orders of the period that were not handed over.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub struct LeftOut {
    /// Only asked for.
    pub quoted: usize,
    /// Called off.
    pub cancelled: usize,
}

/// The answer.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct WageTable {
    /// What rows are of.
    pub by: By,
    /// Which lines.
    pub period: Period,
    /// The rows, by key.
    pub rows: Vec<Row>,
    /// Their sum.
    pub total: Row,
    /// With what is unassigned: the headline.
    pub all_in: Row,
    /// What no line carries.
    pub unassigned: Unassigned,
    /// Overhead ahead of the logs.
    pub prepaid: Money,
    /// Orders not handed over.
    pub left_out: LeftOut,
}

impl WageTable {
    /// Answers a question.
    ///
    /// # Errors
    /// Where polars fails.
    pub fn of(shop: &Shop, costed: &Costed, question: Question) -> PolarsResult<Self> {
        let facts = costed.facts.within(question.period)?;
        let judge = Judge { target: shop.settings.target, minutes_from: costed.minutes_from };
        let draws = in_each_draw(costed, question)?;
        let groups = sums::by_key(&facts, key(question.by))?;
        let whole = sums::whole(&facts)?;
        let mut total = Sums { orders: whole.orders, known_orders: whole.known_orders, ..Sums::default() };
        for (_, sums) in &groups {
            total += sums;
        }
        let mut rows: Vec<Row> = groups
            .iter()
            .map(|(key, sums)| {
                let (name, tier) = name(shop, &facts, question.by, *key);
                let mut row = judge.row(name, tier, sums);
                row.interval = draws.get(key).and_then(|draws| Interval::of(draws, row.verdict, judge.target));
                if let (By::Design, Ok(design)) = (question.by, usize::try_from(*key)) {
                    row.minutes_from = costed.minutes_from_of[design];
                }
                row
            })
            .collect();
        if matches!(question.by, By::Theme | By::Channel) {
            rows.sort_by(|one, other| one.key.cmp(&other.key));
        }
        let unassigned = costed.unassigned.within(question.period);
        let prepaid = costed.prepaid.iter().filter(|(month, _)| question.period.holds(month.first())).map(|(_, cost)| *cost).sum();
        Ok(Self {
            by: question.by,
            period: question.period,
            rows,
            total: judge.row("total".to_owned(), None, &total),
            all_in: judge.row("all in".to_owned(), None, &all_in(total, &unassigned)),
            unassigned,
            prepaid,
            left_out: left_out(shop, question.period),
        })
    }
}

/// Each group's pay and minutes in each draw of the learned minutes. Orders and months, and what is told of whole orders,
/// are counted from the logs and not estimated: they have none.
fn in_each_draw(costed: &Costed, question: Question) -> PolarsResult<BTreeMap<i64, InEachDraw>> {
    let is_estimated = matches!(question.by, By::Design | By::Tier | By::Theme);
    let Some(redone) = costed.redone.as_ref().filter(|_| is_estimated) else { return Ok(BTreeMap::new()) };
    let key = key(question.by).cast(DataType::Int64).alias("key");
    let frame = costed.facts.frame().clone().lazy().select([key, col(column::DAY), col(column::PIECES)]).collect()?;
    let (keys, days, pieces) = (frame.column("key")?.i64()?, frame.column(column::DAY)?.i32()?, frame.column(column::PIECES)?.i64()?);
    let within = |day: Option<i32>| day.is_some_and(|day| question.period.holds(Day(day)));
    let lines: Vec<(Option<i64>, bool)> = keys
        .iter()
        .zip(days.iter())
        .zip(pieces.iter())
        .map(|((key, day), pieces)| (key.filter(|_| within(day)), pieces.is_some_and(|pieces| pieces > 0)))
        .collect();
    // Deliveries and kept deposits are counted: a group of nothing else has no range, but they are part of a theme's.
    let asked: BTreeSet<i64> = lines.iter().filter(|(_, has_pieces)| *has_pieces).filter_map(|(key, _)| *key).collect();
    let asked: Vec<i64> = asked.into_iter().collect();
    let group: Vec<Option<usize>> = lines.into_iter().map(|(key, _)| asked.binary_search(&key?).ok()).collect();
    let draws = redone.by_group(&group, asked.len());
    Ok(asked.into_iter().zip(draws).collect())
}

/// How rows are ordered; those of deliveries and kept deposits stay last.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Sort {
    /// By name, size or date.
    Key,
    /// Lowest hourly pay first.
    Wage,
    /// Farthest below the target first.
    Surplus,
    /// Most pieces first.
    Pieces,
    /// Highest revenue first.
    Revenue,
    /// Most hours first.
    Hours,
}

impl Sort {
    /// All of them.
    pub const ALL: [Self; 6] = [Self::Key, Self::Wage, Self::Surplus, Self::Pieces, Self::Revenue, Self::Hours];

    /// The word for it, and what it means.
    #[must_use]
    pub fn words(self) -> (&'static str, &'static str) {
        match self {
            Self::Key => ("key", "By name, size or date"),
            Self::Wage => ("wage", "Lowest hourly pay first"),
            Self::Surplus => ("surplus", "Farthest below the target first"),
            Self::Pieces => ("pieces", "Most pieces first"),
            Self::Revenue => ("revenue", "Highest revenue first"),
            Self::Hours => ("hours", "Most hours first"),
        }
    }
}

impl WageTable {
    /// Orders the rows.
    pub fn sort(&mut self, sort: Sort) {
        let last = Self::is_beside;
        match sort {
            Sort::Key => self.rows.sort_by_key(last),
            Sort::Wage => self.rows.sort_by_key(|row| (last(row), row.wage_per_hour.is_none(), row.wage_per_hour)),
            Sort::Surplus => self.rows.sort_by_key(|row| (last(row), row.known.surplus().is_none(), row.known.surplus())),
            Sort::Pieces => self.rows.sort_by_key(|row| (last(row), -row.pieces)),
            Sort::Revenue => self.rows.sort_by_key(|row| (last(row), -row.revenue)),
            Sort::Hours => self.rows.sort_by_key(|row| (last(row), -row.owner_minutes)),
        }
    }

    /// Whether a row is of deliveries or kept deposits, not of cookies.
    #[must_use]
    pub fn is_beside(row: &Row) -> bool {
        row.pieces == 0 && matches!(row.key.as_str(), DELIVERY | KEPT_DEPOSITS)
    }
}

/// Each line's key, as a number.
fn key(by: By) -> Expr {
    let wide = |name: &str| col(name).cast(DataType::Int64);
    let or_none = |name: &str| wide(name).fill_null(lit(NONE));
    let deposits_apart = |key: Expr| when(col(column::KIND).eq(lit(2_u32))).then(lit(OF_DEPOSITS)).otherwise(key);
    let lines_apart = |key: Expr| deposits_apart(when(col(column::KIND).eq(lit(1_u32))).then(lit(OF_DELIVERY)).otherwise(key));
    match by {
        By::Design => lines_apart(or_none(column::DESIGN)),
        By::Tier => lines_apart(or_none(column::TIER)),
        By::Order => wide(column::ORDER),
        By::Month => wide(column::MONTH),
        By::Theme => deposits_apart(or_none(column::THEME)),
        By::Channel => or_none(column::CHANNEL),
        By::Colours => deposits_apart(or_none(column::COLOURS)),
        By::OrderSize => {
            let pieces = || col(column::ORDER_PIECES);
            let mut size = lit(i64::try_from(SIZES.len() - 1).unwrap_or_default());
            for (at, (most, _)) in SIZES.iter().enumerate().rev().skip(1) {
                size = when(pieces().lt_eq(lit(*most))).then(lit(i64::try_from(at).unwrap_or_default())).otherwise(size);
            }
            deposits_apart(when(pieces().eq(lit(0_i64))).then(lit(NO_PIECES)).otherwise(size))
        }
    }
}

/// Order sizes: the most pieces of each, and its name.
pub const SIZES: &[(i64, &str)] = &[(12, "1–12"), (24, "13–24"), (36, "25–36"), (48, "37–48"), (i64::MAX, "49+")];

/// The name of a key, and the tier of a design or a tier.
fn name(shop: &Shop, facts: &Facts, by: By, key: i64) -> (String, Option<String>) {
    match key {
        OF_DELIVERY => return (DELIVERY.to_owned(), None),
        OF_DEPOSITS => return (KEPT_DEPOSITS.to_owned(), None),
        NO_PIECES => return ("0".to_owned(), None),
        NONE => {
            let name = match by {
                By::Tier => "no tier",
                By::Theme => "no theme",
                By::Channel => "no channel",
                _ => "not logged",
            };
            return (name.to_owned(), None);
        }
        _ => {}
    }
    let at = usize::try_from(key).unwrap_or_default();
    let number = Name(u32::try_from(key).unwrap_or_default());
    let tier_name = |tier| shop.designs.tiers.text(tier).to_owned();
    match by {
        By::Design => (shop.designs.names.text(number).to_owned(), shop.designs.tier[at].map(tier_name)),
        By::Tier => (tier_name(number), Some(tier_name(number))),
        By::Order => (shop.orders.ids.text(number).to_owned(), None),
        By::Month => (Month(i32::try_from(key).unwrap_or_default()).to_string(), None),
        By::Theme => (facts.themes.get(at).cloned().unwrap_or_default(), None),
        By::Channel => (shop.orders.channels.text(number).to_owned(), None),
        By::Colours => (key.to_string(), None),
        By::OrderSize => (SIZES.get(at).map_or("", |(_, name)| name).to_owned(), None),
    }
}

fn left_out(shop: &Shop, period: Period) -> LeftOut {
    let heads = || shop.orders.heads.iter().filter(|head| period.holds(head.day));
    LeftOut {
        quoted: heads().filter(|head| head.status == Status::Quoted).count(),
        cancelled: heads().filter(|head| head.status == Status::Cancelled).count(),
    }
}
