//! Hours, minutes and shares as a person reads them.

use crate::quantity::millionths::Share;
use crate::quantity::millionths::{MILLION, Minutes, Money};
use crate::quantity::ratio::{self, divide};

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

/// A chance as a person reads it: never quite certain.
#[must_use]
pub fn chance_in_words(chance: Share) -> String {
    match divide(chance.0 * 100, MILLION).unwrap_or_default() {
        0 => "under 1 %".to_owned(),
        100 => "over 99 %".to_owned(),
        share => format!("{share} %"),
    }
}

/// Minutes with one decimal.
#[must_use]
pub fn tenths(minutes: Minutes) -> String {
    let tenths = divide(minutes.0, 100_000).unwrap_or_default();
    format!("{}{}.{}", if tenths < 0 { "−" } else { "" }, tenths.abs() / 10, tenths.abs() % 10)
}

/// Minutes to the tenth; from a hundred on, whole.
#[must_use]
pub fn estimate(minutes: f64) -> String {
    if minutes.abs() >= 99.95 { format!("{minutes:.0}") } else { format!("{minutes:.1}") }
}

/// A stretch of an order: `45 min`, `3 h 10 min`.
#[must_use]
pub fn spell(minutes: f64) -> String {
    #[expect(clippy::cast_possible_truncation, reason = "minutes of an order")]
    let whole = minutes.round() as i64;
    if whole < 60 { format!("{whole} min") } else { format!("{} h {:02} min", whole / 60, whole % 60) }
}

/// Millionths to so many decimals, half away from zero.
pub(super) fn rounded(millionths: i128, decimals: u32) -> i128 {
    ratio::divide(millionths, 10_i128.pow(6 - decimals)).unwrap_or_default()
}

/// Digits with a point before the last `decimals`, and commas between thousands.
pub(super) fn grouped(value: u128, decimals: u32) -> String {
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
    fn hours_and_shares_are_short() {
        assert_eq!((hours(Minutes(3_660_000_000)), hours(Minutes(-90_000_000))), ("61.0".into(), "−1.5".into()));
        assert_eq!((percent(Money(125_000)), percent(Money(-125_000))), ("13 %".into(), "−13 %".into()));
    }
}
