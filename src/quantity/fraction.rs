//! Numbers with a common fraction: `1/2`, `1 1/2`, `2½`.

use rust_decimal::Decimal;

/// The fractions that Unicode has as one sign, and what each is.
const SIGNS: [(char, u32, u32); 9] =
    [('½', 1, 2), ('⅓', 1, 3), ('⅔', 2, 3), ('¼', 1, 4), ('¾', 3, 4), ('⅛', 1, 8), ('⅜', 3, 8), ('⅝', 5, 8), ('⅞', 7, 8)];
/// The parts a whole is commonly cut into.
const PARTS: [u32; 6] = [2, 3, 4, 6, 8, 12];

/// A number over a small whole one, so that thirds are exact.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(crate) struct Fraction {
    /// What stands above the line.
    pub above: Decimal,
    /// What stands below it.
    pub below: u32,
}

impl Fraction {
    /// Reads a number, as `number` reads it, or a whole number and a fraction below 1, or such a fraction alone.
    #[must_use]
    pub fn read(text: &str, number: impl Fn(&str) -> Option<Decimal>) -> Option<Self> {
        number(text).map(|above| Self { above, below: 1 }).or_else(|| Self::mixed(text))
    }

    fn mixed(text: &str) -> Option<Self> {
        let sign = text.chars().next_back().and_then(|last| SIGNS.iter().find(|(sign, ..)| *sign == last));
        let (whole, above, below) = match sign {
            Some((sign, above, below)) => (text.strip_suffix(*sign)?.trim_end(), *above, *below),
            None => {
                let (left, below) = text.split_once('/')?;
                let (whole, above) = left.trim_end().rsplit_once(char::is_whitespace).unwrap_or(("", left.trim_end()));
                (whole.trim_end(), small(above)?, small(below.trim_start()).filter(|below| PARTS.contains(below))?)
            }
        };
        let whole = if whole.is_empty() { 0 } else { small(whole)? };
        (0 < above && above < below).then(|| Self { above: Decimal::from(whole * below + above), below })
    }

    /// As a decimal number; `None` where that never ends, as of a third.
    #[must_use]
    pub fn decimal(self) -> Option<Decimal> {
        if self.below == 1 {
            return Some(self.above);
        }
        let below = Decimal::from(self.below);
        let value = self.above.checked_div(below)?.normalize();
        (value.checked_mul(below) == Some(self.above)).then_some(value)
    }
}

/// A whole number of at most four digits.
fn small(text: &str) -> Option<u32> {
    ((1..=4).contains(&text.len()) && text.bytes().all(|byte| byte.is_ascii_digit())).then(|| text.parse().ok()).flatten()
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::quantity::number;

    #[test]
    fn numbers_and_fractions_are_read() {
        let read = |text: &str| Fraction::read(text, number::plain).map(|read| (read.above.to_string(), read.below));
        for (text, above, below) in
            [("2", "2", 1), ("1.5", "1.5", 1), ("1/2", "1", 2), ("1 1/2", "3", 2), ("2½", "5", 2), ("2 ¼", "9", 4), ("⅔", "2", 3)]
        {
            assert_eq!(read(text), Some((above.to_owned(), below)), "{text}");
        }
        for wrong in ["", "/", "1/", "/2", "24/2", "1/5", "1/0", "1 1 1/2", "1.5 1/2", "-1/2", "½½", "1/2/3", "00001/2"] {
            assert_eq!(read(wrong), None, "{wrong}");
        }
        assert_eq!(Fraction::read("1 3/8", number::plain).and_then(Fraction::decimal).map(|value| value.to_string()), Some("1.375".into()));
        assert_eq!(Fraction::read("1/3", number::plain).and_then(Fraction::decimal), None);
    }
}
