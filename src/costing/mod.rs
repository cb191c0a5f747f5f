//! The heart: from a shop's typed tables to facts, one row per line of each order handed over.
//!
//! A line's [`revenue`], then its [`fees`]; the [`bill`] of what designs take and the [`landed`] purchases
//! run through [`stock`] into [`materials`], which [`item_uses`] takes apart by item where that is asked for; hours through [`labour`]; [`overheads`] last, because some are
//! shared by hours. Where minutes a piece are learned, [`posterior`] gives what each draw of them would make of it.
//! [`pipeline`] runs them in turn and [`facts`] is what comes out. Nothing here reads a
//! file, a clock or the environment, and nothing prints.

pub mod base_unit;
pub mod bill;
pub mod facts;
pub mod fees;
pub mod item_uses;
pub mod kinds;
pub mod labour;
pub mod landed;
pub mod lines;
pub mod materials;
pub mod minutes_each;
pub mod overheads;
pub mod pipeline;
pub mod posterior;
pub mod remarks;
pub mod revenue;
pub mod sharing;
mod splitter;
pub mod stock;
pub mod unassigned;
mod wording;

pub use facts::Facts;
pub use pipeline::{Costed, MinutesBy, Options, cost, cost_by, examine};
