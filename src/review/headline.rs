//! The answer to "did my prices cover my time?": the period's hourly pay, over the orders with known hours,
//! unassigned hours and costs included.

use super::lacking::{Lacking, lacking};
use super::sums;
use crate::costing::facts::Figure;
use crate::costing::{Costed, CostingError};
use crate::quantity::Period;
use crate::quantity::millionths::{Minutes, Money};
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
    /// Orders handed over that lack hours or a usual stage.
    pub lacking: Vec<Lacking>,
    /// The same answer if the work that orders lack took its usual time; `None` where none lacks any.
    pub at_usual_time: Option<AtUsualTime>,
}

/// A headline over all orders, with the usual time of the work that is not logged.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct AtUsualTime {
    /// Owner's pay of all orders, less unassigned costs and the helpers' pay for work not logged.
    pub pay: Money,
    /// Owner's minutes, logged and usual.
    pub minutes: Minutes,
    /// Pay ÷ hours.
    pub wage: Option<Money>,
    /// Minutes at the target less pay; `None` without a target.
    pub missing: Option<Money>,
}

impl Headline {
    /// Computes the headline of a period.
    ///
    /// # Errors
    /// Where polars fails, or a figure does not fit.
    pub fn of(shop: &Shop, costed: &Costed, period: Period) -> Result<Self, CostingError> {
        let whole = sums::whole(&costed.facts.within(period)?)?;
        let counted = whole.all_in(&costed.unassigned.within(period));
        let any_hours = costed.hours_known.any;
        let short = |pay: Money, minutes: Minutes| {
            let needed = shop.settings.target.filter(|_| any_hours).map(|target| target.per_hour_for(minutes)).transpose();
            needed.map(|needed| needed.map(|needed| needed - pay))
        };
        let (pay, minutes) = (counted.known.money(Figure::OwnerPay), counted.known.minutes(Figure::OwnerMinutes));
        let pay_of_all = counted.all.money(Figure::OwnerPay);
        let lacking = lacking(shop, costed, period)?;
        let usual_pay = pay_of_all - lacking.iter().map(|of| of.usual.helper_pay).sum();
        let usual_minutes = counted.all.minutes(Figure::OwnerMinutes) + lacking.iter().map(|of| of.usual.owner_minutes).sum();
        let at_usual_time = AtUsualTime {
            pay: usual_pay,
            minutes: usual_minutes,
            wage: usual_pay.an_hour(usual_minutes),
            missing: short(usual_pay, usual_minutes)?,
        };
        let done = shop.orders.heads.iter().filter(|head| head.status == Status::Done && period.holds(head.day)).count();
        let unknown = if any_hours { lacking.iter().filter(|of| !of.is_delivery).count() } else { done };
        Ok(Self {
            pay,
            minutes,
            wage: counted.known.wage(),
            missing: short(pay, minutes)?,
            pay_of_all,
            orders_known: done - unknown,
            at_usual_time: (!lacking.is_empty()).then_some(at_usual_time),
            lacking,
        })
    }
}
