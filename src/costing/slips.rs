//! Figures so far from what is usual that they are likelier slips of the pen: a price of ten times its list price, an order handed over
//! before any of its hours, a receipt of ten times the item's usual price.
//!
//! What is usual is a median, which a few slips do not move (Tukey, *Exploratory Data Analysis*, 1977, chapter 2; from memory).

use super::bill::Bill;
use super::landed::bought;
use super::stock::Quantity;
use crate::ids::{Design, Id, IdVec, Item, Order};
use crate::quantity::millionths::{MILLION, Money};
use crate::quantity::ratio::{is_far, multiply_divide};
use crate::quantity::{Amount, Day, TooLarge};
use crate::shop::Shop;
use crate::shop::orders::{Kind, Status};

/// Other rows needed before their median is what is usual.
const LEAST_OTHERS: usize = 3;

/// One doubted figure.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Slip {
    /// A price for one piece.
    Price {
        /// The row of the orders, from 0.
        row: usize,
        /// Charged for one piece.
        charged: Money,
        /// Its list price that day, else the design's usual price.
        usual: Money,
    },
    /// An order whose first hours were worked after it was handed over.
    HandedOver {
        /// The order.
        order: Id<Order>,
        /// The day of its first hours.
        worked: Day,
    },
    /// A purchase.
    Purchase {
        /// The row of the purchases, from 0.
        row: usize,
        /// Paid, with its share of shipping and tax.
        paid: Money,
        /// What as much of the item usually costs.
        usual: Money,
    },
}

/// Finds the doubted figures of a shop: prices, then orders, then purchases, each in the order of their rows.
///
/// # Errors
/// [`TooLarge`] where a figure does not fit.
pub fn slips(shop: &Shop, bill: &Bill) -> Result<Vec<Slip>, TooLarge> {
    let mut slips = prices(shop)?;
    slips.extend(handed_over(shop));
    slips.extend(purchases(shop, bill)?);
    Ok(slips)
}

/// The middle of the values but for one of them; `None` where the others are few.
fn median_of_others(sorted: &[i128], own: i128) -> Option<i128> {
    let own_place = sorted.partition_point(|value| *value < own);
    let others = sorted.len() - 1;
    let middle = others / 2;
    (others >= LEAST_OTHERS).then(|| sorted[if middle < own_place { middle } else { middle + 1 }])
}

fn prices(shop: &Shop) -> Result<Vec<Slip>, TooLarge> {
    let orders = &shop.orders;
    let is_sold = |row: &usize| orders.kind[*row] == Kind::Cookie && orders.head(orders.order[*row]).status == Status::Done;
    let mut rows: Vec<(usize, Id<Design>, i128)> = Vec::new();
    for row in (0..orders.rows()).filter(is_sold) {
        if let Some(design) = orders.design[row] {
            rows.push((row, design, orders.price[row].times(1)?.0));
        }
    }
    // Gifts say nothing of a price.
    rows.retain(|(_, _, each)| *each > 0);
    let mut of_design: IdVec<Design, Vec<i128>> = IdVec::filled(Vec::new(), shop.designs.names.len());
    for (_, design, each) in &rows {
        of_design[*design].push(*each);
    }
    let of_design: IdVec<Design, Vec<i128>> = of_design.into_iter().map(sorted).collect();
    let mut slips = Vec::new();
    for (row, design, each) in rows {
        let day = orders.head(orders.order[row]).day;
        let listed = day.and_then(|day| shop.prices.price(shop.designs.tier_on(design, day)?, day));
        let usual = match listed {
            Some(listed) => Some(listed.times(1)?.0),
            None => median_of_others(&of_design[design], each),
        };
        if let Some(usual) = usual.filter(|usual| is_far(each, *usual)) {
            slips.push(Slip::Price { row, charged: Money(each), usual: Money(usual) });
        }
    }
    Ok(slips)
}

fn handed_over(shop: &Shop) -> Vec<Slip> {
    let mut first: IdVec<Order, Option<Day>> = IdVec::filled(None, shop.orders.ids.len());
    for entry in shop.hours.worked() {
        for order in entry.link.map_or(&[][..], |link| shop.hours.links[link].as_slice()) {
            first[*order] = Some(first[*order].map_or(entry.day, |day| day.min(entry.day)));
        }
    }
    let late = |(order, worked): (Id<Order>, &Option<Day>)| {
        let (head, worked) = (shop.orders.head(order), (*worked)?);
        (head.status == Status::Done && head.day? < worked).then_some(Slip::HandedOver { order, worked })
    };
    first.pairs().filter_map(late).collect()
}

fn purchases(shop: &Shop, bill: &Bill) -> Result<Vec<Slip>, TooLarge> {
    let bought = bought(shop, bill)?;
    let rows = || shop.purchases.rows.iter().zip(&bought).enumerate().filter(|(_, (_, bought))| bought.amount > Amount::ZERO);
    let mut of_item: IdVec<Item, Vec<i128>> = IdVec::filled(Vec::new(), shop.item_names.len());
    for (_, (purchase, bought)) in rows() {
        of_item[purchase.item].push(of_a_million(*bought)?);
    }
    let of_item: IdVec<Item, Vec<i128>> = of_item.into_iter().map(sorted).collect();
    let mut slips = Vec::new();
    for (row, (purchase, bought)) in rows() {
        let each = of_a_million(*bought)?;
        if let Some(usual) = median_of_others(&of_item[purchase.item], each).filter(|usual| is_far(each, *usual)) {
            let usual = multiply_divide(bought.cost, usual, each)?;
            slips.push(Slip::Purchase { row, paid: Money(bought.cost), usual: Money(usual) });
        }
    }
    Ok(slips)
}

/// Computes the cost of a million base units; amounts are kept in millionths of a millionth.
fn of_a_million(bought: Quantity) -> Result<i128, TooLarge> {
    multiply_divide(bought.cost, MILLION * MILLION * MILLION, bought.amount.0)
}

fn sorted(mut values: Vec<i128>) -> Vec<i128> {
    values.sort_unstable();
    values
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_median_leaves_the_figure_itself_out() {
        let sorted = [4, 5, 6, 60];
        assert_eq!([60, 4].map(|own| median_of_others(&sorted, own)), [Some(5), Some(6)]);
        assert_eq!(median_of_others(&sorted[..3], 4), None);
    }
}
