//! Periods as a person says them.

use crate::period::whole_months;
use crate::quantity::{Month, Period};

/// Writes a period: `October 2026`, `June to September 2026`, `2026-09-03 to 2026-09-10`, `all time`.
#[must_use]
pub fn period_in_words(period: Period) -> String {
    match (period.month(), period.from, period.to) {
        (Some(month), ..) => month.in_words(),
        (None, None, None) => "all time".into(),
        (None, Some(from), None) => format!("since {from}"),
        (None, None, Some(to)) => format!("until {to}"),
        (None, Some(from), Some(to)) => months_in_words(period).unwrap_or_else(|| format!("{from} to {to}")),
    }
}

/// Writes a period as the subject of a sentence: `October 2026`, `the time since 2026-09-03`.
#[must_use]
pub fn period_as_noun(period: Period) -> String {
    let has_one_end = period.from.is_some() != period.to.is_some();
    format!("{}{}", if has_one_end { "the time " } else { "" }, period_in_words(period))
}

/// Says when something was: `in October 2026`, `from June to September 2026`, `in all your logs`.
#[must_use]
pub fn during(period: Period) -> String {
    match (period.month(), period.from, period.to) {
        (Some(month), ..) => format!("in {}", month.in_words()),
        (None, None, None) => "in all your logs".into(),
        (None, Some(_), Some(_)) => format!("from {}", period_in_words(period)),
        _ => period_in_words(period),
    }
}

/// Says that there is nothing to show, and what to do: `Nothing was handed over in October 2026. Choose other days, or add
/// orders.`
#[must_use]
pub fn nothing_handed_over(period: Period) -> String {
    if period == Period::default() {
        return "Nothing was handed over yet. Add your orders, and run this again.".to_owned();
    }
    format!("Nothing was handed over {}. Choose other days, or add orders.", during(period))
}

/// Says over which time something pays: `over the year to October 2026`, `over August to September 2025`, `over all your logs`.
#[must_use]
pub fn over(period: Period) -> String {
    match (whole_months(period), period.from.is_none() && period.to.is_none()) {
        (_, true) => "over all your logs".to_owned(),
        (Some((Some(first), Some(last))), _) if last.0 - first.0 == 11 => format!("over the year to {}", last.in_words()),
        _ => format!("over {}", period_as_noun(period)),
    }
}

/// Says which orders: `of October 2026`, `in your logs`, `handed over from 2026-09-01 to 2026-09-10`.
#[must_use]
pub fn orders_of(period: Period) -> String {
    match (period.from, period.to) {
        (None, None) => "in your logs".to_owned(),
        (Some(_), Some(_)) if whole_months(period).is_some() => format!("of {}", period_in_words(period)),
        _ => format!("handed over {}", during(period)),
    }
}

/// Several whole months, the year once where it is one.
fn months_in_words(period: Period) -> Option<String> {
    let (first, last) = whole_months(period)?;
    let (start, end) = (first?.in_words(), last?.in_words());
    Some(match (start.rsplit_once(' '), end.rsplit_once(' ')) {
        (Some((month, year)), Some((_, same))) if year == same => format!("{month} to {end}"),
        _ => format!("{start} to {end}"),
    })
}

/// Writes a month as a row of a table: `Oct 2026`.
#[must_use]
pub fn month_in_short(month: Month) -> String {
    month.first().date().format("%b %Y").to_string()
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::quantity::Day;

    fn period(from: &str, to: &str) -> Period {
        Period { from: Day::parse(from), to: Day::parse(to) }
    }

    #[test]
    fn whole_months_have_names_and_other_days_are_dates() {
        let said = |from, to| [period_in_words(period(from, to)), during(period(from, to)), orders_of(period(from, to))];
        assert_eq!(said("2026-10-01", "2026-10-31"), ["October 2026", "in October 2026", "of October 2026"]);
        assert_eq!(
            said("2026-06-01", "2026-09-30"),
            ["June to September 2026", "from June to September 2026", "of June to September 2026"]
        );
        assert_eq!(said("2025-11-01", "2026-10-31")[0], "November 2025 to October 2026");
        let days = "from 2026-06-02 to 2026-09-30";
        assert_eq!(said("2026-06-02", "2026-09-30"), ["2026-06-02 to 2026-09-30", days, &format!("handed over {days}")]);
        assert_eq!(said("2026-06-02", ""), ["since 2026-06-02", "since 2026-06-02", "handed over since 2026-06-02"]);
        assert_eq!(said("", ""), ["all time", "in all your logs", "in your logs"]);
        assert_eq!(over(period("2025-11-01", "2026-10-31")), "over the year to October 2026");
        assert_eq!(
            [over(period("2025-08-01", "2025-09-30")), over(period("", ""))],
            ["over August to September 2025", "over all your logs"]
        );
        assert_eq!(period_as_noun(period("", "2026-09-30")), "the time until 2026-09-30");
    }
}
