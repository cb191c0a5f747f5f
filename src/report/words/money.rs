//! Money as a person reads it: in the shop's currency, rounded half away from zero.

use super::numbers::{grouped, rounded};
use crate::quantity::millionths::{MILLION, Money, minor_decimals};

/// How a currency is written.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Currency {
    /// Before the number.
    pub sign: String,
    /// Decimals of its minor unit.
    pub decimals: u32,
}

/// Signs that stand for one currency among the makers who use it; others are written by their code.
const SIGNS: &[(&str, &str)] = &[
    ("USD", "$"),
    ("CAD", "$"),
    ("AUD", "$"),
    ("NZD", "$"),
    ("EUR", "€"),
    ("GBP", "£"),
    ("JPY", "¥"),
    ("INR", "₹"),
    ("KRW", "₩"),
    ("PHP", "₱"),
];

impl Currency {
    /// Finds a currency by its ISO 4217 code; one without a sign of its own is written by the code.
    #[must_use]
    pub fn of(code: &str) -> Self {
        let sign = SIGNS.iter().find(|(known, _)| *known == code).map_or_else(|| format!("{code} "), |(_, sign)| (*sign).to_owned());
        Self { sign, decimals: minor_decimals(code) }
    }

    /// Writes an amount to the minor unit: `$1,234.50`, `−$3.00`.
    #[must_use]
    pub fn exact(&self, money: Money) -> String {
        self.write(money, self.decimals)
    }

    /// Writes an amount to the main unit: `$1,235`.
    #[must_use]
    pub fn whole(&self, money: Money) -> String {
        self.write(money, 0)
    }

    /// Writes an amount without decimals where it has none: `$20`, else `$20.50`.
    #[must_use]
    pub fn short(&self, money: Money) -> String {
        if money.0 % MILLION == 0 { self.whole(money) } else { self.exact(money) }
    }

    /// Writes an amount to the minor unit, rounded up: at this price and not a cent less.
    #[must_use]
    pub(crate) fn at_least(&self, money: Money) -> String {
        let unit = 10_i128.pow(6 - self.decimals);
        self.exact(Money(money.0 + (unit - money.0.rem_euclid(unit)) % unit))
    }

    /// Writes an amount to the minor unit, or a dash where it is not known.
    #[must_use]
    pub fn known(&self, money: Option<Money>) -> String {
        money.map_or_else(|| UNKNOWN.to_owned(), |money| self.exact(money))
    }

    /// Writes the range about an amount to the main unit: `$17–21`. Where its ends would round alike or to one side of the amount, it has
    /// decimals: `$0.5–0.7`; blank where these do not help.
    #[must_use]
    pub fn range(&self, low: Money, about: Money, high: Money) -> String {
        let mut ranges = (0..=self.decimals).map(|decimals| self.range_to(decimals, low, about, high));
        ranges.find_map(|range| range).unwrap_or_default()
    }

    /// Writes the same for a table, which has no room for decimals: blank where these would be needed.
    #[must_use]
    pub(crate) fn whole_range(&self, low: Money, about: Money, high: Money) -> String {
        self.range_to(0, low, about, high).unwrap_or_default()
    }

    fn range_to(&self, decimals: u32, low: Money, about: Money, high: Money) -> Option<String> {
        let [from, to] = [low, high].map(|end| rounded(end.0, decimals) * 10_i128.pow(6 - decimals));
        if from >= to || !(from..=to).contains(&about.clamp(low, high.max(low)).0) {
            return None;
        }
        let (from, to) = (self.write(low, decimals), self.write(high, decimals));
        Some(if low < Money::ZERO { format!("{from} to {to}") } else { format!("{from}–{}", to.trim_start_matches(self.sign.as_str())) })
    }

    /// Writes an amount without its sign, to the main unit, or to the minor one below half of a main one: `$312`, `$0.30`.
    #[must_use]
    pub fn size(&self, money: Money) -> String {
        let size = Money(money.0.abs());
        if Self::is_same_whole(size, Money::ZERO) { self.exact(size) } else { self.whole(size) }
    }

    /// Writes a change to the main unit: `+$51`, `−$120`.
    #[must_use]
    pub(crate) fn whole_change(&self, money: Money) -> String {
        format!("{}{}", if rounded(money.0, 0) > 0 { "+" } else { "" }, self.whole(money))
    }

    /// Writes a change to the minor unit: `+$51.00`, `−$120.33`, `$0.00`.
    #[must_use]
    pub fn change(&self, money: Money) -> String {
        let plus = if rounded(money.0, self.decimals) > 0 { "+" } else { "" };
        format!("{plus}{}", self.exact(money))
    }

    /// Writes a range to the minor unit: `$7.25–8.10`; blank where its ends round alike.
    #[must_use]
    pub(crate) fn exact_range(&self, low: Money, high: Money) -> String {
        if rounded(low.0, self.decimals) == rounded(high.0, self.decimals) {
            return String::new();
        }
        let high = Self { sign: String::new(), ..*self }.exact(high);
        format!("{}–{high}", self.exact(low))
    }

    /// Returns whether an amount is 0 to the minor unit.
    #[must_use]
    pub(crate) fn is_nil(&self, money: Money) -> bool {
        rounded(money.0, self.decimals) == 0
    }

    /// Returns whether two amounts are the same in whole main units.
    #[must_use]
    pub(crate) fn is_same_whole(one: Money, other: Money) -> bool {
        rounded(one.0, 0) == rounded(other.0, 0)
    }

    fn write(&self, money: Money, decimals: u32) -> String {
        let rounded = rounded(money.0, decimals);
        let minus = if rounded < 0 { "−" } else { "" };
        format!("{minus}{}{}", self.sign, grouped(rounded.unsigned_abs(), decimals))
    }
}

/// What stands where a figure is not known.
pub const UNKNOWN: &str = "–";

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn money_rounds_half_away_from_zero_to_the_minor_unit() {
        let dollars = Currency::of("USD");
        for (money, expected) in
            [(1_234_505_000, "$1,234.51"), (-5_000, "−$0.01"), (-4_999, "$0.00"), (0, "$0.00"), (999_999_999_995_000, "$1,000,000,000.00")]
        {
            assert_eq!(dollars.exact(Money(money)), expected);
        }
        assert_eq!(dollars.whole(Money(1_500_000)), "$2");
        assert_eq!(Currency::of("JPY").exact(Money(1_500_000)), "¥2");
        assert_eq!(Currency::of("KWD").exact(Money(1_500_000)), "KWD 1.500");
        assert_eq!(dollars.known(None), "–");
        let range = |low, about, high| dollars.range(Money(low), Money(about), Money(high));
        assert_eq!(range(9_400_000, 12_000_000, 1_013_500_000), "$9–1,014");
        assert_eq!(range(-3_400_000, 0, 2_000_000), "−$3 to $2");
        assert_eq!(range(-3_400_000, -3_200_000, -3_000_000), "−$3.4 to −$3.0");
        assert_eq!(range(500_000, 570_000, 640_000), "$0.5–0.6");
        assert_eq!(range(12_600_000, 12_700_000, 13_600_000), "$12.6–13.6", "$13–14 would leave $12.70 out");
        assert_eq!(range(500_000, 640_000, 640_000), "$0.50–0.64");
        assert_eq!(range(12_010_000, 12_011_000, 12_012_000), "");
        let whole = |low, about, high| dollars.whole_range(Money(low), Money(about), Money(high));
        assert_eq!([whole(12_400_000, 12_500_000, 13_600_000), whole(12_600_000, 12_700_000, 13_600_000)], ["$12–14", ""]);
        assert_eq!(dollars.exact_range(Money(4_350_000), Money(4_351_000)), "");
        assert_eq!([-312_400_000, 499_000].map(|money| dollars.size(Money(money))), ["$312", "$0.50"]);
        assert_eq!([51_000_000, -120_000_000, 0].map(|money| dollars.whole_change(Money(money))), ["+$51", "−$120", "$0"]);
        assert_eq!([7_430_700, 7_430_000, -1_001].map(|money| dollars.at_least(Money(money))), ["$7.44", "$7.43", "$0.00"]);
    }
}
