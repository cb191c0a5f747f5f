//! Days, months and periods. Days are counted from 1970-01-01, so that columns of them are integers.

use chrono::{Datelike, NaiveDate};
use std::fmt;

/// A calendar day.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct Day(
    /// Days since 1970-01-01.
    pub i32,
);

/// A calendar month, as months since January of the year 0.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct Month(
    /// 12 × year + month − 1.
    pub i32,
);

/// A span of days, both ends included; an open end reaches as far as the logs do.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub struct Period {
    /// First day, or from the beginning.
    pub from: Option<Day>,
    /// Last day, or to the end.
    pub to: Option<Day>,
}

const EPOCH: NaiveDate = NaiveDate::from_ymd_opt(1970, 1, 1).expect("the epoch exists");

impl Day {
    /// Reads `2026-09-03`; nothing else, and only days that exist in the years 1900 to 2199.
    #[must_use]
    pub fn parse(text: &str) -> Option<Self> {
        let bytes = text.as_bytes();
        let shaped = bytes.len() == 10
            && bytes.iter().enumerate().all(|(at, byte)| if at == 4 || at == 7 { *byte == b'-' } else { byte.is_ascii_digit() });
        if !shaped {
            return None;
        }
        let number = |range: std::ops::Range<usize>| bytes[range].iter().fold(0_u32, |sum, digit| sum * 10 + u32::from(digit - b'0'));
        let year = i32::try_from(number(0..4)).ok().filter(|year| (1900..2200).contains(year))?;
        NaiveDate::from_ymd_opt(year, number(5..7), number(8..10)).map(Self::from_date)
    }

    /// From a chrono date.
    #[must_use]
    pub(crate) fn from_date(date: NaiveDate) -> Self {
        Self(i32::try_from((date - EPOCH).num_days()).unwrap_or(i32::MAX))
    }

    /// As a chrono date.
    #[must_use]
    pub fn date(self) -> NaiveDate {
        EPOCH.checked_add_signed(chrono::TimeDelta::days(i64::from(self.0))).unwrap_or(EPOCH)
    }

    /// The month it lies in.
    #[must_use]
    pub fn month(self) -> Month {
        let date = self.date();
        Month(date.year() * 12 + date.month0().cast_signed())
    }
}

impl Month {
    /// Reads `2026-09`.
    #[must_use]
    pub fn parse(text: &str) -> Option<Self> {
        Day::parse(&format!("{text}-01")).map(Day::month)
    }

    /// Its first day.
    #[must_use]
    pub fn first(self) -> Day {
        let month = self.0.rem_euclid(12).cast_unsigned() + 1;
        Day::from_date(NaiveDate::from_ymd_opt(self.0.div_euclid(12), month, 1).unwrap_or(EPOCH))
    }

    /// Its last day.
    #[must_use]
    pub fn last(self) -> Day {
        Day(self.next().first().0 - 1)
    }

    /// The month after.
    #[must_use]
    pub fn next(self) -> Self {
        Self(self.0 + 1)
    }

    /// The month in words, as `October 2026`.
    #[must_use]
    pub(crate) fn in_words(self) -> String {
        self.first().date().format("%B %Y").to_string()
    }
}

impl Period {
    /// The whole of a month.
    #[must_use]
    pub fn of(month: Month) -> Self {
        Self { from: Some(month.first()), to: Some(month.last()) }
    }

    /// Whether a day lies in it; one that is not known does not.
    #[must_use]
    pub fn holds(self, day: impl Into<Option<Day>>) -> bool {
        day.into().is_some_and(|day| self.from.is_none_or(|from| from <= day) && self.to.is_none_or(|to| day <= to))
    }

    /// The month, if the period is exactly one.
    #[must_use]
    pub fn month(self) -> Option<Month> {
        let month = self.from?.month();
        (Self::of(month) == self).then_some(month)
    }
}

impl fmt::Display for Day {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        self.date().fmt(f)
    }
}

impl fmt::Display for Month {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "{}", self.first().date().format("%Y-%m"))
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn only_days_that_exist_are_read() {
        assert_eq!(Day::parse("1970-01-01"), Some(Day(0)));
        assert_eq!(Day::parse("2024-02-29").map(|day| day.to_string()).as_deref(), Some("2024-02-29"));
        for wrong in ["2023-02-29", "2026-13-01", "2026-9-3", "0026-09-03", "9999-01-01", "2026-09-03 ", "", "２０２６-09-03"] {
            assert_eq!(Day::parse(wrong), None, "{wrong}");
        }
    }

    #[test]
    fn months_know_their_ends() {
        let february = Month::parse("2024-02").unwrap();
        assert_eq!((february.first().to_string(), february.last().to_string()), ("2024-02-01".into(), "2024-02-29".into()));
        assert_eq!(Month::parse("2025-12").unwrap().next().to_string(), "2026-01");
        assert_eq!(february.in_words(), "February 2024");
        assert_eq!(Period::of(february).month(), Some(february));
        assert!(!Period::of(february).holds(Day::parse("2024-03-01").unwrap()));
        assert!(Period::default().holds(Day(0)));
    }
}
