//! What [`Steps`](crate::chart::Steps) lays out.

use rust_decimal::Decimal;

use super::marks::{across, assert_near, assert_order, bars, fills, hatchings, said, text};
use super::samples::{one_month, step};
use crate::chart::{Chart, Fill, Width};

const WIDTHS: [Width; 2] = [Width::Wide, Width::Narrow];

#[test]
fn each_step_hangs_where_the_one_before_ended_and_sums_stand_on_zero() {
    for width in WIDTHS {
        let picture = one_month().picture(width);
        let (zero, dollar) = across(&picture, "$0");
        let spans = [(0.0, 1000.0), (847.6, 1000.0), (759.6, 847.6), (724.0, 759.6), (0.0, 724.0), (-112.0, 724.0), (-112.0, 0.0)];
        for (at, (from, to)) in spans.into_iter().enumerate() {
            let [left, _, right, _] = bars(&picture, at)[0];
            assert_near(left, zero + from * dollar);
            assert_near(right, zero + to * dollar);
        }
    }
}

#[test]
fn a_step_is_filled_by_what_it_is_and_what_is_below_is_hatched_and_named() {
    let mut chart = one_month();
    let picture = chart.picture(Width::Wide);
    assert_eq!(fills(&picture, 1), [Fill::Part(0).colour()]);
    assert_eq!((hatchings(&picture, 6).len(), hatchings(&picture, 5).len()), (1, 0));
    // The row's name and the key's words.
    assert_eq!(said(&picture).iter().filter(|text| *text == "below your target").count(), 2);
    assert!(!said(&picture).contains(&"above your target".to_owned()));
    chart.steps.remove(2);
    assert_eq!(fills(&chart.picture(Width::Wide), 2), [Fill::Part(2).colour()], "a cost keeps its fill when another is left out");
}

#[test]
fn every_row_has_its_figures_in_the_order_given() {
    for width in WIDTHS {
        let picture = one_month().picture(width);
        assert_order(&picture, &["amount", "share", "revenue", "$1,000.00", "15 %", "ingredients", "−$152.40", "15 %", "your time"]);
        assert_near(text(&picture, "amount").right, text(&picture, "$1,000.00").right);
    }
}

#[test]
fn a_step_too_small_to_see_is_drawn_all_the_same_and_one_of_zero_is_not() {
    let mut chart = one_month();
    chart.steps = vec![step("March", "1000000", Fill::Sum), step("fees", "0.01", Fill::Above), step("price", "0", Fill::Above)];
    let picture = chart.picture(Width::Wide);
    let [left, _, right, _] = bars(&picture, 1)[0];
    assert!(right - left >= 1.0 && bars(&picture, 2).is_empty());
}

#[test]
fn nothing_is_a_sentence_and_odd_amounts_are_laid_out() {
    let mut chart = one_month();
    (chart.steps[0].amount, chart.steps[1].amount) = (Decimal::MIN, Decimal::MIN);
    assert_eq!(chart.svg(Width::Wide), chart.svg(Width::Wide));
    chart.steps.clear();
    assert!(said(&chart.picture(Width::Narrow)).contains(&"There is nothing to draw for this period yet.".to_owned()));
}
