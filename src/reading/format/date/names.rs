//! Names of months and weekdays, folded to small letters without points.

use std::sync::LazyLock;

/// Names of months with the month, 1 to 12: English, German and French, as Unicode CLDR has them.
static MONTHS: LazyLock<Vec<(String, u32)>> = LazyLock::new(|| {
    let lines = include_str!("../../../../fixtures/cldr/month_names.csv").lines().filter(|line| !line.starts_with('#')).skip(1);
    let mut names: Vec<(String, u32)> =
        lines.flat_map(|line| line.split(',').skip(3).map(|name| name.trim_end_matches('.').to_lowercase()).zip(1..)).collect();
    names.sort();
    names.dedup();
    names
});

/// Weekdays in English, from Monday on, each with its short forms.
const WEEKDAYS: [&[&str]; 7] = [
    &["monday", "mon"],
    &["tuesday", "tue", "tues"],
    &["wednesday", "wed", "weds"],
    &["thursday", "thu", "thur", "thurs"],
    &["friday", "fri"],
    &["saturday", "sat"],
    &["sunday", "sun"],
];

/// The month of a name, 1 to 12.
pub(super) fn month(folded: &str) -> Option<u32> {
    MONTHS.binary_search_by(|(name, _)| name.as_str().cmp(folded)).ok().map(|at| MONTHS[at].1)
}

/// The weekday of a name, days from Monday.
pub(super) fn weekday(folded: &str) -> Option<u32> {
    WEEKDAYS.iter().position(|names| names.contains(&folded)).and_then(|at| u32::try_from(at).ok())
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_name_is_one_month_in_every_language() {
        assert!(MONTHS.windows(2).all(|pair| pair[0].0 != pair[1].0), "{MONTHS:?}");
        for (name, expected) in [("september", 9), ("sep", 9), ("sept", 9), ("märz", 3), ("mars", 3), ("juil", 7), ("août", 8), ("dez", 12)]
        {
            assert_eq!(month(name), Some(expected), "{name}");
        }
        assert_eq!((month("smarch"), weekday("thurs"), weekday("t")), (None, Some(3), None));
    }
}
