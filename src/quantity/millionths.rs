//! Money and minutes: whole millionths of the currency's main unit, and of a minute.

use super::ratio::{self, TooLarge};
use rust_decimal::Decimal;

/// How many decimals money and minutes are stored with.
const STORED_DECIMALS: u32 = 6;

/// Millionths in 1.
pub const MILLION: i128 = 1_000_000;

/// Decimals of a currency's minor unit, by its ISO 4217 code; of what has none, or is no currency, two.
#[must_use]
pub(crate) fn minor_decimals(code: &str) -> u32 {
    iso_currency::Currency::from_code(code).and_then(iso_currency::Currency::exponent).map_or(2, u32::from)
}

/// Whether a text is the ISO 4217 code of a currency, in capitals.
#[must_use]
pub(crate) fn is_currency(code: &str) -> bool {
    iso_currency::Currency::from_code(code).is_some()
}

macro_rules! millionths {
    ($(#[$doc:meta])* $name:ident) => {
        $(#[$doc])*
        #[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Default)]
        pub struct $name(
            /// Millionths.
            pub i128,
        );

        impl $name {
            /// Nothing.
            pub const ZERO: Self = Self(0);

            /// Converts a decimal number of main units; `None` if it has more than six decimals or is too large.
            #[must_use]
            pub fn from_decimal(value: Decimal) -> Option<Self> {
                let scaled = value.checked_mul(Decimal::from(1_000_000))?;
                scaled.fract().is_zero().then(|| Self(scaled.trunc().mantissa() / 10_i128.pow(scaled.trunc().scale())))
            }

            /// Rounds an estimate in main units to the millionth; `None` if it is not finite or too large.
            #[must_use]
            pub(crate) fn from_estimate(value: f64) -> Option<Self> {
                let scaled = (value * 1e6).round();
                #[expect(clippy::cast_possible_truncation, reason = "within the whole numbers that floats hold exactly")]
                (scaled.abs() < 9e15).then_some(Self(scaled as i128))
            }

            /// As a decimal number, exactly; figures past what a decimal holds lose their last digits.
            #[must_use]
            pub fn decimal(self) -> Decimal {
                Decimal::try_from_i128_with_scale(self.0, STORED_DECIMALS).unwrap_or(if self.0 < 0 { Decimal::MIN } else { Decimal::MAX })
            }

            /// All six stored decimals, for programs.
            #[must_use]
            pub fn stored(self) -> String {
                format!("{:.6}", self.decimal())
            }
        }

        impl serde::Serialize for $name {
            /// A decimal string at stored precision.
            fn serialize<S: serde::Serializer>(&self, serializer: S) -> Result<S::Ok, S::Error> {
                serializer.serialize_str(&self.stored())
            }
        }

        impl std::ops::Add for $name {
            type Output = Self;
            fn add(self, other: Self) -> Self {
                Self(self.0 + other.0)
            }
        }

        impl std::ops::Sub for $name {
            type Output = Self;
            fn sub(self, other: Self) -> Self {
                Self(self.0 - other.0)
            }
        }

        impl std::ops::AddAssign for $name {
            fn add_assign(&mut self, other: Self) {
                self.0 += other.0;
            }
        }

        impl std::ops::Neg for $name {
            type Output = Self;
            fn neg(self) -> Self {
                Self(-self.0)
            }
        }

        impl std::iter::Sum for $name {
            fn sum<I: Iterator<Item = Self>>(parts: I) -> Self {
                parts.fold(Self::ZERO, |sum, part| sum + part)
            }
        }
    };
}

millionths! {
    /// Money in the shop's currency. Sums of 64-bit columns fit its 128 bits with room to spare.
    Money
}

/// A share of one, in millionths.
pub type Share = Money;

millionths! {
    /// Working time in minutes.
    Minutes
}

impl Money {
    /// The cost of `minutes` at this rate per hour, rounded half away from zero to the millionth.
    ///
    /// # Errors
    /// [`TooLarge`] where the product does not fit.
    pub(crate) fn per_hour_for(self, minutes: Minutes) -> Result<Self, TooLarge> {
        ratio::multiply_divide(self.0, minutes.0, 60 * MILLION).map(Self)
    }

    /// This much earned in `minutes`, as a rate per hour; `None` where there are no minutes.
    #[must_use]
    pub(crate) fn an_hour(self, minutes: Minutes) -> Option<Self> {
        (minutes.0 > 0).then(|| ratio::multiply_divide(self.0, 60 * MILLION, minutes.0).ok().map(Self)).flatten()
    }

    /// Divides by a count, rounding half away from zero; `None` if the count is 0.
    #[must_use]
    pub(crate) fn each_of(self, count: i64) -> Option<Self> {
        (count != 0).then(|| ratio::divide(self.0, i128::from(count)).ok().map(Self)).flatten()
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn decimals_go_in_and_out_exactly() {
        let text = "1234.500001";
        let money = Money::from_decimal(text.parse().unwrap()).unwrap();
        assert_eq!(money, Money(1_234_500_001));
        assert_eq!(money.stored(), text);
        assert_eq!(Money(-5).stored(), "-0.000005");
        assert_eq!(Money::from_decimal("0.0000001".parse().unwrap()), None);
    }

    #[test]
    fn twenty_an_hour_is_a_third_of_a_dollar_a_minute() {
        // Arithmetic: one minute at $20 an hour is $0.333333.
        let target = Money(20 * 1_000_000);
        assert_eq!(target.per_hour_for(Minutes(1_000_000)), Ok(Money(333_333)));
        assert_eq!(Money(333_333).an_hour(Minutes(1_000_000)), Some(Money(19_999_980)));
        assert_eq!(target.an_hour(Minutes(0)), None);
    }
}
