//! Money, minutes, shares and periods as a person reads them: in the shop's currency, rounded half away from zero.

use crate::quantity::millionths::{MILLION, Minutes, Money, minor_decimals};
use crate::quantity::{Month, Period, ratio};

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
    /// By its ISO 4217 code.
    #[must_use]
    pub fn of(code: &str) -> Self {
        let sign = SIGNS.iter().find(|(known, _)| *known == code).map_or_else(|| format!("{code} "), |(_, sign)| (*sign).to_owned());
        Self { sign, decimals: minor_decimals(code) }
    }

    /// An amount to the minor unit: `$1,234.50`, `−$3.00`.
    #[must_use]
    pub fn exact(&self, money: Money) -> String {
        self.write(money, self.decimals)
    }

    /// An amount to the main unit: `$1,235`.
    #[must_use]
    pub fn whole(&self, money: Money) -> String {
        self.write(money, 0)
    }

    /// An amount to the minor unit, rounded up: at this price and not a cent less.
    #[must_use]
    pub fn at_least(&self, money: Money) -> String {
        let unit = 10_i128.pow(6 - self.decimals);
        self.exact(Money(money.0 + (unit - money.0.rem_euclid(unit)) % unit))
    }

    /// An amount, or a dash where it is not known.
    #[must_use]
    pub fn known(&self, money: Option<Money>) -> String {
        money.map_or_else(|| UNKNOWN.to_owned(), |money| self.exact(money))
    }

    /// From one amount to another, to the main unit: `$17–21`.
    #[must_use]
    pub fn range(&self, low: Money, high: Money) -> String {
        if rounded(low.0, 0) == rounded(high.0, 0) {
            return self.whole(low);
        }
        if low < Money::ZERO {
            return format!("{} to {}", self.whole(low), self.whole(high));
        }
        format!("{}–{}", self.whole(low), grouped(rounded(high.0, 0).unsigned_abs(), 0))
    }

    fn write(&self, money: Money, decimals: u32) -> String {
        let rounded = rounded(money.0, decimals);
        let minus = if rounded < 0 { "−" } else { "" };
        format!("{minus}{}{}", self.sign, grouped(rounded.unsigned_abs(), decimals))
    }
}

/// What stands where a figure is not known.
pub const UNKNOWN: &str = "–";

/// Minutes as hours with one decimal: `61.0`.
#[must_use]
pub fn hours(minutes: Minutes) -> String {
    let tenths = rounded(ratio::divide(minutes.0, 60).unwrap_or_default(), 1);
    let minus = if tenths < 0 { "−" } else { "" };
    format!("{minus}{}", grouped(tenths.unsigned_abs(), 1))
}

/// A share of one, as a percentage without decimals.
#[must_use]
pub fn percent(share: Money) -> String {
    let percent = ratio::divide(share.0.saturating_mul(100), MILLION).unwrap_or_default();
    format!("{}{} %", if percent < 0 { "−" } else { "" }, percent.unsigned_abs())
}

/// A count with its noun: `1 order`, `12 orders`.
#[must_use]
pub fn counted(count: i64, one: &str, many: &str) -> String {
    if count == 1 { format!("1 {one}") } else { format!("{} {many}", grouped(count.unsigned_abs().into(), 0)) }
}

/// A name at the head of a sentence.
#[must_use]
pub fn capitalised(name: &str) -> String {
    let mut letters = name.chars();
    letters.next().map_or_else(String::new, |first| first.to_uppercase().chain(letters).collect())
}

/// A period in words.
#[must_use]
pub fn period_in_words(period: Period) -> String {
    match (period.month().map(Month::in_words), period.from, period.to) {
        (Some(month), ..) => month,
        (None, None, None) => "all time".into(),
        (None, Some(from), None) => format!("from {from}"),
        (None, None, Some(to)) => format!("until {to}"),
        (None, Some(from), Some(to)) => format!("{from} to {to}"),
    }
}

/// Millionths to so many decimals, half away from zero.
fn rounded(millionths: i128, decimals: u32) -> i128 {
    ratio::divide(millionths, 10_i128.pow(6 - decimals)).unwrap_or_default()
}

/// Digits with a point before the last `decimals`, and commas between thousands.
fn grouped(value: u128, decimals: u32) -> String {
    let unit = 10_u128.pow(decimals);
    let digits = (value / unit).to_string();
    let mut whole = String::new();
    for (at, digit) in digits.chars().enumerate() {
        if at > 0 && (digits.len() - at).is_multiple_of(3) {
            whole.push(',');
        }
        whole.push(digit);
    }
    if decimals == 0 { whole } else { format!("{whole}.{:0width$}", value % unit, width = decimals as usize) }
}

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
        assert_eq!(dollars.range(Money(9_400_000), Money(1_013_500_000)), "$9–1,014");
        assert_eq!(dollars.range(Money(-3_400_000), Money(2_000_000)), "−$3 to $2");
        assert_eq!(dollars.range(Money(-3_400_000), Money(-3_000_000)), "−$3");
        assert_eq!([7_430_700, 7_430_000, -1_001].map(|money| dollars.at_least(Money(money))), ["$7.44", "$7.43", "$0.00"]);
    }

    #[test]
    fn hours_and_shares_are_short() {
        assert_eq!((hours(Minutes(3_660_000_000)), hours(Minutes(-90_000_000))), ("61.0".into(), "−1.5".into()));
        assert_eq!(
            (percent(Money(125_000)), counted(1, "order", "orders"), counted(1200, "order", "orders")),
            ("13 %".into(), "1 order".into(), "1,200 orders".into())
        );
    }
}
