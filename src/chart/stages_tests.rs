//! What [`StagesChart`](super::StagesChart) draws, read back from its SVG.

use rust_decimal::Decimal;

use super::png;
use super::review_samples::{six_stages, stage, waiting};
use super::samples::{across, dec, polygons, rectangles, said};

const OWN: &str = "#0072B2";
const HELPERS: &str = "#56B4E9";
const GREY: &str = "#9A9A9A";
const HATCH: &str = "url(#fairdozen-hatch)";

fn close(a: f64, b: f64) -> bool {
    (a - b).abs() <= 0.75
}

#[test]
fn her_hours_come_first_and_helpers_go_on_from_them() {
    let svg = six_stages().svg();
    let (zero, hour) = across(&svg, "0 h", ("10 h", 10.0));
    // The first of each fill belongs to the key.
    let own = &rectangles(&svg, OWN)[1..];
    assert_eq!(own.len(), 6);
    for ([x, _, width, _], hours) in own.iter().zip([22.5, 5.5, 1.5, 4.0, 3.5, 3.5]) {
        assert!(close(*x, zero) && close(*width, hours * hour), "{x} {width} for {hours}");
    }
    let helpers = &rectangles(&svg, HELPERS)[1..];
    assert_eq!(helpers.len(), 2);
    for ([x, _, width, _], end) in helpers.iter().zip([26.0, 4.5]) {
        assert!(close(x + width, zero + end * hour), "{x} {width} to {end}");
    }
}

#[test]
fn without_helpers_there_is_no_key() {
    let mut chart = six_stages();
    assert!(said(&chart.svg()).contains(&"your helpers"));
    for stage in &mut chart.stages {
        stage.helpers = Decimal::ZERO;
    }
    let svg = chart.svg();
    assert!(!svg.contains("your helpers") && rectangles(&svg, OWN).len() == 6);
}

#[test]
fn waiting_stands_apart_hatched_and_does_not_flatten_the_work() {
    let mut chart = six_stages();
    let svg = chart.svg();
    assert!(said(&svg).contains(&"waiting, not work") && said(&svg).contains(&"168 h"));
    assert_eq!(rectangles(&svg, HATCH).len(), 1);
    assert_eq!(polygons(&svg, GREY).len(), 1, "168 hours go on past the axis");
    let long = across(&svg, "0 h", ("10 h", 10.0)).1;
    chart.waiting = vec![waiting("dry", "9")];
    let svg = chart.svg();
    let (zero, hour) = across(&svg, "0 h", ("10 h", 10.0));
    assert!(hour < 2.0 * long && polygons(&svg, GREY).is_empty());
    let [x, _, width, _] = rectangles(&svg, GREY)[0];
    assert!(close(x, zero) && close(width, 9.0 * hour), "{x} {width}, not {zero} {}", 9.0 * hour);
    chart.waiting.clear();
    assert!(!chart.svg().contains("waiting"));
}

#[test]
fn rows_keep_their_order_with_hours_and_shares() {
    let svg = six_stages().svg();
    let said = said(&svg);
    let at = |wanted: &str| said.iter().position(|text| *text == wanted).unwrap_or_else(|| panic!("no {wanted}"));
    let order = ["hours", "share", "decorate", "26.0 h", "55 %", "roll", "5.5 h", "12 %", "pack", "bake", "clean", "admin", "dry"];
    assert!(order.windows(2).all(|pair| at(pair[0]) < at(pair[1])), "{said:?}");
}

#[test]
fn nothing_is_a_sentence_and_odd_hours_are_drawn() {
    let mut chart = six_stages();
    chart.stages.clear();
    assert!(png(&chart.svg()).is_ok() && chart.svg().contains("168 h"), "waiting alone");
    chart.waiting.clear();
    assert!(chart.svg().contains("There is nothing to draw for this period yet."));
    chart.stages = vec![stage("bake", "-3", "0", ""), stage("roll", "1", "0", "")];
    assert_eq!(rectangles(&chart.svg(), OWN).len(), 1);
    (chart.stages[0].own, chart.stages[0].helpers) = (Decimal::MAX, Decimal::MAX);
    chart.waiting = vec![waiting("dry", "1")];
    chart.waiting[0].hours = dec("-5");
    assert!(png(&chart.svg()).is_ok());
    assert_eq!(chart.svg(), chart.svg());
}
