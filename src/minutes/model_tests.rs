//! Gradients and coordinates of the model, against finite differences.

use super::model::{Centre, Model, Normal, count};
use super::nuts::Density;
use super::random::Random;
use super::reparameterised::Reparameterised;

/// A model with every kind of coordinate and observation.
fn full() -> Model {
    let mut model = Model {
        spread: Some(Normal { mean: -1.2, spread: 0.5 }),
        noise: Some(Normal { mean: -1.4, spread: 0.5 }),
        trend: Some(Normal { mean: 0.0, spread: 0.3 }),
        levels: vec![Normal { mean: -3.0, spread: 1.0 }, Normal { mean: 0.0, spread: 0.3 }],
        parts: vec![0.15, 0.03],
        designs: vec![Centre { level: 0, offset: 0.0 }, Centre { level: 0, offset: 0.0 }, Centre { level: 1, offset: -2.5 }],
        ..Model::default()
    };
    model.observe(1.0, -0.4, [(0, 1.0), (1, 4.0), (2, 12.0), (4, 3.0)]);
    model.observe(0.7, 0.1, [(0, 1.0), (1, 5.0), (3, 10.0)]);
    model.observe(9.0, 0.3, [(0, 2.0), (2, 6.0), (3, 6.0), (4, 6.0)]);
    model.observe(0.2, 0.0, [(4, 2.0)]);
    model
}

/// Central differences with two steps, extrapolated: errors of the fourth order.
fn slope(of: &impl Density, x: &[f64], at: usize) -> f64 {
    let value = |step: f64| {
        let mut moved = x.to_vec();
        moved[at] += step;
        of.log_density(&moved, &mut vec![0.0; x.len()])
    };
    let central = |step: f64| (value(step) - value(-step)) / (2.0 * step);
    (4.0 * central(1e-4) - central(2e-4)) / 3.0
}

#[test]
fn gradients_agree_with_finite_differences_in_both_coordinates() {
    let model = full();
    let mut random = Random::new(7, 0);
    for non_centred in [vec![false; 3], vec![true; 3], vec![true, false, true]] {
        let sampled = Reparameterised { model: &model, non_centred };
        for _ in 0..20 {
            let x: Vec<f64> = (0..model.size()).map(|_| random.normal()).collect();
            let mut gradient = vec![0.0; x.len()];
            sampled.log_density(&x, &mut gradient);
            for (at, gradient) in gradient.iter().enumerate() {
                let expected = slope(&sampled, &x, at);
                assert!((gradient - expected).abs() <= 1e-6 * expected.abs().max(1.0), "{at}: {gradient} {expected}");
            }
        }
    }
}

#[test]
fn slopes_and_bends_of_unknowns_agree_with_finite_differences() {
    let model = full();
    let x: Vec<f64> = (0..model.size()).map(|at| 0.3 - 0.17 * count(at)).collect();
    for unknown in 0..model.parts.len() + model.designs.len() {
        let at = |step: f64| {
            let mut moved = x.clone();
            moved[model.parts_at() + unknown] += step;
            model.unknowns(&moved)[unknown]
        };
        let (left, here, right) = (at(-1e-5), at(0.0), at(1e-5));
        let bend = model.second_derivative(unknown, &x, here);
        assert!(((right.0 - left.0) / 2e-5 / here.1 - 1.0).abs() < 1e-6, "{unknown}");
        assert!(((right.1 - left.1) / 2e-5 / bend - 1.0).abs() < 1e-5, "{unknown}: {bend}");
    }
}

#[test]
fn coordinates_go_there_and_back_and_differ_in_density_by_the_change_of_volume() {
    let model = full();
    let sampled = Reparameterised { model: &model, non_centred: vec![true, false, true] };
    let natural: Vec<f64> = (0..model.size()).map(|at| -0.1 * count(at)).collect();
    let there = sampled.sampled(&natural);
    assert!(sampled.natural(&there).iter().zip(&natural).all(|(back, x)| (back - x).abs() < 1e-12));
    let mut gradient = vec![0.0; natural.len()];
    let difference = sampled.log_density(&there, &mut gradient) - model.log_density(&natural, &mut gradient);
    assert!((difference - 2.0 * natural[Model::SPREAD]).abs() < 1e-12);
}
