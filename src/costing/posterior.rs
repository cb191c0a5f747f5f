//! Pay and minutes of groups of lines in each posterior draw: hours, helper pay and overhead shared by hours are
//! split again by each draw.
//!
//! These are floats, because ranges are estimates; the facts are split once, exactly, by the mean of the draws. A
//! test ties both splits: costing the shop by one draw gives the pay and minutes of that draw here. The sums of a
//! whole order or month do not depend on the draws.

use super::column;
use super::estimated_entry::{EstimatedEntry, float};
use super::facts::{Facts, Figure};
use crate::ids::{Design, Id, Order};
use crate::minutes::observations::Covers;
use crate::minutes::observed::{real, usual_colours, whole};
use crate::minutes::{Draw, Learned};
use crate::quantity::millionths::Money;
use crate::shop::Shop;
use polars::prelude::*;

/// The draws, and the part of each line that does not depend on them.
#[derive(Debug, Clone)]
pub struct Posterior {
    draws: Vec<Draw>,
    entries: Vec<Entry>,
    /// The lines of a month and the overhead they share by hours.
    by_hours: Vec<(Vec<usize>, f64)>,
    /// Each line without its share of the entries and of overhead by hours.
    fixed: Lines,
    known: Vec<bool>,
}

/// An entry's lines, with the minutes and pay divided over them.
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

/// The figures of lines that depend on draws.
#[derive(Debug, Clone)]
struct Lines {
    owner_minutes: Vec<f64>,
    helper_minutes: Vec<f64>,
    owner_pay: Vec<f64>,
}

/// Owner's pay (main units) and minutes of a group in each draw, over lines with known hours.
#[derive(Debug, Clone, Default, PartialEq)]
pub struct DrawSums {
    /// Owner's pay.
    pub pay: Vec<f64>,
    /// Owner's minutes.
    pub minutes: Vec<f64>,
}

/// Most draws used, evenly spaced.
const DRAWS: usize = 400;
/// Fewest draws used: in large shops, whose many lines make the ranges narrow anyway.
const FEWEST_DRAWS: usize = 60;
/// Limit of lines × draws, which bounds the time.
const LINES_TIMES_DRAWS: usize = 20_000_000;

impl Posterior {
    /// Prepares the splits of a shop's facts.
    ///
    /// # Errors
    /// Where polars fails.
    pub fn of(
        shop: &Shop,
        learned: &Learned,
        facts: &Facts,
        estimated: Vec<EstimatedEntry>,
        by_hours: Vec<(Vec<usize>, Money)>,
    ) -> PolarsResult<Self> {
        let floats = |figure: Figure| -> PolarsResult<Vec<f64>> { Ok(facts.figure(figure)?.into_iter().map(real).collect()) };
        let pieces: Vec<f64> = facts.figure(Figure::Pieces)?.into_iter().map(whole).collect();
        let design = facts.values(&column::DESIGN)?;
        let usual = usual_colours(shop);
        let part = |(order, lines): (Id<Order>, Vec<usize>)| Part {
            colours: shop.orders.head(order).colours.map_or(usual, whole),
            pieces: lines.iter().map(|line| pieces[*line]).sum(),
            lines: lines.into_iter().filter_map(|line| Some((line, pieces[line], design[line]?))).collect(),
        };
        let entry = |of: EstimatedEntry| Entry {
            covers: of.covers,
            orders: of.served.into_iter().map(part).collect(),
            owner: of.owner,
            helper: of.helper,
            pay: of.pay,
        };
        let wanted = (LINES_TIMES_DRAWS / pieces.len().max(1)).clamp(FEWEST_DRAWS, DRAWS);
        let step = (learned.draws.len() / wanted).max(1);
        let mut posterior = Self {
            draws: learned.draws.iter().step_by(step).take(wanted).cloned().collect(),
            entries: estimated.into_iter().map(entry).collect(),
            by_hours: by_hours.into_iter().map(|(lines, cost)| (lines, float(cost.0))).collect(),
            fixed: Lines {
                owner_minutes: floats(Figure::OwnerMinutes)?,
                helper_minutes: floats(Figure::HelperMinutes)?,
                owner_pay: floats(Figure::OwnerPay)?,
            },
            known: facts.values(&column::KNOWN)?,
        };
        let mut fixed = posterior.fixed.clone();
        posterior.share_overhead(&mut fixed, 1.0);
        posterior.share_entries(&learned.mean, &mut fixed, -1.0);
        posterior.fixed = fixed;
        Ok(posterior)
    }

    /// Computes the pay and minutes of each group in each draw. `group` gives each line's group (below `groups`) or
    /// none.
    #[must_use]
    pub fn by_group(&self, group: &[Option<usize>], groups: usize) -> Vec<DrawSums> {
        let mut found = vec![DrawSums::default(); groups];
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

    /// Adds (`sign` 1) or subtracts (`sign` −1) the entries' shares of a draw.
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

    /// Adds or subtracts each line's share of overhead by hours.
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
