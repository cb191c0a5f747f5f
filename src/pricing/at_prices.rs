//! A shop as it would be at other prices: its purchases at other landed prices, its orders at another price list.
//!
//! Everything else stays, so that costing the changed shop says what would have been; no change gives the same facts back
//! to the last digit.

use super::lines::{Line, Stages};
use crate::costing::bill::Bill;
use crate::costing::landed;
use crate::ids::{Design, Id, IdVec, Item, Order};
use crate::quantity::Factor;
use crate::quantity::millionths::{MILLION, Money};
use crate::quantity::ratio::{multiply_divide, narrow};
use crate::quantity::{Day, Price, TooLarge};
use crate::shop::Shop;
use crate::shop::orders::Kind;
use std::collections::{BTreeMap, BTreeSet};

/// Which landed price stands for a purchase.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(crate) enum Landed {
    /// What it was.
    AsBought,
    /// The last one of its item.
    Present,
}

/// The shop with its purchases at other landed prices, `changes` by item on top.
///
/// # Errors
/// [`TooLarge`] where a price does not fit.
pub(crate) fn with_purchases(shop: &Shop, landed: Landed, changes: &BTreeMap<Id<Item>, Factor>) -> Result<Shop, TooLarge> {
    let mut changed = shop.clone();
    let mut costs = landed::costs(shop)?;
    if landed == Landed::Present {
        at_present(shop, &mut costs)?;
    }
    for (purchase, cost) in changed.purchases.rows.iter_mut().zip(costs) {
        let times = changes.get(&purchase.item).copied().unwrap_or(Factor::ONE);
        purchase.paid = narrow(times.of(cost)?)?;
        (purchase.shipping, purchase.tax, purchase.receipt) = (0, 0, None);
    }
    Ok(changed)
}

/// Puts the last landed price of each item in place of what was paid. A day's purchases of an item are one layer of stock:
/// the first row bears it all.
fn at_present(shop: &Shop, costs: &mut [i128]) -> Result<(), TooLarge> {
    let bill = Bill::of(shop, &mut Vec::new())?;
    let movements = landed::movements(shop, &bill)?;
    let mut met: BTreeSet<(Id<Item>, Day)> = BTreeSet::new();
    for (purchase, cost) in shop.purchases.rows.iter().zip(costs) {
        if purchase.amount.is_sign_negative() {
            continue;
        }
        let item = &movements[purchase.item];
        let (last, layer) = (item.last(), item.bought.get(&purchase.day).copied().unwrap_or_default());
        let first = met.insert((purchase.item, purchase.day));
        *cost = if first && last.amount.0 != 0 { multiply_divide(last.cost, layer.amount.0, last.amount.0)? } else { 0 };
    }
    Ok(())
}

/// What a piece of a design costs on the list on a day; `None` where no list says.
pub(crate) trait Listed {
    /// The list price.
    fn price(&self, design: Id<Design>, day: Day) -> Option<Price>;
}

impl<F: Fn(Id<Design>, Day) -> Option<Price>> Listed for F {
    fn price(&self, design: Id<Design>, day: Day) -> Option<Price> {
        self(design, day)
    }
}

/// The shop's own list: each design's tier that day. A price of 0 says none.
pub(crate) fn own_list(shop: &Shop) -> impl Fn(Id<Design>, Day) -> Option<Price> + '_ {
    |design, day| shop.prices.price(shop.designs.tier_on(design, day)?, day).filter(|price| price.amount > Money::ZERO)
}

/// The list that was in force: the shop's own, else what lines were charged for a design on average.
///
/// # Errors
/// [`TooLarge`] where a mean does not fit.
pub(crate) fn list_in_force<'a>(
    shop: &'a Shop,
    lines: &[(Line, Stages)],
) -> Result<impl Fn(Id<Design>, Day) -> Option<Price> + use<'a>, TooLarge> {
    let mut charged: BTreeMap<Id<Design>, (i128, i128)> = BTreeMap::new();
    for (design, line) in lines.iter().filter_map(|(line, _)| Some((line.design?, line))) {
        let sums = charged.entry(design).or_default();
        *sums = (sums.0 + line.charged.0, sums.1 + line.pieces);
    }
    let mut means = IdVec::filled(None, shop.designs.names.len());
    for (design, (sum, pieces)) in charged.into_iter().filter(|(_, (_, pieces))| *pieces > 0) {
        let amount = Money(multiply_divide(sum, MILLION, pieces)?);
        means[design] = (amount > Money::ZERO).then_some(Price { amount, pieces: 1 });
    }
    let own = own_list(shop);
    Ok(move |design, day| own(design, day).or(means[design]))
}

/// The shop with each cookie row's price × new ÷ old list price, and each set price × the same of its cookies together.
/// Rows for which either list has no price stay as they were; other rows too.
///
/// # Errors
/// [`TooLarge`] where a price does not fit.
pub(crate) fn with_prices(mut shop: Shop, old: &impl Listed, new: &impl Listed) -> Result<Shop, TooLarge> {
    let mut sets: BTreeMap<Id<Order>, Sums> = BTreeMap::new();
    for row in 0..shop.orders.rows() {
        let (order, charged) = (shop.orders.order[row], shop.orders.price[row]);
        let Some(design) = shop.orders.design[row].filter(|_| shop.orders.kind[row] == Kind::Cookie) else { continue };
        let prices = shop
            .orders
            .head(order)
            .day
            .and_then(|day| old.price(design, day).zip(new.price(design, day)))
            .filter(|(old, _)| old.amount > Money::ZERO);
        let pieces = shop.orders.quantity[row];
        let sums = sets.entry(order).or_default();
        let changed = match prices {
            Some((old, new)) => {
                sums.list.0 += old.times(pieces)?.0;
                sums.list.1 += new.times(pieces)?.0;
                times(charged, old, new)?
            }
            None => charged,
        };
        sums.charged.0 += charged.times(pieces)?.0;
        sums.charged.1 += changed.times(pieces)?.0;
        shop.orders.price[row] = changed;
    }
    for row in (0..shop.orders.rows()).filter(|row| shop.orders.kind[*row] == Kind::Set).collect::<Vec<_>>() {
        let sums = sets.get(&shop.orders.order[row]).copied().unwrap_or_default();
        let (old, new) = if sums.charged.0 > 0 { sums.charged } else { sums.list };
        if old > 0 {
            let amount = Factor { numerator: new, divisor: old }.of(shop.orders.price[row].amount.0)?;
            shop.orders.price[row].amount = Money(amount);
        }
    }
    Ok(shop)
}

/// An order's cookies before and after: at what was charged, and at the lists.
#[derive(Debug, Clone, Copy, Default)]
struct Sums {
    charged: (i128, i128),
    list: (i128, i128),
}

/// A charged price × new ÷ old list price; the new list price itself where the old one was charged.
fn times(charged: Price, old: Price, new: Price) -> Result<Price, TooLarge> {
    if old == new {
        return Ok(charged);
    }
    if charged == old {
        return Ok(new);
    }
    let numerator = new.amount.0.checked_mul(i128::from(old.pieces)).ok_or(TooLarge)?;
    let divisor = old.amount.0.checked_mul(i128::from(new.pieces)).ok_or(TooLarge)?;
    Ok(Price { amount: Money(Factor { numerator, divisor }.of(charged.amount.0)?), ..charged })
}
