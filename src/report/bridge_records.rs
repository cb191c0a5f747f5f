//! The bridge for programs: CSV, stable.

use super::record::{Form, WriteError, record, records};
use crate::quantity::millionths::{Minutes, Money};
use crate::review::Bridge;
use crate::review::bridge::{Effect, End, Group, GroupVariance};

/// Writes rows of all together: `then`, every part, `now`; then of each group its parts and its `change`.
///
/// # Errors
/// Where a record cannot be written.
pub(crate) fn bridge_csv(bridge: &Bridge) -> Result<String, WriteError> {
    let mut rows = vec![of_end("then", &bridge.then)];
    rows.extend(bridge.parts.iter().map(|(part, effect)| BridgeRecord::of("all".to_owned(), part.word(), effect)));
    rows.push(of_end("now", &bridge.now));
    for group in &bridge.groups {
        rows.extend(group.parts.iter().map(|(part, effect)| of_group(bridge, group, part.word(), effect)));
        rows.push(of_group(bridge, group, "change", &group.change));
    }
    records(rows)
}

record! {
    /// A line of [`bridge_csv`].
    pub BridgeRecord(group: String, part: &'static str, effect: &Effect) {
        group: String = group,
        tier: Option<String> = None,
        part: &'static str = part,
        from: Option<String> = None,
        to: Option<String> = None,
        pieces_then: Option<i64> = None,
        pieces_now: Option<i64> = None,
        pay: Money = effect.pay,
        minutes: Minutes = effect.minutes,
        surplus: Money = effect.surplus,
        wage_per_hour: Option<Money> = effect.wage,
    }
}

fn of_end(part: &'static str, end: &End) -> BridgeRecord {
    let whole = Effect { pay: end.whole.pay, minutes: end.whole.minutes, surplus: end.whole.surplus, wage: end.whole.wage };
    let pieces = |when| (part == when).then_some(end.pieces);
    BridgeRecord {
        from: end.period.from.map(|day| day.to_string()),
        to: end.period.to.map(|day| day.to_string()),
        pieces_then: pieces("then"),
        pieces_now: pieces("now"),
        ..BridgeRecord::of("all".to_owned(), part, &whole)
    }
}

fn of_group(bridge: &Bridge, group: &GroupVariance, part: &'static str, effect: &Effect) -> BridgeRecord {
    let names = &bridge.names;
    let name = match group.group {
        Group::Design(design) => Form::Csv.text(names.designs.text(design)),
        Group::Delivery => "delivery".to_owned(),
        Group::KeptDeposits => "kept deposits".to_owned(),
        Group::Unassigned => "unassigned".to_owned(),
    };
    let pieces = group.is_design().then_some(group.pieces);
    BridgeRecord {
        tier: group.tier.map(|tier| Form::Csv.text(names.tiers.text(tier))),
        pieces_then: pieces.map(|pieces| pieces.0),
        pieces_now: pieces.map(|pieces| pieces.1),
        ..BridgeRecord::of(name, part, effect)
    }
}
