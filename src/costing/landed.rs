//! Landed cost: the price paid, its share of the receipt's shipping, and its share of tax that cannot be reclaimed
//! (IAS 2 *Inventories*, paragraph 11: price, taxes not recoverable and transport; second-hand); then the purchases,
//! returns and counts of each item by day.

use super::base_unit::Weigher;
use super::bill::Bill;
use super::stock::{Movements, Quantity};
use crate::ids::{IdVec, Item};
use crate::quantity::{Amount, TooLarge, share};
use crate::shop::Shop;
use std::collections::BTreeMap;

/// Computes the landed cost of each purchase row, in millionths of the main unit. Rows with the same receipt, day and
/// item are one layer of stock: the first of them bears what they share.
///
/// # Errors
/// [`TooLarge`] where a sum does not fit.
pub fn costs(shop: &Shop) -> Result<Vec<i128>, TooLarge> {
    let rows = &shop.purchases.rows;
    let mut order: Vec<usize> = (0..rows.len()).collect();
    order.sort_by_key(|&row| {
        let purchase = &rows[row];
        (purchase.day, purchase.item, purchase.amount, purchase.paid, row)
    });
    let mut receipts: BTreeMap<_, Vec<usize>> = BTreeMap::new();
    let mut costs: Vec<i128> = rows.iter().map(|purchase| i128::from(purchase.paid)).collect();
    for row in order {
        let purchase = &rows[row];
        match purchase.receipt {
            Some(receipt) => receipts.entry(receipt).or_default().push(row),
            None => costs[row] += shipping_and_tax(shop, row),
        }
    }
    for members in receipts.values() {
        let total: i128 = members.iter().map(|row| shipping_and_tax(shop, *row)).sum();
        // Rows of one item and day, bought or returned, count as one row of the receipt.
        let mut alike: BTreeMap<_, Vec<usize>> = BTreeMap::new();
        for row in members {
            let purchase = &rows[*row];
            alike.entry((purchase.day, purchase.item, purchase.amount.is_sign_negative())).or_default().push(*row);
        }
        let paid = |alike: &Vec<usize>| alike.iter().map(|row| i128::from(rows[*row].paid).max(0)).sum::<i128>();
        let weights: Vec<i128> = alike.values().map(paid).collect();
        let parts = match share::by_weight(total, &weights)? {
            Some(parts) => parts,
            None => share::equally(total, alike.len())?.unwrap_or_default(),
        };
        for (alike, part) in alike.values().zip(parts) {
            costs[alike[0]] += part;
        }
    }
    Ok(costs)
}

/// Shipping written on a row, and its tax where that is a cost.
fn shipping_and_tax(shop: &Shop, row: usize) -> i128 {
    let purchase = &shop.purchases.rows[row];
    let tax = if shop.settings.reclaim_purchase_tax { 0 } else { purchase.tax };
    i128::from(purchase.shipping) + i128::from(tax)
}

/// Computes the amount of each purchase in base units, and what it cost, in the order of the rows; both negative for goods returned.
///
/// # Errors
/// [`TooLarge`] where a figure does not fit.
pub(super) fn bought(shop: &Shop, bill: &Bill) -> Result<Vec<Quantity>, TooLarge> {
    let mut weigher = Weigher::default();
    let bought = shop.purchases.rows.iter().zip(costs(shop)?).map(|(purchase, cost)| {
        let amount = bill.base_units.amount(shop, purchase.item, purchase.amount, purchase.measure, &mut weigher)?;
        Ok(Quantity { amount: amount.unwrap_or_default(), cost })
    });
    bought.collect()
}

/// Collects the purchases at landed cost, returns and counts of each item, by day.
///
/// # Errors
/// [`TooLarge`] where a sum does not fit.
pub fn movements(shop: &Shop, bill: &Bill) -> Result<IdVec<Item, Movements>, TooLarge> {
    let mut weigher = Weigher::default();
    let mut movements = IdVec::filled(Movements::default(), shop.item_names.len());
    for (purchase, quantity) in shop.purchases.rows.iter().zip(bought(shop, bill)?) {
        let item = &mut movements[purchase.item];
        if quantity.amount < Amount::ZERO {
            let returned = Quantity { amount: Amount(-quantity.amount.0), cost: -quantity.cost };
            item.returned.entry(purchase.day).or_default().add(returned)?;
        } else {
            item.bought.entry(purchase.day).or_default().add(quantity)?;
        }
    }
    for count in &shop.counts {
        let amount = bill.base_units.amount(shop, count.item, count.amount, count.measure, &mut weigher)?.unwrap_or_default();
        movements[count.item].counted.insert(count.day, amount);
    }
    Ok(movements)
}
