//! Exact factors, as a fraction of whole numbers.

use super::millionths::{MILLION, Money, Share};
use super::number::Percent;
use super::ratio::{TooLarge, multiply_divide};
use rust_decimal::Decimal;

/// An exact factor.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Factor {
    /// Above the line.
    pub numerator: i128,
    /// Below it; never 0.
    pub divisor: i128,
}

impl Factor {
    /// 1: no change.
    pub const ONE: Self = Self { numerator: 1, divisor: 1 };
    /// 0: nothing of it.
    pub const ZERO: Self = Self { numerator: 0, divisor: 1 };

    /// What a part is of a whole; `None` of nothing.
    #[must_use]
    pub(crate) fn of_whole(part: Money, whole: Money) -> Option<Self> {
        (whole > Money::ZERO).then_some(Self { numerator: part.0, divisor: whole.0 })
    }

    /// What is left after a percentage is taken off; `None` past the whole.
    #[must_use]
    pub fn less(percent: Percent) -> Option<Self> {
        let left = Percent::WHOLE - i128::from(percent.0);
        (left >= 0).then_some(Self { numerator: left, divisor: Percent::WHOLE })
    }

    /// A decimal number, exactly; `None` past 38 decimals.
    #[must_use]
    pub fn from_decimal(value: Decimal) -> Option<Self> {
        let divisor = 10_i128.checked_pow(value.scale())?;
        Some(Self { numerator: value.mantissa(), divisor })
    }

    /// A value × this, rounded half away from zero.
    ///
    /// # Errors
    /// [`TooLarge`] where it does not fit.
    pub fn of(self, value: i128) -> Result<i128, TooLarge> {
        if self.numerator == self.divisor { Ok(value) } else { multiply_divide(value, self.numerator, self.divisor) }
    }

    /// A value ÷ this, rounded half away from zero.
    ///
    /// # Errors
    /// [`TooLarge`] where it does not fit, or this is 0.
    pub fn into(self, value: i128) -> Result<i128, TooLarge> {
        if self.numerator == self.divisor { Ok(value) } else { multiply_divide(value, self.divisor, self.numerator) }
    }

    /// As a share of one, in millionths.
    ///
    /// # Errors
    /// [`TooLarge`] where it does not fit.
    pub fn share(self) -> Result<Share, TooLarge> {
        multiply_divide(self.numerator, MILLION, self.divisor).map(Money)
    }
}
