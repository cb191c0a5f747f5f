//! The coordinates that are sampled: those of the model, some of them non-centred.

use super::model::Model;
use super::nuts::Density;

/// The model in the coordinates that are sampled: designs that the logs say little of are standard scores about their
/// level (non-centred), so that the sampler meets no funnel where the spread is small; the others stay as they are.
/// See Betancourt and Girolami, "Hamiltonian Monte Carlo for Hierarchical Models" (arXiv:1312.0906).
#[derive(Debug)]
pub struct Reparameterised<'a> {
    /// The model.
    pub model: &'a Model,
    /// Which designs are non-centred.
    pub non_centred: Vec<bool>,
}

impl Reparameterised<'_> {
    /// Converts sampled coordinates to natural ones.
    #[must_use]
    pub fn natural(&self, sampled: &[f64]) -> Vec<f64> {
        let mut x = sampled.to_vec();
        let spread = libm::exp(x[Model::SPREAD]);
        self.each_non_centred(|at, level, offset| x[at] = x[level] + offset + spread * x[at]);
        x
    }

    /// Converts natural coordinates to sampled ones.
    #[must_use]
    pub fn sampled(&self, natural: &[f64]) -> Vec<f64> {
        let mut x = natural.to_vec();
        let spread = libm::exp(x[Model::SPREAD]);
        self.each_non_centred(|at, level, offset| x[at] = (x[at] - x[level] - offset) / spread);
        x
    }

    fn each_non_centred(&self, mut change: impl FnMut(usize, usize, f64)) {
        let (designs_at, levels_at) = (self.model.designs_at(), self.model.levels_at());
        for (design, centre) in self.model.designs.iter().enumerate().filter(|(design, _)| self.non_centred[*design]) {
            change(designs_at + design, levels_at + centre.level, centre.offset);
        }
    }
}

impl Density for Reparameterised<'_> {
    fn size(&self) -> usize {
        self.model.size()
    }

    fn log_density(&self, x: &[f64], gradient: &mut [f64]) -> f64 {
        let natural = self.natural(x);
        let mut total = self.model.log_density(&natural, gradient);
        let spread = libm::exp(x[Model::SPREAD]);
        self.each_non_centred(|at, level, _| {
            let slope = gradient[at];
            gradient[level] += slope;
            gradient[Model::SPREAD] += slope * spread * x[at] + 1.0;
            gradient[at] = slope * spread;
            total += x[Model::SPREAD];
        });
        total
    }
}
