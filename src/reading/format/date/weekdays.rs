//! Names of weekdays, folded to small letters without points.

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

/// The weekday of a name, days from Monday.
pub(super) fn weekday(folded: &str) -> Option<u32> {
    WEEKDAYS.iter().position(|names| names.contains(&folded)).and_then(|at| u32::try_from(at).ok())
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_weekday_has_several_short_forms() {
        assert_eq!((weekday("thursday"), weekday("thurs"), weekday("sun"), weekday("t")), (Some(3), Some(3), Some(6), None));
    }
}
