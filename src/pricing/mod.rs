//! The next price list: what a piece must bring, the tiers that follow, what a raise would do, and a quote.
//!
//! Sums over facts and learned minutes; nothing here prints, reads a file or a clock.

pub mod at_prices;
pub mod change;
pub mod endings;
pub mod fair;
pub mod instead;
pub mod ladder;
#[cfg(test)]
mod ladder_tests;
pub mod lines;
pub mod naming;
pub mod next_list;
pub mod order_size;
pub mod quote;
pub mod raise;
pub mod runs;
pub mod season;
pub mod set;
pub mod what_if;
pub mod work;
