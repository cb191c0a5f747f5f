//! The bridge for programs: CSV, stable.

use super::record::{Form, Text, records};
use crate::quantity::millionths::{Minutes, Money};
use crate::review::Bridge;
use crate::review::bridge::{Effect, End, Group, OfGroup};
use serde::Serialize;

/// Rows of all together: `then`, every part, `now`; then of each group its parts and its `change`.
#[must_use]
pub fn bridge_csv(bridge: &Bridge) -> String {
    let (then, now) = (&bridge.then, &bridge.now);
    let mut rows = vec![BridgeRecord { pieces_then: Some(then.pieces), ..BridgeRecord::of_end("then", then) }];
    rows.extend(bridge.parts.iter().map(|(part, effect)| BridgeRecord::of_all(part.word(), effect)));
    rows.push(BridgeRecord { pieces_now: Some(now.pieces), ..BridgeRecord::of_end("now", now) });
    for group in &bridge.groups {
        rows.extend(group.parts.iter().map(|(part, effect)| BridgeRecord::of_group(group, part.word(), effect)));
        rows.push(BridgeRecord::of_group(group, "change", &group.change));
    }
    records(rows)
}

/// A line of [`bridge_csv`].
#[derive(Debug, Default, Serialize)]
pub struct BridgeRecord<'a> {
    group: Text<'a>,
    tier: Option<Text<'a>>,
    part: &'static str,
    from: Option<String>,
    to: Option<String>,
    pieces_then: Option<i64>,
    pieces_now: Option<i64>,
    pay: Money,
    minutes: Minutes,
    surplus: Money,
    wage_per_hour: Option<Money>,
}

impl<'a> BridgeRecord<'a> {
    fn of_end(part: &'static str, end: &End) -> Self {
        let whole = Effect { pay: end.whole.pay, minutes: end.whole.minutes, surplus: end.whole.surplus, wage: end.whole.wage };
        let (from, to) = (end.period.from.map(|day| day.to_string()), end.period.to.map(|day| day.to_string()));
        Self { from, to, ..Self::of_all(part, &whole) }
    }

    fn of_all(part: &'static str, effect: &Effect) -> Self {
        let Effect { pay, minutes, surplus, wage } = *effect;
        Self { group: "all".into(), part, pay, minutes, surplus, wage_per_hour: wage, ..Self::default() }
    }

    fn of_group(group: &'a OfGroup, part: &'static str, effect: &Effect) -> Self {
        let pieces = matches!(group.group, Group::Design(_)).then_some(group.pieces);
        Self {
            group: match &group.group {
                Group::Design(name) => Form::Csv.text(name),
                Group::Delivery => "delivery".into(),
                Group::KeptDeposits => "kept deposits".into(),
                Group::Unexplained => "unassigned".into(),
            },
            tier: Form::Csv.known(group.tier.as_ref()),
            pieces_then: pieces.map(|pieces| pieces.0),
            pieces_now: pieces.map(|pieces| pieces.1),
            ..Self::of_all(part, effect)
        }
    }
}
