//! Which orders bear card fees, and why.

use super::Shop;
use super::kinds::CARD_FEES;
use super::settings::Fees;
use super::specification::ORDERS;
use super::status::Status;
use crate::quantity::Percent;
use crate::quantity::millionths::Money;
use crate::reading::Problem;

/// What is assumed of card fees: how many finished orders bear them, by their own cell or by the settings. `None` where a shop has no
/// fees, or no order.
#[must_use]
pub fn assumed(shop: &Shop) -> Option<Problem> {
    let (mut orders, mut by_cell, mut by_setting) = (0, 0, 0);
    let mut has_fees = false;
    for head in shop.orders.heads.iter().filter(|head| head.status == Status::Done) {
        let Fees { percent, fixed, payments } = shop.settings.fees_of(head.channel.map(|channel| shop.orders.channels.text(channel)));
        let costs = percent != Percent(0) || fixed != Money::ZERO;
        has_fees |= costs;
        orders += 1;
        by_cell += usize::from(costs && head.payments.is_some_and(|payments| payments > 0));
        by_setting += usize::from(costs && head.payments.is_none() && payments > 0);
    }
    (has_fees && orders > 0).then(|| {
        let problem = Problem::of_file(&CARD_FEES, &ORDERS.file(), said(orders, by_cell, by_setting)).column("payments");
        problem.instead("write cash, or 0, for one that was not paid by card")
    })
}

/// `88 of 117 orders bear card fees: 6 say so, and 82 do not say, so [fees] payments counts`.
fn said(orders: usize, by_cell: usize, by_setting: usize) -> String {
    let verb = |count: usize, one: &'static str, many: &'static str| if count == 1 { one } else { many };
    let bear = by_cell + by_setting;
    if bear == 0 {
        return "no order bears card fees: each was not paid by card, or does not say and [fees] payments is 0".to_owned();
    }
    let of = if orders == 1 { "1 order".to_owned() } else { format!("{bear} of {orders} orders") };
    let mut why = Vec::new();
    if by_cell > 0 {
        why.push(format!("{by_cell} {} so", verb(by_cell, "says", "say")));
    }
    if by_setting > 0 {
        why.push(format!("{by_setting} {} not say, so [fees] payments counts", verb(by_setting, "does", "do")));
    }
    format!("{of} {} card fees: {}", verb(bear, "bears", "bear"), why.join(", and "))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn each_count_has_its_verb() {
        assert_eq!(said(117, 6, 82), "88 of 117 orders bear card fees: 6 say so, and 82 do not say, so [fees] payments counts");
        assert_eq!(said(2, 1, 0), "1 of 2 orders bears card fees: 1 says so");
        assert_eq!(said(1, 0, 1), "1 order bears card fees: 1 does not say, so [fees] payments counts");
        assert!(said(3, 0, 0).starts_with("no order bears card fees"));
    }
}
