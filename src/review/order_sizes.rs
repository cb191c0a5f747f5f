//! Hourly pay of orders by their size, over the year that ends with a period.

use super::key::{By, Key};
use super::sums;
use crate::costing::{Costed, CostingError};
use crate::period::year_to;
use crate::quantity::Period;
use crate::quantity::millionths::Money;
use crate::shop::Shop;

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
/// Where polars fails, or a figure does not fit.
pub fn orders_of_size(shop: &Shop, costed: &Costed, period: Period) -> Result<Vec<OrderOfSize>, CostingError> {
    let mut orders = Vec::new();
    for (key, sums) in sums::by_key(&costed.facts.within(year_to(period))?, By::Order)? {
        let (Key::Order(order), Some(wage), pieces) = (key, sums.known.wage(), sums.known.pieces()?) else { continue };
        if pieces > 0 {
            let in_period = period.holds(shop.orders.head(order).day);
            orders.push(OrderOfSize { order: shop.orders.ids.text(order).to_owned(), pieces, wage, in_period });
        }
    }
    orders.sort_by(|one, other| (one.pieces, one.wage, &one.order).cmp(&(other.pieces, other.wage, &other.order)));
    Ok(orders)
}
