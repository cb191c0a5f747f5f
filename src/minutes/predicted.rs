//! Compares each order's logged minutes with those its set-up, colours and pieces are expected to take.

use super::learned::Learned;
use super::observations::Covers;
use crate::ids::{Id, Order};

/// Orders logged together, with logged and expected minutes.
#[derive(Debug, Clone, PartialEq)]
pub struct Prediction {
    /// The orders.
    pub orders: Vec<Id<Order>>,
    /// The work that was logged.
    pub covers: Covers,
    /// Minutes logged.
    pub logged: f64,
    /// Minutes expected.
    pub expected: f64,
    /// Whether a logging mistake is likelier than chance.
    pub far_off: bool,
}

/// Noise scales past which an order is far off: with four degrees of freedom, one order in sixty by chance.
const FAR: f64 = 4.0;

/// Predicts each observed group at the posterior means, the farthest off first.
#[must_use]
pub(crate) fn predictions(learned: &Learned) -> Vec<Prediction> {
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
