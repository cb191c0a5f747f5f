//! The rows of the new list: designs, tiers, and designs that were not sold.

use super::at_risk::{MayLose, may_lose};
use super::list::{DesignRow, TierRow, Unsold};
use super::maker::{Maker, Sold};
use crate::ids::{Design, Id};
use crate::pricing::allocation::{Product, allocate};
use crate::pricing::at_prices::own_list;
use crate::pricing::cost::{Piece, least_price};
use crate::pricing::draws::Drawn;
use crate::pricing::ladder::Step;
use crate::pricing::lines::Line;
use crate::pricing::what_if::Compared;
use crate::quantity::Factor;
use crate::quantity::TooLarge;
use crate::quantity::millionths::{Minutes, Money};
use crate::quantity::ratio::multiply_divide;
use crate::shop::earlier_tiers::EarlierTiers;
use std::collections::BTreeSet;

impl Maker<'_> {
    pub(super) fn row(&self, sold: &Sold, tier: &str, new_price: Money) -> Result<DesignRow, TooLarge> {
        let Sold { design, pieces, old_price, piece } = *sold;
        let (season, target, kept) = (self.season, self.wanted.target, self.kept);
        let drawn = season.drawn_piece(design, &piece);
        Ok(DesignRow {
            design,
            key: self.shop.designs.names.text(design).to_owned(),
            pieces,
            old_tier: self.tier_now(design).map(str::to_owned),
            has_moved_before: self.shop.designs.earlier[design] != EarlierTiers::default(),
            new_tier: tier.to_owned(),
            old_price,
            new_price,
            fair_price: season.fair_list_price(&piece, target)?.ok_or(TooLarge)?,
            fair: drawn.fair_price(target, kept),
            wage: piece.wage(new_price, kept)?,
            chance: drawn.chance(new_price, kept, target),
            piece,
            under_floor: false,
        })
    }

    pub(super) fn tier(
        &self,
        members: &[&DesignRow],
        step: &Step,
        compared: &Compared,
        wage_before: Option<Money>,
    ) -> Result<TierRow, TooLarge> {
        let name = members.first().map_or("", |row| row.new_tier.as_str());
        let (season, target, kept) = (self.season, self.wanted.target, self.kept);
        let pieces: i64 = members.iter().map(|row| row.pieces).sum();
        let all = Piece::sum(members.iter().map(|row| (row.piece, row.pieces)))?;
        let mut needs = 0;
        for row in members {
            needs += row.piece.needs(target)?.0 * i128::from(row.pieces);
        }
        let drawn: Vec<Drawn> = members.iter().map(|row| season.drawn_piece(row.design, &row.piece)).collect();
        let drawn = Drawn::sum(drawn.iter().zip(members.iter().map(|row| row.pieces)));
        let listed = Money(step.price.0 * i128::from(pieces));
        let old = self.shop.prices.price(name, self.day).and_then(|price| price.times(1).ok()).filter(|price| *price > Money::ZERO);
        let designs: BTreeSet<Id<Design>> = members.iter().map(|row| row.design).collect();
        let of_tier = |line: &Line| line.design.is_some_and(|design| designs.contains(&design));
        Ok(TierRow {
            tier: name.to_owned(),
            old_price: old,
            price: step.price,
            pieces,
            fair_price: least_price(needs, i128::from(pieces), kept)?,
            piece: all.each_of(pieces)?,
            wage: Money(kept.of(step.price.0)? * i128::from(pieces) - all.cost().0).an_hour(all.minutes()),
            range: drawn.wage(listed, kept),
            chance: drawn.chance(listed, kept, target),
            in_fewer_hours: pieces,
            short: step.short,
            may_lose: if members.iter().all(|row| row.new_price == row.old_price) {
                MayLose::default()
            } else {
                may_lose(compared, wage_before, of_tier, Line::with_fewer_pieces)?
            },
        })
    }

    /// Designs the season did not sell, or at no price. They keep their tier, unless all that was sold of it has left; then they take
    /// the one nearest in price.
    pub(super) fn unsold(&self, rows: &[DesignRow], tiers: &[TierRow]) -> Vec<Unsold> {
        let (designs, season) = (&self.shop.designs, self.season);
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

/// What a tenth fewer hours for pieces would leave of each tier.
pub(super) fn fill_fewer_hours(kept: Factor, tiers: &mut [TierRow]) -> Result<(), TooLarge> {
    let product = |tier: &TierRow| {
        // Overhead and unassigned costs go on without the piece.
        let gone = tier.piece.materials + tier.piece.helper_pay;
        Ok(Product { each: Money(kept.of(tier.price.0)?) - gone, minutes: tier.piece.own_minutes, wanted: tier.pieces })
    };
    let products = tiers.iter().map(product).collect::<Result<Vec<Product>, TooLarge>>()?;
    let all: i128 = products.iter().map(|product| product.minutes.0 * i128::from(product.wanted)).sum();
    let left = allocate(&products, Minutes(multiply_divide(all, 9, 10)?));
    for (tier, pieces) in tiers.iter_mut().zip(left) {
        tier.in_fewer_hours = pieces;
    }
    Ok(())
}
