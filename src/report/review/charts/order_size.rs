//! Wage against order size, with the smallest order worth its set-up.

use super::amounts;
use crate::chart::{OrderSizeChart, SizeClass, SizeDot};
use crate::pricing::order_size::Smallest;
use crate::quantity::millionths::Money;
use crate::report::figures::{Currency, counted, period_in_words};
use crate::report::review::answer::short;
use crate::review::order_sizes::year_to;
use crate::review::wage::SIZES;
use crate::review::{Review, Row};
use rust_decimal::Decimal;

/// Orders with known hours of the year that ends with the period.
#[must_use]
pub fn wage_by_order_size(review: &Review, currency: &Currency) -> OrderSizeChart {
    let dots =
        review.orders_of_size.iter().map(|order| SizeDot { pieces: order.pieces, wage: order.wage.decimal(), current: order.in_period });
    let mut from = 1;
    let classes = SIZES.iter().filter_map(|(most, name)| {
        let (first, last) = (from, Some(*most).filter(|most| *most < i64::MAX));
        from = most.saturating_add(1);
        let row = review.sizes.rows.iter().find(|row| row.key == *name)?;
        Some(class(row, first, last, currency))
    });
    let smallest = review.smallest_order.and_then(Smallest::pieces).filter(|pieces| is_near(*pieces, review));
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

/// Whether a size is so near those sold that it belongs on the same axis.
fn is_near(pieces: i64, review: &Review) -> bool {
    pieces <= largest(review).saturating_add(largest(review) / 2)
}

fn largest(review: &Review) -> i64 {
    review.orders_of_size.last().map_or(0, |order| order.pieces)
}

/// From how many pieces on an order of the usual mix pays the wage.
fn finding(review: &Review, currency: &Currency) -> String {
    let Some(target) = review.target.map(|target| short(currency, target)) else {
        return "What orders paid an hour by their size".to_owned();
    };
    match review.smallest_order {
        Some(Smallest::From { pieces, .. }) if is_near(pieces, review) => {
            format!("An order of your usual mix pays {target} an hour from {} on", counted(pieces, "piece", "pieces"))
        }
        Some(Smallest::From { pieces, .. }) => format!(
            "Your usual mix would pay {target} an hour only from {} on; your largest order had {}",
            counted(pieces, "piece", "pieces"),
            largest(review)
        ),
        Some(Smallest::Never) => format!("At these prices your usual mix pays {target} an hour at no size"),
        None => "What orders paid an hour by their size".to_owned(),
    }
}
