//! Revenue of each line: its list value with its share of set price, rush, discount, refund and, if the shop counts
//! them, tips. Sales tax is never revenue.

use super::lines::{LineKind, Lines, Span};
use super::sharing::add_parts;
use crate::ids::{IdVec, Order};
use crate::quantity::{TooLarge, ratio, share};
use crate::shop::Shop;
use crate::shop::orders::{Kind, Orders};

/// Charges of an order other than its lines, in millionths of the main unit.
#[derive(Debug, Clone, Copy, Default)]
pub struct Charged {
    /// Price of all its cookies together, if it was priced as a set.
    pub set: Option<i128>,
    /// Rush charges.
    pub rush: i128,
    /// Discounts.
    pub discount: i128,
    /// Refunds.
    pub refund: i128,
    /// Tips.
    pub tip: i128,
    /// Sales tax.
    pub tax: i128,
}

impl Charged {
    /// Sums the charges of each order, by id.
    ///
    /// # Errors
    /// [`TooLarge`] where an amount does not fit.
    pub(crate) fn by_order(orders: &Orders) -> Result<IdVec<Order, Self>, TooLarge> {
        let mut charged = IdVec::filled(Self::default(), orders.ids.len());
        for row in 0..orders.rows() {
            let amount = i128::from(orders.amount(row)?);
            let order = &mut charged[orders.order[row]];
            match orders.kind[row] {
                Kind::Set => *order.set.get_or_insert(0) += amount,
                Kind::Rush => order.rush += amount,
                Kind::Discount => order.discount += amount,
                Kind::Refund => order.refund += amount,
                Kind::Tip => order.tip += amount,
                Kind::Tax => order.tax += amount,
                Kind::Cookie | Kind::Delivery | Kind::DepositKept => {}
            }
        }
        Ok(charged)
    }
}

/// Each line's revenue and its parts, in millionths of the main unit. Discounts and refunds are positive and
/// subtracted.
#[derive(Debug, Default)]
pub(crate) struct Revenue {
    /// Its share of set price − list values.
    pub set_difference: Vec<i64>,
    /// Its share of rush charges.
    pub rush: Vec<i64>,
    /// Its share of discounts.
    pub discount: Vec<i64>,
    /// Its share of refunds.
    pub refund: Vec<i64>,
    /// Its share of tips; zero unless they count.
    pub tips: Vec<i64>,
    /// List value and all of these: the revenue.
    pub total: Vec<i64>,
}

impl Revenue {
    /// Computes the revenue of each line, in the order of `lines`.
    ///
    /// # Errors
    /// [`TooLarge`] where a sum does not fit.
    pub fn of(shop: &Shop, lines: &Lines, charged: &IdVec<Order, Charged>) -> Result<Self, TooLarge> {
        let mut columns = Self {
            set_difference: lines.zeros(),
            rush: lines.zeros(),
            discount: lines.zeros(),
            refund: lines.zeros(),
            tips: lines.zeros(),
            total: lines.zeros(),
        };
        for span in lines.spans.iter().filter(|span| span.is_done()) {
            let charged = &charged[span.order];
            let listed: i128 = span.cookies.clone().map(|line| i128::from(lines.listed[line])).sum();
            let set_difference = charged.set.map_or(0, |set| set - listed);
            let tips = if shop.settings.tips_count { charged.tip } else { 0 };
            for (total, column) in [
                (set_difference, &mut columns.set_difference),
                (charged.rush, &mut columns.rush),
                (charged.discount, &mut columns.discount),
                (charged.refund, &mut columns.refund),
                (tips, &mut columns.tips),
            ] {
                by_list_value(total, span, lines, column)?;
            }
        }
        for line in 0..lines.len() {
            let sum = i128::from(lines.listed[line]) + i128::from(columns.set_difference[line]) + i128::from(columns.rush[line])
                - i128::from(columns.discount[line])
                - i128::from(columns.refund[line])
                + i128::from(columns.tips[line]);
            columns.total[line] = ratio::narrow(sum)?;
        }
        Ok(columns)
    }
}

/// Shares an order's amount over its cookie lines by list value, or by pieces if that is zero; over its delivery
/// lines equally if it has no cookies.
fn by_list_value(total: i128, span: &Span, lines: &Lines, column: &mut [i64]) -> Result<(), TooLarge> {
    if total == 0 {
        return Ok(());
    }
    let carriers = span.carriers();
    let parts = if lines.kind[carriers.start] == LineKind::Delivery {
        share::equally(total, carriers.len())?
    } else {
        let values: Vec<i128> = lines.listed[carriers.clone()].iter().map(|value| i128::from(*value)).collect();
        match share::by_weight(total, &values)? {
            Some(parts) => Some(parts),
            None => share::by_weight(total, &lines.pieces_of(carriers.clone()))?,
        }
    };
    add_parts(column, carriers, &parts.unwrap_or_default())
}
