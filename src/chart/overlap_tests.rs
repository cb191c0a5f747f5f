//! No two texts of a chart touch, and none leaves the page, as resvg lays them out, whatever the rows.

use resvg::usvg::{Group, Node, Rect, TextChunk};
use rust_decimal::Decimal;

use super::raster::tree;
use super::samples::{bar, dec, four_costs, four_tiers, row};
use super::{CostChart, Standing, WageChart, png};

const LONG: [&str; 4] = [
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

fn assert_apart(svg: &str, what: &str) {
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
    for (svg, what) in [(wages(16, Decimal::ONE, &LONG).svg(), "wages"), (costs(3, Decimal::ONE, &LONG).svg(), "costs")] {
        let image = png(&svg).unwrap();
        let side = |at: usize| u32::from_be_bytes(image[at..at + 4].try_into().unwrap());
        let height: u32 = svg.split(" height=\"").nth(1).unwrap().split('"').next().unwrap().parse().unwrap();
        // The header as the PNG specification (W3C, second edition, 5.2 and 11.2.2) lays it out.
        assert_eq!(&image[..8], b"\x89PNG\r\n\x1a\n", "{what}");
        assert_eq!((side(16), side(20)), (1920, 2 * height), "{what}");
    }
}

#[test]
fn a_chart_of_a_thousand_rows_is_still_an_image() {
    let image = png(&wages(1000, Decimal::ONE, &["Mini"]).svg()).unwrap();
    assert_eq!(u32::from_be_bytes(image[20..24].try_into().unwrap()), 16_384);
}
