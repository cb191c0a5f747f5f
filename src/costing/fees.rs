//! Card fees: a percentage of everything charged in an order, and a fixed amount per card charge.

use super::lines::Lines;
use super::revenue::{Charged, Revenue};
use super::sharing::add_parts;
use crate::ids::{Id, IdVec, Order};
use crate::quantity::millionths::Money;
use crate::quantity::{Percent, TooLarge, ratio, share};
use crate::shop::Shop;

/// Each line's fees, in millionths of the main unit.
#[derive(Debug, Default)]
pub struct Fees {
    /// Its share of the order's percentage fee.
    pub percent: Vec<i64>,
    /// Its share of the order's fixed fees.
    pub fixed: Vec<i64>,
    /// The percentage of its list value: the fee that one more piece would add.
    pub on_list: Vec<i64>,
}

impl Fees {
    /// Computes the card fees of each line, in the order of `lines`.
    ///
    /// # Errors
    /// [`TooLarge`] where a sum does not fit.
    pub fn of(shop: &Shop, lines: &Lines, charged: &IdVec<Order, Charged>, revenue: &Revenue) -> Result<Self, TooLarge> {
        let mut fees = Self { percent: lines.zeros(), fixed: lines.zeros(), on_list: lines.zeros() };
        for span in &lines.spans {
            let rate = Rate::of(shop, span.order);
            if rate.payments == 0 {
                continue;
            }
            let charges = &charged[span.order];
            if span.is_done() {
                let bases: Vec<i128> = span
                    .lines()
                    .map(|line| {
                        let sum =
                            i128::from(lines.listed[line]) + i128::from(revenue.set_difference[line]) + i128::from(revenue.rush[line]);
                        (sum - i128::from(revenue.discount[line])).max(0)
                    })
                    .collect();
                let own: i128 = span.lines().map(|line| i128::from(lines.listed[line]) + i128::from(revenue.set_difference[line])).sum();
                let total = own + charges.rush + charges.tip + charges.tax - charges.discount;
                if total <= 0 {
                    continue;
                }
                for line in span.cookies.clone() {
                    fees.on_list[line] = ratio::narrow(rate.percent.of(Money(i128::from(lines.listed[line])))?.0)?;
                }
                let pieces = lines.pieces_of(span.lines());
                for (amount, column) in [(rate.percent.of(Money(total))?.0, &mut fees.percent), (rate.fixed, &mut fees.fixed)] {
                    let parts = match share::by_weight(amount, &bases)? {
                        Some(parts) => parts,
                        None => share::by_weight(amount, &pieces)?.or(share::equally(amount, bases.len())?).unwrap_or_default(),
                    };
                    add_parts(column, span.lines(), &parts)?;
                }
            } else {
                let kept: Vec<i128> = span.deposits.clone().map(|line| i128::from(lines.listed[line])).collect();
                let total: i128 = kept.iter().sum();
                if total <= 0 {
                    continue;
                }
                for (amount, column) in [(rate.percent.of(Money(total))?.0, &mut fees.percent), (rate.fixed, &mut fees.fixed)] {
                    add_parts(column, span.deposits.clone(), &share::by_weight(amount, &kept)?.unwrap_or_default())?;
                }
            }
        }
        Ok(fees)
    }
}

/// The fees of one order's card charges.
struct Rate {
    percent: Percent,
    /// The fixed fee times the number of charges.
    fixed: i128,
    payments: i64,
}

impl Rate {
    fn of(shop: &Shop, order: Id<Order>) -> Self {
        let head = shop.orders.head(order);
        let channel = head.channel.map(|channel| shop.orders.channels.text(channel));
        let fees = shop.settings.fees_of(channel);
        let payments = head.payments.unwrap_or(fees.payments);
        Self { percent: fees.percent, fixed: fees.fixed.0 * i128::from(payments), payments }
    }
}
