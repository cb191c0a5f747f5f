//! What [`ItemPricesChart`](super::ItemPricesChart) draws, read back from its SVG.

use rust_decimal::Decimal;

use super::png;
use super::review_samples::{day, four_items, item};
use super::samples::{across, circles, lines, said, texts};

const BLUE: &str = "#0072B2";
const GREY: &str = "#4A4A4A";

fn close(a: f64, b: f64) -> bool {
    (a - b).abs() <= 0.75
}

#[test]
fn every_purchase_is_a_dot_on_its_day_higher_where_dearer() {
    let svg = four_items().svg();
    let dots = circles(&svg, BLUE, 3.0);
    assert_eq!(dots.len(), 4 + 3 + 1);
    // 151 days from the fifth of January to the fifth of June.
    let (january, a_day) = across(&svg, "Jan", ("May", 120.0));
    for ((x, _), days) in dots.iter().zip([0.0, 46.0, 87.0, 147.0, 0.0, 69.0, 135.0, 55.0]) {
        assert!(close(*x, january + days * a_day), "{x} for day {days}");
    }
    let heights: Vec<_> = dots[..4].iter().map(|(_, y)| -y).collect();
    assert!(heights[0] < heights[2] && heights[2] < heights[1] && heights[1] < heights[3], "{heights:?}");
    assert!(close((heights[1] - heights[0]) / (heights[3] - heights[0]), 0.25), "0.30 of 1.20");
}

#[test]
fn a_price_holds_until_the_next() {
    let svg = four_items().svg();
    let dots = circles(&svg, BLUE, 3.0);
    let steps = lines(&svg, BLUE, 2.0);
    assert_eq!(steps.len(), 2 * (3 + 2));
    let [from, to] = steps[0];
    assert!(close(from.1, to.1) && close(to.0, dots[1].0) && close(to.1, dots[0].1));
    let onward = lines(&svg, GREY, 1.0);
    assert_eq!(onward.len(), 3, "the latest price of each item goes on to the last day");
}

#[test]
fn first_latest_and_change_stand_in_their_columns_with_a_word() {
    let svg = four_items().svg();
    let said = said(&svg);
    for words in ["first", "latest", "change", "$3.60", "$4.80", "+33.33%", "dearer", "−4.55%", "cheaper", "not bought"] {
        assert!(said.contains(&words), "{words}");
    }
    assert_eq!(said.iter().filter(|text| **text == "dearer" || **text == "cheaper").count(), 2, "bought once is neither");
}

#[test]
fn a_change_of_a_few_percent_looks_small() {
    let svg = four_items().svg();
    let dots = circles(&svg, BLUE, 3.0);
    let (butter, sugar) = (dots[0].1 - dots[3].1, dots[6].1 - dots[4].1);
    assert!(butter > 20.0 && sugar > 0.0 && sugar < butter / 3.0, "{butter} {sugar}");
}

#[test]
fn the_order_of_purchases_changes_nothing_and_days_without_room_are_left_out() {
    let mut chart = four_items();
    let plain = chart.svg();
    chart.items[0].paid.reverse();
    assert_eq!(chart.svg(), plain);
    chart.ticks = (1..=28).map(|at| (day(&format!("2026-02-{at:02}")), format!("{at} February"))).collect();
    let named = texts(&chart.svg()).iter().filter(|(text, _)| text.ends_with(" February")).count();
    assert!((1..28).contains(&named), "{named}");
    chart.ticks = vec![(day("1999-01-01"), "long ago".into())];
    assert!(!chart.svg().contains("long ago"));
}

#[test]
fn no_purchase_is_a_sentence_and_odd_prices_are_drawn() {
    let mut chart = four_items();
    chart.items = vec![item("flour", &[])];
    assert!(chart.svg().contains("There is nothing to draw for this period yet."));
    chart.items.clear();
    assert!(chart.svg().contains("There is nothing to draw for this period yet."));
    chart.items =
        vec![item("free", &[("2026-01-01", "0"), ("2026-01-01", "0")]), item("odd", &[("2026-01-01", "-4"), ("2026-01-01", "4")])];
    (chart.items[1].paid[0].price, chart.items[1].paid[1].price) = (Decimal::MIN, Decimal::MAX);
    assert!(png(&chart.svg()).is_ok());
    assert_eq!(chart.svg(), chart.svg());
}
