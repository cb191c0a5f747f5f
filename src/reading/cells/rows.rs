//! Rows and lines, counted from the bytes themselves.

use crate::reading::problem::Place;

/// Counts the rows and lines of a text, record by record.
pub(super) struct RowCounter<'a> {
    bytes: &'a [u8],
    next: Place,
    /// Where the record counted last begins.
    pub(super) started: usize,
    /// Line breaks inside the record counted last.
    pub(super) breaks: usize,
}

impl<'a> RowCounter<'a> {
    /// A counter over bytes that begin on a line of the file.
    pub(super) fn new(bytes: &'a [u8], line: u32) -> Self {
        Self { bytes, next: Place::of_row(1, line), started: 0, breaks: 0 }
    }

    /// The place of the record that the csv crate found between two offsets, blank rows before it included.
    pub(super) fn place(&mut self, start: usize, end: usize) -> Place {
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
        let breaks = line_breaks(&self.bytes[at..end]);
        self.next = Place::of_row(place.row + 1, place.line + u32::try_from(breaks).unwrap_or(0));
        // The break that ends the record is no part of it.
        self.breaks = breaks - usize::from(end > at && matches!(self.bytes[end - 1], b'\r' | b'\n'));
        place
    }
}

/// Line breaks, `\r\n` being one.
pub(super) fn line_breaks(bytes: &[u8]) -> usize {
    memchr::memchr2_iter(b'\r', b'\n', bytes).filter(|&found| !(bytes[found] == b'\n' && found > 0 && bytes[found - 1] == b'\r')).count()
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
pub(super) fn never_closed(record: &[u8], separator: u8) -> bool {
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
        cell_begins = !quoted && *byte == separator;
    }
    quoted
}
