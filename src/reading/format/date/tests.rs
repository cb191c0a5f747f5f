use super::super::{Evidence, weigh};
use super::*;
use proptest::prelude::*;
use std::collections::BTreeMap;
use std::fmt::Write as _;

fn day(text: &str) -> Day {
    Day::parse(text).unwrap()
}

#[test]
fn dates_of_numbers_are_read_in_their_style() {
    for (text, month_first, day_first) in [
        ("9/3/2026", Some("2026-09-03"), Some("2026-03-09")),
        ("9/3/26", Some("2026-09-03"), Some("2026-03-09")),
        ("9/17/26", Some("2026-09-17"), None),
        ("03.09.2026", Some("2026-03-09"), Some("2026-09-03")),
        ("3. 9. 2026", Some("2026-03-09"), Some("2026-09-03")),
        ("3-9-2026", Some("2026-03-09"), Some("2026-09-03")),
        ("3 9 2026", Some("2026-03-09"), Some("2026-09-03")),
        ("Thu 9/3/2026", Some("2026-09-03"), None),
        ("9/3/2026 14:05", Some("2026-09-03"), Some("2026-03-09")),
        ("9/3/2026, 2:05:10 PM", Some("2026-09-03"), Some("2026-03-09")),
        ("31/04/2026", None, None),
        ("9/3/75", None, None),
        ("9/3-2026", None, None),
        ("9/3/20260", None, None),
        ("9/3/226", None, None),
    ] {
        assert_eq!(read(text, DateStyle::MonthDayYear), month_first.map(day), "{text}");
        assert_eq!(read(text, DateStyle::DayMonthYear), day_first.map(day), "{text}");
        assert_eq!(read(text, DateStyle::YearMonthDay), None, "{text}");
    }
    assert_eq!(read("26-09-03", DateStyle::YearMonthDay), Some(day("2026-09-03")));
}

#[test]
fn dates_that_say_themselves_are_read_in_every_style() {
    for text in [
        "2026-09-03",
        "2026-9-3",
        "2026/09/03",
        "2026.9.3",
        "20260903",
        "3 Sep 2026",
        "Sep 3 2026",
        "Sept. 3, 2026",
        "September 3rd, 2026",
        "3rd of September 2026",
        "3-Sep-26",
        "03SEP2026",
        "2026 Sep 3",
        "Sep 3 '26",
        "Thu 3 Sep 2026",
        "Thursday, September 3, 2026",
        "Thu., 3. Sept. 2026",
        "3. September 2026",
        "3 septembre 2026",
        "2026-09-03T14:05:00Z",
        "2026-09-03 14:05:00.123 +02:00",
        "Sep 3, 2026 at 2:05 PM",
        "Sep 3, 2026, 2 pm",
        "2026-09-03 00:00:00",
    ] {
        for style in DateStyle::ALL {
            assert_eq!(read(text, *style), Some(day("2026-09-03")), "{text}");
        }
    }
}

#[test]
fn what_is_no_date_is_not_read() {
    for text in [
        "",
        "2026",
        "Sep",
        "Sep 2026",
        "9/2026",
        "Fri 3 Sep 2026",
        "2026-02-30",
        "2026-13-01",
        "46268",
        "3 Smarch 2026",
        "Sep Sep 3",
        "1 2 3 4",
        "9/3/2026 25:00",
        "9/3/2026 x",
        "next Thursday",
        "3rd/9th/2026",
        "-9/3/2026",
        "９/3/2026",
        "Sep 2026th 3",
        "1/2/3/2026",
    ] {
        assert!(DateStyle::ALL.iter().all(|style| read(text, *style).is_none()), "{text}");
    }
}

#[test]
fn a_date_may_lack_its_year() {
    let without = |month, day, weekday| Some(Written::WithoutYear { month, day, weekday });
    for text in ["Sep 3", "3 Sep", "3-Sep", "September 3rd", "Sep. 3,"] {
        assert_eq!(written(text, DateStyle::YearMonthDay), without(9, 3, None), "{text}");
    }
    assert_eq!(written("Thu 9/3", DateStyle::MonthDayYear), without(9, 3, Some(3)));
    assert_eq!(written("9/3", DateStyle::DayMonthYear), without(3, 9, None));
    assert_eq!(written("3.9.", DateStyle::DayMonthYear), without(9, 3, None));
    assert_eq!((written("9/31", DateStyle::MonthDayYear), written("9/3", DateStyle::YearMonthDay)), (None, None));
}

#[test]
fn advice_names_the_day_or_both_readings() {
    for (text, expected) in [
        ("2026/9/3", "write 2026-09-03"),
        ("3 Sep 2026", "write 2026-09-03"),
        ("9/3/2026", "write 2026-09-03 or 2026-03-09, whichever you mean"),
        ("23/9/2026", "write 2026-09-23"),
        ("sept 3", "write its year too"),
        ("someday", "write year, month and day, as 2026-09-03"),
        ("2026-02-30", "there is no such day: check the month and the day"),
        ("31/04/2026", "there is no such day: check the month and the day"),
        ("Fri 3 Sep 2026", "that date is another weekday: check both"),
    ] {
        assert_eq!(advice(text), expected, "{text}");
    }
}

/// A day in a CLDR pattern; `names` are the months, wide and short.
fn in_pattern(day: Day, pattern: &str, wide: &[String], short: &[String]) -> String {
    let date = day.date();
    let (mut text, mut rest) = (String::new(), pattern);
    while let Some(letter) = rest.chars().next() {
        let count = rest.chars().take_while(|c| *c == letter).count();
        let month = usize::try_from(date.month0()).unwrap();
        match (letter, count) {
            ('y', 2) => write!(text, "{:02}", date.year() % 100).unwrap(),
            ('y', _) => text += &date.year().to_string(),
            ('M', 4) => text += &wide[month],
            ('M', 3) => text += &short[month],
            ('M', _) => write!(text, "{:0count$}", date.month()).unwrap(),
            ('d', _) => write!(text, "{:0count$}", date.day()).unwrap(),
            (mark, _) => text.extend(std::iter::repeat_n(mark, count)),
        }
        rest = &rest[letter.len_utf8() * count..];
    }
    text
}

fn rows(fixture: &'static str) -> Vec<Vec<String>> {
    let mut reader = csv::ReaderBuilder::new().comment(Some(b'#')).from_reader(fixture.as_bytes());
    reader.records().map(|record| record.unwrap().iter().map(str::to_owned).collect()).collect()
}

/// Short, medium and long dates of en-US, de-DE, fr-FR, de-CH and en-IN, as Unicode CLDR has them, all days of two years.
#[test]
fn dates_of_five_countries_are_read() {
    let mut names: BTreeMap<(String, String), Vec<String>> = BTreeMap::new();
    for row in rows(include_str!("../../../../fixtures/cldr/month_names.csv")).into_iter().filter(|row| row[1] == "format") {
        names.insert((row[0].clone(), row[2].clone()), row[3..].to_vec());
    }
    let patterns = rows(include_str!("../../../../fixtures/cldr/date_patterns.csv"));
    assert_eq!(patterns.len(), 5);
    for row in patterns {
        let style = if row[0] == "en-US" { DateStyle::MonthDayYear } else { DateStyle::DayMonthYear };
        let months = |form: &str| &names[&(row[0].clone(), form.to_owned())];
        for pattern in &row[1..] {
            for day in (day("2025-01-01").0..=day("2026-12-31").0).map(Day) {
                let text = in_pattern(day, pattern, months("wide"), months("abbreviated"));
                assert_eq!(read(&text, style), Some(day), "{} {text}", row[0]);
            }
        }
    }
}

/// How the cells of a column are written: its style, its mark, years of two digits, zeros in front.
fn write(day: Day, style: DateStyle, mark: &str, short_year: bool, padded: bool) -> String {
    let date = day.date();
    let year = if short_year { format!("{:02}", date.year() % 100) } else { date.year().to_string() };
    let (month, day) = if padded {
        (format!("{:02}", date.month()), format!("{:02}", date.day()))
    } else {
        (date.month().to_string(), date.day().to_string())
    };
    let fields = match style {
        DateStyle::YearMonthDay => [year, month, day],
        DateStyle::MonthDayYear => [month, day, year],
        DateStyle::DayMonthYear => [day, month, year],
    };
    fields.join(mark)
}

proptest! {
    #[test]
    fn a_column_in_any_style_reads_back_or_asks(
        days in prop::collection::vec(14_610_i32..36_000, 1..20),
        style in 0_usize..3,
        mark in 0_usize..4,
        short_year in any::<bool>(),
        padded in any::<bool>(),
    ) {
        let (style, mark) = (DateStyle::ALL[style], ["-", "/", ".", " "][mark]);
        // Years of two digits stand in front with dashes alone, and end with 2069.
        let short_year = short_year && (style != DateStyle::YearMonthDay || mark == "-");
        let texts: Vec<String> = days.iter().map(|day| write(Day(*day), style, mark, short_year, padded)).collect();
        let found = match weigh(&texts.iter().map(String::as_str), written) {
            Evidence::None => DateStyle::YearMonthDay,
            Evidence::Found { style, .. } => style,
            Evidence::Open { styles, .. } => {
                prop_assert!(styles.contains(&style), "{texts:?}");
                return Ok(());
            }
        };
        for (text, day) in texts.iter().zip(&days) {
            prop_assert_eq!(read(text, found), Some(Day(*day)), "{}", text);
        }
    }

    #[test]
    fn a_year_left_out_of_a_column_in_order_is_found_or_asked_for(
        days in prop::collection::btree_set(14_610_i32..16_500, 2..30),
        left_out in prop::collection::vec(any::<bool>(), 30),
        newest_first in any::<bool>(),
    ) {
        let mut days: Vec<Day> = days.into_iter().map(Day).collect();
        if newest_first {
            days.reverse();
        }
        let cells: Vec<Option<Written>> = days.iter().zip(&left_out).map(|(day, left_out)| {
            let text = if *left_out { day.date().format("%b %d").to_string() } else { day.to_string() };
            written(&text, DateStyle::YearMonthDay)
        }).collect();
        for ((found, day), left_out) in dated(&cells).into_iter().zip(&days).zip(&left_out) {
            prop_assert!(found == Some(*day) || (*left_out && found.is_none()), "{found:?} for {day}");
        }
    }
}
