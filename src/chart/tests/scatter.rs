//! What [`Scatter`] lays out.

use rust_decimal::Decimal;
use rust_decimal::prelude::ToPrimitive;

use super::marks::{Text, across, arrows, assert_near, lines, said, signs, text, texts, upward};
use super::samples::{dec, five_orders, four_designs, level, nine_orders, order, point, raise, wage_line};
use crate::chart::draw::picture::{Role, Shape};
use crate::chart::draw::theme::{BAND, BASELINE, FAINT, INK, LEARNED, MEAN};
use crate::chart::{Chart, LineLook, Picture, Point, Scatter, Series, Sign, Width};

const WIDTHS: [Width; 2] = [Width::Wide, Width::Narrow];

/// Where minutes and a price fall.
fn place(picture: &Picture, minutes: f64, price: f64) -> (f64, f64) {
    let ((x, minute), (y, dollar)) = (across(picture, "0 min"), upward(picture, "$0"));
    (x + minutes * minute, y - price * dollar)
}

fn assert_at(found: (f64, f64), expected: (f64, f64)) {
    assert_near(found.0, expected.0);
    assert_near(found.1, expected.1);
}

#[test]
fn points_stand_at_their_amounts() {
    for width in WIDTHS {
        let picture = four_designs().picture(width);
        for (at, (minutes, price)) in [(36.0, 7.0), (9.0, 4.75), (12.0, 5.0), (22.0, 9.5)].into_iter().enumerate() {
            assert_at(signs(&picture, at)[0], place(&picture, minutes, price));
        }
        let range = lines(&picture, Role::Data(0), FAINT)[0];
        assert_at(range[0], place(&picture, 28.8, 7.0));
        assert_at(range[1], place(&picture, 43.2, 7.0));
    }
}

#[test]
fn lines_begin_at_their_base_and_end_at_the_edge_with_their_words() {
    for width in WIDTHS {
        let picture = four_designs().picture(width);
        let target = lines(&picture, Role::Line, INK);
        assert_eq!(target.len(), 1);
        assert_at(target[0][0], place(&picture, 0.0, 0.90));
        // $20 an hour over $0.90 leaves the frame at $10 after 27.3 minutes.
        assert_at(target[0][1], place(&picture, 27.3, 10.0));
        let others = lines(&picture, Role::Line, FAINT);
        assert_eq!(others.len(), 2);
        assert_at(others[0][1], place(&picture, 50.0, 0.90 + 50.0 / 6.0));
        let words = text(&picture, "$10 an hour");
        if width == Width::Wide {
            assert!(words.left > others[0][1].0);
        } else {
            assert!(words.right <= others[0][1].0 && words.top > others[0][1].1, "within the plot, beneath its line");
        }
        assert!(text(&picture, "$20 an hour").bottom <= target[0][1].1, "above the frame");
    }
}

#[test]
fn a_line_outside_the_plot_or_without_room_for_its_words_is_not_drawn() {
    let mut chart = four_designs();
    for width in WIDTHS {
        chart.lines = (0..80).map(|_| wage_line("20", LineLook::Faint)).collect();
        let picture = chart.picture(width);
        let drawn = lines(&picture, Role::Line, FAINT).len();
        assert!((1..80).contains(&drawn) && drawn == said(&picture).iter().filter(|text| *text == "$20 an hour").count());
        chart.lines = vec![wage_line("20", LineLook::Faint), wage_line("20", LineLook::Faint)];
        (chart.lines[0].base, chart.lines[0].slope) = (dec("-50"), dec("-1"));
        (chart.lines[1].base, chart.lines[1].slope) = (dec("3"), Decimal::ZERO);
        let flat = lines(&chart.picture(width), Role::Line, FAINT);
        assert!(flat.len() == 1 && flat[0][1].0 - flat[0][0].0 > 200.0);
        assert_near(flat[0][0].1, flat[0][1].1);
    }
}

#[test]
fn every_named_point_has_its_name_beside_it_or_a_number_and_a_line_in_the_list() {
    let count = |picture: &Picture, wanted: &str| said(picture).iter().filter(|text| *text == wanted).count();
    for width in WIDTHS {
        let picture = four_designs().picture(width);
        assert!(["Dragon", "Birthday numeral", "Leaf", "Heart plaque"].iter().all(|name| count(&picture, name) == 1));
        let named = |at: u32, across: u32, up: String| point(&format!("design {at}"), &across.to_string(), &up, 0);
        let mut crowd = four_designs();
        crowd.points = (0..40).map(|at| named(at, 10 + at % 20, format!("5.{at:02}"))).collect();
        let picture = crowd.picture(width);
        assert!((0..40).all(|at| count(&picture, &format!("design {at}")) == 1));
        // A name beside its mark has no figure; one in the list has. A number in the list stands beside a mark too.
        let listed = said(&picture).iter().filter(|text| text.starts_with("$5.") && text.ends_with(" min")).count();
        let numbers = (1..=listed).filter(|number| count(&picture, &number.to_string()) == 2).count();
        assert!(listed > 0 && listed < 40 && numbers > 0, "{listed} listed, {numbers} of them with a number");
        assert!((numbers + 1..=40).all(|number| count(&picture, &number.to_string()) == 0));
        let mut heap = four_designs();
        heap.points = (0..40).map(|at| named(at, 10, "5".into())).collect();
        let picture = heap.picture(width);
        assert!((0..40).all(|at| count(&picture, &format!("design {at}")) == 1) && count(&picture, "$5, 10 min") >= 30);
    }
}

#[test]
fn a_name_without_a_line_is_nearest_to_its_own_mark() {
    let mut chart = four_designs();
    chart.points =
        (0..12).map(|at: u32| point(&format!("design {at}"), &(10 + at * 7 % 9).to_string(), &format!("5.{}", at * 5 % 10), 0)).collect();
    chart.lines.clear();
    for width in WIDTHS {
        let picture = chart.picture(width);
        let marks: Vec<_> = (0..12).map(|at| signs(&picture, at)[0]).collect();
        let joined = lines(&picture, Role::Name, crate::chart::draw::theme::SOFT_INK);
        for text in texts(&picture).iter().filter(|text| text.role == Role::Name && text.words.starts_with("design")) {
            let distance =
                |(x, y): &(f64, f64)| (text.left - x).max(x - text.right).max(0.0).hypot((text.top - y).max(y - text.bottom).max(0.0));
            let own: usize = text.words.trim_start_matches("design ").parse().unwrap();
            let is_joined = joined.iter().any(|line| distance(&line[1]) < 6.0);
            let is_nearest = marks.iter().all(|mark| distance(mark) + 2.0 >= distance(&marks[own]));
            assert!(is_joined || is_nearest, "{text:?}");
        }
    }
}

#[test]
fn orders_in_one_place_are_one_dot_and_those_far_out_are_arrow_heads() {
    for width in WIDTHS {
        let mut chart = nine_orders();
        let calm = upward(&chart.picture(width), "$0").1;
        assert_eq!(arrows(&chart.picture(width)), 0);
        chart.points.extend([order("12", "9.40"), order("24", "900"), order("24", "-800"), order("5000", "20")]);
        let picture = chart.picture(width);
        assert_eq!((0..chart.points.len()).map(|at| signs(&picture, at).len()).sum::<usize>(), 9);
        assert_eq!(arrows(&picture), 3);
        assert!(said(&picture).contains(&"3 orders far beyond the edge".to_owned()));
        assert!(upward(&picture, "$0").1 > calm / 2.0);
    }
}

#[test]
fn levels_lie_over_their_stretch_and_their_figures_stand_below_the_plot() {
    for width in WIDTHS {
        let picture = nine_orders().picture(width);
        let ((zero, piece), (floor, dollar)) = (across(&picture, "0"), upward(&picture, "$0"));
        let drawn = lines(&picture, Role::Line, MEAN);
        assert_eq!(drawn.len(), 3);
        for ([from, to], (low, high, mean)) in drawn.iter().zip([(0.5, 12.5, 11.2), (12.5, 24.5, 18.6)]) {
            assert_near(from.0 - 1.0, zero + low * piece);
            assert_near(to.0 + 1.0, zero + high * piece);
            assert_near(from.1, floor - mean * dollar);
        }
        for words in ["13–24 pieces", "$18.60"] {
            assert!(text(&picture, words).top > floor, "{words}");
        }
        assert_eq!(lines(&picture, Role::List, MEAN).len(), 3, "the mark ties each figure to its line");
    }
}

#[test]
fn the_target_and_the_smallest_order_stand_at_their_amounts() {
    for width in WIDTHS {
        let mut chart = nine_orders();
        let picture = chart.picture(width);
        let ((zero, piece), (floor, dollar)) = (across(&picture, "0"), upward(&picture, "$0"));
        assert_near(lines(&picture, Role::Line, INK)[0][0].1, floor - 20.0 * dollar);
        assert_near(lines(&picture, Role::Line, BASELINE)[0][0].0, zero + 18.0 * piece);
        assert_near(
            text(&picture, "orders pay from 18 cookies up").middle().max(zero + 18.0 * piece),
            text(&picture, "orders pay from 18 cookies up").middle(),
        );
        let words = text(&picture, "target $20.00");
        assert_eq!(words.role, if width == Width::Wide { Role::Line } else { Role::Key });
        chart.uprights = vec![(Decimal::from(90), "90 pieces".into())];
        assert!(said(&chart.picture(width)).contains(&"80".to_owned()), "the axis reaches the smallest order");
    }
}

#[test]
fn two_thousand_points_stay_small() {
    let of = |at: i64| order(&(1 + at * 37 % 97).to_string(), &Decimal::new(at * 7919 % 4000, 2).to_string());
    let svg = Scatter { points: (0..2000).map(of).collect(), ..nine_orders() }.svg(Width::Wide);
    assert!(svg.len() < 400_000 && svg.matches("<circle").count() > 1500, "{} bytes", svg.len());
}

/// Where minutes fall on the axis of times across, and up.
fn time_place(picture: &Picture, minutes: f64) -> (f64, f64) {
    let named = |wanted: &str| texts(picture).into_iter().filter(|text| text.words == wanted).collect::<Vec<_>>();
    // The label across stands furthest right and lowest.
    let across = |label: &str| named(label).iter().map(Text::middle).fold(0.0, f64::max);
    let up = |label: &str| named(label).iter().map(|text| text.baseline).fold(f64::MAX, f64::min) - 4.5;
    let share = (minutes / 60.0).log10();
    (across("1 h") + share * (across("10 h") - across("1 h")), up("1 h") + share * (up("10 h") - up("1 h")))
}

#[test]
fn times_stand_on_equal_scales_about_the_diagonal() {
    for width in WIDTHS {
        let chart = five_orders();
        let picture = chart.picture(width);
        for (at, order) in chart.points.iter().enumerate() {
            let (expected, logged) = (order.across.to_f64().unwrap(), order.up.to_f64().unwrap());
            assert_at(signs(&picture, at)[0], (time_place(&picture, expected).0, time_place(&picture, logged).1));
        }
        let diagonal = lines(&picture, Role::Line, BASELINE)[0];
        assert_near(diagonal[1].0 - diagonal[0].0, diagonal[0].1 - diagonal[1].1);
        let hour = time_place(&picture, 60.0);
        assert_near(hour.0 - diagonal[0].0, diagonal[0].1 - hour.1);
        assert!(text(&picture, "as expected").bottom <= diagonal[1].1);
    }
}

#[test]
fn the_band_reaches_from_a_fifth_less_to_a_quarter_more_for_one_and_a_quarter() {
    let bands = |picture: &Picture| {
        let band = |shape: &Shape| if let Shape::Polygon(corners, BAND) = shape { Some(corners.clone()) } else { None };
        picture.marks.iter().filter_map(|mark| band(&mark.shape)).collect::<Vec<_>>()
    };
    for width in WIDTHS {
        let mut chart = five_orders();
        let picture = chart.picture(width);
        let (band, wide) = (&bands(&picture)[0], time_place(&picture, 75.0).0 - time_place(&picture, 60.0).0);
        assert_near(band[1].0 - band[0].0, wide);
        assert_near(band[0].1 - band[5].1, wide);
        assert!(said(&picture).contains(&"usual: from 20 % less to 25 % more".to_owned()));
        chart.band = None;
        assert!(bands(&chart.picture(width)).is_empty());
    }
}

#[test]
fn corners_have_their_words_unless_something_is_there() {
    let corners = |chart: &Scatter, width: Width| {
        let said = said(&chart.picture(width));
        ["took longer than expected", "quicker than expected"].map(|words| said.contains(&words.to_owned()))
    };
    for width in WIDTHS {
        let mut chart = five_orders();
        chart.points.remove(0);
        assert_eq!(corners(&chart, width), [true, true]);
        for (short, long) in [("60", "480"), ("64", "440"), ("70", "400"), ("85", "360")] {
            chart.points.push(Point { is_named: false, ..point("", long, short, 1) });
            chart.points.push(Point { is_named: false, ..point("", short, long, 1) });
        }
        assert_eq!(corners(&chart, width), [false, false]);
    }
}

#[test]
fn the_break_even_stands_where_the_line_crosses_zero() {
    for width in WIDTHS {
        let picture = raise().picture(width);
        let ((zero, percent), (level, dollar)) = (across(&picture, "0 %"), upward(&picture, "$0"));
        assert_at(signs(&picture, 0)[0], (zero + 20.0 * percent, level));
        let line = lines(&picture, Role::Line, LEARNED)[0];
        assert_at(line[0], (zero, level - 2000.0 * dollar));
        assert_at(line[1], (zero + 40.0 * percent, level + 2000.0 * dollar));
        for words in ["20 % lost: as much money as now", "more than now", "less than now"] {
            assert!(said(&picture).contains(&words.to_owned()), "{words}");
        }
    }
}

#[test]
fn what_has_no_place_is_left_out_and_nothing_is_a_sentence() {
    let mut chart = four_designs();
    let plain = chart.svg(Width::Wide);
    chart.points.push(point("odd", "-1", "5", 0));
    assert_eq!(chart.svg(Width::Wide), plain);
    chart.points.drain(..4);
    assert!(said(&chart.picture(Width::Wide)).contains(&"There is nothing to draw for this period yet.".to_owned()));
    let mut times = five_orders();
    let plain = times.svg(Width::Narrow);
    for odd in ["0", "-5", "99999999999", "0.001"] {
        times.points.push(point("odd", odd, "60", 0));
        times.points.push(point("odd", "60", odd, 1));
    }
    assert_eq!(times.svg(Width::Narrow), plain);
    let nothing = Scatter { points: Vec::new(), lines: Vec::new(), ..raise() };
    assert!(said(&nothing.picture(Width::Narrow)).contains(&"No order lost makes it worse.".to_owned()));
}

#[test]
fn odd_amounts_are_laid_out_all_the_same() {
    let mut chart = four_designs();
    chart.points = vec![Point { range: Some((Decimal::ZERO, Decimal::MAX)), ..point("free", "0", "0", 9) }];
    (chart.points[0].across, chart.points[0].up) = (Decimal::MAX, Decimal::MIN);
    chart.series = vec![Series::new(Sign::One, "")];
    assert_eq!(chart.svg(Width::Wide), chart.svg(Width::Wide));
    let mut sizes = nine_orders();
    sizes.points =
        vec![Point { across: Decimal::MAX, up: Decimal::MAX, ..Point::default() }, Point { up: Decimal::MIN, ..Point::default() }];
    sizes.levels = vec![level("all", "9", Some("3"), Some("5"))];
    sizes.uprights = vec![(Decimal::MAX, String::new())];
    assert_eq!(sizes.svg(Width::Narrow), sizes.svg(Width::Narrow));
}
