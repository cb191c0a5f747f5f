use super::trial::ORDERS;
use super::*;
use crate::reading::specification::{ColumnSpecification, TableSpecification};
use proptest::prelude::*;
use std::collections::BTreeMap;

/// Two columns, neither of which must be there.
const PAIR: TableSpecification = TableSpecification { columns: &[named("a"), named("b")], ..ORDERS };

const fn named(name: &'static str) -> ColumnSpecification {
    ColumnSpecification { name, required: false, ..ORDERS.columns[0] }
}

fn of(table: &TableSpecification, text: &[u8]) -> (Cells, Vec<String>) {
    let cells = Cells::of_csv("t.csv", text, Known { specification: table, columns: &BTreeMap::new() });
    let problems = cells.problems.iter().map(ToString::to_string).collect();
    (cells, problems)
}

fn split(text: &[u8]) -> (Cells, Vec<String>) {
    of(&PAIR, text)
}

fn rows(cells: &Cells) -> Vec<(u32, u32)> {
    cells.places().iter().map(|place| (place.row, place.line)).collect()
}

fn column(cells: &Cells, heading: &str) -> Vec<String> {
    let at = cells.headings.iter().position(|known| known == heading).unwrap();
    cells.column(at).map(str::to_owned).collect()
}

#[test]
fn rows_are_right_for_every_line_ending() {
    for ending in ["\n", "\r\n", "\r"] {
        let text = ["a,b", "1,2", "", "", "3,\"x\ny\"", "5,6"].join(ending);
        let (cells, problems) = split(text.as_bytes());
        assert_eq!(rows(&cells), [(2, 2), (5, 5), (6, 7)], "{ending:?}");
        assert_eq!(problems, [""; 0]);
    }
}

#[test]
fn rows_are_right_after_quoted_crlf_and_blank_rows_of_commas() {
    let (cells, problems) = split(b"a,b\r\n\"1\r\n1\",2\r\n,\r\n \r\n3,4");
    assert_eq!((rows(&cells), problems.len()), (vec![(2, 2), (5, 6)], 0));
    assert_eq!(cells.column(1).collect::<Vec<_>>(), ["2", "4"]);
    assert_eq!(cells.column(0).next(), Some("1\r\n1"));
}

#[test]
fn rows_and_lines_are_right_in_utf16_and_below_a_line_that_names_the_separator() {
    let text = "sep=;\r\na;b\r\n1;\"2\r\n2\"\r\n\r\n3;4\r\n";
    let utf16: Vec<u8> = format!("\u{FEFF}{text}").encode_utf16().flat_map(u16::to_be_bytes).collect();
    for bytes in [text.as_bytes(), &utf16] {
        let (cells, problems) = split(bytes);
        assert_eq!((rows(&cells), problems.len()), (vec![(2, 3), (4, 6)], 0));
        assert_eq!((column(&cells, "b"), cells.separator), (vec!["2\r\n2".to_owned(), "4".to_owned()], Some(Separator::Semicolon)));
    }
    assert_eq!((split(text.as_bytes()).0.encoding, split(&utf16).0.encoding), (Some(Encoding::Utf8), Some(Encoding::Utf16Be)));
}

#[test]
fn a_byte_order_mark_and_white_space_around_cells_are_dropped() {
    let (cells, _) = of(&ORDERS, "\u{FEFF}order , date\n  W 1\u{a0}, é \n".as_bytes());
    assert_eq!(cells.headings, ["order", "date"]);
    assert_eq!((cells.column(0).next(), cells.column(1).next()), (Some("W 1"), Some("é")));
}

#[test]
fn semicolons_tabs_and_windows_1252_are_read_and_kept_as_data() {
    for (text, encoding, separator) in [
        (&b"order;date;design\nA1;3.9.2026;cr\xE8me\n"[..], Encoding::Windows1252, Separator::Semicolon),
        ("order\tdate\tdesign\nA1\t3.9.2026\tcrème\n".as_bytes(), Encoding::Utf8, Separator::Tab),
        ("order,date,design\nA1,3.9.2026,crème\n".as_bytes(), Encoding::Utf8, Separator::Comma),
    ] {
        let (cells, problems) = of(&ORDERS, text);
        assert_eq!((problems.len(), cells.encoding, cells.separator), (0, Some(encoding), Some(separator)));
        assert_eq!((column(&cells, "order"), column(&cells, "design")), (vec!["A1".to_owned()], vec!["crème".to_owned()]));
    }
}

#[test]
fn ragged_rows_are_each_named() {
    let (cells, problems) = split(b"a,b\n1\n1,2,3\n1,2\n");
    assert_eq!(rows(&cells), [(4, 4)]);
    assert!(problems[0].starts_with("t.csv, row 2: the row has 1 cell and the headings have 2; "), "{problems:?}");
    assert!(problems[1].starts_with("t.csv, row 3: the row has 3 cells"), "{problems:?}");
    let (_, problems) = split(b"a;b\n1;2;3\n");
    assert!(problems[0].ends_with("put double quotes around a cell that holds a semicolon, and write a semicolon for each blank cell"));
}

#[test]
fn blank_cells_past_the_headings_are_well_where_every_row_has_them() {
    let (cells, problems) = split(b"a,b\n1,2,,\n3,4,\n");
    assert_eq!((rows(&cells), problems.len()), (vec![(2, 2), (3, 3)], 0));
    let (cells, problems) = split(b"a,b\n1,2,\n3,4\n5,6,\n");
    assert_eq!((rows(&cells), problems.len()), (vec![(3, 3)], 2), "1,2 may be 1.2");
    assert_eq!(split(b"a,b\n1,2,\n").1.len(), 1);
    let (cells, problems) = split(b"a,b,,\n1,2\n3,4,,note\n");
    assert_eq!((rows(&cells), problems.len()), (vec![(2, 2), (3, 3)], 0));
}

#[test]
fn rows_end_early_only_where_the_writer_leaves_out_blank_cells() {
    // Nothing but the theme is left out, and no row ends in a blank cell.
    let trimmed = "order,date,paid,theme\nA1,2026-09-01,4\nA2,2026-09-02,5\nA3,2026-09-03,6,harvest\nA4,2026-09-04,7\n";
    let (cells, problems) = of(&ORDERS, trimmed.as_bytes());
    assert_eq!((problems.len(), cells.ended_early), (0, 3));
    assert_eq!(column(&cells, "theme"), ["", "", "harvest", ""]);
    assert_eq!(column(&cells, "paid"), ["4", "5", "6", "7"]);
    // A row that is cut lacks what the others have.
    let (cells, problems) = of(&ORDERS, trimmed.replace("A2,2026-09-02,5", "A2,2026-09-02").as_bytes());
    assert_eq!((problems.len(), cells.ended_early), (1, 2));
    assert!(problems[0].starts_with("t.csv, row 3: the row has 2 cells and the headings have 4"), "{problems:?}");
    assert_eq!((rows(&cells), column(&cells, "paid")), (vec![(2, 2), (4, 4), (5, 5)], ["4", "6", "7"].map(str::to_owned).to_vec()));
    // A writer that writes blank cells left none out: a comma is missing.
    let (cells, problems) = of(&ORDERS, trimmed.replace("A4,2026-09-04,7", "A4,2026-09-04,7,").as_bytes());
    assert_eq!((rows(&cells), problems.len()), (vec![(4, 4), (5, 5)], 2));
}

#[test]
fn titles_above_the_headings_are_passed_over() {
    let text = "\"Ninebell orders, 2026\",,\n,,\nprinted for the date,,\nOrder,Date,Paid\nA1,2026-09-01,4\n";
    let (cells, problems) = of(&ORDERS, text.as_bytes());
    assert_eq!((problems.len(), cells.titles, cells.headings.as_slice()), (0, 2, &["Order", "Date", "Paid"].map(str::to_owned)[..]));
    assert_eq!(rows(&cells), [(5, 5)]);
    // Headings that nobody knows stand in the first row.
    let (cells, _) = of(&ORDERS, b"nr,day\nA1,2026-09-01\n");
    assert_eq!((cells.titles, cells.headings.as_slice(), rows(&cells)), (0, &["nr", "day"].map(str::to_owned)[..], vec![(2, 2)]));
    let columns = BTreeMap::from([("Nr".to_owned(), "order".to_owned()), ("day".to_owned(), "date".to_owned())]);
    let known = Known { specification: &ORDERS, columns: &columns };
    assert_eq!(Cells::of_csv("t.csv", b"x\nnr,day\nA1,2026-09-01\n", known).titles, 1);
    // Twenty rows are searched, blank ones not counted.
    let deep = |rows: usize| format!("{}{}order,date\nA1,2026-09-01\n", ",,\n".repeat(9), "x,y\n".repeat(rows));
    assert_eq!((of(&ORDERS, deep(19).as_bytes()).0.titles, of(&ORDERS, deep(20).as_bytes()).0.titles), (19, 0));
}

#[test]
fn total_rows_are_left_out_and_listed() {
    let text = "order,date,design,paid\nA1,2026-09-01,moon,4\nSubtotal,,,4\nTotal,2026-09-02,Sum,5\n,,,\n,,TOTAL:,9\n";
    let (cells, problems) = of(&ORDERS, text.as_bytes());
    assert_eq!((problems.len(), rows(&cells)), (0, vec![(2, 2), (4, 4)]));
    assert_eq!(cells.left_out.iter().map(|place| place.row).collect::<Vec<_>>(), [3, 6]);
}

#[test]
fn nothing_of_an_unknown_column_is_kept_or_repeated() {
    let text = "name,order,date,paid,address\nRosalind Q,A1,2026-09-01,4,12 Elm Row\nRosalind Q,A2,2026-09-02,5,12 Elm Row,Rosalind Q\n\
                Rosalind Q,A3\nTotal,,,9,12 Elm Row\nRosalind Q,\"A4\n";
    let (cells, problems) = of(&ORDERS, text.as_bytes());
    assert_eq!((rows(&cells), problems.len(), cells.left_out.len()), (vec![(2, 2)], 3, 1), "{problems:?}");
    for secret in ["Rosalind", "Elm"] {
        assert!(!format!("{cells:?}{problems:?}").contains(secret));
    }
    assert!(format!("{cells:?}").contains("2026-09-01"));
    assert_eq!((cells.is_kept(0), cells.is_kept(1), cells.column(0).count()), (false, true, 0));
}

#[test]
fn broken_files_say_what_is_broken() {
    for (text, expected) in [
        (&b""[..], "the file is empty"),
        (b"\n\n", "the file is empty"),
        (b"sep=;\n", "the file is empty"),
        (b"sep=|\na|b\n1|2\n", "separated by '|'"),
        (b"a,b\n1,\0\0\n", "bytes that are no text"),
        (b"a,b\n1,\"2\n3,4\n", "t.csv: a quote opened in row 2 is never closed"),
        (b"a;b\n1;\"2\n3;4\n", "t.csv: a quote opened in row 2 is never closed"),
        (b"\xC3\xA9,b\xE9\n1,2\n", "row 1: the row has letters that are not UTF-8"),
        (b"a,b\n\xC3\xA9,1\n\xE9,2\n", "row 3: the row has letters that are not UTF-8"),
        (b"\xEF\xBB\xBFa,b\n\xC3,\xA9\n", "row 2: the row has letters that are not UTF-8"),
    ] {
        let (_, problems) = split(text);
        assert!(problems.len() == 1 && problems[0].contains(expected), "{expected}: {problems:?}");
    }
    let (cells, problems) = split("a,note,b\n1,é,2\n".as_bytes().iter().chain(b"3,\xE9,4\n").copied().collect::<Vec<u8>>().as_slice());
    assert_eq!((rows(&cells).len(), problems.len()), (2, 0), "letters that nobody reads may be broken");
}

#[test]
fn a_heading_and_no_rows_is_a_table_without_rows() {
    for text in [&b"a,b"[..], b"a,b\n", b"a,b\r\n\r\n"] {
        let (cells, problems) = split(text);
        assert_eq!((cells.headings.len(), cells.places().len(), problems.len()), (2, 0, 0));
    }
}

#[test]
fn a_source_is_set_in_every_place() {
    let (cells, _) = of(&ORDERS, b"order,date,paid\nA1,2026-09-01,4\nA2\nTotal,,4\n");
    let cells = cells.of_source(Id::new(3));
    let places = cells.places().iter().chain(&cells.left_out).chain(cells.problems.iter().filter_map(|problem| problem.place.as_ref()));
    assert_eq!(places.map(|place| (place.source.number(), place.row)).collect::<Vec<_>>(), [(3, 2), (3, 4), (3, 3)]);
}

/// Cells of so few lines that none of them is doubtful.
fn of_few_lines(regex: &'static str) -> impl Strategy<Value = String> {
    regex.prop_filter("a cell of many lines", |cell| cell.matches('\n').count() <= 3)
}

proptest! {
    #[test]
    fn a_table_is_read_the_same_however_it_is_written(
        // Letters that are never one of UTF-8 together, whatever Windows-1252 makes of them.
        table in proptest::collection::vec((of_few_lines("[a-z][a-z ,;\t\"\n]{0,6}z"), "[a-z,;\t\"éàñ]{1,6}"), 1..6),
        separator in prop::sample::select(vec![b',', b';', b'\t']),
        ending in prop::sample::select(vec!["\n", "\r\n", "\r"]),
        encoding in 0..4_usize,
    ) {
        let sign = char::from(separator);
        let quoted = |cell: &str| format!("\"{}\"", cell.replace('"', "\"\""));
        let lines = table.iter().map(|(a, b)| format!("{}{sign}{}", quoted(a), quoted(b)));
        let text: String = std::iter::once(format!("a{sign}b")).chain(lines).flat_map(|line| [line, ending.to_owned()]).collect();
        let bytes = match encoding {
            0 => text.clone().into_bytes(),
            1 => text.encode_utf16().flat_map(u16::to_le_bytes).collect(),
            2 => format!("\u{FEFF}{text}").encode_utf16().flat_map(u16::to_be_bytes).collect(),
            _ => encoding_rs::WINDOWS_1252.encode(&text).0.into_owned(),
        };
        let (cells, problems) = split(&bytes);
        prop_assert_eq!(problems, Vec::<String>::new());
        prop_assert_eq!(cells.separator.map(Separator::byte), Some(separator));
        let expected = |pick: fn(&(String, String)) -> &String| table.iter().map(|row| pick(row).trim().to_owned()).collect::<Vec<_>>();
        prop_assert_eq!(column(&cells, "a"), expected(|row| &row.0));
        prop_assert_eq!(column(&cells, "b"), expected(|row| &row.1));
    }
}
