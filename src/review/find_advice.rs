//! Finds what to advise for a period, each from a figure of its review.

use super::advice::{Advice, MOST};
use super::below_target::{BelowTarget, orders_by_design};
use super::key::Key;
use super::minutes::MinutesTable;
use super::monthly::Review;
use super::sums::{self, Sums};
use super::verdict::Verdict;
use crate::costing::Costed;
use crate::costing::facts::Figure;
use crate::ids::{Id, Order};
use crate::minutes::predicted::Prediction;
use crate::quantity::millionths::Money;
use crate::quantity::ratio;
use crate::shop::Shop;
use crate::shop::hours::Entry;
use crate::shop::settings::SharedBy;
use polars::prelude::PolarsResult;
use std::collections::BTreeSet;

/// Most designs whose price is advised on.
const RAISES: usize = 2;

/// Finds the advice for a review whose other answers are finished: at most [`MOST`] things.
///
/// # Errors
/// Where polars fails.
pub(crate) fn find_advice(shop: &Shop, costed: &Costed, review: &Review) -> PolarsResult<Vec<Advice>> {
    if !costed.hours_known.any {
        return Ok(vec![Advice::LogAnyHours]);
    }
    let facts = costed.facts.within(review.period)?;
    let orders_of = orders_by_design(&facts, true)?;
    let orders = |design: &BelowTarget| if let Some(Key::Design(design)) = design.row.group { orders_of.get(&design) } else { None };
    // Designs in an order with a likely logging mistake, and free ones, say nothing of a price.
    let doubted: BTreeSet<Id<Order>> = far_off(shop, review).flat_map(|(_, far)| far.orders.iter().copied()).collect();
    let conclusive = || {
        let sure = review.below_target.iter().filter(|design| design.row.is_conclusive() && design.row.known.revenue > Money::ZERO);
        sure.filter(|design| orders(design).is_none_or(|orders| orders.is_disjoint(&doubted)))
    };
    let mut advice: Vec<Advice> = look_at_hours(shop, review).into_iter().collect();
    let raises = conclusive().filter(|design| design.verdict != Verdict::SetUpTooDear && design.raise().is_some());
    advice.extend(raises.take(RAISES).map(|design| Advice::Raise { design: Box::new(design.clone()) }));
    let set_up: Vec<&BelowTarget> = conclusive().filter(|design| design.verdict == Verdict::SetUpTooDear).collect();
    let held: BTreeSet<Id<Order>> = set_up.iter().filter_map(|design| orders(design)).flatten().copied().collect();
    advice.extend(charge_set_up(&sums::whole(&facts)?, &set_up, held.len()));
    let lacking = &review.headline.lacking;
    advice.extend((!lacking.is_empty()).then(|| Advice::LogHours { lacking: lacking.clone() }));
    advice.extend(review.shortfalls.first().map(|short| Advice::LogPurchase { short: short.clone() }));
    advice.extend(review.minutes.as_ref().and_then(time));
    advice.truncate(MOST);
    Ok(advice)
}

/// Spreads the designs' shortfall over the orders with one of them, plus the percentage fee that a charge bears.
fn charge_set_up(whole: &Sums, designs: &[&BelowTarget], orders: usize) -> Option<Advice> {
    let orders = i64::try_from(orders).ok()?;
    let short: Money = designs.iter().filter_map(|design| design.row.known.surplus()).map(|surplus| -surplus).sum();
    let (revenue, percent) = (whole.known[Figure::Revenue], whole.known[Figure::PercentFees]);
    let kept = revenue - percent;
    let charged = if kept > 0 { Money(ratio::multiply_divide(short.0, revenue, kept).ok()?) } else { short };
    let an_order = charged.each_of(orders)?;
    (short > Money::ZERO).then_some(Advice::ChargeSetUp { designs: designs.len(), short, an_order, orders })
}

/// Lists the orders of the period whose hours are likelier a logging mistake than chance, the farthest off first.
pub fn far_off<'a>(shop: &'a Shop, review: &'a Review) -> impl Iterator<Item = &'a (String, Prediction)> {
    let within = |order: &Id<Order>| review.period.holds(shop.orders.head(*order).day);
    review.minutes.iter().flat_map(MinutesTable::far_off).filter(move |(_, far)| far.orders.iter().any(within))
}

fn look_at_hours(shop: &Shop, review: &Review) -> Option<Advice> {
    let (order, far) = far_off(shop, review).next()?;
    let names = |link: &usize| shop.hours.links[*link].iter().any(|named| far.orders.contains(named));
    let by_minutes = |entry: &Entry| shop.hours.shared_by(entry.stage) == SharedBy::Minutes;
    let mut entries: Vec<&Entry> =
        shop.hours.entries.iter().filter(|entry| entry.link.as_ref().is_some_and(names) && by_minutes(entry)).collect();
    entries.sort_by_key(|entry| (-entry.minutes, entry.place.row));
    let rows = entries.iter().map(|entry| entry.place.row).collect();
    Some(Advice::LookAtHours { order: order.clone(), rows, covers: far.covers, logged: far.logged, expected: far.expected })
}

fn time(minutes: &MinutesTable) -> Option<Advice> {
    let next = minutes.batches().first()?;
    let narrowing = next.narrowing.filter(|narrowing| *narrowing > Money::ZERO)?;
    Some(Advice::Time { design: next.key.clone(), pieces: next.pieces, narrowing })
}
