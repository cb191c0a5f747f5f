//! Several files of one table as one table: rows that stand in several files count once.
//!
//! A row counts as often as in the file that has it most, by its typed values in known columns: so an export that overlaps another
//! adds nothing, and two equal rows of one file stay two. Rows may belong to groups (an order's rows) that are only whole together:
//! where a group's rows differ between files and none holds all the others, the file whose days run latest decides.

use super::problem::Place;
use super::specification::TableSpecification;
use super::table::{Column, ColumnRead, Table};
use crate::ids::{Id, Names, Text};
use crate::quantity::Day;
use rust_decimal::Decimal;
use std::collections::{BTreeMap, BTreeSet, HashMap};

/// The columns by which rows are groups, and by which files are early or late.
#[derive(Debug, Clone, Copy)]
pub struct Groups {
    /// A text column: rows with the same text are one group.
    pub group: &'static str,
    /// A column of days.
    pub day: &'static str,
}

/// A group whose rows differ between files.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Differing {
    /// The group's text.
    pub group: String,
    /// The file whose rows count, by its place among those merged.
    pub counted: usize,
    /// The files whose rows do not.
    pub passed_over: Vec<usize>,
    /// Whether another file ends the same day, so that nothing says which to count.
    pub is_open: bool,
    /// The first of the rows that count.
    pub place: Place,
}

/// The tables of several files as one.
#[derive(Debug)]
pub struct Merged {
    /// The rows that count, file by file.
    pub table: Table,
    /// Rows left out because another file has them, too.
    pub repeated: usize,
    /// Groups whose rows differ between files, in the order of their texts.
    pub differing: Vec<Differing>,
}

/// Merges the tables of several files, which were read by one specification.
#[must_use]
pub fn merge(specification: &TableSpecification, mut tables: Vec<Table>, groups: Option<Groups>) -> Merged {
    if tables.len() < 2 {
        let table = tables.pop().unwrap_or_else(|| Table::without_rows(specification));
        return Merged { table, repeated: 0, differing: Vec::new() };
    }
    let rows = numbered(specification, &tables);
    let differing = groups.map_or_else(Vec::new, |groups| differing(&tables, &rows, groups));
    let decided: HashMap<&str, usize> = differing.iter().map(|group| (group.group.as_str(), group.counted)).collect();
    let mut counted: HashMap<usize, usize> = HashMap::new();
    let mut repeated = 0;
    let mut kept: Vec<Vec<usize>> = Vec::new();
    for (at, (table, numbers)) in tables.iter().zip(&rows).enumerate() {
        let texts = groups.and_then(|groups| table.texts(groups.group));
        let mut here: HashMap<usize, usize> = HashMap::new();
        let mut kept_here = Vec::new();
        for (row, number) in numbers.iter().enumerate() {
            let text = texts.and_then(|(values, names)| values[row].map(|id| names.text(id)));
            if let Some(counted) = text.and_then(|text| decided.get(text)) {
                kept_here.extend((*counted == at).then_some(row));
                continue;
            }
            let occurrence = here.entry(*number).or_default();
            *occurrence += 1;
            if *occurrence > counted.get(number).copied().unwrap_or(0) {
                kept_here.push(row);
            } else {
                repeated += 1;
            }
        }
        for (number, count) in here {
            let most = counted.entry(number).or_default();
            *most = count.max(*most);
        }
        kept.push(kept_here);
    }
    Merged { table: joined(specification, &tables, &kept), repeated, differing }
}

/// A cell as it was read.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
enum Value<'a> {
    Blank,
    Text(&'a str),
    Day(Day),
    Whole(i64),
    Span(i64, Option<i64>),
    Number(Decimal),
    /// The amount in millionths, and the pieces it is for.
    Price(i128, i32),
    /// In millionths.
    Percent(i64),
}

impl Table {
    /// A text column, with its distinct texts.
    fn texts(&self, column: &str) -> Option<(&[Option<Id<Text>>], &Names<Text>)> {
        match self.columns.get(column)? {
            Column::Text(values, names) => Some((values, names)),
            _ => None,
        }
    }

    fn value(&self, column: &str, row: usize) -> Value<'_> {
        let value = match self.columns.get(column) {
            None => None,
            Some(Column::Text(values, names)) => values[row].map(|id| Value::Text(names.text(id))),
            Some(Column::Day(values)) => values[row].map(Value::Day),
            Some(Column::Millionths(values) | Column::Whole(values)) => values[row].map(Value::Whole),
            Some(Column::Span(values)) => values[row].map(|(start, end)| Value::Span(start, end)),
            Some(Column::Number(values)) => values[row].map(Value::Number),
            Some(Column::Price(values)) => values[row].map(|price| Value::Price(price.amount.0, price.pieces)),
            Some(Column::Percent(values)) => values[row].map(|percent| Value::Percent(percent.0)),
        };
        value.unwrap_or(Value::Blank)
    }
}

/// Each row's number by its values: rows with the same values have the same one, whichever file they stand in.
fn numbered(specification: &TableSpecification, tables: &[Table]) -> Vec<Vec<usize>> {
    let mut numbers: HashMap<Vec<Value<'_>>, usize> = HashMap::new();
    let mut all = Vec::new();
    for table in tables {
        let of_row = |row: usize| specification.columns.iter().map(|column| table.value(column.name, row)).collect::<Vec<_>>();
        let mut of_table = Vec::with_capacity(table.rows());
        for row in 0..table.rows() {
            let next = numbers.len();
            of_table.push(*numbers.entry(of_row(row)).or_insert(next));
        }
        all.push(of_table);
    }
    all
}

/// The groups whose rows differ between files so that none holds all of them, and the file that counts for each.
fn differing(tables: &[Table], rows: &[Vec<usize>], Groups { group, day }: Groups) -> Vec<Differing> {
    // Each group's rows by file: their numbers, sorted, and the first row's place.
    let mut by_group: BTreeMap<&str, BTreeMap<usize, (Vec<usize>, Place)>> = BTreeMap::new();
    for (at, (table, numbers)) in tables.iter().zip(rows).enumerate() {
        let Some((texts, names)) = table.texts(group) else { continue };
        for (row, text) in texts.iter().enumerate() {
            let Some(text) = text else { continue };
            let of_file = by_group.entry(names.text(*text)).or_default().entry(at).or_insert_with(|| (Vec::new(), table.places[row]));
            of_file.0.push(numbers[row]);
        }
    }
    let ends: Vec<Option<Day>> = tables.iter().map(|table| table.last_day(day)).collect();
    let mut differing = Vec::new();
    for (group, mut files) in by_group.into_iter().filter(|(_, files)| files.len() > 1) {
        for (numbers, _) in files.values_mut() {
            numbers.sort_unstable();
        }
        let holds_all = |of: &dyn Fn(usize) -> bool| {
            let others = || files.iter().filter(|(at, _)| of(**at));
            others().find(|(_, (numbers, _))| others().all(|(_, (other, _))| holds(numbers, other))).map(|(at, _)| *at)
        };
        if holds_all(&|_| true).is_some() {
            continue;
        }
        let latest = files.keys().map(|at| ends[*at]).max().flatten();
        let among_latest = holds_all(&|at| ends[at] == latest);
        let counted = among_latest.or_else(|| files.keys().copied().find(|at| ends[*at] == latest)).unwrap_or(0);
        let passed_over = files.keys().copied().filter(|at| *at != counted && files[at].0 != files[&counted].0).collect();
        differing.push(Differing {
            group: group.to_owned(),
            counted,
            passed_over,
            is_open: among_latest.is_none(),
            place: files[&counted].1,
        });
    }
    differing
}

impl Table {
    fn last_day(&self, column: &str) -> Option<Day> {
        match self.columns.get(column)? {
            Column::Day(days) => days.iter().flatten().copied().max(),
            _ => None,
        }
    }
}

/// Whether sorted rows hold each of the others at least as often.
fn holds(rows: &[usize], others: &[usize]) -> bool {
    let mut rows = rows.iter();
    others.iter().all(|other| rows.find(|row| *row >= other) == Some(other))
}

/// The rows kept of each table, table by table; texts are numbered anew.
fn joined(specification: &TableSpecification, tables: &[Table], kept: &[Vec<usize>]) -> Table {
    let all = || tables.iter().zip(kept).flat_map(|(table, rows)| rows.iter().map(move |row| (table, *row)));
    let mut joined = Table { places: all().map(|(table, row)| table.places[row]).collect(), ..Table::without_rows(specification) };
    for (to, (table, row)) in all().enumerate() {
        joined.wrong.extend(table.wrong.range((row, "")..(row + 1, "")).map(|(_, column)| (to, *column)));
    }
    for column in specification.columns {
        let name = column.name;
        if tables.iter().all(|table| table.lacks(name)) {
            joined.lacking.insert(name);
            continue;
        }
        let Some(like) = tables.iter().find_map(|table| table.columns.get(name)) else { continue };
        macro_rules! values {
            ($kind:ident) => {
                Column::$kind(
                    all()
                        .map(|(table, row)| match table.columns.get(name) {
                            Some(Column::$kind(values)) => values[row],
                            _ => None,
                        })
                        .collect(),
                )
            };
        }
        let column = match like {
            Column::Text(..) => {
                let mut names = Names::default();
                let text = |(table, row): (&Table, usize)| match table.value(name, row) {
                    Value::Text(text) => Some(names.intern(text)),
                    _ => None,
                };
                let values = all().map(text).collect();
                Column::Text(values, names)
            }
            Column::Day(_) => values!(Day),
            Column::Millionths(_) => values!(Millionths),
            Column::Number(_) => values!(Number),
            Column::Price(_) => values!(Price),
            Column::Whole(_) => values!(Whole),
            Column::Span(_) => values!(Span),
            Column::Percent(_) => values!(Percent),
        };
        joined.columns.insert(name, column);
        joined.understood.push(ColumnRead { column: name, ..ColumnRead::default() });
    }
    let ignored: BTreeSet<&String> = tables.iter().flat_map(|table| &table.ignored).collect();
    joined.ignored = ignored.into_iter().cloned().collect();
    joined
}

#[cfg(test)]
mod tests {
    use super::super::table::Reading;
    use super::super::{Cells, Known};
    use super::*;
    use crate::shop::specification::{HOURS, ORDERS};
    use proptest::collection::vec;
    use proptest::prelude::*;

    const ORDER: Groups = Groups { group: "order", day: "date" };

    fn table(specification: &TableSpecification, at: usize, text: &str) -> Table {
        let (reading, mut problems) = (Reading::default(), Vec::new());
        let cells = Cells::of_csv("t.csv", text.as_bytes(), Known { specification, columns: &reading.columns });
        let table =
            Table::read(specification, &cells.of_source(Id::new(u32::try_from(at).unwrap())), &reading, &BTreeSet::new(), &mut problems);
        assert_eq!(problems, [], "{text}");
        table
    }

    fn orders(files: &[Vec<String>]) -> Vec<Table> {
        let text = |rows: &Vec<String>| format!("order,date,design,quantity,price\n{}\n", rows.join("\n"));
        files.iter().enumerate().map(|(at, rows)| table(&ORDERS, at, &text(rows))).collect()
    }

    /// The values of each row, sorted: what a table says, in whatever order.
    fn said(specification: &TableSpecification, table: &Table) -> Vec<String> {
        let row = |row| format!("{:?}", specification.columns.iter().map(|column| table.value(column.name, row)).collect::<Vec<_>>());
        let mut rows: Vec<String> = (0..table.rows()).map(row).collect();
        rows.sort();
        rows
    }

    fn lines(text: &[&str]) -> Vec<String> {
        text.iter().map(|line| (*line).to_owned()).collect()
    }

    #[test]
    fn rows_of_an_order_that_grew_count_as_the_larger_set() {
        let (quoted, done) =
            (lines(&["A1,2026-01-05,moon,12,4", "A2,2026-01-06,moon,12,4"]), lines(&["A1,2026-01-05,moon,12,4", "A1,2026-01-05,star,6,3"]));
        for files in [[quoted.clone(), done.clone()], [done, quoted]] {
            let merged = merge(&ORDERS, orders(&files), Some(ORDER));
            assert_eq!((merged.differing.as_slice(), merged.table.rows(), merged.repeated), (&[][..], 3, 1));
        }
    }

    #[test]
    fn the_file_whose_orders_run_latest_decides_and_a_tie_asks() {
        let early = lines(&["A1,2026-01-05,moon,12,4", "A2,2026-01-06,moon,12,4"]);
        let late = lines(&["A1,2026-01-05,moon,24,4", "A3,2026-02-06,moon,12,4"]);
        for (files, counted) in [([early.clone(), late.clone()], 1), ([late, early.clone()], 0)] {
            let merged = merge(&ORDERS, orders(&files), Some(ORDER));
            let [only] = merged.differing.as_slice() else { panic!("{:?}", merged.differing) };
            assert_eq!(
                (only.group.as_str(), only.counted, only.passed_over.as_slice(), only.is_open),
                ("A1", counted, &[1 - counted][..], false)
            );
            assert_eq!(only.place.source.index(), counted);
            let rows = said(&ORDERS, &merged.table);
            assert!(rows.len() == 3 && rows.iter().any(|row| row.contains("Text(\"A1\")") && row.contains("Whole(24)")), "{rows:?}");
        }
        let other = lines(&["A1,2026-01-05,moon,24,4", "A4,2026-01-06,moon,12,4"]);
        let merged = merge(&ORDERS, orders(&[early, other]), Some(ORDER));
        assert!(merged.differing.len() == 1 && merged.differing[0].is_open, "{:?}", merged.differing);
    }

    #[test]
    fn equal_rows_of_one_file_stay_two_and_columns_of_one_file_are_blank_in_the_other() {
        let files = [
            table(&HOURS, 0, "date,minutes\n2026-01-05,30\n2026-01-05,30\n"),
            table(&HOURS, 1, "date,minutes,stage\n2026-01-05,30,\n2026-01-06,20,bake\n"),
        ];
        let mut merged = merge(&HOURS, files.into(), None);
        assert_eq!((merged.table.rows(), merged.repeated, merged.table.lacks("stage"), merged.table.lacks("who")), (3, 1, false, true));
        let (stages, names) = merged.table.text("stage");
        assert_eq!(stages.iter().map(|stage| stage.map(|stage| names.text(stage))).collect::<Vec<_>>(), [None, None, Some("bake")]);
    }

    proptest! {
        /// Orders stand whole in any of three files, and in several.
        #[test]
        fn any_split_of_orders_over_files_is_the_table(
            rows in vec((0_usize..6, 0_usize..3, 1_u32..4), 1..30),
            masks in vec(1_usize..8, 6),
        ) {
            let line = |(order, design, dozens): &(usize, usize, u32)| {
                format!("A{order},2026-01-{:02},design {design},{},4.50", order + 1, dozens * 12)
            };
            let whole = said(&ORDERS, &orders(&[rows.iter().map(line).collect()])[0]);
            let of_file = |file: usize| rows.iter().filter(|row| masks[row.0] >> file & 1 == 1).map(line).collect::<Vec<_>>();
            for files in [[0, 1, 2], [2, 0, 1], [1, 2, 0], [2, 1, 0]] {
                let merged = merge(&ORDERS, orders(&files.map(of_file)), Some(ORDER));
                prop_assert_eq!(&merged.differing, &[]);
                prop_assert_eq!(&said(&ORDERS, &merged.table), &whole);
            }
        }

        /// Of rows that belong to no group, each distinct one counts as often as in the file that has it most.
        #[test]
        fn rows_of_no_group_count_as_in_the_file_that_has_them_most(counts in vec((0_usize..3, 0_usize..3, 0_usize..3), 1..12)) {
            let text = |of: &dyn Fn(&(usize, usize, usize)) -> usize| {
                let rows = counts.iter().enumerate().flat_map(|(minutes, count)| vec![format!("2026-01-05,{}", minutes + 1); of(count)]);
                format!("date,minutes\n{}\n", rows.collect::<Vec<_>>().join("\n"))
            };
            let whole = said(&HOURS, &table(&HOURS, 0, &text(&|count| count.0.max(count.1).max(count.2))));
            let files = [text(&|count| count.0), text(&|count| count.1), text(&|count| count.2)];
            for order in [[0, 1, 2], [2, 1, 0], [1, 0, 2]] {
                let tables = order.iter().enumerate().map(|(at, file)| table(&HOURS, at, &files[*file])).collect();
                prop_assert_eq!(&said(&HOURS, &merge(&HOURS, tables, None).table), &whole);
            }
        }
    }
}
