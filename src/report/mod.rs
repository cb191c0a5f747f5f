//! Finished results for people, as documents and pictures, and for programs, as records. No sums, no files, no clock.
//!
//! A result becomes a [`document`], which [`terminal`] prints and the review's page places, and a [`record`], which is written as
//! JSON or CSV. All language is in [`words`].

pub mod bridge_document;
pub mod bridge_notes;
pub mod bridge_records;
pub mod bridge_text;
pub mod check_document;
pub mod document;
pub mod excerpt;
pub mod facts_csv;
mod lines_to_paste;
pub mod minutes_charts;
pub mod minutes_document;
pub mod minutes_records;
mod problem_places;
pub mod problems;
pub mod quote_document;
pub mod quote_records;
pub mod record;
pub mod review;
pub mod screen;
pub mod terminal;
pub mod tiers_charts;
pub mod tiers_document;
pub mod tiers_records;
pub mod understood;
pub mod wage_document;
pub mod wage_records;
pub mod whatif_document;
pub mod whatif_records;
pub mod words;
