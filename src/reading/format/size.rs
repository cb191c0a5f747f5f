//! Sizes: a number, with its unit where that stands in the same cell.

use super::number::{self, Mark, bounded};
use super::{Format, Wrong};
use crate::quantity::fraction::Fraction;
use crate::reading::problem_kind::NOT_A_NUMBER;
use crate::reading::specification::Least;
use rust_decimal::Decimal;

/// The unit that a size names: `lb` of `4 lb`; blank where it names none.
#[must_use]
pub fn unit(text: &str) -> &str {
    split(text).1
}

/// Splits a size into its number and what follows it.
fn split(text: &str) -> (&str, &str) {
    let at = text.find(char::is_alphabetic).unwrap_or(text.len());
    let (number, unit) = text.split_at(at);
    // A unit has no digits, so "2 x 500 g" is no size.
    if unit.contains(|c: char| c.is_ascii_digit()) { (text, "") } else { (number.trim_end(), unit) }
}

/// Sizes, their units apart.
pub(in crate::reading) struct Sizes {
    pub least: Least,
}

impl Format for Sizes {
    type Style = Mark;
    type Plain = Decimal;
    type Value = Decimal;

    fn depends(&self, text: &str) -> bool {
        number::depends(text)
    }

    fn plain(&self, text: &str, mark: Mark) -> Option<Decimal> {
        Fraction::read(split(text).0, |text| number::read(text, mark)).and_then(Fraction::decimal)
    }

    fn read(&self, text: &str, mark: Mark) -> Result<Decimal, Wrong> {
        bounded(self.plain(text, mark).ok_or_else(|| (&NOT_A_NUMBER, "is not a number".into(), number::advice(mark)))?, self.least)
    }

    fn written(&self, plain: &Decimal, mark: Mark) -> String {
        number::write(*plain, mark)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_size_may_have_its_unit() {
        let read = |text: &str, mark| Sizes { least: Least::AboveNil }.read(text, mark).ok().map(|value| value.to_string());
        for (text, mark, value, named) in [
            ("4", Mark::Point, "4", ""),
            ("4 lb", Mark::Point, "4", "lb"),
            ("4lb.", Mark::Point, "4", "lb."),
            ("1,5 kg", Mark::Comma, "1.5", "kg"),
            ("12 ct", Mark::Point, "12", "ct"),
            ("1 1/2 cups", Mark::Point, "1.5", "cups"),
            ("½ fl oz", Mark::Point, "0.5", "fl oz"),
            ("1,000 g", Mark::Point, "1000", "g"),
        ] {
            assert_eq!((read(text, mark).as_deref(), unit(text)), (Some(value), named), "{text}");
        }
        for wrong in ["lb", "2 x 500 g", "1/3 cup", "0 lb", "four lb", "4 #10"] {
            assert_eq!(read(wrong, Mark::Point), None, "{wrong}");
        }
    }
}
