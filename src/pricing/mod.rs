//! The next price list: what a piece must bring, the tiers that follow, what a raise would do, and a quote.
//!
//! [`cost`] is the one model of what a piece and an order cost: the reference [`season`]'s facts, read as [`lines`], at present
//! ingredient prices, with the [`work`] that pieces take by the learned minutes, and their [`draws`]. All else asks it. [`ladder`]
//! divides the designs into tiers at prices on the shop's [`endings`], by exact search ([`runs`]); [`next_list`] is the finished list,
//! with [`naming`], what a [`raise`] puts at risk, the [`allocation`] of too few hours and the [`alternatives`] to a raise. [`what_if`]
//! costs past orders again [`at_prices`] that were not, sums in [`figures`], and [`quote`] prices a new [`set`]. [`change`] reads what
//! a maker types; an [`error`] says what is wrong.
//!
//! Sums over facts and learned minutes; nothing here prints, reads a file or a clock. Money is exact; floats are estimates of
//! minutes and what the draws make of them.

pub mod allocation;
pub mod alternatives;
pub(crate) mod at_prices;
pub mod change;
pub mod cost;
pub mod draws;
pub mod endings;
pub mod error;
pub mod figures;
pub mod ladder;
#[cfg(test)]
mod ladder_tests;
pub mod lines;
pub(crate) mod list_findings;
pub(crate) mod most_changed;
pub mod naming;
pub mod next_list;
pub mod quote;
pub mod raise;
pub mod runs;
#[cfg(test)]
mod runs_tests;
pub mod season;
pub mod set;
pub mod what_if;
pub mod work;
