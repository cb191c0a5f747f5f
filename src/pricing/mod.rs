//! The next price list: what a piece must bring, the tiers that follow, what a raise would do, and a quote.
//!
//! Sums over facts and learned minutes; nothing here prints, reads a file or a clock.

pub mod change;
pub mod endings;
pub mod ladder;
#[cfg(test)]
mod ladder_tests;
pub mod order_size;
pub mod runs;
