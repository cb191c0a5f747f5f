//! What moved the surplus since another time.

use super::amounts;
use crate::chart::{BridgeChart, BridgeEnd, BridgeStep};
use crate::quantity::millionths::{MILLION, Money};
use crate::report::bridge_text::{finding, is_comparable, name, signed, surplus_words};
use crate::report::figures::{Currency, capitalised, counted};
use crate::review::Bridge;
use crate::review::bridge::{End, SMALL};

/// Parts farthest first, those below one of the main unit left to the rest; `None` where there is nothing to compare.
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
    let (large, small): (Vec<_>, Vec<_>) = bridge.moved().into_iter().partition(|(_, effect)| effect.surplus.0.abs() >= MILLION);
    let mut steps: Vec<BridgeStep> = large.into_iter().map(|(part, effect)| step(part.in_words(), effect.surplus)).collect();
    let rest: Money = small.into_iter().map(|(_, effect)| effect.surplus).sum();
    if rest != Money::ZERO {
        steps.push(step("the rest", rest));
    }
    let few = bridge.then.orders < SMALL || bridge.now.orders < SMALL;
    Some(BridgeChart {
        title: capitalised(finding(bridge, currency).trim_end_matches('.')),
        subtitle: format!(
            "{} of {} held against {}{}",
            capitalised(surplus_words(bridge)),
            name(&bridge.now),
            name(&bridge.then),
            if few { "; a few orders say little" } else { "" }
        ),
        axis: surplus_words(bridge).to_owned(),
        amounts: amounts(currency),
        start: end(&bridge.then),
        steps,
        end: end(&bridge.now),
    })
}
