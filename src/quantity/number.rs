//! Plain numbers, prices and percentages, read strictly: a point for decimals, nothing for thousands.

use super::millionths::Money;
use super::ratio::{self, TooLarge};
use rust_decimal::Decimal;

/// A plain decimal number: optional minus, digits, optionally a point and more digits. No exponent, no
/// currency sign, no thousands separator; at most 18 digits before the point and 12 after.
#[must_use]
pub fn plain(text: &str) -> Option<Decimal> {
    let digits = text.strip_prefix('-').unwrap_or(text);
    let (whole, fraction) = digits.split_once('.').unwrap_or((digits, "0"));
    let sound = |part: &str, most: usize| part.len() <= most && part.bytes().all(|byte| byte.is_ascii_digit());
    (!digits.is_empty() && !fraction.is_empty() && sound(whole, 18) && sound(fraction, 12)).then(|| text.parse().ok()).flatten()
}

/// A price per piece or per dozen, kept as it was quoted so that no cent is lost.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Price {
    /// What `pieces` pieces cost.
    pub amount: Money,
    /// One, or twelve where it was quoted by the dozen.
    pub pieces: i32,
}

impl Price {
    /// The price of `quantity` pieces, rounded half away from zero to the millionth.
    ///
    /// # Errors
    /// [`TooLarge`] where it does not fit.
    pub fn times(self, quantity: i64) -> Result<Money, TooLarge> {
        ratio::multiply_divide(self.amount.0, i128::from(quantity), i128::from(self.pieces)).map(Money)
    }
}

impl std::fmt::Display for Price {
    /// As the maker writes it: `4.50`, `54.00/dozen`.
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        let mut amount = self.amount.decimal().normalize();
        if amount.scale() < 2 {
            amount.rescale(2);
        }
        write!(f, "{amount}{}", if self.pieces == 1 { "" } else { "/dozen" })
    }
}

impl PartialOrd for Price {
    fn partial_cmp(&self, other: &Self) -> Option<std::cmp::Ordering> {
        Some(self.cmp(other))
    }
}

impl Ord for Price {
    /// By price a piece; a price quoted by the piece comes before the same one quoted by the dozen.
    fn cmp(&self, other: &Self) -> std::cmp::Ordering {
        let scaled = |price: &Self, by: i32| price.amount.0 * i128::from(by);
        scaled(self, other.pieces).cmp(&scaled(other, self.pieces)).then(self.pieces.cmp(&other.pieces))
    }
}

/// A number that is whole, as an integer; `None` where it has a fraction or does not fit.
#[must_use]
pub fn whole(value: Decimal) -> Option<i64> {
    value.fract().is_zero().then(|| i64::try_from(value.trunc().mantissa() / 10_i128.pow(value.trunc().scale())).ok()).flatten()
}

/// A percentage, exact to a millionth of one per cent.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Default)]
pub struct Percent(
    /// Millionths of one per cent: `10 %` is ten million.
    pub i64,
);

impl Percent {
    /// The whole, in millionths of a per cent.
    pub(crate) const WHOLE: i128 = 100_000_000;

    /// Reads `10 %`, `2.9%` or a bare `10`. A bare number below one could be meant either way and is refused.
    #[must_use]
    pub fn parse(text: &str) -> Option<Self> {
        let (number, signed) = match text.strip_suffix('%') {
            Some(number) => (number.trim_end(), true),
            None => (text, false),
        };
        Self::from_decimal(plain(number)?, signed)
    }

    /// A percentage of so many per cent, its sign written or not; from 0 to 1000. Without its sign a number below one could be meant
    /// either way and is refused.
    #[must_use]
    pub fn from_decimal(value: Decimal, signed: bool) -> Option<Self> {
        let ambiguous = !signed && value > Decimal::ZERO && value < Decimal::ONE;
        let stored = Money::from_decimal(value)?.0;
        (!ambiguous && value >= Decimal::ZERO && value <= Decimal::from(1000)).then(|| i64::try_from(stored).ok().map(Self)).flatten()
    }

    /// This share of `total`, rounded half away from zero.
    ///
    /// # Errors
    /// [`TooLarge`] where it does not fit.
    pub fn of(self, total: Money) -> Result<Money, TooLarge> {
        ratio::multiply_divide(total.0, i128::from(self.0), Self::WHOLE).map(Money)
    }
}

impl std::fmt::Display for Percent {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        write!(f, "{} %", Money(i128::from(self.0)).decimal().normalize())
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn plain_numbers_are_strict() {
        for (text, expected) in [("4.50", "4.50"), ("-3", "-3"), ("0", "0"), (".5", "0.5"), ("000123", "123")] {
            assert_eq!(plain(text), Some(expected.parse().unwrap()), "{text}");
        }
        for wrong in
            ["", "-", ".", "5.", "1,200", "$4", "1e5", "4 50", "+3", "--3", "٣", "1.2.3", "NaN", "1234567890123456789", "0.1234567890123"]
        {
            assert_eq!(plain(wrong), None, "{wrong}");
        }
    }

    #[test]
    fn a_dozen_price_loses_no_cent() {
        let price = |millionths, pieces| Price { amount: Money(millionths), pieces };
        assert_eq!(price(50_000_000, 12).times(24), Ok(Money(100_000_000)));
        assert_eq!(price(50_000_000, 12).times(1), Ok(Money(4_166_667)));
        assert!(price(50_000_000, 12) < price(4_170_000, 1) && price(4_160_000, 1) < price(50_000_000, 12));
        assert_eq!((price(50_000_000, 12).to_string(), price(2_125_000, 1).to_string()), ("50.00/dozen".into(), "2.125".into()));
    }

    #[test]
    fn percentages_below_one_need_their_sign() {
        assert_eq!((Percent::parse("10 %"), Percent::parse("10")), (Some(Percent(10_000_000)), Some(Percent(10_000_000))));
        assert_eq!((Percent::parse("0.5 %"), Percent::parse("0.5"), Percent::parse("-1 %")), (Some(Percent(500_000)), None, None));
        assert_eq!(Percent::parse("2.9 %").unwrap().of(Money(103_450_000)), Ok(Money(3_000_050)));
        assert_eq!(Percent::parse("2.9%").unwrap().to_string(), "2.9 %");
    }
}
