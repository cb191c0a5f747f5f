//! Wage against order size, with the smallest order worth its set-up.

use super::{amounts, target_line};
use crate::chart::{Dimension, Heading, Level, Line, LineLook, Measure, Point, Scatter, Series, Sign};
use crate::period::year_to;
use crate::pricing::cost::Smallest;
use crate::quantity::millionths::Money;
use crate::report::words::{Currency, counted, period_in_words};
use crate::review::bridge::SMALL;
use crate::review::key::SIZES;
use crate::review::order_sizes::OrderOfSize;
use crate::review::{Review, Row};
use rust_decimal::Decimal;

/// The axis of sizes reaches at least as far as this.
const FEWEST_PIECES: i64 = 12;

/// Charts the orders with known hours of the year that ends with the period.
#[must_use]
pub(crate) fn wage_by_order_size(review: &Review, currency: &Currency) -> Scatter {
    let mut from = 1;
    let classes = SIZES.iter().filter_map(|(most, name)| {
        let (first, last) = (from, Some(*most).filter(|most| *most < i64::MAX));
        from = most.saturating_add(1);
        let row = review.sizes.rows.iter().find(|row| row.key == *name)?;
        let orders = review.orders_of_size.iter().filter(|order| order.pieces >= first && last.is_none_or(|last| order.pieces <= last));
        Some(class(row, orders.count(), (first, last), currency))
    });
    let smallest = review.smallest_order.and_then(Smallest::pieces).filter(|pieces| is_near(*pieces, review));
    let target = target_line(review.target, currency);
    let uprights: Vec<_> = smallest
        .map(|pieces| (Decimal::from(pieces), format!("orders pay from {} up", counted(pieces, "cookie", "cookies"))))
        .into_iter()
        .collect();
    Scatter {
        heading: Heading {
            title: finding(review, currency),
            subtitle: format!("Each order with known hours, {}{}", period_in_words(year_to(review.period)), far_off(review, currency)),
        },
        across: Dimension { title: "pieces in the order".to_owned(), reach: Some(Decimal::from(FEWEST_PIECES)), ..Dimension::default() },
        up: Dimension { title: "hourly pay, before your own taxes".to_owned(), measure: Measure::Amounts(amounts(currency)), reach: None },
        said: target.iter().chain(&uprights).map(|(_, words)| words.clone()).collect(),
        lines: target.into_iter().map(|(base, words)| Line { base, slope: Decimal::ZERO, words, look: LineLook::Target }).collect(),
        uprights,
        levels: classes.collect(),
        level: "all orders of a size together".to_owned(),
        beyond: Some(["an order far beyond the edge", "orders far beyond the edge"].map(str::to_owned)),
        ..orders(review)
    }
}

/// The orders; those of the period apart where there are others too.
fn orders(review: &Review) -> Scatter {
    let sizes = || review.orders_of_size.iter().filter(|order| order.pieces > 0);
    let is_mixed = sizes().any(|order| order.in_period) && sizes().any(|order| !order.in_period);
    let series = if is_mixed {
        vec![Series::new(Sign::Current, "an order of this period"), Series::new(Sign::Before, "an order before it")]
    } else {
        vec![Series::new(Sign::One, "an order")]
    };
    let point = |order: &OrderOfSize| Point {
        across: Decimal::from(order.pieces),
        up: order.wage.decimal(),
        series: usize::from(is_mixed && !order.in_period),
        ..Point::default()
    };
    Scatter { series, points: sizes().map(point).collect(), ..Scatter::default() }
}

fn class(row: &Row, orders: usize, (from, to): (i64, Option<i64>), currency: &Currency) -> Level {
    // Half a piece further at either end, so that classes meet and hold their own dots.
    let half = Decimal::new(5, 1);
    Level {
        name: format!("{} pieces", row.key),
        label: row.wage_per_hour.map_or_else(|| "no hours".to_owned(), |wage| currency.exact(wage)),
        note: counted(i64::try_from(orders).unwrap_or(i64::MAX), "order", "orders"),
        from: Decimal::from(from) - half,
        to: to.map(|to| Decimal::from(to) + half),
        amount: row.wage_per_hour.map(Money::decimal),
    }
}

/// From what size on the whole year's mix would reach the target, where that is far beyond the sizes sold; nothing where some size
/// reached it, for each size sold had a mix of its own.
fn far_off(review: &Review, currency: &Currency) -> String {
    let Some(target) = review.target else { return String::new() };
    if review.sizes.rows.iter().any(|row| row.wage_per_hour.is_some_and(|wage| wage >= target)) {
        return String::new();
    }
    let target = currency.short(target);
    match review.smallest_order {
        Some(Smallest::From { pieces, .. }) if !is_near(pieces, review) => {
            format!("; a set mixed like the whole year's pays {target} an hour from {} up", counted(pieces, "piece", "pieces"))
        }
        Some(Smallest::Never) => format!("; a set mixed like the whole year's pays {target} an hour at no size"),
        _ => String::new(),
    }
}

/// Whether a size is so near those sold that it belongs on the same axis.
fn is_near(pieces: i64, review: &Review) -> bool {
    pieces <= largest(review).saturating_add(largest(review) / 2)
}

fn largest(review: &Review) -> i64 {
    review.orders_of_size.last().map_or(0, |order| order.pieces)
}

/// The best paid size and the worst, of those with orders enough to say so.
fn finding(review: &Review, currency: &Currency) -> String {
    let paid: Vec<(&str, Money)> = review
        .sizes
        .rows
        .iter()
        .filter(|row| usize::try_from(row.known.orders).is_ok_and(|orders| orders >= SMALL))
        .filter_map(|row| Some((row.key.as_str(), row.wage_per_hour?)))
        .collect();
    let best = paid.iter().max_by_key(|(_, wage)| *wage);
    let worst = paid.iter().min_by_key(|(_, wage)| *wage);
    match (best, worst) {
        (Some((best, most)), Some((worst, least))) if best != worst => {
            format!("Orders of {best} pieces paid {} an hour; of {worst}, {}", currency.exact(*most), currency.exact(*least))
        }
        (Some((only, wage)), _) => format!("Orders of {only} pieces paid {} an hour", currency.exact(*wage)),
        _ => "Too few orders of any size to compare".to_owned(),
    }
}
