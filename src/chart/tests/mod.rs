//! What the forms lay out, read off their marks, and what they say in words.

mod bars;
mod columns;
mod drawn;
mod marks;
mod room;
pub(super) mod samples;
mod scatter;
mod steps;
mod strips;
mod words;
