//! Cells of many lines: a stray pair of quotes takes all rows between into one cell, and without a word they would be gone.
//!
//! What such a cell holds is never repeated, for it may be a customer's.

use super::Cells;
use super::rows::line_breaks;
use crate::reading::problem::{Place, Problem};
use crate::reading::problem_kind::{CELL_OF_MANY_LINES, SWALLOWED_ROWS};
use crate::reading::separator::Separator;

/// Most line breaks of a cell that nobody wonders at: an address has as many.
const MOST_BREAKS: usize = 3;
/// Separators of a line that no sentence has by chance.
const MANY_SEPARATORS: usize = 5;

/// The problem of a record with a cell that swallowed rows, or that spans more than four lines. The first is an error of the file, since
/// leaving the row out would leave out all of them; the second a warning. `breaks` are the line breaks of the record.
pub(super) fn doubtful(cells: &Cells, place: Place, breaks: usize, record: &csv::StringRecord, separator: Separator) -> Option<Problem> {
    if breaks == 0 {
        return None;
    }
    let breaks_of = |cell: &str| line_breaks(cell.as_bytes());
    let (at, cell) = record.iter().enumerate().max_by_key(|(at, cell)| (breaks_of(cell), std::cmp::Reverse(*at)))?;
    let within = breaks_of(cell);
    let rows = rows_inside(cell, at, cells.headings.len(), separator);
    if within == 0 || (within <= MOST_BREAKS && rows == 0) {
        return None;
    }
    let first = place.line as usize + record.iter().take(at).map(breaks_of).sum::<usize>();
    let last = first + within;
    let lines = format!("spans {} lines ({first} to {last})", within + 1);
    let heading = cells.headings.get(at).filter(|heading| !heading.is_empty());
    let of_column = |problem: Problem| heading.map_or(problem.clone(), |heading| problem.column(heading));
    if rows == 0 {
        let problem = of_column(Problem::of_file(&CELL_OF_MANY_LINES, &cells.file, format!("the cell {lines}")).at(place));
        return Some(problem.instead(format!("if a stray quote in line {first} joined rows, remove it")));
    }
    let look = if rows == 1 { "1 of them looks like a row" } else { &format!("{rows} of them look like rows") };
    let what = format!("a cell that begins in row {} {lines}, and {look} of the table", place.row);
    let problem = of_column(Problem::of_file(&SWALLOWED_ROWS, &cells.file, what));
    Some(problem.instead(format!("remove the stray quote in line {first} that opens it, and the one in line {last} that closes it")))
}

/// That a quote is never closed, and how much of the file it takes.
pub(super) fn never_closed(place: Place, breaks: usize) -> String {
    let all = "so all the rest of the file is inside it";
    let lines = if breaks == 0 { String::new() } else { format!(", lines {} to {}", place.line, place.line as usize + breaks) };
    format!("a quote opened in row {} is never closed, {all}{lines}", place.row)
}

/// Lines of a cell after its first that look like rows of a table so many columns wide: with as many separators as a row has, the last
/// with as many as stand before the cell, the `at`th of its row. 0 where they are too few to say that rows were swallowed: of a cell of
/// few lines all must be rows, with more separators than a sentence has; of a longer one more than half of the lines between its first
/// and its last, or in a narrow table all.
fn rows_inside(cell: &str, at: usize, width: usize, separator: Separator) -> usize {
    let lines: Vec<&str> = cell.split(['\r', '\n']).collect();
    let (Some((last, before)), sign) = (lines.split_last(), separator.byte()) else { return 0 };
    let signs = |line: &str| line.bytes().filter(|byte| *byte == sign).count();
    let between: Vec<usize> = before.iter().skip(1).filter(|line| !line.trim().is_empty()).map(|line| signs(line)).collect();
    let rows = between.iter().filter(|signs| **signs + 1 == width).count();
    let ends_in_row = signs(last) == at && at > 0;
    let enough = if line_breaks(cell.as_bytes()) <= MOST_BREAKS {
        rows == between.len() && ends_in_row && at >= MANY_SEPARATORS
    } else if width > 2 {
        2 * rows > between.len()
    } else {
        width == 2 && rows > 0 && rows == between.len()
    };
    if enough { rows + usize::from(ends_in_row) } else { 0 }
}

#[cfg(test)]
mod tests {
    use super::super::trial::ORDERS;
    use super::super::{Cells, Known};
    use std::collections::BTreeMap;

    fn problems(text: &str) -> (usize, Vec<String>) {
        let cells = Cells::of_csv("t.csv", text.as_bytes(), Known { specification: &ORDERS, columns: &BTreeMap::new() });
        (cells.places().len(), cells.problems.iter().map(ToString::to_string).collect())
    }

    fn orders(note: &str, later: &str) -> String {
        let rows: Vec<String> = (3..=9).map(|row| format!("A{row},2026-09-0{row},4,for Mia Quill\n")).collect();
        let rows = rows.concat();
        format!("order,date,paid,note\nA2,2026-09-02,4,{note}\n{rows}A10,2026-09-10,4,{later}\nA11,2026-09-11,4,\n")
    }

    #[test]
    fn rows_inside_a_pair_of_stray_quotes_are_an_error_of_the_file() {
        for ending in ["\n", "\r\n"] {
            for text in [orders("\"six inch", "\" tall"), orders("\"six inch", "5\" tall")] {
                let (rows, problems) = problems(&text.replace('\n', ending));
                assert_eq!(
                    (rows, problems),
                    (
                        1,
                        vec![
                            "t.csv, column note: a cell that begins in row 2 spans 9 lines (2 to 10), and 8 of them look like rows of the table; \
                             remove the stray quote in line 2 that opens it, and the one in line 10 that closes it"
                                .to_owned()
                        ]
                    )
                );
            }
        }
    }

    #[test]
    fn a_long_note_is_a_warning_and_an_address_is_none() {
        let note = "Dear Mia,\nthe shells, the bells,\nand a kite\n\nare ready\nBo";
        let (rows, problems) = problems(&orders(&format!("\"{note}\""), ""));
        assert_eq!((rows, problems.len()), (10, 1));
        assert_eq!(
            problems[0],
            "t.csv, row 2, column note: the cell spans 6 lines (2 to 7); if a stray quote in line 2 joined rows, remove it"
        );
        assert_eq!(self::problems(&orders("\"Mia Quill\n12 Elm Row\nHarbour\nQuay\"", "")), (10, Vec::new()));
    }

    #[test]
    fn a_narrow_table_takes_no_sentence_for_a_row() {
        let table = |inner: &str| format!("order,note\nA1,\"a\n{inner}\nz\"\nA2,\n");
        let (rows, problems) = problems(&table("one, two\nthree\nfour, five"));
        assert!(rows == 2 && problems[0].contains("the cell spans 5 lines"), "{problems:?}");
        let (_, problems) = self::problems(&table("A3,x\nA4,\nA5,y"));
        assert!(problems[0].contains("3 of them look like rows"), "{problems:?}");
    }

    #[test]
    fn a_single_row_swallowed_is_found_where_rows_are_wide() {
        let wide = |one: &str, other: &str| {
            format!(
                "order,date,design,quantity,paid,note\nA1,2026-09-01,moon,1,4,{one}\nA2,2026-09-02,moon,2,4,{other}\nA3,2026-09-03,moon,3,4,\n"
            )
        };
        let (rows, swallowed) = problems(&wide("\"six inch", "5\" tall"));
        assert_eq!((rows, swallowed.len()), (1, 1), "{swallowed:?}");
        assert!(
            swallowed[0].contains("a cell that begins in row 2 spans 2 lines (2 to 3), and 1 of them looks like a row"),
            "{swallowed:?}"
        );
        assert_eq!(problems(&wide("\"12 Elm Row, up, left, at the bell\nHarbour, by the quay, at last\"", "")), (3, Vec::new()));
    }

    #[test]
    fn nothing_of_a_long_cell_is_repeated() {
        for text in [orders("\"six inch", "\" tall"), orders("\"Mia\nQuill\nElm\nRow\nQuay\"", ""), orders("\"six inch", "")] {
            let (_, problems) = problems(&text);
            assert!(
                !problems.is_empty() && problems.iter().all(|problem| !problem.contains("Quill") && !problem.contains("inch")),
                "{problems:?}"
            );
        }
    }
}
