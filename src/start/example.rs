//! The example row of each table.

use crate::reading::example::MARK;
use crate::reading::{ColumnSpecification, TableSpecification};

/// Columns that are shown filled beside those that must be, because most rows fill them. No others: what is left of the example
/// in a row typed over it would count.
const USUAL: [(&str, &[&str]); 5] = [
    ("orders", &["design", "quantity"]),
    ("hours", &["minutes", "stage", "order"]),
    ("overheads", &["to"]),
    ("designs", &["tier"]),
    ("items", &["class"]),
];

/// The cells of a table's example row, the first of them marked.
pub fn row(table: &TableSpecification) -> impl Iterator<Item = String> {
    table.columns.iter().enumerate().map(|(at, column)| match (at, is_shown(table, column)) {
        (0, _) => format!("{MARK} {}", column.example),
        (_, true) => column.example.to_owned(),
        (_, false) => String::new(),
    })
}

fn is_shown(table: &TableSpecification, column: &ColumnSpecification) -> bool {
    column.required || USUAL.iter().any(|(name, columns)| *name == table.name && columns.contains(&column.name))
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::shop::specification::TABLES;

    #[test]
    fn every_usual_column_is_one_of_its_table() {
        for (name, columns) in USUAL {
            let table = TABLES.iter().find(|table| table.name == name).unwrap();
            assert!(columns.iter().all(|column| table.columns.iter().any(|known| known.name == *column && !known.required)), "{name}");
        }
    }

    #[test]
    fn the_marked_cell_is_one_that_every_row_must_fill() {
        for table in TABLES {
            assert!(table.columns[0].filled, "{}", table.name);
            assert!(row(table).next().unwrap().starts_with(MARK), "{}", table.name);
        }
    }
}
