//! Entries of the hours log that are split by learned minutes: each posterior draw splits them otherwise.

use super::splitter::{EntryKey, Served};
use crate::ids::{Id, Order};
use crate::minutes::observations::Covers;

/// An entry split by learned minutes.
#[derive(Debug, Clone)]
pub struct EstimatedEntry {
    pub(super) covers: Covers,
    /// Orders with the lines that share it.
    pub(super) served: Vec<(Id<Order>, Vec<usize>)>,
    /// The owner's minutes, helpers' minutes, and helper pay.
    pub(super) owner: f64,
    pub(super) helper: f64,
    pub(super) pay: f64,
}

impl EstimatedEntry {
    /// Takes an entry; `None` if it is not split by learned minutes.
    pub(super) fn of(entry: &EntryKey, minutes: i128, pay: i128, served: &Served) -> Option<Self> {
        let minutes = float(minutes);
        let covers = if entry.stage.is_some() { Covers::Decorating } else { Covers::Whole };
        let (owner, helper) = if entry.who.is_some() { (0.0, minutes) } else { (minutes, 0.0) };
        (!served.is_empty()).then(|| Self { covers, served: served.clone(), owner, helper, pay: float(pay) })
    }
}

/// Converts millionths to a float.
#[expect(clippy::cast_precision_loss, reason = "an estimate needs no more than 53 bits")]
pub(super) fn float(millionths: i128) -> f64 {
    millionths as f64 / 1e6
}
