//! Expected curvature of the log density in all coordinates except noise and spread: the information of observations
//! and priors.

use super::model::{DEGREES_OF_FREEDOM, Model};
use super::pattern::Pattern;
use super::sparse::{SparseCholesky, Symmetric};

/// Noise and spread, the first coordinates, which have no row here.
pub(crate) const OUTER: usize = 2;

/// Computes the expected curvature of one observation of log minutes: the Fisher information of Student's t.
#[must_use]
pub(crate) fn weight_of_an_observation(x: &[f64]) -> f64 {
    let noise = Model::noise(x);
    (DEGREES_OF_FREEDOM + 1.0) / (DEGREES_OF_FREEDOM + 3.0) / (noise * noise)
}

/// Finds which coordinates the observations and priors of a model couple. Levels and parts are coupled to nearly all
/// others.
#[must_use]
pub fn pattern(model: &Model) -> Pattern {
    let designs_at = model.designs_at() - OUTER;
    let trend = model.trend_at();
    let observed = (0..model.observations()).map(|observation| {
        let terms = model.terms_of(observation).iter().map(|(unknown, _)| model.parts_at() + unknown);
        trend.into_iter().chain(terms).map(|at| at - OUTER).collect::<Vec<usize>>()
    });
    let believed = model.designs.iter().zip(designs_at..).map(|(centre, design)| vec![model.levels_at() - OUTER + centre.level, design]);
    Pattern::of(model.size() - OUTER, |at| at < designs_at, observed.chain(believed))
}

/// Factors the expected curvature at natural coordinates: Fisher information plus the curvature of the priors. `None`
/// if it is not positive definite.
#[must_use]
pub fn curvature<'a>(model: &Model, pattern: &'a Pattern, x: &[f64]) -> Option<SparseCholesky<'a>> {
    let mut matrix = Symmetric::zero(pattern);
    let unknowns = model.unknowns(x);
    let (levels_at, parts_at, designs_at) = (model.levels_at() - OUTER, model.parts_at() - OUTER, model.designs_at() - OUTER);
    let weight = weight_of_an_observation(x);
    let mut shares: Vec<(usize, f64)> = Vec::new();
    for observation in 0..model.observations() {
        let sum = model.expected(observation, &unknowns);
        shares.clear();
        shares.extend(model.trend_at().map(|at| (at - OUTER, model.years[observation])));
        let terms = model.terms_of(observation).iter();
        shares.extend(terms.map(|(unknown, amount)| (parts_at + unknown, amount * unknowns[*unknown].1 / sum)));
        for (number, (at, share)) in shares.iter().enumerate() {
            for (other, other_share) in &shares[..=number] {
                matrix.add(*at, *other, weight * share * other_share);
            }
        }
    }
    if let (Some(at), Some(prior)) = (model.trend_at(), model.trend) {
        matrix.add(at - OUTER, at - OUTER, 1.0 / (prior.spread * prior.spread));
    }
    for (level, prior) in (levels_at..).zip(&model.levels) {
        matrix.add(level, level, 1.0 / (prior.spread * prior.spread));
    }
    for part in parts_at..designs_at {
        matrix.add(part, part, 1.0);
    }
    let precision = libm::exp(-2.0 * x[Model::SPREAD]);
    for (design, centre) in (designs_at..).zip(&model.designs) {
        let level = levels_at + centre.level;
        matrix.add(design, design, precision);
        matrix.add(level, level, precision);
        matrix.add(design, level, -precision);
    }
    matrix.factor()
}
