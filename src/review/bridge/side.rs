//! One side of a bridge: a period's sums by group, without reference to a shop.

use crate::costing::facts::{Figure, Figures};
use crate::quantity::TooLarge;
use crate::quantity::millionths::{Minutes, Money};
use std::collections::BTreeMap;

/// The owner of some sums.
#[derive(Debug, Clone, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Group {
    /// Cookies of a design.
    Design(String),
    /// Delivery lines.
    Delivery,
    /// Kept deposits.
    KeptDeposits,
    /// Hours and costs that no order can carry.
    Unassigned,
}

/// An amount of an item and its cost.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub struct Used {
    /// Amount, in any one unit.
    pub amount: i128,
    /// Its cost.
    pub cost: Money,
}

impl Used {
    /// Adds more of the item.
    ///
    /// # Errors
    /// [`TooLarge`] where the amount does not fit.
    pub fn add(&mut self, more: Self) -> Result<(), TooLarge> {
        self.amount = self.amount.checked_add(more.amount).ok_or(TooLarge)?;
        self.cost += more.cost;
        Ok(())
    }
}

/// The sums of one group. Costs are positive.
#[derive(Debug, Clone, PartialEq, Eq, Default)]
pub struct Sums {
    /// The design's tier.
    pub tier: Option<String>,
    /// Different orders.
    pub orders: i64,
    /// Pieces sold.
    pub pieces: i64,
    /// Prices charged for the lines themselves: list value with the share of set prices.
    pub charged: Money,
    /// Rush charges, and tips if they count.
    pub rush_and_tips: Money,
    /// Discounts and refunds, positive.
    pub discounts_and_refunds: Money,
    /// Ingredients by item.
    pub items: BTreeMap<String, Used>,
    /// Ingredients that belong to no item: assumed materials.
    pub other_ingredients: Money,
    /// Packaging.
    pub packaging: Money,
    /// Fees.
    pub fees: Money,
    /// Helper pay.
    pub helper_pay: Money,
    /// Overhead.
    pub overhead: Money,
    /// The owner's minutes on pieces themselves.
    pub piece_minutes: Minutes,
    /// The owner's other minutes.
    pub set_up_minutes: Minutes,
}

impl Sums {
    /// Takes the figures of some lines in `orders` orders. All ingredients start as `other_ingredients`, until they
    /// are split by item.
    #[must_use]
    pub fn of(figures: &Figures, orders: i64) -> Self {
        let money = |figures: &Figures, parts: &[Figure]| parts.iter().map(|part| Money(figures[*part])).sum::<Money>();
        Self {
            tier: None,
            orders,
            pieces: i64::try_from(figures[Figure::Pieces]).unwrap_or(i64::MAX),
            charged: money(figures, &[Figure::ListValue, Figure::SetDifference]),
            rush_and_tips: money(figures, &[Figure::Rush, Figure::Tips]),
            discounts_and_refunds: money(figures, &[Figure::Discount, Figure::Refund]),
            items: BTreeMap::new(),
            other_ingredients: Money(figures[Figure::Ingredients]),
            packaging: Money(figures[Figure::Packaging]),
            fees: Money(figures[Figure::Fees]),
            helper_pay: Money(figures[Figure::HelperPay]),
            overhead: Money(figures[Figure::Overhead]),
            piece_minutes: Minutes(figures[Figure::PieceMinutes]),
            set_up_minutes: Minutes(figures[Figure::OwnerMinutes] - figures[Figure::PieceMinutes]),
        }
    }

    /// Returns the cost of all ingredients.
    #[must_use]
    pub fn ingredients(&self) -> Money {
        self.items.values().map(|used| used.cost).sum::<Money>() + self.other_ingredients
    }

    /// Computes the pay that goes with pieces: prices charged less ingredients, packaging, fees and helper pay.
    #[must_use]
    pub fn pay_of_pieces(&self) -> Money {
        self.charged - self.ingredients() - self.packaging - self.fees - self.helper_pay
    }

    /// Computes the owner's pay before overhead.
    #[must_use]
    pub fn pay_before_overhead(&self) -> Money {
        self.pay_of_pieces() + self.rush_and_tips - self.discounts_and_refunds
    }

    /// Computes the owner's pay.
    #[must_use]
    pub fn pay(&self) -> Money {
        self.pay_before_overhead() - self.overhead
    }

    /// The owner's minutes.
    #[must_use]
    pub fn minutes(&self) -> Minutes {
        self.piece_minutes + self.set_up_minutes
    }

    /// Adds the sums of another group.
    ///
    /// # Errors
    /// [`TooLarge`] where an amount does not fit.
    pub fn add(&mut self, other: &Self) -> Result<(), TooLarge> {
        self.orders += other.orders;
        self.pieces += other.pieces;
        self.charged += other.charged;
        self.rush_and_tips += other.rush_and_tips;
        self.discounts_and_refunds += other.discounts_and_refunds;
        for (item, used) in &other.items {
            self.items.entry(item.clone()).or_default().add(*used)?;
        }
        self.other_ingredients += other.other_ingredients;
        self.packaging += other.packaging;
        self.fees += other.fees;
        self.helper_pay += other.helper_pay;
        self.overhead += other.overhead;
        self.piece_minutes += other.piece_minutes;
        self.set_up_minutes += other.set_up_minutes;
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
    pub fn designs(&self, tier: Option<&str>) -> Result<Sums, TooLarge> {
        let mut whole = Sums::default();
        for (group, sums) in &self.groups {
            if matches!(group, Group::Design(_)) && tier.is_none_or(|tier| sums.tier.as_deref() == Some(tier)) {
                whole.add(sums)?;
            }
        }
        Ok(whole)
    }
}
