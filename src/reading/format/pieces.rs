//! Pieces, and other whole numbers.

use super::fraction::Fraction;
use super::number::{self, Mark, SLIP, bounded};
use super::price::DOZEN;
use super::{Format, Wrong};
use crate::reading::problem_kind::{NOT_PIECES, NOT_WHOLE, TOO_LARGE};
use crate::reading::specification::Least;
use rust_decimal::Decimal;

/// Most pieces in one line.
const MOST_PIECES: i64 = 1_000_000;
/// Words for pieces.
const PIECES: [&str; 11] = ["pcs", "pc", "pieces", "piece", "ct", "count", "cookies", "cookie", "each", "ea", "x"];
/// Words for half of a dozen, and for one.
const HALF: [&str; 4] = ["half", "half a", "a half", "half-"];
const ONE: [&str; 2] = ["a", "one"];

/// Reads pieces: `24`, `24 pcs`, `2 dozen`, `half a dozen`, `1 1/2 dz`. `None` where they are not whole.
#[must_use]
pub fn read(text: &str, mark: Mark) -> Option<i64> {
    let ends = text.trim_end_matches(['.', '×']);
    let number = ends.trim_end_matches(|c: char| c.is_ascii_alphabetic());
    let (unit, number) = (&ends[number.len()..], number.trim_end());
    let is = |words: &[&str], text: &str| words.iter().any(|word| word.eq_ignore_ascii_case(text));
    let (number, times) = if is(&DOZEN, unit) {
        // "half a" ends with letters, as a unit does.
        (number, 12)
    } else if is(&PIECES, unit) || unit.is_empty() {
        (number, 1)
    } else {
        return None;
    };
    let count = match number {
        number if times == 12 && is(&ONE, number) => Fraction { above: Decimal::ONE, below: 1 },
        number if times == 12 && is(&HALF, number) => Fraction { above: Decimal::ONE, below: 2 },
        number => Fraction::read(number, mark)?,
    };
    whole(Fraction { above: count.above.checked_mul(Decimal::from(times))?, ..count }.decimal()?)
}

/// A number that is whole.
fn whole(value: Decimal) -> Option<i64> {
    value.fract().is_zero().then(|| i64::try_from(value.trunc().mantissa() / 10_i128.pow(value.trunc().scale())).ok()).flatten()
}

/// Pieces, or dozens of them.
pub(in crate::reading) struct Pieces {
    pub least: Least,
}

impl Format for Pieces {
    type Style = Mark;
    type Plain = i64;
    type Value = i64;

    fn depends(&self, text: &str) -> bool {
        number::depends(text)
    }

    fn plain(&self, text: &str, mark: Mark) -> Option<i64> {
        read(text, mark)
    }

    fn read(&self, text: &str, mark: Mark) -> Result<i64, Wrong> {
        let advice = || "write pieces as 24, or dozens as 2 dozen".to_owned();
        let count = read(text, mark).ok_or_else(|| (&NOT_PIECES, "is not a whole number of pieces".into(), advice()))?;
        bounded(Decimal::from(count), self.least)?;
        if count > MOST_PIECES {
            return Err((&TOO_LARGE, "is more than a million pieces".into(), SLIP.into()));
        }
        Ok(count)
    }

    fn written(&self, plain: &i64, _: Mark) -> String {
        plain.to_string()
    }
}

/// Small whole numbers from 0 up.
pub(in crate::reading) struct Wholes;

impl Format for Wholes {
    type Style = Mark;
    type Plain = i64;
    type Value = i64;

    fn depends(&self, text: &str) -> bool {
        number::depends(text)
    }

    fn plain(&self, text: &str, mark: Mark) -> Option<i64> {
        number::read(text, mark).and_then(whole)
    }

    fn read(&self, text: &str, mark: Mark) -> Result<i64, Wrong> {
        let not = || (&NOT_WHOLE, "is not a whole number".into(), "write a whole number, as 5".into());
        let count = self.plain(text, mark).ok_or_else(not)?;
        bounded(Decimal::from(count), Least::Nil)?;
        if count > MOST_PIECES {
            return Err((&TOO_LARGE, "is more than a million".into(), SLIP.into()));
        }
        Ok(count)
    }

    fn written(&self, plain: &i64, _: Mark) -> String {
        plain.to_string()
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn dozens_are_pieces() {
        for (text, expected) in [
            ("24", 24),
            ("-3", -3),
            ("1,200", 1200),
            ("24 pcs", 24),
            ("24 pieces", 24),
            ("24 ct", 24),
            ("24ct.", 24),
            ("24x", 24),
            ("24 ×", 24),
            ("2 dozen", 24),
            ("2 Dozens", 24),
            ("1.5 dozen", 18),
            ("2 dz", 24),
            ("2doz.", 24),
            ("a dozen", 12),
            ("half dozen", 6),
            ("half a dozen", 6),
            ("Half-dozen", 6),
            ("1/2 doz", 6),
            ("1 1/2 dz", 18),
            ("2½ dozen", 30),
            ("1/3 dozen", 4),
            ("1/12 dozen", 1),
        ] {
            assert_eq!(read(text, Mark::Point), Some(expected), "{text}");
        }
        assert_eq!(
            (read("1,5 dozen", Mark::Comma), read("1.200 Stk", Mark::Comma), read("1.200", Mark::Comma)),
            (Some(18), None, Some(1200))
        );
        for wrong in
            ["", "dozen", "2.5", "1.3 dozen", "1/2", "half", "a", "two dozen", "24 boxes", "24/2", "1/8 dozen", "99999999999999999999"]
        {
            assert_eq!(read(wrong, Mark::Point), None, "{wrong}");
        }
    }
}
