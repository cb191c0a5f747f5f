//! Pieces, and other whole numbers.

use super::number::{self, Mark, SLIP, bounded};
use super::{Format, Wrong};
use crate::quantity::dozens;
use crate::quantity::number::whole;
use crate::reading::problem_kind::{NOT_PIECES, NOT_WHOLE, TOO_LARGE};
use crate::reading::specification::Least;
use rust_decimal::Decimal;

/// Most pieces in one line.
const MOST_PIECES: i64 = 1_000_000;
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
        dozens::pieces(text, |text| number::read(text, mark))
    }

    fn read(&self, text: &str, mark: Mark) -> Result<i64, Wrong> {
        let advice = || "write pieces as 24, or dozens as 2 dozen".to_owned();
        let count = self.plain(text, mark).ok_or_else(|| (&NOT_PIECES, "is not a whole number of pieces".into(), advice()))?;
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
    fn pieces_and_dozens_are_read_with_the_decimal_mark_of_their_column() {
        let pieces = Pieces { least: Least::AboveNil };
        for (text, point, comma) in [
            ("24 pcs", Some(24), Some(24)),
            ("two dozen", Some(24), Some(24)),
            ("1,200", Some(1200), None),
            ("1 200 ct", Some(1200), Some(1200)),
            ("1.5 dozen", Some(18), None),
            ("1,5 dozen", None, Some(18)),
            ("1.200", None, Some(1200)),
            ("1.200 Stk", None, None),
            ("2½ dozen", Some(30), Some(30)),
        ] {
            assert_eq!((pieces.plain(text, Mark::Point), pieces.plain(text, Mark::Comma)), (point, comma), "{text}");
        }
        assert!(pieces.read("-2 dozen", Mark::Point).is_err() && pieces.read("100000 dozen", Mark::Point).is_err());
    }
}
