//! The five forms, each plain data laid out as marks for either width, and what they have in common.

pub mod bars;
pub mod chart;
mod column_figures;
pub mod columns;
mod line_labels;
mod names;
mod plot;
pub mod points;
mod scatter;
pub(crate) mod series;
pub mod steps;
pub(crate) mod strips;
