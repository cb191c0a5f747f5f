//! Finished results for people, as documents and pictures, and for programs, as records. No sums, no files, no clock.
//!
//! A result becomes a [`document`], which [`terminal`] prints and the review's page places, and a [`record`], which is written as
//! JSON or CSV. All language is in [`words`].

pub(crate) mod bridge_document;
pub(crate) mod bridge_notes;
pub(crate) mod bridge_records;
pub(crate) mod bridge_text;
pub(crate) mod check_document;
pub mod document;
pub(crate) mod excerpt;
pub(crate) mod facts_csv;
mod lines_to_paste;
pub(crate) mod minutes_charts;
pub mod minutes_document;
pub mod minutes_records;
mod problem_places;
pub mod problems;
pub(crate) mod quote_document;
pub(crate) mod quote_records;
pub mod record;
pub mod review;
pub mod screen;
pub mod terminal;
pub(crate) mod tiers_charts;
pub(crate) mod tiers_document;
pub(crate) mod tiers_records;
pub mod understood;
pub(crate) mod wage_document;
pub(crate) mod wage_records;
pub(crate) mod whatif_document;
pub(crate) mod whatif_records;
pub mod words;
