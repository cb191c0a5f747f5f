//! Wage against order size, with the smallest order worth its set-up.

use super::amounts;
use crate::chart::{OrderSizeChart, SizeClass, SizeDot};
use crate::period::year_to;
use crate::pricing::order_size::Smallest;
use crate::quantity::millionths::Money;
use crate::report::words::{Currency, counted, period_in_words};
use crate::review::bridge::SMALL;
use crate::review::key::SIZES;
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
        let orders = review.orders_of_size.iter().filter(|order| order.pieces >= first && last.is_none_or(|last| order.pieces <= last));
        Some(class(row, orders.count(), (first, last), currency))
    });
    let smallest = review.smallest_order.and_then(Smallest::pieces).filter(|pieces| is_near(*pieces, review));
    OrderSizeChart {
        title: finding(review, currency),
        subtitle: format!("Each order with known hours, {}{}", period_in_words(year_to(review.period)), far_off(review, currency)),
        pieces_axis: "pieces in the order".to_owned(),
        wage_axis: "hourly pay, before your own taxes".to_owned(),
        amounts: amounts(currency),
        orders: dots.collect(),
        classes: classes.collect(),
        target: review.target.map(|target| (target.decimal(), format!("target {}", currency.exact(target)))),
        smallest: smallest.map(|pieces| (Decimal::from(pieces), format!("orders pay from {} up", counted(pieces, "cookie", "cookies")))),
    }
}

fn class(row: &Row, orders: usize, (from, to): (i64, Option<i64>), currency: &Currency) -> SizeClass {
    SizeClass {
        name: format!("{} pieces", row.key),
        from,
        to,
        mean: row.wage_per_hour.map(Money::decimal),
        label: row.wage_per_hour.map_or_else(|| "no hours".to_owned(), |wage| currency.exact(wage)),
        note: counted(i64::try_from(orders).unwrap_or(i64::MAX), "order", "orders"),
    }
}

/// From what size on the whole year's mix would reach the wage, where that is far beyond the sizes sold; each size sold had
/// a mix of its own.
fn far_off(review: &Review, currency: &Currency) -> String {
    let Some(target) = review.target.map(|target| currency.short(target)) else { return String::new() };
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
