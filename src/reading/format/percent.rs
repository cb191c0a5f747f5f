//! Percentages.

use super::number::{self, Mark};
use super::{Format, Wrong};
use crate::quantity::Percent;
use crate::reading::problem_kind::NOT_A_PERCENTAGE;

/// Percentages, with their sign or without.
pub(in crate::reading) struct Percents;

impl Format for Percents {
    type Style = Mark;
    type Plain = Percent;
    type Value = Percent;

    fn depends(&self, text: &str) -> bool {
        number::depends(text)
    }

    fn plain(&self, text: &str, mark: Mark) -> Option<Percent> {
        let (number, is_marked) = match text.strip_suffix('%') {
            Some(number) => (number.trim_end(), true),
            None => (text, false),
        };
        Percent::from_decimal(number::read(number, mark)?, is_marked)
    }

    fn read(&self, text: &str, mark: Mark) -> Result<Percent, Wrong> {
        let is_negative = number::signed(text.trim_end_matches(['%', ' '])).0;
        let advice = if is_negative { "write it without a minus" } else { "write it with its sign, as 10 %" };
        self.plain(text, mark).ok_or_else(|| (&NOT_A_PERCENTAGE, "is not a percentage".into(), advice.into()))
    }

    fn written(&self, plain: &Percent, mark: Mark) -> String {
        mark.write(&plain.to_string())
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn percentages_are_read_in_both_styles() {
        let read = |text: &str, mark| Percents.read(text, mark).ok().map(|percent| percent.to_string());
        for (text, mark, expected) in [
            ("10 %", Mark::Point, "10 %"),
            ("10", Mark::Comma, "10 %"),
            ("2.9%", Mark::Point, "2.9 %"),
            ("2,9\u{A0}%", Mark::Comma, "2.9 %"),
            ("0,5 %", Mark::Comma, "0.5 %"),
            ("1,000 %", Mark::Point, "1000 %"),
        ] {
            assert_eq!(read(text, mark).as_deref(), Some(expected), "{text}");
        }
        for wrong in ["0.5", "-1 %", "(1 %)", "1001 %", "%", "ten %", "10 % %"] {
            assert_eq!(read(wrong, Mark::Point), None, "{wrong}");
        }
    }
}
