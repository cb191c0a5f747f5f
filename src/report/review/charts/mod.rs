//! A review's charts: its figures with their labels, ready to be drawn. Each has its finding for a title.

pub mod change;
pub mod cost;
pub mod dollar;
pub mod item_prices;
pub mod months;
pub(crate) mod order_size;
pub(crate) mod price_and_minutes;
pub mod stages;
pub mod wage;

use crate::chart::{AmountStyle, Chart, Fill, Tone, Width};
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
    /// The same for a page as narrow as a phone.
    pub in_page_narrow: String,
    /// Every row with its figures, a line each.
    pub words: Vec<String>,
}

impl Drawn {
    fn of(name: &'static str, chart: &impl Chart) -> Self {
        let (wide, narrow) = (chart.picture(Width::Wide), chart.picture(Width::Narrow));
        Self {
            name,
            svg: wide.svg(),
            in_page: wide.svg_in_page(name),
            in_page_narrow: narrow.svg_in_page(&format!("{name}-narrow")),
            words: chart.rows_in_words(),
        }
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
pub(crate) const BESIDE_THE_ANSWER: usize = 2;

/// Draws every chart of a review that has something to show, in the order they are looked at.
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

/// Whether a wage reaches the target.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
enum Standing {
    Above,
    Below,
    /// No target, no hours, or too close to call.
    Unknown,
}

impl Standing {
    const ALL: [Self; 3] = [Self::Above, Self::Below, Self::Unknown];

    fn of(wage: Option<Money>, target: Option<Money>) -> Self {
        match (wage, target) {
            (Some(wage), Some(target)) if wage >= target => Self::Above,
            (Some(_), Some(_)) => Self::Below,
            _ => Self::Unknown,
        }
    }

    /// Of a row, unknown where its range is too wide to tell.
    fn of_row(row: &Row, target: Option<Money>) -> Self {
        if row.is_conclusive() { Self::of(row.wage_per_hour, target) } else { Self::Unknown }
    }

    fn fill(self) -> Fill {
        match self {
            Self::Above => Fill::Above,
            Self::Below => Fill::Below,
            Self::Unknown => Fill::Unknown,
        }
    }

    /// Its words in the key; empty without a target.
    fn in_key(self, target: Option<Money>) -> &'static str {
        match self {
            _ if target.is_none() => "",
            Self::Above => "above your target",
            Self::Below => "below your target",
            Self::Unknown => "can't tell yet",
        }
    }

    /// Beside a figure.
    fn word(self) -> Option<(&'static str, Tone)> {
        match self {
            Self::Above => Some(("above", Tone::Good)),
            Self::Below => Some(("below", Tone::Bad)),
            Self::Unknown => None,
        }
    }
}

/// What a range is called in every key.
const RANGE: &str = "range (90 %)";

fn target_line(target: Option<Money>, currency: &Currency) -> Option<(Decimal, String)> {
    target.map(|target| (target.decimal(), format!("target {}", currency.exact(target))))
}

/// The lines with known hours; all of them, time apart, where none has.
fn shown(row: &Row) -> Known {
    if row.known.pieces > 0 {
        return row.known;
    }
    Known { pieces: row.pieces, revenue: row.revenue, costs: row.figures.costs(), ..Known::default() }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_wage_is_judged_by_the_target_alone() {
        let dollars = |dollars: i128| Some(Money(dollars * 1_000_000));
        assert_eq!(Standing::of(dollars(20), dollars(20)), Standing::Above);
        assert_eq!(Standing::of(dollars(19), dollars(20)), Standing::Below);
        assert_eq!((Standing::of(dollars(19), None), Standing::of(None, dollars(20))), (Standing::Unknown, Standing::Unknown));
        assert!(Standing::ALL.iter().all(|standing| standing.in_key(None).is_empty()), "without a target the key says nothing");
        assert_eq!(Standing::ALL.map(|standing| standing as usize), [0, 1, 2], "each is the number of its series");
    }
}
