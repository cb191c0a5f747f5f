//! What [`OrderSizeChart`](super::OrderSizeChart) draws, read back from its SVG.

use rust_decimal::Decimal;

use super::png;
use super::review_samples::{nine_orders, size_class, sized};
use super::samples::{across, circles, lines, polygons, said, upward};
use super::{OrderSizeChart, SizeDot};

const BLUE: &str = "#0072B2";
const VERMILLION: &str = "#D55E00";
const INK: &str = "#1F1F1F";
const GREY: &str = "#4A4A4A";

fn close(a: f64, b: f64) -> bool {
    (a - b).abs() <= 0.75
}

fn place(svg: &str, pieces: f64, wage: f64) -> (f64, f64) {
    let ((x, piece), (y, dollar)) = (across(svg, "0", ("20", 20.0)), upward(svg, "$0", ("$10", 10.0)));
    (x + pieces * piece, y - wage * dollar)
}

#[test]
fn every_order_is_a_dot_at_its_size_and_wage() {
    let svg = nine_orders().svg();
    // The first belongs to the key.
    let dots = &circles(&svg, BLUE, 3.75)[1..];
    assert_eq!(dots.len(), 9);
    for ((x, y), order) in dots.iter().zip(nine_orders().orders) {
        let wage: f64 = order.wage.to_string().parse().unwrap();
        let pieces = f64::from(i32::try_from(order.pieces).unwrap());
        let expected = place(&svg, pieces, wage);
        assert!(close(*x, expected.0) && close(*y, expected.1), "{x} {y}, not {expected:?}");
    }
}

#[test]
fn orders_in_one_place_are_one_dot() {
    let mut chart = nine_orders();
    chart.orders.extend([sized(12, "9.40"), sized(12, "9.40")]);
    assert_eq!(circles(&chart.svg(), BLUE, 3.75).len(), 1 + 9);
}

#[test]
fn classes_have_their_means_over_their_sizes_and_their_figures_below() {
    let svg = nine_orders().svg();
    // The first of the key, then four in the plot, then four before the figures.
    let means = lines(&svg, VERMILLION, 4.0);
    assert_eq!(means.len(), 1 + 4 + 4);
    for ([from, to], (low, high, mean)) in
        means[1..5].iter().zip([(0.5, 12.5, 11.2), (12.5, 24.5, 18.6), (24.5, 36.5, 22.7), (48.5, 60.0, 23.5)])
    {
        assert!(close(from.0 - 1.0, place(&svg, low, mean).0) && close(to.0 + 1.0, place(&svg, high, mean).0), "{from:?} {to:?}");
        assert!(close(from.1, place(&svg, low, mean).1));
    }
    for words in ["37–48 pieces", "no orders", "13–24 pieces", "$18.60", "4 orders"] {
        assert!(said(&svg).contains(&words), "{words}");
    }
}

#[test]
fn the_target_and_the_smallest_order_stand_at_their_amounts() {
    let mut chart = nine_orders();
    let svg = chart.svg();
    let target = lines(&svg, INK, 2.0);
    assert!(target.len() == 1 && close(target[0][0].1, place(&svg, 0.0, 20.0).1));
    let upright: Vec<_> = lines(&svg, GREY, 1.5).into_iter().filter(|[a, b]| close(a.0, b.0)).collect();
    assert!(upright.iter().any(|[a, _]| close(a.0, place(&svg, 18.0, 0.0).0)));
    assert!(said(&svg).contains(&"18 pieces: worth the set-up"));
    (chart.target, chart.smallest) = (None, None);
    assert!(lines(&chart.svg(), INK, 2.0).is_empty() && !chart.svg().contains("worth the set-up"));
    chart.smallest = Some((Decimal::from(90), "90 pieces".into()));
    assert!(said(&chart.svg()).contains(&"80"), "the axis reaches the smallest order");
}

#[test]
fn orders_far_out_are_arrow_heads_and_do_not_flatten_the_rest() {
    let mut chart = nine_orders();
    let calm = upward(&chart.svg(), "$0", ("$10", 10.0)).1;
    assert!(polygons(&chart.svg(), VERMILLION).is_empty());
    chart.orders.extend([sized(24, "900"), sized(24, "-800"), sized(5000, "20")]);
    let svg = chart.svg();
    assert_eq!(polygons(&svg, VERMILLION).len(), 1 + 3);
    assert!(said(&svg).contains(&"3 orders far beyond the edge"));
    assert!(upward(&svg, "$0", ("$10", 10.0)).1 > calm / 2.0);
    assert_eq!(circles(&svg, BLUE, 3.75).len(), 1 + 9);
}

#[test]
fn two_thousand_orders_stay_small() {
    let order = |at: i64| SizeDot { pieces: 1 + at * 37 % 97, wage: Decimal::new(at * 7919 % 4000, 2), current: false };
    let svg = OrderSizeChart { orders: (0..2000).map(order).collect(), ..nine_orders() }.svg();
    assert!(svg.len() < 400_000, "{} bytes", svg.len());
    assert!(circles(&svg, BLUE, 2.25).len() > 1500);
}

#[test]
fn nothing_is_a_sentence_and_odd_orders_are_drawn() {
    let mut chart = nine_orders();
    chart.orders = vec![sized(0, "20"), sized(-5, "20")];
    assert!(chart.svg().contains("There is nothing to draw for this period yet."));
    chart.orders = vec![sized(i64::MAX, "20"), sized(1, "1")];
    (chart.orders[0].wage, chart.orders[1].wage) = (Decimal::MAX, Decimal::MIN);
    chart.classes = vec![size_class(i64::MIN, Some(i64::MAX), "5", 1), size_class(9, Some(3), "5", 1)];
    assert!(png(&chart.svg()).is_ok());
    chart.classes.clear();
    chart.smallest = Some((Decimal::MAX, String::new()));
    assert!(png(&chart.svg()).is_ok());
    assert_eq!(chart.svg(), chart.svg());
}

#[test]
fn orders_of_the_period_are_dark_where_there_are_others_too() {
    let mut chart = nine_orders();
    let counts = |chart: &OrderSizeChart| {
        let svg = chart.svg();
        let key = said(&svg).iter().filter(|text| ["an order of this period", "an order before it"].contains(text)).count();
        (circles(&svg, INK, 4.5).len(), circles(&svg, "#E4F0F7", 2.75).len(), key)
    };
    assert_eq!(counts(&chart), (0, 0, 0));
    chart.orders[1].current = true;
    chart.orders[4].current = true;
    // One of each in the key.
    assert_eq!(counts(&chart), (1 + 2, 1 + 7, 2));
    // An order of the period over another one in the same place.
    chart.orders.push(SizeDot { current: true, ..sized(12, "9.40") });
    assert_eq!(counts(&chart), (1 + 3, 1 + 7, 2));
    for order in &mut chart.orders {
        order.current = true;
    }
    assert_eq!(counts(&chart), (0, 0, 0));
    let order = |at: i64| SizeDot { pieces: 1 + at * 37 % 97, wage: Decimal::new(at * 7919 % 4000, 2), current: at < 20 };
    let svg = OrderSizeChart { orders: (0..400).map(order).collect(), ..nine_orders() }.svg();
    assert_eq!(circles(&svg, INK, 4.5).len(), 1 + 20);
}
