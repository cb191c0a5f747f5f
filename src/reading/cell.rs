//! Reads one cell as its column's type, or says what is wrong with it and what to write instead.

use super::format::Wrong;
use super::format::money::millionths;
use super::format::number::bounded;
use super::nearest::nearest;
use super::problem_kind::{NOT_MINUTES, UNKNOWN_WORD};
use super::specification::Least;
use crate::quantity::number;

/// Reads a time of day as minutes after midnight.
pub(super) fn time(text: &str) -> Option<i64> {
    let (hours, minutes) = text.split_once(':')?;
    let part = |text: &str, most: i64| {
        let shaped = (1..=2).contains(&text.len()) && text.bytes().all(|byte| byte.is_ascii_digit());
        shaped.then(|| text.parse::<i64>().ok()).flatten().filter(|value| *value < most)
    };
    (minutes.len() == 2).then_some(())?;
    Some(part(hours, 24)? * 60 + part(minutes, 60)?)
}

/// Reads minutes, in millionths.
pub(super) fn minutes(text: &str) -> Result<i64, Wrong> {
    let not = || (&NOT_MINUTES, "is not a number of minutes".into(), "write minutes in digits alone, as 95".into());
    millionths(bounded(number::plain(text).ok_or_else(not)?, Least::Nil)?)
}

/// Reads one of a list of words, as its place in the list.
pub(super) fn choice(text: &str, words: &'static [&'static str]) -> Result<i64, Wrong> {
    let found = words.iter().position(|word| *word == text).and_then(|at| i64::try_from(at).ok());
    found.ok_or_else(|| {
        let advice = match nearest(text, words.iter().copied()) {
            Some(word) => format!("write {word}"),
            None => format!("write one of: {}", words.join(", ")),
        };
        (&UNKNOWN_WORD, "is not a word this column knows".into(), advice)
    })
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn times_of_day_are_read() {
        assert_eq!((time("18:30"), time("9:05"), time("00:00")), (Some(1110), Some(545), Some(0)));
        for wrong in ["24:00", "9:5", "18.30", "6pm", ":30", "1:60"] {
            assert_eq!(time(wrong), None, "{wrong}");
        }
    }
}
