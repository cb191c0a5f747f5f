//! Finds the mode of all coordinates except noise and spread, given these, by limited-memory quasi-Newton steps.
//!
//! Steps use the curvature at an earlier mode, corrected by how the last few steps changed the gradient (Nocedal and
//! Wright, "Numerical Optimization", 2006, algorithm 7.4): a mode needs one factored curvature, its own, not one per
//! step.

use super::cholesky::dot;
use super::curvature::{OUTER, curvature};
use super::model::Model;
use super::pattern::Pattern;
use super::sparse::SparseCholesky;
use std::collections::VecDeque;

/// A mode given noise and spread, with the curvature there.
#[derive(Debug, Clone)]
pub(crate) struct Mode<'a> {
    /// Natural coordinates.
    pub at: Vec<f64>,
    /// Factor of the curvature of all coordinates except noise and spread.
    pub curvature: SparseCholesky<'a>,
    /// Log of the integral over the other coordinates (Laplace's method), up to a constant.
    pub log_weight: f64,
}

/// Most steps towards a mode.
const MAX_STEPS: usize = 200;
/// Steps after which the curvature is computed again.
const STALE: usize = 20;
/// Number of remembered steps.
const MEMORY: usize = 10;
/// Least predicted gain of a step, in units of the log density.
const LEAST_GAIN: f64 = 1e-8;

/// Finds the mode at the noise and spread of a starting point, stepping by the curvature at a mode near it. `None` if
/// no curvature can be factored.
#[must_use]
pub fn mode<'a>(model: &Model, pattern: &'a Pattern, start: Vec<f64>, near: Option<&SparseCholesky<'a>>) -> Option<Mode<'a>> {
    let mut here = Point::of(model, start);
    let mut own: Option<SparseCholesky<'a>> = None;
    let mut memory: VecDeque<Step> = VecDeque::with_capacity(MEMORY);
    for step in 0..MAX_STEPS {
        let is_stale = step % STALE == 0 && (step > 0 || near.is_none());
        if is_stale {
            own = Some(curvature(model, pattern, &here.x)?);
            memory.clear();
        }
        let by = own.as_ref().or(near)?;
        let direction = quasi_newton(by, &memory, &here.gradient[OUTER..]);
        let gain = dot(&direction, &here.gradient[OUTER..]);
        if gain < LEAST_GAIN {
            break;
        }
        match here.moved(model, &direction, gain) {
            Some(next) => {
                memory.truncate(MEMORY - 1);
                memory.push_front(Step::between(&here, &next));
                here = next;
            }
            // Remembered steps can mislead; the curvature here does not.
            None if own.is_none() || !memory.is_empty() => {
                own = Some(curvature(model, pattern, &here.x)?);
                memory.clear();
            }
            None => break,
        }
    }
    let curvature = curvature(model, pattern, &here.x)?;
    let log_weight = here.log_density - 0.5 * curvature.log_determinant();
    log_weight.is_finite().then_some(Mode { at: here.x, curvature, log_weight })
}

/// A step and how much it lowered the gradient.
struct Step {
    moved: Vec<f64>,
    gradient_change: Vec<f64>,
    /// One over their product; zero where the density is not concave along the step.
    scale: f64,
}

impl Step {
    fn between(from: &Point, to: &Point) -> Self {
        let difference = |to: &[f64], from: &[f64]| to[OUTER..].iter().zip(&from[OUTER..]).map(|(to, from)| to - from).collect();
        let moved: Vec<f64> = difference(&to.x, &from.x);
        let gradient_change: Vec<f64> = difference(&from.gradient, &to.gradient);
        let product = dot(&moved, &gradient_change);
        let is_concave = product > 1e-10 * dot(&moved, &moved).sqrt() * dot(&gradient_change, &gradient_change).sqrt();
        Self { moved, gradient_change, scale: if is_concave { 1.0 / product } else { 0.0 } }
    }
}

/// Computes the quasi-Newton step: the two-loop recursion with the inverse curvature in the middle.
fn quasi_newton(curvature: &SparseCholesky<'_>, memory: &VecDeque<Step>, gradient: &[f64]) -> Vec<f64> {
    let mut direction = gradient.to_vec();
    let add =
        |direction: &mut [f64], factor: f64, of: &[f64]| direction.iter_mut().zip(of).for_each(|(direction, of)| *direction += factor * of);
    let mut factors = Vec::with_capacity(memory.len());
    for Step { moved, gradient_change, scale } in memory {
        let factor = scale * dot(moved, &direction);
        add(&mut direction, -factor, gradient_change);
        factors.push(factor);
    }
    curvature.solve(&mut direction);
    for (Step { moved, gradient_change, scale }, factor) in memory.iter().zip(factors).rev() {
        let other = scale * dot(gradient_change, &direction);
        add(&mut direction, factor - other, moved);
    }
    direction
}

/// A point with its density and gradient.
struct Point {
    x: Vec<f64>,
    gradient: Vec<f64>,
    log_density: f64,
}

impl Point {
    fn of(model: &Model, x: Vec<f64>) -> Self {
        let mut gradient = vec![0.0; x.len()];
        let log_density = model.log_density(&x, &mut gradient);
        Self { x, gradient, log_density }
    }

    /// Moves along a step, halving it until the density gains (Armijo's rule); `None` if no part of it gains.
    fn moved(&self, model: &Model, direction: &[f64], gain: f64) -> Option<Self> {
        // Far from the mode the curvature misleads: no step is longer than 2.
        let longest = direction.iter().fold(0.0_f64, |most, step| most.max(step.abs()));
        let mut length = if longest > 2.0 { 2.0 / longest } else { 1.0 };
        for _ in 0..30 {
            let mut x = self.x.clone();
            for (x, step) in x[OUTER..].iter_mut().zip(direction) {
                *x += length * step;
            }
            let next = Self::of(model, x);
            if next.log_density >= self.log_density + 1e-4 * length * gain {
                return Some(next);
            }
            length *= 0.5;
        }
        None
    }
}
