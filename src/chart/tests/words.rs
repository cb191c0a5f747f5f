//! What every chart says in words.

use super::samples::{
    five_orders, four_costs, four_designs, four_items, four_tiers, nine_orders, one_month, point, raise, six_months, stages, two_tiers,
};
use crate::chart::{Chart, Scatter, Width};

pub fn all() -> Vec<Box<dyn Chart>> {
    vec![
        Box::new(four_tiers()),
        Box::new(four_costs()),
        Box::new(two_tiers()),
        Box::new(stages()),
        Box::new(six_months()),
        Box::new(one_month()),
        Box::new(four_designs()),
        Box::new(nine_orders()),
        Box::new(five_orders()),
        Box::new(raise()),
        Box::new(four_items()),
    ]
}

#[test]
fn every_chart_begins_with_its_finding_in_words_and_in_either_picture() {
    for chart in all() {
        let words = chart.alternative();
        assert!(words.lines().next() == Some(chart.heading().title.as_str()) && words.lines().count() > 2, "{words}");
        // The title may take several lines, so its first words are looked for.
        let begins: String = chart.heading().title.split(' ').take(3).collect::<Vec<_>>().join(" ");
        for width in [Width::Wide, Width::Narrow] {
            assert!(super::marks::said(&chart.picture(width))[0].starts_with(&begins), "{begins}");
        }
    }
}

fn has(chart: &dyn Chart, line: &str) {
    let words = chart.alternative();
    assert!(words.lines().any(|found| found == line), "no {line:?} in\n{words}");
}

#[test]
fn rows_are_said_with_their_figures() {
    has(&four_tiers(), "target $20.00");
    has(&four_tiers(), "Character: $9.10, below, from $7.20 to $11.30 (90 %), 12 orders, 214 pieces");
    has(&four_tiers(), "Detailed: $18.30, from $15.90 to $21.10 (90 %), 12 orders, 214 pieces");
    let mini = "Mini: price $2.75, cost $2.25, ingredients $0.11, packaging $0.19, fees $0.10, helper pay $0.12, overhead $0.31, \
                your time $1.42";
    has(&four_costs(), mini);
    has(
        &four_costs(),
        "Character: price $10.50, cost $15.37, short, ingredients $0.41, packaging $0.30, fees $0.39, helper pay $0.52, \
                        overhead $1.60, your time $12.15",
    );
    has(&two_tiers(), "Dragon: character, 33 min, from 28.0 min to 39.0 min (90 %), your own guess 20.0 min, 12 orders, 214 pieces");
    has(&two_tiers(), "Castle: character, not sold with hours, your own guess 25.0 min");
    has(&stages(), "dry: waiting, hours 168 h");
    has(&six_months(), "Jan 2026: no hourly pay");
    has(&six_months(), "Mar 2026: $16.30 an hour, 12 h");
    has(&one_month(), "ingredients: amount −$152.40, share 15 %");
    has(&four_designs(), "Dragon: $7.00, 36 min, below your target");
    has(&nine_orders(), "target $20.00");
    has(&nine_orders(), "13–24 pieces: $18.60, 4 orders");
    has(&five_orders(), "order 15: logged 600");
    has(&raise(), "none lost: $2,000.00");
    has(&four_items(), "butter: first $3.60, latest $4.80, change +9 %, dearer, a kilogram");
}

#[test]
fn a_name_takes_one_line_whatever_was_typed() {
    let mut chart = four_tiers();
    chart.rows[0].row.name = " Mini\r\n\tround ".into();
    has(&chart, "Mini round: $26.40, above, from $23.10 to $29.90 (90 %), 12 orders, 214 pieces");
    chart.rows.clear();
    chart.line = None;
    assert_eq!(chart.alternative().lines().count(), 2);
}

#[test]
fn nothing_that_turns_or_controls_text_is_said() {
    let typed: String = ('\u{202A}'..='\u{202E}').chain('\u{2066}'..='\u{2069}').chain(['\u{0}', '\u{1B}', '\u{85}', '\u{2028}']).collect();
    let mut chart = four_tiers();
    (chart.heading.title, chart.heading.subtitle) = (format!("a{typed}b"), typed.clone());
    (chart.rows[0].row.name, chart.rows[0].row.note) = (format!("Mini{typed}"), format!("{typed}12"));
    let words = chart.alternative();
    assert!(words.chars().all(|letter| letter == '\n' || !(letter.is_control() || typed.contains(letter))), "{words:?}");
    assert!(words.starts_with("a b\ntarget $20.00") && words.contains("Mini: $26.40"), "{words:?}");
}

#[test]
fn of_many_rows_the_first_sixty_are_said() {
    let points = (1..=72).map(|at| point(&format!("order {at}"), "100", "110", 1));
    let rows = Scatter { points: points.collect(), ..five_orders() }.rows_in_words();
    assert!(rows.len() == 61 && rows[0].starts_with("order 1: ") && rows[59].starts_with("order 60: "), "{rows:?}");
    assert_eq!(rows[60], "and 12 more");
}
