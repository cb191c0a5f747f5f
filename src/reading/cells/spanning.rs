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

/// The problem of a record with a cell of more than four lines: an error of the file where most of them look like rows of the table, since
/// leaving the row out would leave out all of them; else a warning. `breaks` are the line breaks of the record.
pub(super) fn doubtful(
    cells: &Cells,
    place: Place,
    breaks: usize,
    record: &csv::StringRecord,
    separator: Separator,
) -> Option<Problem> {
    if breaks <= MOST_BREAKS {
        return None;
    }
    let breaks_of = |cell: &str| line_breaks(cell.as_bytes());
    let (at, cell) = record.iter().enumerate().max_by_key(|(at, cell)| (breaks_of(cell), std::cmp::Reverse(*at)))?;
    let within = breaks_of(cell);
    if within <= MOST_BREAKS {
        return None;
    }
    let before: usize = record.iter().take(at).map(breaks_of).sum();
    let first = place.line as usize + before;
    let heading = cells.headings.get(at).filter(|heading| !heading.is_empty());
    let lines = format!("spans {} lines ({first} to {})", within + 1, first + within);
    let of_column = |problem: Problem| heading.map_or(problem.clone(), |heading| problem.column(heading));
    let rows = rows_inside(cell, cells.headings.len(), separator);
    if rows > 0 {
        let look = if rows == 1 { "1 of them looks like a row" } else { &format!("{rows} of them look like rows") };
        let what = format!("a cell that begins in row {} {lines}, and {look} of the table", place.row);
        let problem = of_column(Problem::of_file(&SWALLOWED_ROWS, &cells.file, what));
        return Some(problem.instead(format!("remove the stray quote in line {first} that opens it, and the one in line {} that closes it", first + within)));
    }
    let problem = of_column(Problem::of_file(&CELL_OF_MANY_LINES, &cells.file, format!("the cell {lines}")).at(place));
    Some(problem.instead(format!("if a stray quote in line {first} joined rows, remove it")))
}

/// That a quote is never closed, and how much of the file it takes.
pub(super) fn never_closed(place: Place, breaks: usize) -> String {
    let all = "so all the rest of the file is inside it";
    let lines = if breaks == 0 { String::new() } else { format!(", lines {} to {}", place.line, place.line as usize + breaks) };
    format!("a quote opened in row {} is never closed, {all}{lines}", place.row)
}

/// Lines of a cell, its first and last apart, with as many separators as a row has; none unless they are more than half of its lines that
/// are not blank, or all of them in a table so narrow that any sentence may have as many.
fn rows_inside(cell: &str, width: usize, separator: Separator) -> usize {
    let lines: Vec<&str> = cell.split(['\r', '\n']).collect();
    let inner = lines.get(1..lines.len() - 1).unwrap_or_default().iter().filter(|line| !line.trim().is_empty());
    let sign = separator.byte();
    let is_row = |line: &&&str| line.bytes().filter(|byte| *byte == sign).count() + 1 == width;
    let (all, rows) = (inner.clone().count(), inner.filter(is_row).count());
    let enough = if width > 2 { 2 * rows > all } else { rows == all };
    if width > 1 && enough { rows } else { 0 }
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
        let rows: String = (3..=9).map(|row| format!("A{row},2026-09-0{row},4,for Mia Quill\n")).collect();
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
                            "t.csv, column note: a cell that begins in row 2 spans 9 lines (2 to 10), and 7 of them look like rows of the table; \
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
    fn nothing_of_a_long_cell_is_repeated() {
        for text in [orders("\"six inch", "\" tall"), orders("\"Mia\nQuill\nElm\nRow\nQuay\"", ""), orders("\"six inch", "")] {
            let (_, problems) = problems(&text);
            assert!(!problems.is_empty() && problems.iter().all(|problem| !problem.contains("Quill") && !problem.contains("inch")), "{problems:?}");
        }
    }
}
