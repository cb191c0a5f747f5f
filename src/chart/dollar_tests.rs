//! What [`DollarChart`](super::DollarChart) draws, read back from its SVG.

use rust_decimal::Decimal;

use super::review_samples::{dollar_step, one_month_of_dollars};
use super::samples::{across, attribute, rectangles, said, texts};
use super::{DollarKind, Standing, png};

const SUM: &str = "#4A4A4A";
const HATCH: &str = "url(#fairdozen-hatch)";
/// The fills of the stack of costs, in their order.
const COSTS: [(&str, f64, f64); 5] = [
    ("#56B4E9", 847.6, 1000.0),
    ("#D55E00", 759.6, 847.6),
    ("#F0E442", 724.0, 759.6),
    ("#009E73", 580.0, 724.0),
    ("#E69F00", 410.0, 580.0),
];

fn close(a: f64, b: f64) -> bool {
    (a - b).abs() <= 0.5
}

#[test]
fn costs_go_off_the_revenue_one_after_the_other() {
    let svg = one_month_of_dollars().svg();
    let (zero, dollar) = across(&svg, "$0", ("$500", 500.0));
    for (fill, from, to) in COSTS {
        let [x, _, width, _] = rectangles(&svg, fill)[0];
        assert!(close(x, zero + from * dollar) && close(x + width, zero + to * dollar), "{fill}: {x} {width}");
    }
    let sums: Vec<_> = rectangles(&svg, SUM).into_iter().map(|[x, _, width, _]| (x, width)).collect();
    assert_eq!(sums.len(), 2);
    for ((x, width), amount) in sums.into_iter().zip([1000.0, 410.0]) {
        assert!(close(x, zero) && close(width, amount * dollar), "{x} {width} for {amount}");
    }
}

#[test]
fn a_short_outcome_lies_left_of_zero_hatched_and_named() {
    let mut chart = one_month_of_dollars();
    let svg = chart.svg();
    let (zero, dollar) = across(&svg, "$0", ("$500", 500.0));
    let [x, _, width, _] = rectangles(&svg, HATCH)[0];
    assert!(close(x - 1.0, zero - 112.0 * dollar) && close(x + width + 1.0, zero));
    assert!(said(&svg).contains(&"below"));
    chart.steps[8].kind = DollarKind::Outcome(Standing::Over);
    let svg = chart.svg();
    assert!(rectangles(&svg, HATCH).is_empty() && said(&svg).contains(&"above"));
}

#[test]
fn every_row_has_its_amount_and_its_share_in_the_order_given() {
    let svg = one_month_of_dollars().svg();
    let said = said(&svg);
    let at = |wanted: &str| said.iter().position(|text| *text == wanted).unwrap_or_else(|| panic!("no {wanted}"));
    let order = ["amount", "of each $1", "revenue", "$1,000.00", "100 ¢", "ingredients", "−$152.40", "15 ¢", "left for your time", "41 ¢"];
    assert!(order.windows(2).all(|pair| at(pair[0]) < at(pair[1])), "{said:?}");
    let right = |text: &str| attribute(texts(&svg)[at(text)].1, "x");
    assert!(close(right("of each $1"), right("100 ¢")));
}

#[test]
fn no_steps_make_a_sentence_and_odd_amounts_are_drawn() {
    let mut chart = one_month_of_dollars();
    chart.steps = vec![dollar_step("revenue", "0", "", DollarKind::Sum)];
    assert!(png(&chart.svg()).is_ok() && said(&chart.svg()).contains(&"$0.00"));
    chart.steps.push(dollar_step("fees", "1", "", DollarKind::Change));
    (chart.steps[0].amount, chart.steps[1].amount) = (Decimal::MIN, Decimal::MIN);
    assert!(png(&chart.svg()).is_ok());
    assert_eq!(chart.svg(), chart.svg());
    chart.steps.clear();
    assert!(chart.svg().contains("There is nothing to draw for this period yet."));
}

#[test]
fn a_cost_keeps_its_fill_when_another_is_left_out() {
    let mut chart = one_month_of_dollars();
    let fill_of_fees = |chart: &super::DollarChart| rectangles(&chart.svg(), COSTS[2].0).len();
    assert_eq!(fill_of_fees(&chart), 1);
    chart.steps.remove(2);
    assert_eq!(fill_of_fees(&chart), 1);
    assert!(rectangles(&chart.svg(), COSTS[1].0).is_empty());
    assert_eq!(rectangles(&chart.svg(), "#0072B2").len(), 1, "her time, as in the stack of costs");
    for step in &mut chart.steps {
        if matches!(step.kind, DollarKind::Cost(_)) {
            step.kind = DollarKind::Change;
        }
    }
    assert_eq!(rectangles(&chart.svg(), "#9A9A9A").len(), 5, "what is no element is grey");
}
