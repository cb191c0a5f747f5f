//! What [`PriceMinutesChart`](super::PriceMinutesChart) draws, read back from its SVG.

use rust_decimal::Decimal;

use super::review_samples::{four_designs, sold, wage_line};
use super::samples::{across, attribute, circles, dec, diamonds, lines, said, texts, upward};
use super::theme::WIDTH;
use super::{Standing, png};

const BLUE: &str = "#0072B2";
const VERMILLION: &str = "#D55E00";
const INK: &str = "#1F1F1F";
const GREY: &str = "#4A4A4A";
const LINE: &str = "#8A8A8A";

fn close(a: f64, b: f64) -> bool {
    (a - b).abs() <= 0.75
}

/// Where minutes and a price fall on the page.
fn place(svg: &str, minutes: f64, price: f64) -> (f64, f64) {
    let ((x, minute), (y, dollar)) = (across(svg, "0 min", ("10 min", 10.0)), upward(svg, "$0", ("$2", 2.0)));
    (x + minutes * minute, y - price * dollar)
}

fn assert_at(found: (f64, f64), svg: &str, (minutes, price): (f64, f64)) {
    let (x, y) = place(svg, minutes, price);
    assert!(close(found.0, x) && close(found.1, y), "{found:?}, not {x} {y}");
}

#[test]
fn marks_stand_at_their_minutes_and_prices_and_differ_in_shape() {
    let svg = four_designs().svg();
    // The first of each belongs to the key; the first design is drawn last.
    let over = &circles(&svg, BLUE, 5.5)[1..];
    assert_eq!(over.len(), 2);
    assert_at(over[0], &svg, (22.0, 9.5));
    assert_at(over[1], &svg, (9.0, 4.75));
    assert_at(diamonds(&svg, VERMILLION, 7.75)[1], &svg, (36.0, 7.0));
    assert_at(circles(&svg, GREY, 5.5)[1], &svg, (12.0, 5.0));
}

#[test]
fn lines_of_equal_wage_begin_at_the_cost_and_rise_with_the_minutes() {
    let svg = four_designs().svg();
    let target = lines(&svg, INK, 2.0);
    assert_eq!(target.len(), 1);
    assert_at(target[0][0], &svg, (0.0, 0.90));
    // $20 an hour over $0.90 leaves the frame at $10 after 27.3 minutes.
    assert_at(target[0][1], &svg, (27.3, 10.0));
    let others = lines(&svg, LINE, 1.25);
    assert_eq!(others.len(), 2);
    assert_at(others[0][1], &svg, (50.0, 0.90 + 50.0 / 6.0));
    for words in ["$10 an hour", "$20 an hour, your target", "$30 an hour"] {
        assert!(said(&svg).contains(&words), "{words}");
    }
}

#[test]
fn a_line_outside_the_frame_or_without_room_for_its_words_is_not_drawn() {
    let mut chart = four_designs();
    chart.lines = (0..40).map(|_| wage_line("20", false)).collect();
    let drawn = lines(&chart.svg(), LINE, 1.25).len();
    assert!((1..40).contains(&drawn) && drawn == said(&chart.svg()).iter().filter(|text| **text == "$20 an hour").count());
    chart.lines = vec![wage_line("20", false), wage_line("20", false)];
    (chart.lines[0].base, chart.lines[0].a_minute) = (dec("-50"), dec("-1"));
    (chart.lines[1].base, chart.lines[1].a_minute) = (dec("3"), Decimal::ZERO);
    let flat = lines(&chart.svg(), LINE, 1.25);
    assert_eq!(flat.len(), 1);
    assert!(close(flat[0][0].1, flat[0][1].1) && flat[0][1].0 - flat[0][0].0 > WIDTH / 2.0);
}

#[test]
fn every_design_has_its_name_beside_it_or_a_number_and_a_line_in_the_list() {
    let names = |svg: &str, name: &str| said(svg).iter().filter(|text| **text == name).count();
    let svg = four_designs().svg();
    assert!(["Dragon", "Birthday numeral", "Leaf", "Heart plaque"].iter().all(|name| names(&svg, name) == 1));
    assert!(!said(&svg).contains(&"1"));

    let mut crowd = four_designs();
    crowd.points =
        (0..40).map(|at| sold(&format!("design {at}"), &(10 + at % 20).to_string(), &format!("5.{at:02}"), Standing::Over)).collect();
    let svg = crowd.svg();
    assert!((0..40).all(|at| names(&svg, &format!("design {at}")) == 1));
    // A name beside its mark has no figure; one in the list has.
    let listed = said(&svg).iter().filter(|text| text.starts_with("$5.") && text.ends_with(" min")).count();
    let numbers = (1..=listed).filter(|number| names(&svg, &number.to_string()) == 2).count();
    assert!(listed > 0 && listed < 40 && numbers > 0, "{listed} listed, {numbers} of them with a number");
    // A number in the list stands beside a mark too.
    assert!((numbers + 1..=40).all(|number| names(&svg, &number.to_string()) == 0));

    let mut heap = four_designs();
    heap.points = (0..40).map(|at| sold(&format!("design {at}"), "10", "5", Standing::Over)).collect();
    let svg = heap.svg();
    assert!((0..40).all(|at| names(&svg, &format!("design {at}")) == 1));
    assert!((30..40).contains(&names(&svg, "$5.00, 10 min")));
    assert!((1..=40).all(|number| [0, 2].contains(&names(&svg, &number.to_string()))));
}

#[test]
fn names_that_come_first_are_nearest() {
    let svg = four_designs().svg();
    let (_, line) = texts(&svg).into_iter().find(|(text, _)| *text == "Dragon").unwrap();
    let (x, y) = place(&svg, 36.0, 7.0);
    assert!((attribute(line, "x") / 4.0 - x).abs() < 20.0 && (attribute(line, "y") / 4.0 - y).abs() < 20.0);
}

#[test]
fn intervals_are_drawn_where_both_ends_are_known() {
    let mut chart = four_designs();
    let whiskers = |svg: &str| lines(svg, LINE, 1.0).into_iter().filter(|[a, b]| close(a.1, b.1)).collect::<Vec<_>>();
    let svg = chart.svg();
    assert!(svg.contains("(90 %)"));
    let first = whiskers(&svg)[1];
    assert_at(first[0], &svg, (28.8, 7.0));
    assert_at(first[1], &svg, (43.2, 7.0));
    for point in &mut chart.points {
        point.low = None;
    }
    assert!(!chart.svg().contains("(90 %)") && whiskers(&chart.svg()).is_empty());
}

#[test]
fn what_is_no_time_is_left_out_and_nothing_is_a_sentence() {
    let mut chart = four_designs();
    let plain = chart.svg();
    chart.points.push(sold("odd", "-1", "5", Standing::Over));
    assert_eq!(chart.svg(), plain);
    chart.points.drain(..4);
    assert!(chart.svg().contains("There is nothing to draw for this period yet."));
    chart.points = vec![sold("free", "0", "0", Standing::Unknown)];
    chart.lines.clear();
    assert!(png(&chart.svg()).is_ok());
    (chart.points[0].minutes, chart.points[0].price, chart.points[0].high) = (Decimal::MAX, Decimal::MIN, Some(Decimal::MAX));
    chart.lines = vec![wage_line("20", true)];
    assert!(png(&chart.svg()).is_ok());
    assert_eq!(chart.svg(), chart.svg());
}
