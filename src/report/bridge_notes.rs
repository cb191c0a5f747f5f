//! What to know of the change since another period, each in a sentence or two.

use super::bridge_text::{design_name, name};
use super::words::{Currency, and, capitalised, counted, in_letters};
use crate::quantity::Period;
use crate::quantity::millionths::{MILLION, Money};
use crate::reading::problem::printable;
use crate::review::Bridge;
use crate::review::bridge::{Effect, End, Part, SMALL, Source};

/// Those that apply, what may be wrong first.
pub(super) fn notes(bridge: &Bridge, currency: &Currency) -> Vec<String> {
    let notes = [
        doubtful(bridge),
        small(bridge),
        left_out(bridge),
        lengths(bridge),
        Some(adds_up(bridge, currency)),
        losing_pieces(bridge),
        given_away(bridge),
        helpers(bridge),
        new_designs(bridge),
        estimated(bridge),
    ];
    notes.into_iter().flatten().collect()
}

fn doubtful(bridge: &Bridge) -> Option<String> {
    let orders: Vec<String> = bridge.doubtful.iter().map(|order| printable(order)).collect();
    (!orders.is_empty()).then(|| {
        format!("Check the hours of {} first: they are so far from the usual that a logging mistake is likelier than chance.", and(&orders))
    })
}

fn small(bridge: &Bridge) -> Option<String> {
    let few = |end: &End| (end.orders < SMALL).then(|| format!("{} in {}", counted(count(end.orders), "order", "orders"), name(end)));
    bridge.is_small().then(|| format!("A few orders say little: only {}.", both(bridge, few)))
}

fn left_out(bridge: &Bridge) -> Option<String> {
    let left_out = |end: &End| (end.left_out > 0).then(|| format!("{} of {}", in_letters(count(end.left_out)), name(end)));
    let any = bridge.then.left_out + bridge.now.left_out > 0;
    any.then(|| format!("Orders without known hours are left out: {}.", both(bridge, left_out)))
}

/// Where one period is longer than the other by more than a fifth: no two months are.
fn lengths(bridge: &Bridge) -> Option<String> {
    let days = |period: Period| period.from.zip(period.to).map(|(from, to)| i64::from(to.0) - i64::from(from.0) + 1);
    let differ = match (days(bridge.then.period), days(bridge.now.period)) {
        (Some(then), Some(now)) => (then - now).abs() * 5 > then.min(now),
        _ => true,
    };
    let (then, now) = (capitalised(&name(&bridge.then)), name(&bridge.now));
    differ.then(|| format!("{then} and {now} are not equally long: compare hourly pay, not money."))
}

fn adds_up(bridge: &Bridge, currency: &Currency) -> String {
    let then = name(&bridge.then);
    let adds_up = format!("Each line changes one thing and keeps the rest as in {then}; the lines add up exactly.");
    let split = bridge.target.filter(|_| bridge.parts.iter().any(|(_, effect)| is_split(effect))).map(|target| {
        format!(
            " A line can move the two in opposite directions: more work that pays under {} an hour but above your average leaves you further \
             below it and raises your hourly pay.",
            currency.short(target)
        )
    });
    adds_up + &split.unwrap_or_default()
}

/// Whether a part lowers the surplus and raises the wage, or the other way round, by more than a trifle.
fn is_split(effect: &Effect) -> bool {
    let Some(wage) = effect.wage else { return false };
    (effect.surplus < Money::ZERO) != (wage < Money::ZERO) && effect.surplus.0.abs() >= MILLION && wage.0.abs() * 20 >= MILLION
}

/// Why more sold left her shorter, or fewer less short.
fn losing_pieces(bridge: &Bridge) -> Option<String> {
    let (pieces, volume) = (bridge.now.pieces - bridge.then.pieces, bridge.part(Part::Volume).surplus);
    let turned = volume.0.abs() >= MILLION && pieces != 0 && (volume < Money::ZERO) != (pieces < 0);
    let (how, gap) = if pieces < 0 { ("fewer", "narrowed") } else { ("more", "widened") };
    (turned && bridge.target.is_some()).then(|| {
        format!(
            "In {} the average piece already missed your target, even before overhead, so selling {how} {gap} the gap.",
            name(&bridge.then)
        )
    })
}

fn given_away(bridge: &Bridge) -> Option<String> {
    let given: Vec<String> = bridge.groups.iter().filter(|group| group.given_away).map(design_name).collect();
    let now = name(&bridge.now);
    (!given.is_empty()).then(|| format!("Given away in {now}: {}. The revenue you gave up is under prices.", given.join(", ")))
}

fn helpers(bridge: &Bridge) -> Option<String> {
    let paid = bridge.part(Part::HelperPay).pay != Money::ZERO;
    paid.then(|| "Minutes are yours alone; a helper's work is under helper pay.".to_owned())
}

fn new_designs(bridge: &Bridge) -> Option<String> {
    let new = bridge.groups.iter().any(|group| matches!(group.standard, Some(Source::Tier | Source::Shop)));
    let then = name(&bridge.then);
    new.then(|| format!("Designs not sold in {then} are compared with their tier's average then, or the shop's where the tier sold none."))
}

fn estimated(bridge: &Bridge) -> Option<String> {
    bridge.estimated.then(|| "Minutes of one design are estimated from your logs; those of all designs together are counted.".to_owned())
}

/// What is told of either end.
fn both(bridge: &Bridge, told: impl Fn(&End) -> Option<String>) -> String {
    let told: Vec<String> = [&bridge.then, &bridge.now].into_iter().filter_map(told).collect();
    told.join(" and ")
}

fn count(orders: usize) -> i64 {
    i64::try_from(orders).unwrap_or(i64::MAX)
}
