//! Whatever the rows and on either page: no two texts touch, none leaves the page, and on a phone no letter is too small.

use rust_decimal::Decimal;

use super::marks::texts;
use super::samples::{
    amounts, column, cost, day, dec, dollars, five_orders, four_costs, four_designs, four_items, four_tiers, heading, level, month,
    nine_orders, one_month, order, paid, point, raise, row, six_months, stages, step, strip, timed, two_tiers, wage_line,
};
use crate::chart::{Bars, Chart, Columns, Figure, Fill, Heading, LineLook, Point, Scatter, Steps, Strips, Width};

const SHORT: [&str; 3] = ["Mini", "Basic shape", "Birthday numeral"];
const LONG: [&str; 4] = [
    "A dragon in seven colours, wings spread, guarding a castle of gingerbread and its moat at dusk",
    "Łódź harbour “at night” <b>&amp; 花🍪 fête — ½ glazed, ½ bare",
    "Wwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwww",
    "",
];
const COUNTS: [u32; 7] = [0, 1, 2, 3, 12, 24, 40];
const TIMES: [&str; 5] = ["0.001", "1", "-1", "1000", "1000000000000000"];

/// The smallest letter that can be read on a phone, in CSS pixels.
const READABLE: f64 = 11.0;

fn assert_apart(chart: &dyn Chart, what: &str) {
    for width in [Width::Wide, Width::Narrow] {
        let picture = chart.picture(width);
        let texts = texts(&picture);
        assert!(!texts.is_empty(), "{what}: no text");
        for (at, text) in texts.iter().enumerate() {
            let is_inside = text.left >= picture.page.margin - 0.5
                && text.right <= picture.page.right() + 0.5
                && text.top >= 5.0
                && text.bottom <= picture.height - 5.0;
            assert!(is_inside, "{what}, {width:?}: {text:?} leaves the page");
            assert!(text.size >= READABLE, "{what}, {width:?}: {text:?} is too small");
            for other in &texts[at + 1..] {
                let is_apart = text.right <= other.left || other.right <= text.left || text.bottom <= other.top || other.bottom <= text.top;
                assert!(is_apart, "{what}, {width:?}: {text:?} touches {other:?}");
            }
        }
    }
}

/// Runs `check` over names, numbers of rows and factors on all amounts.
fn everywhere(check: impl Fn(&[&str], u32, Decimal, &str)) {
    for names in [&SHORT[..], &LONG[..]] {
        for count in COUNTS {
            for times in TIMES {
                check(names, count, dec(times), &format!("{count} rows × {times}"));
            }
        }
    }
}

fn name<'a>(names: &[&'a str], at: u32) -> &'a str {
    names[at as usize % names.len()]
}

fn wages(names: &[&str], count: u32, times: Decimal) -> Bars {
    let bar = |at: u32| {
        let wage = (dec("31") - Decimal::from(at * 9 % 43)) * times;
        let (low, high) = (wage - Decimal::from(at) * times, wage + Decimal::from(at * 3 % 17) * times);
        paid(name(names, at), &wage.to_string(), Some((&low.to_string(), &high.to_string())), at as usize % 3)
    };
    Bars { rows: (0..count).map(bar).collect(), line: Some((dec("20") * times, name(names, 0).into())), ..four_tiers() }
}

fn costs(names: &[&str], count: u32, times: Decimal) -> Bars {
    let bar = |at: u32| {
        let part = |step: u32| (Decimal::new(i64::from(at * step % 900), 2) * times).to_string();
        let parts = [part(13), part(7), part(3), part(29), part(31), part(211)];
        cost(name(names, at), &parts.each_ref().map(String::as_str), &part(331))
    };
    Bars { rows: (0..count).map(bar).collect(), ..four_costs() }
}

fn minutes(names: &[&str], count: u32, times: Decimal) -> Bars {
    let bar = |at: u32| {
        let minutes = (Decimal::from(1 + at * 13 % 47) * times).abs();
        let (low, high) = (minutes / dec("2"), minutes * Decimal::from(1 + at % 7));
        let guess = minutes * Decimal::from(at % 3);
        let group = at.is_multiple_of(5).then(|| name(names, at / 2));
        timed(group, name(names, at), &minutes.to_string(), (&low.to_string(), &high.to_string()), Some(&guess.to_string()))
    };
    Bars { rows: (0..count).map(bar).collect(), ..two_tiers() }
}

#[test]
fn texts_of_bars_never_touch() {
    everywhere(|names, count, times, what| {
        assert_apart(&wages(names, count, times), &format!("wages, {what}"));
        assert_apart(&costs(names, count, times), &format!("costs, {what}"));
        assert_apart(&minutes(names, count, times), &format!("minutes, {what}"));
    });
    assert_apart(&stages(), "stages");
}

fn monthly(names: &[&str], count: u32, times: Decimal, current: u32) -> Columns {
    let bar = |at: u32| {
        let amount = |step: u32, missing: u32| {
            let amount = (Decimal::from(at * step % 31) - dec("3")) * times;
            if at % 11 == missing { String::new() } else { amount.to_string() }
        };
        let mut month = month(name(names, at), name(names, at / 12), &amount(13, 4), &amount(17, 5));
        month.is_current = at == current;
        if let Some(column) = month.columns[0].as_mut().filter(|_| at % 7 == 3) {
            (column.is_rough, column.word) = (true, "best".into());
        }
        month
    };
    let mut chart = Columns { months: (0..count).map(bar).collect(), ..six_months() };
    chart.panels[0].line = Some((dec("20") * times, name(names, 0).into()));
    chart
}

#[test]
fn texts_of_columns_never_touch() {
    everywhere(|names, count, times, what| {
        for current in [count / 2, count.saturating_sub(1)] {
            assert_apart(&monthly(names, count, times, current), &format!("months, {what}, current {current}"));
        }
    });
    for current in 0..36 {
        assert_apart(&monthly(&["Jan", "Feb", "May"], 36, Decimal::ONE, current), &format!("current {current}"));
    }
}

/// "$18.80 best $19.14 $18.31" stood in one line over three neighbours.
#[test]
fn figures_of_neighbours_do_not_run_together() {
    use crate::chart::draw::picture::Role;
    for count in [3_u32, 8, 12, 24] {
        for current in 0..count {
            let wage = |at: u32| if at == 4 { "19.14".to_owned() } else { format!("18.{}", 80 - at) };
            let bar = |at: u32| {
                let mut month = month("Jan", "2026", &wage(at), "40");
                month.is_current = at == current;
                month.columns[0] = Some(crate::chart::Column {
                    word: if at == 4 { "best".into() } else { String::new() },
                    ..column(&wage(at), Fill::Below)
                });
                month
            };
            let chart = Columns { months: (0..count).map(bar).collect(), ..six_months() };
            for width in [Width::Wide, Width::Narrow] {
                let figures: Vec<_> = texts(&chart.picture(width)).into_iter().filter(|text| text.role == Role::Name).collect();
                for (at, one) in figures.iter().enumerate() {
                    for other in &figures[at + 1..] {
                        let is_apart = one.right + 11.5 <= other.left
                            || other.right + 11.5 <= one.left
                            || (one.baseline - other.baseline).abs() >= 12.0;
                        assert!(is_apart, "{one:?} and {other:?}, {current} of {count}");
                    }
                }
            }
        }
    }
}

fn falling(names: &[&str], count: u32, times: Decimal) -> Steps {
    let of = |at: u32| {
        let fill = match at {
            0 => Fill::Sum,
            at if at + 1 == count => Fill::Below,
            at => Fill::Part(at as usize),
        };
        let amount = if at == 0 { dec("900") } else { -Decimal::from(at * 13 % 97) };
        let mut step = step(name(names, at), &(amount * times).to_string(), fill);
        step.row.note = name(names, at + 1).into();
        step.row.figures[1] = Figure::new(name(names, at));
        step
    };
    Steps { steps: (0..count).map(of).collect(), columns: vec![name(names, 0).into(), name(names, 1).into()], ..one_month() }
}

#[test]
fn texts_of_steps_never_touch() {
    everywhere(|names, count, times, what| assert_apart(&falling(names, count, times), &format!("steps, {what}")));
}

fn against_minutes(names: &[&str], count: u32, times: Decimal) -> Scatter {
    let of = |at: u32| {
        let (minutes, price) = (Decimal::from(3 + at * 29 % 41) * times.abs(), Decimal::from(2 + at * 17 % 13) * times);
        let range = Some((minutes * dec("0.8"), minutes * dec("1.2")));
        Point { range, ..point(name(names, at), &minutes.to_string(), &price.to_string(), at as usize % 3) }
    };
    let look = |at: u32| if at == 2 { LineLook::Target } else { LineLook::Faint };
    let lines =
        (0..count % 7).map(|at| crate::chart::Line { words: name(names, at).into(), ..wage_line(&(10 * at).to_string(), look(at)) });
    Scatter { points: (0..count).map(of).collect(), lines: lines.collect(), ..four_designs() }
}

fn by_size(names: &[&str], count: u32, times: Decimal) -> Scatter {
    let of = |at: u32| order(&(1 + at * 37 % 90).to_string(), &(Decimal::from(at * 13 % 41) * times).to_string());
    let class = |at: u32| {
        let mean = (Decimal::from(at * 7 % 30) * times).to_string();
        crate::chart::Level { label: name(names, at + 1).into(), ..level(name(names, at), &(12 * at).to_string(), None, Some(&mean)) }
    };
    let mut chart = Scatter { points: (0..count).map(of).collect(), levels: (0..count).map(class).collect(), ..nine_orders() };
    (chart.lines[0].base, chart.lines[0].words) = (dec("20") * times, name(names, 2).into());
    chart.uprights = vec![(Decimal::from(count * 7 % 50), name(names, 1).into())];
    chart
}

/// Orders about the diagonal, every fourth far off; `spread` is what the shortest and the longest differ by.
fn logged(names: &[&str], count: u32, times: f64, spread: f64) -> Scatter {
    use rust_decimal::prelude::FromPrimitive;
    let of = |at: u32| {
        let expected = times * spread.powf(f64::from(at * 37 % 101) / 100.0);
        let is_far = at % 4 == 3;
        let off = if is_far { [0.3, 3.0, 0.2][at as usize % 3] } else { 0.8 + f64::from(at % 5) / 10.0 };
        let minutes = |minutes: f64| Decimal::from_f64(minutes).unwrap_or_default();
        Point {
            across: minutes(expected),
            up: minutes(expected * off),
            is_named: is_far && at < 24,
            ..point(name(names, at), "1", "1", usize::from(!is_far))
        }
    };
    Scatter { points: (0..count).map(of).collect(), ..five_orders() }
}

#[test]
fn texts_of_scatters_never_touch() {
    everywhere(|names, count, times, what| {
        assert_apart(&against_minutes(names, count, times), &format!("price, {what}"));
        assert_apart(&by_size(names, count, times), &format!("sizes, {what}"));
    });
    let mut heap = against_minutes(&LONG, 40, Decimal::ONE);
    for point in &mut heap.points {
        (point.across, point.up) = (dec("10"), dec("5"));
    }
    assert_apart(&heap, "forty in one place");
    for names in [&SHORT[..], &LONG[..]] {
        for count in [0, 1, 3, 40, 300] {
            for (times, spread) in [(0.1, 1.0), (1.0, 1.5), (60.0, 8.0), (60.0, 1000.0), (1e6, 3.0), (1e20, 8.0)] {
                assert_apart(&logged(names, count, times, spread), &format!("{count} orders × {times}, {spread} apart"));
            }
        }
    }
    for (gain, slope, reach) in [("2000", "-100", "40"), ("0.02", "-0.3", "20"), ("9000000", "-800000", "20"), ("5", "-0.1", "100")] {
        let mut chart = raise();
        (chart.lines[0].base, chart.lines[0].slope, chart.across.reach) = (dec(gain), dec(slope), Some(dec(reach)));
        assert_apart(&chart, gain);
    }
}

fn bought(names: &[&str], count: u32, times: Decimal) -> Strips {
    let of = |at: u32| {
        let paid = (0..at % 5).map(|step| {
            let price = (Decimal::from(1 + (at + step * 7) % 9) * times).to_string();
            (format!("2026-{:02}-{:02}", 1 + (at + 3 * step) % 12, 1 + at % 28), price)
        });
        let paid: Vec<_> = paid.collect();
        let paid: Vec<_> = paid.iter().map(|(day, price)| (day.as_str(), price.as_str())).collect();
        strip(name(names, at), &paid)
    };
    let ticks = (0..count).map(|at| (day("2026-01-01") + chrono::Days::new(u64::from(9 * at)), name(names, at).to_owned()));
    Strips { strips: (0..count).map(of).collect(), ticks: ticks.collect(), ..four_items() }
}

#[test]
fn texts_of_strips_never_touch() {
    everywhere(|names, count, times, what| assert_apart(&bought(names, count, times), &format!("strips, {what}")));
}

#[test]
fn headings_keys_and_axes_have_room() {
    let long = LONG.join(" ");
    let heading = Heading { title: long.repeat(3), subtitle: long.repeat(4) };
    let with = |chart: Bars| Bars { heading: heading.clone(), axis: long.clone(), ..chart };
    assert_apart(&with(wages(&LONG, 20, Decimal::ONE)), "wages");
    let mut stack = with(costs(&LONG, 20, Decimal::ONE));
    for series in &mut stack.series {
        series.name.clone_from(&long);
    }
    stack.uncovered.clone_from(&long);
    assert_apart(&stack, "costs");
    assert_apart(&Steps { heading: heading.clone(), axis: long.clone(), ..falling(&LONG, 9, Decimal::ONE) }, "steps");
    assert_apart(&Strips { heading: heading.clone(), axis: long.clone(), ..bought(&LONG, 9, Decimal::ONE) }, "strips");
    let mut months = Columns { heading: heading.clone(), ..monthly(&LONG, 9, Decimal::ONE, 3) };
    months.panels.iter_mut().for_each(|panel| panel.axis.clone_from(&long));
    assert_apart(&months, "months");
    let titled =
        |chart: Scatter| Scatter { heading: heading.clone(), across: amounts(&long, dollars()), up: amounts(&long, dollars()), ..chart };
    assert_apart(&titled(against_minutes(&LONG, 9, Decimal::ONE)), "price");
    assert_apart(&titled(by_size(&LONG, 5, Decimal::ONE)), "sizes");
    for target in ["-500", "0", "0.01", "31", "90000000"].map(dec) {
        assert_apart(&Bars { line: Some((target, LONG[0].into())), ..wages(&LONG, 20, Decimal::ONE) }, &format!("target {target}"));
    }
}

/// At 390 CSS pixels a page has room for 358.
#[test]
fn every_narrow_picture_fits_a_phone_and_figures_are_whole() {
    let mut chart = wages(&LONG, 24, Decimal::ONE);
    for (at, bar) in (0_i64..).zip(&mut chart.rows) {
        bar.row = row(LONG[0], "", vec![Figure::new(format!("$1,234,56{}.50", at % 10)), Figure::new("−$98,765.43"), Figure::new("100 %")]);
    }
    chart.columns = ["price", "cost", "change"].map(String::from).into();
    chart.heading = heading("Figures");
    let picture = chart.picture(Width::Narrow);
    assert!((picture.page.width - 358.0).abs() < 1e-9);
    assert!(super::marks::said(&picture).iter().filter(|text| *text == "−$98,765.43").count() == 24);
    assert!(super::marks::said(&picture).iter().filter(|text| text.starts_with("$1,234,56") && text.ends_with(".50")).count() == 24);
}
