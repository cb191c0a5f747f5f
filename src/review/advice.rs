//! What the review advises: at most five things.

use super::below_target::BelowTarget;
use super::lacking::Lacking;
use super::stock::Missing;
use crate::minutes::observations::Covers;
use crate::quantity::millionths::Money;

/// Most things advised.
pub const MOST: usize = 5;

/// One thing to do.
#[derive(Debug, Clone, PartialEq)]
pub enum Advice {
    /// Raise the price of a design, or simplify it.
    Raise {
        /// The design with its figures.
        design: Box<BelowTarget>,
    },
    /// Charge for setting an order up, or raise the minimum.
    ChargeSetUp {
        /// Number of designs whose pay only set-up keeps below target.
        designs: usize,
        /// Their shortfall together.
        short: Money,
        /// Charge on each order with one of them that would have covered it, after fees.
        an_order: Money,
        /// Number of orders with one of them.
        orders: i64,
    },
    /// Log hours: there are none at all.
    LogAnyHours,
    /// Log the hours that orders lack.
    LogHours {
        /// The orders.
        lacking: Vec<Lacking>,
    },
    /// Check the hours of an order: they are far from what such orders take.
    LookAtHours {
        /// The order; orders logged together are joined by `+`.
        order: String,
        /// Rows of hours.csv with those minutes, the longest first.
        rows: Vec<u32>,
        /// The work logged: decorating, or the whole order.
        covers: Covers,
        /// Minutes logged.
        logged: f64,
        /// Minutes expected.
        expected: f64,
    },
    /// Log a missing purchase: more was used than bought.
    LogPurchase {
        /// The item that ran short, with its cost.
        short: Missing,
    },
    /// Time a design on its own.
    Time {
        /// The design.
        design: String,
        /// Pieces to time.
        pieces: i64,
        /// Expected fall of the season's Σ pieces × |minutes' error| × target.
        narrowing: Money,
    },
}
