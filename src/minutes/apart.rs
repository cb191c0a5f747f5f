//! Which designs the orders tell apart, and which only their tier or their card does.
//!
//! From what the observations alone say at the posterior's middle, the hierarchy left out: a design is told apart
//! where its minutes are known within a factor of two (one standard deviation of their logarithm) with all other
//! designs unknown too. Designs always sold together are known as a sum alone; each is named as the other's company.

use super::cholesky::Cholesky;
use super::model::{FREEDOM, Model};

/// What the orders alone say of a design.
#[derive(Debug, Clone, PartialEq)]
pub struct Apart {
    /// Whether they tell its minutes.
    pub told: bool,
    /// Designs it cannot be told from, by their places.
    pub company: Vec<usize>,
}

/// Standard deviation of a log within which minutes are told: a factor of two.
const TOLD: f64 = std::f64::consts::LN_2;
/// Correlation past which two designs are known as a sum alone.
const AS_A_SUM: f64 = -0.5;
/// Curvature that stands for knowing nothing.
const NOTHING: f64 = 1e-4;

/// Of every design, at natural coordinates in the middle of the posterior.
#[must_use]
pub fn apart(model: &Model, middle: &[f64]) -> Vec<Apart> {
    let unknowns = model.unknowns(middle);
    let (parts, size) = (model.parts.len(), unknowns.len());
    let mut matrix = vec![0.0; size * size];
    for at in 0..size {
        matrix[at * (size + 1)] = if at < parts { 1.0 } else { NOTHING };
    }
    let weight = (FREEDOM + 1.0) / (FREEDOM + 3.0) * libm::exp(-2.0 * middle[Model::NOISE]);
    for observation in 0..model.observations() {
        let expected = model.expected(observation, &unknowns);
        let terms = model.terms_of(observation);
        let share = |(unknown, amount): &(usize, f64)| (*unknown, amount * unknowns[*unknown].1 / expected);
        for (row, one) in terms.iter().map(share) {
            for (column, other) in terms.iter().map(share) {
                matrix[row * size + column] += weight * one * other;
            }
        }
    }
    let nothing = Apart { told: false, company: Vec::new() };
    let Some(factor) = Cholesky::of(matrix, size) else { return vec![nothing; size - parts] };
    let covariance = factor.inverse();
    let variance = |at: usize| covariance[at * (size + 1)];
    let of = |at: usize| {
        let told = variance(at) < TOLD * TOLD;
        let correlation = |other: usize| covariance[at * size + other] / (variance(at) * variance(other)).sqrt();
        let company = (parts..size).filter(|other| !told && *other != at && correlation(*other) < AS_A_SUM);
        Apart { told, company: company.map(|other| other - parts).collect() }
    };
    (parts..size).map(of).collect()
}
