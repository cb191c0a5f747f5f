//! A review's charts: its figures with their labels, ready to be drawn. Each has its finding for a title.

pub mod change;
pub mod cost;
pub mod dollar;
pub mod item_prices;
pub mod months;
pub mod order_size;
pub mod price_and_minutes;
pub mod stages;
pub mod wage;

use crate::chart::{AmountStyle, Chart, Standing};
use crate::quantity::millionths::{Minutes, Money};
use crate::quantity::ratio;
use crate::report::minutes_charts::{logged, minutes_each};
use crate::report::words::Currency;
use crate::review::row::Known;
use crate::review::{Review, Row};
use rust_decimal::Decimal;

/// A chart, drawn.
#[derive(Debug, Clone)]
pub struct Drawn {
    /// Its file's name without an ending, and its place on the page.
    pub name: &'static str,
    /// The picture.
    pub svg: String,
    /// The picture as it stands on a page.
    pub in_page: String,
    /// Every row with its figures, a line each.
    pub words: Vec<String>,
}

impl Drawn {
    fn of(name: &'static str, chart: &impl Chart) -> Self {
        Self { name, svg: chart.svg(), in_page: chart.svg_in_page(name), words: chart.rows_in_words() }
    }
}

/// The names of all charts there may be.
pub const NAMES: [&str; 12] = [
    "wage-by-tier",
    "month-by-month",
    "what-moved-it",
    "price-and-cost",
    "price-and-minutes",
    "where-it-went",
    "wage-by-order-size",
    "wage-by-theme",
    "ingredient-prices",
    "hours-by-stage",
    "minutes-each",
    "logged-minutes",
];

/// How many of [`drawn`] stand beside the answer.
pub const BESIDE_THE_ANSWER: usize = 2;

/// Every chart of a review that has something to show, in the order they are looked at.
#[must_use]
pub fn drawn(review: &Review, currency: &Currency) -> Vec<Drawn> {
    let mut charts = Vec::new();

    charts.push(Drawn::of("wage-by-tier", &wage::wage_by_tier(review, currency)));
    charts.push(Drawn::of("month-by-month", &months::month_by_month(review, currency)));
    if let Some(chart) = review.bridge.as_ref().and_then(|bridge| change::what_moved_it(bridge, currency)) {
        charts.push(Drawn::of("what-moved-it", &chart));
    }
    charts.push(Drawn::of("price-and-cost", &cost::price_and_cost(review, currency)));
    charts.push(Drawn::of("price-and-minutes", &price_and_minutes::price_and_minutes(review, currency)));
    charts.push(Drawn::of("where-it-went", &dollar::where_it_went(review, currency)));
    if !review.orders_of_size.is_empty() {
        charts.push(Drawn::of("wage-by-order-size", &order_size::wage_by_order_size(review, currency)));
    }
    if wage::has_themes(review) {
        charts.push(Drawn::of("wage-by-theme", &wage::wage_by_theme(review, currency)));
    }
    if !review.item_prices.is_empty() {
        charts.push(Drawn::of("ingredient-prices", &item_prices::ingredient_prices(review, currency)));
    }
    charts.push(Drawn::of("hours-by-stage", &stages::hours_by_stage(review)));
    if let Some(minutes) = &review.minutes {
        charts.push(Drawn::of("minutes-each", &minutes_each(minutes)));
        charts.push(Drawn::of("logged-minutes", &logged(minutes)));
    }
    charts
}

fn amounts(currency: &Currency) -> AmountStyle {
    AmountStyle { prefix: currency.sign.clone(), suffix: String::new(), decimals: currency.decimals }
}

fn in_hours(minutes: Minutes) -> Decimal {
    Decimal::try_from_i128_with_scale(ratio::divide(minutes.0, 60).unwrap_or_default(), 6).unwrap_or_default()
}

/// Whether a row's wage reaches the target; unknown where that is too close to call.
fn standing(row: &Row, target: Option<Money>) -> Standing {
    match (row.wage_per_hour, target) {
        _ if !row.is_conclusive() => Standing::Unknown,
        (Some(wage), Some(target)) if wage >= target => Standing::Over,
        (Some(_), Some(_)) => Standing::Short,
        _ => Standing::Unknown,
    }
}

/// The lines with known hours; all of them, time apart, where none has.
fn shown(row: &Row) -> Known {
    if row.known.pieces > 0 {
        return row.known;
    }
    let costs = [row.ingredients, row.packaging, row.fees, row.helper_pay, row.overhead];
    Known { pieces: row.pieces, revenue: row.revenue, costs, ..Known::default() }
}
