//! Month by month: what each paid an hour, with what no order explains counted in, as the headline has it.

use super::key::{By, Key};
use super::sums::{self, Sums};
use crate::costing::Costed;
use crate::costing::facts::Figure;
use crate::quantity::millionths::{Minutes, Money};
use crate::quantity::{Day, Month, Period};
use crate::shop::Shop;
use polars::prelude::PolarsResult;
use std::collections::BTreeMap;

/// One month of hand-over.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct MonthRow {
    /// The month.
    pub month: Month,
    /// Orders handed over.
    pub orders: i64,
    /// Those whose hours are known, that the wage stands on.
    pub known_orders: i64,
    /// Pieces handed over.
    pub pieces: i64,
    /// Owner's pay of orders with known hours, less costs no order explains.
    pub pay: Money,
    /// The hours of those orders, and those no order explains.
    pub minutes: Minutes,
    /// Pay ÷ hours.
    pub wage: Option<Money>,
    /// Over the target wage, or short of it where negative.
    pub surplus: Option<Money>,
}

/// Every month from the first with an order to the period's last, those without any included.
///
/// # Errors
/// Where polars fails.
pub fn months(shop: &Shop, costed: &Costed, period: Period) -> PolarsResult<Vec<MonthRow>> {
    let facts = costed.facts.within(Period { from: None, to: period.to })?;
    let of_month = |(key, sums)| if let Key::Month(month) = key { Some((month, sums)) } else { None };
    let by_month: BTreeMap<Month, Sums> = sums::by_key(&facts, By::Month)?.into_iter().filter_map(of_month).collect();
    let (Some(first), Some(last)) = (by_month.keys().next(), by_month.keys().next_back()) else { return Ok(Vec::new()) };
    let last = period.to.map_or(*last, |to| to.month().max(*last));
    let months = std::iter::successors(Some(*first), |month| Some(month.next())).take_while(|month| *month <= last);
    let sums = |month: Month| by_month.get(&month).copied().unwrap_or_default();
    Ok(months.map(|month| row(shop, costed, month, &sums(month), period.to)).collect())
}

fn row(shop: &Shop, costed: &Costed, month: Month, sums: &Sums, until: Option<Day>) -> MonthRow {
    let days = Period { to: Some(until.map_or(month.last(), |until| until.min(month.last()))), ..Period::of(month) };
    let counted = sums.all_in(&costed.unassigned.within(days));
    let (pay, minutes) = (Money(counted.known[Figure::OwnerPay]), Minutes(counted.known[Figure::OwnerMinutes]));
    let needed = shop.settings.target.and_then(|target| target.per_hour_for(minutes).ok());
    MonthRow {
        month,
        orders: sums.orders,
        known_orders: sums.known_orders,
        pieces: i64::try_from(sums.all[Figure::Pieces]).unwrap_or(i64::MAX),
        pay,
        minutes,
        // Months in which nothing with known hours was handed over tell no wage of their prices.
        wage: pay.an_hour(minutes).filter(|_| sums.known_lines > 0),
        surplus: needed.filter(|_| costed.any_hours).map(|needed| pay - needed),
    }
}
