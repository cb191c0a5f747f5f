//! Orders by their size: what each paid an hour, over the year that ends with a period.

use super::key::{By, Key};
use super::sums;
use crate::costing::Costed;
use crate::costing::facts::Figure;
use crate::period::year_to;
use crate::pricing::fair::Season;
use crate::pricing::order_size::Smallest;
use crate::pricing::present::Asked;
use crate::quantity::millionths::{Minutes, Money};
use crate::quantity::{Day, Period};
use crate::shop::Shop;
use polars::prelude::{PolarsResult, polars_err};
use std::collections::BTreeMap;

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

/// Orders with pieces and known hours of the year that ends with a period.
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

/// The smallest order worth its set-up at the target, of the mix of the year that ends with a period, at the list in force on the day
/// after it: the price list's own answer (`Season::smallest_order`). `None` where no wage is aimed at or no order has known hours.
///
/// # Errors
/// Where polars fails or a figure does not fit.
pub fn smallest_order(shop: &Shop, costed: &Costed, period: Period) -> PolarsResult<Option<Smallest>> {
    let Some(target) = shop.settings.target else { return Ok(None) };
    let day = period.to.map_or(Day(i32::MAX), |to| Day(to.0 + 1));
    let asked = Asked { period: year_to(period), day, unassigned: true, costs: &BTreeMap::new() };
    let failed = |error: String| polars_err!(ComputeError: "{error}");
    let season = Season::at_present(shop, costed, asked).map_err(failed)?;
    season.smallest_order(shop, target).map_err(|error| failed(error.to_string()))
}
