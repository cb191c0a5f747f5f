//! The base period that a period is compared with.

use crate::period::whole_months;
use crate::quantity::month_words::MonthWords;
use crate::quantity::{Day, Month, Period};
use crate::shop::settings::Settings;

/// The base period as asked for.
#[derive(Debug, Clone, PartialEq, Eq, Default)]
pub enum BasePeriod {
    /// The time of the same length just before: for a month, the month before.
    #[default]
    Previous,
    /// The same days a year before.
    LastYear,
    /// A month.
    Month(Month),
    /// A season named in `shop.toml`.
    Season(String),
}

/// Why there is no base period.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum NoBasePeriod {
    /// The period has an open end, so no other has its length.
    OpenEnd,
    /// `shop.toml` names no season so.
    UnknownSeason(String),
    /// The base period is the period itself.
    Itself,
}

impl BasePeriod {
    /// Reads what a person wrote: `previous`, `last-year`, a month with its year, else a season's name.
    #[must_use]
    pub fn parse(text: &str) -> Self {
        match (text.trim().to_lowercase().replace([' ', '_'], "-").as_str(), MonthWords::parse(text)) {
            ("previous", _) => Self::Previous,
            ("last-year", _) => Self::LastYear,
            (_, Some(MonthWords::Dated(month))) => Self::Month(month),
            _ => Self::Season(text.to_owned()),
        }
    }

    /// Finds the base period of `period`. Whole months are compared with whole months.
    ///
    /// # Errors
    /// Why there is none.
    pub fn period(&self, period: Period, settings: &Settings) -> Result<Period, NoBasePeriod> {
        let base = match self {
            Self::Previous => {
                let (from, to) = ends(period)?;
                match whole_months(period) {
                    Some(_) => moved(from, to, from.month().0 - to.month().0 - 1),
                    None => Period { from: Some(Day(from.0 - (to.0 - from.0 + 1))), to: Some(Day(from.0 - 1)) },
                }
            }
            Self::LastYear => {
                let (from, to) = ends(period)?;
                moved(from, to, -12)
            }
            Self::Month(month) => Period::of(*month),
            Self::Season(name) => settings.seasons.get(name).copied().ok_or_else(|| NoBasePeriod::UnknownSeason(name.clone()))?,
        };
        if base == period { Err(NoBasePeriod::Itself) } else { Ok(base) }
    }
}

fn ends(period: Period) -> Result<(Day, Day), NoBasePeriod> {
    period.from.zip(period.to).ok_or(NoBasePeriod::OpenEnd)
}

/// Moves both ends of a period by months. A period that ends with a month still does; a day that a month lacks
/// becomes its last.
fn moved(from: Day, to: Day, months: i32) -> Period {
    let month = |day: Day| Month(day.month().0 + months);
    let shifted = |day: Day| Day((month(day).first().0 + day.0 - day.month().first().0).min(month(day).last().0));
    let is_last = to.month().last() == to;
    Period { from: Some(shifted(from)), to: Some(if is_last { month(to).last() } else { shifted(to) }) }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn period(from: &str, to: &str) -> Period {
        Period { from: Day::parse(from), to: Day::parse(to) }
    }

    fn settings() -> Settings {
        let shop = crate::shop::load::Folder::open(&std::path::Path::new(env!("CARGO_MANIFEST_DIR")).join("fixtures/ninebell-quay"));
        shop.load(&crate::shop::load::Skipped::new()).shop.unwrap().settings
    }

    #[test]
    fn whole_months_are_held_against_as_many_before() {
        let settings = settings();
        for (asked, of, base) in [
            ("previous", ("2026-10-01", "2026-10-31"), ("2026-09-01", "2026-09-30")),
            ("previous", ("2026-03-01", "2026-03-31"), ("2026-02-01", "2026-02-28")),
            ("previous", ("2026-02-01", "2026-05-31"), ("2025-10-01", "2026-01-31")),
            ("previous", ("2026-10-05", "2026-10-11"), ("2026-09-28", "2026-10-04")),
            ("last-year", ("2025-02-01", "2025-02-28"), ("2024-02-01", "2024-02-29")),
            ("last-year", ("2024-02-29", "2024-02-29"), ("2023-02-28", "2023-02-28")),
            ("last-year", ("2026-10-05", "2026-10-11"), ("2025-10-05", "2025-10-11")),
            ("2025-12", ("2026-10-01", "2026-10-31"), ("2025-12-01", "2025-12-31")),
            ("summer 2026", ("2026-10-01", "2026-10-31"), ("2026-06-01", "2026-08-31")),
        ] {
            assert_eq!(BasePeriod::parse(asked).period(period(of.0, of.1), &settings), Ok(period(base.0, base.1)), "{asked} of {of:?}");
        }
    }

    #[test]
    fn open_ends_unknown_seasons_and_the_period_itself_are_refused() {
        let settings = settings();
        let open = Period { from: Day::parse("2026-01-01"), to: None };
        assert_eq!(BasePeriod::Previous.period(open, &settings), Err(NoBasePeriod::OpenEnd));
        assert_eq!(BasePeriod::LastYear.period(Period::default(), &settings), Err(NoBasePeriod::OpenEnd));
        assert_eq!(BasePeriod::parse("sumer").period(open, &settings), Err(NoBasePeriod::UnknownSeason("sumer".into())));
        assert_eq!(BasePeriod::parse("2026-10").period(period("2026-10-01", "2026-10-31"), &settings), Err(NoBasePeriod::Itself));
        assert!(BasePeriod::parse("2026-09").period(open, &settings).is_ok());
    }
}
