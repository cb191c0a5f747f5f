//! Finds what to time next: the design whose timing would narrow prices most.
//!
//! Expected value of sample information (Raiffa and Schlaifer, "Applied Statistical Decision Theory", 1961): for one
//! posterior draw after another as the truth, a timing of the design is simulated, all draws are weighted by how well
//! they fit it, and the intervals of all designs' minutes are computed from the weighted draws.

use super::learned::Learned;
use super::model::{DEGREES_OF_FREEDOM, count};
use super::random::Random;
use crate::ids::{Design, Id};

/// The expected effect of timing one design.
#[derive(Debug, Clone, PartialEq)]
pub struct Timing {
    /// The design.
    pub design: Id<Design>,
    /// Pieces of the batch to time: as in a usual order.
    pub pieces: f64,
    /// Minutes by which the 90 % intervals of all designs' minutes would narrow, each times its pieces sold.
    pub narrowing: f64,
    /// Width of the design's own 90 % interval now, and as expected afterwards.
    pub own: (f64, f64),
}

/// Most draws weighted.
const DRAWS: usize = 400;
/// Simulated timings per design.
const TIMINGS: usize = 40;
/// Most designs whose timing is simulated, those of the widest intervals first.
const TRIED: usize = 24;
/// Most designs whose intervals are computed, the widest first: a timing says little of the others.
const SHOWN: usize = 200;
/// The seed of the simulated timings.
const SEED: u64 = 41;

/// A design that might be timed.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Candidate {
    /// The design.
    pub design: Id<Design>,
    /// Pieces of it in a usual order.
    pub batch: f64,
    /// Pieces sold in the season that prices are set by.
    pub sold: f64,
}

/// Computes the effect of timing each design once, the largest first. If there are many, only the designs with the
/// widest intervals are tried.
#[must_use]
pub fn timings(learned: &Learned, candidates: &[Candidate]) -> Vec<Timing> {
    let step = (learned.draws.len() / DRAWS).max(1);
    let draws: Vec<_> = learned.draws.iter().step_by(step).take(DRAWS).collect();
    let sorted: Vec<Sorted> =
        candidates.iter().map(|candidate| Sorted::of(draws.iter().map(|draw| draw.each[candidate.design]).collect())).collect();
    let even = vec![1.0; draws.len()];
    let now: Vec<f64> = sorted.iter().map(|sorted| sorted.width(&even)).collect();
    let mut shown: Vec<usize> = (0..candidates.len()).collect();
    shown.sort_by(|one, other| (now[*other] * candidates[*other].sold).total_cmp(&(now[*one] * candidates[*one].sold)));
    shown.truncate(SHOWN);
    let tried: Vec<usize> = shown.iter().copied().filter(|at| candidates[*at].batch > 0.0).take(TRIED).collect();
    // In the order of the designs, since float sums depend on their order.
    shown.sort_unstable();
    let mut timings: Vec<Timing> = tried
        .into_iter()
        .map(|at| {
            let candidate = candidates[at];
            let mut random = Random::new(SEED, u64::from(candidate.design.number()));
            let of = |draw: usize| draws[draw].each[candidate.design];
            let (mut narrowing, mut after) = (0.0, 0.0);
            for timing in 0..TIMINGS {
                let truth = timing * draws.len() / TIMINGS;
                let seen = libm::log(of(truth)) + draws[truth].noise * random.student(4);
                let weights: Vec<f64> = (0..draws.len())
                    .map(|draw| {
                        let off = (seen - libm::log(of(draw))) / draws[draw].noise;
                        let fit = 1.0 + off * off / DEGREES_OF_FREEDOM;
                        // The power −5/2 is that of Student's density with four degrees of freedom.
                        1.0 / (draws[draw].noise * fit * fit * fit.sqrt())
                    })
                    .collect();
                for &other in &shown {
                    let width = sorted[other].width(&weights);
                    narrowing += candidates[other].sold * (now[other] - width);
                    after += if other == at { width } else { 0.0 };
                }
            }
            let mean = |sum: f64| sum / count(TIMINGS);
            Timing { design: candidate.design, pieces: candidate.batch, narrowing: mean(narrowing), own: (now[at], mean(after)) }
        })
        .collect();
    timings.sort_by(|one, other| other.narrowing.total_cmp(&one.narrowing).then(one.design.cmp(&other.design)));
    timings
}

/// A figure's draws in ascending order, each with its draw's index.
struct Sorted(Vec<(f64, usize)>);

impl Sorted {
    fn of(values: Vec<f64>) -> Self {
        let mut sorted: Vec<(f64, usize)> = values.into_iter().zip(0..).collect();
        sorted.sort_unstable_by(|one, other| one.0.total_cmp(&other.0).then(one.1.cmp(&other.1)));
        Self(sorted)
    }

    /// Computes the width of the 90 % interval under weights by draw.
    fn width(&self, weights: &[f64]) -> f64 {
        let total: f64 = weights.iter().sum();
        let (mut passed, mut low, mut high) = (0.0, None, 0.0);
        for (value, draw) in &self.0 {
            passed += weights[*draw];
            if low.is_none() && passed >= 0.05 * total {
                low = Some(*value);
            }
            high = *value;
            if passed >= 0.95 * total {
                break;
            }
        }
        high - low.unwrap_or(high)
    }
}
