//! Entries of work that were divided by learned minutes: what each draw would divide otherwise.

use super::splitter::{Alike, Served};
use crate::ids::{Id, Order};
use crate::minutes::observations::Covers;

/// An entry divided by learned minutes.
#[derive(Debug, Clone)]
pub struct Estimated {
    pub(super) covers: Covers,
    /// Orders with the lines in question.
    pub(super) served: Vec<(Id<Order>, Vec<usize>)>,
    /// The owner's minutes, helpers' minutes, and what these cost.
    pub(super) owner: f64,
    pub(super) helper: f64,
    pub(super) pay: f64,
}

impl Estimated {
    /// Of an entry; `None` where it is divided otherwise.
    pub(super) fn of(entry: &Alike, minutes: i128, pay: i128, served: &Served) -> Option<Self> {
        let minutes = float(minutes);
        let covers = if entry.stage.is_some() { Covers::Decorating } else { Covers::Whole };
        let (owner, helper) = if entry.who.is_some() { (0.0, minutes) } else { (minutes, 0.0) };
        (!served.is_empty()).then(|| Self { covers, served: served.clone(), owner, helper, pay: float(pay) })
    }
}

#[expect(clippy::cast_precision_loss, reason = "an estimate needs no more than 53 bits")]
/// Millionths as a real.
#[must_use]
pub(super) fn float(millionths: i128) -> f64 {
    millionths as f64 / 1e6
}
