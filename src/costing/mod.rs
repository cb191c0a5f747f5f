//! Costing: turns a shop's typed tables into facts, one row per line of each order handed over.
//!
//! `pipeline` runs the steps. The crate's docs tell the way of a purchase through them, from [`landed`] to [`facts`];
//! [`item_uses`] splits its cents by item again where a question asks for it. Beside it, in the order of the data:
//! 1. [`lines`]: which rows of orders.csv carry revenue and cost.
//! 2. `revenue` and `fees`: what each line brought in, and its share of card fees.
//! 3. [`minutes_each`], `splitter` and `labour`: minutes of each line, and helper pay.
//! 4. `overheads`: shared last, since some are shared by hours.
//! 5. [`unassigned`]: what no line can carry.
//!
//! [`posterior`] repeats the split of minutes for each posterior draw, `sharing` holds the rules of division and
//! `remarks` the warnings and assumptions.
//!
//! Nothing here reads a file, a clock or the environment, and nothing prints.

mod base_unit;
pub mod bill;
pub mod column;
mod error;
mod estimated_entry;
pub mod facts;
mod fees;
pub mod figure;
pub mod hours_known;
pub(crate) mod item_uses;
mod kinds;
mod labour;
pub mod landed;
pub mod lines;
pub mod materials;
pub mod minutes_each;
pub mod overheads;
mod pipeline;
pub mod posterior;
mod remarks;
mod revenue;
mod sharing;
pub mod slips;
mod splitter;
pub mod stock;
pub mod unassigned;
pub(crate) mod usual_time;
pub(crate) mod wording;

pub use error::CostingError;
pub use facts::Facts;
pub use pipeline::{Costed, MinutesBy, Options, cost, cost_by, examine};
