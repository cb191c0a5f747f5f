//! Overheads: each accrues evenly by day, and a month's part is shared over the lines handed over in that month.

use super::labour::Labour;
use super::lines::{LineKind, Lines};
use super::sharing::{self, HandOvers, add};
use super::unassigned::{Source, Unassigned, UnassignedLog};
use crate::period::logs;
use crate::quantity::millionths::Money;
use crate::quantity::{Month, TooLarge, share};
use crate::shop::Shop;
use crate::shop::overheads::Base;
use std::collections::BTreeMap;

/// Overhead of months outside the logs, by month and by what it is for.
pub(crate) type Outside = BTreeMap<(Month, String), Money>;

/// Overhead of each line, and what lies outside the logs.
#[derive(Debug, Default)]
pub(crate) struct Overheads {
    /// Millionths of the main unit.
    pub overhead: Vec<i64>,
    /// Cost of the months after the logs' last.
    pub prepaid: Outside,
    /// Cost of the months before the logs' first.
    pub earlier: Outside,
    /// Costs shared by hours: the lines of a month and the cost.
    pub by_hours: Vec<(Vec<usize>, Money)>,
}

impl Overheads {
    /// Computes the overhead of each line, in the order of `lines`.
    ///
    /// # Errors
    /// [`TooLarge`] where a sum does not fit.
    pub fn of(shop: &Shop, lines: &Lines, revenue: &[i64], labour: &Labour, unassigned: &mut UnassignedLog) -> Result<Self, TooLarge> {
        let mut overheads = Self { overhead: lines.zeros(), ..Self::default() };
        let logs = logs(shop).map(|(first, last)| (first.month(), last.month()));
        let hand_overs = HandOvers::of(&lines.spans);
        for ((month, base), costs) in accrued(shop)? {
            let outside = match logs {
                Some((first, _)) if month < first => Some(&mut overheads.earlier),
                Some((_, last)) if month <= last => None,
                _ => Some(&mut overheads.prepaid),
            };
            if let Some(outside) = outside {
                for (what, cost) in costs {
                    *outside.entry((month, what.to_owned())).or_default() += Money(cost);
                }
                continue;
            }
            let cost = costs.values().sum();
            let spans = hand_overs.within(month.first(), month.last());
            match shared(cost, base, &spans, lines, revenue, labour)? {
                Some(parts) => {
                    if base == Base::Hours {
                        overheads.by_hours.push((parts.iter().map(|(line, _)| *line).collect(), Money(cost)));
                    }
                    for (line, part) in parts {
                        add(&mut overheads.overhead, line, part)?;
                    }
                }
                None => {
                    for (what, cost) in costs {
                        let amount = Unassigned { overhead: Money(cost), ..Unassigned::default() };
                        unassigned.note(month.first(), Source::Overhead(what.to_owned()), amount);
                    }
                }
            }
        }
        Ok(overheads)
    }
}

/// Computes each month's cost by base and by what it is for, in millionths: cost × its days in the month ÷ all its
/// days.
fn accrued(shop: &Shop) -> Result<BTreeMap<(Month, Base), BTreeMap<&str, i128>>, TooLarge> {
    let mut accrued = BTreeMap::<_, BTreeMap<&str, i128>>::new();
    for overhead in &shop.overheads {
        let mut months = Vec::new();
        let mut days = Vec::new();
        let mut month = overhead.from.month();
        while month.first() <= overhead.to {
            let (from, to) = (month.first().max(overhead.from), month.last().min(overhead.to));
            months.push(month);
            days.push(i128::from(to.0 - from.0 + 1));
            month = month.next();
        }
        let parts = share::by_weight(i128::from(overhead.paid), &days)?.unwrap_or_default();
        for (month, part) in months.into_iter().zip(parts) {
            *accrued.entry((month, overhead.base)).or_default().entry(&overhead.what).or_default() += part;
        }
    }
    Ok(accrued)
}

fn shared(
    cost: i128,
    base: Base,
    spans: &[usize],
    lines: &Lines,
    revenue: &[i64],
    labour: &Labour,
) -> Result<Option<sharing::Parts>, TooLarge> {
    let members: Vec<usize> = spans.iter().flat_map(|span| lines.spans[*span].lines()).collect();
    let weights: Vec<i128> = match base {
        Base::Hours => members.iter().map(|line| labour.hands_on(*line)).collect(),
        Base::Revenue => members.iter().map(|line| i128::from(revenue[*line]).max(0)).collect(),
        Base::Pieces => members.iter().map(|line| i128::from(lines.pieces[*line])).collect(),
        Base::Orders => {
            let orders = spans.iter().map(|span| lines.spans[*span].cookies.clone()).filter(|cookies| !cookies.is_empty());
            let orders: Vec<(Vec<usize>, i128)> = orders.map(|cookies| (cookies.collect(), 1)).collect();
            return sharing::by_order(cost, &orders, lines);
        }
    };
    debug_assert!(members.iter().all(|line| lines.kind[*line] != LineKind::DepositKept));
    sharing::by_weights(cost, &members, &weights)
}
