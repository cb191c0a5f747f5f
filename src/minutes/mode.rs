//! The mode of all coordinates but noise and spread, given these, by limited-memory quasi-Newton steps.
//!
//! Steps are those of the curvature at the last mode, corrected by what the last few steps showed of the slope (Nocedal and
//! Wright, "Numerical Optimization", 2006, algorithm 7.4): a mode takes one factored curvature, its own, and not one a step.

use super::cholesky::dot;
use super::curvature::{OUTER, curvature};
use super::model::Model;
use super::sparse::{Pattern, SparseCholesky};
use std::collections::VecDeque;

/// The mode at one noise and spread, with the curvature there.
#[derive(Debug, Clone)]
pub struct Mode<'a> {
    /// Natural coordinates.
    pub at: Vec<f64>,
    /// Factor of the curvature of all but noise and spread.
    pub curvature: SparseCholesky<'a>,
    /// Log of what integrating over the others leaves (Laplace's method), up to a constant.
    pub log_weight: f64,
}

/// Steps towards a mode at most, and after how many the curvature is taken anew.
const STEPS: usize = 200;
const STALE: usize = 20;
/// Steps remembered.
const MEMORY: usize = 10;
/// The gain that a step must promise, in units of the log density.
const LEAST_GAIN: f64 = 1e-8;

/// The mode at the noise and spread of a starting point, stepping by the curvature at some mode near it; `None` where no
/// curvature can be factored.
#[must_use]
pub fn mode<'a>(model: &Model, pattern: &'a Pattern, start: Vec<f64>, near: Option<&SparseCholesky<'a>>) -> Option<Mode<'a>> {
    let mut here = Place::of(model, start);
    let mut own: Option<SparseCholesky<'a>> = None;
    let mut memory: VecDeque<Step> = VecDeque::with_capacity(MEMORY);
    for step in 0..STEPS {
        let is_stale = step % STALE == 0 && (step > 0 || near.is_none());
        if is_stale {
            own = Some(curvature(model, pattern, &here.x)?);
            memory.clear();
        }
        let by = own.as_ref().or(near)?;
        let way = quasi_newton(by, &memory, &here.gradient[OUTER..]);
        let gain = dot(&way, &here.gradient[OUTER..]);
        if gain < LEAST_GAIN {
            break;
        }
        match here.moved(model, &way, gain) {
            Some(next) => {
                memory.truncate(MEMORY - 1);
                memory.push_front(Step::between(&here, &next));
                here = next;
            }
            // What remembered steps mislead, the curvature here does not.
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

/// A step taken and how it changed the slope downwards.
struct Step {
    moved: Vec<f64>,
    bent: Vec<f64>,
    /// One over their product; nil where the density is not concave along the step.
    scale: f64,
}

impl Step {
    fn between(from: &Place, to: &Place) -> Self {
        let difference = |to: &[f64], from: &[f64]| to[OUTER..].iter().zip(&from[OUTER..]).map(|(to, from)| to - from).collect();
        let moved: Vec<f64> = difference(&to.x, &from.x);
        let bent: Vec<f64> = difference(&from.gradient, &to.gradient);
        let product = dot(&moved, &bent);
        let is_concave = product > 1e-10 * dot(&moved, &moved).sqrt() * dot(&bent, &bent).sqrt();
        Self { moved, bent, scale: if is_concave { 1.0 / product } else { 0.0 } }
    }
}

/// The step that the slope asks for: the two-loop recursion, with the curvature's inverse in the middle.
fn quasi_newton(curvature: &SparseCholesky<'_>, memory: &VecDeque<Step>, gradient: &[f64]) -> Vec<f64> {
    let mut way = gradient.to_vec();
    let add = |way: &mut [f64], factor: f64, of: &[f64]| way.iter_mut().zip(of).for_each(|(way, of)| *way += factor * of);
    let mut factors = Vec::with_capacity(memory.len());
    for Step { moved, bent, scale } in memory {
        let factor = scale * dot(moved, &way);
        add(&mut way, -factor, bent);
        factors.push(factor);
    }
    curvature.solve(&mut way);
    for (Step { moved, bent, scale }, factor) in memory.iter().zip(factors).rev() {
        let other = scale * dot(bent, &way);
        add(&mut way, factor - other, moved);
    }
    way
}

/// A point with its density and slope.
struct Place {
    x: Vec<f64>,
    gradient: Vec<f64>,
    log_density: f64,
}

impl Place {
    fn of(model: &Model, x: Vec<f64>) -> Self {
        let mut gradient = vec![0.0; x.len()];
        let log_density = model.log_density(&x, &mut gradient);
        Self { x, gradient, log_density }
    }

    /// The place after a step, or after the largest part of it that gains (Armijo's rule); `None` where none does.
    fn moved(&self, model: &Model, way: &[f64], gain: f64) -> Option<Self> {
        // Far from the mode the curvature misleads: no step is longer than 2.
        let longest = way.iter().fold(0.0_f64, |most, step| most.max(step.abs()));
        let mut length = if longest > 2.0 { 2.0 / longest } else { 1.0 };
        for _ in 0..30 {
            let mut x = self.x.clone();
            for (x, step) in x[OUTER..].iter_mut().zip(way) {
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
