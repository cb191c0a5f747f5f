//! What is worth doing this month: at most five things.

use super::below_target::BelowTarget;
use super::stock::Missing;
use crate::minutes::observations::Covers;
use crate::quantity::millionths::Money;

/// The most that are named.
pub const MOST: usize = 5;
/// Something to do.
#[derive(Debug, Clone, PartialEq)]
pub enum Advice {
    /// Ask more for a design, or make it simpler.
    Raise {
        /// The design as it stands.
        design: Box<BelowTarget>,
    },
    /// Charge for setting an order up, or raise the minimum.
    ChargeSetUp {
        /// How many designs pay too little only because of what is shared by the order.
        designs: usize,
        /// What they were short of together.
        short: Money,
        /// The charge on each order that held one which would have covered it, fees paid.
        an_order: Money,
        /// How many orders held one.
        orders: i64,
    },
    /// Log hours: there are none at all.
    LogAnyHours,
    /// Log the hours of orders that have none.
    LogHours {
        /// The orders.
        orders: Vec<String>,
        /// What they brought in: its wage is not known.
        revenue: Money,
    },
    /// Look at what was logged for an order: it is far from what such orders take.
    LookAtHours {
        /// The order, or orders logged together.
        order: String,
        /// Rows of the hours log that those minutes are in, the longest first.
        rows: Vec<u32>,
        /// What was logged: decorating, or all of the order.
        covers: Covers,
        /// Minutes logged.
        logged: f64,
        /// Minutes expected.
        expected: f64,
    },
    /// Log a purchase that is missing: more was used than bought.
    LogPurchase {
        /// What ran short, and what it was costed at.
        short: Missing,
    },
    /// Time a design on its own.
    Time {
        /// The design.
        design: String,
        /// Pieces to time.
        pieces: i64,
        /// By how much a season's prices would be known better.
        narrowing: Money,
    },
}
