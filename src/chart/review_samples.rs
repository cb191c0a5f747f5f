//! Invented rows for the tests of a review's charts.

use chrono::NaiveDate;
use rust_decimal::Decimal;

use super::samples::{dec, dollars};
use super::{
    BridgeChart, BridgeEnd, BridgeStep, DollarChart, DollarKind, DollarStep, ItemPrices, ItemPricesChart, MonthBar, MonthsChart,
    OrderSizeChart, PriceMinutesChart, PriceMinutesPoint, PricePaid, SizeClass, SizeDot, StageBar, StagesChart, Standing, WageLine,
    WaitingBar,
};

/// `amount` with its sign, in cents.
pub(super) fn signed(amount: Decimal) -> String {
    let written = dollars().write(amount, 2);
    if amount > Decimal::ZERO { format!("+{written}") } else { written }
}

/// A step with its label written from its amount.
pub(super) fn dollar_step(name: &str, amount: &str, share: &str, kind: DollarKind) -> DollarStep {
    let amount = dec(amount);
    DollarStep { name: name.into(), note: String::new(), amount, label: dollars().write(amount, 2), share: share.into(), kind }
}

/// A month that brought in 1,000 and is 112 short.
pub(super) fn one_month_of_dollars() -> DollarChart {
    DollarChart {
        title: "41 ¢ of each dollar were left for your time, 11 ¢ below your target".into(),
        subtitle: "April 2026, 14 orders".into(),
        axis: "all orders of the month, USD".into(),
        share_heading: "of each $1".into(),
        amounts: dollars(),
        steps: vec![
            dollar_step("revenue", "1000", "100 ¢", DollarKind::Sum),
            dollar_step("ingredients", "-152.40", "15 ¢", DollarKind::Cost(0)),
            dollar_step("packaging", "-88", "9 ¢", DollarKind::Cost(1)),
            dollar_step("fees", "-35.60", "4 ¢", DollarKind::Cost(2)),
            dollar_step("helper pay", "-144", "14 ¢", DollarKind::Cost(3)),
            dollar_step("overhead", "-170", "17 ¢", DollarKind::Cost(4)),
            dollar_step("left for your time", "410", "41 ¢", DollarKind::Sum),
            dollar_step("your time at $20.00", "-522", "52 ¢", DollarKind::Cost(5)),
            dollar_step("below your target", "-112", "−11 ¢", DollarKind::Outcome(Standing::Short)),
        ],
    }
}

pub(super) fn bridge_step(name: &str, change: &str) -> BridgeStep {
    BridgeStep { name: name.into(), note: String::new(), change: dec(change), label: signed(dec(change)) }
}

pub(super) fn bridge_end(name: &str, amount: &str) -> BridgeEnd {
    BridgeEnd { name: name.into(), note: "14 orders".into(), amount: dec(amount), label: dollars().write(dec(amount), 2) }
}

/// From 112 short to 34 over, in steps that add up.
pub(super) fn march_to_april() -> BridgeChart {
    BridgeChart {
        title: "You moved from $112.00 short to $34.00 over, most of it by price".into(),
        subtitle: "April against March 2026".into(),
        axis: "above or below your target, USD".into(),
        amounts: dollars(),
        start: bridge_end("March 2026", "-112"),
        steps: vec![
            bridge_step("price", "131.50"),
            bridge_step("minutes a piece", "48.20"),
            bridge_step("ingredient price", "-22.70"),
            bridge_step("overhead", "-11"),
        ],
        end: bridge_end("April 2026", "34"),
    }
}

pub(super) fn stage(name: &str, own: &str, helpers: &str, share: &str) -> StageBar {
    let (own, helpers) = (dec(own), dec(helpers));
    StageBar { name: name.into(), note: String::new(), own, helpers, label: format!("{} h", own + helpers), share: share.into() }
}

pub(super) fn waiting(name: &str, hours: &str) -> WaitingBar {
    WaitingBar { name: name.into(), note: "nobody worked".into(), hours: dec(hours), label: format!("{hours} h") }
}

/// Six stages, two of them with a helper, and drying.
pub(super) fn six_stages() -> StagesChart {
    StagesChart {
        title: "Decorating took 26 of your 47 hours".into(),
        subtitle: "April 2026, 14 orders".into(),
        axis: "hours of work".into(),
        stages: vec![
            stage("decorate", "22.5", "3.5", "55 %"),
            stage("roll", "5.5", "0", "12 %"),
            stage("pack", "1.5", "3.0", "10 %"),
            stage("bake", "4.0", "0", "9 %"),
            stage("clean", "3.5", "0", "7 %"),
            stage("admin", "3.5", "0", "7 %"),
        ],
        waiting: vec![waiting("dry", "168")],
    }
}

/// A design with its label written from its price and minutes; the interval is a fifth of the minutes either way.
pub(super) fn sold(name: &str, minutes: &str, price: &str, standing: Standing) -> PriceMinutesPoint {
    let (minutes, price) = (dec(minutes), dec(price));
    PriceMinutesPoint {
        name: name.into(),
        minutes,
        price,
        label: format!("{}, {} min", dollars().write(price, 2), minutes.round()),
        low: minutes.checked_mul(dec("0.8")),
        high: minutes.checked_mul(dec("1.2")),
        standing,
    }
}

/// The line of a wage an hour over an out-of-pocket cost of 0.90.
pub(super) fn wage_line(wage: &str, is_target: bool) -> WageLine {
    let words = if is_target { ", your target" } else { "" };
    WageLine { base: dec("0.90"), a_minute: dec(wage) / dec("60"), label: format!("${wage} an hour{words}"), is_target }
}

/// Four designs against three wages.
pub(super) fn four_designs() -> PriceMinutesChart {
    PriceMinutesChart {
        title: "The dragon pays $10.20 an hour; its price covers half its minutes".into(),
        subtitle: "April 2026, 14 orders".into(),
        minutes_axis: "hands-on minutes a piece, set-up and all".into(),
        price_axis: "price a piece, USD".into(),
        amounts: dollars(),
        points: vec![
            sold("Dragon", "36", "7.00", Standing::Short),
            sold("Birthday numeral", "9", "4.75", Standing::Over),
            sold("Leaf", "12", "5.00", Standing::Unknown),
            sold("Heart plaque", "22", "9.50", Standing::Over),
        ],
        lines: vec![wage_line("10", false), wage_line("20", true), wage_line("30", false)],
    }
}

/// A month judged against 20, its labels written from its figures; an empty text is a figure not known.
pub(super) fn month(month: &str, year: &str, wage: &str, hours: &str) -> MonthBar {
    let (wage, hours) = [wage, hours].map(|text| (!text.is_empty()).then(|| dec(text))).into();
    MonthBar {
        month: month.into(),
        year: year.into(),
        wage,
        wage_label: wage.map_or_else(String::new, |wage| dollars().write(wage, 2)),
        hours,
        hours_label: hours.map_or_else(String::new, |hours| format!("{hours} h")),
        few: false,
        current: false,
        standing: wage.map_or(Standing::Unknown, |wage| if wage < dec("20") { Standing::Short } else { Standing::Over }),
    }
}

/// Six months over a new year; January had no orders, March few, April is the one in question.
pub(super) fn six_months() -> MonthsChart {
    MonthsChart {
        title: "April paid $18.40 an hour, $2.10 more than March".into(),
        subtitle: "November 2025 to April 2026, 61 orders".into(),
        wage_axis: "pay an hour before your own taxes, USD".into(),
        hours_axis: "hours you worked".into(),
        amounts: dollars(),
        months: vec![
            month("Nov", "2025", "14.20", "38"),
            month("Dec", "2025", "22.60", "71"),
            month("Jan", "2026", "", ""),
            month("Feb", "2026", "20.10", "44"),
            MonthBar { few: true, ..month("Mar", "2026", "16.30", "12") },
            MonthBar { current: true, ..month("Apr", "2026", "18.40", "47") },
        ],
        target: Some((dec("20"), "target $20.00".into())),
    }
}

pub(super) fn size_class(from: i64, to: Option<i64>, mean: &str, orders: u32) -> SizeClass {
    let mean = (!mean.is_empty()).then(|| dec(mean));
    SizeClass {
        name: to.map_or_else(|| format!("{from}+ pieces"), |to| format!("{from}–{to} pieces")),
        from,
        to,
        mean,
        label: mean.map_or_else(|| "no orders".to_owned(), |mean| dollars().write(mean, 2)),
        note: match orders {
            0 => String::new(),
            1 => "1 order".to_owned(),
            orders => format!("{orders} orders"),
        },
    }
}

pub(super) fn sized(pieces: i64, wage: &str) -> SizeDot {
    SizeDot { pieces, wage: dec(wage), current: false }
}

/// Nine orders in four of five classes.
pub(super) fn nine_orders() -> OrderSizeChart {
    OrderSizeChart {
        title: "Orders under 18 pieces do not pay their set-up".into(),
        subtitle: "March to May 2026, 9 orders".into(),
        pieces_axis: "pieces in the order".into(),
        wage_axis: "pay an hour before your own taxes, USD".into(),
        amounts: dollars(),
        orders: vec![
            sized(12, "9.40"),
            sized(12, "12.80"),
            sized(18, "17.20"),
            sized(24, "19.10"),
            sized(24, "22.60"),
            sized(24, "15.00"),
            sized(36, "24.30"),
            sized(36, "20.90"),
            sized(60, "23.50"),
        ],
        classes: vec![
            size_class(1, Some(12), "11.20", 2),
            size_class(13, Some(24), "18.60", 4),
            size_class(25, Some(36), "22.70", 2),
            size_class(37, Some(48), "", 0),
            size_class(49, None, "23.50", 1),
        ],
        target: Some((dec("20"), "target $20.00".into())),
        smallest: Some((dec("18"), "18 pieces: worth the set-up".into())),
    }
}

pub(super) fn day(text: &str) -> NaiveDate {
    text.parse().unwrap()
}

/// An item with its labels written from its first and last price.
pub(super) fn item(name: &str, paid: &[(&str, &str)]) -> ItemPrices {
    let paid: Vec<_> = paid.iter().map(|(on, price)| PricePaid { day: day(on), price: dec(price) }).collect();
    let label = |paid: Option<&PricePaid>| paid.map_or_else(String::new, |paid| dollars().write(paid.price, 2));
    let change = match (paid.first(), paid.last()) {
        (Some(first), Some(last)) if !first.price.is_zero() => {
            (last.price.saturating_sub(first.price)).checked_div(first.price).unwrap_or_default()
        }
        _ => Decimal::ZERO,
    };
    ItemPrices {
        name: name.into(),
        note: "a lb, landed".into(),
        first_label: label(paid.first()),
        latest_label: label(paid.last()),
        change_label: format!("{}%", signed(change.saturating_mul(Decimal::from(100))).replace('$', "")),
        paid,
    }
}

/// Butter that rose, sugar that fell, vanilla bought once and flour not at all.
pub(super) fn four_items() -> ItemPricesChart {
    ItemPricesChart {
        title: "Butter is a third dearer than in January".into(),
        subtitle: "January to June 2026, 23 receipts".into(),
        axis: "landed price of each purchase, each item on its own scale".into(),
        items: vec![
            item("butter", &[("2026-01-05", "3.60"), ("2026-02-20", "3.90"), ("2026-04-02", "3.80"), ("2026-06-01", "4.80")]),
            item("icing sugar", &[("2026-01-05", "1.10"), ("2026-03-15", "1.08"), ("2026-05-20", "1.05")]),
            item("vanilla", &[("2026-03-01", "21.00")]),
            item("flour", &[]),
        ],
        ticks: ["Jan", "Feb", "Mar", "Apr", "May", "Jun"]
            .iter()
            .zip(1..)
            .map(|(name, month)| (NaiveDate::from_ymd_opt(2026, month, 5).unwrap(), (*name).to_owned()))
            .collect(),
    }
}
