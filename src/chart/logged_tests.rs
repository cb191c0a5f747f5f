//! What [`LoggedChart`] draws, read back from its SVG.

use super::font::Weight;
use super::logged::{LEFT, LoggedChart, SIDE};
use super::samples::{attribute, circles, diamonds, five_orders, order, polygons, texts};
use super::theme::SMALL;
use super::{png, text};

const BLUE: &str = "#0072B2";
const VERMILLION: &str = "#D55E00";
const PALE_BLUE: &str = "#E4F0F7";

fn close(a: f64, b: f64) -> bool {
    (a - b).abs() <= 0.5
}

/// The place of `minutes` read off the labels of the ticks at one and at ten hours: across, and up.
fn place(svg: &str, minutes: f64) -> (f64, f64) {
    let tick = |label: &str, anchor: &str| {
        texts(svg).into_iter().find(|(text, line)| *text == label && line.contains(anchor)).unwrap_or_else(|| panic!("no {label}")).1
    };
    let share = (minutes / 60.0).log10();
    let across = |label| attribute(tick(label, "\"middle\""), "x") / 4.0;
    let up = |label| attribute(tick(label, "\"end\""), "y") / 4.0;
    // From the top of a tick's label to its line.
    let level = up("1 h") + share * (up("10 h") - up("1 h")) + 0.76 * SMALL - 4.5;
    (across("1 h") + share * (across("10 h") - across("1 h")), level)
}

fn at((x, y): (f64, f64), svg: &str, expected: f64, logged: f64) -> bool {
    close(x, place(svg, expected).0) && close(y, place(svg, logged).1)
}

#[test]
fn orders_stand_at_their_times_on_equal_scales() {
    let svg = five_orders().svg();
    // The first of each sign belongs to the key.
    let (dots, far_off) = (&circles(&svg, BLUE, 3.75)[1..], &diamonds(&svg, VERMILLION, 7.25)[1..]);
    assert_eq!((dots.len(), far_off.len()), (4, 1));
    for (dot, (expected, logged)) in dots.iter().zip([(60.0, 66.0), (120.0, 110.0), (300.0, 330.0), (480.0, 450.0)]) {
        assert!(at(*dot, &svg, expected, logged), "{dot:?} for {expected} and {logged}");
    }
    assert!(at(far_off[0], &svg, 150.0, 600.0), "{far_off:?}");
    let (one, ten) = (place(&svg, 60.0), place(&svg, 600.0));
    assert!(close(ten.0 - one.0, one.1 - ten.1) && ten.0 - one.0 > 100.0);
}

#[test]
fn the_diagonal_is_where_the_two_times_agree_and_is_named() {
    let svg = five_orders().svg();
    let slope = |line: &&str| line.starts_with("<line") && close(attribute(line, "x2") - attribute(line, "x1"), 4.0 * SIDE);
    let diagonal = svg.lines().filter(slope).find(|line| attribute(line, "y1") > attribute(line, "y2")).unwrap();
    let (x, y) = (attribute(diagonal, "x1") / 4.0, attribute(diagonal, "y1") / 4.0);
    let hour = place(&svg, 60.0);
    assert!(close(hour.0 - x, y - hour.1), "{x} {y} {hour:?}");
    let (_, words) = texts(&svg).into_iter().find(|(text, _)| *text == "as expected").unwrap();
    // They end over the corner where it ends.
    assert!(close(attribute(words, "x"), attribute(diagonal, "x2")) && words.contains("\"end\""));
    let above = (attribute(diagonal, "y2") - attribute(words, "y")) / 4.0;
    assert!(above > SMALL && above < 2.0 * SMALL, "{above}");
}

#[test]
fn the_band_reaches_from_a_fifth_less_to_a_quarter_more_for_one_and_a_quarter() {
    let svg = five_orders().svg();
    let band = &polygons(&svg, PALE_BLUE)[0];
    let wide = place(&svg, 75.0).0 - place(&svg, 60.0).0;
    assert_eq!(band.len(), 6);
    assert!(close(band[1].0 - band[0].0, wide) && close(band[0].1 - band[5].1, wide), "{band:?} for {wide}");
    assert!(close(band[2].1 - band[3].1, wide) && close(band[3].0 - band[4].0, wide), "{band:?} for {wide}");
    let said: Vec<_> = texts(&svg).into_iter().map(|(text, _)| text).collect();
    assert!(said.contains(&"usual: from 20 % less to 25 % more"), "{said:?}");
}

#[test]
fn without_a_usual_noise_there_is_no_band() {
    for usual in [1.0, 0.5, 0.0, -3.0, f64::NAN, f64::INFINITY] {
        let svg = LoggedChart { usual, ..five_orders() }.svg();
        assert!(polygons(&svg, PALE_BLUE).is_empty() && !svg.contains("usual"), "{usual}");
    }
    let wide = LoggedChart { usual: 1e200, ..five_orders() }.svg();
    assert!(png(&wide).is_ok() && polygons(&wide, PALE_BLUE).len() == 1);
}

#[test]
fn only_far_off_orders_are_named_and_only_the_farthest_six() {
    let mut chart = five_orders();
    let named = |chart: &LoggedChart| {
        let svg = chart.svg();
        let names: Vec<_> = texts(&svg).into_iter().map(|(text, _)| text.to_owned()).filter(|text| text.starts_with("order ")).collect();
        names
    };
    assert_eq!(named(&chart), ["order 15"]);
    // Two to nine times as long as expected, or as short.
    chart.points = (2..10_u32)
        .map(|times| {
            let logged = if times % 2 == 0 { 120.0 * f64::from(times) } else { 120.0 / f64::from(times) };
            order(&format!("order {times}"), 120.0 + f64::from(times), logged, true)
        })
        .collect();
    assert_eq!(named(&chart), ["order 9", "order 8", "order 7", "order 6", "order 5", "order 4"]);
    let svg = chart.svg();
    assert_eq!(diamonds(&svg, VERMILLION, 7.25).len(), 1 + 8);
    assert!(svg.contains("far from what was expected: 8 of them, the farthest named"));
}

#[test]
fn six_orders_in_one_place_have_six_names_within_the_frame() {
    for (expected, logged) in [(60.0, 600.0), (600.0, 60.0)] {
        let mut chart = five_orders();
        chart.points.truncate(4);
        let name = |at: u32| format!("{at}: a name far too long to be written out in full beside a mark");
        chart.points.extend((0..6).map(|at| order(&name(at), expected, logged, true)));
        let svg = chart.svg();
        let names: Vec<_> = texts(&svg).into_iter().filter(|(text, _)| text.contains(": a name far")).collect();
        assert_eq!(names.len(), 6);
        for (text, line) in names {
            let left = attribute(line, "x") / 4.0;
            assert!(text.ends_with('…') && left >= LEFT, "{text} at {left}");
            assert!(left + text::width(text, Weight::SemiBold, SMALL) <= LEFT + SIDE, "{text} at {left}");
        }
    }
}

#[test]
fn the_key_has_only_what_occurs() {
    let key = |chart: &LoggedChart| {
        let svg = chart.svg();
        let said = |wanted: &str| texts(&svg).iter().any(|(text, _)| *text == wanted);
        (said("an order"), said("an order far from what was expected"))
    };
    let mut chart = five_orders();
    assert_eq!(key(&chart), (true, true));
    chart.points.rotate_right(1);
    chart.points.truncate(1);
    assert_eq!(key(&chart), (false, true));
    chart.points[0].far_off = false;
    assert_eq!(key(&chart), (true, false));
}

#[test]
fn the_corners_say_which_side_is_which_unless_an_order_is_there() {
    let corners = |svg: &str| ["took longer than expected", "quicker than expected"].map(|words| svg.contains(words));
    let mut chart = five_orders();
    assert_eq!(corners(&chart.svg()), [true, true]);
    chart.points.push(order("", 480.0, 60.0, false));
    chart.points.push(order("", 60.0, 600.0, false));
    let svg = chart.svg();
    let dots = &circles(&svg, BLUE, 3.75)[5..];
    assert_eq!(dots.len(), 2);
    assert_eq!(corners(&svg), [false, false]);
}

#[test]
fn what_is_no_time_is_left_out_and_nothing_at_all_is_a_sentence() {
    let odd = [f64::NAN, f64::INFINITY, f64::NEG_INFINITY, 0.0, -5.0, 1e300];
    let plain = five_orders().svg();
    let mut chart = five_orders();
    chart.points.extend(odd.iter().flat_map(|odd| [order("odd", *odd, 60.0, true), order("odd", 60.0, *odd, false)]));
    assert_eq!(chart.svg(), plain);
    chart.points.drain(..5);
    let svg = chart.svg();
    assert!(svg.contains("There is nothing to draw for this period yet.") && png(&svg).is_ok());
    chart.points.clear();
    assert_eq!(chart.svg(), svg);
}

#[test]
fn the_same_data_give_the_same_bytes() {
    assert_eq!(five_orders().svg(), five_orders().svg());
    assert_eq!(png(&five_orders().svg()).unwrap(), png(&five_orders().svg()).unwrap());
}

#[test]
fn what_the_maker_typed_cannot_break_the_svg() {
    let mut chart = five_orders();
    (chart.expected_axis, chart.logged_axis) = ("<script>".into(), "<script>\u{1B}".into());
    chart.points[4].name = "<b>\"Éclair\" & 🍪'\u{FFFF}".into();
    let svg = chart.svg();
    assert!(svg.contains("&lt;b&gt;&quot;Éclair&quot; &amp; �&apos;�"));
    assert!(!svg.contains("<script") && !svg.contains("<b>") && !svg.contains('\u{1B}'));
    assert!(png(&svg).is_ok());
}
