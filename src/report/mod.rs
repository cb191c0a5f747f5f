//! Finished results as text for people and as JSON and CSV for programs. No sums, no files, no clock.

pub mod csv_text;
pub mod figures;
pub mod problems;
pub mod wage_programs;
pub mod wage_text;
