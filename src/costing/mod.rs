//! Costing: turns a shop's typed tables into facts, one row per line of each order handed over.
//!
//! [`pipeline`] runs the steps; read them in the order of the data:
//! 1. [`lines`]: which rows of orders.csv carry revenue and cost.
//! 2. [`revenue`] and [`fees`]: what each line brought in, and its share of card fees.
//! 3. [`base_unit`] and [`bill`]: how much of each item a piece, an order and a delivery use.
//! 4. [`landed`]: what each purchase cost in the kitchen, shipping and tax included.
//! 5. [`stock`]: what each day's use cost under the shop's cost flow.
//! 6. [`materials`]: that cost shared over the day's lines. Here a purchase becomes a cent on a cookie; [`item_uses`]
//!    splits the cent by item again where a question asks for it.
//! 7. [`minutes_each`], `splitter` and [`labour`]: minutes of each line, and helper pay.
//! 8. [`overheads`]: shared last, since some are shared by hours.
//! 9. [`facts`]: the columns of all of these, one row per line; [`unassigned`] is what no line can carry.
//!
//! [`posterior`] repeats the split of minutes for each posterior draw, [`sharing`] holds the rules of division and
//! [`remarks`] the warnings and assumptions.
//!
//! Nothing here reads a file, a clock or the environment, and nothing prints.

pub mod base_unit;
pub mod bill;
pub mod column;
mod error;
pub mod estimated_entry;
pub mod facts;
pub mod fees;
pub mod figure;
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

pub use error::CostingError;
pub use facts::Facts;
pub use pipeline::{Costed, MinutesBy, Options, cost, cost_by, examine};
