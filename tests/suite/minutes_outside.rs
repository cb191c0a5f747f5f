//! The learned minutes against what stands outside the project: a posterior known by quadrature, certified
//! regressions, and another implementation of the same model.

use crate::harness::repository;
use crate::published::table;
use fairdozen::minutes::diagnostics::{ess_bulk, r_hat};
use fairdozen::minutes::fit::{fit, sampled};
use fairdozen::minutes::learned::{Draw, Learned};
use fairdozen::minutes::mass_matrix::MassMatrix;
use fairdozen::minutes::model::{Centre, Model, Normal, count};
use fairdozen::minutes::nuts::{Chain, Density, SamplerSettings, chain};
use fairdozen::minutes::observations::{Covers, Design, Group, Observations, Timed};
use fairdozen::minutes::priors::prepare;
use fairdozen::minutes::random::Random;
use fairdozen::minutes::reparameterised::Reparameterised;
use fairdozen::shop::Shop;
use fairdozen::shop::load::{Folder, Skipped};
use serde_json::Value;
use std::collections::BTreeMap;

/// Eight schools (Rubin 1981; Gelman et al., *Bayesian Data Analysis*): `mu ~ Normal(0, 5)`, `tau ~ half-Cauchy(0, 5)`,
/// over standard scores of the schools and the log of tau.
struct EightSchools;

const EFFECTS: [f64; 8] = [28.0, 8.0, -3.0, 7.0, -1.0, 1.0, 18.0, 12.0];
const ERRORS: [f64; 8] = [15.0, 10.0, 16.0, 11.0, 9.0, 11.0, 10.0, 18.0];

impl Density for EightSchools {
    fn size(&self) -> usize {
        10
    }

    fn log_density(&self, x: &[f64], gradient: &mut [f64]) -> f64 {
        let (mu, tau) = (x[0], libm::exp(x[1]));
        let square = tau * tau / 25.0;
        let mut total = -0.5 * mu * mu / 25.0 - libm::log(1.0 + square) + x[1];
        gradient.fill(0.0);
        gradient[0] = -mu / 25.0;
        gradient[1] = 1.0 - 2.0 * square / (1.0 + square);
        for school in 0..8 {
            let z = x[2 + school];
            let off = (EFFECTS[school] - mu - tau * z) / ERRORS[school];
            total -= 0.5 * (z * z + off * off);
            let slope = off / ERRORS[school];
            gradient[0] += slope;
            gradient[1] += slope * tau * z;
            gradient[2 + school] = slope * tau - z;
        }
        total
    }
}

/// Means by one-dimensional quadrature over tau, recomputed with scipy 1.17.1: of mu, tau and each school; and two
/// standard deviations.
const MEANS: [f64; 10] = [4.396_821, 3.597_705, 6.211_884, 4.940_178, 3.927_004, 4.757_098, 3.615_477, 4.042_613, 6.296_724, 4.854_253];
const SPREADS: [f64; 2] = [3.317_704, 3.219_958];

#[test]
fn the_sampler_finds_the_known_posterior_of_eight_schools() {
    let mut unit = vec![0.0; 100];
    for at in 0..10 {
        unit[at * 11] = if at == 0 { 10.0 } else { 1.0 };
    }
    let mass_matrix = MassMatrix::of(unit, 10).unwrap();
    let chains: Vec<Chain> = (0..4)
        .map(|stream| {
            let mut random = Random::new(5, stream);
            let start: Vec<f64> = (0..10).map(|_| random.normal()).collect();
            chain(
                &EightSchools,
                &mass_matrix,
                &start,
                SamplerSettings { warm_up: 1000, kept: 5000, acceptance: 0.85, gradients: usize::MAX },
                &mut random,
            )
        })
        .collect();
    assert!(chains.iter().map(|chain| chain.divergences).sum::<usize>() < 20);
    let figure = |at: usize, x: &[f64]| match at {
        0 => x[0],
        1 => libm::exp(x[1]),
        school => x[0] + libm::exp(x[1]) * x[school],
    };
    for (at, known) in MEANS.into_iter().enumerate() {
        let draws: Vec<Vec<f64>> = chains.iter().map(|chain| chain.draws.iter().map(|x| figure(at, x)).collect()).collect();
        let (mean, spread) = mean_and_spread(&draws.concat());
        let error = spread / ess_bulk(&draws).sqrt();
        assert!(r_hat(&draws) < 1.01, "{at}: {}", r_hat(&draws));
        assert!((mean - known).abs() < 4.0 * error, "{at}: {mean} ± {error}, known {known}");
        assert!(error < 0.1, "{at}: {error} would hide a difference");
        if let Some(known) = SPREADS.get(at) {
            assert!((spread / known - 1.0).abs() < 0.06, "{at}: {spread}, known {known}");
        }
    }
}

fn mean_and_spread(draws: &[f64]) -> (f64, f64) {
    let mean = draws.iter().sum::<f64>() / count(draws.len());
    let variance = draws.iter().map(|x| (x - mean) * (x - mean)).sum::<f64>() / (count(draws.len()) - 1.0);
    (mean, variance.sqrt())
}

/// One coordinate of a posterior, in minutes.
fn minutes(observations: &Observations, design: usize) -> (f64, f64) {
    let prepared = prepare(observations, false).unwrap();
    let posterior = fit(&prepared.model).unwrap();
    assert!(posterior.diagnostics.passed, "{:?}", posterior.diagnostics);
    let at = prepared.model.designs_at() + design;
    mean_and_spread(&posterior.draws.iter().map(|x| libm::exp(x[at]) * prepared.unit).collect::<Vec<f64>>())
}

/// NIST Statistical Reference Datasets, `NoInt1`: one slope through the origin, certified with its standard deviation. A
/// design timed on its own is that regression, but for the noise being a share: the points lie so close together in x
/// that both weigh them alike.
#[test]
fn timings_alone_are_a_certified_regression_through_the_origin() {
    let points = table("strd_data.csv").into_iter().filter(|row| row["dataset"] == "NoInt1");
    let number = |text: &str| text.parse::<f64>().unwrap();
    let timed = points.map(|row| Timed { design: 0, pieces: number(&row["x1"]), minutes: number(&row["y"]), years: 0.0 });
    let observations = Observations { designs: vec![Design::default()], timed: timed.collect(), ..Observations::default() };
    let certified = table("strd_certified.csv").into_iter().find(|row| row["dataset"] == "NoInt1" && row["parameter"] == "B1").unwrap();
    let (mean, _) = minutes(&observations, 0);
    let (slope, error) = (number(&certified["estimate"]), number(&certified["std_dev_of_estimate"]));
    assert_eq!(observations.timed.len(), 11);
    assert!((mean - slope).abs() < 0.5 * error, "{mean}, certified {slope} ± {error}");
}

/// Non-negative least squares without noise, 24 weeks of four products (`own_clean_24x4`, solved in exact fractions; scipy
/// 1.17.1 agrees to 1e-14): the answer must be found, with little doubt left. A product of no minutes cannot be had, for
/// minutes are positive: it must come out as next to nothing.
#[test]
fn orders_without_noise_give_the_exact_answer_of_least_squares() {
    let number = |text: &str| text.parse::<f64>().unwrap();
    let mut observations =
        Observations { designs: (0..4).map(|at| Design { tier: Some(at), card: None }).collect(), ..Observations::default() };
    for row in table("nnls_matrix.csv").into_iter().filter(|row| row["case_id"] == "own_clean_24x4") {
        let pieces = (0..4).map(|at| (at, number(&row[&format!("a{}", at + 1)])));
        observations.groups.push(Group {
            minutes: number(&row["b"]),
            covers: Covers::Decorating,
            orders: 1.0,
            colours: 0.0,
            pieces: pieces.collect(),
            years: 0.0,
            named: Vec::new(),
        });
    }
    assert_eq!(observations.groups.len(), 24);
    let expected = table("nnls_expected.csv").into_iter().find(|row| row["case_id"] == "own_clean_24x4").unwrap();
    let exact: Vec<f64> = expected["exact_x"].split(' ').map(number).collect();
    for (design, exact) in exact.into_iter().enumerate() {
        let (mean, spread) = minutes(&observations, design);
        let off = (mean - exact).abs();
        assert!(spread < 0.3 && off < if exact > 0.0 { 2.0 * spread } else { 0.3 }, "{design}: {mean} ± {spread}, exact {exact}");
    }
}

fn demo() -> (Shop, Learned, Value) {
    let shop = Folder::open(&repository("fixtures/ninebell-quay")).load(&Skipped::new()).shop.unwrap();
    let learned = fairdozen::minutes::learn(&shop, false).unwrap();
    let other = std::fs::read_to_string(repository("fixtures/reference/demo_minutes.json")).unwrap();
    (shop, learned, serde_json::from_str(&other).unwrap())
}

/// `tests/peers/demo_minutes.py` reads the demo's tables by itself: it must come to the same observations.
#[test]
fn another_reading_of_the_demo_gives_the_same_observations() {
    let (shop, learned, other) = demo();
    let name = |place: usize| shop.designs.names.text(learned.observed.designs[place]).to_owned();
    let observations = &learned.observed.observations;
    let orders = |group: &Group| group.named.iter().map(|order| shop.orders.ids.text(*order)).collect::<Vec<_>>().join("+");
    let found: BTreeMap<String, &Group> = observations.groups.iter().map(|group| (orders(group), group)).collect();
    let real = |value: &Value| value.as_f64().unwrap();
    let text = |value: &Value| value.as_str().unwrap().to_owned();
    let theirs: Vec<_> = other["observations"]["groups"].as_array().unwrap().iter().collect();
    assert_eq!(found.len(), theirs.len());
    for group in theirs {
        let orders: Vec<String> = group["orders"].as_array().unwrap().iter().map(text).collect();
        let ours = found[&orders.join("+")];
        let covers = if ours.covers == Covers::Decorating { "decorating" } else { "whole" };
        assert_eq!(covers, group["covers"], "{orders:?}");
        for (ours, theirs) in [(ours.minutes, "minutes"), (ours.orders, "orders_count"), (ours.colours, "colours")] {
            assert!((ours - real(&group[theirs])).abs() < 1e-9, "{orders:?} {theirs}");
        }
        let pieces: BTreeMap<String, Value> = ours.pieces.iter().map(|(place, pieces)| (name(*place), Value::from(*pieces))).collect();
        assert_eq!(Value::from_iter(pieces), group["pieces"], "{orders:?}");
    }
    let sorted = |mut timed: Vec<(String, f64, f64)>| {
        timed.sort_by(|one, other| one.partial_cmp(other).unwrap());
        timed
    };
    let ours = observations.timed.iter().map(|timed| (name(timed.design), timed.pieces, timed.minutes)).collect();
    let theirs = other["observations"]["timed"].as_array().unwrap().iter();
    let theirs = theirs.map(|timed| (text(&timed["design"]), real(&timed["pieces"]), real(&timed["minutes"]))).collect();
    assert_eq!(sorted(ours), sorted(theirs));
}

/// `numpyro` 0.22.0 (with `jax` 0.10.2, seed 20261031, 40,000 draws) fits the same model: posterior means within Monte Carlo error
/// of both, spreads within a tenth.
#[test]
fn a_general_library_fits_the_demo_alike() {
    let (shop, learned, other) = demo();
    let holds = |what: &str, of: &Value, figure: &dyn Fn(&Draw) -> f64| {
        let draws: Vec<f64> = learned.draws.iter().map(figure).collect();
        let chains: Vec<Vec<f64>> = draws.chunks(draws.len() / 4).map(<[f64]>::to_vec).collect();
        let (mean, spread) = mean_and_spread(&draws);
        let real = |name: &str| of[name].as_f64().unwrap();
        let error = (spread * spread / ess_bulk(&chains) + real("mcse") * real("mcse")).sqrt();
        assert!((mean - real("mean")).abs() < 4.0 * error, "{what}: {mean} here, {} there, Monte Carlo error {error}", real("mean"));
        assert!((spread / real("sd") - 1.0).abs() < 0.1, "{what}: spread {spread} here, {} there", real("sd"));
        assert!(error < 0.1 * spread, "{what}: {error} would hide a difference");
    };
    for design in shop.designs.all().filter(|design| learned.saw(*design)) {
        let name = shop.designs.names.text(design);
        holds(name, &other["designs"][name], &|draw| draw.each[design]);
    }
    holds("set-up", &other["set_up"], &|draw| draw.decorating.set_up);
    holds("set-up of whole orders", &other["whole_set_up"], &|draw| draw.whole.set_up);
    holds("colour of whole orders", &other["whole_per_colour"], &|draw| draw.whole.colour);
    holds("handling of whole orders", &other["whole_per_piece"], &|draw| draw.whole.handling);
    holds("noise", &other["sigma"], &|draw| draw.noise);
}

/// A small model with every kind of coordinate, its observations without minutes yet.
fn small() -> Model {
    let mut model = Model {
        spread: Some(Normal { mean: libm::log(0.3), spread: 0.4 }),
        noise: Some(Normal { mean: libm::log(0.25), spread: 0.4 }),
        trend: Some(Normal { mean: 0.0, spread: 0.3 }),
        levels: vec![Normal { mean: -3.0, spread: 1.0 }, Normal { mean: 0.0, spread: 0.4 }],
        parts: vec![0.15, 0.03],
        designs: vec![
            Centre { level: 0, offset: 0.0 },
            Centre { level: 0, offset: 0.0 },
            Centre { level: 1, offset: -2.5 },
            Centre { level: 1, offset: -2.0 },
        ],
        ..Model::default()
    };
    let mut random = Random::new(17, 0);
    for order in 0..24 {
        let terms = (0..4).filter(|design| (order + design) % 3 != 0).map(|design| (2 + design, count(2 + (order * 5 + design * 7) % 11)));
        let terms: Vec<(usize, f64)> = [(0, 1.0), (1, count(2 + order % 4))].into_iter().chain(terms).collect();
        model.observe(1.0, random.uniform() - 0.5, terms);
    }
    model
}

/// Simulation-based calibration (Talts, Betancourt, Simpson, Vehtari and Gelman 2018, arXiv:1804.06788): truths drawn from
/// the priors, data from the truths; the rank of each truth among its posterior's draws must be uniform. Pearson's
/// chi-squared over ten bins stays under 27.9, the point that one in a thousand passes (nine degrees of freedom, any table).
#[test]
fn ranks_of_true_values_are_uniform() {
    const TRIALS: usize = 200;
    let model = small();
    let size = model.size();
    let mut ranks = vec![[0_usize; 10]; size];
    for trial in 0..TRIALS {
        let mut random = Random::new(900, u64::try_from(trial).unwrap());
        let mut truth = vec![0.0; size];
        let mut believe = |prior: Normal| prior.mean + prior.spread * random.normal();
        truth[Model::NOISE] = believe(model.noise.unwrap());
        truth[Model::SPREAD] = believe(model.spread.unwrap());
        truth[2] = believe(model.trend.unwrap());
        for level in 0..2 {
            truth[model.levels_at() + level] = believe(model.levels[level]);
        }
        for part in 0..2 {
            truth[model.parts_at() + part] = believe(Normal { mean: 0.0, spread: 1.0 });
        }
        for (design, centre) in model.designs.iter().enumerate() {
            let mean = truth[model.levels_at() + centre.level] + centre.offset;
            truth[model.designs_at() + design] = believe(Normal { mean, spread: libm::exp(truth[Model::SPREAD]) });
        }
        let unknowns = model.unknowns(&truth);
        let mut data = model.clone();
        for observation in 0..data.observations() {
            let expected = libm::log(model.expected(observation, &unknowns)) + truth[2] * model.years[observation];
            data.log_minutes[observation] = expected + Model::noise(&truth) * random.student(4);
        }
        let posterior = sampled(&data, SamplerSettings { warm_up: 100, kept: 250, acceptance: 0.85, gradients: usize::MAX }).unwrap();
        assert!(posterior.diagnostics.r_hat < 1.05, "trial {trial}: {:?}", posterior.diagnostics);
        // Every so many draws are all but independent: 99 of them leave a hundred places for the truth.
        let step = posterior.draws.len() / 99;
        let thinned: Vec<&Vec<f64>> = posterior.draws.iter().step_by(step).take(99).collect();
        for at in 0..size {
            let rank = thinned.iter().filter(|x| x[at] < truth[at]).count();
            ranks[at][rank / 10] += 1;
        }
    }
    for (at, bins) in ranks.iter().enumerate() {
        let expected = count(TRIALS) / 10.0;
        let chi_squared: f64 = bins.iter().map(|bin| (count(*bin) - expected) * (count(*bin) - expected) / expected).sum();
        assert!(chi_squared < 27.9, "coordinate {at}: {bins:?}, chi-squared {chi_squared:.1}");
    }
}

/// The density as sampled is the model's, whichever way its designs are drawn: same posterior.
#[test]
fn drawing_designs_as_scores_changes_nothing() {
    let model = {
        let mut model = small();
        let mut random = Random::new(3, 3);
        for minutes in &mut model.log_minutes {
            *minutes = 0.3 * random.normal();
        }
        model
    };
    let means = [false, true].map(|non_centred| {
        let density = Reparameterised { model: &model, non_centred: vec![non_centred; 4] };
        let size = model.size();
        let mut unit = vec![0.0; size * size];
        for at in 0..size {
            unit[at * (size + 1)] = 0.1;
        }
        let mass_matrix = MassMatrix::of(unit, size).unwrap();
        let draws: Vec<Vec<f64>> = (0..4)
            .flat_map(|stream| {
                let start = density.sampled(&vec![-1.0; size]);
                chain(
                    &density,
                    &mass_matrix,
                    &start,
                    SamplerSettings { warm_up: 500, kept: 3000, acceptance: 0.85, gradients: usize::MAX },
                    &mut Random::new(8, stream),
                )
                .draws
            })
            .collect();
        (0..size).map(|at| mean_and_spread(&draws.iter().map(|x| density.natural(x)[at]).collect::<Vec<f64>>())).collect::<Vec<_>>()
    });
    for (at, (plain, non_centred)) in means[0].iter().zip(&means[1]).enumerate() {
        assert!((plain.0 - non_centred.0).abs() < 0.15 * plain.1, "{at}: {plain:?} {non_centred:?}");
    }
}
