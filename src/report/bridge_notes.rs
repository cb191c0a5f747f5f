//! What to know of the change since another period, each in a sentence or two.

use super::bridge_text::name;
use super::words::{Currency, and, capitalised, counted, in_letters};
use crate::quantity::millionths::Money;
use crate::reading::problem::printable;
use crate::review::Bridge;
use crate::review::bridge::findings::Way;
use crate::review::bridge::{End, Part, SMALL};

/// Says which ingredients moved it, what may be wrong, how to read its parts and what they leave out: those that apply.
#[must_use]
pub fn notes(bridge: &Bridge, currency: &Currency) -> Vec<String> {
    let notes = [
        ingredients(bridge, currency),
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

/// The ingredients behind prices and use.
fn ingredients(bridge: &Bridge, currency: &Currency) -> Option<String> {
    let told = [Part::IngredientPrices, Part::IngredientUse].into_iter().filter_map(|part| {
        let items = bridge.items_behind(part).into_iter();
        let items: Vec<String> = items.map(|(item, change)| format!("{} {}", printable(item), currency.change(change))).collect();
        (!items.is_empty()).then(|| format!("{}: {}.", capitalised(part.in_words()), items.join(", ")))
    });
    let told: Vec<String> = told.collect();
    (!told.is_empty()).then(|| told.join(" "))
}

fn doubtful(bridge: &Bridge) -> Option<String> {
    let orders: Vec<String> = bridge.doubtful.iter().map(|order| printable(order)).collect();
    (!orders.is_empty()).then(|| {
        format!("Check the hours of {} first: they are so far from the usual that a logging mistake is likelier than chance.", and(&orders))
    })
}

fn small(bridge: &Bridge) -> Option<String> {
    let few = |end: &End| (end.orders < SMALL).then(|| format!("{} in {}", counted(end.orders, "order", "orders"), name(end)));
    bridge.is_small().then(|| format!("A few orders say little: only {}.", both(bridge, few)))
}

fn left_out(bridge: &Bridge) -> Option<String> {
    let left_out = |end: &End| (end.left_out > 0).then(|| format!("{} of {}", in_letters(end.left_out), name(end)));
    let any = bridge.then.left_out + bridge.now.left_out > 0;
    any.then(|| format!("Orders without known hours are left out: {}.", both(bridge, left_out)))
}

fn lengths(bridge: &Bridge) -> Option<String> {
    let (then, now) = (capitalised(&name(&bridge.then)), name(&bridge.now));
    bridge.differs_in_length().then(|| format!("{then} and {now} are not equally long: compare hourly pay, not money."))
}

fn adds_up(bridge: &Bridge, currency: &Currency) -> String {
    let then = name(&bridge.then);
    let adds_up = format!("Each line changes one thing and keeps the rest as in {then}; the lines add up exactly.");
    let split = bridge.target.filter(|_| bridge.has_opposite_part()).map(|target| {
        format!(
            " A line can move the two in opposite directions: more work that pays under {} an hour but above your average leaves you further \
             below it and raises your hourly pay.",
            currency.short(target)
        )
    });
    adds_up + &split.unwrap_or_default()
}

/// Why more sold left her shorter, or fewer less short.
fn losing_pieces(bridge: &Bridge) -> Option<String> {
    let (how, gap) = match bridge.sold_at_a_loss()? {
        Way::Fewer => ("fewer", "narrowed"),
        Way::More => ("more", "widened"),
    };
    let then = name(&bridge.then);
    Some(format!("In {then} the average piece already missed your target, even before overhead, so selling {how} {gap} the gap."))
}

fn given_away(bridge: &Bridge) -> Option<String> {
    let given = bridge.groups.iter().filter(|group| group.given_away).filter_map(|group| bridge.names.design(group));
    let given: Vec<String> = given.map(printable).collect();
    let now = name(&bridge.now);
    (!given.is_empty()).then(|| format!("Given away in {now}: {}. The revenue you gave up is under prices.", and(&given)))
}

fn helpers(bridge: &Bridge) -> Option<String> {
    let paid = bridge.part(Part::HelperPay).pay != Money::ZERO;
    paid.then(|| "Minutes are yours alone; a helper's work is under helper pay.".to_owned())
}

fn new_designs(bridge: &Bridge) -> Option<String> {
    let then = name(&bridge.then);
    bridge
        .has_new_designs()
        .then(|| format!("Designs not sold in {then} are compared with their tier's average then, or the shop's where the tier sold none."))
}

fn estimated(bridge: &Bridge) -> Option<String> {
    bridge.estimated.then(|| "Minutes of one design are estimated from your logs; those of all designs together are counted.".to_owned())
}

/// Joins what `told` says of each end of the bridge.
fn both(bridge: &Bridge, told: impl Fn(&End) -> Option<String>) -> String {
    let told: Vec<String> = [&bridge.then, &bridge.now].into_iter().filter_map(told).collect();
    told.join(" and ")
}
