//! What every chart says in words.

use super::review_samples::{four_designs, four_items, march_to_april, nine_orders, one_month_of_dollars, six_months, six_stages};
use super::samples::{five_orders, four_costs, four_tiers, order, three_tiers};
use super::{Chart, LoggedChart};

fn all() -> Vec<Box<dyn Chart>> {
    vec![
        Box::new(four_tiers()),
        Box::new(four_costs()),
        Box::new(three_tiers()),
        Box::new(five_orders()),
        Box::new(four_designs()),
        Box::new(six_months()),
        Box::new(one_month_of_dollars()),
        Box::new(march_to_april()),
        Box::new(nine_orders()),
        Box::new(four_items()),
        Box::new(six_stages()),
    ]
}

#[test]
fn every_chart_begins_with_its_finding_in_words_and_in_the_picture() {
    for chart in all() {
        let words = chart.alternative();
        assert!(words.lines().next() == Some(chart.title()) && words.lines().count() > 4, "{words}");
        // The title may take two lines, so its first words are looked for.
        let begins: String = chart.title().split(' ').take(3).collect::<Vec<_>>().join(" ");
        assert!(chart.svg().contains(&begins), "{begins}");
    }
}

#[test]
fn charts_on_one_page_keep_their_ids_apart() {
    let pages: String = all().iter().zip(1..).map(|(chart, at)| chart.svg_in_page(&format!("chart-{at}"))).collect();
    let mut ids: Vec<_> = pages.split(" id=\"").skip(1).filter_map(|after| after.split('"').next()).collect();
    let count = ids.len();
    ids.sort_unstable();
    ids.dedup();
    assert_eq!((ids.len(), count), (22, 22));
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
                your time at $20.00 $1.42";
    has(&four_costs(), mini);
    has(&three_tiers(), "Dragon: 33 min, from 28.0 min to 39.0 min (90 %), your guess 20.0 min, 12 orders, 214 pieces");
    has(&three_tiers(), "Castle: not sold with hours, your guess 25.0 min");
    has(&five_orders(), "order 15: logged 10 h, expected 2.5 h, far off");
    has(&four_designs(), "Dragon: $7.00, 36 min, below");
    has(&six_months(), "Jan 2026: no hourly pay");
    has(&six_months(), "Mar 2026: $16.30 an hour, below, 12 h, few orders");
    has(&one_month_of_dollars(), "ingredients: −$152.40, 15 ¢ of each $1");
    has(&one_month_of_dollars(), "below your target: −$112.00, −11 ¢ of each $1, below");
    has(&march_to_april(), "March 2026: −$112.00, 14 orders");
    has(&march_to_april(), "price: +$131.50");
    has(&nine_orders(), "18 pieces: worth the set-up");
    has(&nine_orders(), "13–24 pieces: $18.60, 4 orders");
    has(&four_items(), "butter: first $3.60, latest $4.80, +33.33%, a lb, landed");
    has(&four_items(), "flour: not bought, a lb, landed");
    has(&six_stages(), "decorate: 26.0 h, 55 %");
    has(&six_stages(), "dry: 168 h, waiting, not work, nobody worked");
}

#[test]
fn a_name_takes_one_line_whatever_was_typed() {
    let mut chart = four_tiers();
    chart.bars[0].name = " Mini\r\n\tround ".into();
    has(&chart, "Mini round: $26.40, above, from $23.10 to $29.90 (90 %), 12 orders, 214 pieces");
    chart.bars.clear();
    chart.target = None;
    assert_eq!(chart.alternative().lines().count(), 2);
}

#[test]
fn rows_come_without_title_and_subtitle() {
    for chart in all() {
        let rows = chart.rows_in_words();
        assert!(!rows.is_empty() && rows.iter().all(|row| row != chart.title() && !row.is_empty()), "{rows:?}");
        let whole: Vec<_> = [chart.title(), chart.subtitle()].map(str::to_owned).into_iter().chain(rows).collect();
        assert_eq!(chart.alternative(), whole.join("\n"));
    }
}

#[test]
fn nothing_that_turns_or_controls_text_is_said() {
    let typed: String = ('\u{202A}'..='\u{202E}').chain('\u{2066}'..='\u{2069}').chain(['\u{0}', '\u{1B}', '\u{85}', '\u{2028}']).collect();
    let mut chart = four_tiers();
    (chart.title, chart.subtitle) = (format!("a{typed}b"), typed.clone());
    (chart.bars[0].name, chart.bars[0].note) = (format!("Mini{typed}"), format!("{typed}12"));
    let words = chart.alternative();
    assert!(words.chars().all(|letter| letter == '\n' || !(letter.is_control() || typed.contains(letter))), "{words:?}");
    assert!(words.starts_with("a b\ntarget $20.00") && words.contains("Mini: $26.40"), "{words:?}");
}

#[test]
fn of_many_orders_the_first_sixty_are_said_those_far_off_first_and_then_the_farthest() {
    let mut points: Vec<_> = (1..=70).map(|at| order(&format!("order {at}"), 100.0, 100.0 + f64::from(at), false)).collect();
    points.push(order("unknown", f64::NAN, 5.0, false));
    points.push(order("far", 100.0, 99.0, true));
    let rows = LoggedChart { points, ..five_orders() }.rows_in_words();
    assert_eq!(rows.len(), 61);
    assert!(rows[0].starts_with("far: ") && rows[1].starts_with("order 70: ") && rows[59].starts_with("order 12: "), "{rows:?}");
    assert_eq!(rows[60], "and 12 more");
    let few = five_orders().rows_in_words();
    assert!(few.len() == 5 && few[0].starts_with("order 15: "), "{few:?}");
}
