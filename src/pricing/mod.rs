//! The next price list: what a piece must bring, the tiers that follow, what a raise would do, and a quote.
//!
//! Prices are set by the last year: its facts, read as [`lines`], and the learned minutes give
//! what [`work`] a [`piece`] takes and with it a [`fair`] price, at [`present`] ingredient prices. [`ladder`] divides the designs into tiers at prices on the shop's
//! [`endings`], by exact search ([`runs`]); [`next_list`] is the finished list from the [`season`] to come, with [`naming`], what a [`raise`] puts at risk,
//! what would do [`instead`], where [`scarce`] hours should go and the [`order_size`] worth its set-up. [`what_if`] costs past
//! orders again [`at_prices`] that were not, sums in [`figures`], and [`quote`] prices a new [`set`]. [`change`] reads what a maker types.
//!
//! Sums over facts and learned minutes; nothing here prints, reads a file or a clock. Money is exact; floats are estimates of
//! minutes and what the draws make of them.

pub mod at_prices;
pub mod change;
pub mod endings;
pub mod fair;
pub mod figures;
pub mod instead;
pub mod ladder;
#[cfg(test)]
mod ladder_tests;
pub mod lines;
pub mod list_findings;
pub mod most_changed;
pub mod naming;
pub mod next_list;
pub mod order_size;
pub mod piece;
pub mod present;
pub mod quote;
pub mod raise;
pub mod runs;
#[cfg(test)]
mod runs_tests;
pub mod scarce;
pub mod season;
pub mod set;
pub mod what_if;
pub mod work;
