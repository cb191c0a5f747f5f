//! The one editor of a maker's tables: it puts cells and rows in, and every byte beside them stays as it was: quotes, blanks, line
//! breaks of any kind, a byte order mark, columns that are not ours.

use crate::reading::encoding::{self, Encoding};
use crate::reading::formula::{guarded, unguarded};
use crate::reading::headings::match_headings;
use crate::reading::records::{Record, records};
use crate::reading::separator::{self, Separator};
use crate::reading::specification::Kind;
use crate::reading::{Known, TableSpecification};
use std::collections::BTreeMap;

/// The headings of a shop, each with the column it stands for.
pub(crate) type Renamed = BTreeMap<String, String>;

/// Changes to one table, gathered before they are put in.
#[derive(Debug)]
pub struct TableEdit<'a> {
    bytes: &'a [u8],
    table: &'a TableSpecification,
    /// The headings first.
    records: Vec<Record>,
    /// Which cell of a record each column of the table is; columns to be added lie past the last heading.
    columns: Vec<Option<usize>>,
    added: Vec<&'static str>,
    /// By record and cell.
    cells: BTreeMap<(usize, usize), String>,
    rows: Vec<BTreeMap<usize, String>>,
}

impl<'a> TableEdit<'a> {
    /// An edit of a table's bytes, without changes yet. `None` where the file has no headings, or is not UTF-8 with commas.
    #[must_use]
    pub fn of(bytes: &'a [u8], table: &'a TableSpecification, renamed: &Renamed) -> Option<Self> {
        let known = Known { specification: table, columns: renamed };
        let decoded = encoding::decode(bytes).filter(|decoded| decoded.encoding == Encoding::Utf8 && !decoded.is_broken)?;
        (separator::choose(&decoded.text, &known) == Separator::Comma).then_some(())?;
        let mut records: Vec<Record> = records(bytes).into_iter().skip_while(Record::is_blank).collect();
        let texts = |record: &Record| -> Vec<String> {
            record.cells.iter().map(|cell| String::from_utf8_lossy(cell.text.trim_ascii()).into_owned()).collect()
        };
        // Titles above the headings are passed over, as where the table is read.
        let at = known.headings(&records.iter().map(texts).collect::<Vec<_>>());
        records.drain(..at);
        let headings = texts(records.first()?);
        let (columns, _) = match_headings(table, &table.file(), &headings, renamed, &mut Vec::new());
        Some(Self { bytes, table, records, columns, added: Vec::new(), cells: BTreeMap::new(), rows: Vec::new() })
    }

    /// What a cell of the file says; nothing where its column is missing. `None` where no row begins on that line.
    #[must_use]
    pub fn text(&self, line: u32, column: &str) -> Option<String> {
        let record = &self.records[self.row(line)?];
        let cell = self.table.column(column).and_then(|column| self.columns[column]).and_then(|at| record.cells.get(at));
        let text = cell.map_or_else(String::new, |cell| String::from_utf8_lossy(&cell.text).trim().to_owned());
        Some(if self.is_text(column) { unguarded(&text).to_owned() } else { text })
    }

    /// Changes the cell of the row that begins on a line of the file; its column is added where the file has none.
    /// `None` where there is no such row.
    pub fn set(&mut self, line: u32, column: &'static str, text: &str) -> Option<()> {
        let row = self.row(line)?;
        if self.text(line, column)? != text {
            let at = self.place(column)?;
            self.cells.insert((row, at), self.written(column, text));
        } else if let Some(at) = self.columns[self.table.column(column)?] {
            self.cells.remove(&(row, at));
        }
        Some(())
    }

    /// Adds a row at the end of the file, from its cells by column; columns the file lacks are added.
    /// `None` where the table has no such column.
    pub fn push(&mut self, row: &[(&'static str, String)]) -> Option<()> {
        let mut cells = BTreeMap::new();
        for (column, text) in row {
            cells.insert(self.place(column)?, self.written(column, text));
        }
        self.rows.push(cells);
        Some(())
    }

    /// The file with all changes put in.
    #[must_use]
    pub fn finish(&self) -> Vec<u8> {
        let width = self.records[0].cells.len();
        let mut bytes = Vec::with_capacity(self.bytes.len());
        let mut copied = 0;
        for (row, record) in self.records.iter().enumerate() {
            for (at, cell) in record.cells.iter().enumerate() {
                if let Some(text) = self.cells.get(&(row, at)) {
                    bytes.extend_from_slice(&self.bytes[copied..cell.span.start]);
                    bytes.extend_from_slice(text.as_bytes());
                    copied = cell.span.end;
                }
            }
            // A line without a comma that says nothing is no row.
            if record.is_blank() && record.cells.len() == 1 {
                continue;
            }
            bytes.extend_from_slice(&self.bytes[copied..record.end()]);
            copied = record.end();
            for (at, column) in self.added.iter().enumerate() {
                let text = if row == 0 { Some(*column) } else { self.cells.get(&(row, width + at)).map(String::as_str) };
                bytes.push(b',');
                bytes.extend_from_slice(text.unwrap_or_default().as_bytes());
            }
        }
        bytes.extend_from_slice(&self.bytes[copied..]);
        let ending = self.ending();
        for row in &self.rows {
            if !bytes.ends_with(b"\n") && !bytes.ends_with(b"\r") {
                bytes.extend_from_slice(ending);
            }
            let cells: Vec<&str> = (0..width + self.added.len()).map(|at| row.get(&at).map_or("", String::as_str)).collect();
            bytes.extend_from_slice(cells.join(",").as_bytes());
            bytes.extend_from_slice(ending);
        }
        bytes
    }

    /// The record of the row that begins on a line.
    fn row(&self, line: u32) -> Option<usize> {
        let row = self.records.binary_search_by_key(&line, |record| record.line).ok()?;
        let record = &self.records[row];
        (row > 0 && record.cells.len() == self.records[0].cells.len() && !record.is_blank()).then_some(row)
    }

    /// The cell of a record that a column is.
    fn place(&mut self, column: &'static str) -> Option<usize> {
        let number = self.table.column(column)?;
        let next = self.records[0].cells.len() + self.added.len();
        let place = *self.columns[number].get_or_insert(next);
        if place == next {
            self.added.push(column);
        }
        Some(place)
    }

    fn is_text(&self, column: &str) -> bool {
        self.table.column(column).is_some_and(|column| matches!(self.table.columns[column].kind, Kind::Text | Kind::Orders))
    }

    /// A cell as it stands in the file.
    fn written(&self, column: &str, text: &str) -> String {
        let text = if self.is_text(column) { guarded(text) } else { text.into() };
        if text.contains([',', '"', '\r', '\n']) { format!("\"{}\"", text.replace('"', "\"\"")) } else { text.into_owned() }
    }

    /// The line break that the file's last whole line ends in.
    fn ending(&self) -> &'static [u8] {
        let known = [&b"\r\n"[..], b"\r", b"\n"];
        let after = |record: &Record| known.into_iter().find(|ending| self.bytes[record.end()..].starts_with(ending));
        self.records.iter().rev().find_map(after).unwrap_or(b"\n")
    }
}

#[cfg(test)]
mod tests;
