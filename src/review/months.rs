//! Month by month: what each paid an hour, with what no order explains counted in, as the headline has it.

use super::row::all_in;
use super::sums::{self, Figure, Sums};
use crate::costing::Costed;
use crate::costing::facts::column;
use crate::quantity::millionths::{Minutes, Money};
use crate::quantity::{Day, Month, Period};
use crate::shop::Shop;
use polars::prelude::*;
use std::collections::BTreeMap;

/// One month of hand-over.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct MonthRow {
    /// The month.
    pub month: Month,
    /// Orders handed over.
    pub orders: i64,
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
    let by_month: BTreeMap<i64, Sums> = sums::by_key(&facts, col(column::MONTH))?.into_iter().collect();
    let (Some(first), Some(last)) = (by_month.keys().next(), by_month.keys().next_back()) else { return Ok(Vec::new()) };
    let last = period.to.map_or(*last, |to| i64::from(to.month().0).max(*last));
    let rows =
        (*first..=last).filter_map(|month| Some((Month(i32::try_from(month).ok()?), by_month.get(&month).copied().unwrap_or_default())));
    Ok(rows.map(|(month, sums)| row(shop, costed, month, &sums, period.to)).collect())
}

fn row(shop: &Shop, costed: &Costed, month: Month, sums: &Sums, until: Option<Day>) -> MonthRow {
    let days = Period { to: Some(until.map_or(month.last(), |until| until.min(month.last()))), ..Period::of(month) };
    let counted = all_in(*sums, &costed.unassigned.within(days));
    let (pay, minutes) = (Money(counted.known[Figure::OwnerPay]), Minutes(counted.known[Figure::OwnerMinutes]));
    let needed = shop.settings.target.and_then(|target| target.per_hour_for(minutes).ok());
    MonthRow {
        month,
        orders: sums.orders,
        pieces: i64::try_from(sums.all[Figure::Pieces]).unwrap_or(i64::MAX),
        pay,
        minutes,
        // Months in which nothing with known hours was handed over tell no wage of their prices.
        wage: pay.an_hour(minutes).filter(|_| sums.known_lines > 0),
        surplus: needed.filter(|_| costed.any_hours).map(|needed| pay - needed),
    }
}
