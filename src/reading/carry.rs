//! Cells that a sheet leaves blank because they are as in the row above.
//!
//! An order's id is written once per order; the date and the number of a receipt, once per receipt. A blank is filled only where it can
//! mean nothing else:
//!
//! - No text of the column stands in two rows in a row: where texts are repeated, a blank is a cell that was forgotten. A date that
//!   follows itself is not repeated where its row names another receipt or supplier, as two receipts of one day do.
//! - A receipt ends at a blank row, and in the row that names another receipt or supplier than its first row.
//! - Below a row that could not be read, nothing is known until the next text.

use super::problem::Place;

/// The number of a receipt, which is filled where its date is.
pub(super) const RECEIPT: &str = "receipt";
/// The columns that tell receipts apart. A supplier is not filled: it is in no figure, and rows typed before without one would differ.
pub(super) const OF_A_RECEIPT: [&str; 2] = [RECEIPT, "supplier"];

/// Where the text of a row stands.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Written {
    /// In a row, by its place among the rows: the row itself, or one above it.
    In(usize),
    /// Nowhere: the cell is blank.
    Nowhere,
    /// In a row that could not be read, if anywhere: its number.
    Lost(u32),
}

/// Finds where the text of each row stands, in a column that is written once for several rows in a row; `None` where it is not written so.
///
/// `lost` are the numbers of the rows that could not be read, rising; `beside` the columns written once with this one.
#[must_use]
pub fn carried(texts: &[&str], places: &[Place], lost: &[u32], beside: &[Vec<&str>]) -> Option<Vec<Written>> {
    let names_another = |row: usize, first: usize| beside.iter().any(|column| !column[row].is_empty() && column[row] != column[first]);
    let is_repeated = |row: usize| !texts[row].is_empty() && texts[row] == texts[row - 1] && !names_another(row, row - 1);
    if !texts.contains(&"") || (1..texts.len()).any(is_repeated) {
        return None;
    }
    let mut above = Written::Nowhere;
    let mut before = 0;
    let mut written = Vec::with_capacity(texts.len());
    for (row, place) in places.iter().enumerate() {
        let lost_between = lost[..lost.partition_point(|lost| *lost < place.row)].last().filter(|lost| **lost > before);
        above = match above {
            _ if !texts[row].is_empty() => Written::In(row),
            _ if lost_between.is_some() => lost_between.map_or(Written::Nowhere, |lost| Written::Lost(*lost)),
            Written::In(first) if !beside.is_empty() && (place.row > before + 1 || names_another(row, first)) => Written::Nowhere,
            above => above,
        };
        before = place.row;
        written.push(above);
    }
    (written.first() != Some(&Written::Nowhere)).then_some(written)
}

/// A column with its blanks filled, in the rows that are kept.
pub(super) struct Filled<'t> {
    /// The text of each row.
    pub texts: Vec<&'t str>,
    /// Rows whose text stands above them, in a row that is kept.
    carries: Vec<bool>,
    written: Vec<Written>,
    /// Cells whose text stands above them.
    pub carried: usize,
}

impl<'t> Filled<'t> {
    /// Fills the blanks of all rows, then leaves out those that are not kept.
    pub fn of(own: &[&'t str], written: &[Written], kept: &[bool]) -> Self {
        let above = |row: usize| match written[row] {
            Written::In(first) if own[row].is_empty() && !own[first].is_empty() => Some(first),
            _ => None,
        };
        let rows = || (0..own.len()).filter(|row| kept[*row]);
        Self {
            texts: rows().map(|row| above(row).map_or(own[row], |first| own[first])).collect(),
            carries: rows().map(|row| above(row).is_some_and(|first| kept[first])).collect(),
            written: rows().map(|row| written[row]).collect(),
            carried: rows().filter(|row| above(*row).is_some()).count(),
        }
    }

    /// Each row with where its text stands.
    pub fn rows(&self) -> impl Iterator<Item = (usize, Written)> {
        self.written.iter().copied().enumerate()
    }

    /// Whether the row at a place has the text of a row above that is kept too.
    pub(crate) fn is_carried(&self, places: &[Place], place: Place) -> bool {
        places.binary_search_by_key(&place.row, |place| place.row).is_ok_and(|row| self.carries[row])
    }
}

#[cfg(test)]
mod tests {
    use super::Written::{In, Lost, Nowhere};
    use super::*;

    fn of(texts: &[&str], rows: &[u32], lost: &[u32], beside: &[Vec<&str>]) -> Option<Vec<Written>> {
        let places: Vec<Place> = rows.iter().map(|row| Place::of_row(*row, *row)).collect();
        carried(texts, &places, lost, beside)
    }

    #[test]
    fn blanks_are_as_above_only_where_nothing_is_repeated() {
        let rows = [2, 3, 4, 6, 7, 8];
        assert_eq!(of(&["1", "", "", "2", "3", ""], &rows, &[], &[]).unwrap(), [In(0), In(0), In(0), In(3), In(4), In(4)]);
        for texts in [&["1", "1", ""][..], &["", "1", ""], &["1", "2"], &[]] {
            assert_eq!(of(texts, &rows[..texts.len()], &[], &[]), None, "{texts:?}");
        }
    }

    #[test]
    fn a_receipt_ends_at_a_blank_row_and_where_another_is_named() {
        let beside = [vec!["shop", "", "shop", "market", "", ""]];
        let texts = ["8/28", "", "", "8/28", "", ""];
        assert_eq!(of(&texts, &[2, 3, 4, 5, 6, 8], &[], &beside).unwrap(), [In(0), In(0), In(0), In(3), In(3), Nowhere]);
        let unnamed = [vec!["shop", "", "market", "market", "", ""]];
        assert_eq!(of(&texts, &[2, 3, 4, 5, 6, 7], &[], &unnamed).unwrap()[2], Nowhere);
        let repeated = [vec!["shop", "", "", "", "", ""]];
        assert_eq!(of(&["8/28", "8/28", ""], &[2, 3, 4], &[], &[vec!["shop", "shop", ""]]), None);
        assert!(of(&texts, &[2, 3, 4, 5, 6, 7], &[], &repeated).is_some(), "a date after blanks is another receipt's");
    }

    #[test]
    fn nothing_is_known_below_a_row_that_could_not_be_read() {
        assert_eq!(of(&["", "1", "", "2"], &[3, 4, 6, 7], &[2, 5], &[]).unwrap(), [Lost(2), In(1), Lost(5), In(3)]);
    }
}
