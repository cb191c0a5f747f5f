//! Identifiability: whether the orders alone determine a design's minutes, without its tier and its card.
//!
//! Computed from the information of the observations at the posterior mean, with the hierarchy left out: a design is
//! identified if the standard deviation of its log minutes is below ln 2 (a factor of two) while all other designs
//! are unknown too. Of designs always sold together only the sum is known: they are confounded with each other.

use super::curvature::{OUTER, pattern, weight_of_an_observation};
use super::model::Model;
use super::sparse::Symmetric;

/// The identifiability of one design.
#[derive(Debug, Clone, PartialEq)]
pub struct Identifiability {
    /// Whether the orders alone determine its minutes.
    pub is_identified: bool,
    /// Designs it is confounded with, by index.
    pub confounded_with: Vec<usize>,
}

/// Largest standard deviation of the log minutes of an identified design: a factor of two.
const MOST_SPREAD: f64 = std::f64::consts::LN_2;
/// Correlation below which two designs are confounded: only their sum is known.
const CONFOUNDED: f64 = -0.5;
/// Curvature of a nearly flat prior, so that the matrix can be factored.
const FLAT: f64 = 1e-4;

/// Computes the identifiability of each design at the posterior mean (natural coordinates).
#[must_use]
pub(crate) fn identifiability(model: &Model, middle: &[f64]) -> Vec<Identifiability> {
    let (parts_at, designs_at) = (model.parts_at() - OUTER, model.designs_at() - OUTER);
    let pattern = pattern(model);
    let mut matrix = Symmetric::zero(&pattern);
    for at in 0..pattern.size() {
        matrix.add(at, at, if at < designs_at { 1.0 } else { FLAT });
    }
    let unknowns = model.unknowns(middle);
    let weight = weight_of_an_observation(middle);
    for observation in 0..model.observations() {
        let expected = model.expected(observation, &unknowns);
        let terms = model.terms_of(observation);
        let share = |(unknown, amount): &(usize, f64)| (parts_at + unknown, amount * unknowns[*unknown].1 / expected);
        for (number, (row, one)) in terms.iter().map(share).enumerate() {
            for (column, other) in terms[..=number].iter().map(share) {
                matrix.add(row, column, weight * one * other);
            }
        }
    }
    let mut found = vec![Identifiability { is_identified: false, confounded_with: Vec::new() }; model.designs.len()];
    let Some(factor) = matrix.factor() else { return found };
    let covariance = factor.inverse();
    let variance = |design: usize| covariance.get(designs_at + design, designs_at + design);
    for (design, of_design) in found.iter_mut().enumerate() {
        of_design.is_identified = variance(design) < MOST_SPREAD * MOST_SPREAD;
    }
    // Only designs that some order couples can be confounded.
    let is_design = |(row, column): &(usize, usize)| row.min(column) >= &designs_at;
    for (row, column) in pattern.coupled().filter(is_design) {
        let correlation = covariance.get(row, column) / (variance(row - designs_at) * variance(column - designs_at)).sqrt();
        if correlation < CONFOUNDED {
            for (one, other) in [(row - designs_at, column - designs_at), (column - designs_at, row - designs_at)] {
                if !found[one].is_identified {
                    found[one].confounded_with.push(other);
                }
            }
        }
    }
    for of_design in &mut found {
        of_design.confounded_with.sort_unstable();
    }
    found
}
