//! A fast approximation of the posterior: a mixture of normals at a small grid of noise and spread.
//!
//! Given noise and spread, the other coordinates are close to normal about their mode (Laplace's method). The weights
//! of noise and spread come from integrating the others out, on a small grid, as in Rue, Martino and Chopin (JRSS B
//! 71, 2009). Sampling starts from it and is scaled by it; past some hundred designs or a few thousand orders, or
//! where sampling does not converge, it replaces sampling.

use super::curvature::{OUTER, weight_of_an_observation};
use super::mode::{Mode, mode};
use super::model::{Model, count};
use super::pattern::Pattern;
use super::random::Random;

/// A mixture of normals about modes, with their weights.
#[derive(Debug)]
pub(crate) struct Approximation<'a> {
    model: &'a Model,
    /// Modes on a 3 × 3 grid of noise and spread, the best first.
    grid: Vec<Mode<'a>>,
    /// Spacing of the grid in noise and spread.
    reach: [f64; OUTER],
    /// Mean − mode of the other coordinates.
    shift: Vec<f64>,
}

impl<'a> Approximation<'a> {
    /// Approximates a model's posterior; `pattern` is that of `curvature::pattern`. `None` if no mode was found.
    #[must_use]
    pub fn of(model: &'a Model, pattern: &'a Pattern) -> Option<Self> {
        let Peak { best, neighbours, reach } = peak(model, pattern)?;
        let mut grid = vec![best];
        for (noise, spread) in [(-1.0, -1.0), (-1.0, 1.0), (1.0, -1.0), (1.0, 1.0)] {
            let best = &grid[0];
            grid.push(mode(model, pattern, moved(&best.at, [noise * reach[0], spread * reach[1]]), Some(&best.curvature))?);
        }
        grid.extend(neighbours.into_iter().flatten());
        let shift = shift(model, &grid[0]);
        Some(Self { model, grid, reach, shift })
    }

    /// Returns the mode at the best noise and spread, in natural coordinates.
    #[must_use]
    pub fn mode(&self) -> &[f64] {
        &self.grid[0].at
    }

    /// Draws from the approximation, in natural coordinates.
    #[must_use]
    pub fn draws(&self, number: usize, random: &mut Random) -> Vec<Vec<f64>> {
        let most = self.grid.iter().map(|mode| mode.log_weight).fold(f64::NEG_INFINITY, f64::max);
        let weights: Vec<f64> = self.grid.iter().map(|mode| libm::exp(mode.log_weight - most)).collect();
        let total: f64 = weights.iter().sum();
        (0..number)
            .map(|_| {
                let mut left = random.uniform() * total;
                let at = weights.iter().position(|weight| {
                    left -= weight;
                    left <= 0.0
                });
                let mode = &self.grid[at.unwrap_or_default()];
                let mut x = mode.at.clone();
                // Noise and spread are uniform over the cell of their grid point.
                for (x, reach) in x.iter_mut().zip(self.reach) {
                    *x += reach * (random.uniform() - 0.5);
                }
                let step = mode.curvature.scaled((OUTER..self.model.size()).map(|_| random.normal()).collect());
                for ((x, step), shift) in x[OUTER..].iter_mut().zip(step).zip(&self.shift) {
                    *x += step + shift;
                }
                x
            })
            .collect()
    }

    /// Finds the designs whose logs carry less information than their level: the curvature that observations add is
    /// below 1 ÷ τ².
    #[must_use]
    pub(crate) fn weakly_informed(&self) -> Vec<bool> {
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

/// Computes mean − mode of a skewed posterior: −½ × inverse curvature × gradient of the log determinant of the
/// curvature (Tierney and Kadane, JASA 81, 1986, to first order). Minutes of small pieces sold with large ones are
/// skewed: they may be nearly zero, but not much more than they are.
fn shift(model: &Model, best: &Mode<'_>) -> Vec<f64> {
    let x = &best.at;
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
                let bend = model.second_derivative(*unknown, x, unknowns[*unknown]);
                (parts_at + unknown, amount * unknowns[*unknown].1 / expected, amount * bend / expected)
            })
            .collect();
        // Variance seen by each share, and by all shares together.
        let seen = |at: usize| shares.iter().map(|(other, share, _)| inverse.get(at, *other) * share).sum::<f64>();
        let all: f64 = shares.iter().map(|(at, share, _)| seen(*at) * share).sum();
        for (at, share, bend) in &shares {
            slope[*at] += 2.0 * weight * (seen(*at) * bend - share * all);
        }
    }
    let mut shift: Vec<f64> = slope.iter().map(|slope| -0.5 * slope).collect();
    best.curvature.solve(&mut shift);
    // First order holds for small shifts only: at most half a standard deviation per coordinate.
    let length: f64 = shift.iter().zip(&slope).map(|(shift, slope)| -0.5 * shift * slope).sum();
    let most = 0.25 * count(size);
    if length > most {
        for shift in &mut shift {
            *shift *= (most / length).sqrt();
        }
    }
    shift
}

/// The mode at the best noise and spread, and its neighbours along each.
struct Peak<'a> {
    best: Mode<'a>,
    neighbours: [[Mode<'a>; 2]; OUTER],
    /// Distance of the neighbours.
    reach: [f64; OUTER],
}

/// Spacing of the grid, in standard deviations of noise and of spread.
const REACH: f64 = 1.5;
/// Most rounds of the search.
const ROUNDS: usize = 10;

/// Finds the noise and spread of the greatest weight, by parabolas through the weights on either side.
fn peak<'a>(model: &Model, pattern: &'a Pattern) -> Option<Peak<'a>> {
    let mut best = mode(model, pattern, start(model), None)?;
    let mut reach = [0.4; OUTER];
    for round in 1.. {
        let from_best = |by: [f64; OUTER]| mode(model, pattern, moved(&best.at, by), Some(&best.curvature));
        let side = |noise: f64, spread: f64| from_best([noise * reach[0], spread * reach[1]]);
        let neighbours = [[side(-1.0, 0.0)?, side(1.0, 0.0)?], [side(0.0, -1.0)?, side(0.0, 1.0)?]];
        let (mut towards, mut wanted, mut is_there) = ([0.0; OUTER], reach, true);
        for at in 0..OUTER {
            let [less, more] = [0, 1].map(|side| neighbours[at][side].log_weight - best.log_weight);
            // The priors alone curve by more than 1: less means that the parabola does not hold here.
            let bend = (-(less + more) / (reach[at] * reach[at])).max(1.0);
            towards[at] = ((more - less) / (2.0 * reach[at]) / bend).clamp(-1.5, 1.5);
            wanted[at] = REACH / bend.sqrt();
            is_there &= towards[at].abs() < 0.2 * wanted[at] && (0.7..1.4).contains(&(reach[at] / wanted[at]));
        }
        if is_there || round == ROUNDS {
            return Some(Peak { best, neighbours, reach });
        }
        let there = from_best(towards)?;
        reach = wanted;
        for mode in neighbours.into_iter().flatten().chain([there]) {
            if mode.log_weight > best.log_weight {
                best = mode;
            }
        }
    }
    None
}

/// Moves noise and spread of natural coordinates.
fn moved(x: &[f64], by: [f64; OUTER]) -> Vec<f64> {
    let mut x = x.to_vec();
    x[Model::NOISE] += by[Model::NOISE];
    x[Model::SPREAD] += by[Model::SPREAD];
    x
}

/// Returns the prior means, to start from.
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
