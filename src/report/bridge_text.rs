//! The bridge in words: what changed since another month or season, and what moved it most.

use super::words::{Currency, capitalised, period_as_noun};
use crate::period::whole_months;
use crate::quantity::millionths::{MILLION, Money};
use crate::reading::problem::printable;
use crate::review::bridge::findings::is_much;
use crate::review::bridge::{Effect, End, Part};
use crate::review::{Bridge, Review};

/// Says why there is nothing before to compare with: `Your logs begin in August 2025, so there is no full year before to compare with.`
#[must_use]
pub(crate) fn nothing_before(review: &Review) -> Option<String> {
    let begin = review.logs_begin?;
    let months = match whole_months(review.period) {
        Some((Some(first), Some(last))) => last.0 - first.0 + 1,
        _ => 0,
    };
    let what = match months {
        0 => "no time as long".to_owned(),
        1 => "no month".to_owned(),
        12 => "no full year".to_owned(),
        months => format!("no {months} months"),
    };
    Some(format!("Your logs begin in {}, so there is {what} before to compare with.", begin.in_words()))
}

/// Writes the section's heading: `What changed since September 2026`.
#[must_use]
pub fn heading(bridge: &Bridge) -> String {
    format!("What changed since {}", name(&bridge.then))
}

/// Says the change in one sentence, with what moved it most: `October 2026 was $84 worse than September 2026 with your time paid at
/// $20: you worked slower −$120; higher prices +$51.`
#[must_use]
pub(crate) fn finding(bridge: &Bridge, currency: &Currency) -> String {
    if let Some(why) = nothing_to_compare(bridge) {
        return why;
    }
    let change = change(bridge);
    let is_less = change < Money::ZERO;
    let said = match bridge.target.filter(|_| is_much(change)) {
        None => outcome(bridge, currency),
        Some(target) => format!("{} with your time paid at {}", outcome(bridge, currency), currency.short(target)),
    };
    // What pushed the same way first, then what pushed against it.
    let (with, against): (Vec<_>, Vec<_>) = bridge.movers().into_iter().partition(|(_, effect)| (effect.surplus < Money::ZERO) == is_less);
    let told = |parts: Vec<(Part, Effect)>| {
        let told: Vec<String> = parts.iter().map(|(part, effect)| moved(*part, effect.surplus, currency)).collect();
        told.join(", ")
    };
    let told: Vec<String> = [told(with), told(against)].into_iter().filter(|told| !told.is_empty()).collect();
    if told.is_empty() { format!("{said}.") } else { format!("{said}: {}.", told.join("; ")) }
}

/// Says the change alone, without an end: `October 2026 was $84 worse than September 2026`.
#[must_use]
pub fn outcome(bridge: &Bridge, currency: &Currency) -> String {
    let change = change(bridge);
    let size = currency.whole(Money(change.0.abs()));
    let (now, then) = (capitalised(&name(&bridge.now)), name(&bridge.then));
    let is_less = change < Money::ZERO;
    match bridge.target {
        _ if !is_much(change) => format!("{now} came out as {then} did, within {}", currency.whole(Money(MILLION))),
        None => format!("{now} left you {size} {} than {then}", if is_less { "less" } else { "more" }),
        Some(_) => format!("{now} was {size} {} than {then}", if is_less { "worse" } else { "better" }),
    }
}

fn change(bridge: &Bridge) -> Money {
    bridge.now.whole.surplus - bridge.then.whole.surplus
}

/// A part with its change: `you worked faster +$42`, `card fees −$3`.
fn moved(part: Part, change: Money, currency: &Currency) -> String {
    format!("{} {}", part.moved_in_words(change > Money::ZERO), currency.whole_change(change))
}

/// Writes a period as it stands inside a sentence.
#[must_use]
pub fn name(end: &End) -> String {
    match &end.season {
        Some(season) if end.period.month().is_none() => printable(season),
        _ => period_as_noun(end.period),
    }
}

/// Names the surplus, where a wage is aimed at and where none is.
#[must_use]
pub(crate) fn surplus_words(bridge: &Bridge) -> &'static str {
    if bridge.target.is_some() { "above or below your target" } else { "left for your time" }
}

fn nothing_to_compare(bridge: &Bridge) -> Option<String> {
    if bridge.is_comparable() {
        return None;
    }
    let then = &bridge.then;
    let (there, here) = (name(then), name(&bridge.now));
    let nothing_in = |end: &End, where_to: &str| match end.left_out {
        0 => format!("Nothing was handed over in {where_to}"),
        _ => format!("No order handed over in {where_to} has known hours"),
    };
    Some(match then.orders {
        0 => format!("{}: there is nothing to compare {here} with.", nothing_in(then, &there)),
        _ => format!("{}: there is nothing to compare with {there}.", nothing_in(&bridge.now, &here)),
    })
}
