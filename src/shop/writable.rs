//! Which tables the program can change: one file of its own, written as the program writes.

use super::folder::Folder;
use crate::reading::TableSpecification;
use crate::reading::encoding::Encoding;
use crate::reading::separator::Separator;
use crate::reading::table::Reading;

/// Why a table cannot be changed by the program.
#[derive(Debug, Clone, PartialEq, Eq, thiserror::Error)]
pub enum NotWritable {
    /// It stands in several files.
    #[error("{table} stand in several files ({files}); put them together in {table}.csv, then run this again")]
    SeveralFiles {
        /// The table.
        table: &'static str,
        /// Its files.
        files: String,
    },
    /// It is a sheet of a workbook.
    #[error(
        "{table} are a sheet ({sheet}), and workbooks are never changed; save the sheet as {table}.csv and delete it from the workbook, then run this again"
    )]
    Sheet {
        /// The table.
        table: &'static str,
        /// What to call the sheet.
        sheet: String,
    },
    /// Its file is not UTF-8 with commas.
    #[error("{file} is {encoding} with {separator}s between columns; save it as CSV UTF-8 with commas, then run this again")]
    OtherText {
        /// The file.
        file: String,
        /// How its letters are written.
        encoding: Encoding,
        /// What stands between its columns.
        separator: Separator,
    },
}

impl Folder {
    /// The file by which a table can be changed, as [`Folder::bytes`] and [`Folder::with`] know it; of a table the shop lacks, the file
    /// it would be.
    ///
    /// # Errors
    /// [`NotWritable`] where the table stands in several files, or in one that is not UTF-8 with commas.
    pub(crate) fn writable(&self, table: &'static TableSpecification) -> Result<String, NotWritable> {
        let sources = self.sources().of_table(table);
        let [only] = sources.as_slice() else {
            let files: Vec<&str> = sources.iter().map(|source| source.name).collect();
            let several = NotWritable::SeveralFiles { table: table.name, files: files.join(", ") };
            return if sources.is_empty() { Ok(table.file()) } else { Err(several) };
        };
        if only.workbook().is_some() {
            return Err(NotWritable::Sheet { table: table.name, sheet: only.name.to_owned() });
        }
        let cells = only.cells(&Reading::default());
        match (cells.encoding, cells.separator) {
            (Some(Encoding::Utf8) | None, Some(Separator::Comma) | None) => Ok(only.name.to_lowercase()),
            (encoding, separator) => Err(NotWritable::OtherText {
                file: only.name.to_owned(),
                encoding: encoding.unwrap_or(Encoding::Utf8),
                separator: separator.unwrap_or(Separator::Comma),
            }),
        }
    }
}
