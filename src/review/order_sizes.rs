//! Orders by their size: what each paid an hour, over the year that ends with a period.

use super::sums::{self, Figure};
use crate::costing::Costed;
use crate::costing::facts::column;
use crate::pricing::order_size::{self, Smallest};
use crate::quantity::millionths::{Minutes, Money};
use crate::quantity::{Day, Period};
use crate::shop::Shop;
use polars::prelude::*;

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

/// The year that ends with a period; the period itself where that is longer or has no beginning.
#[must_use]
pub fn year_to(period: Period) -> Period {
    let Some(to) = period.to else { return period };
    let year = Day(to.0 - 364);
    Period { from: period.from.map(|from| from.min(year)), to: Some(to) }
}

/// Orders with pieces and known hours of the year that ends with a period.
///
/// # Errors
/// Where polars fails.
pub fn orders_of_size(shop: &Shop, costed: &Costed, period: Period) -> PolarsResult<Vec<OrderOfSize>> {
    let facts = costed.facts.within(year_to(period))?;
    let orders = sums::by_key(&facts, col(column::ORDER))?.into_iter().filter_map(|(order, sums)| {
        let pieces = i64::try_from(sums.known[Figure::Pieces]).ok().filter(|pieces| *pieces > 0)?;
        let wage = Money(sums.known[Figure::OwnerPay]).an_hour(Minutes(sums.known[Figure::OwnerMinutes]))?;
        let order = crate::reading::Name(u32::try_from(order).ok()?);
        let in_period = period.holds(shop.orders.head(order).day);
        Some(OrderOfSize { order: shop.orders.ids.text(order).to_owned(), pieces, wage, in_period })
    });
    let mut orders: Vec<OrderOfSize> = orders.collect();
    orders.sort_by(|one, other| (one.pieces, one.wage, &one.order).cmp(&(other.pieces, other.wage, &other.order)));
    Ok(orders)
}

/// The smallest order worth its set-up at the shop's wage, over the year that ends with a period; `None` where no wage is
/// aimed at or no order has known hours.
///
/// # Errors
/// Where polars fails.
pub fn smallest_order(shop: &Shop, costed: &Costed, period: Period) -> PolarsResult<Option<Smallest>> {
    let facts = costed.facts.within(year_to(period))?;
    let Some((target, (order, mix))) = shop.settings.target.zip(order_size::of_facts(shop, &facts)?) else { return Ok(None) };
    order_size::smallest(&order, &mix, target).map(Some).map_err(|error| polars_err!(ComputeError: "{error}"))
}
