//! Numbers with a decimal point or a decimal comma, plain or with thousands marks.
//!
//! The marks and groups are those of the Unicode CLDR's number patterns (`fixtures/cldr/numbers.json`): thousands in threes, or, with
//! commas, as in India (`1,00,000`). A text whose groups are otherwise is not a number.

use super::{Format, Style, Wrong};
use crate::reading::problem_kind::{NOT_A_NUMBER, TOO_LARGE, TOO_SMALL};
use crate::reading::specification::Least;
use rust_decimal::Decimal;

/// Largest money, minutes and numbers a cell may hold; larger is a slip of the keyboard.
const MOST: i64 = 1_000_000_000;
/// Most digits before the decimal mark.
const WHOLE_DIGITS: usize = 18;
/// Most digits after it.
const DECIMALS: usize = 12;
/// Advice on a number too large to be meant.
pub(in crate::reading) const SLIP: &str = "check it for a typing slip";
/// Advice on a number with more decimals than are kept.
pub(in crate::reading) const DECIMALS_KEPT: &str = "round it to six decimals or fewer";

/// What stands before a number's decimals.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Mark {
    /// `1234.50`
    Point,
    /// `1234,50`
    Comma,
}

impl Style for Mark {
    const ALL: &'static [Self] = &[Self::Point, Self::Comma];

    fn name(self) -> &'static str {
        match self {
            Self::Point => "decimal point",
            Self::Comma => "decimal comma",
        }
    }
}

impl Mark {
    fn sign(self) -> char {
        match self {
            Self::Point => '.',
            Self::Comma => ',',
        }
    }

    /// Whether a sign may stand between thousands.
    fn groups_by(self, sign: char) -> bool {
        let other = if self == Self::Point { ',' } else { '.' };
        sign == other || matches!(sign, ' ' | '\u{A0}' | '\u{202F}' | '\u{2009}' | '\'' | '’')
    }

    /// A text that has a point for decimals, as this mark writes it: `4.50/dozen` is `4,50/dozen`.
    #[must_use]
    pub fn write(self, text: &str) -> String {
        match self {
            Self::Point => text.to_owned(),
            Self::Comma => text.replace('.', ","),
        }
    }
}

/// Whether what a text says may depend on the decimal mark.
#[must_use]
pub(crate) fn depends(text: &str) -> bool {
    memchr::memchr2(b'.', b',', text.as_bytes()).is_some()
}

/// Reads a number: optionally a minus before or after it, or brackets for one; at most 18 digits before the decimal mark and 12 after it.
#[must_use]
pub fn read(text: &str, mark: Mark) -> Option<Decimal> {
    if text.starts_with(|c: char| c.is_ascii_digit()) && text.ends_with(|c: char| c.is_ascii_digit()) {
        return unsigned(text, mark);
    }
    let (is_negative, text) = signed(text);
    let mut value = unsigned(text, mark)?;
    value.set_sign_negative(is_negative && !value.is_zero());
    Some(value)
}

/// Takes a minus off a text: `-3.50`, `−3.50` (U+2212), `3.50-` or `(3.50)`.
#[must_use]
pub(crate) fn signed(text: &str) -> (bool, &str) {
    let minus = [("(", ")"), ("-", ""), ("\u{2212}", ""), ("", "-"), ("", "\u{2212}")];
    let inner = minus.iter().find_map(|(before, after)| text.strip_prefix(before)?.strip_suffix(after));
    inner.map_or((false, text), |inner| (true, inner.trim()))
}

/// Reads a number without a sign.
#[must_use]
pub(crate) fn unsigned(text: &str, mark: Mark) -> Option<Decimal> {
    let (whole, decimals) = match text.rsplit_once(mark.sign()) {
        Some((_, "")) => return None,
        Some((whole, decimals)) => (whole, decimals),
        None if text.is_empty() => return None,
        None => (text, ""),
    };
    if decimals.len() > DECIMALS || !is_digits(decimals) || !(is_digits(whole) || is_grouped(whole, mark)) {
        return None;
    }
    let digits = || whole.bytes().filter(u8::is_ascii_digit);
    if digits().count() > WHOLE_DIGITS {
        return None;
    }
    let value = digits().chain(decimals.bytes()).fold(0_i128, |value, digit| value * 10 + i128::from(digit - b'0'));
    let scale = u32::try_from(decimals.len()).ok()?;
    // 28 digits fit; of more, which are far too large for any cell, the last decimals are dropped.
    let exact = Decimal::try_from_i128_with_scale(value, scale).ok();
    exact.or_else(|| Decimal::try_from_i128_with_scale(value / 1_000_000, scale.checked_sub(6)?).ok())
}

fn is_digits(text: &str) -> bool {
    text.bytes().all(|byte| byte.is_ascii_digit())
}

/// Whether a whole number has its thousands marked: one mark throughout, groups of three, or of two before the last where the mark is a
/// comma, and no nought in front.
fn is_grouped(whole: &str, mark: Mark) -> bool {
    let Some(sign) = whole.chars().find(|c| !c.is_ascii_digit()).filter(|sign| mark.groups_by(*sign)) else { return false };
    let mut groups = whole.split(sign);
    let (Some(first), Some(last)) = (groups.next(), groups.next_back()) else { return false };
    let between: Vec<usize> = groups.clone().map(str::len).collect();
    let is_of = |size: usize| (1..=size).contains(&first.len()) && between.iter().all(|length| *length == size);
    let is_sound = !first.starts_with('0') && last.len() == 3 && [first, last].into_iter().chain(groups).all(is_digits);
    is_sound && (is_of(3) || (sign == ',' && is_of(2)))
}

/// Checks a number against what its column may hold.
pub(in crate::reading) fn bounded(value: Decimal, least: Least) -> Result<Decimal, Wrong> {
    let low = match least {
        Least::Any => false,
        Least::Nil => value < Decimal::ZERO,
        Least::AboveNil => value <= Decimal::ZERO,
        Least::NotNil => value.is_zero(),
    };
    if low {
        return Err(match least {
            Least::NotNil => (&TOO_SMALL, "is zero".into(), "write a number other than 0".into()),
            Least::AboveNil => (&TOO_SMALL, "is not more than 0".into(), "write a number above 0".into()),
            _ => (&TOO_SMALL, "is less than 0".into(), "write it without a minus".into()),
        });
    }
    if value.abs() > Decimal::from(MOST) {
        return Err((&TOO_LARGE, "is more than a billion".into(), SLIP.into()));
    }
    Ok(value)
}

/// Advice on a text that is no number.
pub(in crate::reading) fn advice(mark: Mark) -> String {
    let name = if mark == Mark::Point { "point" } else { "comma" };
    format!("write digits alone, with a {name} for decimals, as {}", mark.write("1234.50"))
}

/// Writes a number in a style; noughts that could be taken for thousands are left away.
pub(in crate::reading) fn write(value: Decimal, mark: Mark) -> String {
    mark.write(&if value.scale() > 2 { value.normalize() } else { value }.to_string())
}

/// Plain numbers.
pub(in crate::reading) struct Numbers {
    pub least: Least,
}

impl Format for Numbers {
    type Style = Mark;
    type Plain = Decimal;
    type Value = Decimal;

    fn depends(&self, text: &str) -> bool {
        depends(text)
    }

    fn plain(&self, text: &str, mark: Mark) -> Option<Decimal> {
        read(text, mark)
    }

    fn read(&self, text: &str, mark: Mark) -> Result<Decimal, Wrong> {
        bounded(read(text, mark).ok_or_else(|| (&NOT_A_NUMBER, "is not a number".into(), advice(mark)))?, self.least)
    }

    fn written(&self, plain: &Decimal, mark: Mark) -> String {
        write(*plain, mark)
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::quantity::number::plain;
    use proptest::prelude::*;

    fn both(text: &str) -> (Option<String>, Option<String>) {
        let said = |mark| read(text, mark).map(|value| value.to_string());
        (said(Mark::Point), said(Mark::Comma))
    }

    #[test]
    fn each_style_has_its_numbers() {
        for (text, point, comma) in [
            ("1234", Some("1234"), Some("1234")),
            ("4.50", Some("4.50"), None),
            ("4,50", None, Some("4.50")),
            (".5", Some("0.5"), None),
            ("1,500", Some("1500"), Some("1.500")),
            ("1.500", Some("1.500"), Some("1500")),
            ("0,500", None, Some("0.500")),
            ("0.500", Some("0.500"), None),
            ("1,234.50", Some("1234.50"), None),
            ("1.234,50", None, Some("1234.50")),
            ("1,234,567", Some("1234567"), None),
            ("1.234.567", None, Some("1234567")),
            ("1,00,000.50", Some("100000.50"), None),
            ("12,34,567", Some("1234567"), None),
            ("1 234,50", None, Some("1234.50")),
            ("1\u{202F}234\u{202F}567,5", None, Some("1234567.5")),
            ("1\u{A0}234.50", Some("1234.50"), None),
            ("1\u{2009}234", Some("1234"), Some("1234")),
            ("1'234.50", Some("1234.50"), None),
            ("1’234’567,50", None, Some("1234567.50")),
            ("-1,234.50", Some("-1234.50"), None),
            ("\u{2212}3,50", None, Some("-3.50")),
            ("3.50-", Some("-3.50"), None),
            ("(1.234,50)", None, Some("-1234.50")),
        ] {
            assert_eq!(both(text), (point.map(str::to_owned), comma.map(str::to_owned)), "{text}");
        }
    }

    #[test]
    fn wrongly_grouped_texts_are_no_numbers() {
        for wrong in [
            "",
            "-",
            ".",
            ",",
            "5.",
            "5,",
            "1,23,4567.0",
            "12,3456.0",
            "1,2345,678",
            "1234,567.0",
            "1,234'567",
            "1 234,567.0",
            "1  234",
            "01,234.0",
            "1'23",
            "1 2345",
            "1.00.000,5",
            "1 00 000",
            "1,,234.0",
            "--3",
            "-(3)",
            "(3",
            "3)",
            "+3",
            "1e5",
            "٣",
            "NaN",
            "1.2.3",
            "1,2,3",
            "$4",
            "1234567890123456789",
            "0.1234567890123",
        ] {
            assert_eq!(both(wrong), (None, None), "{wrong}");
        }
    }

    proptest! {
        #[test]
        fn plain_numbers_are_read_as_ever(text in "-?[0-9]{0,20}(\\.[0-9]{0,13})?") {
            let value = plain(&text);
            // Of more than 28 digits both keep what fits, which is far more than any cell may hold.
            if text.bytes().filter(u8::is_ascii_digit).count() <= 28 {
                prop_assert_eq!(read(&text, Mark::Point).map(|value| value.to_string()), value.map(|value| value.to_string()));
            } else {
                prop_assert_eq!(read(&text, Mark::Point).is_some(), value.is_some());
            }
        }
    }
}
