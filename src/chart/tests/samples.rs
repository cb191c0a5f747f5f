//! Invented charts of each form.

use chrono::NaiveDate;
use rust_decimal::Decimal;

use crate::chart::{
    AmountStyle, BarRow, Bars, Column, Columns, Corner, Dimension, Figure, Fill, Heading, Level, Line, LineLook, Measure, Month, Panel,
    Point, Row, Scatter, Series, Sign, Step, Steps, Strip, Strips, Tone,
};

pub(crate) fn dec(text: &str) -> Decimal {
    text.parse().unwrap()
}

pub fn dollars() -> AmountStyle {
    AmountStyle { prefix: "$".into(), suffix: String::new(), decimals: 2 }
}

pub fn heading(title: &str) -> Heading {
    Heading { title: title.into(), subtitle: "March to May 2026, 41 orders".into() }
}

pub fn row(name: &str, note: &str, figures: Vec<Figure>) -> Row {
    Row { group: None, name: name.into(), note: note.into(), figures }
}

/// A figure written from its amount.
pub fn figure(amount: Decimal) -> Figure {
    Figure::new(dollars().write(amount, 2))
}

/// Pay of one name: above, below, or not judged.
pub fn paid(name: &str, wage: &str, range: Option<(&str, &str)>, series: usize) -> BarRow {
    let amount = dec(wage);
    let figure = match series {
        0 => figure(amount).with("above", Tone::Good),
        1 => figure(amount).with("below", Tone::Bad),
        _ => figure(amount),
    };
    BarRow {
        row: row(name, "12 orders, 214 pieces", vec![figure]),
        parts: vec![(series, amount)],
        range: range.map(|(low, high)| (dec(low), dec(high))),
        ..BarRow::default()
    }
}

/// Four tiers against a target of 20.
pub(crate) fn four_tiers() -> Bars {
    let series = [(Fill::Above, "above your target"), (Fill::Below, "below your target"), (Fill::Unknown, "can't tell yet")];
    Bars {
        heading: heading("Characters pay $9.10 an hour, less than half of your target"),
        axis: "hourly pay".into(),
        amounts: dollars(),
        series: series.map(|(fill, name)| Series::new(Sign::Bar(fill), name)).into(),
        range: "range (90 %)".into(),
        columns: vec![String::new()],
        rows: vec![
            paid("Mini", "26.40", Some(("23.10", "29.90")), 0),
            paid("Basic shape", "22.75", Some(("20.40", "25.20")), 0),
            paid("Detailed", "18.30", Some(("15.90", "21.10")), 2),
            paid("Character", "9.10", Some(("7.20", "11.30")), 1),
        ],
        line: Some((dec("20"), "target $20.00".into())),
        ..Bars::default()
    }
}

/// A stack with its price; what the price does not cover is hatched.
pub fn cost(name: &str, parts: &[&str], price: &str) -> BarRow {
    let parts: Vec<Decimal> = parts.iter().map(|part| dec(part)).collect();
    let (all, price): (Decimal, Decimal) = (parts.iter().fold(Decimal::ZERO, |sum, part| sum.saturating_add(*part)), dec(price));
    let figures = vec![figure(price), if price < all { figure(all).with("short", Tone::Bad) } else { figure(all) }];
    BarRow {
        row: row(name, "", figures),
        points: vec![(parts.len(), price)],
        parts: parts.into_iter().enumerate().collect(),
        covered: (price < all).then_some(price),
        ..BarRow::default()
    }
}

/// Four stacks, two of them short.
pub(crate) fn four_costs() -> Bars {
    let elements = ["ingredients", "packaging", "fees", "helper pay", "overhead", "your time"].iter().enumerate();
    let series = elements.map(|(at, name)| Series::said(Sign::Bar(Fill::Part(at)), *name));
    Bars {
        heading: heading("Characters are sold $4.87 below what they cost with your time"),
        axis: "a piece".into(),
        amounts: dollars(),
        series: series.chain([Series::new(Sign::Pin, "price")]).collect(),
        uncovered: "not covered".into(),
        columns: ["price", "cost"].map(String::from).into(),
        rows: vec![
            cost("Mini", &["0.11", "0.19", "0.10", "0.12", "0.31", "1.42"], "2.75"),
            cost("Basic shape", &["0.30", "0.22", "0.15", "0.20", "0.44", "2.60"], "4.25"),
            cost("Detailed", &["0.32", "0.22", "0.23", "0.20", "0.81", "5.60"], "7.00"),
            cost("Character", &["0.41", "0.30", "0.39", "0.52", "1.60", "12.15"], "10.50"),
        ],
        ..Bars::default()
    }
}

/// Minutes learned and guessed; a guess of none leaves it out.
pub fn timed(group: Option<&str>, name: &str, minutes: &str, range: (&str, &str), guess: Option<&str>) -> BarRow {
    BarRow {
        row: Row { group: group.map(str::to_owned), ..row(name, "12 orders, 214 pieces", vec![Figure::new(format!("{minutes} min"))]) },
        points: [(0, dec(minutes))].into_iter().chain(guess.map(|guess| (1, dec(guess)))).collect(),
        range: Some((dec(range.0), dec(range.1))),
        ..BarRow::default()
    }
}

/// Designs of two tiers, one of them never logged.
pub(crate) fn two_tiers() -> Bars {
    Bars {
        heading: heading("A character takes you 33 minutes, not the 20 in designs.csv"),
        axis: "minutes of decorating per piece".into(),
        amounts: AmountStyle::counted(" min", 1),
        series: vec![
            Series::new(Sign::Dot, "from your hours"),
            Series::said(Sign::Guess, "your own guess"),
            Series::new(Sign::Ring, "not told apart"),
        ],
        range: "range (90 %)".into(),
        columns: vec![String::new()],
        rows: vec![
            timed(Some("shape"), "Leaf", "12", ("9", "19"), Some("12")),
            timed(None, "Heart", "6", ("5", "7.5"), None),
            timed(Some("character"), "Dragon", "33", ("28", "39"), Some("20")),
            BarRow {
                row: row("Castle", "", vec![Figure::light("not sold with hours")]),
                points: vec![(1, dec("25"))],
                ..BarRow::default()
            },
        ],
        ..Bars::default()
    }
}

/// Hours of work, and of a rack that dried.
pub fn stages() -> Bars {
    let stage = |group: Option<&str>, name: &str, series: usize, hours: &str| BarRow {
        row: Row { group: group.map(str::to_owned), ..row(name, "", vec![Figure::new(format!("{hours} h"))]) },
        parts: vec![(series, dec(hours))],
        ..BarRow::default()
    };
    Bars {
        heading: heading("Decorating took 26 of your 47 hours"),
        axis: "hours of work".into(),
        amounts: AmountStyle::counted(" h", 0),
        series: [Fill::Plain, Fill::Waiting].map(|fill| Series::new(Sign::Bar(fill), "")).into(),
        columns: ["hours"].map(String::from).into(),
        rows: vec![stage(None, "decorate", 0, "26"), stage(None, "roll", 0, "5.5"), stage(Some("waiting"), "dry", 1, "168")],
        ..Bars::default()
    }
}

pub fn column(amount: &str, fill: Fill) -> Column {
    let label = dollars().write(dec(amount), 2);
    Column { amount: dec(amount), said: format!("{label} an hour"), label, word: String::new(), fill, is_rough: false }
}

/// A month with its pay and its hours, either of which may be empty.
pub fn month(name: &str, year: &str, wage: &str, hours: &str) -> Month {
    let fill = if !wage.is_empty() && dec(wage) >= dec("20") { Fill::Above } else { Fill::Below };
    let worked = |hours: &str| Column { label: format!("{hours} h"), said: format!("{hours} h"), ..column(hours, Fill::Hours) };
    Month {
        name: name.into(),
        year: year.into(),
        is_current: false,
        columns: vec![(!wage.is_empty()).then(|| column(wage, fill)), (!hours.is_empty()).then(|| worked(hours))],
        gap: String::new(),
    }
}

/// Six months against a target of 20; nothing in January, few orders in March, April in question.
pub(crate) fn six_months() -> Columns {
    let mut months = vec![
        month("Nov", "2025", "14.20", "38"),
        month("Dec", "2025", "22.60", "71"),
        month("Jan", "2026", "", ""),
        month("Feb", "2026", "20.10", "44"),
        month("Mar", "2026", "16.30", "12"),
        month("Apr", "2026", "18.40", "47"),
    ];
    months[5].is_current = true;
    months[4].columns[0].as_mut().unwrap().is_rough = true;
    months[1].columns[0].as_mut().unwrap().word = "best".into();
    months[0].columns[0].as_mut().unwrap().word = "worst".into();
    let key = [(Fill::Above, "above your target"), (Fill::Below, "below your target"), (Fill::Unknown, "can't tell yet")];
    Columns {
        heading: heading("April paid $18.40 an hour"),
        key: key.map(|(fill, words)| (fill, words.into())).into(),
        rough: "few orders, so rough".into(),
        panels: vec![
            Panel {
                axis: "hourly pay".into(),
                amounts: dollars(),
                line: Some((dec("20"), "target $20.00".into())),
                missing: "no hourly pay".into(),
            },
            Panel { axis: "hours".into(), amounts: AmountStyle::counted(" h", 0), ..Panel::default() },
        ],
        months,
    }
}

pub fn step(name: &str, amount: &str, fill: Fill) -> Step {
    let amount = dec(amount);
    Step { row: row(name, "", vec![figure(amount), Figure::new("15 %")]), amount, is_sum: matches!(fill, Fill::Sum | Fill::Below), fill }
}

/// A month that brought in 1,000 and is 112 short.
pub(crate) fn one_month() -> Steps {
    Steps {
        heading: heading("41 % of what came in was left for your time"),
        axis: "from what came in to what was left".into(),
        amounts: dollars(),
        key: vec![(Fill::Below, "below your target".into()), (Fill::Above, "above your target".into())],
        columns: ["amount", "share"].map(String::from).into(),
        steps: vec![
            step("revenue", "1000", Fill::Sum),
            step("ingredients", "-152.40", Fill::Part(0)),
            step("packaging", "-88", Fill::Part(1)),
            step("fees", "-35.60", Fill::Part(2)),
            step("left for your time", "724", Fill::Sum),
            step("your time", "-836", Fill::Part(5)),
            step("below your target", "-112", Fill::Below),
        ],
    }
}

pub fn point(name: &str, across: &str, up: &str, series: usize) -> Point {
    Point {
        name: name.into(),
        label: format!("${up}, {across} min"),
        across: dec(across),
        up: dec(up),
        series,
        is_named: true,
        ..Point::default()
    }
}

pub(crate) fn wage_line(wage: &str, look: LineLook) -> Line {
    Line { base: dec("0.90"), slope: dec(wage) / dec("60"), words: format!("${wage} an hour"), look }
}

pub fn amounts(title: &str, measure: AmountStyle) -> Dimension {
    Dimension { title: title.into(), measure: Measure::Amounts(measure), reach: None }
}

/// Four designs against three wages.
pub(crate) fn four_designs() -> Scatter {
    let range = Some((dec("28.8"), dec("43.2")));
    Scatter {
        heading: heading("The dragon leaves $7.00 for 36 minutes"),
        across: amounts("minutes per piece", AmountStyle::counted(" min", 0)),
        up: amounts("left of a piece's price", dollars()),
        series: [(Sign::Above, "above your target"), (Sign::Below, "below your target"), (Sign::Unknown, "can't tell yet")]
            .map(|(sign, name)| Series::said(sign, name))
            .into(),
        points: vec![
            Point { range, ..point("Dragon", "36", "7.00", 1) },
            point("Birthday numeral", "9", "4.75", 0),
            point("Leaf", "12", "5.00", 2),
            point("Heart plaque", "22", "9.50", 0),
        ],
        range: "range of minutes (90 %)".into(),
        lines: vec![wage_line("10", LineLook::Faint), wage_line("20", LineLook::Target), wage_line("30", LineLook::Faint)],
        ..Scatter::default()
    }
}

pub fn order(pieces: &str, wage: &str) -> Point {
    Point { across: dec(pieces), up: dec(wage), ..Point::default() }
}

pub fn level(name: &str, from: &str, to: Option<&str>, amount: Option<&str>) -> Level {
    Level {
        name: name.into(),
        label: amount.map_or_else(|| "no hours".into(), |amount| format!("${amount}")),
        note: "4 orders".into(),
        from: dec(from),
        to: to.map(dec),
        amount: amount.map(dec),
    }
}

/// Nine orders in three classes.
pub(crate) fn nine_orders() -> Scatter {
    let orders = [
        ("12", "9.40"),
        ("12", "12.80"),
        ("18", "17.20"),
        ("24", "19.10"),
        ("24", "22.60"),
        ("24", "15.00"),
        ("36", "24.30"),
        ("36", "20.90"),
        ("60", "23.50"),
    ];
    Scatter {
        heading: heading("Orders under 18 pieces do not pay their set-up"),
        across: Dimension { reach: Some(dec("12")), ..amounts("pieces in the order", AmountStyle::default()) },
        up: amounts("hourly pay", dollars()),
        series: vec![Series::new(Sign::One, "an order")],
        points: orders.map(|(pieces, wage)| order(pieces, wage)).into(),
        lines: vec![Line { base: dec("20"), slope: Decimal::ZERO, words: "target $20.00".into(), look: LineLook::Target }],
        uprights: vec![(dec("18"), "orders pay from 18 cookies up".into())],
        levels: vec![
            level("1–12 pieces", "0.5", Some("12.5"), Some("11.20")),
            level("13–24 pieces", "12.5", Some("24.5"), Some("18.60")),
            level("49+ pieces", "48.5", None, Some("23.50")),
        ],
        level: "all orders of a size together".into(),
        beyond: Some(["an order far beyond the edge", "orders far beyond the edge"].map(String::from)),
        said: vec!["target $20.00".into()],
        ..Scatter::default()
    }
}

/// Times logged against times expected; the last order is far off.
pub(crate) fn five_orders() -> Scatter {
    let times = |title: &str| Dimension { title: title.into(), measure: Measure::Times, reach: None };
    let order = |at: &str, expected: &str, logged: &str, series: usize| Point {
        label: format!("logged {logged}"),
        is_named: series == 0,
        ..point(&format!("order {at}"), expected, logged, series)
    };
    Scatter {
        heading: heading("1 order of 5 took far longer than expected"),
        across: times("expected for its pieces"),
        up: times("logged by you"),
        series: vec![Series::new(Sign::FarOff, "an order far from what was expected"), Series::new(Sign::One, "an order")],
        points: vec![
            order("15", "150", "600", 0),
            order("11", "60", "66", 1),
            order("12", "120", "110", 1),
            order("13", "300", "330", 1),
            order("14", "480", "450", 1),
        ],
        lines: vec![Line { base: Decimal::ZERO, slope: Decimal::ONE, words: "as expected".into(), look: LineLook::Even }],
        band: Some((dec("1.25"), "usual: from 20 % less to 25 % more".into())),
        corners: vec![
            (Corner::TopLeft, "took longer than expected".into(), Tone::Plain),
            (Corner::BottomRight, "quicker than expected".into(), Tone::Plain),
        ],
        ..Scatter::default()
    }
}

/// From 2,000 with no order lost to −8,000 with all of them lost.
pub fn raise() -> Scatter {
    Scatter {
        heading: heading("The raise still earns more if you lose up to 20 % of your orders"),
        across: Dimension { reach: Some(dec("40")), ..amounts("share of orders lost", AmountStyle::counted(" %", 0)) },
        up: amounts("more or less than at today's prices", dollars()),
        series: vec![Series::new(Sign::Dot, "")],
        points: vec![Point { across: dec("20"), ..Point::default() }],
        uprights: vec![(dec("20"), "20 % lost: as much money as now".into())],
        lines: vec![Line { base: dec("2000"), slope: dec("-100"), words: String::new(), look: LineLook::Main }],
        corners: vec![(Corner::TopRight, "more than now".into(), Tone::Good), (Corner::BottomLeft, "less than now".into(), Tone::Bad)],
        sentence: "No order lost makes it worse.".into(),
        said: vec!["none lost: $2,000.00".into()],
        ..Scatter::default()
    }
}

pub fn day(text: &str) -> NaiveDate {
    text.parse().unwrap()
}

pub(crate) fn strip(name: &str, paid: &[(&str, &str)]) -> Strip {
    let paid: Vec<_> = paid.iter().map(|(on, price)| (day(on), dec(price))).collect();
    let label = |paid: Option<&(NaiveDate, Decimal)>| paid.map_or_else(String::new, |(_, price)| dollars().write(*price, 2));
    let figures = vec![Figure::light(label(paid.first())), Figure::new(label(paid.last())), Figure::new("+9 %").with("dearer", Tone::Bad)];
    Strip { row: row(name, "a kilogram", figures), paid }
}

/// Butter that rose, sugar that fell, vanilla bought once and flour not at all.
pub(crate) fn four_items() -> Strips {
    Strips {
        heading: heading("Butter is a third dearer than in January"),
        axis: "each purchase, each item on its own scale".into(),
        columns: ["first", "latest", "change"].map(String::from).into(),
        strips: vec![
            strip("butter", &[("2026-01-05", "3.60"), ("2026-02-20", "3.90"), ("2026-04-02", "3.80"), ("2026-06-01", "4.80")]),
            strip("icing sugar", &[("2026-01-05", "1.10"), ("2026-03-15", "1.08"), ("2026-05-20", "1.05")]),
            strip("vanilla", &[("2026-03-01", "21.00")]),
            strip("flour", &[]),
        ],
        ticks: ["Jan", "Feb", "Mar", "Apr", "May", "Jun"]
            .iter()
            .zip(1..)
            .map(|(name, month)| (NaiveDate::from_ymd_opt(2026, month, 5).unwrap(), (*name).to_owned()))
            .collect(),
    }
}
