//! No two texts of a chart touch, and none leaves the page, as resvg lays them out, whatever the rows.

use resvg::usvg::{Group, Node, Rect, TextChunk};
use rust_decimal::Decimal;

use super::raster::tree;
use super::samples::{bar, dec, design, five_orders, four_costs, four_tiers, order, row, three_tiers};
use super::{CostChart, LoggedChart, MinutesChart, MinutesGroup, MinutesRow, Standing, WageChart, png};

pub(super) const LONG: [&str; 4] = [
    "A dragon in seven colours, wings spread, guarding a castle of gingerbread and its moat at dusk",
    "Łódź harbour “at night” <b>&amp; 花🍪 fête — ½ glazed, ½ bare",
    "Wwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwww",
    "",
];

/// Text boxes, cut to the height of capitals and descenders: lines may come as near as that.
fn boxes(group: &Group, found: &mut Vec<(String, Rect)>) {
    for node in group.children() {
        match node {
            Node::Group(group) => boxes(group, found),
            Node::Text(text) => {
                let place = text.abs_bounding_box();
                let cut = place.height() * 0.18;
                let place = Rect::from_xywh(place.x(), place.y() + cut, place.width(), place.height() - 2.0 * cut).unwrap();
                found.push((text.chunks().iter().map(TextChunk::text).collect(), place));
            }
            _ => {}
        }
    }
}

pub(super) fn assert_apart(svg: &str, what: &str) {
    let tree = tree(svg).unwrap();
    let mut texts = Vec::new();
    boxes(tree.root(), &mut texts);
    assert!(!texts.is_empty(), "{what}: no text");
    for (at, (text, place)) in texts.iter().enumerate() {
        let inside = place.left() >= 20.0
            && place.top() >= 10.0
            && place.right() <= tree.size().width() - 20.0
            && place.bottom() <= tree.size().height() - 10.0;
        assert!(inside, "{what}: {text:?} at {place:?} leaves the page");
        for (other, other_place) in &texts[at + 1..] {
            let apart = place.right() <= other_place.left()
                || other_place.right() <= place.left()
                || place.bottom() <= other_place.top()
                || other_place.bottom() <= place.top();
            assert!(apart, "{what}: {text:?} at {place:?} touches {other:?} at {other_place:?}");
        }
    }
}

fn wages(count: u32, times: Decimal, names: &[&str]) -> WageChart {
    let mut chart = four_tiers();
    chart.bars = (0..count)
        .map(|at| {
            let wage = (dec("31") - Decimal::from(at * 9 % 43)) * times;
            let (low, high) = (wage - Decimal::from(at) * times, wage + Decimal::from(at * 3 % 17) * times);
            let standing = [Standing::Over, Standing::Short, Standing::Unknown][at as usize % 3];
            let name = names[at as usize % names.len()];
            let wage = if at % 7 == 5 { String::new() } else { wage.to_string() };
            bar(name, &wage, &[&low.to_string(), &high.to_string()], standing)
        })
        .collect();
    chart
}

fn costs(count: u32, times: Decimal, names: &[&str]) -> CostChart {
    let mut chart = four_costs();
    chart.rows = (0..count)
        .map(|at| {
            let part = |step: u32| (Decimal::new(i64::from(at * step % 900), 2) * times).to_string();
            let parts = [part(13), part(7), part(3), part(29), part(31), part(211)];
            let parts: Vec<_> = parts.iter().map(String::as_str).collect();
            row(names[at as usize % names.len()], &parts, &part(331))
        })
        .collect();
    chart
}

/// Tiers of five designs each, some not told apart, some never logged.
fn minutes(count: u32, times: f64, names: &[&str]) -> MinutesChart {
    let mut groups: Vec<MinutesGroup> = Vec::new();
    for at in 0..count {
        let name = |step: u32| names[(at / step) as usize % names.len()];
        let median = f64::from(1 + at * 13 % 47) * times;
        let row = MinutesRow {
            note: if at % 4 == 0 { String::new() } else { name(3).to_owned() },
            minutes: (at % 6 != 5).then_some(median),
            label: if at % 6 == 5 { String::new() } else { format!("{median:.1} min") },
            told_apart: at % 5 != 2,
            ..design(name(1), median, &[median / 2.0, median * f64::from(1 + at % 7)], f64::from(at % 3) * median)
        };
        if at % 5 == 0 {
            groups.push(MinutesGroup { name: name(2).to_owned(), rows: Vec::new() });
        }
        groups.last_mut().unwrap().rows.push(row);
    }
    MinutesChart { groups, ..three_tiers() }
}

/// Orders about the diagonal, every fourth far off; `spread` is what the shortest and the longest differ by.
fn orders(count: u32, times: f64, spread: f64, names: &[&str]) -> LoggedChart {
    let points = (0..count).map(|at| {
        let expected = times * spread.powf(f64::from(at * 37 % 101) / 100.0);
        let far_off = at % 4 == 3;
        let off = if far_off { [0.3, 3.0, 0.2][at as usize % 3] } else { 0.8 + f64::from(at % 5) / 10.0 };
        order(names[at as usize % names.len()], expected, expected * off, far_off)
    });
    LoggedChart { points: points.collect(), ..five_orders() }
}

#[test]
fn texts_never_touch_at_any_size() {
    for names in [&["Mini", "Basic shape", "Birthday numeral"][..], &LONG[..]] {
        for count in [0, 1, 2, 3, 4, 16, 17, 40] {
            for times in ["0.001", "1", "1000", "1000000000000000"].map(dec) {
                assert_apart(&wages(count, times, names).svg(), &format!("{count} wages × {times}"));
                assert_apart(&costs(count, times, names).svg(), &format!("{count} costs × {times}"));
            }
        }
    }
}

#[test]
fn texts_of_the_charts_of_minutes_never_touch_either() {
    for names in [&["Mini", "Basic shape", "Birthday numeral"][..], &LONG[..]] {
        for count in [0, 1, 3, 16, 17, 40, 300] {
            for times in [0.001, 1.0, 60.0, 1e6, 1e20] {
                if count < 300 {
                    assert_apart(&minutes(count, times, names).svg(), &format!("{count} designs × {times}"));
                }
                for spread in [1.0, 1.5, 8.0, 1000.0] {
                    assert_apart(&orders(count, times, spread, names).svg(), &format!("{count} orders × {times}, {spread} apart"));
                }
            }
        }
    }
}

#[test]
fn headings_and_axes_of_the_charts_of_minutes_have_room() {
    let long = LONG.join(" ");
    let mut chart = minutes(40, 1.0, &LONG);
    (chart.title, chart.subtitle, chart.axis) = (long.repeat(3), long.repeat(4), long.clone());
    assert_apart(&chart.svg(), "designs");
    for usual in [1.001, 1.25, 2.0, 30.0, 1e200] {
        let mut chart = orders(40, 60.0, 20.0, &LONG);
        (chart.title, chart.subtitle) = (long.repeat(3), long.repeat(4));
        (chart.expected_axis, chart.logged_axis, chart.usual) = (long.clone(), long.clone(), usual);
        assert_apart(&chart.svg(), &format!("orders, usual {usual}"));
    }
}

#[test]
fn the_target_and_the_heading_have_room_wherever_they_are() {
    for target in ["-500", "0", "0.01", "20", "31", "90000000"].map(dec) {
        let mut chart = wages(20, Decimal::ONE, &LONG);
        chart.target = Some((target, LONG[0].into()));
        chart.title = LONG.join(" ").repeat(3);
        chart.subtitle = LONG.join(" ").repeat(4);
        chart.axis = LONG.join(" ");
        assert_apart(&chart.svg(), &format!("target {target}"));
    }
    let mut chart = costs(20, Decimal::ONE, &LONG);
    chart.elements = LONG.iter().chain(&LONG).chain(&LONG).map(ToString::to_string).collect();
    assert_apart(&chart.svg(), "long elements");
}

#[test]
fn the_image_is_twice_the_size_of_the_page() {
    for (svg, what) in [
        (wages(16, Decimal::ONE, &LONG).svg(), "wages"),
        (costs(3, Decimal::ONE, &LONG).svg(), "costs"),
        (minutes(16, 1.0, &LONG).svg(), "minutes"),
        (orders(30, 60.0, 9.0, &LONG).svg(), "orders"),
    ] {
        let image = png(&svg).unwrap();
        let side = |at: usize| u32::from_be_bytes(image[at..at + 4].try_into().unwrap());
        let height: u32 = svg.split(" height=\"").nth(1).unwrap().split('"').next().unwrap().parse().unwrap();
        // The header as the PNG specification (W3C, second edition, 5.2 and 11.2.2) lays it out.
        assert_eq!(&image[..8], b"\x89PNG\r\n\x1a\n", "{what}");
        assert_eq!((side(16), side(20)), (1280, 2 * height), "{what}");
    }
}

#[test]
fn a_chart_of_a_thousand_rows_is_still_an_image() {
    let image = png(&wages(1000, Decimal::ONE, &["Mini"]).svg()).unwrap();
    assert_eq!(u32::from_be_bytes(image[20..24].try_into().unwrap()), 16_384);
}
