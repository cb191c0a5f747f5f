//! The mass matrix of the sampler.

use super::cholesky::{Cholesky, add_rows};
use super::random::Random;

/// Mass matrix: the inverse of an estimate of the target's covariance.
#[derive(Debug, Clone)]
pub struct MassMatrix {
    /// Estimated covariance of the coordinates.
    covariance: Vec<f64>,
    /// Factor of its inverse, the mass matrix.
    precision: Cholesky,
    size: usize,
}

impl MassMatrix {
    /// Inverts a covariance; `None` if it is not positive definite.
    #[must_use]
    pub fn of(covariance: Vec<f64>, size: usize) -> Option<Self> {
        let inverse = Cholesky::of(covariance.clone(), size)?.inverse();
        Some(Self { precision: Cholesky::of(inverse, size)?, covariance, size })
    }

    pub(super) fn momentum(&self, random: &mut Random) -> Vec<f64> {
        let normal: Vec<f64> = (0..self.size).map(|_| random.normal()).collect();
        self.precision.times(&normal)
    }

    pub(super) fn velocity(&self, momentum: &[f64]) -> Vec<f64> {
        let mut velocity = vec![0.0; self.size];
        add_rows(&mut velocity, momentum.iter().copied().zip(self.covariance.chunks(self.size)));
        velocity
    }
}
