//! The designs that are priced, as rungs, and the ladder they make.

use super::{Maker, NoList};
use crate::ids::{Design, Id};
use crate::pricing::change::Times;
use crate::pricing::endings::Endings;
use crate::pricing::fair::{Piece, Season};
use crate::pricing::ladder::{self, Ladder, NoLadder, Rules, Rung};
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

    pub(super) fn rungs(&self, season: &Season, sold: &[(Id<Design>, Money)], pieces: &[Piece]) -> Result<Vec<Rung>, TooLarge> {
        let all = self.tier_names();
        let rung = |((design, old), piece): (&(Id<Design>, Money), &Piece)| {
            Ok(Rung {
                name: self.shop.designs.names.text(*design).to_owned(),
                pieces: season.sold[*design],
                old: *old,
                tier: self.tier_now(*design).and_then(|tier| all.iter().position(|name| name == tier)),
                needs: piece.needs(self.wanted.target)?,
                floor_needs: self.wanted.floor.map(|floor| piece.needs(floor)).transpose()?,
            })
        };
        sold.iter().zip(pieces).map(rung).collect()
    }

    /// The ladder and its tiers' names.
    pub(super) fn ladder(&self, rungs: &[Rung], kept: Times) -> Result<(Ladder, Vec<String>), NoList> {
        let settings = &self.shop.settings;
        let old: Vec<Money> = rungs.iter().map(|rung| rung.old).collect();
        let endings = Endings::of(&settings.endings, &settings.currency, &old);
        let rules = Rules { kept, endings, max_rise: self.wanted.max_rise };
        let known: BTreeSet<usize> = rungs.iter().filter_map(|rung| rung.tier).collect();
        let none = |why: NoLadder| match why {
            NoLadder::NothingKept => NoList::NothingKept,
            NoLadder::Capped => NoList::Capped,
            NoLadder::TooLarge => NoList::Failed(TooLarge.to_string()),
        };
        let all = self.tier_names();
        if self.wanted.keep {
            let without: Vec<String> = rungs.iter().filter(|rung| rung.tier.is_none()).map(|rung| rung.name.clone()).collect();
            if !without.is_empty() {
                return Err(NoList::NoTiers(without));
            }
            return kept_tiers(rungs, &known, &all, &rules).map_err(none);
        }
        let tiers = self.wanted.tiers.unwrap_or(if known.is_empty() { TIERS } else { known.len() });
        let ladder = ladder::best(rungs, tiers, &rules).map_err(none)?;
        let members: Vec<Vec<(Option<usize>, i64)>> =
            ladder.steps.iter().map(|step| step.designs.iter().map(|at| (rungs[*at].tier, rungs[*at].pieces)).collect()).collect();
        let tier_names = names(&members, &all);
        Ok((ladder, tier_names))
    }
}

/// Tiers as they are, each at the price it needs.
fn kept_tiers(rungs: &[Rung], known: &BTreeSet<usize>, all: &[String], rules: &Rules) -> Result<(Ladder, Vec<String>), NoLadder> {
    let mut steps = Vec::new();
    for tier in known {
        let designs: Vec<usize> = ladder::by_fair_price(rungs).into_iter().filter(|at| rungs[*at].tier == Some(*tier)).collect();
        steps.push((ladder::price_together(rungs, &designs, rules)?, all[*tier].clone()));
    }
    steps.sort_by(|(one, a), (other, b)| (one.price, a).cmp(&(other.price, b)));
    let (steps, names) = steps.into_iter().unzip();
    Ok((Ladder { steps, score: ladder::Score::default() }, names))
}
