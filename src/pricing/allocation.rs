//! Too few hours for all orders: they go first to what contributes most per hour (`OpenStax`, *Principles of Accounting 2*, ch. 10.6,
//! contribution per unit of the constrained resource).

use crate::quantity::millionths::{Minutes, Money};
use std::cmp::Ordering;

/// Something hours go into.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Product {
    /// What one leaves, its time not counted.
    pub each: Money,
    /// The time one takes.
    pub minutes: Minutes,
    /// How many are wanted.
    pub wanted: i64,
}

/// How many of each there is time for, whole ones. One that leaves nothing gets no time.
#[must_use]
pub fn allocate(products: &[Product], time: Minutes) -> Vec<i64> {
    let mut order: Vec<usize> = (0..products.len()).collect();
    order.sort_by(|one, other| an_hour(&products[*other], &products[*one]).then(one.cmp(other)));
    let mut made = vec![0; products.len()];
    let mut left = time.0.max(0);
    for at in order {
        let product = &products[at];
        if product.each <= Money::ZERO {
            continue;
        }
        let room = if product.minutes.0 > 0 { i64::try_from(left / product.minutes.0).unwrap_or(i64::MAX) } else { i64::MAX };
        made[at] = product.wanted.min(room).max(0);
        left -= product.minutes.0 * i128::from(made[at]);
    }
    made
}

/// Which leaves more for an hour: what takes no time leaves most.
fn an_hour(one: &Product, other: &Product) -> Ordering {
    let times = |one: &Product, other: &Product| one.each.0.saturating_mul(other.minutes.0);
    times(one, other).cmp(&times(other, one))
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::quantity::millionths::MILLION;

    #[test]
    fn time_goes_to_what_leaves_most_for_it() {
        let product =
            |each: i128, minutes: i128, wanted| Product { each: Money(each * MILLION), minutes: Minutes(minutes * MILLION), wanted };
        // 2 a minute, 3 a minute, nothing, and no time at all.
        let products = [product(10, 5, 4), product(3, 1, 6), product(0, 1, 9), product(1, 0, 7)];
        assert_eq!(allocate(&products, Minutes(20 * MILLION)), [2, 6, 0, 7]);
        assert_eq!(allocate(&products, Minutes(0)), [0, 0, 0, 7]);
    }
}
