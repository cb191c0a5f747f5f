//! How well the model predicts each order: what was logged beside what its pieces, colours and set-up come to.

use super::learned::Learned;
use super::observations::Covers;
use crate::ids::{Id, Order};

/// Orders logged together, with what they took and what they would be expected to take.
#[derive(Debug, Clone, PartialEq)]
pub struct Prediction {
    /// The orders.
    pub orders: Vec<Id<Order>>,
    /// What was logged.
    pub covers: Covers,
    /// Minutes logged.
    pub logged: f64,
    /// Minutes expected.
    pub expected: f64,
    /// Whether it lies so far off that a logging mistake is likelier than chance.
    pub far_off: bool,
}

/// Noise scales past which an order is far off: in four degrees of freedom one order in sixty by chance.
const FAR: f64 = 4.0;

/// Of every group observed, at the posterior means; farthest off first.
#[must_use]
pub fn predictions(learned: &Learned) -> Vec<Prediction> {
    let mean = &learned.mean;
    let groups = &learned.observed.observations.groups;
    let middle = learned.observed.observations.middle();
    let mut predictions: Vec<Prediction> = groups
        .iter()
        .map(|group| {
            let shares = Learned::shares(mean, group.covers);
            let pieces = group.pieces.iter().map(|(place, pieces)| {
                let design = learned.observed.designs[*place];
                pieces * (mean.each[design] + shares.handling)
            });
            let expected = shares.set_up * group.orders + shares.colour * group.colours + pieces.sum::<f64>();
            let expected = expected * libm::exp(mean.trend * (group.years - middle));
            let off = libm::log(group.minutes / expected) / mean.noise;
            Prediction { orders: group.named.clone(), covers: group.covers, logged: group.minutes, expected, far_off: off.abs() > FAR }
        })
        .collect();
    let off = |one: &Prediction| libm::log(one.logged / one.expected).abs();
    predictions.sort_by(|one, other| off(other).total_cmp(&off(one)).then_with(|| one.orders.cmp(&other.orders)));
    predictions
}
