//! The example row of a new shop's table: shown to the maker, never counted.

/// What an example row begins with. Its first cell is one that every row must fill, so a row typed over it loses the mark.
pub(crate) const MARK: &str = "EXAMPLE:";

/// Whether a row is an example, by the first of its cells that is not blank.
#[must_use]
pub(crate) fn is_example(row: &[&str]) -> bool {
    let first = row.iter().find(|cell| !cell.is_empty());
    first.and_then(|cell| cell.get(..MARK.len())).is_some_and(|start| start.eq_ignore_ascii_case(MARK))
}
