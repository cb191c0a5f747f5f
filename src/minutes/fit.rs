//! Draws from a model's posterior: by four chains of the sampler, or by the approximation if the model is large or
//! the chains do not converge.

use super::approximation::Approximation;
use super::curvature::pattern;
use super::diagnostics::{ess_bulk, ess_tail, r_hat};
use super::mass_matrix::MassMatrix;
use super::model::{Model, count};
use super::nuts::{Chain, SamplerSettings, chain};
use super::random::Random;
use super::reparameterised::Reparameterised;

/// Method of drawing.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Method {
    /// The no-U-turn sampler.
    Sampled,
    /// The approximation, because there are too many orders or designs to sample.
    Approximated,
    /// The approximation, because the sampler's chains did not converge within their limit of work.
    Unsettled,
}

impl Method {
    /// Returns its name in JSON.
    #[must_use]
    pub fn word(self) -> &'static str {
        match self {
            Self::Sampled => "sampled",
            Self::Approximated => "approximated",
            Self::Unsettled => "unsettled",
        }
    }
}

/// Convergence diagnostics of the draws.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Diagnostics {
    /// Method of drawing.
    pub method: Method,
    /// Number of chains.
    pub chains: usize,
    /// Number of draws, of all chains.
    pub draws: usize,
    /// Largest R-hat of any coordinate; 1 is perfect.
    pub r_hat: f64,
    /// Smallest effective sample size of the bulk of any coordinate.
    pub ess_bulk: f64,
    /// Smallest effective sample size of the tails of any coordinate.
    pub ess_tail: f64,
    /// Divergent trajectories.
    pub divergences: usize,
    /// Whether the draws may be used.
    pub passed: bool,
    /// Every `thinning`-th observation was used; 1 unless the logs are very large.
    pub thinning: usize,
}

/// Draws of a model's posterior in natural coordinates.
#[derive(Debug, Clone)]
pub struct Posterior {
    /// The draws, chain by chain.
    pub draws: Vec<Vec<f64>>,
    /// Their convergence diagnostics.
    pub diagnostics: Diagnostics,
}

/// Number of chains: four, as Vehtari et al. (2021) advise.
const CHAINS: usize = 4;
/// Largest R-hat of chains that agree (Vehtari et al. 2021).
const MOST_R_HAT: f64 = 1.01;
/// Smallest effective sample size for quantiles: 100 a chain (Vehtari et al. 2021).
const LEAST_ESS: f64 = 400.0;
/// Largest share of divergent trajectories.
const MOST_DIVERGENCES: f64 = 0.01;
/// The seed of every fit.
const SEED: u64 = 20_240_229;

/// Settings of the first attempt.
const FIRST: SamplerSettings = SamplerSettings { warm_up: 100, kept: 500, acceptance: 0.85, gradients: usize::MAX };
/// Acceptance aimed at by further attempts: their steps are shorter, because draws of designs always sold together
/// follow a bent ridge that long steps leave.
const CLOSER: f64 = 0.95;
/// Most further attempts, each with twice as many draws.
const DOUBLINGS: u32 = 3;
/// Limit of work of a chain over all attempts, in the units of [`work`]: about half a second.
const MOST_WORK: usize = 600_000_000;

/// Most designs to sample for; past them the posterior is approximated.
const MOST_DESIGNS: usize = 100;
/// Fewest gradients a chain must be allowed; otherwise the posterior is approximated, since forty gradients a draw are
/// seldom enough where a second attempt is needed.
const FEWEST_GRADIENTS: usize = 24_000;
/// Logs with more terms than these are thinned.
const ENOUGH_TERMS: usize = 100_000;
/// Most numbers kept of all draws of an approximation, so that a thousand designs need no more memory than a hundred.
const MOST_NUMBERS: usize = 2_000_000;
/// Fewest draws of an approximation.
const FEWEST: usize = 400;

/// Draws from the posterior by the method its size allows; by the approximation, too, if the chains do not converge.
/// `None` if no mode was found.
#[must_use]
pub fn fit(model: &Model) -> Option<Posterior> {
    let gradients = MOST_WORK / work(model);
    if model.designs.len() > MOST_DESIGNS || gradients < FEWEST_GRADIENTS {
        return approximated(model);
    }
    let pattern = pattern(model);
    let approximation = Approximation::of(model, &pattern)?;
    let sampled =
        sampled_near(model, &approximation, SamplerSettings { gradients, ..FIRST }).filter(|posterior| posterior.diagnostics.passed);
    Some(sampled.unwrap_or_else(|| drawn_from(&approximation, model.size(), Method::Unsettled)))
}

/// Draws by sampling, whether the chains converge or not; `None` if no mode was found or the gradients ran out.
#[must_use]
pub fn sampled(model: &Model, first: SamplerSettings) -> Option<Posterior> {
    let pattern = pattern(model);
    sampled_near(model, &Approximation::of(model, &pattern)?, first)
}

fn sampled_near(model: &Model, approximation: &Approximation<'_>, first: SamplerSettings) -> Option<Posterior> {
    let density = Reparameterised { model, non_centred: approximation.weakly_informed() };
    let near: Vec<Vec<f64>> =
        approximation.draws(100 + 8 * model.size(), &mut Random::new(SEED, 0)).iter().map(|x| density.sampled(x)).collect();
    let mut mass_matrix = MassMatrix::of(covariance(&near), model.size())?;
    let mut posterior = None;
    let mut left = first.gradients;
    for doubling in 0..=DOUBLINGS {
        let acceptance = if doubling == 0 { first.acceptance } else { CLOSER };
        let draws = SamplerSettings { warm_up: first.warm_up << doubling, kept: first.kept << doubling, acceptance, gradients: left };
        let chains = chains(&density, &mass_matrix, &near[..CHAINS], draws);
        if chains.iter().any(|chain| chain.gave_up) {
            break;
        }
        left -= chains.iter().map(|chain| chain.gradients).max().unwrap_or_default();
        let natural = |chain: &Chain| chain.draws.iter().map(|x| density.natural(x)).collect::<Vec<_>>();
        let natural: Vec<Vec<Vec<f64>>> = chains.iter().map(natural).collect();
        let diagnostics = diagnose(&natural, chains.iter().map(|chain| chain.divergences).sum());
        posterior = Some(Posterior { draws: natural.concat(), diagnostics });
        if diagnostics.passed {
            break;
        }
        // The covariance of draws is a better mass matrix than that of the approximation.
        let found: Vec<Vec<f64>> = chains.into_iter().flat_map(|chain| chain.draws).collect();
        mass_matrix = MassMatrix::of(covariance(&found), model.size()).unwrap_or(mass_matrix);
    }
    posterior
}

/// Estimates the nanoseconds of a gradient: its product with the covariance, its terms, and a logarithm or
/// exponential for each observation and coordinate. A count, not a clock, so that the same shop has the same answer
/// everywhere.
fn work(model: &Model) -> usize {
    let size = model.size();
    size * size / 2 + 4 * model.terms.len() + 20 * model.observations() + 30 * size + 300
}

/// Returns by how much the observations are thinned: 1 unless the logs are very large.
#[must_use]
pub fn thinning(model: &Model) -> usize {
    model.terms.len().div_ceil(ENOUGH_TERMS).max(1)
}

/// Draws by approximation: draws are independent, so only their being finite is checked. Very large logs are thinned
/// evenly, which determines a design's minutes to a few hundredths and bounds the time of learning.
#[must_use]
pub fn approximated(model: &Model) -> Option<Posterior> {
    let thinning = thinning(model);
    let thinned;
    let model = if thinning == 1 {
        model
    } else {
        thinned = model.thinned(thinning);
        &thinned
    };
    let pattern = pattern(model);
    let mut posterior = drawn_from(&Approximation::of(model, &pattern)?, model.size(), Method::Approximated);
    posterior.diagnostics.thinning = thinning;
    Some(posterior)
}

fn drawn_from(approximation: &Approximation<'_>, size: usize, method: Method) -> Posterior {
    let number = (MOST_NUMBERS / size).clamp(FEWEST, CHAINS * FIRST.kept);
    let draws = approximation.draws(number, &mut Random::new(SEED, 0));
    let all = count(draws.len());
    let diagnostics = Diagnostics {
        method,
        chains: CHAINS,
        draws: draws.len(),
        r_hat: 1.0,
        ess_bulk: all,
        ess_tail: all,
        divergences: 0,
        passed: draws.iter().flatten().all(|x| x.is_finite()),
        thinning: 1,
    };
    Posterior { draws, diagnostics }
}

/// Runs chains from different starts, each with its own random stream, so that threads change nothing.
fn chains(density: &Reparameterised<'_>, mass_matrix: &MassMatrix, starts: &[Vec<f64>], draws: SamplerSettings) -> Vec<Chain> {
    std::thread::scope(|scope| {
        let running: Vec<_> = (1..)
            .zip(starts)
            .map(|(stream, start)| scope.spawn(move || chain(density, mass_matrix, start, draws, &mut Random::new(SEED, stream))))
            .collect();
        running.into_iter().map(|chain| chain.join().unwrap_or_else(|panic| std::panic::resume_unwind(panic))).collect()
    })
}

/// Computes the diagnostics of each coordinate and keeps the worst.
fn diagnose(chains: &[Vec<Vec<f64>>], divergences: usize) -> Diagnostics {
    let draws: usize = chains.iter().map(Vec::len).sum();
    let size = chains.iter().flatten().next().map_or(0, Vec::len);
    let mut worst = Diagnostics {
        method: Method::Sampled,
        chains: chains.len(),
        draws,
        r_hat: 1.0,
        ess_bulk: f64::INFINITY,
        ess_tail: f64::INFINITY,
        divergences,
        passed: false,
        thinning: 1,
    };
    let mut sound = draws > 0;
    for at in 0..size {
        let of: Vec<Vec<f64>> = chains.iter().map(|chain| chain.iter().map(|x| x[at]).collect()).collect();
        let (r_hat, bulk, tail) = (r_hat(&of), ess_bulk(&of), ess_tail(&of));
        sound &= r_hat.is_finite() && bulk.is_finite() && tail.is_finite();
        worst.r_hat = worst.r_hat.max(r_hat);
        worst.ess_bulk = worst.ess_bulk.min(bulk);
        worst.ess_tail = worst.ess_tail.min(tail);
    }
    worst.passed = sound
        && worst.r_hat <= MOST_R_HAT
        && worst.ess_bulk.min(worst.ess_tail) >= LEAST_ESS
        && count(divergences) <= MOST_DIVERGENCES * count(draws);
    worst
}

/// Computes the sample covariance, shrunk a little towards its diagonal so that it can be inverted.
fn covariance(draws: &[Vec<f64>]) -> Vec<f64> {
    let size = draws.first().map_or(0, Vec::len);
    let number = count(draws.len());
    let means: Vec<f64> = (0..size).map(|at| draws.iter().map(|x| x[at]).sum::<f64>() / number).collect();
    let mut covariance = vec![0.0; size * size];
    for x in draws {
        for row in 0..size {
            let off = x[row] - means[row];
            for column in 0..=row {
                covariance[row * size + column] += off * (x[column] - means[column]);
            }
        }
    }
    for row in 0..size {
        for column in 0..=row {
            let value = covariance[row * size + column] / (number - 1.0) * if row == column { 1.0 + 1e-9 } else { 0.98 };
            covariance[row * size + column] = value;
            covariance[column * size + row] = value;
        }
    }
    covariance
}
