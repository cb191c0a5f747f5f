//! Finished results as text and pictures for people, and as JSON and CSV for programs. No sums, no files, no clock.

mod bridge_notes;
pub mod bridge_programs;
pub mod bridge_text;
pub mod check_text;
pub mod csv_text;
pub mod facts_csv;
pub mod layout;
pub mod minutes_charts;
pub mod minutes_programs;
pub mod minutes_text;
pub mod problem_groups;
pub mod problems;
pub mod quote_programs;
pub mod quote_text;
pub mod review;
pub mod screen;
pub mod tiers_charts;
pub mod tiers_programs;
pub mod tiers_text;
pub mod wage_programs;
pub mod wage_text;
pub mod whatif_programs;
pub mod whatif_text;
pub mod words;
