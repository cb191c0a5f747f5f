//! What [`MonthsChart`](super::MonthsChart) draws, read back from its SVG.

use rust_decimal::Decimal;

use super::font::Weight;
use super::review_samples::{month, six_months};
use super::samples::{attribute, dec, lines, rectangles, said, texts, upward};
use super::theme::SMALL;
use super::{MonthBar, png, text};

const BLUE: &str = "#0072B2";
const ORANGE: &str = "#E69F00";
const GREEN: &str = "#009E73";
const WHITE: &str = "#FFFFFF";
const HATCH: &str = "url(#fairdozen-hatch)";
const BAND: &str = "#E4F0F7";
const INK: &str = "#1F1F1F";

fn close(a: f64, b: f64) -> bool {
    (a - b).abs() <= 0.75
}

/// The middle of a text across the page.
fn middle(svg: &str, wanted: &str) -> f64 {
    let (_, line) = texts(svg).into_iter().find(|(text, _)| *text == wanted).unwrap_or_else(|| panic!("no {wanted}"));
    attribute(line, "x") / 4.0
}

#[test]
fn bars_are_as_high_as_their_wages_and_stand_over_their_months() {
    let svg = six_months().svg();
    let (zero, dollar) = upward(&svg, "$0", ("$10", 10.0));
    // The first of each fill belongs to the key.
    let over = &rectangles(&svg, BLUE)[1..];
    assert_eq!(over.len(), 2);
    for ([x, y, width, height], (name, wage)) in over.iter().zip([("Dec", 22.6), ("Feb", 20.1)]) {
        assert!(close(x + width / 2.0, middle(&svg, name)), "{name}");
        assert!(close(*height, wage * dollar) && close(y + height, zero), "{name}: {height}");
    }
    let (zero, hour) = upward(&svg, "0 h", ("50 h", 50.0));
    let hours = rectangles(&svg, GREEN);
    assert_eq!(hours.len(), 5);
    for ([_, y, _, height], worked) in hours.iter().zip([38.0, 71.0, 44.0, 12.0, 47.0]) {
        assert!(close(*height, worked * hour) && close(y + height, zero), "{height} for {worked}");
    }
}

#[test]
fn short_is_hatched_and_a_month_of_few_orders_is_hollow() {
    let svg = six_months().svg();
    // The key, November and April; March is short too, but hollow.
    assert_eq!(rectangles(&svg, HATCH).len(), 3);
    let march = middle(&svg, "Mar");
    let holds = |[x, _, width, _]: &[f64; 4]| *x < march && march < x + width;
    assert_eq!(rectangles(&svg, ORANGE).iter().filter(|place| holds(place)).count(), 1);
    assert_eq!(rectangles(&svg, WHITE).iter().filter(|place| holds(place)).count(), 1);
    assert!(said(&svg).contains(&"few orders, so rough"));
}

#[test]
fn a_loss_hangs_from_zero() {
    let mut chart = six_months();
    chart.months[0] = month("Nov", "2025", "-8", "38");
    let svg = chart.svg();
    let (zero, dollar) = upward(&svg, "$0", ("$10", 10.0));
    let [_, y, _, height] = rectangles(&svg, ORANGE)[1];
    assert!(close(y, zero) && close(height, 8.0 * dollar));
    assert!(said(&svg).contains(&"worst −$8.00"));
}

#[test]
fn the_current_month_stands_on_a_band_and_is_bold() {
    let mut chart = six_months();
    let svg = chart.svg();
    let [x, _, width, _] = rectangles(&svg, BAND)[0];
    assert!(close(x + width / 2.0, middle(&svg, "Apr")));
    for words in ["$18.40", "47 h", "Apr"] {
        let (_, line) = texts(&svg).into_iter().find(|(text, _)| *text == words).unwrap();
        assert!(line.contains("bold"), "{words}");
    }
    chart.months[5].current = false;
    assert!(rectangles(&chart.svg(), BAND).is_empty());
}

#[test]
fn best_and_worst_are_named_unless_few_orders_stand_behind_them() {
    let mut chart = six_months();
    let named = |svg: &str, word: &str| said(svg).into_iter().find(|text| text.starts_with(word)).map(str::to_owned);
    let svg = chart.svg();
    assert_eq!(named(&svg, "best ").as_deref(), Some("best $22.60"));
    assert_eq!(named(&svg, "worst ").as_deref(), Some("worst $14.20"));
    assert_eq!(named(&svg, "most ").as_deref(), Some("most 71 h"));
    chart.months[1].few = true;
    assert_eq!(named(&chart.svg(), "best ").as_deref(), Some("best $20.10"));
    chart.months.truncate(2);
    assert_eq!(named(&chart.svg(), "best "), None, "of one or two none is best");
}

/// "$18.80 best $19.14 $18.31" stood in one line over three neighbours.
#[test]
fn figures_of_neighbours_do_not_run_together() {
    let mut chart = six_months();
    for count in [3_u32, 8, 12, 24] {
        for current in 0..count {
            let wage = |at: u32| if at == 4 { "19.14".to_owned() } else { format!("18.{}", 80 - at) };
            let bar = |at: u32| MonthBar { current: at == current, ..month("Jan", "2026", &wage(at), "40") };
            chart.months = (0..count).map(bar).collect();
            let svg = chart.svg();
            let lines = texts(&svg);
            let figures = lines.iter().filter(|(text, _)| text.contains("$1") || text.contains("$20.00"));
            let places: Vec<_> = figures
                .map(|(text, line)| {
                    let weight = if line.contains("bold") { Weight::SemiBold } else { Weight::Regular };
                    let (x, wide) = (attribute(line, "x") / 4.0, text::width(text, weight, SMALL));
                    let left = if line.contains("\"middle\"") { x - wide / 2.0 } else { x };
                    (*text, left, left + wide, attribute(line, "y") / 4.0)
                })
                .filter(|(_, left, ..)| *left > 60.0)
                .collect();
            for (at, (one, left, right, y)) in places.iter().enumerate() {
                for (other, other_left, other_right, other_y) in &places[at + 1..] {
                    let apart = right + 12.0 <= *other_left || other_right + 12.0 <= *left || (y - other_y).abs() >= 12.0;
                    assert!(apart, "{one:?} and {other:?}, {current} of {count}");
                }
            }
        }
    }
}

#[test]
fn a_month_without_orders_is_a_gap_under_its_name() {
    let svg = six_months().svg();
    let january = middle(&svg, "Jan");
    let over = |fill: &str| rectangles(&svg, fill).iter().any(|[x, _, width, _]| *x < january && january < x + width);
    assert!(!over(BLUE) && !over(GREEN) && !over(ORANGE));
}

#[test]
fn the_target_runs_through_the_wages_at_its_amount() {
    let mut chart = six_months();
    let svg = chart.svg();
    let (zero, dollar) = upward(&svg, "$0", ("$10", 10.0));
    let target = lines(&svg, INK, 2.0);
    assert!(target.len() == 1 && close(target[0][0].1, zero - 20.0 * dollar) && close(target[0][1].1, target[0][0].1));
    assert!(said(&svg).contains(&"target"));
    chart.target = None;
    assert!(lines(&chart.svg(), INK, 2.0).is_empty());
}

#[test]
fn of_many_months_the_last_36_are_drawn_some_named_and_the_current_one_always() {
    let mut chart = six_months();
    let bar = |at: u32| MonthBar { current: at == 41, ..month(&format!("m{at}"), &(at / 12).to_string(), "12", "30") };
    chart.months = (0..50).map(bar).collect();
    let svg = chart.svg();
    assert_eq!(rectangles(&svg, GREEN).len(), 36);
    let named: Vec<_> = said(&svg).into_iter().filter(|text| text.starts_with('m')).map(str::to_owned).collect();
    assert!(named.len() < 36 && named.contains(&"m41".to_owned()), "{named:?}");
    assert!(!named.contains(&"m13".to_owned()));
    for year in ["1", "2", "3", "4"] {
        assert_eq!(said(&svg).iter().filter(|text| **text == year).count(), 1, "{year}");
    }
}

#[test]
fn nothing_known_is_a_sentence_and_odd_figures_are_drawn() {
    let mut chart = six_months();
    for month in &mut chart.months {
        (month.wage, month.hours) = (None, None);
    }
    assert!(chart.svg().contains("There is nothing to draw for this period yet."));
    chart.months.clear();
    assert!(chart.svg().contains("There is nothing to draw for this period yet."));
    chart.months = vec![month("Jan", "2026", "1", "-4"), month("Feb", "2026", "1", "4")];
    (chart.months[0].wage, chart.months[1].wage) = (Some(Decimal::MAX), Some(Decimal::MIN));
    chart.target = Some((dec("-20"), String::new()));
    assert!(png(&chart.svg()).is_ok());
    assert_eq!(chart.svg(), chart.svg());
}
