//! The records of a CSV file with the place of each cell's bytes, so that one cell can be changed and all else stays.
//!
//! csv-core is the machine inside the csv crate that [`super::cells`] reads with, so both find the same cells.

use csv_core::{ReadFieldResult, Reader};
use std::ops::Range;

/// The mark some programs put before UTF-8 text.
pub(crate) const BYTE_ORDER_MARK: &[u8] = b"\xEF\xBB\xBF";

/// One record. Empty lines are none.
#[derive(Debug, Clone, Default, PartialEq, Eq)]
pub struct Record {
    /// The line of the file it begins on, counted from 1.
    pub line: u32,
    /// Its cells; at least one.
    pub cells: Vec<RawCell>,
}

/// One cell.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct RawCell {
    /// Where its bytes stand, quotes and blanks around it included.
    pub span: Range<usize>,
    /// What they say.
    pub text: Vec<u8>,
}

impl Record {
    /// Whether nothing but white space stands in it.
    #[must_use]
    pub(crate) fn is_blank(&self) -> bool {
        self.cells.iter().all(|cell| cell.text.trim_ascii().is_empty())
    }

    /// Where its last cell ends, before the line break.
    #[must_use]
    pub fn end(&self) -> usize {
        self.cells.last().map_or(0, |cell| cell.span.end)
    }
}

/// Every record of a file.
#[must_use]
pub fn records(bytes: &[u8]) -> Vec<Record> {
    let mut at = if bytes.starts_with(BYTE_ORDER_MARK) { BYTE_ORDER_MARK.len() } else { 0 };
    let (mut reader, mut records, mut record) = (Reader::new(), Vec::new(), Record::default());
    // Text is never longer than its bytes, and one place more is never filled.
    let (mut text, mut length) = (vec![0; bytes.len() + 1], 0);
    let (mut start, mut line, mut counted) = (at, 1, at);
    loop {
        let (found, read, written) = reader.read_field(&bytes[at..], &mut text[length..]);
        (at, length) = (at + read, length + written);
        match found {
            ReadFieldResult::Field { record_end } => {
                if record.cells.is_empty() {
                    start += bytes[start..at].iter().take_while(|byte| is_break(**byte)).count();
                    line += breaks(&bytes[counted..start]);
                    (record.line, counted) = (line, start);
                }
                // A comma or a line break ends a cell, and was read with it, but for the end of the file.
                let end = if read > 0 { at - 1 } else { at };
                record.cells.push(RawCell { span: start.min(end)..end, text: text[..length].to_vec() });
                (start, length) = (at, 0);
                if record_end {
                    records.push(std::mem::take(&mut record));
                }
            }
            ReadFieldResult::End => return records,
            ReadFieldResult::InputEmpty | ReadFieldResult::OutputFull => {}
        }
    }
}

fn is_break(byte: u8) -> bool {
    matches!(byte, b'\r' | b'\n')
}

/// Line breaks, `\r\n` being one.
fn breaks(bytes: &[u8]) -> u32 {
    let starts = |at: usize| is_break(bytes[at]) && !(bytes[at] == b'\n' && at > 0 && bytes[at - 1] == b'\r');
    u32::try_from((0..bytes.len()).filter(|at| starts(*at)).count()).unwrap_or(u32::MAX)
}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;

    #[test]
    fn cells_are_found_with_their_bytes_and_lines() {
        let text = b"\xEF\xBB\xBF\r\na, \"b\" ,\r\n\n\"x\r\ny\",2,3\r,,";
        let found: Vec<(u32, Vec<&str>)> = records(text)
            .iter()
            .map(|record| (record.line, record.cells.iter().map(|cell| std::str::from_utf8(&text[cell.span.clone()]).unwrap()).collect()))
            .collect();
        assert_eq!(found, [(2, vec!["a", " \"b\" ", ""]), (4, vec!["\"x\r\ny\"", "2", "3"]), (6, vec!["", "", ""])]);
        assert_eq!(records(b"\xEF\xBB\xBF\n\n"), []);
    }

    proptest! {
        #[test]
        fn the_csv_crate_finds_the_same_cells(bytes in proptest::collection::vec(prop::sample::select(b"ab,\" \r\n".to_vec()), 0..40)) {
            let found: Vec<Vec<Vec<u8>>> =
                records(&bytes).into_iter().map(|record| record.cells.into_iter().map(|cell| cell.text).collect()).collect();
            let mut reader = csv::ReaderBuilder::new().has_headers(false).flexible(true).from_reader(&bytes[..]);
            let expected: Vec<Vec<Vec<u8>>> =
                reader.byte_records().map(|record| record.unwrap().iter().map(<[u8]>::to_vec).collect()).collect();
            prop_assert_eq!(found, expected);
        }
    }
}
