//! The posterior, fast and nearly: at the best noise and spread and a few points about them, the mode of all the
//! other coordinates with its curvature.
//!
//! Given noise and spread the others are close to normal about their mode (Laplace's method); noise and spread
//! themselves are taken from what is left when the others are integrated out, on a small grid, as Rue, Martino and
//! Chopin do (JRSS B 71, 2009). It is where sampling starts and what sampling is scaled by; past a few thousand
//! orders or some hundred designs it takes the place of sampling.

use super::cholesky::Cholesky;
use super::model::{FREEDOM, Model, count};
use super::random::Chance;

/// Normal pieces about modes, with their weights.
#[derive(Debug)]
pub struct Approximation<'a> {
    model: &'a Model,
    pieces: Vec<Piece>,
    /// How far the mean lies from the mode.
    shift: Vec<f64>,
}

/// The mode of all but noise and spread, given these.
#[derive(Debug, Clone)]
struct Piece {
    /// Natural coordinates.
    mode: Vec<f64>,
    /// Factor of the curvature of all but the first two.
    curvature: Cholesky,
    /// Log of what integrating over the others leaves.
    log_weight: f64,
}

/// log σ and log τ come first.
const OUTER: usize = 2;
/// Steps towards a mode at most.
const STEPS: usize = 60;

impl<'a> Approximation<'a> {
    /// Of a model's posterior; `None` where no mode was found.
    #[must_use]
    pub fn of(model: &'a Model) -> Option<Self> {
        let best = best(model)?;
        let widths = widths(model, &best)?;
        let mut pieces = Vec::new();
        for noise in [-1.5, 0.0, 1.5] {
            for spread in [-1.5, 0.0, 1.5] {
                let mut start = best.mode.clone();
                start[Model::NOISE] += noise * widths[Model::NOISE];
                start[Model::SPREAD] += spread * widths[Model::SPREAD];
                pieces.push(piece(model, start)?);
            }
        }
        let shift = shift(model, &best);
        Some(Self { model, pieces, shift })
    }

    /// The mode at the best noise and spread, in natural coordinates.
    #[must_use]
    pub fn mode(&self) -> &[f64] {
        &self.pieces[4].mode
    }

    /// Draws in natural coordinates.
    #[must_use]
    pub fn draws(&self, number: usize, chance: &mut Chance) -> Vec<Vec<f64>> {
        let most = self.pieces.iter().map(|piece| piece.log_weight).fold(f64::NEG_INFINITY, f64::max);
        let weights: Vec<f64> = self.pieces.iter().map(|piece| libm::exp(piece.log_weight - most)).collect();
        let total: f64 = weights.iter().sum();
        let half = |at: usize| {
            (self.pieces[7].mode[at] - self.pieces[1].mode[at]) / 6.0 + (self.pieces[5].mode[at] - self.pieces[3].mode[at]) / 6.0
        };
        let halves = [half(Model::NOISE), half(Model::SPREAD)];
        (0..number)
            .map(|_| {
                let mut left = chance.uniform() * total;
                let at = weights.iter().position(|weight| {
                    left -= weight;
                    left <= 0.0
                });
                let piece = &self.pieces[at.unwrap_or(4)];
                let mut x = piece.mode.clone();
                // Between the points of the grid noise and spread are smeared over their cells.
                for (x, half) in x.iter_mut().zip(halves) {
                    *x += half * 1.5 * (2.0 * chance.uniform() - 1.0);
                }
                let mut normal: Vec<f64> = (OUTER..self.model.size()).map(|_| chance.normal()).collect();
                piece.curvature.backward(&mut normal);
                for ((x, step), shift) in x[OUTER..].iter_mut().zip(normal).zip(&self.shift) {
                    *x += step + shift;
                }
                x
            })
            .collect()
    }

    /// Designs that the logs say less of than their level does: the curvature that the logs add is below 1 ÷ τ².
    #[must_use]
    pub fn thin(&self) -> Vec<bool> {
        let mode = self.mode();
        let mut known = vec![0.0; self.model.designs.len()];
        let unknowns = self.model.unknowns(mode);
        let weight = weight_of_an_observation(mode);
        for observation in 0..self.model.observations() {
            let terms = self.model.terms_of(observation);
            let sum = self.model.expected(observation, &unknowns);
            for (unknown, amount) in terms {
                if let Some(design) = unknown.checked_sub(self.model.parts.len()) {
                    let share = amount * unknowns[*unknown].1 / sum;
                    known[design] += weight * share * share;
                }
            }
        }
        let level = libm::exp(-2.0 * mode[Model::SPREAD]);
        known.into_iter().map(|known| known < level).collect()
    }
}

/// Expected curvature that one observation of log minutes adds: Fisher's information of Student's t.
fn weight_of_an_observation(x: &[f64]) -> f64 {
    (FREEDOM + 1.0) / (FREEDOM + 3.0) * libm::exp(-2.0 * x[Model::NOISE])
}

/// The piece at the noise and spread of a starting point.
fn piece(model: &Model, start: Vec<f64>) -> Option<Piece> {
    let mut x = start;
    let size = model.size();
    let mut gradient = vec![0.0; size];
    let mut log = model.log_density(&x, &mut gradient);
    for _ in 0..STEPS {
        let mut step = gradient[OUTER..].to_vec();
        curvature(model, &x, Weights::Robust)?.solve(&mut step);
        let slope: f64 = step.iter().zip(&gradient[OUTER..]).map(|(step, slope)| step * slope).sum();
        if slope < 1e-8 {
            break;
        }
        // Far from the mode the curvature misleads: no step is longer than 2.
        let longest = step.iter().fold(0.0_f64, |most, step| most.max(step.abs()));
        let mut length = if longest > 2.0 { 2.0 / longest } else { 1.0 };
        let mut moved = false;
        for _ in 0..30 {
            let mut tried = x.clone();
            for (x, step) in tried[OUTER..].iter_mut().zip(&step) {
                *x += length * step;
            }
            let mut tried_gradient = vec![0.0; size];
            let tried_log = model.log_density(&tried, &mut tried_gradient);
            if tried_log >= log + 1e-4 * length * slope {
                (x, log, gradient, moved) = (tried, tried_log, tried_gradient, true);
                break;
            }
            length *= 0.5;
        }
        if !moved {
            break;
        }
    }
    let curvature = curvature(model, &x, Weights::Expected)?;
    let log_weight = log - 0.5 * curvature.log_determinant();
    log_weight.is_finite().then_some(Piece { mode: x, curvature, log_weight })
}

/// How observations are weighed in the curvature.
#[derive(Debug, Clone, Copy, PartialEq)]
enum Weights {
    /// As iteratively reweighted least squares does: always a step upwards.
    Robust,
    /// By what an observation tells on average.
    Expected,
}

/// Curvature of all but noise and spread.
fn curvature(model: &Model, x: &[f64], weights: Weights) -> Option<Cholesky> {
    let size = model.size() - OUTER;
    let mut matrix = vec![0.0; size * size];
    let unknowns = model.unknowns(x);
    let (levels_at, parts_at, designs_at) = (model.levels_at() - OUTER, model.parts_at() - OUTER, model.designs_at() - OUTER);
    let square = FREEDOM * libm::exp(2.0 * x[Model::NOISE]);
    let trend = model.trend_at().map_or(0.0, |at| x[at]);
    let expected = weight_of_an_observation(x);
    let mut shares: Vec<(usize, f64)> = Vec::new();
    for observation in 0..model.observations() {
        let terms = model.terms_of(observation);
        let sum = model.expected(observation, &unknowns);
        let weight = match weights {
            Weights::Expected => expected,
            Weights::Robust => {
                let off = model.log_minutes[observation] - libm::log(sum) - trend * model.years[observation];
                (FREEDOM + 1.0) / (square + off * off)
            }
        };
        shares.clear();
        if let Some(at) = model.trend_at() {
            shares.push((at - OUTER, model.years[observation]));
        }
        shares.extend(terms.iter().map(|(unknown, amount)| (parts_at + unknown, amount * unknowns[*unknown].1 / sum)));
        for (at, share) in &shares {
            for (other, other_share) in &shares {
                matrix[at * size + other] += weight * share * other_share;
            }
        }
    }
    if let (Some(at), Some(prior)) = (model.trend_at(), model.trend) {
        matrix[(at - OUTER) * (size + 1)] += 1.0 / (prior.spread * prior.spread);
    }
    for (level, prior) in model.levels.iter().enumerate() {
        matrix[(levels_at + level) * (size + 1)] += 1.0 / (prior.spread * prior.spread);
    }
    for part in parts_at..designs_at {
        matrix[part * (size + 1)] += 1.0;
    }
    let precision = libm::exp(-2.0 * x[Model::SPREAD]);
    for (design, centre) in model.designs.iter().enumerate() {
        let (at, level) = (designs_at + design, levels_at + centre.level);
        matrix[at * (size + 1)] += precision;
        matrix[level * (size + 1)] += precision;
        matrix[at * size + level] -= precision;
        matrix[level * size + at] -= precision;
    }
    Cholesky::of(matrix, size)
}

/// How far the mean of a skewed posterior lies from its mode: minus half the curvature's inverse times the slope of the
/// log of its determinant (Tierney and Kadane, JASA 81, 1986, to the first order). Minutes of small pieces beside large
/// ones are skewed: they may well be nearly nothing, but not much more than they are.
fn shift(model: &Model, best: &Piece) -> Vec<f64> {
    let x = &best.mode;
    let size = model.size() - OUTER;
    let inverse = best.curvature.inverse();
    let unknowns = model.unknowns(x);
    let parts_at = model.parts_at() - OUTER;
    let weight = weight_of_an_observation(x);
    let mut slope = vec![0.0; size];
    for observation in 0..model.observations() {
        let expected = model.expected(observation, &unknowns);
        let shares: Vec<(usize, f64, f64)> = model
            .terms_of(observation)
            .iter()
            .map(|(unknown, amount)| {
                let bend = model.bend(*unknown, x, unknowns[*unknown]);
                (parts_at + unknown, amount * unknowns[*unknown].1 / expected, amount * bend / expected)
            })
            .collect();
        // Of each share, what the inverse makes of them all; and of all shares together.
        let seen = |at: usize| shares.iter().map(|(other, share, _)| inverse[at * size + other] * share).sum::<f64>();
        let all: f64 = shares.iter().map(|(at, share, _)| seen(*at) * share).sum();
        for (at, share, bend) in &shares {
            slope[*at] += 2.0 * weight * (seen(*at) * bend - share * all);
        }
    }
    let mut shift: Vec<f64> = slope.iter().map(|slope| -0.5 * slope).collect();
    best.curvature.solve(&mut shift);
    // The first order holds for small shifts only: none is longer than half a standard deviation a coordinate.
    let length: f64 = shift.iter().zip(&slope).map(|(shift, slope)| -0.5 * shift * slope).sum();
    let most = 0.25 * count(size);
    if length > most {
        for shift in &mut shift {
            *shift *= (most / length).sqrt();
        }
    }
    shift
}

/// The piece with the greatest weight, by turns along noise and spread.
fn best(model: &Model) -> Option<Piece> {
    let mut best = piece(model, start(model))?;
    for step in [0.5, 0.25, 0.125] {
        for _ in 0..8 {
            let mut moved = false;
            for (at, way) in [(Model::NOISE, step), (Model::NOISE, -step), (Model::SPREAD, step), (Model::SPREAD, -step)] {
                let mut start = best.mode.clone();
                start[at] += way;
                let tried = piece(model, start)?;
                if tried.log_weight > best.log_weight {
                    best = tried;
                    moved = true;
                }
            }
            if !moved {
                break;
            }
        }
    }
    Some(best)
}

/// Standard deviations of noise and spread, from the weights a little to either side.
fn widths(model: &Model, best: &Piece) -> Option<[f64; OUTER]> {
    let mut widths = [0.0; OUTER];
    for (at, width) in widths.iter_mut().enumerate() {
        let side = |way: f64| {
            let mut start = best.mode.clone();
            start[at] += way;
            piece(model, start).map(|piece| piece.log_weight)
        };
        let bend = (2.0 * best.log_weight - side(0.15)? - side(-0.15)?) / (0.15 * 0.15);
        *width = (1.0 / bend.max(1.0)).sqrt();
    }
    Some(widths)
}

/// Where nothing is known yet: priors' means.
fn start(model: &Model) -> Vec<f64> {
    let mut x = vec![0.0; model.size()];
    x[Model::NOISE] = model.noise.map_or(0.0, |prior| prior.mean);
    x[Model::SPREAD] = model.spread.map_or(0.0, |prior| prior.mean);
    for (level, prior) in model.levels.iter().enumerate() {
        x[model.levels_at() + level] = prior.mean;
    }
    for (design, centre) in model.designs.iter().enumerate() {
        x[model.designs_at() + design] = model.levels[centre.level].mean + centre.offset;
    }
    x
}
