//! A tier's sums as designs join it, at each price it may have.

use super::candidates::between;
use super::rules::{LadderDesign, Rules, most};
use super::score::{Score, short};
use crate::quantity::TooLarge;
use crate::quantity::millionths::Money;

/// Designs that join a tier one after another, with their sums at each price it may have.
pub(super) struct Group<'a> {
    prices: &'a [Money],
    at: Vec<AtPrice>,
    designs: i64,
    pub(super) pieces: i128,
    pub(super) needs: i128,
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
    out_of_place: i64,
}

impl<'a> Group<'a> {
    pub(super) fn new(prices: &'a [Money]) -> Self {
        let at = vec![AtPrice::default(); prices.len()];
        Self { prices, at, designs: 0, pieces: 0, needs: 0, most: None, by_tier: Vec::new(), largest: 0 }
    }

    pub(super) fn add(&mut self, design: &LadderDesign, rules: &Rules) -> Result<(), TooLarge> {
        let pieces = i128::from(design.pieces);
        let of_all = |needs: Money| needs.0.checked_mul(pieces).ok_or(TooLarge);
        self.designs += 1;
        self.pieces += pieces;
        self.needs = self.needs.checked_add(of_all(design.needs)?).ok_or(TooLarge)?;
        if let Some(most) = most(design, rules) {
            self.most = Some(self.most.map_or(most, |known| known.min(most)));
        }
        if let Some(tier) = design.tier {
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
        let floor = design.floor_needs.map(of_all).transpose()?;
        let (least, _) = between(design, rules)?;
        for (price, at) in self.prices.iter().zip(&mut self.at) {
            if let Some(needs) = floor {
                at.below_floor += short(needs, *price, pieces, rules.kept)?;
            }
            at.out_of_place += i64::from(*price < least);
            at.movement += (price.0 - design.old.0).abs().checked_mul(pieces).ok_or(TooLarge)?;
        }
        Ok(())
    }

    /// How good the tier is at each price; `None` where it may not have it.
    pub(super) fn scores(&self, rules: &Rules, scores: &mut [Option<Score>]) -> Result<(), TooLarge> {
        for ((price, at), score) in self.prices.iter().zip(&self.at).zip(scores) {
            let short = short(self.needs, *price, self.pieces, rules.kept)? + at.below_floor;
            let allowed = self.most.is_none_or(|most| *price <= most) && (rules.max_rise.is_some() || short == 0);
            let narrow = |sum: i128| i64::try_from(sum).unwrap_or(i64::MAX);
            *score = allowed.then(|| Score {
                short: narrow(short),
                out_of_place: at.out_of_place,
                movement: narrow(at.movement),
                moved: self.designs - self.largest,
                prices: narrow(price.0.saturating_mul(self.designs.into())),
            });
        }
        Ok(())
    }
}
