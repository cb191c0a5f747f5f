//! Hourly pay month by month, unassigned hours and costs included, as in the headline.

use super::key::{By, Key};
use super::sums::{self, Sums};
use crate::costing::facts::Figure;
use crate::costing::{Costed, CostingError};
use crate::quantity::millionths::{Minutes, Money};
use crate::quantity::{Day, Month, Period, TooLarge};
use crate::shop::Shop;
use std::collections::BTreeMap;

/// One month of hand-over.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct MonthRow {
    /// The month.
    pub month: Month,
    /// Orders handed over.
    pub orders: i64,
    /// Orders with known hours, which the wage rests on.
    pub known_orders: i64,
    /// Pieces handed over.
    pub pieces: i64,
    /// Owner's pay of orders with known hours, less unassigned costs.
    pub pay: Money,
    /// Owner's minutes of those orders, and unassigned ones.
    pub minutes: Minutes,
    /// Pay ÷ hours; `None` in a month without known hours.
    pub wage: Option<Money>,
    /// Pay less the minutes at the target.
    pub surplus: Option<Money>,
}

/// Computes every month from the first with an order to the period's last, including those without orders.
///
/// # Errors
/// Where polars fails, or a figure does not fit.
pub fn months(shop: &Shop, costed: &Costed, period: Period) -> Result<Vec<MonthRow>, CostingError> {
    let facts = costed.facts.within(Period { from: None, to: period.to })?;
    let of_month = |(key, sums)| if let Key::Month(month) = key { Some((month, sums)) } else { None };
    let by_month: BTreeMap<Month, Sums> = sums::by_key(&facts, By::Month)?.into_iter().filter_map(of_month).collect();
    let (Some(first), Some(last)) = (by_month.keys().next(), by_month.keys().next_back()) else { return Ok(Vec::new()) };
    let last = period.to.map_or(*last, |to| to.month().max(*last));
    let months = std::iter::successors(Some(*first), |month| Some(month.next())).take_while(|month| *month <= last);
    let sums = |month: Month| by_month.get(&month).copied().unwrap_or_default();
    Ok(months.map(|month| row(shop, costed, month, &sums(month), period.to)).collect::<Result<_, _>>()?)
}

fn row(shop: &Shop, costed: &Costed, month: Month, sums: &Sums, until: Option<Day>) -> Result<MonthRow, TooLarge> {
    let days = Period { to: Some(until.map_or(month.last(), |until| until.min(month.last()))), ..Period::of(month) };
    let counted = sums.all_in(&costed.unassigned.within(days));
    let (pay, minutes) = (counted.known.money(Figure::OwnerPay), counted.known.minutes(Figure::OwnerMinutes));
    let needed = shop.settings.target.map(|target| target.per_hour_for(minutes)).transpose()?;
    Ok(MonthRow {
        month,
        orders: sums.orders,
        known_orders: sums.known_orders,
        pieces: sums.all.pieces()?,
        pay,
        minutes,
        // Without a line of known hours, a month's wage would say nothing of its prices.
        wage: counted.known.wage().filter(|_| sums.known_lines > 0),
        surplus: needed.filter(|_| costed.hours_known.any).map(|needed| pay - needed),
    })
}
