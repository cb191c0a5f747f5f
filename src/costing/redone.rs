//! What each draw of the learned minutes would make of a line: the split, helper pay and overhead shared by hours redone.
//!
//! These are estimates and floats; the facts themselves are split once, exactly, by the draws' mean. Minutes a piece of
//! an order that all belong to it are the same in every draw: an order's or a month's sums are counted, not estimated.

use super::estimated::{Estimated, float};
use super::facts::{Facts, column};
use crate::ids::{Design, Id, Order};
use crate::minutes::observations::Covers;
use crate::minutes::observed::{real, usual_colours, whole};
use crate::minutes::{Draw, Learned};
use crate::quantity::millionths::Money;
use crate::shop::Shop;
use polars::prelude::*;

/// The draws, and what of each line does not depend on them.
#[derive(Debug, Clone)]
pub struct Redone {
    draws: Vec<Draw>,
    entries: Vec<Entry>,
    /// Lines of a month and the overhead they share by hours.
    by_hours: Vec<(Vec<usize>, f64)>,
    /// Every line without its part of the entries and of overhead by hours.
    fixed: Lines,
    known: Vec<bool>,
}

/// An entry's lines, with what is divided over them.
#[derive(Debug, Clone)]
struct Entry {
    covers: Covers,
    orders: Vec<Part>,
    owner: f64,
    helper: f64,
    pay: f64,
}

/// An order's lines in an entry: their pieces and designs.
#[derive(Debug, Clone)]
struct Part {
    colours: f64,
    pieces: f64,
    lines: Vec<(usize, f64, Id<Design>)>,
}

/// What draws change of lines.
#[derive(Debug, Clone)]
struct Lines {
    owner_minutes: Vec<f64>,
    helper_minutes: Vec<f64>,
    owner_pay: Vec<f64>,
}

/// A group's owner's pay and minutes in each draw, in main units and minutes, over lines with known hours.
#[derive(Debug, Clone, Default, PartialEq)]
pub struct InEachDraw {
    /// Owner's pay.
    pub pay: Vec<f64>,
    /// Owner's minutes.
    pub minutes: Vec<f64>,
}

/// Draws used, evenly from all; in large shops fewer, for their lines are many and their intervals narrow.
const DRAWS: usize = 400;
const FEWEST_DRAWS: usize = 60;
const LINES_TIMES_DRAWS: usize = 20_000_000;

impl Redone {
    /// Of a shop's facts.
    ///
    /// # Errors
    /// Where polars fails.
    pub fn of(
        shop: &Shop,
        learned: &Learned,
        facts: &Facts,
        estimated: Vec<Estimated>,
        by_hours: Vec<(Vec<usize>, Money)>,
    ) -> PolarsResult<Self> {
        let integers = |name: &str| -> PolarsResult<Vec<i64>> {
            Ok(facts.frame().column(name)?.i64()?.iter().map(Option::unwrap_or_default).collect())
        };
        let floats = |name: &str| -> PolarsResult<Vec<f64>> { Ok(integers(name)?.into_iter().map(real).collect()) };
        let pieces: Vec<f64> = integers(column::PIECES)?.into_iter().map(whole).collect();
        let design: Vec<Option<Id<Design>>> =
            facts.frame().column(column::DESIGN)?.u32()?.iter().map(|design| design.map(Id::new)).collect();
        let usual = usual_colours(shop);
        let part = |(order, lines): (Id<Order>, Vec<usize>)| Part {
            colours: shop.orders.head(order).colours.map_or(usual, whole),
            pieces: lines.iter().map(|line| pieces[*line]).sum(),
            lines: lines.into_iter().filter_map(|line| Some((line, pieces[line], design[line]?))).collect(),
        };
        let entry = |of: Estimated| Entry {
            covers: of.covers,
            orders: of.served.into_iter().map(part).collect(),
            owner: of.owner,
            helper: of.helper,
            pay: of.pay,
        };
        let wanted = (LINES_TIMES_DRAWS / pieces.len().max(1)).clamp(FEWEST_DRAWS, DRAWS);
        let step = (learned.draws.len() / wanted).max(1);
        let mut redone = Self {
            draws: learned.draws.iter().step_by(step).take(wanted).cloned().collect(),
            entries: estimated.into_iter().map(entry).collect(),
            by_hours: by_hours.into_iter().map(|(lines, cost)| (lines, float(cost.0))).collect(),
            fixed: Lines {
                owner_minutes: floats(column::OWNER_MINUTES)?,
                helper_minutes: floats(column::HELPER_MINUTES)?,
                owner_pay: floats(column::OWNER_PAY)?,
            },
            known: facts.frame().column(column::KNOWN)?.bool()?.iter().map(Option::unwrap_or_default).collect(),
        };
        let mut fixed = redone.fixed.clone();
        redone.share_overhead(&mut fixed, 1.0);
        redone.share_entries(&learned.mean, &mut fixed, -1.0);
        redone.fixed = fixed;
        Ok(redone)
    }

    /// Each group's pay and minutes in each draw. `group` gives each line's group, below `groups`, or none.
    #[must_use]
    pub fn by_group(&self, group: &[Option<usize>], groups: usize) -> Vec<InEachDraw> {
        let mut found = vec![InEachDraw::default(); groups];
        for draw in &self.draws {
            let mut lines = self.fixed.clone();
            self.share_entries(draw, &mut lines, 1.0);
            self.share_overhead(&mut lines, -1.0);
            let mut sums = vec![(0.0, 0.0); groups];
            for (line, group) in group.iter().enumerate().filter(|(line, _)| self.known[*line]) {
                if let Some(group) = group {
                    sums[*group].0 += lines.owner_pay[line];
                    sums[*group].1 += lines.owner_minutes[line];
                }
            }
            for (found, (pay, minutes)) in found.iter_mut().zip(sums) {
                found.pay.push(pay);
                found.minutes.push(minutes);
            }
        }
        found
    }

    /// Adds to the lines, or takes from them, what entries bring under a draw.
    fn share_entries(&self, draw: &Draw, lines: &mut Lines, sign: f64) {
        let mut weights: Vec<(usize, f64)> = Vec::new();
        for entry in &self.entries {
            let shares = Learned::shares(draw, entry.covers);
            weights.clear();
            for part in &entry.orders {
                let whole = shares.handling + (shares.set_up + shares.colour * part.colours) / part.pieces;
                weights.extend(part.lines.iter().map(|(line, pieces, design)| (*line, pieces * (draw.each[*design] + whole))));
            }
            let total: f64 = weights.iter().map(|(_, weight)| weight).sum();
            for (line, weight) in &weights {
                let share = sign * weight / total;
                lines.owner_minutes[*line] += share * entry.owner;
                lines.helper_minutes[*line] += share * entry.helper;
                lines.owner_pay[*line] -= share * entry.pay;
            }
        }
    }

    /// Adds to the lines' pay, or takes from it, overhead shared by hours.
    fn share_overhead(&self, lines: &mut Lines, sign: f64) {
        let hands_on = |lines: &Lines, line: usize| lines.owner_minutes[line] + lines.helper_minutes[line];
        for (members, cost) in &self.by_hours {
            let total: f64 = members.iter().map(|line| hands_on(lines, *line)).sum();
            for line in members.iter().filter(|_| total > 0.0) {
                lines.owner_pay[*line] += sign * cost * hands_on(lines, *line) / total;
            }
        }
    }
}
