//! Wage against order size, with the smallest order worth its set-up.

use super::amounts;
use crate::chart::{OrderSizeChart, SizeClass, SizeDot};
use crate::pricing::order_size::Smallest;
use crate::quantity::millionths::Money;
use crate::report::figures::{Currency, counted, period_in_words};
use crate::review::order_sizes::year_to;
use crate::review::wage::SIZES;
use crate::review::{Review, Row};
use rust_decimal::Decimal;

/// Orders with known hours of the year that ends with the period.
#[must_use]
pub fn wage_by_order_size(review: &Review, currency: &Currency) -> OrderSizeChart {
    let dots = review.orders_of_size.iter().map(|order| SizeDot { pieces: order.pieces, wage: order.wage.decimal() });
    let mut from = 1;
    let classes = SIZES.iter().filter_map(|(most, name)| {
        let (first, last) = (from, Some(*most).filter(|most| *most < i64::MAX));
        from = most.saturating_add(1);
        let row = review.sizes.rows.iter().find(|row| row.key == *name)?;
        Some(class(row, first, last, currency))
    });
    let smallest = review.smallest_order.and_then(Smallest::pieces);
    OrderSizeChart {
        title: finding(review, currency),
        subtitle: format!("Each order with known hours, {}", period_in_words(year_to(review.period))),
        pieces_axis: "pieces in the order".to_owned(),
        wage_axis: "paid an hour, before your own taxes".to_owned(),
        amounts: amounts(currency),
        orders: dots.collect(),
        classes: classes.collect(),
        target: review.target.map(|target| (target.decimal(), format!("your wage {}", currency.exact(target)))),
        smallest: smallest.map(|pieces| (Decimal::from(pieces), format!("worth its set-up from {}", counted(pieces, "piece", "pieces")))),
    }
}

fn class(row: &Row, from: i64, to: Option<i64>, currency: &Currency) -> SizeClass {
    SizeClass {
        name: format!("{} pieces", row.key),
        from,
        to,
        mean: row.wage_per_hour.map(Money::decimal),
        label: row.wage_per_hour.map_or_else(|| "no hours".to_owned(), |wage| currency.exact(wage)),
        note: counted(row.orders, "order", "orders"),
    }
}

/// From how many pieces on an order of the usual mix pays the wage.
fn finding(review: &Review, currency: &Currency) -> String {
    match (review.smallest_order, review.target) {
        (Some(Smallest::From { pieces, .. }), Some(target)) => {
            format!("An order of your usual mix pays {} an hour from {} on", currency.exact(target), counted(pieces, "piece", "pieces"))
        }
        (Some(Smallest::Never), Some(target)) => {
            format!("At these prices your usual mix pays {} an hour at no size", currency.exact(target))
        }
        _ => "What orders paid an hour by their size".to_owned(),
    }
}
