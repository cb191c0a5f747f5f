//! Tiers a design sat in before: `scene until 2026-10-31; no tier until 2026-05-31`.
//!
//! The card says where a design sits now. What it cost on the list before it moved hangs on where it sat then.

use crate::quantity::Day;
use std::collections::BTreeMap;
use std::fmt;

/// A design's former tiers, by the last day in each; `None` where it had none.
#[derive(Debug, Clone, Default, PartialEq, Eq)]
pub struct EarlierTiers(BTreeMap<Day, Option<String>>);

/// What is wrong with a cell of earlier tiers.
#[derive(Debug, Clone, Copy, PartialEq, Eq, thiserror::Error)]
pub enum WrongTiers {
    /// A tier without its last day.
    #[error("does not say until which day")]
    NoDay,
    /// A last day that is no date.
    #[error("does not end in a date")]
    NotADate,
    /// Two tiers with one last day.
    #[error("has two tiers until {0}")]
    Twice(Day),
}

const UNTIL: &str = " until ";
/// The word for a time without a tier.
pub(crate) const NONE: &str = "no tier";

impl EarlierTiers {
    /// Reads a cell.
    ///
    /// # Errors
    /// [`WrongTiers`] where a part is not a tier and its last day, or a day ends two tiers.
    pub fn parse(text: &str) -> Result<Self, WrongTiers> {
        let mut tiers = BTreeMap::new();
        for part in text.split(';').map(str::trim).filter(|part| !part.is_empty()) {
            let (tier, day) = part.rsplit_once(UNTIL).ok_or(WrongTiers::NoDay)?;
            let day = Day::parse(day.trim()).ok_or(WrongTiers::NotADate)?;
            let tier = Some(tier.trim()).filter(|tier| *tier != NONE).map(str::to_owned);
            if tiers.insert(day, tier).is_some() {
                return Err(WrongTiers::Twice(day));
            }
        }
        Ok(Self(tiers))
    }

    /// The tier on a day; `None` after the last move, when the card's own tier holds.
    #[must_use]
    pub fn on(&self, day: Day) -> Option<Option<&str>> {
        self.0.range(day..).next().map(|(_, tier)| tier.as_deref())
    }

    /// The last day of the last of them.
    #[must_use]
    pub fn last(&self) -> Option<Day> {
        self.0.keys().next_back().copied()
    }

    /// With a tier that ends on a day as the last of them: what was to end then or later is given up.
    #[must_use]
    pub fn and(mut self, tier: Option<&str>, until: Day) -> Self {
        self.0.retain(|day, _| *day < until);
        self.0.insert(until, tier.map(str::to_owned));
        self
    }

    /// Those that end before a day.
    #[must_use]
    pub fn before(mut self, day: Day) -> Self {
        self.0.retain(|until, _| *until < day);
        self
    }

    /// The tiers named.
    pub fn tiers(&self) -> impl Iterator<Item = &str> {
        self.0.values().filter_map(Option::as_deref)
    }
}

impl fmt::Display for EarlierTiers {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let parts: Vec<String> = self.0.iter().map(|(day, tier)| format!("{}{UNTIL}{day}", tier.as_deref().unwrap_or(NONE))).collect();
        f.write_str(&parts.join("; "))
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn day(text: &str) -> Day {
        Day::parse(text).unwrap()
    }

    #[test]
    fn the_tier_of_a_day_is_the_next_to_end() {
        let tiers = EarlierTiers::parse(" scene until 2026-10-31; no tier until 2025-05-31 ;").unwrap();
        for (on, tier) in [
            ("2025-01-01", Some(None)),
            ("2025-05-31", Some(None)),
            ("2025-06-01", Some(Some("scene"))),
            ("2026-10-31", Some(Some("scene"))),
            ("2026-11-01", None),
        ] {
            assert_eq!(tiers.on(day(on)), tier, "{on}");
        }
        assert_eq!(EarlierTiers::default().on(day("2026-01-01")), None);
    }

    #[test]
    fn what_is_written_reads_the_same() {
        let tiers = EarlierTiers::parse("until dawn until 2026-03-31").unwrap().and(None, day("2026-06-30"));
        assert_eq!(tiers.to_string(), "until dawn until 2026-03-31; no tier until 2026-06-30");
        assert_eq!(EarlierTiers::parse(&tiers.to_string()), Ok(tiers.clone()));
        // Another move from an earlier day takes the place of a later one.
        assert_eq!(tiers.clone().and(Some("mini"), day("2026-04-30")).to_string(), "until dawn until 2026-03-31; mini until 2026-04-30");
        assert_eq!(tiers.before(day("2026-06-30")).to_string(), "until dawn until 2026-03-31");
    }

    #[test]
    fn what_cannot_be_read_is_told() {
        let refused = |text: &str| EarlierTiers::parse(text).unwrap_err().to_string();
        assert_eq!(refused("scene"), "does not say until which day");
        assert_eq!(refused("scene until spring"), "does not end in a date");
        assert_eq!(refused("a until 2026-03-31; b until 2026-03-31"), "has two tiers until 2026-03-31");
    }
}
