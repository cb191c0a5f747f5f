//! What [`Strips`](crate::chart::Strips) lays out.

use rust_decimal::Decimal;

use super::marks::{assert_near, lines, said, signs, text, texts};
use super::samples::{day, four_items, strip};
use crate::chart::draw::picture::Role;
use crate::chart::draw::theme::{BASELINE, LEARNED};
use crate::chart::{Chart, Width};

const WIDTHS: [Width; 2] = [Width::Wide, Width::Narrow];

#[test]
fn every_purchase_is_a_dot_on_its_day_higher_where_dearer() {
    for width in WIDTHS {
        let picture = four_items().picture(width);
        // 151 days from the fifth of January to the fifth of June.
        let named = |month: &str| text(&picture, month).middle();
        let (february, a_day) = (named("Feb"), (named("May") - named("Feb")) / 89.0);
        let days = [&[-31.0, 15.0, 56.0, 116.0][..], &[-31.0, 38.0, 104.0], &[24.0], &[]];
        for (at, days) in days.into_iter().enumerate() {
            let dots = signs(&picture, at);
            assert_eq!(dots.len(), days.len());
            dots.iter().zip(days).for_each(|((x, _), days)| assert_near(*x, february + days * a_day));
        }
        let heights: Vec<_> = signs(&picture, 0).into_iter().map(|(_, y)| -y).collect();
        assert!(heights[0] < heights[2] && heights[2] < heights[1] && heights[1] < heights[3], "{heights:?}");
        assert!(((heights[1] - heights[0]) / (heights[3] - heights[0]) - 0.25).abs() < 0.01, "0.30 of 1.20");
    }
}

#[test]
fn a_price_holds_until_the_next_and_the_latest_to_the_last_day() {
    for width in WIDTHS {
        let picture = four_items().picture(width);
        let (dots, steps) = (signs(&picture, 0), lines(&picture, Role::Data(0), LEARNED));
        assert_eq!(steps.len(), 2 * 3);
        assert_eq!(steps[0], [dots[0], (dots[1].0, dots[0].1)]);
        assert_eq!([0, 1, 2, 3].map(|at| lines(&picture, Role::Data(at), BASELINE).len()), [1, 1, 1, 0]);
    }
}

#[test]
fn a_change_of_a_few_percent_looks_small() {
    let picture = four_items().picture(Width::Wide);
    let rise = |at: usize| (signs(&picture, at)[0].1 - signs(&picture, at).last().unwrap().1).abs();
    assert!(rise(0) > 20.0 && rise(1) > 0.0 && rise(1) < rise(0) / 3.0, "{} {}", rise(0), rise(1));
}

#[test]
fn the_order_of_purchases_changes_nothing_and_days_without_room_are_left_out() {
    let mut chart = four_items();
    let plain = chart.svg(Width::Narrow);
    chart.strips[0].paid.reverse();
    assert_eq!(chart.svg(Width::Narrow), plain);
    chart.ticks = (1..=28).map(|at| (day(&format!("2026-02-{at:02}")), format!("{at} February"))).collect();
    let named = texts(&chart.picture(Width::Narrow)).iter().filter(|text| text.words.ends_with(" February")).count();
    assert!((1..28).contains(&named), "{named}");
    chart.ticks = vec![(day("1999-01-01"), "long ago".into())];
    assert!(!said(&chart.picture(Width::Wide)).contains(&"long ago".to_owned()));
}

#[test]
fn no_purchase_is_a_sentence_and_odd_prices_are_laid_out() {
    let mut chart = four_items();
    chart.strips = vec![strip("flour", &[])];
    assert!(said(&chart.picture(Width::Wide)).contains(&"There is nothing to draw for this period yet.".to_owned()));
    chart.strips = vec![strip("free", &[("2026-01-01", "0"), ("2026-01-01", "0")]), strip("odd", &[("2026-01-01", "-4")])];
    chart.strips[1].paid = vec![(day("2026-01-01"), Decimal::MIN), (day("2026-01-01"), Decimal::MAX)];
    assert_eq!(chart.svg(Width::Wide), chart.svg(Width::Wide));
}
