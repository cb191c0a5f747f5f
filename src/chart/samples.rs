//! Invented rows for the tests of the charts.

use rust_decimal::Decimal;

use super::{
    AmountStyle, CostChart, CostRow, LoggedChart, LoggedPoint, MinutesChart, MinutesGroup, MinutesRow, Standing, WageBar, WageChart,
};

pub(super) fn dec(text: &str) -> Decimal {
    text.parse().unwrap()
}

pub(super) fn dollars() -> AmountStyle {
    AmountStyle { prefix: "$".into(), suffix: String::new(), decimals: 2 }
}

/// A bar with its label written from its wage; `interval` may be empty.
pub(super) fn bar(name: &str, wage: &str, interval: &[&str], standing: Standing) -> WageBar {
    WageBar {
        name: name.into(),
        wage: (!wage.is_empty()).then(|| dec(wage)),
        label: if wage.is_empty() { String::new() } else { dollars().write(dec(wage), 2) },
        note: "12 orders, 214 pieces".into(),
        low: interval.first().map(|low| dec(low)),
        high: interval.get(1).map(|high| dec(high)),
        standing,
    }
}

/// Four tiers against a target of 20.
pub(super) fn four_tiers() -> WageChart {
    WageChart {
        title: "Characters pay $9.10 an hour, less than half of your target".into(),
        subtitle: "March to May 2026, 41 orders, shares of whole orders".into(),
        axis: "pay an hour before your own taxes, USD".into(),
        amounts: dollars(),
        bars: vec![
            bar("Mini", "26.40", &["23.10", "29.90"], Standing::Over),
            bar("Basic shape", "22.75", &["20.40", "25.20"], Standing::Over),
            bar("Detailed", "18.30", &["15.90", "21.10"], Standing::Unknown),
            bar("Character", "9.10", &["7.20", "11.30"], Standing::Short),
        ],
        target: Some((dec("20"), "target $20.00".into())),
    }
}

pub(super) fn row(name: &str, parts: &[&str], price: &str) -> CostRow {
    let parts: Vec<_> = parts.iter().map(|part| dec(part)).collect();
    let cost: Decimal = parts.iter().sum();
    CostRow {
        name: name.into(),
        price: dec(price),
        price_label: dollars().write(dec(price), 2),
        cost_label: dollars().write(cost, 2),
        short: dec(price) < cost,
        parts,
    }
}

/// Four tiers, two of them short.
pub(super) fn four_costs() -> CostChart {
    CostChart {
        title: "Characters are sold $4.87 below what they cost with your time".into(),
        subtitle: "March to May 2026, cost a piece with your time at $20.00 an hour".into(),
        axis: "a piece, USD".into(),
        amounts: dollars(),
        elements: ["ingredients", "packaging", "fees", "helper pay", "overhead", "your time at $20.00"].map(String::from).to_vec(),
        rows: vec![
            row("Mini", &["0.11", "0.19", "0.10", "0.12", "0.31", "1.42"], "2.75"),
            row("Basic shape", &["0.30", "0.22", "0.15", "0.20", "0.44", "2.60"], "4.25"),
            row("Detailed", &["0.32", "0.22", "0.23", "0.20", "0.81", "5.60"], "7.00"),
            row("Character", &["0.41", "0.30", "0.39", "0.52", "1.60", "12.15"], "10.50"),
        ],
    }
}

/// Marks of an SVG read back: rectangles of one fill as (x, y, width, height), in CSS pixels.
pub(super) fn rectangles(svg: &str, fill: &str) -> Vec<[f64; 4]> {
    let tagged = format!("fill=\"{fill}\"");
    svg.lines()
        .filter(|line| line.starts_with("<rect x=") && line.contains(&tagged))
        .map(|line| ["x", "y", "width", "height"].map(|name| attribute(line, name) / 4.0))
        .collect()
}

/// The number in an attribute of a line of SVG.
pub(super) fn attribute(line: &str, name: &str) -> f64 {
    let (_, after) = line.split_once(&format!(" {name}=\"")).unwrap_or_else(|| panic!("no {name} in {line}"));
    after.split_once('"').unwrap().0.parse().unwrap()
}

/// All texts of an SVG with the line that places each, in the order drawn.
pub(super) fn texts(svg: &str) -> Vec<(&str, &str)> {
    let lines: Vec<_> = svg.lines().collect();
    lines.windows(2).filter(|pair| pair[0].starts_with("<text")).map(|pair| (pair[1], pair[0])).collect()
}

/// Places of zero and of one dollar, read off the tick labels.
pub(super) fn axis(svg: &str) -> (f64, f64) {
    let tick = |label| {
        let (_, line) = texts(svg).into_iter().find(|(text, _)| *text == label).unwrap();
        attribute(line, "x") / 4.0
    };
    (tick("$0"), (tick("$10") - tick("$0")) / 10.0)
}

/// A design learned and told apart, its label written from its minutes; `interval` may be empty, `card` nil.
pub(super) fn design(name: &str, minutes: f64, interval: &[f64], card: f64) -> MinutesRow {
    MinutesRow {
        name: name.into(),
        note: "12 orders, 214 pieces".into(),
        minutes: Some(minutes),
        low: interval.first().copied(),
        high: interval.get(1).copied(),
        card: (card > 0.0).then_some(card),
        label: format!("{minutes:.0} min"),
        told_apart: true,
    }
}

/// Four designs in three tiers; two of them are always sold together, one was never logged.
pub(super) fn three_tiers() -> MinutesChart {
    let group = |name: &str, rows: Vec<MinutesRow>| MinutesGroup { name: name.into(), rows };
    let unlogged = MinutesRow { minutes: None, label: String::new(), note: String::new(), ..design("Castle", 1.0, &[], 25.0) };
    MinutesChart {
        title: "A character takes you 33 minutes, not the 20 on your card".into(),
        subtitle: "March to May 2026, learned from 41 orders".into(),
        axis: "minutes of decorating a piece".into(),
        groups: vec![
            group("Numerals", vec![design("Birthday numeral", 6.0, &[5.0, 7.5], 5.0)]),
            group("Shapes", vec![MinutesRow { told_apart: false, ..design("Leaf", 12.0, &[4.0, 19.0], 12.0) }]),
            group("Characters", vec![design("Dragon", 33.0, &[28.0, 39.0], 20.0), unlogged]),
        ],
    }
}

/// An order by its two times in minutes.
pub(super) fn order(name: &str, expected: f64, logged: f64, far_off: bool) -> LoggedPoint {
    LoggedPoint { name: name.into(), expected, logged, far_off }
}

/// Five orders, one of them far off.
pub(super) fn five_orders() -> LoggedChart {
    LoggedChart {
        title: "One order of five took far longer than expected".into(),
        subtitle: "March to May 2026, whole orders".into(),
        expected_axis: "time expected from your learned minutes".into(),
        logged_axis: "time you logged".into(),
        usual: 1.25,
        points: vec![
            order("order 11", 60.0, 66.0, false),
            order("order 12", 120.0, 110.0, false),
            order("order 13", 300.0, 330.0, false),
            order("order 14", 480.0, 450.0, false),
            order("order 15", 150.0, 600.0, true),
        ],
    }
}

/// Middles of the circles of one fill and radius, in CSS pixels, in the order drawn.
pub(super) fn circles(svg: &str, fill: &str, radius: f64) -> Vec<(f64, f64)> {
    let tagged = format!("fill=\"{fill}\"");
    svg.lines()
        .filter(|line| line.starts_with("<circle") && line.contains(&tagged) && same(attribute(line, "r") / 4.0, radius))
        .map(|line| (attribute(line, "cx") / 4.0, attribute(line, "cy") / 4.0))
        .collect()
}

/// Middles of the diamonds of one fill and reach, in CSS pixels, in the order drawn.
pub(super) fn diamonds(svg: &str, fill: &str, reach: f64) -> Vec<(f64, f64)> {
    polygons(svg, fill)
        .into_iter()
        .filter(|corners| corners.len() == 4 && same(corners[2].0 - corners[0].0, 2.0 * reach))
        .map(|corners| (corners[1].0, corners[0].1))
        .collect()
}

/// Corners of the polygons of one fill, in CSS pixels, in the order drawn.
pub(super) fn polygons(svg: &str, fill: &str) -> Vec<Vec<(f64, f64)>> {
    let tagged = format!("fill=\"{fill}\"");
    let corner = |pair: &str| {
        let (x, y) = pair.split_once(',').unwrap();
        (x.parse::<f64>().unwrap() / 4.0, y.parse::<f64>().unwrap() / 4.0)
    };
    svg.lines()
        .filter(|line| line.starts_with("<polygon") && line.contains(&tagged))
        .map(|line| line.split("points=\"").nth(1).unwrap().split('"').next().unwrap().split_whitespace().map(corner).collect())
        .collect()
}

fn same(a: f64, b: f64) -> bool {
    (a - b).abs() <= 0.13
}

/// The places of two ticks give the place of any amount: where nil falls across the page, and how far on one unit is.
pub(super) fn across(svg: &str, nil: &str, (label, units): (&str, f64)) -> (f64, f64) {
    let tick = |label: &str| {
        let found = texts(svg).into_iter().find(|(text, line)| *text == label && line.contains("\"middle\""));
        attribute(found.unwrap_or_else(|| panic!("no tick {label}")).1, "x") / 4.0
    };
    (tick(nil), (tick(label) - tick(nil)) / units)
}

/// Texts alone, in the order drawn.
pub(super) fn said(svg: &str) -> Vec<&str> {
    texts(svg).into_iter().map(|(text, _)| text).collect()
}

/// The same up the page, from the labels at the left: where nil falls, and how far up one unit is.
pub(super) fn upward(svg: &str, nil: &str, (label, units): (&str, f64)) -> (f64, f64) {
    let tick = |label: &str| {
        let found = texts(svg).into_iter().find(|(text, line)| *text == label && line.contains("\"end\""));
        // From the top of a tick's label to its line.
        attribute(found.unwrap_or_else(|| panic!("no tick {label}")).1, "y") / 4.0 + 0.76 * 12.5 - 4.5
    };
    (tick(nil), (tick(nil) - tick(label)) / units)
}

/// The two ends of the lines of one colour and width, in CSS pixels, in the order drawn.
pub(super) fn lines(svg: &str, colour: &str, width: f64) -> Vec<[(f64, f64); 2]> {
    let tagged = format!("stroke=\"{colour}\"");
    svg.lines()
        .filter(|line| line.starts_with("<line") && line.contains(&tagged) && same(attribute(line, "stroke-width") / 4.0, width))
        .map(|line| [("x1", "y1"), ("x2", "y2")].map(|(x, y)| (attribute(line, x) / 4.0, attribute(line, y) / 4.0)))
        .collect()
}
