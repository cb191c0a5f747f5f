//! The no-U-turn sampler: Hamiltonian trajectories that stop where they would turn back.
//!
//! Hoffman and Gelman, "The No-U-Turn Sampler" (JMLR 15, 2014), with multinomial sampling along the trajectory and
//! the turning test on summed momenta of Betancourt, "A Conceptual Introduction to Hamiltonian Monte Carlo"
//! (arXiv:1701.02434); the step size is tuned by their dual averaging. Every sum runs in one fixed order and
//! logarithms are plain Rust, so a chain is the same bits on any machine.

use super::cholesky::dot;
use super::mass_matrix::MassMatrix;
use super::random::Random;

/// A density over vectors of reals.
pub trait Density: Sync {
    /// Returns the number of coordinates.
    fn size(&self) -> usize;
    /// Computes the log density at `x`, up to a constant, and writes its gradient into `gradient`.
    fn log_density(&self, x: &[f64], gradient: &mut [f64]) -> f64;
}

/// Settings of the sampler.
#[derive(Debug, Clone, Copy)]
pub struct SamplerSettings {
    /// Warm-up draws, which tune the step size and are discarded.
    pub warm_up: usize,
    /// Draws kept.
    pub kept: usize,
    /// Mean acceptance that the step size is tuned to: the nearer to 1, the shorter the steps.
    pub acceptance: f64,
    /// Limit of gradients. A chain that exceeds it, or would by the pace of its warm-up, gives up.
    pub gradients: usize,
}

/// The result of a chain.
#[derive(Debug, Clone, Default)]
pub struct Chain {
    /// Its draws, in order.
    pub draws: Vec<Vec<f64>>,
    /// Divergent trajectories: the density is too sharp there for the step.
    pub divergences: usize,
    /// Gradients computed.
    pub gradients: usize,
    /// Whether it gave up at its limit of gradients.
    pub gave_up: bool,
}

/// Loss of energy past which a trajectory has diverged.
const MAX_ENERGY_LOSS: f64 = 1000.0;
/// Most doublings of a trajectory.
const MAX_DEPTH: usize = 10;

/// Runs one chain from a starting point.
#[must_use]
pub fn chain(density: &impl Density, mass_matrix: &MassMatrix, start: &[f64], draws: SamplerSettings, random: &mut Random) -> Chain {
    let mut sampler = Sampler { density, mass_matrix, step: 1.0, random, chain: Chain::default() };
    let mut here = sampler.point(start.to_vec());
    sampler.step = sampler.first_step(&here);
    let mut tuning = DualAveraging::new(sampler.step, draws.acceptance);
    for _ in 0..draws.warm_up {
        let (next, acceptance, _) = sampler.transition(&here);
        here = next;
        sampler.step = tuning.next(acceptance);
        if sampler.chain.gradients > draws.gradients {
            return sampler.given_up();
        }
    }
    if let Some(to_come) = sampler.chain.gradients.saturating_mul(draws.kept).checked_div(draws.warm_up) {
        sampler.step = tuning.settled();
        if sampler.chain.gradients.saturating_add(to_come) > draws.gradients {
            return sampler.given_up();
        }
    }
    for _ in 0..draws.kept {
        let (next, _, diverged) = sampler.transition(&here);
        here = next;
        sampler.chain.divergences += usize::from(diverged);
        sampler.chain.draws.push(here.x.clone());
        if sampler.chain.gradients > draws.gradients {
            return sampler.given_up();
        }
    }
    sampler.chain
}

/// A position with its gradient and density, and the momentum there.
#[derive(Debug, Clone)]
struct Point {
    x: Vec<f64>,
    gradient: Vec<f64>,
    /// The gradient's contribution to the velocity per unit of time.
    acceleration: Vec<f64>,
    log_density: f64,
    momentum: Vec<f64>,
    velocity: Vec<f64>,
}

impl Point {
    /// Returns minus the total energy.
    fn log_joint(&self) -> f64 {
        self.log_density - 0.5 * dot(&self.momentum, &self.velocity)
    }
}

/// A stretch of trajectory.
struct Trajectory {
    /// Its earliest and latest points.
    ends: [Point; 2],
    /// The point sampled from it.
    chosen: Point,
    /// Log of the summed weights of its points.
    log_weight: f64,
    /// Sum of its momenta.
    momentum: Vec<f64>,
}

struct Sampler<'a, D> {
    density: &'a D,
    mass_matrix: &'a MassMatrix,
    step: f64,
    random: &'a mut Random,
    chain: Chain,
}

/// Statistics of a trajectory.
#[derive(Default)]
struct Statistics {
    acceptance: f64,
    points: f64,
    diverged: bool,
}

impl<D: Density> Sampler<'_, D> {
    fn given_up(self) -> Chain {
        Chain { gave_up: true, ..self.chain }
    }

    /// Evaluates a position, at rest.
    fn point(&mut self, x: Vec<f64>) -> Point {
        let mut gradient = vec![0.0; x.len()];
        let log_density = self.density.log_density(&x, &mut gradient);
        self.chain.gradients += 1;
        let acceleration = self.mass_matrix.velocity(&gradient);
        Point { momentum: vec![0.0; x.len()], velocity: vec![0.0; x.len()], x, gradient, acceleration, log_density }
    }

    /// Takes one leapfrog step, forward or back.
    fn leapfrog(&mut self, from: &Point, step: f64) -> Point {
        // Velocity is linear in momentum, so one product with the covariance per point, that of its gradient, is
        // enough.
        let (mut momentum, mut velocity) = (from.momentum.clone(), from.velocity.clone());
        add(&mut momentum, 0.5 * step, &from.gradient);
        add(&mut velocity, 0.5 * step, &from.acceleration);
        let mut x = from.x.clone();
        add(&mut x, step, &velocity);
        let mut point = self.point(x);
        add(&mut momentum, 0.5 * step, &point.gradient);
        add(&mut velocity, 0.5 * step, &point.acceleration);
        (point.momentum, point.velocity) = (momentum, velocity);
        point
    }

    fn with_momentum(&mut self, here: &Point) -> Point {
        let mut point = here.clone();
        point.momentum = self.mass_matrix.momentum(self.random);
        point.velocity = self.mass_matrix.velocity(&point.momentum);
        point
    }

    /// Doubles or halves the step until one leapfrog step is accepted about eight times in ten.
    fn first_step(&mut self, here: &Point) -> f64 {
        let mut grows = None;
        for _ in 0..50 {
            let from = self.with_momentum(here);
            let to = self.leapfrog(&from, self.step);
            let is_easy = to.log_joint() - from.log_joint() > libm::log(0.8);
            if *grows.get_or_insert(is_easy) != is_easy {
                break;
            }
            self.step *= if is_easy { 2.0 } else { 0.5 };
        }
        self.step
    }

    /// Returns the next draw, the mean acceptance along its trajectory, and whether the trajectory diverged.
    fn transition(&mut self, here: &Point) -> (Point, f64, bool) {
        let start = self.with_momentum(here);
        let energy = start.log_joint();
        let momentum = start.momentum.clone();
        let mut trajectory = Trajectory { ends: [start.clone(), start.clone()], chosen: start, log_weight: 0.0, momentum };
        let mut statistics = Statistics::default();
        for depth in 0..MAX_DEPTH {
            let forward = self.random.uniform() < 0.5;
            let side = usize::from(forward);
            let from = trajectory.ends[side].clone();
            let Some(more) = self.extended(&from, depth, forward, energy, &mut statistics) else { break };
            // Biased towards the new half, where it weighs more.
            if libm::log(self.random.uniform()) < more.log_weight - trajectory.log_weight {
                trajectory.chosen = more.chosen.clone();
            }
            let turned = turns(&trajectory, &more, forward);
            trajectory = joined(trajectory, more, forward, None);
            if turned {
                break;
            }
        }
        (trajectory.chosen, if statistics.points > 0.0 { statistics.acceptance / statistics.points } else { 0.0 }, statistics.diverged)
    }

    /// Extends a trajectory by 2^depth points; `None` if it turned back or diverged.
    fn extended(&mut self, from: &Point, depth: usize, forward: bool, energy: f64, statistics: &mut Statistics) -> Option<Trajectory> {
        if depth == 0 {
            let point = self.leapfrog(from, if forward { self.step } else { -self.step });
            let gain = point.log_joint() - energy;
            let gain = if gain.is_nan() { f64::NEG_INFINITY } else { gain };
            statistics.points += 1.0;
            statistics.acceptance += libm::exp(gain.min(0.0));
            if gain < -MAX_ENERGY_LOSS {
                statistics.diverged = true;
                return None;
            }
            let momentum = point.momentum.clone();
            return Some(Trajectory { ends: [point.clone(), point.clone()], chosen: point, log_weight: gain, momentum });
        }
        let first = self.extended(from, depth - 1, forward, energy, statistics)?;
        let outer = first.ends[usize::from(forward)].clone();
        let second = self.extended(&outer, depth - 1, forward, energy, statistics)?;
        let turned = turns(&first, &second, forward);
        let log_weight = log_sum(first.log_weight, second.log_weight);
        let take_second = libm::log(self.random.uniform()) < second.log_weight - log_weight;
        let chosen = if take_second { second.chosen.clone() } else { first.chosen.clone() };
        (!turned).then(|| joined(first, second, forward, Some(chosen)))
    }
}

/// Joins two stretches, of which the second follows the first.
fn joined(first: Trajectory, second: Trajectory, forward: bool, chosen: Option<Point>) -> Trajectory {
    let log_weight = log_sum(first.log_weight, second.log_weight);
    let mut momentum = first.momentum;
    add(&mut momentum, 1.0, &second.momentum);
    let ([first_early, first_late], [second_early, second_late]) = (first.ends, second.ends);
    let ends = if forward { [first_early, second_late] } else { [second_early, first_late] };
    Trajectory { ends, chosen: chosen.unwrap_or(first.chosen), log_weight, momentum }
}

/// Whether the trajectory over two stretches turns back: over all of it, and over each stretch with the nearest point
/// of the other, which catches turns that fall between.
fn turns(first: &Trajectory, second: &Trajectory, forward: bool) -> bool {
    let (early, late) = if forward { (first, second) } else { (second, first) };
    let back = |momentum: &[f64], from: &Point, to: &Point| dot(momentum, &from.velocity) <= 0.0 || dot(momentum, &to.velocity) <= 0.0;
    let with = |trajectory: &Trajectory, point: &Point| {
        let mut momentum = trajectory.momentum.clone();
        add(&mut momentum, 1.0, &point.momentum);
        momentum
    };
    let mut whole = early.momentum.clone();
    add(&mut whole, 1.0, &late.momentum);
    back(&whole, &early.ends[0], &late.ends[1])
        || back(&with(early, &late.ends[0]), &early.ends[0], &late.ends[0])
        || back(&with(late, &early.ends[1]), &early.ends[1], &late.ends[1])
}

/// The step size by dual averaging (Hoffman and Gelman 2014, section 3.2, with their constants).
struct DualAveraging {
    target: f64,
    wanted: f64,
    error: f64,
    log_mean: f64,
    count: f64,
}

impl DualAveraging {
    fn new(step: f64, wanted: f64) -> Self {
        Self { wanted, target: libm::log(10.0 * step), error: 0.0, log_mean: 0.0, count: 0.0 }
    }

    fn next(&mut self, acceptance: f64) -> f64 {
        self.count += 1.0;
        let share = 1.0 / (self.count + 10.0);
        self.error = (1.0 - share) * self.error + share * (self.wanted - acceptance);
        let log_step = self.target - self.count.sqrt() / 0.05 * self.error;
        let share = libm::exp(-0.75 * libm::log(self.count));
        self.log_mean = share * log_step + (1.0 - share) * self.log_mean;
        libm::exp(log_step)
    }

    fn settled(&self) -> f64 {
        libm::exp(self.log_mean)
    }
}

#[inline]
fn add(to: &mut [f64], factor: f64, other: &[f64]) {
    for (to, other) in to.iter_mut().zip(other) {
        *to += factor * other;
    }
}

fn log_sum(one: f64, other: f64) -> f64 {
    let (less, more) = if one < other { (one, other) } else { (other, one) };
    if less == f64::NEG_INFINITY { more } else { more + libm::log1p(libm::exp(less - more)) }
}
