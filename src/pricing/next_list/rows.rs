//! The rows of the new list: designs, tiers, and designs that were not sold.

use super::at_risk::{Loss, MayLose, may_lose};
use super::{DesignRow, Maker, TierRow, Unsold};
use crate::ids::{Design, Id};
use crate::minutes::learned::Estimate;
use crate::minutes::model::count;
use crate::pricing::at_prices::own_list;
use crate::pricing::fair::{Piece, Season};
use crate::pricing::ladder::{self, Rung, Step};
use crate::pricing::lines::Line;
use crate::pricing::raise::Share;
use crate::pricing::what_if::Compared;
use crate::pricing::work::real;
use crate::quantity::TooLarge;
use crate::quantity::millionths::{Minutes, Money};
use crate::quantity::ratio::multiply_divide;
use crate::shop::earlier_tiers::EarlierTiers;
use std::collections::BTreeSet;

impl Maker<'_> {
    pub(super) fn row(
        &self,
        season: &Season,
        (design, old_price): (Id<Design>, Money),
        piece: Piece,
        rung: &Rung,
        (tier, new_price): (&str, Money),
    ) -> Result<DesignRow, TooLarge> {
        let draws = season.in_each_draw(design, &piece);
        let target = real(self.wanted.target.0) / 1e6;
        let kept = real(season.kept.numerator) / real(season.kept.divisor);
        let fair = (!draws.is_empty())
            .then(|| Estimate::of(draws.iter().map(|(cost, minutes)| (cost + target * minutes / 60.0) / kept).collect()))
            .and_then(|fair| Some((Money::from_estimate(fair.low)?, Money::from_estimate(fair.high)?)));
        let brought = season.kept_of(new_price);
        Ok(DesignRow {
            design,
            key: rung.name.clone(),
            pieces: rung.pieces,
            old_tier: self.tier_now(design).map(str::to_owned),
            has_moved_before: self.shop.designs.earlier[design] != EarlierTiers::default(),
            new_tier: tier.to_owned(),
            old_price,
            new_price,
            fair_price: ladder::least(rung.needs.0, 1, season.kept)?,
            fair,
            wage: piece.wage(new_price, season.kept),
            chance: chance(draws.iter().map(|(cost, minutes)| (brought - cost, *minutes)), target),
            piece,
            under_floor: false,
        })
    }

    pub(super) fn tier(
        &self,
        season: &Season,
        members: &[&DesignRow],
        step: &Step,
        compared: &Compared,
        wage_before: Option<Money>,
    ) -> Result<TierRow, TooLarge> {
        let name = members.first().map_or("", |row| row.new_tier.as_str());
        let (mut pay, mut minutes, mut needs, mut pieces) = (0_i128, 0_i128, 0_i128, 0_i64);
        let mut draws = vec![(0.0, 0.0); season.draws.len()];
        let brought = season.kept_of(step.price);
        for row in members {
            let of = i128::from(row.pieces);
            pieces += row.pieces;
            pay += (season.kept.of(step.price.0)? - row.piece.cost().0) * of;
            minutes += row.piece.minutes().0 * of;
            needs += row.piece.needs(self.wanted.target)?.0 * of;
            let times = real(of);
            for (sum, (cost, time)) in draws.iter_mut().zip(season.in_each_draw(row.design, &row.piece)) {
                *sum = (sum.0 + times * (brought - cost), sum.1 + times * time);
            }
        }
        let wages: Vec<f64> = draws.iter().filter(|(_, minutes)| *minutes > 0.0).map(|(pay, minutes)| pay / minutes * 60.0).collect();
        let range = (!wages.is_empty())
            .then(|| Estimate::of(wages))
            .and_then(|wage| Some((Money::from_estimate(wage.low)?, Money::from_estimate(wage.high)?)));
        let old = self.shop.prices.price(name, self.day).and_then(|price| price.times(1).ok()).filter(|price| *price > Money::ZERO);
        let designs: BTreeSet<Id<Design>> = members.iter().map(|row| row.design).collect();
        let of_tier = |line: &Line| line.design.is_some_and(|design| designs.contains(&design));
        Ok(TierRow {
            tier: name.to_owned(),
            old_price: old,
            price: step.price,
            pieces,
            fair_price: ladder::least(needs, i128::from(pieces), season.kept)?,
            piece: mean(members, pieces)?,
            wage: Money(pay).an_hour(Minutes(minutes)),
            range,
            chance: chance(draws.into_iter(), real(self.wanted.target.0) / 1e6),
            in_fewer_hours: pieces,
            short: step.short,
            may_lose: if members.iter().all(|row| row.new_price == row.old_price) {
                MayLose::default()
            } else {
                may_lose(compared, wage_before, of_tier, Loss::Pieces)?
            },
        })
    }

    /// Designs the season did not sell, or at no price. They keep their tier, unless all that was sold of it has left; then they take
    /// the one nearest in price.
    pub(super) fn unsold(&self, season: &Season, rows: &[DesignRow], tiers: &[TierRow]) -> Vec<Unsold> {
        let designs = &self.shop.designs;
        let list = own_list(self.shop);
        let is_gone =
            |name: &str| rows.iter().any(|row| row.old_tier.as_deref() == Some(name)) && tiers.iter().all(|tier| tier.tier != name);
        let of = |design: Id<Design>| {
            let old_tier = self.tier_now(design).map(str::to_owned);
            let stays = old_tier.as_ref().filter(|name| !is_gone(name)).cloned();
            let price = list(design, self.day).and_then(|price| price.times(1).ok());
            let near = || {
                let price = price?;
                tiers.iter().min_by_key(|tier| (tier.price.0 - price.0).abs()).map(|tier| tier.tier.clone())
            };
            let was_sold = season.sold[design] > 0;
            Unsold { design, key: designs.names.text(design).to_owned(), new_tier: stays.or_else(near), old_tier, was_sold }
        };
        designs.all().filter(|design| season.sold[*design] == 0 || season.old_price[*design].is_none()).map(of).collect()
    }
}

/// What the mean of a tier's pieces takes.
fn mean(members: &[&DesignRow], pieces: i64) -> Result<Piece, TooLarge> {
    let money = |of: fn(&Piece) -> Money| mean_of(members, pieces, |piece| of(piece).0).map(Money);
    let minutes = |of: fn(&Piece) -> Minutes| mean_of(members, pieces, |piece| of(piece).0).map(Minutes);
    Ok(Piece {
        materials: money(|piece| piece.materials)?,
        of_order: money(|piece| piece.of_order)?,
        helper_pay: money(|piece| piece.helper_pay)?,
        overhead: money(|piece| piece.overhead)?,
        unassigned: money(|piece| piece.unassigned)?,
        own_minutes: minutes(|piece| piece.own_minutes)?,
        set_up_minutes: minutes(|piece| piece.set_up_minutes)?,
        unassigned_minutes: minutes(|piece| piece.unassigned_minutes)?,
    })
}

fn mean_of(members: &[&DesignRow], pieces: i64, of: impl Fn(&Piece) -> i128) -> Result<i128, TooLarge> {
    multiply_divide(members.iter().map(|row| of(&row.piece) * i128::from(row.pieces)).sum(), 1, i128::from(pieces))
}

/// The share of draws in which pay ÷ minutes reaches a wage.
fn chance(draws: impl Iterator<Item = (f64, f64)>, target: f64) -> Option<Share> {
    let reached: Vec<bool> = draws.map(|(pay, minutes)| pay >= target * minutes / 60.0).collect();
    let share = count(reached.iter().filter(|reached| **reached).count()) / count(reached.len());
    (!reached.is_empty()).then(|| Money::from_estimate(share)).flatten()
}

/// A fair price, taken apart.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct FairParts {
    /// Its own materials, spares included.
    pub materials: Money,
    /// Its part of the order's box and fixed fees.
    pub of_order: Money,
    /// Helper pay.
    pub helper_pay: Money,
    /// Overhead.
    pub overhead: Money,
    /// The owner's time on it at the target.
    pub own_time: Money,
    /// That of its part of set-up and colours.
    pub set_up_time: Money,
    /// Hours and costs that no order explains.
    pub unassigned: Money,
    /// What a price on the list must be above what is left of it.
    pub off_list: Money,
}

impl TierRow {
    /// The parts that its fair price at a target wage is the sum of.
    ///
    /// # Errors
    /// [`TooLarge`] where a figure does not fit.
    pub fn fair_parts(&self, target: Money) -> Result<FairParts, TooLarge> {
        let piece = &self.piece;
        let time = |minutes: Minutes| target.per_hour_for(minutes);
        Ok(FairParts {
            materials: piece.materials,
            of_order: piece.of_order,
            helper_pay: piece.helper_pay,
            overhead: piece.overhead,
            own_time: time(piece.own_minutes)?,
            set_up_time: time(piece.set_up_minutes)?,
            unassigned: piece.unassigned + time(piece.unassigned_minutes)?,
            off_list: self.fair_price - piece.cost() - time(piece.minutes())?,
        })
    }
}
