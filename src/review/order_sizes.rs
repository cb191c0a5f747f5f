//! Hourly pay of orders by their size, over the year that ends with a period.

use super::key::{By, Key};
use super::sums;
use crate::costing::Costed;
use crate::costing::facts::Figure;
use crate::period::year_to;
use crate::quantity::Period;
use crate::quantity::millionths::{Minutes, Money};
use crate::shop::Shop;
use polars::prelude::PolarsResult;

/// One order with known hours.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct OrderOfSize {
    /// The order.
    pub order: String,
    /// Pieces in it.
    pub pieces: i64,
    /// Owner's pay ÷ owner's hours.
    pub wage: Money,
    /// Whether it was handed over in the period itself.
    pub in_period: bool,
}

/// Lists the orders with pieces and known hours of the year that ends with a period, the smallest first.
///
/// # Errors
/// Where polars fails.
pub fn orders_of_size(shop: &Shop, costed: &Costed, period: Period) -> PolarsResult<Vec<OrderOfSize>> {
    let facts = costed.facts.within(year_to(period))?;
    let orders = sums::by_key(&facts, By::Order)?.into_iter().filter_map(|(key, sums)| {
        let Key::Order(order) = key else { return None };
        let pieces = i64::try_from(sums.known[Figure::Pieces]).ok().filter(|pieces| *pieces > 0)?;
        let wage = Money(sums.known[Figure::OwnerPay]).an_hour(Minutes(sums.known[Figure::OwnerMinutes]))?;
        let in_period = period.holds(shop.orders.head(order).day);
        Some(OrderOfSize { order: shop.orders.ids.text(order).to_owned(), pieces, wage, in_period })
    });
    let mut orders: Vec<OrderOfSize> = orders.collect();
    orders.sort_by(|one, other| (one.pieces, one.wage, &one.order).cmp(&(other.pieces, other.wage, &other.order)));
    Ok(orders)
}
