//! What [`BridgeChart`] draws, read back from its SVG.

use rust_decimal::Decimal;

use super::review_samples::{bridge_end, bridge_step, march_to_april};
use super::samples::{across, dec, rectangles, said};
use super::{BridgeChart, png};

const SUM: &str = "#4A4A4A";
const BLUE: &str = "#0072B2";
const ORANGE: &str = "#E69F00";
const HATCH: &str = "url(#fairdozen-hatch)";

fn spans(svg: &str, fill: &str) -> Vec<(f64, f64)> {
    rectangles(svg, fill).into_iter().map(|[x, _, width, _]| (x, x + width)).collect()
}

fn assert_spans(found: &[(f64, f64)], (zero, dollar): (f64, f64), expected: &[(f64, f64)]) {
    assert_eq!(found.len(), expected.len(), "{found:?}");
    for ((left, right), (from, to)) in found.iter().zip(expected) {
        let (from, to) = (zero + from * dollar, zero + to * dollar);
        assert!((left - from).abs() <= 0.5 && (right - to).abs() <= 0.5, "{left}..{right}, not {from}..{to}");
    }
}

#[test]
fn each_step_hangs_where_the_one_before_ended() {
    let svg = march_to_april().svg();
    let axis = across(&svg, "$0", ("$50", 50.0));
    assert_spans(&spans(&svg, SUM), axis, &[(-112.0, 0.0), (0.0, 34.0)]);
    // The first of each fill belongs to the key.
    assert_spans(&spans(&svg, BLUE)[1..], axis, &[(-112.0, 19.5), (19.5, 67.7)]);
    assert_spans(&spans(&svg, ORANGE)[1..], axis, &[(45.0, 67.7), (34.0, 45.0)]);
}

#[test]
fn down_is_hatched_signed_and_in_the_key() {
    let chart = march_to_april();
    let svg = chart.svg();
    assert_eq!(rectangles(&svg, HATCH).len(), 3);
    assert!(said(&svg).contains(&"−$22.70") && said(&svg).contains(&"+$131.50"));
    assert!(said(&svg).contains(&"worse, to the left"));
    let only_up = BridgeChart { steps: vec![bridge_step("price", "146")], ..chart };
    assert!(rectangles(&only_up.svg(), HATCH).is_empty() && !only_up.svg().contains("down"));
}

#[test]
fn the_order_is_the_callers() {
    let svg = march_to_april().svg();
    let said = said(&svg);
    let at = |wanted: &str| said.iter().position(|text| *text == wanted).unwrap_or_else(|| panic!("no {wanted}"));
    let order = ["March 2026", "price", "minutes a piece", "ingredient price", "overhead", "April 2026"];
    assert!(order.windows(2).all(|pair| at(pair[0]) < at(pair[1])), "{said:?}");
}

#[test]
fn what_the_steps_leave_is_told() {
    let mut chart = march_to_april();
    assert_eq!(chart.unexplained(), Decimal::ZERO);
    chart.steps.pop();
    assert_eq!(chart.unexplained(), dec("-11"));
    chart.end.amount = Decimal::MAX;
    chart.start.amount = Decimal::MIN;
    assert_eq!(chart.unexplained(), Decimal::MAX);
}

#[test]
fn a_step_too_small_to_see_is_drawn_all_the_same_and_one_of_nil_is_not() {
    let mut chart = march_to_april();
    (chart.start, chart.end) = (bridge_end("March", "1000000"), bridge_end("April", "1000000.01"));
    chart.steps = vec![bridge_step("fees", "0.01"), bridge_step("price", "0")];
    let blue = spans(&chart.svg(), BLUE);
    assert_eq!(blue.len(), 2, "the key's and one");
    assert!(blue[1].1 - blue[1].0 >= 1.0);
}

#[test]
fn no_steps_leave_two_ends_and_odd_amounts_are_drawn() {
    let mut chart = march_to_april();
    chart.steps.clear();
    assert_eq!(rectangles(&chart.svg(), SUM).len(), 2);
    chart.steps = vec![bridge_step("price", "1"), bridge_step("price", "-1")];
    (chart.steps[0].change, chart.steps[1].change) = (Decimal::MAX, Decimal::MIN);
    assert!(png(&chart.svg()).is_ok());
    assert_eq!(chart.svg(), chart.svg());
}
