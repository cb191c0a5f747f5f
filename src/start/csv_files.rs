//! The tables of a new shop as CSV files: headings and an example row.

use super::example;
use crate::shop::specification::TABLES;

/// A file for each table, by its name.
///
/// # Errors
/// Where the csv crate fails, which it does not in memory.
pub fn csv_files() -> Result<Vec<(String, Vec<u8>)>, csv::Error> {
    let file = |table: &crate::reading::TableSpecification| {
        let mut writer = csv::Writer::from_writer(Vec::new());
        writer.write_record(table.columns.iter().map(|column| column.name))?;
        writer.write_record(example::row(table))?;
        let bytes = writer.into_inner().map_err(|error| csv::Error::from(error.into_error()))?;
        Ok((table.file(), bytes))
    };
    TABLES.iter().map(file).collect()
}
