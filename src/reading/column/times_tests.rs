//! Columns of dates, minutes, times, words and payments.

use super::super::Table;
use super::super::cells::{Cells, Known};
use super::super::specification::TableSpecification;
use super::*;
use crate::reading::format::date::DateStyle;
use proptest::prelude::*;

/// Reads a file of one column of the table `hours`, under a heading, with lines of `shop.toml`.
fn read_under(heading: &str, kind: Kind, cells: &[&str], reading: &Reading) -> (Table, Vec<String>) {
    let column =
        ColumnSpecification { name: "cell", also: None, kind, required: true, filled: false, carried: false, meaning: "", example: "" };
    let columns = Box::leak(Box::new([column]));
    let specification = TableSpecification { name: "hours", is_log: true, meaning: "", everyday: &[], columns };
    let text = cells.iter().fold(String::new(), |text, cell| text + "\"" + cell + "\",x\n");
    let mut reading = reading.clone();
    reading.columns.insert(heading.to_owned(), "cell".to_owned());
    let mut problems = Vec::new();
    let cells = Cells::of_csv(
        "hours.csv",
        format!("{heading},other\n{text}").as_bytes(),
        Known { specification: &specification, columns: &reading.columns },
    );
    let table = Table::read(&specification, &cells, &reading, &BTreeSet::new(), &mut problems);
    (table, problems.iter().map(ToString::to_string).collect())
}

fn read(kind: Kind, cells: &[&str]) -> (Table, Vec<String>) {
    read_under("cell", kind, cells, &Reading::default())
}

fn fixed(format: &str) -> Reading {
    Reading { formats: [("cell".to_owned(), format.to_owned())].into(), ..Reading::default() }
}

fn days(table: &mut Table) -> Vec<String> {
    table.days("cell").iter().map(|day| day.map_or_else(|| "-".to_owned(), |day| day.to_string())).collect()
}

/// Minutes in thousandths.
fn thousandths(table: &mut Table) -> Vec<Option<i64>> {
    table.millionths("cell").iter().map(|minutes| minutes.map(|minutes| minutes / 1000)).collect()
}

fn format(table: &Table) -> (Option<&str>, usize) {
    (table.format_of("cell"), table.understood[0].deciding)
}

#[test]
fn one_date_decides_for_its_column() {
    let (mut table, problems) = read(Kind::Day, &["9/3/2026", "9/17/2026 14:05", "2026-09-20", "Oct 1, 2026"]);
    assert_eq!((format(&table), problems.len()), ((Some("month/day/year"), 1), 0));
    assert_eq!(days(&mut table), ["2026-09-03", "2026-09-17", "2026-09-20", "2026-10-01"]);
    // The first could be month first and the second year first: neither can only be so, and both are so.
    let (mut table, problems) = read(Kind::Day, &["3.9.26", "17.9.26"]);
    assert_eq!((format(&table), problems.len()), ((Some("day/month/year"), 0), 0));
    assert_eq!(days(&mut table), ["2026-09-03", "2026-09-17"]);
    let (table, problems) = read(Kind::Day, &["2026-09-03", "Sep 4, 2026"]);
    assert_eq!((format(&table), problems.len()), ((None, 0), 0));
}

#[test]
fn days_and_months_that_may_be_either_ask_once_and_the_answer_is_read() {
    let cells = ["2026-09-20", "9/3/2026", "10/4/2026"];
    let (mut table, problems) = read(Kind::Day, &cells);
    assert_eq!(
        problems,
        [
            "hours.csv, column cell: '9/3/2026' in row 3 is 2026-09-03 as month/day/year or 2026-03-09 as day/month/year, and no cell of the column tells which; write cell = \"month/day/year\" or cell = \"day/month/year\" under [formats.hours] in shop.toml"
        ]
    );
    assert!(table.is_wrong(1, "cell"));
    assert_eq!(days(&mut table), ["-", "-", "-"]);
    for (answer, day) in [("month/day/year", "2026-09-03"), ("Day/Month/Year", "2026-03-09")] {
        let (mut table, problems) = read_under("cell", Kind::Day, &cells, &fixed(answer));
        assert_eq!((problems.len(), days(&mut table)[1].as_str()), (0, day));
    }
}

#[test]
fn a_date_in_another_style_than_the_rest_is_odd() {
    let (_, problems) = read(Kind::Day, &["9/17/2026", "9/18/2026", "31/12/2026", "9/31/2026"]);
    assert_eq!(
        problems,
        [
            "hours.csv, row 4, column cell: '31/12/2026' is day/month/year, but the rest of the column is month/day/year; write 2026-12-31",
            "hours.csv, row 5, column cell: '9/31/2026' is not a date; there is no such day: check the month and the day",
        ]
    );
}

#[test]
fn a_year_is_taken_from_neighbours_or_asked_for() {
    let (mut table, problems) = read(Kind::Day, &["2026-09-03", "Sep 5", "", "9/17", "2026-10-01"]);
    assert_eq!((problems.len(), table.understood[0].years), (0, 2));
    assert_eq!(days(&mut table), ["2026-09-03", "2026-09-05", "-", "2026-09-17", "2026-10-01"]);
    let (table, problems) = read(Kind::Day, &["Sep 5", "Sep 6"]);
    assert_eq!(
        problems[0],
        "hours.csv, row 2, column cell: 'Sep 5' has no year, and the dates before and after it do not leave one alone; write its year too"
    );
    assert!(problems.len() == 2 && table.is_wrong(1, "cell"));
}

#[test]
fn two_parts_ask_unless_a_cell_or_the_heading_decides() {
    let (mut table, problems) = read(Kind::Minutes, &["1:35", "95 min", "2:10"]);
    assert_eq!(
        problems,
        [
            "hours.csv, column cell: '1:35' in row 2 is 1 h 35 min as hours:minutes or 1 min 35 s as minutes:seconds, and no cell of the column tells which; write cell = \"hours:minutes\" or cell = \"minutes:seconds\" under [formats.hours] in shop.toml"
        ]
    );
    assert_eq!(thousandths(&mut table), [None; 3]);
    let (mut table, problems) = read(Kind::Minutes, &["95:12", "4:30", "1 h"]);
    assert_eq!((format(&table), problems.len()), ((Some("minutes:seconds"), 1), 0));
    assert_eq!(thousandths(&mut table), [Some(95_200), Some(4_500), Some(60_000)]);
    let (mut table, problems) = read_under("Time (h:mm)", Kind::Minutes, &["1:35", "0:45:12"], &Reading::default());
    assert_eq!((format(&table), problems.len()), ((Some("hours:minutes"), 0), 0));
    assert_eq!(thousandths(&mut table), [Some(95_000), Some(45_200)]);
    let (_, problems) = read_under("cell", Kind::Minutes, &["1:35", "30:15"], &fixed("hours:minutes"));
    assert_eq!(
        problems,
        [
            "hours.csv, row 3, column cell: '30:15' is minutes:seconds, but [formats.hours] in shop.toml says hours:minutes; write 30 min 15 s"
        ]
    );
}

#[test]
fn plain_numbers_under_hours_are_hours_unless_they_cannot_be() {
    let (mut table, problems) = read_under("Hours", Kind::Minutes, &["1.5", "2", "1:15", "20 min"], &Reading::default());
    assert_eq!((format(&table).0, problems.len()), (Some("decimal point, hours:minutes, hours"), 0));
    assert_eq!(thousandths(&mut table), [Some(90_000), Some(120_000), Some(75_000), Some(20_000)]);
    let (_, problems) = read_under("Hours", Kind::Minutes, &["1.5", "95"], &Reading::default());
    assert_eq!(problems.len(), 1, "{problems:?}");
    assert!(problems[0].ends_with("write cell = \"minutes\" or cell = \"hours\" under [formats.hours] in shop.toml"), "{problems:?}");
    let (mut table, problems) = read_under("Hours", Kind::Minutes, &["1.5", "95"], &fixed("minutes"));
    assert_eq!((problems.len(), thousandths(&mut table)), (0, vec![Some(1_500), Some(95_000)]));
}

#[test]
fn bare_numbers_beside_hours_are_what_they_can_be_or_ask() {
    let (mut table, problems) = read(Kind::Minutes, &["2h 15m", "45", "95", "5", "20 min"]);
    assert_eq!((format(&table).0, problems.len()), (Some("minutes"), 0));
    assert_eq!(thousandths(&mut table), [Some(135_000), Some(45_000), Some(95_000), Some(5_000), Some(20_000)]);
    let (mut table, problems) = read(Kind::Minutes, &["1h35", "1.5", "2"]);
    assert_eq!((format(&table).0, problems.len()), (Some("decimal point, hours"), 0));
    assert_eq!(thousandths(&mut table), [Some(95_000), Some(90_000), Some(120_000)]);
    let (mut table, problems) = read(Kind::Minutes, &["2h 15m", "45", "95", "1.5"]);
    let odd = "hours.csv, row 5, column cell: '1.5' is hours, but the rest of the column is minutes; write 1 h 30 min, or 1.5 min if that is meant";
    assert_eq!((thousandths(&mut table)[3], problems), (None, vec![odd.to_owned()]));
    let asks = ["2h 15m", "2"];
    let (_, problems) = read(Kind::Minutes, &asks);
    assert_eq!(
        problems,
        ["hours.csv, column cell: '2' in row 3 is 2 min as minutes or 2 h as hours, and no cell of the column tells which; \
          write cell = \"minutes\" or cell = \"hours\" under [formats.hours] in shop.toml"]
    );
    let (_, problems) = read_under("cell", Kind::Minutes, &asks, &fixed("hours:minutes"));
    assert!(problems[0].contains("write cell = \"hours:minutes, minutes\" or cell = \"hours:minutes, hours\" under"), "{problems:?}");
    let (mut table, problems) = read_under("cell", Kind::Minutes, &asks, &fixed("hours:minutes, hours"));
    assert_eq!((problems.len(), thousandths(&mut table)), (0, vec![Some(135_000), Some(120_000)]));
    // Without a cell in hours, a number is minutes, with whatever decimals.
    let (mut table, problems) = read(Kind::Minutes, &["12.5", "1.5", "55 min"]);
    assert_eq!((problems.len(), thousandths(&mut table)), (0, vec![Some(12_500), Some(1_500), Some(55_000)]));
}

#[test]
fn a_format_of_two_answers_is_found_and_fixed_alike() {
    let cells = ["1,5 h", "1:35", "30:15", "2,25"];
    let (mut table, problems) = read(Kind::Minutes, &cells);
    assert_eq!((format(&table).0, problems.len()), (Some("decimal comma, minutes:seconds"), 0));
    let found = thousandths(&mut table);
    assert_eq!(found, [Some(90_000), Some(1_583), Some(30_250), Some(2_250)]);
    let (mut table, problems) = read_under("cell", Kind::Minutes, &cells, &fixed("minutes:seconds, decimal comma"));
    assert_eq!((problems.len(), thousandths(&mut table)), (0, found));
    let (_, problems) = read_under("cell", Kind::Minutes, &cells, &fixed("hours:minutes, comma"));
    assert!(
        problems[0].starts_with("shop.toml, key formats.hours.cell: 'hours:minutes, comma' is not a format of this column"),
        "{problems:?}"
    );
}

#[test]
fn a_range_is_the_minutes_between_its_ends() {
    let (mut table, problems) = read(Kind::Minutes, &["6:30-8:05pm", "22:00 to 1:30", "95"]);
    assert_eq!((problems.len(), thousandths(&mut table)), (0, vec![Some(95_000), Some(210_000), Some(95_000)]));
    let (mut table, problems) = read(Kind::TimeOrSpan, &["6:30-8:05pm", "18:30", "later"]);
    assert_eq!(table.spans("cell"), [Some((66_600, Some(72_300))), Some((66_600, None)), None]);
    assert_eq!(problems, ["hours.csv, row 4, column cell: 'later' is not a time of day; write it as 18:30"]);
}

#[test]
fn words_are_read_by_their_forms_and_counted() {
    const FORMS: Forms = Forms { read: &[("canceled", "cancelled")], proposed: &[] };
    let kind = Kind::Choice(&["done", "cancelled"], FORMS);
    let words = [("gone".to_owned(), "done".to_owned())].into();
    let (mut table, problems) =
        read_under("cell", kind, &["Done", "canceled", "gone", "canceled", "doen"], &Reading { words, ..Reading::default() });
    assert_eq!(table.wholes("cell"), [Some(0), Some(1), Some(0), Some(1), None]);
    let counted: Vec<_> = table.understood[0].words.iter().map(|word| (word.found.as_str(), word.read_as.as_str(), word.cells)).collect();
    assert_eq!(counted, [("canceled", "cancelled", 2), ("gone", "done", 1)]);
    assert_eq!(
        problems,
        [
            "hours.csv, row 6, column cell: 'doen' is not a word this column knows; write done, or doen = \"done\" under [words] in shop.toml"
        ]
    );
}

#[test]
fn payments_are_numbers_or_words() {
    let payments = [("Phone".to_owned(), 2)].into();
    let cells = ["2", "cash", "Credit card", "phone", "barter", "-1"];
    let (mut table, problems) = read_under("cell", Kind::Payments, &cells, &Reading { payments, ..Reading::default() });
    assert_eq!(table.wholes("cell"), [Some(2), Some(0), Some(1), Some(2), None, None]);
    assert_eq!(
        problems,
        [
            "hours.csv, row 6, column cell: 'barter' is not a way of paying this column knows; write how many card charges it made, or barter = 1 (0 for none) under [payments] in shop.toml",
            "hours.csv, row 7, column cell: '-1' is less than 0; write it without a minus",
        ]
    );
}

proptest! {
    #[test]
    fn minutes_written_in_any_ways_read_back_or_ask(
        totals in prop::collection::vec((0_i64..1440, 0_i64..60, 0_usize..6), 1..12),
        in_seconds in any::<bool>(),
        comma in any::<bool>(),
    ) {
        let cells: Vec<(String, i64)> = totals.iter().map(|(minutes, seconds, way)| {
            let (hours, rest) = (minutes / 60, minutes % 60);
            let quarters = format!("{}{}{:02} h", hours, if comma { ',' } else { '.' }, rest / 15 * 25);
            match way {
                0 if in_seconds => (format!("{minutes}:{seconds:02}"), minutes * 60 + seconds),
                0 => (format!("{hours}:{rest:02}"), minutes * 60),
                1 => (format!("{hours}:{rest:02}:{seconds:02}"), minutes * 60 + seconds),
                2 => (format!("{hours} h {rest} min"), minutes * 60),
                3 => (quarters, hours * 3600 + rest / 15 * 900),
                4 => (format!("{minutes} min {seconds} s"), minutes * 60 + seconds),
                _ => (minutes.to_string(), minutes * 60),
            }
        }).collect();
        let texts: Vec<&str> = cells.iter().map(|(text, _)| text.as_str()).collect();
        let (mut table, problems) = read(Kind::Minutes, &texts);
        if problems.is_empty() {
            let expected: Vec<Option<i64>> = cells.iter().map(|(_, seconds)| Some((seconds * 1_000_000 + 30) / 60)).collect();
            prop_assert_eq!(table.millionths("cell"), expected, "{:?}", texts);
        } else {
            prop_assert!(problems.len() == 1 && problems[0].contains("no cell of the column tells which"), "{problems:?}");
        }
    }

    #[test]
    fn the_style_of_a_column_of_dates_is_told(days in prop::collection::vec(14_610_i32..20_000, 1..12), day_first in any::<bool>()) {
        let pattern = if day_first { "%-d/%-m/%Y" } else { "%-m/%-d/%Y" };
        let texts: Vec<String> = days.iter().map(|day| Day(*day).date().format(pattern).to_string()).collect();
        let (mut table, problems) = read(Kind::Day, &texts.iter().map(String::as_str).collect::<Vec<_>>());
        if problems.is_empty() {
            let style = if day_first { DateStyle::DayMonthYear } else { DateStyle::MonthDayYear };
            // Where day and month are the same, either style reads them.
            let is_even = texts.iter().all(|text| text.split('/').next() == text.split('/').nth(1));
            prop_assert!(is_even || table.format_of("cell") == Some(style.name()));
            prop_assert_eq!(table.days("cell"), days.iter().map(|day| Some(Day(*day))).collect::<Vec<_>>());
        } else {
            prop_assert!(problems.len() == 1 && problems[0].contains("no cell of the column tells which"), "{problems:?}");
        }
    }
}
