//! What is worth doing this month: at most five things, each from a figure of the review.

use super::minutes::MinutesTable;
use super::monthly::Review;
use super::needing::{Needing, orders_by_design};
use super::row::Verdict;
use super::stock::Missing;
use crate::costing::Costed;
use crate::quantity::millionths::Money;
use crate::shop::Shop;
use crate::shop::orders::Order;
use polars::prelude::*;
use std::collections::BTreeSet;

/// The most that are named.
pub const MOST: usize = 5;
/// The most designs whose price is named.
const RAISES: usize = 2;

/// Something to do.
#[derive(Debug, Clone, PartialEq)]
pub enum Worth {
    /// Ask more for a design, or make it simpler.
    Raise {
        /// The design as it stands.
        design: Box<Needing>,
    },
    /// Charge for setting an order up, or raise the minimum.
    ChargeSetUp {
        /// How many designs pay too little only because of what is shared by the order.
        designs: usize,
        /// What they were short of together.
        short: Money,
        /// What that is for each order that held one.
        an_order: Money,
        /// How many orders held one.
        orders: i64,
    },
    /// Log the hours of orders that have none.
    LogHours {
        /// The orders.
        orders: Vec<String>,
        /// What they brought in: its wage is not known.
        revenue: Money,
    },
    /// Look at what was logged for an order: it is far from what such orders take.
    LookAtHours {
        /// The order, or orders logged together.
        order: String,
        /// Rows of the hours log that name it.
        rows: Vec<u32>,
        /// Minutes logged.
        logged: f64,
        /// Minutes expected.
        expected: f64,
    },
    /// Log a purchase that is missing: more was used than bought.
    LogPurchase {
        /// What ran short, and what it was costed at.
        short: Missing,
    },
    /// Time a design on its own.
    Time {
        /// The design.
        design: String,
        /// Pieces to time.
        pieces: i64,
        /// By how much a season's prices would be known better.
        narrowing: Money,
    },
}

/// Of a review whose other answers are finished.
///
/// # Errors
/// Where polars fails.
pub fn worth_doing(shop: &Shop, costed: &Costed, review: &Review) -> PolarsResult<Vec<Worth>> {
    let told = || review.needing.iter().filter(|design| design.row.is_told());
    let raises = told().filter(|design| design.verdict != Verdict::SetUpTooDear && design.row.fair_price.is_some());
    let mut worth: Vec<Worth> = raises.take(RAISES).map(|design| Worth::Raise { design: Box::new(design.clone()) }).collect();
    let set_up: Vec<&Needing> = told().filter(|design| design.verdict == Verdict::SetUpTooDear).collect();
    worth.extend(charge_set_up(shop, costed, review, &set_up)?);
    if !review.orders_without_hours.is_empty() {
        let revenue = review.designs.total.revenue - review.designs.total.known.revenue;
        worth.push(Worth::LogHours { orders: review.orders_without_hours.clone(), revenue });
    }
    worth.extend(look_at_hours(shop, review));
    worth.extend(review.shortfalls.first().map(|short| Worth::LogPurchase { short: short.clone() }));
    worth.extend(review.minutes.as_ref().and_then(time));
    worth.truncate(MOST);
    Ok(worth)
}

fn charge_set_up(shop: &Shop, costed: &Costed, review: &Review, designs: &[&Needing]) -> PolarsResult<Option<Worth>> {
    let facts = costed.facts.within(review.period)?;
    let orders_of = orders_by_design(facts.frame(), true)?;
    let number = |design: &&Needing| shop.designs.names.find(&design.row.key).map(|design| i64::from(design.0));
    let orders: BTreeSet<i64> = designs.iter().filter_map(number).filter_map(|design| orders_of.get(&design)).flatten().copied().collect();
    let orders = i64::try_from(orders.len()).unwrap_or(i64::MAX);
    let short: Money = designs.iter().filter_map(|design| design.row.known.surplus()).map(|surplus| -surplus).sum();
    Ok(short.each_of(orders).map(|an_order| Worth::ChargeSetUp { designs: designs.len(), short, an_order, orders }))
}

/// The order of the period farthest off, where one is.
fn look_at_hours(shop: &Shop, review: &Review) -> Option<Worth> {
    let within = |order: &Order| review.period.holds(shop.orders.head(*order).day);
    let far_off = review.minutes.as_ref()?.far_off().find(|(_, prediction)| prediction.orders.iter().any(within));
    far_off.map(|(order, prediction)| {
        let names = |link: &usize| shop.hours.links[*link].iter().any(|named| prediction.orders.contains(named));
        let mut rows: Vec<u32> =
            shop.hours.entries.iter().filter(|entry| entry.link.as_ref().is_some_and(names)).map(|entry| entry.place.row).collect();
        rows.sort_unstable();
        Worth::LookAtHours { order: order.clone(), rows, logged: prediction.logged, expected: prediction.expected }
    })
}

fn time(minutes: &MinutesTable) -> Option<Worth> {
    let next = minutes.time_next.first()?;
    let narrowing = next.narrowing.filter(|narrowing| *narrowing > Money::ZERO)?;
    Some(Worth::Time { design: next.key.clone(), pieces: next.pieces, narrowing })
}
