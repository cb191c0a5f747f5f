//! The designs that are priced, and the ladder they make.

use super::maker::{Maker, Sold};
use crate::ids::{Design, Id};
use crate::pricing::endings::Endings;
use crate::pricing::error::PricingError;
use crate::pricing::ladder::{self, Ladder, LadderDesign, NoLadder, Rules};
use crate::pricing::naming::names;
use crate::quantity::TooLarge;
use crate::quantity::millionths::Money;
use std::collections::BTreeSet;

/// Tiers of a shop that has none yet, where it does not say how many.
const TIERS: usize = 4;

impl Maker<'_> {
    /// The tier a design sits in when the list starts.
    pub(super) fn tier_now(&self, design: Id<Design>) -> Option<&str> {
        self.shop.designs.tier_on(design, self.day)
    }

    /// Every tier there is: designs', and those on the price list alone.
    fn tier_names(&self) -> Vec<String> {
        let designs = &self.shop.designs;
        let of_designs = designs.all().filter_map(|design| self.tier_now(design));
        let names: BTreeSet<&str> = of_designs.chain(designs.tiers.iter()).chain(self.shop.prices.tiers()).collect();
        names.into_iter().map(str::to_owned).collect()
    }

    fn ladder_design(&self, all: &[String], sold: &Sold) -> Result<LadderDesign, TooLarge> {
        Ok(LadderDesign {
            name: self.shop.designs.names.text(sold.design).to_owned(),
            pieces: sold.pieces,
            old: sold.old_price,
            tier: self.tier_now(sold.design).and_then(|tier| all.iter().position(|name| name == tier)),
            needs: sold.piece.needs(self.wanted.target)?,
            floor_needs: self.wanted.floor.map(|floor| sold.piece.needs(floor)).transpose()?,
        })
    }

    /// The ladder of designs sold, and its tiers' names.
    pub(super) fn ladder(&self, sold: &[Sold]) -> Result<(Ladder, Vec<String>), PricingError> {
        let settings = &self.shop.settings;
        let all = self.tier_names();
        let designs = sold.iter().map(|sold| self.ladder_design(&all, sold)).collect::<Result<Vec<LadderDesign>, _>>()?;
        let old: Vec<Money> = designs.iter().map(|design| design.old).collect();
        let endings = Endings::of(&settings.endings, &settings.currency, &old);
        let rules = Rules { kept: self.kept, endings, max_rise: self.wanted.max_rise };
        let known: BTreeSet<usize> = designs.iter().filter_map(|design| design.tier).collect();
        let none = |why: NoLadder| match why {
            NoLadder::NothingKept => PricingError::NothingKept,
            NoLadder::Capped => PricingError::Capped(self.wanted.max_rise),
            NoLadder::TooLarge => TooLarge.into(),
        };
        if self.wanted.keep {
            let without: Vec<String> = designs.iter().filter(|design| design.tier.is_none()).map(|design| design.name.clone()).collect();
            if !without.is_empty() {
                return Err(PricingError::NoTiers(without));
            }
            return kept_tiers(&designs, &known, &all, &rules).map_err(none);
        }
        let tiers = self.wanted.tiers.unwrap_or(if known.is_empty() { TIERS } else { known.len() });
        let ladder = ladder::best(&designs, tiers, &rules).map_err(none)?;
        let members: Vec<Vec<(Option<usize>, i64)>> =
            ladder.steps.iter().map(|step| step.designs.iter().map(|at| (designs[*at].tier, designs[*at].pieces)).collect()).collect();
        let tier_names = names(&members, &all);
        Ok((ladder, tier_names))
    }
}

/// Tiers as they are, each at the price it needs.
fn kept_tiers(priced: &[LadderDesign], known: &BTreeSet<usize>, all: &[String], rules: &Rules) -> Result<(Ladder, Vec<String>), NoLadder> {
    let mut steps = Vec::new();
    for tier in known {
        let designs: Vec<usize> = ladder::by_fair_price(priced).into_iter().filter(|at| priced[*at].tier == Some(*tier)).collect();
        steps.push((ladder::price_together(priced, &designs, rules)?, all[*tier].clone()));
    }
    steps.sort_by(|(one, a), (other, b)| (one.price, a).cmp(&(other.price, b)));
    let (steps, names) = steps.into_iter().unzip();
    Ok((Ladder { steps, score: ladder::Score::default(), thinned: false }, names))
}
