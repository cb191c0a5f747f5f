//! Amounts of an item, in whole trillionths of its base unit (gram, millilitre, piece, metre).

use super::ratio::{self, TooLarge};
use rust_decimal::Decimal;

/// An amount of an item in its base unit. A trillionth of a gram is far below anything a purchase or a
/// recipe can say; the unit factors of an ounce and a teaspoon are held without rounding.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Default)]
pub struct Amount(
    /// Trillionths of the base unit.
    pub i128,
);

impl Amount {
    /// Nothing.
    pub const ZERO: Self = Self(0);

    /// From a decimal number of base units, rounded half away from zero at the trillionth.
    ///
    /// # Errors
    /// [`TooLarge`] where it does not fit.
    pub fn from_decimal(value: Decimal) -> Result<Self, TooLarge> {
        let scale = value.scale();
        if scale <= 12 {
            value.mantissa().checked_mul(10_i128.pow(12 - scale)).map(Self).ok_or(TooLarge)
        } else {
            ratio::divide(value.mantissa(), 10_i128.pow(scale - 12)).map(Self)
        }
    }

    /// This amount × `numerator` ÷ `divisor`.
    ///
    /// # Errors
    /// [`TooLarge`] where it does not fit or the divisor is 0.
    pub fn times(self, numerator: i128, divisor: i128) -> Result<Self, TooLarge> {
        ratio::multiply_divide(self.0, numerator, divisor).map(Self)
    }

    /// This amount and another.
    ///
    /// # Errors
    /// [`TooLarge`] where the sum does not fit.
    pub fn plus(self, other: Self) -> Result<Self, TooLarge> {
        self.0.checked_add(other.0).map(Self).ok_or(TooLarge)
    }

    /// As a decimal number of base units, for display.
    #[must_use]
    pub fn decimal(self) -> Decimal {
        Decimal::try_from_i128_with_scale(self.0, 12).unwrap_or(if self.0 < 0 { Decimal::MIN } else { Decimal::MAX })
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn an_ounce_and_a_teaspoon_are_held_exactly() {
        for text in ["28.349523125", "4.92892159375"] {
            assert_eq!(Amount::from_decimal(text.parse().unwrap()).unwrap().decimal().normalize().to_string(), text);
        }
    }

    #[test]
    fn finer_digits_are_rounded_half_away() {
        assert_eq!(Amount::from_decimal("0.0000000000005".parse().unwrap()), Ok(Amount(1)));
        assert_eq!(Amount::from_decimal("-0.0000000000005".parse().unwrap()), Ok(Amount(-1)));
        assert_eq!(Amount::from_decimal(Decimal::MAX), Err(TooLarge));
    }
}
