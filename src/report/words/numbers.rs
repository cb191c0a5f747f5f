//! Hours, minutes, pieces and shares as a person reads them: thousands parted, at most one decimal.

use crate::quantity::millionths::Share;
use crate::quantity::millionths::{MILLION, Minutes, Money};
use crate::quantity::ratio::{self, divide};

/// Writes minutes as hours with one decimal: `61.0`, `1,115.5`.
#[must_use]
pub fn hours(minutes: Minutes) -> String {
    signed(rounded(ratio::divide(minutes.0, 60).unwrap_or_default(), 1), 1)
}

/// Writes a share of one as a percentage without decimals: `13 %`.
#[must_use]
pub fn percent(share: Money) -> String {
    format!("{} %", signed(rounded(share.0.saturating_mul(100), 0), 0))
}

/// Writes a chance as a percentage that is never quite certain: `under 1 %`, `64 %`, `over 99 %`.
#[must_use]
pub fn chance_in_words(chance: Share) -> String {
    match divide(chance.0 * 100, MILLION).unwrap_or_default() {
        0 => "under 1 %".to_owned(),
        100 => "over 99 %".to_owned(),
        share => format!("{share} %"),
    }
}

/// Writes a share of one as a percentage with one decimal: `28.1 %`.
#[must_use]
pub fn percent_to_tenths(share: Money) -> String {
    format!("{} %", signed(rounded(share.0.saturating_mul(100), 1), 1))
}

/// Writes an estimated share of one as a percentage without decimals.
#[must_use]
pub fn estimated_percent(share: f64) -> String {
    Money::from_estimate(share).map_or_else(|| super::UNKNOWN.to_owned(), percent)
}

/// Writes minutes with one decimal: `27.1`.
#[must_use]
pub fn tenths(minutes: Minutes) -> String {
    signed(rounded(minutes.0, 1), 1)
}

/// Writes pieces given in millionths, to a whole one: `1,206`.
#[must_use]
pub fn pieces(millionths: i128) -> String {
    signed(rounded(millionths, 0), 0)
}

/// Writes estimated minutes to the tenth; from a hundred on, whole.
#[must_use]
pub fn estimate(minutes: f64) -> String {
    let decimals = u32::from(minutes.abs() < 99.95);
    Minutes::from_estimate(minutes).map_or_else(|| super::UNKNOWN.to_owned(), |minutes| signed(rounded(minutes.0, decimals), decimals))
}

/// Writes a range of estimated minutes: `1.3–2.7`.
#[must_use]
pub fn estimate_range(low: f64, high: f64) -> String {
    format!("{}–{}", estimate(low), estimate(high))
}

/// Writes a stretch of an order: `45 min`, `3 h 10 min`.
#[must_use]
pub fn spell(minutes: f64) -> String {
    #[expect(clippy::cast_possible_truncation, reason = "minutes of an order")]
    let whole = minutes.round() as i64;
    if whole < 60 { format!("{whole} min") } else { format!("{} h {:02} min", super::number(whole / 60), whole % 60) }
}

/// Keeps a number and its unit on one line, by a no-break space between them: `90 %`, `3 h 10 min`.
#[must_use]
pub fn unbroken(text: &str) -> String {
    let is_unit =
        |word: &str| matches!(word.trim_end_matches(|letter: char| !letter.is_alphanumeric() && letter != '%'), "%" | "h" | "min");
    let mut words = text.split_ascii_whitespace();
    let Some(first) = words.next() else { return String::new() };
    let (mut joined, mut before) = (first.to_owned(), first);
    for word in words {
        let is_one = is_unit(word) && before.ends_with(|letter: char| letter.is_ascii_digit());
        joined.push(if is_one || (before == "h" && word.starts_with(|letter: char| letter.is_ascii_digit())) { NO_BREAK } else { ' ' });
        joined.push_str(word);
        before = word;
    }
    joined
}

/// A space at which no line is broken.
pub const NO_BREAK: char = '\u{a0}';

/// A number with its sign, so many of its digits decimals.
fn signed(value: i128, decimals: u32) -> String {
    format!("{}{}", if value < 0 { "−" } else { "" }, grouped(value.unsigned_abs(), decimals))
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
        assert_eq!((percent_to_tenths(Money(281_049)), estimated_percent(0.124)), ("28.1 %".into(), "12 %".into()));
    }

    #[test]
    fn thousands_are_parted_everywhere() {
        assert_eq!([1_206_000_000, 204_800_000, -1_000_000].map(pieces), ["1,206", "205", "−1"]);
        assert_eq!((hours(Minutes(75_000_000_000)), tenths(Minutes(1_234_560_000))), ("1,250.0".into(), "1,234.6".into()));
        assert_eq!([2.34, 99.96, 1234.6].map(estimate), ["2.3", "100", "1,235"]);
        assert_eq!(
            (estimate_range(1.3, 2.71), spell(64.0), spell(60_000.0)),
            ("1.3–2.7".into(), "1 h 04 min".into(), "1,000 h 00 min".into())
        );
    }

    #[test]
    fn a_number_and_its_unit_stay_together() {
        assert_eq!(unbroken("it is 90 % sure (3 h 10 min), or 5 more"), "it is 90\u{a0}% sure (3\u{a0}h\u{a0}10\u{a0}min), or 5 more");
        assert_eq!(unbroken("  a %  b "), "a % b");
    }
}
