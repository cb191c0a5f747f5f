//! A table of the maker's, edited: some cells changed, some rows added. Rows without a changed cell stay as they were, byte for byte;
//! of the others quotes that are not needed go.

use crate::reading::TableSpecification;
use crate::reading::specification::fold;
use std::collections::BTreeMap;

/// One cell to change.
#[derive(Debug, Clone, PartialEq, Eq, PartialOrd, Ord)]
pub struct Cell {
    /// The line of the file its row begins on.
    pub line: u32,
    /// Its column.
    pub column: &'static str,
    /// What to write.
    pub text: String,
}

/// Her own headings, hers to ours.
pub type Renamed = BTreeMap<String, String>;

/// The table with its cells changed and rows added at its end; a row is its cells by column. A column it lacks is added.
/// `None` where a row or the headings cannot be found.
#[must_use]
pub fn edited(
    bytes: &[u8],
    table: &TableSpecification,
    renamed: &Renamed,
    cells: &[Cell],
    rows: &[Vec<(&'static str, String)>],
) -> Option<Vec<u8>> {
    let wanted: Vec<&'static str> = cells.iter().map(|cell| cell.column).chain(rows.iter().flatten().map(|(column, _)| *column)).collect();
    let mut bytes = bytes.to_vec();
    for column in wanted {
        if find(&headings(&bytes)?, table, renamed, column).is_none() {
            bytes = with_column(&bytes, column)?;
        }
    }
    let headings = headings(&bytes)?;
    let place = |column: &str| find(&headings, table, renamed, column);
    let mut by_line: BTreeMap<u32, Vec<(usize, &str)>> = BTreeMap::new();
    for cell in cells {
        by_line.entry(cell.line).or_default().push((place(cell.column)?, &cell.text));
    }
    let ending = ending(&bytes);
    // From the last line up, so that places before it stay.
    for (line, changes) in by_line.into_iter().rev() {
        let start = start_of(&bytes, line)?;
        let (mut record, length) = record(&bytes[start..])?;
        for (at, text) in changes {
            text.clone_into(record.get_mut(at)?);
        }
        let old = &bytes[start..start + length];
        let tail = old.len() - old.iter().rev().take_while(|byte| matches!(byte, b'\r' | b'\n')).count();
        let mut new = written(&record)?;
        new.extend_from_slice(&old[tail..]);
        bytes.splice(start..start + length, new);
    }
    for row in rows {
        if !matches!(bytes.last(), Some(b'\n' | b'\r')) {
            bytes.extend_from_slice(ending);
        }
        let mut record = vec![String::new(); headings.len()];
        for (column, text) in row {
            record.get_mut(place(column)?)?.clone_from(text);
        }
        bytes.extend(written(&record)?);
        bytes.extend_from_slice(ending);
    }
    Some(bytes)
}

const MARK: &[u8] = b"\xEF\xBB\xBF";

/// Where the headings begin: behind a byte order mark and blank lines.
fn first(bytes: &[u8]) -> usize {
    let mark = if bytes.starts_with(MARK) { MARK.len() } else { 0 };
    mark + bytes[mark..].iter().take_while(|byte| matches!(byte, b'\r' | b'\n')).count()
}

fn headings(bytes: &[u8]) -> Option<Vec<String>> {
    record(&bytes[first(bytes)..]).map(|(headings, _)| headings)
}

fn find(headings: &[String], table: &TableSpecification, renamed: &Renamed, column: &str) -> Option<usize> {
    let wanted = table.column(column)?;
    headings.iter().position(|heading| {
        let heading = heading.trim();
        let ours = renamed.iter().find(|(theirs, _)| fold(theirs) == fold(heading)).map_or(heading, |(_, ours)| ours.trim());
        table.column(ours) == Some(wanted)
    })
}

/// Every row with one more cell at its end: the heading's name, else nothing.
fn with_column(bytes: &[u8], column: &str) -> Option<Vec<u8>> {
    let start = first(bytes);
    let mut changed = bytes[..start].to_vec();
    let (mut at, mut is_heading) = (start, true);
    while at < bytes.len() {
        if bytes[at..].iter().all(|byte| matches!(byte, b'\r' | b'\n')) {
            changed.extend_from_slice(&bytes[at..]);
            break;
        }
        let (_, length) = record(&bytes[at..])?;
        let row = &bytes[at..at + length];
        let tail = row.len() - row.iter().rev().take_while(|byte| matches!(byte, b'\r' | b'\n')).count();
        changed.extend_from_slice(&row[..tail]);
        changed.push(b',');
        if is_heading {
            changed.extend_from_slice(column.as_bytes());
        }
        changed.extend_from_slice(&row[tail..]);
        (at, is_heading) = (at + length, false);
    }
    Some(changed)
}

/// The first record of some bytes, and how many bytes it takes with its line break; blank lines behind it included.
fn record(bytes: &[u8]) -> Option<(Vec<String>, usize)> {
    let mut reader = csv::ReaderBuilder::new().has_headers(false).flexible(true).from_reader(bytes);
    let mut record = csv::StringRecord::new();
    let found = reader.read_record(&mut record).ok()?;
    let mut end = usize::try_from(reader.position().byte()).ok()?.min(bytes.len());
    if bytes.get(end) == Some(&b'\n') && end > 0 && bytes[end - 1] == b'\r' {
        end += 1;
    }
    found.then(|| (record.iter().map(str::to_owned).collect(), end))
}

/// Where a line of the file begins, counted from 1.
fn start_of(bytes: &[u8], line: u32) -> Option<usize> {
    let mut at = if bytes.starts_with(MARK) { MARK.len() } else { 0 };
    for _ in 1..line {
        at += bytes[at..].iter().position(|byte| matches!(byte, b'\r' | b'\n'))?;
        at += if bytes[at..].starts_with(b"\r\n") { 2 } else { 1 };
    }
    Some(at)
}

fn ending(bytes: &[u8]) -> &'static [u8] {
    match bytes.iter().position(|byte| matches!(byte, b'\r' | b'\n')) {
        Some(at) if bytes[at..].starts_with(b"\r\n") => b"\r\n",
        Some(at) if bytes[at] == b'\r' => b"\r",
        _ => b"\n",
    }
}

/// A record without its line break.
fn written(record: &[String]) -> Option<Vec<u8>> {
    let mut writer = csv::WriterBuilder::new().terminator(csv::Terminator::Any(b'\n')).from_writer(Vec::new());
    writer.write_record(record).ok()?;
    let mut bytes = writer.into_inner().ok()?;
    bytes.pop();
    Some(bytes)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::shop::specification::{DESIGNS, TIERS};

    fn edit(text: &str, cells: &[(u32, &'static str, &str)], rows: &[Vec<(&'static str, String)>]) -> Option<String> {
        let cells: Vec<Cell> = cells.iter().map(|(line, column, text)| Cell { line: *line, column, text: (*text).to_owned() }).collect();
        edited(text.as_bytes(), &DESIGNS, &Renamed::new(), &cells, rows).map(|bytes| String::from_utf8(bytes).unwrap())
    }

    #[test]
    fn only_the_cell_changes() {
        let card = "\u{FEFF}design ,\"Tier\",notes\r\n\r\n\"moth, night\",shape,\"two\r\nlines\"\r\nbell,shape,\"\"\r\n";
        assert_eq!(
            edit(card, &[(3, "tier", "scene")], &[]).unwrap(),
            "\u{FEFF}design ,\"Tier\",notes\r\n\r\n\"moth, night\",scene,\"two\r\nlines\"\r\nbell,shape,\"\"\r\n"
        );
        assert_eq!(edit(card, &[(5, "tier", "a, b")], &[]).unwrap(), card.replace("bell,shape,\"\"", "bell,\"a, b\","));
        assert_eq!(edit(card, &[(99, "tier", "scene")], &[]), None);
    }

    #[test]
    fn a_column_that_is_missing_is_added_to_every_row() {
        assert_eq!(edit("design\nmoth\nbell", &[(3, "tier", "scene")], &[]).unwrap(), "design,tier\nmoth,\nbell,scene");
        // Blank lines at the end are no rows.
        assert_eq!(edit("design\r\nmoth\r\n\r\n\r\n", &[(2, "tier", "scene")], &[]).unwrap(), "design,tier\r\nmoth,scene\r\n\r\n\r\n");
    }

    #[test]
    fn rows_go_to_the_end_under_her_own_headings() {
        let renamed = Renamed::from([("Level".to_owned(), "tier".to_owned())]);
        let rows = [vec![("tier", "scene".to_owned()), ("price", "6.50".to_owned()), ("from", "2026-11-01".to_owned())]];
        let written = edited(b"price,Level,why\r\n3,mini,x", &TIERS, &renamed, &[], &rows).unwrap();
        assert_eq!(String::from_utf8(written).unwrap(), "price,Level,why,from\r\n3,mini,x,\r\n6.50,scene,,2026-11-01\r\n");
    }
}
