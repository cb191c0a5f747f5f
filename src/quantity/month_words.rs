//! Months as a person types them: `july`, `Jul 2026`, `2026-7`, `7/2026`.

use super::calendar::Month;
use super::month_names;
use std::fmt;

/// A month of any year.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct MonthOfYear(
    /// 0 is January.
    u8,
);

/// A month as typed: with its year, or by its name alone.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(crate) enum MonthWords {
    /// With its year.
    Dated(Month),
    /// By its name alone.
    Named(MonthOfYear),
}

impl MonthWords {
    /// Reads a month's name or a short form of it, alone or with a year of four digits; or its number with a
    /// year, in either order.
    #[must_use]
    pub fn parse(text: &str) -> Option<Self> {
        let text = text.to_lowercase();
        let words: Vec<&str> = text.split([' ', '-', '/', '.', ',']).filter(|word| !word.is_empty()).collect();
        let dated = |month: MonthOfYear, year: &str| Some(Self::Dated(month.of(self::year(year)?)));
        match words.as_slice() {
            [name] => MonthOfYear::named(name).map(Self::Named),
            [one, other] => match (MonthOfYear::read(one), MonthOfYear::read(other)) {
                (Some(month), None) => dated(month, other),
                (None, Some(month)) => dated(month, one),
                _ => None,
            },
            _ => None,
        }
    }
}

fn year(text: &str) -> Option<i32> {
    (text.len() == 4 && text.bytes().all(|byte| byte.is_ascii_digit()))
        .then(|| text.parse().ok())
        .flatten()
        .filter(|year| (1900..2200).contains(year))
}

impl MonthOfYear {
    fn named(text: &str) -> Option<Self> {
        month_names::month(text).and_then(|month| u8::try_from(month - 1).ok()).map(Self)
    }

    fn read(text: &str) -> Option<Self> {
        let number = || (text.len() <= 2 && text.bytes().all(|byte| byte.is_ascii_digit())).then(|| text.parse().ok()).flatten();
        Self::named(text).or_else(|| number().filter(|number: &u8| (1..=12).contains(number)).map(|number| Self(number - 1)))
    }

    /// This month of a year.
    #[must_use]
    pub fn of(self, year: i32) -> Month {
        Month(12 * year + i32::from(self.0))
    }

    /// The latest such month that is not after another.
    #[must_use]
    pub(crate) fn latest_by(self, last: Month) -> Month {
        Month(last.0 - (last.0 - i32::from(self.0)).rem_euclid(12))
    }
}

impl fmt::Display for MonthOfYear {
    /// Its name, as in a sentence.
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(month_names::ENGLISH[usize::from(self.0)])
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn months_are_read_as_people_type_them() {
        let july = Month::parse("2026-07").unwrap();
        for text in [
            "2026-07",
            "2026-7",
            "7/2026",
            "07.2026",
            "2026/7",
            "july 2026",
            "Jul 2026",
            " JULY, 2026 ",
            "2026 july",
            "july-2026",
            "juillet 2026",
        ] {
            assert_eq!(MonthWords::parse(text), Some(MonthWords::Dated(july)), "{text}");
        }
        for text in ["july", "Jul", " JULY "] {
            let Some(MonthWords::Named(month)) = MonthWords::parse(text) else { panic!("{text}") };
            assert_eq!((month.of(2026), month.to_string().as_str()), (july, "July"));
        }
        assert_eq!(MonthWords::parse("sept 2026"), MonthWords::parse("2026-09"));
        for wrong in [
            "",
            "7",
            "2026",
            "13/2026",
            "0/2026",
            "july 26",
            "7/26",
            "2026-07-01",
            "jully",
            "july june",
            "1/2",
            "２０２６-07",
            "ju",
            "1800-01",
        ] {
            assert_eq!(MonthWords::parse(wrong), None, "{wrong}");
        }
    }

    #[test]
    fn the_latest_month_of_a_name_is_this_years_or_last_years() {
        let Some(MonthWords::Named(july)) = MonthWords::parse("july") else { panic!() };
        for (last, latest) in
            [("2026-10", "2026-07"), ("2026-07", "2026-07"), ("2026-06", "2025-07"), ("2026-01", "2025-07"), ("2026-12", "2026-07")]
        {
            assert_eq!(july.latest_by(Month::parse(last).unwrap()).to_string(), latest, "{last}");
        }
    }
}
