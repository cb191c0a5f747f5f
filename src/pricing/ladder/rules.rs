//! The designs a ladder is made for, and what its prices must keep to.

use crate::pricing::endings::Endings;
use crate::quantity::millionths::Money;
use crate::quantity::{Factor, Percent};

/// A design to find a place for.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct LadderDesign {
    /// Its name.
    pub name: String,
    /// Pieces sold in the season that prices are set by.
    pub pieces: i64,
    /// Its list price now.
    pub old: Money,
    /// The tier it sits in now.
    pub tier: Option<usize>,
    /// What a piece must leave, percentage fees and discounts taken off, for the target wage.
    pub needs: Money,
    /// The same for the least wage.
    pub floor_needs: Option<Money>,
}

/// What prices must keep to.
#[derive(Debug, Clone)]
pub struct Rules {
    /// What is left of an amount on the list after discounts and percentage fees.
    pub kept: Factor,
    /// The prices the shop writes.
    pub endings: Endings,
    /// The most any design's price may rise.
    pub max_rise: Option<Percent>,
}

/// How much farther a design may be from its own tier's price than from the next: by a quarter.
pub(super) const NEAR: (i128, i128) = (4, 5);

/// The most a capped design may cost.
pub(super) fn most(design: &LadderDesign, rules: &Rules) -> Option<Money> {
    let rise = rules.max_rise?;
    (design.old > Money::ZERO).then(|| Money(design.old.0.saturating_mul(Percent::WHOLE + i128::from(rise.0)) / Percent::WHOLE))
}
