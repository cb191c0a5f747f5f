//! The cells of a CSV file all of whose headings are known, for comparison with what others read.

use fairdozen::reading::{Cells, ColumnSpecification, Known, TableSpecification};
use fairdozen::shop::specification::ORDERS;
use std::collections::BTreeMap;

/// Reads the file as a table with a text column for each heading of its first row.
pub fn every_cell(csv: &[u8]) -> Cells {
    let columns = BTreeMap::new();
    let headings = Cells::of_csv("case.csv", csv, Known { specification: &ORDERS, columns: &columns }).headings;
    let text = ColumnSpecification { required: false, filled: false, ..ORDERS.columns[0] };
    let named = headings.into_iter().map(|heading| ColumnSpecification { name: heading.leak(), ..text });
    let specification = TableSpecification { columns: named.collect::<Vec<_>>().leak(), ..ORDERS };
    Cells::of_csv("case.csv", csv, Known { specification: &specification, columns: &columns })
}
