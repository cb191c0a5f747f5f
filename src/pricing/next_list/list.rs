//! The finished list: designs, tiers, designs without a place, and what the list does.

use super::at_risk::{MayLose, Orders};
use crate::ids::{Design, Id};
use crate::pricing::alternatives::Alternatives;
use crate::pricing::cost::{Piece, Season, Smallest};
use crate::pricing::figures::{Both, Totals};
use crate::quantity::TooLarge;
use crate::quantity::millionths::{Minutes, Money, Share};

/// A design on the new list.
#[derive(Debug, Clone, PartialEq)]
pub struct DesignRow {
    /// The design.
    pub design: Id<Design>,
    /// Its name.
    pub key: String,
    /// Pieces sold in the season.
    pub pieces: i64,
    /// Its tier when the list starts.
    pub old_tier: Option<String>,
    /// Whether it sat in another tier before.
    pub has_moved_before: bool,
    /// Its tier then.
    pub new_tier: String,
    /// Its list price now, or the mean charged.
    pub old_price: Money,
    /// Its list price then.
    pub new_price: Money,
    /// What a piece costs.
    pub piece: Piece,
    /// The list price that pays the target.
    pub fair_price: Money,
    /// One draw in twenty asks for less, one for more.
    pub fair: Option<(Money, Money)>,
    /// What an hour pays at the new price.
    pub wage: Option<Money>,
    /// The share of draws in which it reaches the target.
    pub chance: Option<Share>,
    /// Whether a cap keeps it under the floor.
    pub under_floor: bool,
}

/// A tier of the new list.
#[derive(Debug, Clone, PartialEq)]
pub struct TierRow {
    /// Its name.
    pub tier: String,
    /// Its price now, where it has one.
    pub old_price: Option<Money>,
    /// Its price then.
    pub price: Money,
    /// Pieces its designs sold in the season.
    pub pieces: i64,
    /// What the mean of its pieces costs.
    pub piece: Piece,
    /// The list price that pays the target over its season.
    pub fair_price: Money,
    /// What an hour pays.
    pub wage: Option<Money>,
    /// One draw in twenty pays less an hour, one more.
    pub range: Option<(Money, Money)>,
    /// The share of draws in which it reaches the target.
    pub chance: Option<Share>,
    /// Of its pieces, those that a tenth fewer hours would leave room for, where hours go first to what leaves most for them.
    pub in_fewer_hours: i64,
    /// What its season falls short of the target, where a cap keeps it from it.
    pub short: Money,
    /// The share of its pieces that may be lost.
    pub may_lose: MayLose,
}

/// A design without a place on the ladder: not sold in the season, or never at a price.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Unsold {
    /// The design.
    pub design: Id<Design>,
    /// Its name.
    pub key: String,
    /// Its tier now.
    pub old_tier: Option<String>,
    /// Its tier then.
    pub new_tier: Option<String>,
    /// Whether it was sold, but at no price.
    pub was_sold: bool,
}

/// The new list.
#[derive(Debug, Clone)]
pub struct NextList {
    /// The season it is set by.
    pub season: Season,
    /// The wage aimed at.
    pub target: Money,
    /// The least wage.
    pub floor: Option<Money>,
    /// Designs, by their place on the ladder.
    pub rows: Vec<DesignRow>,
    /// Designs that were not sold.
    pub unsold: Vec<Unsold>,
    /// Tiers, lowest first.
    pub tiers: Vec<TierRow>,
    /// Tiers there are no more.
    pub gone: Vec<String>,
    /// The season's orders, with what is unassigned: as they were, and at the new prices.
    pub all_in: Both,
    /// The season's orders at today's prices, with what is unassigned.
    pub today: Totals,
    /// What is at risk over all orders, compared with today's prices.
    pub orders: Orders,
    /// The smallest order worth its set-up at the new prices.
    pub smallest: Smallest,
    /// What would help at today's prices instead.
    pub alternatives: Alternatives,
    /// Whether the row of prices was too long to try all of it, so that a slightly better list may exist.
    pub search_thinned: bool,
}

impl NextList {
    /// Whether it is the list there is: no price and no design moves.
    #[must_use]
    pub(crate) fn is_todays(&self) -> bool {
        let same = |tier: &TierRow| tier.old_price == Some(tier.price);
        let moved = |design: &Unsold| design.new_tier.is_some() && design.new_tier != design.old_tier;
        self.tiers.iter().all(same)
            && !self.rows.iter().any(|row| row.old_tier.as_ref() != Some(&row.new_tier))
            && !self.unsold.iter().any(moved)
    }
}

impl DesignRow {
    /// Whether it leaves its tier.
    #[must_use]
    pub fn moves(&self) -> bool {
        self.old_tier.as_ref().is_some_and(|old| *old != self.new_tier)
    }
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
    /// Unassigned costs, and unassigned hours at the target.
    pub unassigned: Money,
    /// What a price on the list must be above what is left of it.
    pub off_list: Money,
}

impl TierRow {
    /// The parts that its fair price at a target wage is the sum of.
    ///
    /// # Errors
    /// [`TooLarge`] where a figure does not fit.
    pub(crate) fn fair_parts(&self, target: Money) -> Result<FairParts, TooLarge> {
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
