//! The wage table: what each design, tier, order or month cost and paid per hour, with totals that equal the logs.

use super::certainty::Interval;
use super::key::{By, Key};
use super::lacking::lacking;
use super::row::{Judge, Row};
use super::sums::{self, Sums};
use super::untied::{Untied, untied};
use crate::costing::column;
use crate::costing::facts::{Facts, Figure};
use crate::costing::lines::LineKind;
use crate::costing::overheads::Outside;
use crate::costing::posterior::DrawSums;
use crate::costing::{Costed, CostingError, unassigned::Unassigned};
use crate::ids::{Id, Order};
use crate::quantity::Period;
use crate::quantity::millionths::Money;
use crate::shop::Shop;
use crate::shop::orders::Status;
use polars::prelude::PolarsResult;
use std::collections::{BTreeMap, BTreeSet};

/// A question over the facts.
#[derive(Debug, Clone, Copy)]
pub struct Question {
    /// What rows are grouped by.
    pub by: By,
    /// The days of hand-over.
    pub period: Period,
}

/// Numbers of orders of the period that were not handed over.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub struct LeftOut {
    /// Quoted.
    pub quoted: usize,
    /// Cancelled.
    pub cancelled: usize,
}

/// The answer to a question.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct WageTable {
    /// What rows are grouped by.
    pub by: By,
    /// The days of hand-over.
    pub period: Period,
    /// The rows, by key.
    pub rows: Vec<Row>,
    /// Their sum.
    pub total: Row,
    /// Their sum with what is unassigned: the headline.
    pub all_in: Row,
    /// Unassigned hours and costs.
    pub unassigned: Unassigned,
    /// Unassigned hours and costs by what they are for.
    pub untied: Vec<Untied>,
    /// Overhead of months after the logs' last.
    pub prepaid: Money,
    /// Overhead of months before the logs' first.
    pub earlier: Money,
    /// Orders not handed over.
    pub left_out: LeftOut,
    /// Number of cancelled orders whose kept deposits are among the rows.
    pub deposits_kept: i64,
}

impl WageTable {
    /// Answers a question.
    ///
    /// # Errors
    /// Where polars fails, or a figure does not fit.
    pub fn of(shop: &Shop, costed: &Costed, question: Question) -> Result<Self, CostingError> {
        let facts = costed.facts.within(question.period)?;
        let judge = Judge { target: shop.settings.target, minutes_from: costed.minutes_from };
        let draws = in_each_draw(costed, question)?;
        let groups = sums::by_key(&facts, question.by)?;
        let total = sums::whole(&facts)?;
        let lacking = if question.by == By::Order { lacking(shop, costed, question.period)? } else { Vec::new() };
        let row = |(key, sums): (&Key, &Sums)| -> Result<Row, CostingError> {
            let mut row = judge.row(key.name(shop, &facts, question.by), key.tier(shop), sums)?;
            row.group = Some(*key);
            row.interval = draws.get(key).and_then(|draws| Interval::of(draws, row.verdict, judge.target));
            match key {
                Key::Design(design) => row.minutes_from = costed.minutes_from_of[*design],
                Key::Order(order) => row.lacking = lacking.iter().find(|of| of.order == *order).cloned(),
                _ => {}
            }
            Ok(row)
        };
        let mut rows = groups.iter().map(row).collect::<Result<Vec<Row>, CostingError>>()?;
        if matches!(question.by, By::Theme | By::Channel) {
            rows.sort_by(|one, other| one.key.cmp(&other.key));
        }
        let unassigned = costed.unassigned.within(question.period);
        let outside =
            |costs: &Outside| costs.iter().filter(|((month, _), _)| question.period.holds(month.first())).map(|(_, cost)| *cost).sum();
        Ok(Self {
            by: question.by,
            period: question.period,
            rows,
            total: judge.row("total".to_owned(), None, &total)?,
            all_in: judge.row("all in".to_owned(), None, &total.all_in(&unassigned))?,
            unassigned,
            untied: untied(shop, costed, question.period),
            prepaid: outside(&costed.prepaid),
            earlier: outside(&costed.earlier),
            left_out: left_out(shop, question.period),
            deposits_kept: orders_of_deposits(&facts)?,
        })
    }
}

/// Computes each group's pay and minutes in each posterior draw, for designs, tiers and themes. The other groupings
/// are counted from the logs, not estimated, and have none.
fn in_each_draw(costed: &Costed, question: Question) -> PolarsResult<BTreeMap<Key, DrawSums>> {
    let is_estimated = matches!(question.by, By::Design | By::Tier | By::Theme);
    let Some(posterior) = costed.posterior.as_ref().filter(|_| is_estimated) else { return Ok(BTreeMap::new()) };
    let (keys, days) = (question.by.of_lines(&costed.facts)?, costed.facts.values(&column::DAY)?);
    let keys: Vec<Option<Key>> = keys.into_iter().zip(days).map(|(key, day)| question.period.holds(day).then_some(key)).collect();
    // Deliveries and kept deposits are counted: a group of only these has no range, but they are part of a theme's.
    let pieces = costed.facts.figure(Figure::Pieces)?;
    let asked: BTreeSet<Key> = keys.iter().zip(pieces).filter(|(_, pieces)| *pieces > 0).filter_map(|(key, _)| *key).collect();
    let asked: Vec<Key> = asked.into_iter().collect();
    let group: Vec<Option<usize>> = keys.into_iter().map(|key| asked.binary_search(&key?).ok()).collect();
    let draws = posterior.by_group(&group, asked.len());
    Ok(asked.into_iter().zip(draws).collect())
}

/// Order of rows; those of deliveries and kept deposits stay last.
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
    /// All orders.
    pub const ALL: [Self; 6] = [Self::Key, Self::Wage, Self::Surplus, Self::Pieces, Self::Revenue, Self::Hours];

    /// Returns its name on the command line, and its help.
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
    /// Sorts the rows.
    pub fn sort(&mut self, sort: Sort) {
        let last = Row::has_no_cookies;
        match sort {
            Sort::Key => self.rows.sort_by_key(last),
            Sort::Wage => self.rows.sort_by_key(|row| (last(row), row.wage_per_hour.is_none(), row.wage_per_hour)),
            Sort::Surplus => self.rows.sort_by_key(|row| (last(row), row.known.surplus().is_none(), row.known.surplus())),
            Sort::Pieces => self.rows.sort_by_key(|row| (last(row), -row.pieces)),
            Sort::Revenue => self.rows.sort_by_key(|row| (last(row), -row.revenue)),
            Sort::Hours => self.rows.sort_by_key(|row| (last(row), -row.owner_minutes)),
        }
    }
}

fn orders_of_deposits(facts: &Facts) -> PolarsResult<i64> {
    let lines = facts.values(&column::KIND)?.into_iter().zip(facts.values(&column::ORDER)?);
    let orders: BTreeSet<Id<Order>> = lines.filter(|(kind, _)| *kind == LineKind::DepositKept).map(|(_, order)| order).collect();
    Ok(i64::try_from(orders.len()).unwrap_or(i64::MAX))
}

fn left_out(shop: &Shop, period: Period) -> LeftOut {
    let heads = || shop.orders.heads.iter().filter(|head| period.holds(head.day));
    LeftOut {
        quoted: heads().filter(|head| head.status == Status::Quoted).count(),
        cancelled: heads().filter(|head| head.status == Status::Cancelled).count(),
    }
}
