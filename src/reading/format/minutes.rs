//! Minutes of work: plain numbers, hours and minutes in words, a timer's `0:45:12`.

use super::Style;
use super::number::{self, Mark};
use crate::quantity::fraction::Fraction;
use rust_decimal::Decimal;

/// What the two parts of `1:35` are.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum TwoParts {
    /// Hours and minutes.
    HoursMinutes,
    /// Minutes and seconds.
    MinutesSeconds,
}

impl Style for TwoParts {
    const ALL: &'static [Self] = &[Self::HoursMinutes, Self::MinutesSeconds];

    fn name(self) -> &'static str {
        match self {
            Self::HoursMinutes => "hours:minutes",
            Self::MinutesSeconds => "minutes:seconds",
        }
    }
}

/// What a number without a unit counts.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum PlainNumbers {
    /// Minutes.
    Minutes,
    /// Hours.
    Hours,
}

impl Style for PlainNumbers {
    const ALL: &'static [Self] = &[Self::Minutes, Self::Hours];

    fn name(self) -> &'static str {
        match self {
            Self::Minutes => "minutes",
            Self::Hours => "hours",
        }
    }
}

/// What a heading says of the cells below it: `Hours`, `Time (h)`, `Timer (mm:ss)`.
#[must_use]
pub(crate) fn said_by_heading(heading: &str) -> (Option<TwoParts>, Option<PlainNumbers>) {
    let lower = heading.to_lowercase();
    let words: Vec<&str> = lower.split(|c: char| !c.is_alphanumeric()).filter(|word| !word.is_empty()).collect();
    let says = |known: &[&str]| words.iter().any(|word| known.contains(word));
    match (says(&["h", "hr", "hrs", "hour", "hours", "hh"]), says(&["m", "mm", "min", "mins", "minute", "minutes"])) {
        (true, false) => (Some(TwoParts::HoursMinutes), Some(PlainNumbers::Hours)),
        (true, true) => (Some(TwoParts::HoursMinutes), None),
        (false, true) if says(&["s", "ss", "sec", "secs", "seconds"]) => (Some(TwoParts::MinutesSeconds), None),
        _ => (None, None),
    }
}

/// Reads minutes. `None` where the text is no length of time.
///
/// A second is a sixtieth, at the precision of [`Decimal`]: what is stored is rounded to the millionth by the caller.
#[must_use]
pub fn read(text: &str, mark: Mark, two: TwoParts, plain: PlainNumbers) -> Option<Decimal> {
    if let Some(value) = number::read(text, mark) {
        return value.checked_mul(match plain {
            PlainNumbers::Minutes => Decimal::ONE,
            PlainNumbers::Hours => Decimal::from(60),
        });
    }
    clock(text, two).or_else(|| in_units(text, mark))
}

/// Whether the text is a number in two parts, `1:35`, which says neither hours nor seconds.
#[must_use]
pub(crate) fn is_in_two_parts(text: &str) -> bool {
    text.contains(':') && clock(text, TwoParts::HoursMinutes) != clock(text, TwoParts::MinutesSeconds)
}

/// Whether a text counts hours, in a column where `1:35` is hours and minutes: `2h 15m`, `1:35`.
#[must_use]
pub(crate) fn says_hours(text: &str) -> bool {
    let lower = text.to_lowercase();
    let mut words = lower.split(|c: char| !c.is_alphabetic());
    words.any(|word| Unit::of(word) == Some(Unit::Hours)) || is_in_two_parts(text)
}

/// Hours of one stretch of work that are likely. Common practice, no source.
const LIKELY_HOURS: Decimal = Decimal::from_parts(12, 0, 0, false, 0);

/// Whether a number without a unit is likely to count minutes or hours, beside cells that say hours by themselves: nobody logs a part
/// of a minute there, or works for more than 12 hours on end.
#[must_use]
pub(crate) fn is_likely(number: Decimal, plain: PlainNumbers) -> bool {
    match plain {
        PlainNumbers::Minutes => number.fract().is_zero() || number > LIKELY_HOURS,
        PlainNumbers::Hours => number <= LIKELY_HOURS,
    }
}

/// `1:35`, `1:35 h`, `4:30 min`, `0:45:12`. Nobody works for 24 hours on end, so the first part of hours and minutes is less.
fn clock(text: &str, two: TwoParts) -> Option<Decimal> {
    let text = text.trim();
    let end = text.find(|c: char| c.is_alphabetic()).unwrap_or(text.len());
    let unit = match text[end..].trim_end_matches('.') {
        "" => None,
        unit => Some(Unit::of(&unit.to_lowercase())?),
    };
    let fields: Vec<i64> = text[..end].trim_end().split(':').map(digits).collect::<Option<_>>()?;
    let sixtieths =
        |at: usize| (text[..end].trim_end().split(':').nth(at).map(str::len) == Some(2) && fields[at] < 60).then_some(fields[at]);
    match (fields.as_slice(), unit) {
        ([hours, _, _], None | Some(Unit::Hours)) if *hours < 24 => minutes(hours * 3600 + sixtieths(1)? * 60 + sixtieths(2)?),
        ([hours, _], unit) if *hours < 24 && (unit == Some(Unit::Hours) || (unit.is_none() && two == TwoParts::HoursMinutes)) => {
            minutes(hours * 3600 + sixtieths(1)? * 60)
        }
        ([whole, _], unit) if unit == Some(Unit::Minutes) || (unit.is_none() && two == TwoParts::MinutesSeconds) => {
            minutes(whole * 60 + sixtieths(1)?)
        }
        _ => None,
    }
}

fn digits(text: &str) -> Option<i64> {
    ((1..=4).contains(&text.len()) && text.bytes().all(|byte| byte.is_ascii_digit())).then(|| text.parse().ok()).flatten()
}

fn minutes(seconds: i64) -> Option<Decimal> {
    Decimal::from(seconds).checked_div(Decimal::from(60))
}

/// A unit of time.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
enum Unit {
    Hours,
    Minutes,
    Seconds,
}

impl Unit {
    fn of(word: &str) -> Option<Self> {
        match word {
            "h" | "hr" | "hrs" | "hour" | "hours" => Some(Self::Hours),
            "m" | "min" | "mins" | "minute" | "minutes" => Some(Self::Minutes),
            "s" | "sec" | "secs" | "second" | "seconds" => Some(Self::Seconds),
            _ => None,
        }
    }

    fn seconds(self) -> Decimal {
        Decimal::from(match self {
            Self::Hours => 3600,
            Self::Minutes => 60,
            Self::Seconds => 1,
        })
    }
}

/// Numbers with units, the largest first, each once: `95 min`, `1 h 35 m`, `1h35`, `1.5 h`, `1 1/2 hours`.
fn in_units(text: &str, mark: Mark) -> Option<Decimal> {
    let lower = text.to_lowercase();
    let mut rest = lower.trim();
    let (mut seconds, mut last, mut is_whole) = (Decimal::ZERO, None, true);
    while !rest.is_empty() {
        let end = rest.find(char::is_alphabetic).unwrap_or(rest.len());
        let after = rest[end..].find(|c: char| !c.is_alphabetic()).map_or(rest.len(), |length| end + length);
        let (amount, word) = (rest[..end].trim(), &rest[end..after]);
        // Only the smallest unit may have a fraction.
        let amount =
            Fraction::read(amount, |text| number::read(text, mark))?.decimal().filter(|amount| is_whole && !amount.is_sign_negative())?;
        is_whole = amount.fract().is_zero();
        let unit = match (word, last) {
            ("", Some(Unit::Hours)) if (1..=2).contains(&rest.len()) && amount < Decimal::from(60) => Unit::Minutes,
            ("", _) => return None,
            (word, last) => Unit::of(word).filter(|unit| last.is_none_or(|last| last < *unit))?,
        };
        last = Some(unit);
        seconds = seconds.checked_add(amount.checked_mul(unit.seconds())?)?;
        rest = &rest[after..];
        // The point of an abbreviation or a comma, but not the point of a number.
        rest = rest.strip_prefix(['.', ',']).filter(|rest| !rest.starts_with(|c: char| c.is_ascii_digit())).unwrap_or(rest).trim_start();
        rest = rest.strip_prefix("and ").unwrap_or(rest);
    }
    last.and_then(|_| seconds.checked_div(Decimal::from(60)))
}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;

    fn as_hours(text: &str) -> Option<Decimal> {
        read(text, Mark::Point, TwoParts::HoursMinutes, PlainNumbers::Minutes)
    }

    #[test]
    fn lengths_of_time_are_read() {
        for (text, expected) in [
            ("95", "95"),
            ("95 min", "95"),
            ("95min.", "95"),
            ("95 minutes", "95"),
            ("95m", "95"),
            ("1h35", "95"),
            ("1h5", "65"),
            ("1 h 35 m", "95"),
            ("1h 35min", "95"),
            ("6 h 55 min", "415"),
            ("1.5 h", "90"),
            ("1.25hrs", "75"),
            ("1 1/2 hours", "90"),
            ("½ h", "30"),
            ("2 hrs", "120"),
            ("2 HR", "120"),
            ("1 hour 20 minutes", "80"),
            ("1 hour, 20 minutes", "80"),
            ("1 hour and 20 minutes", "80"),
            ("0:45:12", "45.2"),
            ("1:00:00", "60"),
            ("45 min 12 s", "45.2"),
            ("90 sec", "1.5"),
            ("1:35", "95"),
            ("1:35 h", "95"),
            ("4:30 min", "4.5"),
        ] {
            assert_eq!(as_hours(text), expected.parse().ok(), "{text}");
        }
        for wrong in [
            "",
            "h",
            "1 h 35 h",
            "5 min 1 h",
            "1.5 h 10 min",
            "1:5",
            "1:60",
            "24:10",
            "1:2:3:4",
            "95 x",
            "1h35x",
            "1h 350",
            "-1 h",
            "1/2",
            "1,5 h",
            "a",
            ":",
            "1:35:",
            "min 5",
        ] {
            assert_eq!(as_hours(wrong), None, "{wrong}");
        }
    }

    #[test]
    fn two_parts_are_hours_or_minutes_first() {
        let as_seconds = |text: &str| read(text, Mark::Point, TwoParts::MinutesSeconds, PlainNumbers::Minutes);
        assert_eq!(as_seconds("1:30"), "1.5".parse().ok());
        assert_eq!((as_seconds("95:12"), as_seconds("0:45:12")), ("95.2".parse().ok(), "45.2".parse().ok()));
        assert!(is_in_two_parts("1:35") && is_in_two_parts("95:12"));
        assert!(["1:35 h", "0:45:12", "95", "1h35", "0:00"].iter().all(|text| !is_in_two_parts(text)));
    }

    #[test]
    fn headings_may_say_what_their_numbers_count() {
        let hours = (Some(TwoParts::HoursMinutes), Some(PlainNumbers::Hours));
        for heading in ["Hours", "Hrs", "Time (h)", "hours worked"] {
            assert_eq!(said_by_heading(heading), hours, "{heading}");
        }
        assert_eq!(said_by_heading("Time (hh:mm)"), (Some(TwoParts::HoursMinutes), None));
        assert_eq!(said_by_heading("mm:ss"), (Some(TwoParts::MinutesSeconds), None));
        assert_eq!((said_by_heading("minutes"), said_by_heading("Time")), ((None, None), (None, None)));
        assert_eq!(read("1.5", Mark::Point, TwoParts::HoursMinutes, PlainNumbers::Hours), Some(Decimal::from(90)));
    }

    proptest! {
        #[test]
        fn minutes_written_in_any_way_read_back(total in 0_u32..1440, way in 0_usize..8) {
            let (hours, minutes) = (total / 60, total % 60);
            let text = match way {
                0 => format!("{total}"),
                1 => format!("{total} min"),
                2 => format!("{hours}:{minutes:02}"),
                3 => format!("{hours}h{minutes:02}"),
                4 => format!("{hours} h {minutes} m"),
                5 => format!("{hours}:{minutes:02}:00"),
                6 => format!("{hours} hours, {minutes} minutes"),
                _ => format!("{} sec", total * 60),
            };
            prop_assert_eq!(as_hours(&text), Some(Decimal::from(total)), "{}", text);
        }
    }
}
