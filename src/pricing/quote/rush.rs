//! What a rush usually costs.

use crate::ids::{Id, Order};
use crate::quantity::Percent;
use crate::quantity::millionths::MILLION;
use crate::quantity::ratio::multiply_divide;
use crate::shop::Shop;
use crate::shop::orders::{Kind, Status};
use std::collections::BTreeMap;

/// What is usual for a rush: the mean share of list value charged for it in orders handed over. `None` where none was.
#[must_use]
pub fn usual_rush(shop: &Shop) -> Option<Percent> {
    let mut orders: BTreeMap<Id<Order>, (i128, i128)> = BTreeMap::new();
    for row in 0..shop.orders.rows() {
        let order = shop.orders.order[row];
        let Ok(amount) = shop.orders.amount(row) else { continue };
        if shop.orders.head(order).status == Status::Done {
            let sums = orders.entry(order).or_default();
            match shop.orders.kind[row] {
                Kind::Rush => sums.0 += i128::from(amount),
                Kind::Cookie => sums.1 += i128::from(amount),
                _ => {}
            }
        }
    }
    let rushed = orders.into_values().filter(|(rush, listed)| *rush > 0 && *listed > 0);
    let (rush, listed) = rushed.fold((0, 0), |(rush, listed), order| (rush + order.0, listed + order.1));
    let share = multiply_divide(rush, Percent::WHOLE, listed).ok()?;
    // To a whole per cent, as a maker would write it.
    i64::try_from((share + MILLION / 2) / MILLION * MILLION).ok().map(Percent)
}
