//! No two texts of a review's charts touch, and none leaves the page, whatever the rows.

use rust_decimal::Decimal;

use super::overlap_tests::{LONG, assert_apart};
use super::review_samples::{
    bridge_end, bridge_step, day, dollar_step, four_designs, four_items, item, march_to_april, month, nine_orders, one_month_of_dollars,
    six_months, six_stages, size_class, sold, stage, wage_line, waiting,
};
use super::samples::dec;
use super::{
    BridgeChart, DollarChart, DollarKind, ItemPrices, ItemPricesChart, MonthBar, MonthsChart, OrderSizeChart, PriceMinutesChart, SizeClass,
    SizeDot, StagesChart, Standing, WageLine,
};

const SHORT: [&str; 3] = ["Mini", "Basic shape", "Birthday numeral"];
const COUNTS: [u32; 7] = [0, 1, 2, 3, 12, 17, 40];
const TIMES: [&str; 5] = ["0.001", "1", "-1", "1000", "1000000000000000"];

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

fn name(names: &[&str], at: u32) -> String {
    names[at as usize % names.len()].to_owned()
}

fn falling(names: &[&str], count: u32, times: Decimal) -> DollarChart {
    let step = |at: u32| {
        let kind = match at {
            0 => DollarKind::Sum,
            at if at + 1 == count => DollarKind::Outcome(Standing::Short),
            at if at % 4 == 2 => DollarKind::Change,
            at => DollarKind::Cost(at as usize),
        };
        let amount = if at == 0 { dec("900") } else { -Decimal::from(at * 13 % 97) };
        dollar_step(&name(names, at), &(amount * times).to_string(), &name(names, at + 1), kind)
    };
    DollarChart { steps: (0..count).map(step).collect(), share_heading: name(names, 0), ..one_month_of_dollars() }
}

fn bridged(names: &[&str], count: u32, times: Decimal) -> BridgeChart {
    let step = |at: u32| bridge_step(&name(names, at), &((Decimal::from(at * 13 % 41) - dec("20")) * times).to_string());
    BridgeChart {
        start: bridge_end(&name(names, 1), &(dec("-112") * times).to_string()),
        steps: (0..count).map(step).collect(),
        end: bridge_end(&name(names, 2), &(dec("34") * times).to_string()),
        ..march_to_april()
    }
}

fn staged(names: &[&str], count: u32, times: Decimal) -> StagesChart {
    let hours = |at: u32, step: u32| (Decimal::from(at * step % 31) * times).to_string();
    let bar = |at: u32| stage(&name(names, at), &hours(at, 7), &hours(at, 3), &name(names, at + 1));
    StagesChart {
        stages: (0..count).map(bar).collect(),
        waiting: (0..count / 3).map(|at| waiting(&name(names, at), &hours(at, 900))).collect(),
        ..six_stages()
    }
}

fn against_minutes(names: &[&str], count: u32, times: Decimal) -> PriceMinutesChart {
    let standings = [Standing::Over, Standing::Short, Standing::Unknown];
    let point = |at: u32| {
        let (minutes, price) = (Decimal::from(3 + at * 29 % 41), Decimal::from(2 + at * 17 % 13) * times);
        sold(&name(names, at), &(minutes * times.abs()).to_string(), &price.to_string(), standings[at as usize % 3])
    };
    let lines = (0..count % 7).map(|at| WageLine { label: name(names, at), ..wage_line(&(10 * at).to_string(), at == 2) });
    PriceMinutesChart { points: (0..count).map(point).collect(), lines: lines.collect(), ..four_designs() }
}

#[test]
fn texts_of_prices_against_minutes_never_touch() {
    everywhere(|names, count, times, what| assert_apart(&against_minutes(names, count, times).svg(), &format!("price, {what}")));
    let mut heap = against_minutes(&LONG, 40, Decimal::ONE);
    for point in &mut heap.points {
        (point.minutes, point.price) = (dec("10"), dec("5"));
    }
    assert_apart(&heap.svg(), "forty in one place");
}

/// Months over several years, the one in question at `current`.
fn monthly(names: &[&str], count: u32, times: Decimal, current: u32) -> MonthsChart {
    let bar = |at: u32| {
        let amount = |step: u32, missing: u32| {
            let amount = (Decimal::from(at * step % 31) - dec("3")) * times;
            if at % 11 == missing { String::new() } else { amount.to_string() }
        };
        let bar = month(&name(names, at), &name(names, at / 12), &amount(13, 4), &amount(17, 5));
        MonthBar { few: at % 7 == 3, current: at == current, ..bar }
    };
    MonthsChart { months: (0..count).map(bar).collect(), target: Some((dec("20") * times, name(names, 0))), ..six_months() }
}

#[test]
fn texts_of_months_never_touch() {
    everywhere(|names, count, times, what| {
        for current in [count / 2, count.saturating_sub(1)] {
            assert_apart(&monthly(names, count, times, current).svg(), &format!("months, {what}, current {current}"));
        }
    });
    for current in 0..36 {
        assert_apart(&monthly(&["Jan", "Feb", "May"], 36, Decimal::ONE, current).svg(), &format!("current {current}"));
    }
}

fn by_size(names: &[&str], count: u32, times: Decimal) -> OrderSizeChart {
    let order = |at: u32| SizeDot { pieces: i64::from(1 + at * 37 % 90), wage: Decimal::from(at * 13 % 41) * times, current: at % 3 == 1 };
    let class = |at: u32| {
        let mean = (Decimal::from(at * 7 % 30) * times).to_string();
        SizeClass { name: name(names, at), label: name(names, at + 1), ..size_class(i64::from(12 * at + 1), None, &mean, at) }
    };
    OrderSizeChart {
        orders: (0..count).map(order).collect(),
        classes: (0..count).map(class).collect(),
        target: Some((dec("20") * times, name(names, 2))),
        smallest: Some((Decimal::from(count * 7 % 50), name(names, 1))),
        ..nine_orders()
    }
}

#[test]
fn texts_of_order_sizes_never_touch() {
    everywhere(|names, count, times, what| assert_apart(&by_size(names, count, times).svg(), &format!("sizes, {what}")));
}

fn bought(names: &[&str], count: u32, times: Decimal) -> ItemPricesChart {
    let of = |at: u32| {
        let paid = (0..at % 5).map(|step| {
            let price = (Decimal::from(1 + (at + step * 7) % 9) * times).to_string();
            (format!("2026-{:02}-{:02}", 1 + (at + 3 * step) % 12, 1 + at % 28), price)
        });
        let paid: Vec<_> = paid.collect();
        let paid: Vec<_> = paid.iter().map(|(day, price)| (day.as_str(), price.as_str())).collect();
        ItemPrices { note: name(names, at + 1), ..item(&name(names, at), &paid) }
    };
    let ticks = (0..count).map(|at| (day("2026-01-01") + chrono::Days::new(u64::from(9 * at)), name(names, at)));
    ItemPricesChart { items: (0..count).map(of).collect(), ticks: ticks.collect(), ..four_items() }
}

#[test]
fn texts_of_item_prices_never_touch() {
    everywhere(|names, count, times, what| assert_apart(&bought(names, count, times).svg(), &format!("items, {what}")));
}

#[test]
fn texts_of_waterfalls_never_touch() {
    everywhere(|names, count, times, what| {
        assert_apart(&falling(names, count, times).svg(), &format!("dollar, {what}"));
        assert_apart(&bridged(names, count, times).svg(), &format!("bridge, {what}"));
    });
}

#[test]
fn texts_of_stages_never_touch() {
    everywhere(|names, count, times, what| assert_apart(&staged(names, count, times).svg(), &format!("stages, {what}")));
}

#[test]
fn headings_have_room() {
    let long = LONG.join(" ");
    let (title, subtitle, axis) = (long.repeat(3), long.repeat(4), long);
    let dollar = DollarChart { title: title.clone(), subtitle: subtitle.clone(), axis: axis.clone(), ..falling(&LONG, 9, Decimal::ONE) };
    assert_apart(&dollar.svg(), "dollar");
    let bridge = BridgeChart { title: title.clone(), subtitle: subtitle.clone(), axis: axis.clone(), ..bridged(&LONG, 9, Decimal::ONE) };
    assert_apart(&bridge.svg(), "bridge");
    let price = PriceMinutesChart {
        title: title.clone(),
        subtitle: subtitle.clone(),
        minutes_axis: axis.clone(),
        price_axis: axis.clone(),
        ..against_minutes(&LONG, 9, Decimal::ONE)
    };
    assert_apart(&price.svg(), "price");
    let months = MonthsChart {
        title: title.clone(),
        subtitle: subtitle.clone(),
        wage_axis: axis.clone(),
        hours_axis: axis.clone(),
        ..monthly(&LONG, 9, Decimal::ONE, 3)
    };
    assert_apart(&months.svg(), "months");
    let sizes = OrderSizeChart {
        title: title.clone(),
        subtitle: subtitle.clone(),
        wage_axis: axis.clone(),
        pieces_axis: axis.clone(),
        ..by_size(&LONG, 5, Decimal::ONE)
    };
    assert_apart(&sizes.svg(), "sizes");
    let items = ItemPricesChart { title: title.clone(), subtitle: subtitle.clone(), axis: axis.clone(), ..bought(&LONG, 9, Decimal::ONE) };
    assert_apart(&items.svg(), "items");
    assert_apart(&StagesChart { title, subtitle, axis, ..staged(&LONG, 9, Decimal::ONE) }.svg(), "stages");
}
