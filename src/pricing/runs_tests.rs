//! The division in runs against published clusterings.

use super::runs::best_runs;
use std::collections::BTreeMap;

fn published(name: &str) -> Vec<BTreeMap<String, String>> {
    let path = std::path::Path::new(env!("CARGO_MANIFEST_DIR")).join("fixtures/published").join(name);
    let rows: Vec<_> = csv::Reader::from_path(path).unwrap().deserialize().map(Result::unwrap).collect();
    assert!(!rows.is_empty());
    rows
}

fn numbers(text: &str) -> Vec<f64> {
    text.split_whitespace().map(|number| number.parse().unwrap()).collect()
}

/// Values sorted with their weights, and the division of least squared error: ends of runs and each run's error.
fn clustered(values: &[f64], weights: &[f64], clusters: usize) -> (Vec<usize>, Vec<usize>, Vec<(f64, f64)>) {
    let mut order: Vec<usize> = (0..values.len()).collect();
    order.sort_by(|a, b| values[*a].total_cmp(&values[*b]));
    let error = |from: usize, to: usize| {
        let run = || order[from..to].iter().map(|at| (values[*at], weights[*at]));
        let weight: f64 = run().map(|(_, weight)| weight).sum();
        let mean = run().map(|(value, weight)| value * weight).sum::<f64>() / weight;
        (mean, run().map(|(value, weight)| weight * (value - mean) * (value - mean)).sum::<f64>())
    };
    // A run may stand anywhere that leaves room for those after it.
    let anywhere = |_, place| 0..place;
    let scored = |from, to, scores: &mut [Option<f64>]| scores.fill(Some(error(from, to).1));
    let runs = best_runs(values.len(), clusters, clusters, (0.0, 0.0), anywhere, scored).unwrap();
    let ends: Vec<usize> = runs.runs.iter().map(|(end, _)| *end).collect();
    let starts = std::iter::once(0).chain(ends.iter().copied());
    let of_runs = starts.zip(&ends).map(|(from, to)| error(from, *to)).collect();
    (order, ends, of_runs)
}

/// Optimal one-dimensional clusterings, tests of `Ckmeans.1d.dp` 4.3.5 (numbers as facts; fixtures/published/README.md).
#[test]
fn runs_of_least_squared_error_are_the_published_clusters() {
    let cases = published("clustering_1d.csv");
    assert_eq!(cases.len(), 8);
    for case in cases {
        let id = &case["case_id"];
        let values = numbers(&case["x"]);
        let weights = if case["weights"].is_empty() { vec![1.0; values.len()] } else { numbers(&case["weights"]) };
        let (order, ends, of_runs) = clustered(&values, &weights, case["k"].parse().unwrap());
        let mut cluster = vec![0; values.len()];
        for (place, at) in order.iter().enumerate() {
            cluster[*at] = 1 + ends.iter().filter(|end| **end <= place).count();
        }
        assert_eq!(
            cluster,
            case["published_cluster"].split_whitespace().map(|at| at.parse::<usize>().unwrap()).collect::<Vec<_>>(),
            "{id}"
        );
        for ((mean, error), (center, within)) in
            of_runs.iter().zip(numbers(&case["published_centers"]).into_iter().zip(numbers(&case["published_withinss"])))
        {
            assert!((mean - center).abs() < 1e-8 && (error - within).abs() < 1e-8, "{id}: {mean} {error}");
        }
    }
}

/// Natural breaks, tests and README of `jenkspy` 0.4.1 (numbers as facts): the least value and the last of each run.
#[test]
fn runs_of_least_squared_error_end_at_the_published_breaks() {
    let cases = published("jenks_breaks.csv");
    assert_eq!(cases.len(), 2);
    for case in cases {
        let values = numbers(&case["x"]);
        let (order, ends, _) = clustered(&values, &vec![1.0; values.len()], case["k"].parse().unwrap());
        let breaks: Vec<f64> = std::iter::once(values[order[0]]).chain(ends.iter().map(|end| values[order[end - 1]])).collect();
        let expected = numbers(&case["published_breaks"]);
        assert!(breaks.len() == expected.len() && breaks.iter().zip(&expected).all(|(a, b)| (a - b).abs() < 1e-9), "{breaks:?}");
    }
}
