//! One side of a bridge: a period's sums by group, without reference to a shop.

use crate::costing::figure::{Figure, Figures};
use crate::costing::stock::Quantity;
use crate::ids::{Design, Id, Item, Tier};
use crate::quantity::TooLarge;
use crate::quantity::millionths::{Minutes, Money};
use std::collections::BTreeMap;

/// The owner of some sums.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Group {
    /// Cookies of a design.
    Design(Id<Design>),
    /// Delivery lines.
    Delivery,
    /// Kept deposits.
    KeptDeposits,
    /// Hours and costs that no order can carry.
    Unassigned,
}

/// The sums of one group.
#[derive(Debug, Clone, PartialEq, Eq, Default)]
pub struct Sums {
    /// The design's tier.
    pub tier: Option<Id<Tier>>,
    /// Different orders.
    pub orders: i64,
    /// The figures of its lines.
    pub figures: Figures,
    /// Of its ingredients, those of an item.
    pub items: BTreeMap<Id<Item>, Quantity>,
}

impl Sums {
    /// Returns the prices charged for the lines themselves: list value with the share of set prices.
    #[must_use]
    pub fn charged(&self) -> Money {
        self.figures.sum(&[Figure::ListValue, Figure::SetDifference])
    }

    /// Returns rush charges, and tips if they count.
    #[must_use]
    pub(crate) fn rush_and_tips(&self) -> Money {
        self.figures.sum(&[Figure::Rush, Figure::Tips])
    }

    /// Returns discounts and refunds, positive.
    #[must_use]
    pub(crate) fn discounts_and_refunds(&self) -> Money {
        self.figures.sum(&[Figure::Discount, Figure::Refund])
    }

    /// Returns the ingredients that belong to no item: assumed materials.
    #[must_use]
    pub fn other_ingredients(&self) -> Money {
        self.figures.money(Figure::Ingredients) - self.items.values().map(|used| Money(used.cost)).sum()
    }

    /// Computes the pay that goes with pieces: prices charged less ingredients, packaging, fees and helper pay.
    #[must_use]
    pub(crate) fn pay_of_pieces(&self) -> Money {
        self.charged() - self.figures.sum(&Figure::COSTS) + self.figures.money(Figure::Overhead)
    }

    /// Computes the owner's pay before overhead.
    #[must_use]
    pub(crate) fn pay_before_overhead(&self) -> Money {
        self.pay_of_pieces() + self.rush_and_tips() - self.discounts_and_refunds()
    }

    /// Computes the owner's pay.
    #[must_use]
    pub fn pay(&self) -> Money {
        self.pay_before_overhead() - self.figures.money(Figure::Overhead)
    }

    /// The owner's minutes.
    #[must_use]
    pub fn minutes(&self) -> Minutes {
        self.figures.minutes(Figure::OwnerMinutes)
    }

    /// Returns the owner's minutes other than those on pieces themselves.
    #[must_use]
    pub fn set_up_minutes(&self) -> Minutes {
        self.minutes() - self.figures.minutes(Figure::PieceMinutes)
    }

    /// Adds the sums of another group.
    ///
    /// # Errors
    /// [`TooLarge`] where an amount does not fit.
    pub fn add(&mut self, other: &Self) -> Result<(), TooLarge> {
        self.orders += other.orders;
        self.figures += &other.figures;
        for (item, used) in &other.items {
            self.items.entry(*item).or_default().add(*used)?;
        }
        Ok(())
    }
}

/// A period's sums, over the lines that its headline counts.
#[derive(Debug, Clone, PartialEq, Eq, Default)]
pub struct Side {
    /// By group.
    pub groups: BTreeMap<Group, Sums>,
    /// The target wage per hour; zero without one, when the surplus is the pay.
    pub target: Money,
}

impl Side {
    /// Computes the owner's pay: revenue less out-of-pocket cost, unassigned costs included.
    #[must_use]
    pub fn pay(&self) -> Money {
        self.groups.values().map(Sums::pay).sum()
    }

    /// The owner's minutes.
    #[must_use]
    pub fn minutes(&self) -> Minutes {
        self.groups.values().map(Sums::minutes).sum()
    }

    /// Sums all designs, or those of one tier.
    ///
    /// # Errors
    /// [`TooLarge`] where an amount does not fit.
    pub fn designs(&self, tier: Option<Id<Tier>>) -> Result<Sums, TooLarge> {
        let mut whole = Sums::default();
        for (group, sums) in &self.groups {
            if matches!(group, Group::Design(_)) && (tier.is_none() || sums.tier == tier) {
                whole.add(sums)?;
            }
        }
        Ok(whole)
    }
}
