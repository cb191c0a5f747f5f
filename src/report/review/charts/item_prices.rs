//! What was paid for ingredients over time.

use crate::chart::{Figure, Heading, Row, Strip, Strips, Tone};
use crate::period::year_to;
use crate::quantity::millionths::{MILLION, Money};
use crate::quantity::unit::Dimension;
use crate::quantity::{Day, Month, Period};
use crate::report::words::{Currency, capitalised, percent, period_in_words};
use crate::review::Review;
use crate::review::item_prices as of_review;
use rust_decimal::Decimal;
use rust_decimal::prelude::ToPrimitive;
use std::cmp::Ordering;

/// Items shown: those that took most money.
const MOST: usize = 8;

/// Charts the landed prices of the year that ends with the period, the items that took most money first.
#[must_use]
pub(crate) fn ingredient_prices(review: &Review, currency: &Currency) -> Strips {
    let shown = &review.item_prices[..review.item_prices.len().min(MOST)];
    let year = year_to(review.period);
    Strips {
        heading: Heading {
            title: finding(shown),
            subtitle: format!(
                "Prices with shipping and tax, the last third of purchases compared with the first, {}",
                period_in_words(year)
            ),
        },
        axis: "each purchase, each item on its own scale; most money first".to_owned(),
        columns: ["first", "latest", "change"].map(str::to_owned).into(),
        strips: shown.iter().map(|item| prices(item, currency)).collect(),
        ticks: ticks(year, shown),
    }
}

/// The unit a price is told for, and how many base units it has.
fn told_unit(measured: Dimension) -> (&'static str, Decimal) {
    match measured {
        Dimension::Mass => ("a kilogram", Decimal::ONE_THOUSAND),
        Dimension::Volume => ("a litre", Decimal::ONE_THOUSAND),
        Dimension::Length => ("a metre", Decimal::ONE),
        Dimension::Count => ("each", Decimal::ONE),
    }
}

fn prices(item: &of_review::ItemPrices, currency: &Currency) -> Strip {
    let (unit, units) = told_unit(item.measured);
    let label = |price: Option<Decimal>| {
        let price = price.and_then(|price| Money::from_decimal(price.checked_mul(units)?.round_dp(6)));
        price.map_or_else(String::new, |price| currency.exact(price))
    };
    let single = |at: Option<&(Day, Decimal)>| at.map(|(_, price)| *price);
    let (first, latest) = match item.then_and_now {
        Some((then, now)) => (Some(then), Some(now)),
        None => (single(item.prices.first()), single(item.prices.last())),
    };
    let paid: Vec<_> = item.prices.iter().filter_map(|(day, price)| Some((day.date(), price.checked_mul(units)?))).collect();
    let change = Figure::new(change(item).map_or_else(String::new, signed));
    let change = match paid.first().zip(paid.last()).map(|((_, first), (_, last))| last.cmp(first)) {
        Some(Ordering::Greater) => change.with("dearer", Tone::Bad),
        Some(Ordering::Less) => change.with("cheaper", Tone::Good),
        _ => change,
    };
    let figures = vec![Figure::light(label(first)), Figure::new(label(latest)), change];
    Strip { row: Row { name: item.item.clone(), note: unit.to_owned(), figures, ..Row::default() }, paid }
}

/// From the first third of the purchases to the last third, as a share of the first.
fn change(item: &of_review::ItemPrices) -> Option<Money> {
    let (then, now) = item.then_and_now.filter(|(then, _)| *then > Decimal::ZERO)?;
    let share = (now - then).checked_div(then)?.checked_mul(Decimal::from_i128_with_scale(MILLION, 0))?;
    share.round().to_i128().map(Money)
}

/// `+32 %`, `−4 %`, `0 %`.
fn signed(share: Money) -> String {
    let text = percent(Money(share.0.abs()));
    match share {
        _ if !is_seen(share) => text,
        share if share > Money::ZERO => format!("+{text}"),
        _ => format!("−{text}"),
    }
}

/// Whether a share rounds to a per cent or more.
fn is_seen(share: Money) -> bool {
    share.0.abs() >= MILLION / 200
}

/// The item whose change weighs most: by what was spent on it.
fn finding(items: &[of_review::ItemPrices]) -> String {
    let weight = |(item, change): &(&of_review::ItemPrices, Money)| (item.spent.saturating_mul(change.0.abs()), item.item.clone());
    let most = items.iter().filter_map(|item| Some((item, change(item)?))).max_by_key(weight);
    match most {
        Some((item, change)) if is_seen(change) => {
            let way = if change > Money::ZERO { "dearer" } else { "cheaper" };
            // The items come by what was spent on them.
            let is_largest = items.len() > 1 && items.first().is_some_and(|first| first.item == item.item);
            let largest = if is_largest { ", your largest cost," } else { "" };
            format!("{}{largest} became {} {way}", capitalised(&item.item), percent(Money(change.0.abs())))
        }
        Some(_) => "Ingredient prices stayed as they were".to_owned(),
        None if items.is_empty() => "No ingredients were bought".to_owned(),
        None => "No ingredient was bought often enough to show a change".to_owned(),
    }
}

/// The first of each month between the first purchase and the last.
fn ticks(year: Period, items: &[of_review::ItemPrices]) -> Vec<(chrono::NaiveDate, String)> {
    let days = || items.iter().flat_map(|item| item.prices.iter().map(|(day, _)| *day));
    let (Some(first), Some(last)) = (days().min(), year.to.or_else(|| days().max())) else { return Vec::new() };
    let months = first.month().0..=last.month().0;
    months.map(|month| Month(month).first().date()).map(|day| (day, day.format("%b %Y").to_string())).collect()
}

#[cfg(test)]
mod tests {
    use super::*;

    fn bought(prices: &[i64]) -> Strip {
        let day = |at: usize| Day::parse(&format!("2026-0{}-01", at + 1)).unwrap();
        let item = of_review::ItemPrices {
            item: "butter".to_owned(),
            measured: Dimension::Mass,
            spent: 0,
            prices: prices.iter().enumerate().map(|(at, cents)| (day(at), Decimal::new(*cents, 5))).collect(),
            then_and_now: None,
        };
        prices_of(&item)
    }

    fn prices_of(item: &of_review::ItemPrices) -> Strip {
        prices(item, &Currency::of("USD"))
    }

    #[test]
    fn what_became_dearer_or_cheaper_says_so_and_prices_are_of_a_unit_bought() {
        let word = |strip: &Strip| strip.row.figures[2].word.clone().map(|(word, _)| word);
        let dearer = bought(&[800, 1_000]);
        assert_eq!(word(&dearer).as_deref(), Some("dearer"));
        assert_eq!((dearer.row.figures[0].text.as_str(), dearer.row.figures[1].text.as_str()), ("$8.00", "$10.00"));
        assert_eq!((dearer.row.note.as_str(), dearer.paid[1].1), ("a kilogram", Decimal::from(10)));
        assert_eq!(word(&bought(&[1_000, 800])).as_deref(), Some("cheaper"));
        assert_eq!((word(&bought(&[800])), word(&bought(&[800, 800])), word(&bought(&[]))), (None, None, None));
    }
}
