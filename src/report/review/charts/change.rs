//! What moved the surplus since another time.

use super::amounts;
use crate::chart::{Figure, Fill, Heading, Row, Step, Steps};
use crate::quantity::millionths::Money;
use crate::report::bridge_text::{name, outcome, surplus_words};
use crate::report::words::{Currency, capitalised, counted};
use crate::review::Bridge;
use crate::review::bridge::{End, Part};

/// Steps shown: those that moved it less are the rest together.
const MOST: usize = 12;

/// Parts farthest first; `None` where there is nothing to compare.
#[must_use]
pub(crate) fn what_moved_it(bridge: &Bridge, currency: &Currency) -> Option<Steps> {
    if !bridge.is_comparable() {
        return None;
    }
    let step = |name: String, note: String, amount: Money, label: String| Step {
        row: Row { name, note, figures: vec![Figure::new(label)], ..Row::default() },
        amount: amount.decimal(),
        is_sum: false,
        fill: if amount < Money::ZERO { Fill::Below } else { Fill::Above },
    };
    let end = |end: &End| {
        let orders = counted(i64::try_from(end.orders).unwrap_or(i64::MAX), "order", "orders");
        let amount = end.whole.surplus;
        Step { is_sum: true, fill: Fill::Sum, ..step(name(end), orders, amount, currency.exact(amount)) }
    };
    let moved = bridge.steps(MOST).into_iter().map(|moved| {
        let name = moved.part.map_or("the rest", Part::in_words);
        step(name.to_owned(), String::new(), moved.change, currency.change(moved.change))
    });
    Some(Steps {
        heading: Heading {
            title: outcome(bridge, currency),
            subtitle: format!(
                "{}, {} compared with {}{}",
                capitalised(surplus_words(bridge)),
                name(&bridge.now),
                name(&bridge.then),
                if bridge.is_small() { "; a few orders say little" } else { "" }
            ),
        },
        axis: surplus_words(bridge).to_owned(),
        amounts: amounts(currency),
        key: vec![(Fill::Above, "better, to the right".to_owned()), (Fill::Below, "worse, to the left".to_owned())],
        columns: vec![String::new()],
        steps: [end(&bridge.then)].into_iter().chain(moved).chain([end(&bridge.now)]).collect(),
    })
}
