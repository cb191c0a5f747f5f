//! The files of a new shop, in memory: a workbook, CSV files with their settings, or the demo shop. They are made of the
//! specification of the tables and of the settings, so that they say what the program reads.

mod csv_files;
mod example;
mod sample;
mod settings_file;
mod workbook;

pub use csv_files::csv_files;
pub use sample::SAMPLE;
pub use settings_file::settings_file;
pub use workbook::{WORKBOOK, workbook};
