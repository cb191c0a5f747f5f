//! What [`Columns`] lays out.

use rust_decimal::Decimal;

use super::marks::{assert_near, bars, fills, hatchings, lines, said, text, texts, upward};
use super::samples::{dec, month, six_months};
use crate::chart::draw::picture::{Layer, Role, Shape};
use crate::chart::draw::theme::{BAND, INK, WHITE};
use crate::chart::{Chart, Columns, Fill, Month, Picture, Width};

const WIDTHS: [Width; 2] = [Width::Wide, Width::Narrow];

fn bands(picture: &Picture) -> Vec<[f64; 4]> {
    let band = |shape: &Shape| if let Shape::Rect(place, BAND) = shape { Some(*place) } else { None };
    picture.marks.iter().filter(|mark| mark.layer == Layer::Under).filter_map(|mark| band(&mark.shape)).collect()
}

#[test]
fn columns_are_as_high_as_their_amounts_and_stand_over_their_months() {
    for width in WIDTHS {
        let picture = six_months().picture(width);
        let ((zero, dollar), (floor, hour)) = (upward(&picture, "$0"), upward(&picture, "0 h"));
        for (at, name, wage, hours) in [(1, "Dec", 22.6, 71.0), (3, "Feb", 20.1, 44.0), (5, "Apr", 18.4, 47.0)] {
            let [pay, worked] = bars(&picture, at)[..] else { panic!("two columns in month {at}") };
            assert_near(pay[3], zero);
            assert_near(pay[1], zero - wage * dollar);
            assert_near(worked[3], floor);
            assert_near(worked[1], floor - hours * hour);
            if width == Width::Wide {
                assert_near(text(&picture, name).middle(), f64::midpoint(pay[0], pay[2]));
            }
        }
        assert!(bars(&picture, 2).is_empty(), "a month without orders is a gap");
    }
}

#[test]
fn a_gap_says_what_it_is_where_its_words_have_room() {
    let mut chart = six_months();
    chart.months[2].gap = "no orders".to_owned();
    let picture = chart.picture(Width::Wide);
    let (no, orders) = (text(&picture, "no"), text(&picture, "orders"));
    assert_near(no.middle(), text(&picture, "Jan").middle());
    assert!(no.baseline < orders.top && orders.bottom <= upward(&picture, "$0").0, "the second word stands over zero");
    chart.months = (0..36).map(|at| Month { gap: "no orders".to_owned(), ..month(&format!("m{at}"), "2026", "", "30") }).collect();
    assert!(!said(&chart.picture(Width::Wide)).contains(&"orders".to_owned()), "too narrow");
}

#[test]
fn short_is_hatched_and_a_month_of_few_orders_is_an_outline() {
    let picture = six_months().picture(Width::Wide);
    assert_eq!([0, 1, 3, 4, 5].map(|at| hatchings(&picture, at).len()), [1, 0, 0, 0, 1]);
    assert_eq!(fills(&picture, 4)[..2], [Fill::Below.colour(), WHITE]);
    assert!(said(&picture).contains(&"few orders, so rough".to_owned()));
}

#[test]
fn a_loss_hangs_from_zero() {
    let mut chart = six_months();
    chart.months[0] = month("Nov", "2025", "-8", "38");
    for width in WIDTHS {
        let picture = chart.picture(width);
        let (zero, dollar) = upward(&picture, "$0");
        let [_, top, _, bottom] = bars(&picture, 0)[0];
        assert_near(top, zero);
        assert_near(bottom, zero + 8.0 * dollar);
    }
}

#[test]
fn the_month_in_question_stands_on_a_band_and_is_bold() {
    let mut chart = six_months();
    let picture = chart.picture(Width::Wide);
    let [left, _, right, _] = bands(&picture)[0];
    assert_near(f64::midpoint(left, right), text(&picture, "Apr").middle());
    assert!(["$18.40", "47 h", "Apr"].iter().all(|words| text(&picture, words).is_bold));
    chart.months[5].is_current = false;
    assert!(bands(&chart.picture(Width::Wide)).is_empty());
}

#[test]
fn a_column_with_a_word_always_has_its_figure() {
    for width in WIDTHS {
        let picture = six_months().picture(width);
        assert!(["best $22.60", "worst $14.20"].iter().all(|words| said(&picture).contains(&(*words).to_owned())));
    }
}

#[test]
fn the_line_runs_through_its_panel_at_its_amount_with_its_words_beside_it_or_in_the_key() {
    let mut chart = six_months();
    for width in WIDTHS {
        let picture = chart.picture(width);
        let (zero, dollar) = upward(&picture, "$0");
        let target = lines(&picture, Role::Line, INK);
        assert_eq!(target.len(), 1);
        assert_near(target[0][0].1, zero - 20.0 * dollar);
        let words: Vec<_> = texts(&picture).into_iter().filter(|text| text.words.starts_with("target")).collect();
        assert!(words.len() == 1 && words[0].role == if width == Width::Wide { Role::Line } else { Role::Key }, "{words:?}");
    }
    chart.panels[0].line = None;
    assert!(lines(&chart.picture(Width::Wide), Role::Line, INK).is_empty());
}

#[test]
fn of_many_months_the_last_36_are_drawn_some_named_and_the_one_in_question_always() {
    let bar = |at: u32| Month { is_current: at == 41, ..month(&format!("m{at}"), &(at / 12).to_string(), "12", "30") };
    let chart = Columns { months: (0..50).map(bar).collect(), ..six_months() };
    for width in WIDTHS {
        let picture = chart.picture(width);
        assert!(bars(&picture, 35).len() == 2 && bars(&picture, 36).is_empty());
        let named: Vec<_> = said(&picture).into_iter().filter(|text| text.starts_with('m')).collect();
        assert!(named.len() < 36 && named.contains(&"m41".to_owned()) && !named.contains(&"m13".to_owned()), "{named:?}");
        for year in ["1", "2", "3", "4"] {
            assert_eq!(said(&picture).iter().filter(|text| *text == year).count(), 1, "{year}");
        }
    }
}

#[test]
fn nothing_known_is_a_sentence_and_odd_figures_are_laid_out() {
    let mut chart = six_months();
    for month in &mut chart.months {
        month.columns = vec![None, None];
    }
    assert!(said(&chart.picture(Width::Wide)).contains(&"There is nothing to draw for this period yet.".to_owned()));
    chart.months.clear();
    assert!(said(&chart.picture(Width::Narrow)).contains(&"There is nothing to draw for this period yet.".to_owned()));
    chart.months = vec![month("Jan", "2026", "1", "4"), month("Feb", "2026", "1", "4")];
    for (month, amount) in chart.months.iter_mut().zip([Decimal::MAX, Decimal::MIN]) {
        month.columns[0].as_mut().unwrap().amount = amount;
    }
    chart.panels[0].line = Some((dec("-20"), String::new()));
    assert_eq!(chart.svg(Width::Narrow), chart.svg(Width::Narrow));
}
