//! What [`LadderChart`] and [`RaiseChart`] draw, read back from their SVG.

use super::overlap_tests::assert_apart;
use super::samples::{attribute, axis, circles, dec, diamonds, dollars, texts};
use super::{Chart, LadderChart, LadderGroup, LadderRow, RaiseChart, png};

const BLUE: &str = "#0072B2";
const VERMILLION: &str = "#D55E00";

fn row(name: &str, [old, new, fair]: [&str; 3], interval: Option<(&str, &str)>, moves: bool) -> LadderRow {
    LadderRow {
        name: name.into(),
        note: String::new(),
        old: dec(old),
        old_label: format!("${old}"),
        new: dec(new),
        new_label: format!("${new}"),
        fair: dec(fair),
        interval: interval.map(|(low, high)| (dec(low), dec(high))),
        moves,
    }
}

fn two_tiers() -> LadderChart {
    let group = |name: &str, rows: Vec<LadderRow>| LadderGroup { name: name.into(), rows };
    LadderChart {
        title: "Character must rise from $11.00 to $17.25".into(),
        subtitle: "List price now and next".into(),
        axis: "list price of a piece".into(),
        amounts: dollars(),
        groups: vec![
            group("shape", vec![row("Leaf <b>", ["4.75", "5.00", "4.90"], Some(("4.40", "5.40")), false)]),
            group("character", vec![row("Dragon", ["11.00", "17.25", "16.80"], None, true)]),
        ],
    }
}

fn raise() -> RaiseChart {
    RaiseChart {
        title: "The raise still earns more if you lose up to 20 % of your orders".into(),
        subtitle: "Left for your time".into(),
        across: "orders lost, of all".into(),
        up: "more or less than at today's prices".into(),
        amounts: dollars(),
        gain: dec("2000"),
        lost_all: dec("-8000"),
        most: 40,
        break_even: "20 % lost: as much money as now".into(),
    }
}

fn close(a: f64, b: f64) -> bool {
    (a - b).abs() <= 0.5
}

#[test]
fn prices_stand_at_their_amounts() {
    let svg = two_tiers().svg();
    let (nil, dollar) = axis(&svg);
    // The first belongs to the key.
    let plot = |places: Vec<(f64, f64)>| places.into_iter().map(|(x, _)| x).skip(1).collect::<Vec<_>>();
    for (found, amounts) in [(plot(circles(&svg, BLUE, 4.75)), [4.90, 16.80]), (plot(diamonds(&svg, VERMILLION, 7.25)), [4.75, 11.00])] {
        assert!(
            found.len() == 2 && found.iter().zip(amounts).all(|(x, amount)| close(*x, nil + amount * dollar)),
            "{found:?} for {amounts:?}"
        );
    }
    for amount in [5.00, 17.25] {
        let at = |line: &&str| line.contains("stroke-width=\"12\"") && close(attribute(line, "x1") / 4.0, nil + amount * dollar);
        assert_eq!(svg.lines().filter(|line| line.starts_with("<line")).filter(at).count(), 1, "{amount}");
    }
}

#[test]
fn tiers_names_prices_and_moves_are_said() {
    let svg = two_tiers().svg();
    let said: Vec<_> = texts(&svg).into_iter().map(|(text, _)| text).collect();
    let at = |wanted: &str| said.iter().position(|text| *text == wanted).unwrap_or_else(|| panic!("no {wanted} in {said:?}"));
    let expected =
        ["price now", "next price", "fair price", "shape", "Leaf &lt;b&gt;", "$4.75", "$5.00", "character", "Dragon", "$11.00", "$17.25"];
    assert!(expected.windows(2).all(|pair| at(pair[0]) < at(pair[1])), "{said:?}");
    assert_eq!(said.iter().filter(|text| **text == "moves").count(), 1);
}

#[test]
fn without_intervals_there_is_no_word_of_them() {
    let mut chart = two_tiers();
    assert!(chart.svg().contains("range (90 %)"));
    chart.groups[0].rows[0].interval = None;
    assert!(!chart.svg().contains("range (90 %)"));
    chart.groups.clear();
    assert!(chart.svg().contains("There is nothing to draw for this period yet."));
}

#[test]
fn the_break_even_stands_where_the_line_crosses_nil() {
    let svg = raise().svg();
    let tick = |label: &str| attribute(texts(&svg).into_iter().find(|(text, _)| *text == label).unwrap().1, "x") / 4.0;
    let dots = circles(&svg, BLUE, 4.75);
    assert_eq!(dots.len(), 1);
    assert!(close(dots[0].0, tick("20 %")), "{dots:?}");
    // From 2000 at nothing lost to 2000 − 0.4 × 10,000 at 40 per cent.
    let line = svg.lines().find(|line| line.starts_with("<line") && line.contains(BLUE)).unwrap();
    let y = |label: &str| attribute(texts(&svg).into_iter().find(|(text, _)| *text == label).unwrap().1, "y");
    let per_dollar = (y("$2,000") - y("−$2,000")) / 4.0 / 4000.0;
    let (start, end) = (attribute(line, "y1") / 4.0, attribute(line, "y2") / 4.0);
    assert!(
        close(end - start, -4000.0 * per_dollar)
            && close(attribute(line, "x1") / 4.0, tick("0 %"))
            && close(attribute(line, "x2") / 4.0, tick("40 %"))
    );
    assert!(svg.contains("20 % lost: as much money as now") && svg.contains("more than now") && svg.contains("less than now"));
}

#[test]
fn no_raise_makes_a_sentence_and_odd_data_are_drawn_all_the_same() {
    let mut chart = raise();
    (chart.gain, chart.lost_all) = (dec("0"), dec("-10"));
    assert!(chart.svg().contains("No order lost or won makes these prices better or worse than now."));
    for (gain, lost_all, most) in [("-500", "-8000", 40), ("0.01", "-0.02", 0), ("90000000", "-1", 100), ("1", "-90000000", 1)] {
        (chart.gain, chart.lost_all, chart.most) = (dec(gain), dec(lost_all), most);
        assert!(png(&chart.svg()).is_ok(), "{gain}");
        assert_eq!(chart.svg(), chart.svg());
    }
    let mut ladder = two_tiers();
    ladder.groups[0].rows[0].new = rust_decimal::Decimal::MAX;
    assert!(png(&ladder.svg()).is_ok());
}

#[test]
fn texts_never_touch() {
    let long = "A dragon in seven colours, wings spread, guarding a castle of gingerbread and its moat at dusk";
    for count in [1_i64, 5, 20] {
        for (times, name) in [("0.01", "Leaf"), ("1", long), ("100000", "Wwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwww")] {
            let mut chart = two_tiers();
            let amount = |step: i64| ((rust_decimal::Decimal::from(step % 17 + 3)) * dec(times)).to_string();
            chart.groups[0].rows = (0..count)
                .map(|at| row(name, [&amount(at), &amount(at * 3), &amount(at * 7)], Some((&amount(at), &amount(at + 9))), at % 3 == 0))
                .collect();
            (chart.groups[0].name, chart.title) = (long.into(), long.repeat(3));
            assert_apart(&chart.svg(), &format!("{count} designs × {times}"));
        }
    }
    for (gain, lost_all, most) in
        [("2000", "-8000", 40), ("0.02", "-0.3", 20), ("9000000", "-80000000", 20), ("5", "-6", 100), ("-4", "-50", 40), ("79", "-21", 100)]
    {
        let mut chart = raise();
        (chart.gain, chart.lost_all, chart.most) = (dec(gain), dec(lost_all), most);
        assert_apart(&chart.svg(), gain);
    }
}

#[test]
fn both_are_said_in_words() {
    let ladder = two_tiers().rows_in_words();
    assert_eq!(
        ladder,
        [
            "Leaf <b>: shape, now $4.75, next $5.00, fair $4.90, from $4.40 to $5.40 (90 %)",
            "Dragon: character, moves, now $11.00, next $17.25, fair $16.80"
        ]
    );
    let raise = raise();
    assert_eq!(raise.rows_in_words(), ["none lost: $2,000.00", "20 % lost: as much money as now", "all lost: −$8,000.00"]);
    assert!(raise.alternative().starts_with(&raise.title));
}
