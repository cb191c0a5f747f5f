//! The reference season, read from the logs into the cost model, and the day a new price list starts.

use super::at_prices::{Landed, list_in_force, with_purchases};
use super::cost::{Rates, Season, materials};
use super::lines::{self, Line, Stages};
use super::work::{Work, draws, timed};
use crate::costing::facts::{Figure, Figures};
use crate::costing::lines::LineKind;
use crate::costing::minutes_each::MinutesFrom;
use crate::costing::unassigned::Unassigned;
use crate::costing::{Costed, CostingError, MinutesBy, Options, cost_by};
use crate::ids::{Design, Id, IdVec, Item};
use crate::period::{last_year, latest_month, year_to};
use crate::quantity::Factor;
use crate::quantity::millionths::{MILLION, Minutes, Money};
use crate::quantity::ratio::multiply_divide;
use crate::quantity::{Day, Period, TooLarge};
use crate::shop::Shop;
use crate::shop::orders::Status;
use crate::shop::settings::CostFlow;
use std::collections::BTreeMap;

/// The last day of which the logs tell: orders handed over, hours, purchases.
#[must_use]
pub(crate) fn last_day(shop: &Shop) -> Option<Day> {
    let ordered = shop.orders.heads.iter().filter(|head| head.status == Status::Done).filter_map(|head| head.day);
    let worked = shop.hours.entries.iter().map(|entry| entry.day);
    let bought = shop.purchases.rows.iter().map(|purchase| purchase.day);
    ordered.chain(worked).chain(bought).max()
}

/// The day a new price list starts, where nothing else is asked for: the first of the month after the logs' last. `None` without logs.
#[must_use]
pub fn next_start(shop: &Shop) -> Option<Day> {
    last_day(shop).map(|day| day.month().next().first())
}

/// A day on which the newest list holds: after the logs, the last move of a design and the last start of a price. `None` without any.
#[must_use]
pub(crate) fn newest_list(shop: &Shop) -> Option<Day> {
    let moves = shop.designs.all().filter_map(|design| shop.designs.earlier[design].last());
    last_day(shop).into_iter().chain(moves.map(|until| Day(until.0 + 1))).chain(shop.prices.last_start()).max()
}

/// The reference season of what is said of prices after a period, and the day whose list is today's: the year that ends with it; where it
/// ends with the logs' latest month, the last twelve whole months, or all days while there are fewer. The day is the one the next list
/// starts, whatever the period: what she would change is her list of today. `None` without logs.
#[must_use]
pub(crate) fn reference_after(shop: &Shop, period: Period) -> Option<(Period, Day)> {
    let starts = next_start(shop)?;
    let has_year = |to: Day| latest_month(shop) != Some(to.month()) || last_year(shop) != Period::default();
    Some((if period.to.is_some_and(has_year) { year_to(period) } else { last_year(shop) }, starts))
}

/// Which season, and what is different in it.
#[derive(Debug, Clone, Copy)]
pub struct Reference<'a> {
    /// Its days.
    pub period: Period,
    /// The day whose price list is today's.
    pub day: Day,
    /// Whether unassigned hours and costs are part of a piece.
    pub unassigned: bool,
    /// Changes of items' prices.
    pub costs: &'a BTreeMap<Id<Item>, Factor>,
}

impl Season {
    /// The season of a costed shop, its uses costed again at present prices and its minutes split as they were.
    ///
    /// # Errors
    /// Where polars fails or a figure does not fit.
    pub(crate) fn at_present(shop: &Shop, costed: &Costed, reference: Reference<'_>) -> Result<Self, CostingError> {
        let present = with_purchases(shop, Landed::Present, reference.costs)?;
        let minutes = if costed.minutes_from == MinutesFrom::Equal { MinutesBy::Equal } else { MinutesBy::Card };
        let options = Options { cost_flow: Some(CostFlow::Latest), minutes };
        let present = cost_by(&present, options, costed.learned.clone())?;
        let lines = lines::read(shop, &present.facts.within(reference.period)?)?;
        Ok(Self::of(shop, &present, reference, &lines)?)
    }

    fn of(shop: &Shop, present: &Costed, reference: Reference<'_>, lines: &[(Line, Stages)]) -> Result<Self, TooLarge> {
        let Reference { period, day, unassigned, .. } = reference;
        let unassigned = if unassigned { present.unassigned.within(period) } else { Unassigned::default() };
        let mut rates = Rates { unassigned, ..Rates::default() };
        let (mut all, mut known, mut order_materials, mut listed) = (Figures::default(), Figures::default(), Money::ZERO, 0);
        let mut sold = IdVec::filled(0_i64, shop.designs.names.len());
        let list = list_in_force(shop, lines)?;
        let each = |design: Id<Design>, day: Day| list(design, day).map(|price| price.times(1)).transpose();
        for line in lines.iter().map(|(line, _)| line).filter(|line| line.kind == LineKind::Cookie) {
            all += &line.figures();
            if let Some(design) = line.design {
                sold[design] += i64::try_from(line.pieces / MILLION).unwrap_or(i64::MAX);
                listed += multiply_divide(each(design, line.day)?.unwrap_or_default().0, line.pieces, MILLION)?;
            }
            if line.known {
                known += &line.figures();
                order_materials += line.order_materials;
            }
        }
        rates.hands_on = Minutes(known[Figure::OwnerMinutes] + known[Figure::HelperMinutes]);
        rates.owner = Minutes(known[Figure::OwnerMinutes]);
        rates.helper_pay = Money(known[Figure::HelperPay]);
        rates.overhead = Money(known[Figure::Overhead]);
        let order_costs = order_materials.0 + known[Figure::Fees] - known[Figure::PercentFees];
        let work = Work::of(shop, present, lines);
        let orders = real_count(work.orders);
        let (mean, of_draws) = draws(shop, present);
        Ok(Self {
            period,
            orders,
            pieces: i64::try_from(known[Figure::Pieces] / MILLION).map_err(|_| TooLarge)?,
            sold,
            old_price: shop.designs.all().map(|design| each(design, day)).collect::<Result<IdVec<Design, Option<Money>>, _>>()?,
            listed: Money(listed),
            revenue: Money(all[Figure::Revenue]),
            percent_fees: Money(all[Figure::PercentFees]),
            rates,
            order_cost: Money(if orders > 0 { multiply_divide(order_costs, 1, orders.into())? } else { 0 }),
            pace: work.pace(&mean),
            draws: of_draws.into_iter().map(|draw| (work.pace(&draw), draw)).map(|(pace, draw)| (draw, pace)).collect(),
            colours: if work.orders > 0.0 { work.colours / work.orders } else { 0.0 },
            work,
            mean,
            minutes_from: present.minutes_from,
            timed_apart: present.minutes_from == MinutesFrom::Equal && !timed(shop).is_empty(),
            materials: materials(shop, present, lines)?,
        })
    }
}

/// A count as a whole number.
#[expect(clippy::cast_possible_truncation, reason = "a count of orders")]
fn real_count(count: f64) -> i64 {
    count.round() as i64
}
