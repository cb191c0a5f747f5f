//! TOTAL rows: sums that a spreadsheet writes among or below the rows.

use crate::reading::specification::{ColumnSpecification, Kind};

/// What a TOTAL row begins with, in small letters.
const WORDS: [&str; 8] = ["total", "totals", "grand total", "subtotal", "sub-total", "sub total", "subtotals", "sum"];

/// Whether a cell says that its row is a sum, regardless of letter case and a colon after it.
fn is_total_word(cell: &str) -> bool {
    let bare = cell.trim().trim_end_matches(':').trim_end();
    WORDS.iter().any(|word| bare.eq_ignore_ascii_case(word))
}

/// Whether a row is a sum: its first cell that is not blank says so, and it lacks what every row must have, so that a design called
/// Total is a row like any other. Cells beyond the columns given are not looked at.
pub(super) fn is_total(row: &[&str], columns: &[Option<&ColumnSpecification>]) -> bool {
    let Some(first) = row.iter().position(|cell| !cell.is_empty()) else { return false };
    if !is_total_word(row[first]) {
        return false;
    }
    let lacks = |(at, column): (usize, Option<&ColumnSpecification>)| {
        column.is_some_and(|column| {
            let cell = row.get(at).copied().unwrap_or_default();
            column.required && (cell.is_empty() || (at == first && column.kind != Kind::Text))
        })
    };
    columns.iter().copied().enumerate().any(lacks)
}

#[cfg(test)]
mod tests {
    use super::super::trial::{DESIGNS, HOURS, ORDERS};
    use super::*;

    #[test]
    fn a_sum_begins_with_the_word_and_lacks_what_a_row_must_have() {
        let of = |table: &'static crate::reading::TableSpecification, names: &[&str], row: &[&str]| {
            let columns: Vec<_> = names.iter().map(|name| table.column(name).map(|at| &table.columns[at])).collect();
            is_total(row, &columns)
        };
        let orders = ["order", "customer", "date", "design", "paid"];
        for word in ["TOTAL", "Totals:", "Grand total", "subtotal :", "Sum"] {
            assert!(of(&ORDERS, &orders, &[word, "", "", "", "512.00"]), "{word}");
            assert!(of(&ORDERS, &orders, &["", word, "", "", "512.00"]), "{word}");
            assert!(of(&ORDERS, &orders, &["", "", "", word, "512.00"]), "{word}");
        }
        assert!(!of(&ORDERS, &orders, &["Total", "", "2026-09-03", "moon", "4.50"]), "an order of that name");
        assert!(!of(&ORDERS, &orders, &["A1", "", "", "Total", "4.50"]));
        assert!(!of(&ORDERS, &orders, &["Total Kids", "", "", "", "4.50"]));
        assert!(!of(&DESIGNS, &["design", "tier"], &["Total", "small"]), "a design of that name");
        assert!(of(&HOURS, &["date", "minutes"], &["Total", "1115"]), "a word is no date");
        assert!(!of(&HOURS, &["date", "minutes"], &["", ""]));
    }
}
