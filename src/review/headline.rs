//! The answer to "did my prices cover my time?": the period's hourly pay, over the orders with known hours,
//! unassigned hours and costs included.

use super::key::{By, Key};
use super::sums::{self, Sums};
use crate::costing::column;
use crate::costing::facts::Figure;
use crate::costing::{Costed, CostingError};
use crate::ids::{Id, Order};
use crate::quantity::millionths::{Minutes, Money};
use crate::quantity::{Period, ratio};
use crate::shop::Shop;
use crate::shop::orders::Status;

/// The figures of the headline.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Headline {
    /// Owner's pay of orders with known hours, less unassigned costs.
    pub pay: Money,
    /// Owner's minutes of those orders, and unassigned ones.
    pub minutes: Minutes,
    /// Pay ÷ hours; `None` without hours.
    pub wage: Option<Money>,
    /// Minutes at the target less pay: the shortfall, negative if the target was passed.
    pub missing: Option<Money>,
    /// Owner's pay of all orders, less unassigned costs.
    pub pay_of_all: Money,
    /// Number of orders handed over with known hours.
    pub orders_known: usize,
    /// Number of orders handed over without known hours.
    pub orders_unknown: usize,
    /// The wage if orders without hours took the usual time of their pieces.
    pub wage_at_usual_time: Option<Money>,
}

impl Headline {
    /// Computes the headline of a period.
    ///
    /// # Errors
    /// Where polars fails, or a figure does not fit.
    pub fn of(shop: &Shop, costed: &Costed, period: Period) -> Result<Self, CostingError> {
        let facts = costed.facts.within(period)?;
        let whole = sums::whole(&facts)?;
        let counted = whole.all_in(&costed.unassigned.within(period));
        let (pay, minutes) = (counted.known.money(Figure::OwnerPay), counted.known.minutes(Figure::OwnerMinutes));
        let at_target = shop.settings.target.map(|target| target.per_hour_for(minutes)).transpose()?;
        let named = shop.hours.named(&shop.orders);
        let done = shop.orders.heads.pairs().filter(|(_, head)| head.status == Status::Done && period.holds(head.day));
        let (known, unknown): (Vec<Id<Order>>, Vec<Id<Order>>) =
            done.map(|(order, _)| order).partition(|order| costed.any_hours && named.as_ref().is_none_or(|named| named[*order]));
        Ok(Self {
            pay,
            minutes,
            wage: counted.known.wage(),
            missing: at_target.filter(|_| costed.any_hours).map(|needed| needed - pay),
            pay_of_all: counted.all.money(Figure::OwnerPay),
            orders_known: known.len(),
            orders_unknown: unknown.len(),
            wage_at_usual_time: if !unknown.is_empty() && costed.any_hours { at_usual_time(costed, period, &counted)? } else { None },
        })
    }
}

/// Computes the wage with pieces of unknown hours at their usual time: the mean minutes of their design's pieces,
/// else their tier's, else the shop's.
fn at_usual_time(costed: &Costed, period: Period, counted: &Sums) -> Result<Option<Money>, CostingError> {
    let all = &costed.facts;
    let (designs, tiers, shop) = (sums::by_key(all, By::Design)?, sums::by_key(all, By::Tier)?, sums::whole(all)?);
    let each = |sums: Option<&Sums>| {
        let sums = sums?;
        (sums.cookies[Figure::Pieces] > 0).then(|| (sums.cookies[Figure::OwnerMinutes], sums.cookies[Figure::Pieces]))
    };
    let facts = all.within(period)?;
    let (ids, tier_ids) = (facts.values(&column::DESIGN)?, facts.values(&column::TIER)?);
    let (known, pieces) = (facts.values(&column::KNOWN)?, facts.figure(Figure::Pieces)?);
    let mut minutes = counted.known[Figure::OwnerMinutes];
    for line in (0..facts.lines()).filter(|line| !known[*line] && pieces[*line] > 0) {
        let usual = each(ids[line].and_then(|design| designs.get(&Key::Design(design))))
            .or_else(|| each(tier_ids[line].and_then(|tier| tiers.get(&Key::Tier(tier)))))
            .or_else(|| each(Some(&shop)));
        let Some((sum, count)) = usual else { return Ok(None) };
        minutes += ratio::multiply_divide(sum, i128::from(pieces[line]), count)?;
    }
    Ok(counted.all.money(Figure::OwnerPay).an_hour(Minutes(minutes)))
}
