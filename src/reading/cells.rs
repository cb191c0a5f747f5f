//! Cells: the text of a comma-separated file, each row with its place (RFC 4180).
//!
//! Columns of spans into one arena, so that a million rows cost no million strings. The csv crate splits
//! the bytes; rows and lines are counted here, because its own count is one too low on CRLF files and
//! wrong after blank lines.

use super::problem::{Place, Problem};
use super::problem_kind::{EMPTY_FILE, FILE_TOO_LARGE, NOT_COMMAS, NOT_UTF8, ProblemKind, RAGGED_ROW, UNCLOSED_QUOTE};
use super::records::BYTE_ORDER_MARK;
use crate::ids::{Id, Source};

/// The cells of one file. Cells have no white space around them; blank rows are left out.
#[derive(Debug, Default)]
pub struct Cells {
    /// What to call the file in a problem.
    pub file: String,
    arena: String,
    /// The headings, as written.
    pub headings: Vec<String>,
    columns: Vec<Vec<(u32, u32)>>,
    places: Vec<Place>,
    /// What is wrong with the file or its rows, before any cell is looked at.
    pub problems: Vec<Problem>,
    /// Whether the headings cannot be read, so that nothing below them can.
    is_lost: bool,
}

impl Cells {
    /// Splits a file into cells. Ragged rows and broken text become problems, and their rows are left out.
    #[must_use]
    pub fn of_csv(file: &str, bytes: &[u8]) -> Self {
        let mut cells = Self { file: file.to_owned(), ..Self::default() };
        let error = |kind: &'static ProblemKind, what: &str| Problem::of_file(kind, file, what);
        let bytes = bytes.strip_prefix(BYTE_ORDER_MARK).unwrap_or(bytes);
        if u32::try_from(bytes.len()).is_err() {
            cells.problems.push(error(&FILE_TOO_LARGE, "the file is larger than 4 GB").instead("keep only the latest years in it"));
            return cells;
        }
        let mut reader = csv::ReaderBuilder::new().has_headers(false).flexible(true).from_reader(bytes);
        let mut counter = RowCounter { bytes, next: Place::of_row(1, 1), started: 0 };
        let mut record = csv::ByteRecord::new();
        cells.arena.reserve(bytes.len());
        // Reading from memory cannot fail, and flexible records cannot be unequal.
        while reader.read_byte_record(&mut record).unwrap_or(false) {
            let start = record.position().map_or(0, |position| usize::try_from(position.byte()).unwrap_or(usize::MAX));
            let end = usize::try_from(reader.position().byte()).unwrap_or(usize::MAX);
            let place = counter.place(start, end);
            // A problem of the file and not of the row: leaving the row out would leave out all that follows.
            if end >= bytes.len() && never_closed(&bytes[counter.started..]) {
                let what = format!("a quote opened in row {} is never closed, so all the rest of the file is inside it", place.row);
                cells.problems.push(error(&UNCLOSED_QUOTE, &what).instead("close the quote, or remove it"));
                return cells;
            }
            let begins = cells.headings.is_empty();
            cells.take(&record, place);
            if cells.is_lost {
                return cells;
            }
            if let (true, Some(separator)) = (begins, cells.wrong_separator()) {
                let what = format!("the columns are separated by {separator}");
                cells.problems.push(error(&NOT_COMMAS, &what).instead("save it as CSV with commas between columns"));
                return Self { file: file.to_owned(), problems: cells.problems, ..Self::default() };
            }
        }
        if cells.headings.is_empty() {
            cells.problems.push(error(&EMPTY_FILE, "the file is empty").instead("write the headings in its first row"));
        }
        cells
    }

    fn take(&mut self, record: &csv::ByteRecord, place: Place) {
        if record.iter().all(|cell| cell.trim_ascii().is_empty()) {
            return;
        }
        let file = self.file.clone();
        let error = |kind: &'static ProblemKind, what: String| Problem::of_file(kind, &file, what).at(place);
        let whole = std::str::from_utf8(record.as_slice()).ok();
        // Two broken halves of a letter in neighbouring cells must not be read as one.
        let Some(text) =
            whole.filter(|text| (0..record.len()).all(|i| record.range(i).is_some_and(|range| text.is_char_boundary(range.end))))
        else {
            self.problems.push(
                error(&NOT_UTF8, "the row has letters that are not UTF-8".into())
                    .instead("save the file as CSV UTF-8 from your spreadsheet"),
            );
            self.is_lost |= self.headings.is_empty();
            return;
        };
        if self.headings.is_empty() {
            self.headings = record.iter().map(|cell| String::from_utf8_lossy(cell.trim_ascii()).into_owned()).collect();
            self.columns = vec![Vec::new(); self.headings.len()];
            return;
        }
        if record.len() != self.headings.len() {
            let (found, expected) = (record.len(), self.headings.len());
            let cells = if found == 1 { "cell" } else { "cells" };
            self.problems.push(
                error(&RAGGED_ROW, format!("the row has {found} {cells} and the headings have {expected}"))
                    .instead("put double quotes around a cell that holds a comma, and write a comma for each blank cell"),
            );
            return;
        }
        let base = self.arena.len();
        self.arena.push_str(text);
        for (index, column) in self.columns.iter_mut().enumerate() {
            let range = record.range(index).unwrap_or_default();
            let cell = &text[range.clone()];
            let trimmed = cell.trim();
            let start = base + range.start + (cell.len() - cell.trim_start().len());
            // The arena is at most as long as the file, which fits.
            column.push((u32::try_from(start).unwrap_or(0), u32::try_from(trimmed.len()).unwrap_or(0)));
        }
        self.places.push(place);
    }

    /// The separator of a file that does not use commas.
    fn wrong_separator(&self) -> Option<&'static str> {
        let [only] = self.headings.as_slice() else { return None };
        [(';', "semicolons"), ('\t', "tabs")].into_iter().find(|(separator, _)| only.contains(*separator)).map(|(_, name)| name)
    }

    /// The place of each row.
    #[must_use]
    pub fn places(&self) -> &[Place] {
        &self.places
    }

    /// The same cells, their places and those of their problems in a source.
    #[must_use]
    pub fn of_source(mut self, source: Id<Source>) -> Self {
        let problems = self.problems.iter_mut().filter_map(|problem| problem.place.as_mut());
        for place in self.places.iter_mut().chain(problems) {
            place.source = source;
        }
        self
    }

    /// The cells of a column, row by row.
    pub fn column(&self, index: usize) -> impl Iterator<Item = &str> {
        let spans = self.columns.get(index).map_or(&[][..], Vec::as_slice);
        spans.iter().map(|&(start, length)| &self.arena[start as usize..(start + length) as usize])
    }
}

/// Counts rows and lines from the bytes themselves.
struct RowCounter<'a> {
    bytes: &'a [u8],
    next: Place,
    /// Where the record counted last begins.
    started: usize,
}

impl RowCounter<'_> {
    /// The place of the record that the csv crate found between two offsets, blank rows before it included.
    fn place(&mut self, start: usize, end: usize) -> Place {
        let end = end.min(self.bytes.len());
        let mut at = start.min(end);
        let tail_of_crlf = at > 0 && self.bytes[at - 1] == b'\r' && self.bytes.get(at) == Some(&b'\n');
        at += usize::from(tail_of_crlf);
        while let Some(length) = line_break(&self.bytes[at..end]) {
            at += length;
            self.next = Place::of_row(self.next.row + 1, self.next.line + 1);
        }
        self.started = at;
        let place = self.next;
        let record = &self.bytes[at..end];
        let breaks = memchr::memchr2_iter(b'\r', b'\n', record)
            .filter(|&found| !(record[found] == b'\n' && found > 0 && record[found - 1] == b'\r'))
            .count();
        self.next = Place::of_row(place.row + 1, place.line + u32::try_from(breaks).unwrap_or(0));
        place
    }
}

/// The length of the line break these bytes begin with.
fn line_break(bytes: &[u8]) -> Option<usize> {
    match bytes {
        [b'\r', b'\n', ..] => Some(2),
        [b'\r' | b'\n', ..] => Some(1),
        _ => None,
    }
}

/// Whether a record ends inside a quoted cell.
fn never_closed(record: &[u8]) -> bool {
    let (mut quoted, mut cell_begins) = (false, true);
    let mut bytes = record.iter().peekable();
    while let Some(byte) = bytes.next() {
        match (byte, quoted) {
            (b'"', true) if bytes.peek() == Some(&&b'"') => {
                bytes.next();
            }
            (b'"', true) => quoted = false,
            (b'"', false) if cell_begins => quoted = true,
            _ => {}
        }
        cell_begins = !quoted && *byte == b',';
    }
    quoted
}

#[cfg(test)]
mod tests {
    use super::*;

    fn split(text: &[u8]) -> (Cells, Vec<String>) {
        let cells = Cells::of_csv("t.csv", text);
        let problems = cells.problems.iter().map(ToString::to_string).collect();
        (cells, problems)
    }

    fn rows(cells: &Cells) -> Vec<(u32, u32)> {
        cells.places().iter().map(|place| (place.row, place.line)).collect()
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
    fn a_byte_order_mark_and_white_space_around_cells_are_dropped() {
        let (cells, _) = split("\u{FEFF}order , date\n  W 1\u{a0}, é \n".as_bytes());
        assert_eq!(cells.headings, ["order", "date"]);
        assert_eq!((cells.column(0).next(), cells.column(1).next()), (Some("W 1"), Some("é")));
    }

    #[test]
    fn ragged_rows_are_each_named() {
        let (cells, problems) = split(b"a,b\n1\n1,2,3\n1,2\n");
        assert_eq!(rows(&cells), [(4, 4)]);
        assert!(problems[0].starts_with("t.csv, row 2: the row has 1 cell and the headings have 2"), "{problems:?}");
        assert!(problems[1].starts_with("t.csv, row 3: the row has 3 cells"), "{problems:?}");
    }

    #[test]
    fn broken_files_say_what_is_broken() {
        for (text, expected) in [
            (&b""[..], "the file is empty"),
            (b"\n\n", "the file is empty"),
            (b"a;b\n1;2\n", "separated by semicolons"),
            (b"a\tb\n", "separated by tabs"),
            (b"a,b\n1,\"2\n3,4\n", "t.csv: a quote opened in row 2 is never closed"),
            (b"\xE9,b\n1,2\n", "row 1: the row has letters that are not UTF-8"),
            (b"a,b\n\xE9,2\n", "row 2: the row has letters that are not UTF-8"),
            (b"a,b\n\xC3,\xA9\n", "row 2: the row has letters that are not UTF-8"),
        ] {
            let (_, problems) = split(text);
            assert!(problems.len() == 1 && problems[0].contains(expected), "{expected}: {problems:?}");
        }
    }

    #[test]
    fn a_heading_and_no_rows_is_a_table_without_rows() {
        for text in [&b"a,b"[..], b"a,b\n", b"a,b\r\n\r\n"] {
            let (cells, problems) = split(text);
            assert_eq!((cells.headings.len(), cells.places().len(), problems.len()), (2, 0, 0));
        }
    }
}
