use super::*;
use crate::ids::Id;
use crate::reading::table::Reading;
use crate::reading::{Cells, Known};
use crate::shop::specification::{HOURS, ORDERS};
use proptest::collection::vec;
use proptest::prelude::*;

const ORDER: Groups =
    Groups { group: "order", day: "date", agreed: &["date", "status", "channel"], first_word_if_blank: &["kind", "status"] };

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

/// What each row says in the columns that the table has, sorted: `order A1, quantity 24`.
fn said(specification: &TableSpecification, table: &Table) -> Vec<String> {
    let cell = |column: &str, row: usize| match table.columns.get(column)? {
        Column::Text(values, names) => values[row].map(|id| names.text(id).to_owned()),
        Column::Day(values) => values[row].map(|day| day.to_string()),
        Column::Millionths(values) | Column::Whole(values) => values[row].map(|value| value.to_string()),
        Column::Span(values) => values[row].map(|span| format!("{span:?}")),
        Column::Number(values) => values[row].map(|number| number.normalize().to_string()),
        Column::Price(values) => values[row].map(|price| price.to_string()),
        Column::Percent(values) => values[row].map(|percent| percent.to_string()),
    };
    let names = || specification.columns.iter().map(|column| column.name);
    let row = |row| names().filter_map(|name| Some(format!("{name} {}", cell(name, row)?))).collect::<Vec<_>>().join(", ");
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
        assert!(rows.len() == 3 && rows.iter().any(|row| row.contains("order A1") && row.contains("quantity 24")), "{rows:?}");
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

/// The orders of several files, each with headings of its own.
fn merged(files: &[&str]) -> Merged {
    let tables = files.iter().enumerate().map(|(at, text)| table(&ORDERS, at, text)).collect();
    merge(&ORDERS, tables, Some(ORDER))
}

#[test]
fn columns_that_one_file_lacks_are_taken_from_the_other() {
    let old = "order,date,design,quantity,price,payments\nA1,2026-01-05,moon,12,4,2\nA1,2026-01-05,star,6,3,\n";
    let new = "order,date,design,quantity,price,colours\nA1,2026-01-05,star,6,3,\nA1,2026-01-05,moon,12,4,5\nA2,2026-02-01,moon,12,4,3\n";
    for files in [[old, new], [new, old]] {
        let merged = merged(&files);
        assert_eq!((merged.differing.as_slice(), merged.repeated, merged.fuller), (&[][..], 2, 1));
        assert_eq!(
            said(&ORDERS, &merged.table),
            [
                "order A1, date 2026-01-05, design moon, quantity 12, price 4.00, colours 5, payments 2",
                "order A1, date 2026-01-05, design star, quantity 6, price 3.00",
                "order A2, date 2026-02-01, design moon, quantity 12, price 4.00, colours 3",
            ]
        );
    }
}

#[test]
fn an_order_of_one_file_that_is_filled_further_in_the_other_counts_as_there() {
    let headings = "order,date,design,quantity,price,theme,status\n";
    let file = |rows: &str| format!("{headings}{rows}");
    let early = file("A1,2026-01-05,moon,12,,,\nA1,,star,6,3,,\nA0,2026-03-01,moon,12,4,,\n");
    let late = file("A1,2026-01-05,Star,6,36/dozen,autumn,done\nA1,2026-01-05,moon,12,4,,\n");
    for files in [[&early, &late], [&late, &early]] {
        let merged = merged(&files.map(String::as_str));
        assert_eq!((merged.differing.as_slice(), merged.repeated, merged.fuller), (&[][..], 2, 2));
        assert_eq!(said(&ORDERS, &merged.table)[1..], said(&ORDERS, &table(&ORDERS, 0, &late)), "{files:?}");
    }
    // Each says what the other does not: the later file counts, and it is said.
    let other = file("A1,2026-01-05,moon,12,,winter,\nA1,,star,6,3,,\n");
    let merged = merged(&[&other, &late, &early]);
    assert_eq!(merged.differing.iter().map(|order| (order.group.as_str(), order.counted)).collect::<Vec<_>>(), [("A1", 2)]);
    assert_eq!(merged.differing[0].passed_over, [0, 1]);
}

#[test]
fn a_quote_that_is_done_now_is_a_difference_though_a_blank_says_so() {
    let quoted = "order,date,design,quantity,price,status\nA1,2026-01-05,moon,12,4,quoted\nA1,2026-01-05,star,6,3,\n";
    let done = "order,date,design,quantity,price,status\nA1,2026-01-05,moon,12,4,\nA1,2026-01-05,star,6,3,\nA2,2026-02-01,moon,12,4,\n";
    let without = "order,date,design,quantity,price\nA1,2026-01-05,moon,12,4\nA1,2026-01-05,star,6,3\n";
    let decided = |files: &[&str]| merged(files).differing.iter().map(|order| (order.counted, order.is_open)).collect::<Vec<_>>();
    assert_eq!((decided(&[quoted, done]), decided(&[done, quoted])), (vec![(1, false)], vec![(0, false)]));
    // A file without the column does not say what became of its orders.
    assert_eq!(decided(&[quoted, without]), []);
    assert_eq!(said(&ORDERS, &merged(&[without, quoted]).table), said(&ORDERS, &table(&ORDERS, 0, quoted)));
}

#[test]
fn stretches_of_work_are_one_only_where_what_both_files_have_measures_them() {
    let merged = |files: [&str; 2]| {
        let tables = files.iter().enumerate().map(|(at, text)| table(&HOURS, at, text)).collect();
        let merged = merge(&HOURS, tables, None);
        (said(&HOURS, &merged.table), merged.repeated, merged.fuller)
    };
    let (timed, clocked) = ("date,minutes\n2026-01-05,30\n", "date,start,end\n2026-01-05,18:00,18:30\n");
    assert_eq!((merged([timed, clocked]).0.len(), merged([clocked, timed]).1), (2, 0));
    let (staged, ordered) = ("date,minutes,stage\n2026-01-05,30,bake\n", "date,minutes,order\n2026-01-05,30,A1\n2026-01-05,30,\n");
    let expected =
        vec!["date 2026-01-05, minutes 30000000".to_owned(), "date 2026-01-05, minutes 30000000, stage bake, order A1".to_owned()];
    assert_eq!((merged([staged, ordered]), merged([ordered, staged])), ((expected.clone(), 1, 1), (expected, 1, 1)));
    // A cell that is blank in a column of both says another thing: nothing but an order's id makes two rows one.
    assert_eq!(merged(["date,minutes,stage\n2026-01-05,30,\n", staged]).0.len(), 2);
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
