//! What [`Bars`] lays out.

use rust_decimal::Decimal;

use super::marks::{across, arrows, assert_near, assert_order, bars, fills, hatchings, lines, said, signs, text, texts};
use super::samples::{cost, dec, four_costs, four_tiers, paid, row, stages, two_tiers};
use crate::chart::draw::picture::Role;
use crate::chart::draw::theme::INK;
use crate::chart::{BarRow, Bars, Chart, Figure, Fill, Row, Series, Sign, Width};

const WIDTHS: [Width; 2] = [Width::Wide, Width::Narrow];

#[test]
fn bars_begin_at_zero_and_are_as_long_as_their_amounts() {
    for width in WIDTHS {
        let picture = four_tiers().picture(width);
        let (zero, dollar) = across(&picture, "$0");
        for (at, wage) in [26.40, 22.75, 18.30, 9.10].into_iter().enumerate() {
            let [left, _, right, _] = bars(&picture, at)[0];
            assert_near(left, zero);
            assert_near(right, zero + wage * dollar);
        }
    }
}

#[test]
fn a_loss_lies_left_of_zero() {
    let mut chart = four_tiers();
    chart.rows[3] = paid("Character", "-6.50", None, 1);
    for width in WIDTHS {
        let picture = chart.picture(width);
        let (zero, dollar) = across(&picture, "$0");
        let [left, _, right, _] = bars(&picture, 3)[0];
        assert_near(right, zero);
        assert_near(left, zero - 6.5 * dollar);
        assert!(said(&picture).contains(&"−$6.50".to_owned()));
    }
}

#[test]
fn the_line_stands_at_its_amount_under_its_words() {
    let picture = four_tiers().picture(Width::Wide);
    let (zero, dollar) = across(&picture, "$0");
    let words = text(&picture, "target $20.00");
    assert_near(words.middle(), zero + 20.0 * dollar);
    let line = lines(&picture, Role::Line, INK)[0];
    assert!(line[0].1 > words.baseline && line[1].1 > bars(&picture, 3)[0][3]);
    let narrow = four_tiers().picture(Width::Narrow);
    let (zero, dollar) = across(&narrow, "$0");
    let ticks = lines(&narrow, Role::Line, INK);
    assert_eq!(ticks.len(), 4, "across each bar, and not through the words between them");
    assert!(ticks.iter().all(|line| (line[0].0 - zero - 20.0 * dollar).abs() < 0.6));
    for text in texts(&narrow).iter().filter(|text| text.role == Role::Table) {
        assert!(ticks.iter().all(|[from, to]| text.bottom <= from.1 || text.top >= to.1), "{text:?}");
    }
}

#[test]
fn rows_keep_the_order_given_with_figure_note_and_word() {
    for width in WIDTHS {
        let picture = four_tiers().picture(width);
        assert_order(&picture, &["Mini", "$26.40", "above", "Basic shape", "$22.75", "Detailed", "$18.30", "Character", "$9.10", "below"]);
        assert_eq!(said(&picture).iter().filter(|text| *text == "12 orders, 214 pieces").count(), 4);
        let mut turned = four_tiers();
        turned.rows.reverse();
        assert_order(&turned.picture(width), &["Character", "Detailed", "Basic shape", "Mini"]);
    }
}

#[test]
fn names_stand_beside_their_bars_on_a_desk_and_above_them_on_a_phone() {
    let (wide, narrow) = (four_tiers().picture(Width::Wide), four_tiers().picture(Width::Narrow));
    let [left, top, _, bottom] = bars(&wide, 0)[0];
    let name = text(&wide, "Mini");
    assert!(name.right < left && name.top > top - 20.0 && name.bottom < bottom + 20.0);
    let [left, top, right, _] = bars(&narrow, 0)[0];
    let (name, figure) = (text(&narrow, "Mini"), text(&narrow, "$26.40"));
    assert!(name.bottom <= top && figure.bottom <= top && name.left <= left && right - left > 200.0);
    assert_near(figure.right, narrow.page.right());
}

#[test]
fn figures_that_leave_no_room_for_the_names_stand_beneath_them() {
    let mut chart = four_costs();
    chart.rows[0].row = row("Mini", "", vec![Figure::new("$123,456,789.00"), Figure::new("$987,654,321.00")]);
    let picture = chart.picture(Width::Narrow);
    assert!(text(&picture, "$123,456,789.00").top >= text(&picture, "Mini").bottom);
    assert!(text(&picture, "$123,456,789.00").bottom <= bars(&picture, 0)[0][1]);
}

#[test]
fn short_is_said_without_colour_too() {
    let mut chart = four_tiers();
    let hatched = |chart: &Bars| (0..4).flat_map(|at| hatchings(&chart.picture(Width::Wide), at)).count();
    assert_eq!(hatched(&chart), 1);
    assert!(said(&chart.picture(Width::Wide)).contains(&"below your target".to_owned()));
    chart.rows.truncate(2);
    assert_eq!(hatched(&chart), 0);
    assert!(!said(&chart.picture(Width::Wide)).iter().any(|text| text.contains("below")));
}

#[test]
fn without_an_amount_there_is_a_word_and_no_bar() {
    let mut chart = four_tiers();
    chart.rows = vec![BarRow { row: row("Mini", "", vec![Figure::light("no hours")]), ..BarRow::default() }];
    let picture = chart.picture(Width::Wide);
    assert!(said(&picture).contains(&"no hours".to_owned()) && bars(&picture, 0).is_empty());
}

#[test]
fn one_wild_range_does_not_flatten_the_bars_and_is_drawn_open() {
    for width in WIDTHS {
        let mut chart = four_tiers();
        let calm = across(&chart.picture(width), "$0").1;
        assert_eq!(arrows(&chart.picture(width)), 0);
        chart.rows[3].range = Some((dec("7"), dec("5000")));
        let picture = chart.picture(width);
        assert!(across(&picture, "$0").1 > calm / 2.0);
        assert_eq!(arrows(&picture), 1);
    }
}

#[test]
fn the_key_has_only_what_occurs() {
    let mut chart = four_tiers();
    let key = |chart: &Bars| {
        let texts = texts(&chart.picture(Width::Wide));
        texts.into_iter().filter(|text| text.role == Role::Key).map(|text| text.words).collect::<Vec<_>>()
    };
    assert_eq!(key(&chart), ["above your target", "below your target", "can't tell yet", "range (90 %)"]);
    chart.rows.truncate(2);
    chart.rows.iter_mut().for_each(|row| row.range = None);
    assert_eq!(key(&chart), ["above your target"]);
    let mut costs = four_costs();
    costs.rows.iter_mut().for_each(|row| row.parts[3].1 = Decimal::ZERO);
    assert!(!key(&costs).contains(&"helper pay".to_owned()) && key(&costs).contains(&"overhead".to_owned()));
    costs.rows.truncate(2);
    assert!(!key(&costs).contains(&"not covered".to_owned()), "{:?}", key(&costs));
}

#[test]
fn parts_follow_one_another_from_zero_with_their_amounts() {
    for width in WIDTHS {
        let picture = four_costs().picture(width);
        let (zero, dollar) = across(&picture, "$0");
        let (drawn, mut before) = (bars(&picture, 3), 0.0);
        for ([left, _, right, _], part) in drawn.iter().zip([0.41, 0.30, 0.39, 0.52, 1.60, 12.15]) {
            assert_near(*left, zero + before * dollar);
            // As far as a white gap sets it apart from the next.
            assert!((right - (zero + (before + part) * dollar)).abs() <= 1.1, "{part}");
            before += part;
        }
        assert_eq!(fills(&picture, 3), [0, 1, 2, 3, 4, 5].map(|at| Fill::Part(at).colour()));
        let says_time = |chart: &Bars| said(&chart.picture(width)).contains(&"$12.15".to_owned());
        let mut covered = four_costs();
        covered.rows[3].covered = None;
        assert!(
            says_time(&covered) && !says_time(&four_costs()),
            "the amount of a part stands in it where it is covered or not as a whole"
        );
    }
}

#[test]
fn what_the_price_does_not_cover_is_hatched_from_the_price_on() {
    for width in WIDTHS {
        let picture = four_costs().picture(width);
        let (zero, dollar) = across(&picture, "$0");
        assert_eq!([0, 1, 2, 3].map(|at| hatchings(&picture, at).len()), [0, 0, 1, 1]);
        let [left, _, right, _] = hatchings(&picture, 3)[0];
        assert_near(left - 1.0, zero + 10.50 * dollar);
        assert_near(right + 1.0, zero + 15.37 * dollar);
        assert_eq!(said(&picture).iter().filter(|text| *text == "short").count(), 2);
        let pin = lines(&picture, Role::Data(3), INK)[0];
        assert_near(pin[0].0, zero + 10.50 * dollar);
    }
}

#[test]
fn no_amount_stands_on_the_hatching() {
    for price in ["0.10", "3.30", "5", "8", "12", "15.30"] {
        let mut chart = four_costs();
        chart.rows[3] = cost("Character", &["0.41", "0.30", "0.39", "0.52", "1.60", "12.15"], price);
        for width in WIDTHS {
            let picture = chart.picture(width);
            for text in texts(&picture).iter().filter(|text| text.role == Role::Data(3)) {
                let is_on = |[left, _, right, _]: &[f64; 4]| text.right > *left && text.left < *right;
                assert!(!hatchings(&picture, 3).iter().any(is_on), "{text:?} at a price of {price}");
            }
        }
    }
}

#[test]
fn credits_are_not_drawn_in_a_stack() {
    let mut chart = four_costs();
    chart.rows = vec![cost("Mini", &["-0.40", "0.20", "0.10", "0.12", "0.31", "1.42"], "2.75")];
    assert_eq!(fills(&chart.picture(Width::Wide), 0).len(), 5);
}

#[test]
fn what_was_learned_and_what_was_guessed_stand_at_their_amounts_and_hide_neither_each_other() {
    for width in WIDTHS {
        let picture = two_tiers().picture(width);
        let (zero, minute) = across(&picture, "0 min");
        for (at, amounts) in [(0, &[12.0, 12.0][..]), (1, &[6.0]), (2, &[33.0, 20.0]), (3, &[25.0])] {
            let found = signs(&picture, at);
            assert_eq!(found.len(), amounts.len(), "{at}: {found:?}");
            found.iter().zip(amounts).for_each(|((x, _), amount)| assert_near(*x, zero + amount * minute));
        }
        let (learned, guessed) = (signs(&picture, 0)[0], signs(&picture, 0)[1]);
        assert!(guessed.1 - learned.1 >= 4.75 + 7.25, "{learned:?} {guessed:?}");
        let range = lines(&picture, Role::Data(2), INK)[0];
        assert_near(range[0].0, zero + 28.0 * minute);
        assert_near(range[1].0, zero + 39.0 * minute);
    }
}

#[test]
fn groups_stand_over_their_first_row_only() {
    for width in WIDTHS {
        let picture = two_tiers().picture(width);
        assert_order(&picture, &["shape", "Leaf", "Heart", "character", "Dragon", "Castle"]);
        assert_eq!(said(&picture).iter().filter(|text| *text == "shape").count(), 1);
    }
    let mut chart = two_tiers();
    let height = chart.picture(Width::Wide).height;
    chart.rows.iter_mut().for_each(|of| of.row = Row { group: None, ..of.row.clone() });
    assert_near(height - chart.picture(Width::Wide).height, 68.0);
}

#[test]
fn waiting_stands_apart_hatched_and_does_not_flatten_the_work() {
    for width in WIDTHS {
        let mut chart = stages();
        let picture = chart.picture(width);
        assert_eq!((hatchings(&picture, 2).len(), arrows(&picture)), (1, 1), "168 hours go on past the axis");
        let long = across(&picture, "0 h").1;
        chart.rows[2].parts = vec![(1, dec("9"))];
        let picture = chart.picture(width);
        let (zero, hour) = across(&picture, "0 h");
        assert!(hour < 2.0 * long && arrows(&picture) == 0);
        assert_near(bars(&picture, 2)[0][2], zero + 9.0 * hour);
    }
}

#[test]
fn nothing_is_a_sentence_and_odd_data_are_laid_out_all_the_same() {
    for width in WIDTHS {
        let empty = Bars { rows: Vec::new(), ..four_tiers() };
        assert!(said(&empty.picture(width)).contains(&"There is nothing to draw for this period yet.".to_owned()));
        let mut chart = four_costs();
        chart.series = vec![Series::new(Sign::Pin, "price")];
        chart.rows[0].parts.clear();
        chart.rows[1].points[0].1 = dec("-3");
        chart.rows[2].parts = vec![(0, Decimal::MAX), (9, Decimal::MAX)];
        chart.rows[3].points[0].1 = Decimal::MIN;
        assert!(chart.picture(width).height > 100.0);
        assert_eq!(chart.svg(width), chart.svg(width));
    }
}
