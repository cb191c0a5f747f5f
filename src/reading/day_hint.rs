//! Guesses the day behind a text that is not a date, for the advice in a problem.

use crate::quantity::Day;
use chrono::NaiveDate;

const UNAMBIGUOUS: &[&str] = &["%Y%m%d", "%Y/%m/%d", "%Y.%m.%d", "%Y-%m-%d", "%d %B %Y", "%d %b %Y", "%B %d %Y", "%b %d %Y", "%d-%b-%Y"];

/// Advice such as `write 2026-09-03`, or both readings where the order of day and month is unclear.
#[must_use]
pub fn advice(text: &str) -> String {
    if is_shaped(text) {
        return "there is no such day: check the month and the day".to_owned();
    }
    let plain = text.replace(',', " ").split_whitespace().collect::<Vec<_>>().join(" ");
    let read = |shape: &str| {
        let day = Day::from_date(NaiveDate::parse_from_str(&plain, shape).ok()?);
        Day::parse(&day.to_string())
    };
    if let Some(day) = UNAMBIGUOUS.iter().find_map(|shape| read(shape)) {
        return format!("write {day}");
    }
    for separator in ['/', '.', '-'] {
        let month_first = read(&["%m", "%d", "%Y"].join(&separator.to_string()));
        let day_first = read(&["%d", "%m", "%Y"].join(&separator.to_string()));
        match (month_first, day_first) {
            (Some(one), Some(other)) if one != other => return format!("write {one} or {other}, whichever you mean"),
            (Some(day), _) | (_, Some(day)) => return format!("write {day}"),
            (None, None) => {}
        }
    }
    "write year, month and day, as 2026-09-03".to_owned()
}

/// Whether a text has the shape of a day, though no calendar may have it: `2026-02-30`.
fn is_shaped(text: &str) -> bool {
    let digits = |part: &str, count: usize| part.len() == count && part.bytes().all(|byte| byte.is_ascii_digit());
    let mut parts = text.split('-');
    let shaped = parts.next().is_some_and(|year| digits(year, 4)) && parts.next().is_some_and(|month| digits(month, 2));
    shaped && parts.next().is_some_and(|day| digits(day, 2)) && parts.next().is_none()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn advice_names_the_day_or_both_readings() {
        for (text, expected) in [
            ("2026/9/3", "write 2026-09-03"),
            ("3 Sep 2026", "write 2026-09-03"),
            ("September 3, 2026", "write 2026-09-03"),
            ("9/3/2026", "write 2026-09-03 or 2026-03-09, whichever you mean"),
            ("23/9/2026", "write 2026-09-23"),
            ("sept 3", "write year, month and day, as 2026-09-03"),
            ("2026-02-30", "there is no such day: check the month and the day"),
        ] {
            assert_eq!(advice(text), expected, "{text}");
        }
    }
}
