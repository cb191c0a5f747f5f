//! From the bytes of a file to typed columns, with the place of every problem.
//!
//! Bytes, of a text file or of a [`workbook`], become [`cells`] (text with its place), cells become the typed [`mod@column`]s of a [`table`] as
//! a [`specification`] says, each in the one [`mod@format`] that all of its cells show, and whatever does not fit becomes a [`problem`] that names file, row and
//! column, what was found and what to write instead. Nothing here knows what an order is. [`mod@file`] alone reads files.

mod alike;
mod carry;
pub mod cells;
pub mod column;
mod column_read;
pub mod encoding;
pub mod example;
pub mod file;
pub(crate) mod folding;
pub mod format;
pub mod formula;
pub mod headings;
mod known;
pub(crate) mod merge;
pub mod nearest;
pub mod problem;
pub mod problem_kind;
pub mod records;
pub mod separator;
pub mod specification;
pub mod table;
mod table_settings;
pub mod workbook;

pub use cells::{Cells, Known};
pub use problem::{Advice, Place, Problem};
pub use problem_kind::{ProblemKind, Severity};
pub use specification::{ColumnSpecification, Kind, Least, TableSpecification};
pub use table::Table;
