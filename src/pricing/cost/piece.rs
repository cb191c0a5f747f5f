//! What one piece costs, part by part.

use crate::quantity::Factor;
use crate::quantity::TooLarge;
use crate::quantity::millionths::{Minutes, Money};
use crate::quantity::ratio::multiply_divide;

/// What one piece costs and takes; a sum over pieces, too.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub struct Piece {
    /// Its own materials, spares included.
    pub materials: Money,
    /// Its part of the order's box and fixed fees.
    pub of_order: Money,
    /// Helpers' part of its work.
    pub helper_pay: Money,
    /// Overhead.
    pub overhead: Money,
    /// Unassigned costs.
    pub unassigned: Money,
    /// The owner's minutes on the piece itself.
    pub own_minutes: Minutes,
    /// The owner's minutes of its part of set-up and colours.
    pub set_up_minutes: Minutes,
    /// Unassigned minutes.
    pub unassigned_minutes: Minutes,
}

impl Piece {
    /// Everything but the owner's time and percentage fees.
    #[must_use]
    pub fn cost(&self) -> Money {
        self.materials + self.of_order + self.helper_pay + self.overhead + self.unassigned
    }

    /// The owner's time.
    #[must_use]
    pub fn minutes(&self) -> Minutes {
        self.own_minutes + self.set_up_minutes + self.unassigned_minutes
    }

    /// What must be left of its price, discounts and percentage fees taken off, for a wage an hour.
    ///
    /// # Errors
    /// [`TooLarge`] where it does not fit.
    pub fn needs(&self, wage: Money) -> Result<Money, TooLarge> {
        Ok(self.cost() + wage.per_hour_for(self.minutes())?)
    }

    /// What an hour on it pays at a list price of which so much is kept; `None` where it takes no time.
    ///
    /// # Errors
    /// [`TooLarge`] where it does not fit.
    pub fn wage(&self, price: Money, kept: Factor) -> Result<Option<Money>, TooLarge> {
        Ok((Money(kept.of(price.0)?) - self.cost()).an_hour(self.minutes()))
    }

    /// The sum of so many of each piece.
    ///
    /// # Errors
    /// [`TooLarge`] where it does not fit.
    pub fn sum(pieces: impl Iterator<Item = (Self, i64)>) -> Result<Self, TooLarge> {
        let mut sum = Self::default();
        for (piece, count) in pieces {
            let piece = piece.map(|part| part.checked_mul(count.into()).ok_or(TooLarge))?;
            sum = Self {
                materials: sum.materials + piece.materials,
                of_order: sum.of_order + piece.of_order,
                helper_pay: sum.helper_pay + piece.helper_pay,
                overhead: sum.overhead + piece.overhead,
                unassigned: sum.unassigned + piece.unassigned,
                own_minutes: sum.own_minutes + piece.own_minutes,
                set_up_minutes: sum.set_up_minutes + piece.set_up_minutes,
                unassigned_minutes: sum.unassigned_minutes + piece.unassigned_minutes,
            };
        }
        Ok(sum)
    }

    /// One of so many pieces that this is the sum of.
    ///
    /// # Errors
    /// [`TooLarge`] where there are none.
    pub(crate) fn each_of(self, pieces: i64) -> Result<Self, TooLarge> {
        self.map(|part| multiply_divide(part, 1, pieces.into()))
    }

    pub(super) fn map(self, of: impl Fn(i128) -> Result<i128, TooLarge>) -> Result<Self, TooLarge> {
        Ok(Self {
            materials: Money(of(self.materials.0)?),
            of_order: Money(of(self.of_order.0)?),
            helper_pay: Money(of(self.helper_pay.0)?),
            overhead: Money(of(self.overhead.0)?),
            unassigned: Money(of(self.unassigned.0)?),
            own_minutes: Minutes(of(self.own_minutes.0)?),
            set_up_minutes: Minutes(of(self.set_up_minutes.0)?),
            unassigned_minutes: Minutes(of(self.unassigned_minutes.0)?),
        })
    }
}
