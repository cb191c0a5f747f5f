//! The bridge for programs: CSV, stable.

use super::csv_text::{Cell, csv};
use crate::quantity::millionths::Money;
use crate::review::Bridge;
use crate::review::bridge::{Effect, End, Group, GroupVariance};

/// The headings of [`bridge_csv`].
pub const HEADINGS: [&str; 11] =
    ["group", "tier", "part", "from", "to", "pieces_then", "pieces_now", "pay", "minutes", "surplus", "wage_per_hour"];

/// Rows of all together: `then`, every part, `now`; then of each group its parts and its `change`.
#[must_use]
pub fn bridge_csv(bridge: &Bridge) -> String {
    let mut rows = vec![end("then", &bridge.then)];
    rows.extend(bridge.parts.iter().map(|(part, effect)| row(None, part.word(), effect)));
    rows.push(end("now", &bridge.now));
    for group in &bridge.groups {
        rows.extend(group.parts.iter().map(|(part, effect)| row(Some(group), part.word(), effect)));
        rows.push(row(Some(group), "change", &group.change));
    }
    csv(&HEADINGS.map(str::to_owned), rows)
}

fn end(name: &str, end: &End) -> Vec<Cell> {
    let day = |day: Option<crate::quantity::Day>| day.map_or(Cell::Unknown, |day| figure(&day));
    let pieces = || figure(&end.pieces);
    let (then, now) = if name == "then" { (pieces(), Cell::Unknown) } else { (Cell::Unknown, pieces()) };
    let whole = &end.whole;
    let figures = [whole.pay.stored(), whole.minutes.stored(), whole.surplus.stored()].map(Cell::Figure);
    let head = [figure(&"all"), Cell::Unknown, figure(&name), day(end.period.from), day(end.period.to), then, now];
    head.into_iter().chain(figures).chain([known(whole.wage)]).collect()
}

fn row(group: Option<&GroupVariance>, part: &str, effect: &Effect) -> Vec<Cell> {
    let name = match group.map(|group| &group.group) {
        None => figure(&"all"),
        Some(Group::Design(name)) => Cell::Text(name.clone()),
        Some(Group::Delivery) => figure(&"delivery"),
        Some(Group::KeptDeposits) => figure(&"kept deposits"),
        Some(Group::Unassigned) => figure(&"unassigned"),
    };
    let tier = group.and_then(|group| group.tier.clone()).map_or(Cell::Unknown, Cell::Text);
    let pieces = group.filter(|group| matches!(group.group, Group::Design(_))).map(|group| group.pieces);
    let count = |pieces: Option<i64>| pieces.map_or(Cell::Unknown, |pieces| figure(&pieces));
    let head = [
        name,
        tier,
        figure(&part),
        Cell::Unknown,
        Cell::Unknown,
        count(pieces.map(|pieces| pieces.0)),
        count(pieces.map(|pieces| pieces.1)),
    ];
    let figures = [effect.pay.stored(), effect.minutes.stored(), effect.surplus.stored()].map(Cell::Figure);
    head.into_iter().chain(figures).chain([known(effect.wage)]).collect()
}

fn figure(value: &dyn std::fmt::Display) -> Cell {
    Cell::Figure(value.to_string())
}

fn known(money: Option<Money>) -> Cell {
    money.map_or(Cell::Unknown, |money| Cell::Figure(money.stored()))
}
