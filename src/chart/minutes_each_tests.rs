//! What [`MinutesChart`] draws, read back from its SVG.

use super::samples::{attribute, circles, design, diamonds, texts, three_tiers};
use super::{MinutesChart, MinutesGroup, png};

const BLUE: &str = "#0072B2";
const WHITE: &str = "#FFFFFF";
const VERMILLION: &str = "#D55E00";

fn close(a: f64, b: f64) -> bool {
    (a - b).abs() <= 0.5
}

/// Places of nil and of one minute, read off the tick labels.
fn minutes_axis(svg: &str) -> (f64, f64) {
    let tick = |label| attribute(texts(svg).into_iter().find(|(text, _)| *text == label).unwrap().1, "x") / 4.0;
    (tick("0 min"), (tick("10 min") - tick("0 min")) / 10.0)
}

/// Dots and rings beyond the key, from the top down.
fn dots(svg: &str, radius: f64) -> Vec<(f64, f64)> {
    let (nil, _) = minutes_axis(svg);
    circles(svg, BLUE, radius).into_iter().filter(|(x, y)| *x >= nil && *y > 150.0).collect()
}

fn guesses(svg: &str) -> Vec<(f64, f64)> {
    diamonds(svg, VERMILLION, 7.25).into_iter().skip(1).collect()
}

/// Ends of the whiskers' long lines: level, in ink.
fn whiskers(svg: &str) -> Vec<(f64, f64)> {
    let (nil, _) = minutes_axis(svg);
    let level =
        |line: &&str| line.starts_with("<line") && line.contains("#1F1F1F") && (attribute(line, "y1") - attribute(line, "y2")).abs() < 0.5;
    let ends = |line| (attribute(line, "x1") / 4.0, attribute(line, "x2") / 4.0);
    svg.lines().filter(level).map(ends).filter(|(low, _)| *low >= nil - 0.5).collect()
}

#[test]
fn dots_guesses_and_intervals_stand_at_their_minutes() {
    let svg = three_tiers().svg();
    let (nil, minute) = minutes_axis(&svg);
    for (found, minutes) in [(dots(&svg, 4.75), &[6.0, 33.0][..]), (dots(&svg, 5.5), &[12.0]), (guesses(&svg), &[5.0, 12.0, 20.0, 25.0])] {
        assert_eq!(found.len(), minutes.len(), "{found:?}");
        assert!(found.iter().zip(minutes).all(|((x, _), minutes)| close(*x, nil + minutes * minute)), "{found:?} for {minutes:?}");
        assert!(found.windows(2).all(|pair| pair[0].1 < pair[1].1), "from the top down: {found:?}");
    }
    let intervals = [(5.0, 7.5), (4.0, 19.0), (28.0, 39.0)];
    let drawn = whiskers(&svg);
    assert_eq!(drawn.len(), intervals.len());
    for ((from, to), (low, high)) in drawn.into_iter().zip(intervals) {
        assert!(close(from, nil + low * minute) && close(to, nil + high * minute), "{from} to {to}");
    }
}

#[test]
fn a_guess_hides_no_dot_even_at_the_same_minutes() {
    let svg = three_tiers().svg();
    let (ring, guess) = (dots(&svg, 5.5)[0], guesses(&svg)[1]);
    assert!(close(ring.0, guess.0) && guess.1 - ring.1 >= 5.5 + 7.25, "{ring:?} {guess:?}");
}

#[test]
fn tiers_and_designs_keep_the_order_given_with_label_and_note() {
    let svg = three_tiers().svg();
    let said: Vec<_> = texts(&svg).into_iter().map(|(text, _)| text).collect();
    let at = |wanted: &str| said.iter().position(|text| *text == wanted).unwrap_or_else(|| panic!("no {wanted}"));
    let expected = ["Numerals", "Birthday numeral", "6 min", "Shapes", "Leaf", "Characters", "Dragon", "33 min", "Castle"];
    assert!(expected.windows(2).all(|pair| at(pair[0]) < at(pair[1])), "{said:?}");
    assert_eq!(said.iter().filter(|text| **text == "12 orders, 214 pieces").count(), 3);
    let mut turned = three_tiers();
    turned.groups.reverse();
    let turned = turned.svg();
    assert!(turned.find("Characters").unwrap() < turned.find("Numerals").unwrap());
}

#[test]
fn names_of_tiers_stand_above_their_first_design_only_and_not_at_all_where_none_has_one() {
    let mut chart = three_tiers();
    chart.groups.insert(1, MinutesGroup { name: "Plaques".into(), rows: Vec::new() });
    let svg = chart.svg();
    assert_eq!(texts(&svg).iter().filter(|(text, _)| *text == "Characters").count(), 1);
    assert!(!svg.contains("Plaques"));
    let height = |svg: &str| attribute(svg.lines().next().unwrap(), "height");
    for group in &mut chart.groups {
        group.name = " ".into();
    }
    assert!(close(height(&svg) - height(&chart.svg()), 3.0 * 34.0));
}

#[test]
fn what_the_orders_do_not_tell_apart_is_hollow_and_said_in_words() {
    let svg = three_tiers().svg();
    assert_eq!(texts(&svg).iter().filter(|(text, _)| *text == "not told apart").count(), 1);
    // One in the key, one in its row: blue, with a white middle.
    assert_eq!((circles(&svg, BLUE, 5.5).len(), circles(&svg, WHITE, 3.25).len()), (2, 2));
    assert_eq!(circles(&svg, BLUE, 5.5), circles(&svg, WHITE, 3.25));
}

#[test]
fn without_hours_there_are_a_word_and_the_guess_alone() {
    let mut chart = three_tiers();
    chart.groups.drain(..2);
    chart.groups[0].rows.remove(0);
    let svg = chart.svg();
    assert!(texts(&svg).iter().any(|(text, _)| *text == "not sold with hours"), "in full");
    assert_eq!((circles(&svg, BLUE, 4.75).len(), guesses(&svg).len()), (0, 1));
    chart.groups[0].rows[0].card = None;
    chart.groups[0].rows[0].label = "not timed yet".into();
    let svg = chart.svg();
    assert!(svg.contains("not timed yet") && !svg.contains("not sold with hours") && !svg.contains("<polygon"));
    assert!(png(&svg).is_ok());
}

#[test]
fn the_key_has_only_what_occurs() {
    let entries = ["from your hours", "range (90 %)", "your own guess on the card", "not told apart by your orders"];
    let key = |chart: &MinutesChart| entries.map(|entry| chart.svg().contains(entry));
    let mut chart = three_tiers();
    assert_eq!(key(&chart), [true; 4]);
    chart.groups.remove(1);
    assert_eq!(key(&chart), [true, true, true, false]);
    for row in chart.groups.iter_mut().flat_map(|group| &mut group.rows) {
        (row.high, row.card) = (None, None);
    }
    assert_eq!(key(&chart), [true, false, false, false]);
    chart.groups.drain(..1);
    chart.groups[0].rows.remove(0);
    assert_eq!(key(&chart), [false; 4]);
}

#[test]
fn one_wild_interval_does_not_flatten_the_rest_and_is_drawn_open() {
    let mut chart = three_tiers();
    let calm = minutes_axis(&chart.svg()).1;
    let heads = |svg: &str| svg.lines().filter(|line| line.starts_with("<polygon") && line.contains("#1F1F1F")).count();
    assert_eq!(heads(&chart.svg()), 0);
    chart.groups[1].rows[0].high = Some(5000.0);
    let svg = chart.svg();
    assert!(minutes_axis(&svg).1 > calm / 2.0);
    assert_eq!(heads(&svg), 1);
}

#[test]
fn what_is_no_time_is_not_drawn() {
    for odd in [f64::NAN, f64::INFINITY, f64::NEG_INFINITY, 0.0, -4.0, 1e300, 1e-300] {
        let mut chart = three_tiers();
        let row = &mut chart.groups[2].rows[0];
        (row.minutes, row.card, row.label) = (Some(odd), Some(odd), String::new());
        let svg = chart.svg();
        assert_eq!((dots(&svg, 4.75).len(), guesses(&svg).len(), whiskers(&svg).len()), (1, 3, 2), "{odd}");
        assert_eq!(texts(&svg).iter().filter(|(text, _)| *text == "not sold with hours").count(), 2, "{odd}");
        let mut chart = three_tiers();
        chart.groups[2].rows[0].high = Some(odd);
        assert_eq!(whiskers(&chart.svg()).len(), 2, "{odd}");
        assert!(png(&chart.svg()).is_ok(), "{odd}");
    }
}

#[test]
fn no_rows_make_a_sentence_and_one_row_a_chart() {
    let mut chart = three_tiers();
    for group in &mut chart.groups {
        group.rows.clear();
    }
    let svg = chart.svg();
    assert!(svg.contains("There is nothing to draw for this period yet.") && svg.contains("A character takes you 33 minutes"));
    assert!(png(&svg).is_ok());
    chart.groups[0].rows.push(design("Birthday numeral", 12.0, &[9.0, 14.0], 0.0));
    assert_eq!(dots(&chart.svg(), 4.75).len(), 1);
}

#[test]
fn the_same_data_give_the_same_bytes() {
    assert_eq!(three_tiers().svg(), three_tiers().svg());
    assert_eq!(png(&three_tiers().svg()).unwrap(), png(&three_tiers().svg()).unwrap());
}

#[test]
fn what_the_maker_typed_cannot_break_the_svg() {
    let mut chart = three_tiers();
    chart.axis = "<script>".into();
    chart.groups[0].name = "</text><script>&\u{0}\u{1B}[0m".into();
    chart.groups[0].rows[0].name = "<b>\"Éclair\" & 🍪'\u{FFFF}".into();
    chart.groups[0].rows[0].note = "<i>".into();
    chart.groups[0].rows[0].label = "<u>".into();
    let svg = chart.svg();
    assert!(svg.contains("&lt;b&gt;&quot;Éclair&quot; &amp; �&apos;�") && svg.contains("&lt;/text&gt;&lt;script&gt;&amp;[0m"));
    for tag in ["<script", "<i>", "<u>", "\u{1B}", "\u{0}"] {
        assert!(!svg.contains(tag), "{tag:?}");
    }
    assert!(png(&svg).is_ok());
}
