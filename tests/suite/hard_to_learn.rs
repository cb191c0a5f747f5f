//! Shops that are hard to learn from: minutes that fit the pieces exactly, and hundreds of designs. Nothing here is timed; what is
//! held is the work that a fit may take, and that its answer is sound.

use crate::harness::Trial;
use fairdozen::minutes::fit::{Method, Posterior, fit};
use fairdozen::minutes::model::count;
use fairdozen::minutes::observations::{Covers, Design, Group, Observations};
use fairdozen::minutes::priors::prepare;
use fairdozen::minutes::random::Random;
use std::collections::BTreeMap;
use std::fmt::Write;

/// An order of designs and pieces that took so many minutes.
fn group(minutes: f64, colours: f64, pieces: Vec<(usize, f64)>) -> Group {
    Group { minutes, covers: Covers::Decorating, orders: 1.0, colours, pieces, years: 0.0, named: Vec::new() }
}

fn world(designs: usize, groups: Vec<Group>) -> Observations {
    Observations { designs: vec![Design::default(); designs], groups, ..Observations::default() }
}

/// What was learned: the posterior, and the median minutes of each design.
fn learned(observations: &Observations) -> (Posterior, Vec<f64>) {
    let prepared = prepare(observations, false).unwrap();
    let posterior = fit(&prepared.model).unwrap();
    assert!(posterior.diagnostics.passed, "{:?}", posterior.diagnostics);
    let median = |at: usize| {
        let mut draws: Vec<f64> = posterior.draws.iter().map(|x| libm::exp(x[at]) * prepared.unit).collect();
        draws.sort_unstable_by(f64::total_cmp);
        draws[draws.len() / 2]
    };
    let medians = (prepared.model.designs_at()..prepared.model.size()).map(median).collect();
    (posterior, medians)
}

/// Seven minutes for each piece, whatever it is, in 200 orders of two to four designs: a rule of thumb in place of a timer. No noise
/// is left to learn, yet the sampler settles, on seven minutes.
#[test]
fn minutes_by_a_rule_of_thumb_are_sampled_and_found() {
    let mut random = Random::new(31, 0);
    let order = |random: &mut Random| {
        let mut pieces: Vec<(usize, f64)> = Vec::new();
        for design in 0..12 {
            if random.below(4) == 0 {
                pieces.push((design, count(3 + random.below(10))));
            }
        }
        let minutes = 7.0 * pieces.iter().map(|(_, pieces)| pieces).sum::<f64>();
        (minutes > 0.0).then(|| group(minutes, count(3 + random.below(5)), pieces))
    };
    let groups: Vec<Group> = std::iter::from_fn(|| Some(order(&mut random))).flatten().take(200).collect();
    let (posterior, medians) = learned(&world(12, groups));
    assert_eq!(posterior.diagnostics.method, Method::Sampled);
    assert!(medians.iter().all(|minutes| (6.7..7.1).contains(minutes)), "{medians:?}");
}

/// Always 50 minutes for six pieces: set-up and pieces cannot be told apart, and no noise blurs the line they lie on. Sampling
/// gives up within its work; the best fit answers, and six pieces with their set-up come to 50 minutes.
#[test]
fn minutes_that_never_vary_are_answered_by_the_best_fit() {
    let groups = (0..100).map(|_| group(50.0, 0.0, vec![(0, 6.0)])).collect();
    let observations = world(1, groups);
    let prepared = prepare(&observations, false).unwrap();
    let (posterior, medians) = learned(&observations);
    assert_eq!(posterior.diagnostics.method, Method::Unsettled);
    assert!((6.5..8.33).contains(&medians[0]), "{medians:?}");
    let mut whole: Vec<f64> =
        posterior.draws.iter().map(|x| prepared.model.expected(0, &prepared.model.unknowns(x)) * prepared.unit).collect();
    whole.sort_unstable_by(f64::total_cmp);
    assert!((49.0..51.5).contains(&whole[whole.len() / 2]), "{}", whole[whole.len() / 2]);
}

/// Four new designs an order: each design's minutes are known by its one order and by all the others' level.
fn four_new_designs_an_order(designs: usize) -> (Observations, Vec<f64>) {
    let mut random = Random::new(47, 0);
    let truth: Vec<f64> = (0..designs).map(|_| [3.0, 7.0, 16.0][random.below(3)] * libm::exp(0.25 * random.normal())).collect();
    let groups = (0..designs / 4)
        .map(|order| {
            let pieces: Vec<(usize, f64)> = (0..4).map(|at| (4 * order + at, count(3 + random.below(10)))).collect();
            let colours = count(3 + random.below(5));
            let expected = 25.0 + 6.0 * colours + pieces.iter().map(|(design, pieces)| pieces * truth[*design]).sum::<f64>();
            group((expected * libm::exp(0.2 * random.normal()) / 5.0).round() * 5.0, colours, pieces)
        })
        .collect();
    (world(designs, groups), truth)
}

/// One order a design says little of any one design. Laplace's method puts their medians somewhat high (by a fifth here), for what
/// fits an order best is four designs alike; in a split that cancels.
#[test]
fn thousands_of_designs_are_approximated_and_their_sum_is_right() {
    for designs in [140, 600, 5000] {
        let (observations, truth) = four_new_designs_an_order(designs);
        let (posterior, medians) = learned(&observations);
        assert_eq!(posterior.diagnostics.method, Method::Approximated);
        assert!(posterior.draws.len() >= 400);
        let (sum, expected) = (medians.iter().sum::<f64>(), truth.iter().sum::<f64>());
        assert!((sum / expected - 1.0).abs() < 0.25, "{designs}: {sum} {expected}");
    }
}

/// Six hundred designs, each in some ten of 2,000 orders, without tiers. A quick design hides behind slow ones of the same order, so
/// estimates are a quarter off on average; eight intervals in ten hold the truth, not nine, for those of the quickest are too narrow.
#[test]
fn six_hundred_designs_sold_again_and_again_are_told_apart() {
    let mut random = Random::new(53, 0);
    let truth: Vec<f64> = (0..600).map(|_| [3.0, 7.0, 16.0][random.below(3)] * libm::exp(0.25 * random.normal())).collect();
    let groups = (0..2000).map(|_| {
        let pieces: BTreeMap<usize, f64> = (0..3).map(|_| (random.below(600), count(3 + random.below(10)))).collect();
        let colours = count(3 + random.below(5));
        let expected = 25.0 + 6.0 * colours + pieces.iter().map(|(design, pieces)| pieces * truth[*design]).sum::<f64>();
        group((expected * libm::exp(0.2 * random.normal())).round(), colours, pieces.into_iter().collect())
    });
    let observations = world(600, groups.collect());
    let prepared = prepare(&observations, false).unwrap();
    let (posterior, medians) = learned(&observations);
    assert_eq!(posterior.diagnostics.method, Method::Approximated);
    let (mut error, mut held) = (0.0, 0.0);
    for (design, truth) in truth.iter().enumerate() {
        error += (medians[design] / truth - 1.0).abs() / 600.0;
        let mut draws: Vec<f64> =
            posterior.draws.iter().map(|x| libm::exp(x[prepared.model.designs_at() + design]) * prepared.unit).collect();
        draws.sort_unstable_by(f64::total_cmp);
        let is_held = draws[draws.len() / 20] <= *truth && *truth <= draws[draws.len() * 19 / 20];
        held += if is_held { 1.0 / 600.0 } else { 0.0 };
    }
    assert!(error < 0.3 && (0.8..0.96).contains(&held), "error {error}, held {held}");
}

/// A shop whose minutes are the same in every order.
fn even() -> Trial {
    let (mut orders, mut hours) = (String::from("order,date,design,quantity,price\n"), String::from("date,minutes,stage,order\n"));
    for order in 0..150 {
        let day = format!("2026-{:02}-{:02}", 1 + order / 80, 1 + order % 28);
        let _ = writeln!(orders, "K{order},{day},star,6,4.00");
        let _ = writeln!(hours, "{day},50,decorate,K{order}");
    }
    Trial::new(&[
        ("orders.csv", &orders),
        ("hours.csv", &hours),
        ("shop.toml", "currency = \"USD\"\nspares = 5\n[wage]\ntarget = 20\n[fees]\npercent = 2\n[materials]\nregular = 0.3\n"),
    ])
}

#[test]
fn rough_ranges_are_said_to_be_rough_wherever_ranges_stand() {
    let shop = even();
    let of_star: &[&str] = &["6 star"];
    for (command, options) in [("minutes", &[][..]), ("wage", &[]), ("tiers", &[]), ("review", &[]), ("quote", of_star)] {
        let said = shop.run(command, options);
        assert_eq!(said.code, 0, "{command}: {}", said.err);
        assert!(said.out.replace('\n', " ").contains("Treat the ranges as rough: the estimate did not settle"), "{command}: {}", said.out);
    }
    let page = std::fs::read_to_string(shop.path().join("reviews/2026-02/index.html")).unwrap();
    assert!(page.contains("Treat the ranges as rough"));
    let json: serde_json::Value = serde_json::from_str(&shop.run("minutes", &["--json"]).out).unwrap();
    assert_eq!(json["diagnostics"]["method"], "unsettled");
    assert!(shop.wage("design", &[])["problems"].to_string().contains("sampling of the minutes per piece did not settle"));
}

/// `check` prints no figure that rests on minutes, so it learns none: what it says is the same whether sampling would settle or not.
#[test]
fn check_learns_nothing_and_still_says_what_can_be_seen_without() {
    let shop = even();
    let said = shop.run("check", &[]);
    assert_eq!(said.code, 0);
    for word in ["settle", "guess", "same time to decorate"] {
        assert!(!said.out.contains(word), "{word}: {}", said.out);
    }
    shop.write("hours.csv", b"date,minutes,stage,order\n2026-01-02,50,decorate,K1\n");
    let said = shop.run("check", &[]).out.replace('\n', " ");
    assert!(said.contains("only 1 order or batch has hours; learning minutes per piece needs 3"), "{said}");
    assert!(said.contains("every piece is assumed to take the same time to decorate"), "{said}");
}
