//! What stands out in a next price list: tiers that stay short, designs that pay for others, and what is collected beside the list.

use super::next_list::{DesignRow, NextList, TierRow};
use crate::quantity::millionths::Share;
use crate::quantity::millionths::{MILLION, Money};

/// Tenths of the least paid design's pay that the best paid one of its tier may reach before it stands out.
const UNEVEN: i128 = 15;
/// Shares of list value collected below and above which orders are not priced by the list.
const USUAL: (Share, Share) = (Money(MILLION * 85 / 100), Money(MILLION * 105 / 100));
/// Factor the mean order that a minimum order may be, to be worth naming.
const MOST_MEANS: i128 = 3;

/// A tier in which some designs pay for others: its best paid and its least paid design with their wages.
#[derive(Debug, Clone, Copy)]
pub(crate) struct Uneven<'a> {
    /// The tier.
    pub tier: &'a TierRow,
    /// The best paid design.
    pub best: (&'a DesignRow, Money),
    /// The least paid one.
    pub worst: (&'a DesignRow, Money),
}

impl NextList {
    /// Tiers that a cap keeps short of the target.
    pub(crate) fn short_tiers(&self) -> impl Iterator<Item = &TierRow> {
        self.tiers.iter().filter(|tier| tier.short > Money::ZERO)
    }

    /// Whether every tier pays the target and every design the floor.
    #[must_use]
    pub(crate) fn reaches_target(&self) -> bool {
        self.short_tiers().next().is_none() && self.rows.iter().all(|row| !row.under_floor)
    }

    /// The designs of a tier of the list.
    pub(crate) fn designs_of<'a>(&'a self, tier: &'a TierRow) -> impl Iterator<Item = &'a DesignRow> {
        self.rows.iter().filter(|row| row.new_tier == tier.tier)
    }

    /// Tiers in which the best paid design earns half as much again as the least paid one.
    pub(crate) fn uneven_tiers(&self) -> impl Iterator<Item = Uneven<'_>> {
        self.tiers.iter().filter_map(|tier| {
            let wages = || self.designs_of(tier).filter_map(|row| Some((row, row.wage?)));
            let by_wage = |(row, wage): &(&'_ DesignRow, Money)| (*wage, row.key.clone());
            let (best, worst) = (wages().max_by_key(by_wage)?, wages().min_by_key(by_wage)?);
            (best.1.0.saturating_mul(10) > worst.1.0.saturating_mul(UNEVEN)).then_some(Uneven { tier, best, worst })
        })
    }

    /// The share of list value collected, where that is so far from all of it that orders are not priced by the list.
    #[must_use]
    pub(crate) fn unusually_collected(&self) -> Option<Share> {
        self.season.comes_in()?.share().ok().filter(|share| *share < USUAL.0 || *share > USUAL.1)
    }

    /// Designs whose materials are not known.
    pub(crate) fn without_materials(&self) -> impl Iterator<Item = &DesignRow> {
        self.rows.iter().filter(|row| !self.season.has_materials(row.design))
    }

    /// Tiers that leave least per hour, with the pieces to drop of each where there are a tenth fewer hours.
    pub(crate) fn dropped_first(&self) -> impl Iterator<Item = (&TierRow, i64)> {
        self.tiers.iter().map(|tier| (tier, tier.pieces - tier.in_fewer_hours)).filter(|(_, dropped)| *dropped > 0)
    }

    /// Whether a minimum order at today's prices would be so large that it is no remedy.
    #[must_use]
    pub(crate) fn needs_too_large_orders(&self) -> bool {
        let both = self.alternatives.smallest.pieces().zip(self.season.mean_pieces());
        both.is_none_or(|(pieces, mean)| i128::from(pieces) * MILLION > MOST_MEANS * mean)
    }
}
