//! What moved the surplus since another time.

use super::amounts;
use crate::chart::{BridgeChart, BridgeEnd, BridgeStep};
use crate::quantity::millionths::Money;
use crate::report::bridge_text::{finding, is_comparable, name, signed, surplus_words};
use crate::report::words::{Currency, capitalised, counted};
use crate::review::Bridge;
use crate::review::bridge::{End, Part};

/// Steps shown: those that moved it less are the rest together.
const MOST: usize = 12;

/// Parts farthest first; `None` where there is nothing to compare.
#[must_use]
pub fn what_moved_it(bridge: &Bridge, currency: &Currency) -> Option<BridgeChart> {
    if !is_comparable(bridge) {
        return None;
    }
    let end = |end: &End| BridgeEnd {
        name: name(end),
        note: counted(i64::try_from(end.orders).unwrap_or(i64::MAX), "order", "orders"),
        amount: end.whole.surplus.decimal(),
        label: currency.exact(end.whole.surplus),
    };
    let step = |name: &str, change: Money| BridgeStep {
        name: name.to_owned(),
        note: String::new(),
        change: change.decimal(),
        label: signed(currency, change),
    };
    let steps = bridge.steps(MOST).into_iter().map(|moved| step(moved.part.map_or("the rest", Part::in_words), moved.change));
    Some(BridgeChart {
        title: capitalised(finding(bridge, currency).trim_end_matches('.')),
        subtitle: format!(
            "{}, {} compared with {}{}",
            capitalised(surplus_words(bridge)),
            name(&bridge.now),
            name(&bridge.then),
            if bridge.is_small() { "; a few orders say little" } else { "" }
        ),
        axis: surplus_words(bridge).to_owned(),
        amounts: amounts(currency),
        start: end(&bridge.then),
        steps: steps.collect(),
        end: end(&bridge.now),
    })
}
