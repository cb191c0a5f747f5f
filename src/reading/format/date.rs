//! Dates as a spreadsheet, a shop's export or a person writes them.

mod parts;
mod weekdays;
mod years;

use super::{Evidence, Format, Style, Wrong, time, weigh};
use crate::quantity::{Day, month_names};
use crate::reading::problem_kind::NOT_A_DATE;
use chrono::{Datelike, NaiveDate};
use parts::Part;
use std::fmt;
pub use years::dated;

/// The order of year, month and day in a date of numbers. A year of four digits in front and a month by its name say themselves.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum DateStyle {
    /// `2026-09-03`.
    YearMonthDay,
    /// `9/3/2026`.
    MonthDayYear,
    /// `3.9.2026`.
    DayMonthYear,
}

impl Style for DateStyle {
    const ALL: &'static [Self] = &[Self::YearMonthDay, Self::MonthDayYear, Self::DayMonthYear];

    fn name(self) -> &'static str {
        match self {
            Self::YearMonthDay => "year/month/day",
            Self::MonthDayYear => "month/day/year",
            Self::DayMonthYear => "day/month/year",
        }
    }
}

/// A date as it is written, with its year or without.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Written {
    /// A whole date.
    Day(Day),
    /// `Sep 3`: its year is to be found from its neighbours.
    WithoutYear {
        /// 1 to 12.
        month: u32,
        /// 1 to 31.
        day: u32,
        /// The weekday it says, days from Monday.
        weekday: Option<u32>,
    },
}

impl fmt::Display for Written {
    /// The date as it is read in every style.
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::Day(day) => day.fmt(f),
            Self::WithoutYear { month, day, .. } => match NaiveDate::from_ymd_opt(2000, *month, *day) {
                Some(date) => write!(f, "{}", date.format("%b %-d")),
                None => write!(f, "{month}/{day}"),
            },
        }
    }
}

/// Dates.
pub(in crate::reading) struct Dates;

impl Format for Dates {
    type Style = DateStyle;
    type Plain = Written;
    type Value = Written;

    fn depends(&self, text: &str) -> bool {
        !text.is_empty() && Day::parse(text).is_none()
    }

    fn plain(&self, text: &str, style: DateStyle) -> Option<Written> {
        written(text, style)
    }

    fn evidence<'t>(&self, texts: &(impl Iterator<Item = &'t str> + Clone)) -> Evidence<DateStyle> {
        evidence(texts)
    }

    fn read(&self, text: &str, style: DateStyle) -> Result<Written, Wrong> {
        written(text, style).ok_or_else(|| (&NOT_A_DATE, "is not a date".into(), advice(text)))
    }

    fn written(&self, plain: &Written, _: DateStyle) -> String {
        plain.to_string()
    }
}

/// Years that the dates of one column do not reach over. Common sense, no source.
const MOST_YEARS: i32 = 20;

/// What dates say of their style. Of styles that read them all and differ, those are out in which the dates reach over more than twenty
/// years, if in another they do not: `03.09.26` and `28.09.26` are days of one month, not of 2003 and 2028.
pub(crate) fn evidence<'t>(texts: &(impl Iterator<Item = &'t str> + Clone)) -> Evidence<DateStyle> {
    let weighed = weigh(texts, written);
    let Evidence::Open { styles, .. } = &weighed else { return weighed };
    let is_short = |style: &DateStyle| {
        let days = || texts.clone().filter_map(|text| read(text, *style));
        days().max().zip(days().min()).is_none_or(|(last, first)| last.0 - first.0 <= MOST_YEARS * 366)
    };
    let short: Vec<DateStyle> = styles.iter().copied().filter(is_short).collect();
    let Some(first) = short.first().copied().filter(|_| short.len() < styles.len()) else { return weighed };
    let differs = |text: &str| short.iter().any(|style| written(text, *style) != written(text, first));
    let reads_alone = |text: &&str| DateStyle::ALL.iter().all(|style| written(text, *style).is_some() == (*style == first));
    match texts.clone().position(differs) {
        Some(cell) => Evidence::Open { styles: short, cell },
        None => Evidence::Found { style: first, dependent: texts.clone().count(), deciding: texts.clone().filter(reads_alone).count() },
    }
}

/// Reads a whole date in a style; `None` where it is none, or has no year.
///
/// A weekday in front must be the date's; a time after it is dropped. Years are 1900 to 2199, of two digits 2000 to 2069.
#[must_use]
pub fn read(text: &str, style: DateStyle) -> Option<Day> {
    match written(text, style)? {
        Written::Day(day) => Some(day),
        Written::WithoutYear { .. } => None,
    }
}

/// Reads a date in a style, with or without its year.
#[must_use]
pub fn written(text: &str, style: DateStyle) -> Option<Written> {
    if let Some(day) = Day::parse(text) {
        return Some(Written::Day(day));
    }
    let (weekday, date) = fields(text)?.dated(style)?;
    match date {
        (Some(year), month, day) => {
            let day = on(year, month, day)?;
            weekday.is_none_or(|weekday| is_on(day, weekday)).then_some(Written::Day(day))
        }
        // A leap year has every day that any year has.
        (None, month, day) => on(2000, month, day).map(|_| Written::WithoutYear { month, day, weekday }),
    }
}

/// What to write in place of a text that is not a date.
#[must_use]
pub fn advice(text: &str) -> String {
    let days: Vec<Day> = DateStyle::ALL.iter().filter_map(|style| read(text, *style)).collect();
    match days.as_slice() {
        [] => match DateStyle::ALL.iter().find_map(|style| fields(text)?.dated(*style)) {
            Some((Some(weekday), (Some(year), month, day))) if on(year, month, day).is_some_and(|day| !is_on(day, weekday)) => {
                "that date is another weekday: check both".to_owned()
            }
            Some((_, (Some(_), ..))) => "there is no such day: check the month and the day".to_owned(),
            Some((_, (None, month, day))) if on(2000, month, day).is_some() => "write its year too".to_owned(),
            _ => "write year, month and day, as 2026-09-03".to_owned(),
        },
        [first, rest @ ..] => match rest.iter().find(|day| *day != first) {
            Some(other) => format!("write {first} or {other}, whichever you mean"),
            None => format!("write {first}"),
        },
    }
}

/// Year, month and day as written.
type Fields = (Option<i32>, u32, u32);

/// The numbers of a date, before their order is known.
struct DateFields {
    weekday: Option<u32>,
    parts: Vec<(String, Part)>,
}

/// Takes the weekday and the time off a date.
fn fields(text: &str) -> Option<DateFields> {
    let (mut parts, end) = parts::split(without_time(text.trim())?)?;
    parts.retain(|(_, part)| !matches!(part, Part::Word(word) if word == "of" || word == "the"));
    let weekday = match parts.first() {
        Some((_, Part::Word(word))) => weekdays::weekday(word),
        _ => None,
    };
    if weekday.is_some() {
        parts.remove(0);
    }
    let begins_plainly = weekday.is_some() || parts.first()?.0.is_empty();
    (begins_plainly && ["", ".", ","].contains(&end.as_str())).then_some(DateFields { weekday, parts })
}

impl DateFields {
    /// The fields in a style, with the weekday; neither is checked against the calendar.
    fn dated(&self, style: DateStyle) -> Option<(Option<u32>, Fields)> {
        let mut numbers = Vec::with_capacity(3);
        let mut month = None;
        for (at, (_, part)) in self.parts.iter().enumerate() {
            match part {
                Part::Number { value, digits, ordinal } => numbers.push((*value, *digits, *ordinal)),
                Part::Word(word) if month.is_none() => month = Some((at, month_names::month(word)?)),
                Part::Word(_) => return None,
            }
        }
        let fields = match month {
            Some((at, month)) => with_name(at, month, &numbers),
            None => self.in_numbers(&numbers, style),
        };
        fields.map(|fields| (self.weekday, fields))
    }

    /// Numbers alone: the separators are one and the same.
    fn in_numbers(&self, numbers: &[(u32, usize, bool)], style: DateStyle) -> Option<Fields> {
        let mut marks = self.parts.iter().skip(1).map(|(mark, _)| mark.as_str());
        let mark = marks.next().unwrap_or_default();
        let sound = marks.all(|other| other == mark) && numbers.iter().all(|(.., ordinal)| !ordinal);
        let is_short = |digits: usize| digits <= 2;
        match (numbers, mark) {
            _ if !sound => None,
            (&[(number, 8, _)], _) => {
                Some((year(number / 10_000, 4), number / 100 % 100, number % 100)).filter(|(year, ..)| year.is_some())
            }
            (&[(first, a, _), (second, b, _), (third, c, _)], "-" | "/" | "." | " ") => {
                let (year, month, day) = match (a, b, c, style) {
                    (4, b, c, _) if is_short(b) && is_short(c) => (year(first, 4), second, third),
                    (2, b, c, DateStyle::YearMonthDay) if is_short(b) && is_short(c) => (year(first, 2), second, third),
                    (a, b, 2 | 4, DateStyle::MonthDayYear) if is_short(a) && is_short(b) => (year(third, c), first, second),
                    (a, b, 2 | 4, DateStyle::DayMonthYear) if is_short(a) && is_short(b) => (year(third, c), second, first),
                    _ => return None,
                };
                year.map(|year| (Some(year), month, day))
            }
            (&[(first, a, _), (second, b, _)], "-" | "/" | ".") if is_short(a) && is_short(b) => match style {
                DateStyle::YearMonthDay => None,
                DateStyle::MonthDayYear => Some((None, first, second)),
                DateStyle::DayMonthYear => Some((None, second, first)),
            },
            _ => None,
        }
    }
}

/// A month by its name, the part counted `at`, says itself: `3 Sep 2026`, `Sep 3, 2026`, `2026 Sep 3`, `Sep 3`.
fn with_name(at: usize, month: u32, numbers: &[(u32, usize, bool)]) -> Option<Fields> {
    let (day, year_of) = match (at, numbers) {
        (_, [day]) => (day, None),
        (0 | 1, [day @ (_, 1 | 2, _), year @ (_, 2 | 4, _)]) | (0..=2, [year @ (_, 4, _), day]) => (day, Some(year)),
        _ => return None,
    };
    let has_year = year_of.is_some();
    let year = year_of.filter(|(.., ordinal)| !ordinal).and_then(|(value, digits, _)| year(*value, *digits));
    (day.1 <= 2 && has_year == year.is_some()).then_some((year, month, day.0))
}

/// A year of four digits, or of two in this century.
fn year(value: u32, digits: usize) -> Option<i32> {
    let year = i32::try_from(value).ok()?;
    match digits {
        4 => (1900..2200).contains(&year).then_some(year),
        2 => (year < 70).then_some(2000 + year),
        _ => None,
    }
}

/// The day, if the calendar has it.
fn on(year: i32, month: u32, day: u32) -> Option<Day> {
    NaiveDate::from_ymd_opt(year, month, day).map(Day::from_date)
}

fn is_on(day: Day, weekday: u32) -> bool {
    day.date().weekday().num_days_from_monday() == weekday
}

/// A date without the time after it: `9/3/2026 14:05`, `2026-09-03T14:05:00Z`, `Sep 3, 2026 at 2 pm`. `None` where what follows is no
/// time.
fn without_time(text: &str) -> Option<&str> {
    let starts = text.char_indices().skip(1).filter(|(at, c)| {
        c.is_ascii_digit() && text[..*at].ends_with(|before: char| before.is_whitespace() || matches!(before, 'T' | 't'))
    });
    let clock = |tail: &str| {
        let said = tail.contains(':') || tail.ends_with(['m', 'M', '.']) && tail.contains(['m', 'M']);
        said && time::with_zone(tail)
    };
    match starts.map(|(at, _)| at).find(|at| clock(&text[*at..])) {
        Some(at) => {
            let date = text[..at].trim_end();
            let date = date.strip_suffix(['T', 't']).filter(|date| date.ends_with(|c: char| c.is_ascii_digit())).unwrap_or(date);
            let date = date.strip_suffix(" at").unwrap_or(date).trim_end();
            Some(date.strip_suffix(',').unwrap_or(date))
        }
        None if text.contains(':') => None,
        None => Some(text),
    }
}

#[cfg(test)]
mod tests;
