//! Sums the two sides of a bridge from a shop's facts: the lines with known hours and what is unassigned, as the
//! headline counts them. Without any hours logged: every line, and no target.

use super::side::{Group, Side, Sums, Used};
use crate::costing::item_uses;
use crate::costing::unassigned::Unassigned;
use crate::costing::{Costed, CostingError, column};
use crate::ids::{IdVec, Item};
use crate::quantity::millionths::Money;
use crate::quantity::{Day, Period};
use crate::review::key::{By, Key};
use crate::review::sums;
use crate::shop::Shop;
use std::collections::{BTreeMap, BTreeSet};

/// A side, with the number of orders in it.
#[derive(Debug, Clone, Default)]
pub struct SideWithOrders {
    /// The side.
    pub side: Side,
    /// Number of orders counted.
    pub orders: usize,
    /// Number of orders left out, because their hours are unknown.
    pub left_out: usize,
}

/// The groups of a period, and the group of each line.
struct Groups {
    keys: Vec<Key>,
    sums: Vec<Sums>,
    /// Index of each line's group; `None` if the line is not counted.
    places: Vec<Option<usize>>,
    orders: usize,
    left_out: usize,
}

/// Sums two periods, which may overlap.
///
/// # Errors
/// Where polars fails, or a figure does not fit.
pub fn sides(shop: &Shop, costed: &Costed, periods: [Period; 2]) -> Result<[SideWithOrders; 2], CostingError> {
    let [then, now] = periods.map(|period| Groups::of(costed, period));
    let mut groups = [then?, now?];
    ingredients(shop, costed, periods, &mut groups)?;
    let target = shop.settings.target.filter(|_| costed.any_hours).unwrap_or_default();
    let side = |(groups, period): (Groups, Period)| {
        let sums = groups.keys.into_iter().zip(groups.sums);
        let mut named: BTreeMap<Group, Sums> = sums.map(|(key, sums)| named(shop, key, sums)).collect();
        let unassigned = costed.unassigned.within(period);
        if unassigned != Unassigned::default() {
            named.insert(Group::Unassigned, Sums::of(&unassigned.figures(), 0));
        }
        SideWithOrders { side: Side { groups: named, target }, orders: groups.orders, left_out: groups.left_out }
    };
    let [then, now] = groups;
    Ok([side((then, periods[0])), side((now, periods[1]))])
}

impl Groups {
    /// Groups the lines with known hours; all lines if no hours are logged at all.
    fn of(costed: &Costed, period: Period) -> Result<Self, CostingError> {
        let all = &costed.facts;
        let sums = sums::by_key(&all.within(period)?, By::Design)?;
        let counted = |(key, sums): (Key, sums::Sums)| {
            let (figures, orders, lines) =
                if costed.any_hours { (sums.known, sums.known_orders, sums.known_lines) } else { (sums.all, sums.orders, sums.lines) };
            (lines > 0).then(|| (key, Sums::of(&figures, orders)))
        };
        let (keys, sums): (Vec<Key>, Vec<Sums>) = sums.into_iter().filter_map(counted).unzip();
        let of_lines = By::Design.of_lines(all)?.into_iter().zip(all.values(&column::ORDER)?);
        let of_lines = of_lines.zip(all.values(&column::DAY)?).zip(all.values(&column::KNOWN)?);
        let (mut places, mut orders, mut left_out) = (Vec::with_capacity(all.lines()), BTreeSet::new(), BTreeSet::new());
        for (((key, order), day), known) in of_lines {
            let (within, counts) = (period.holds(day), known || !costed.any_hours);
            places.push(keys.binary_search(&key).ok().filter(|_| within && counts));
            if within && !counts {
                left_out.insert(order);
            } else if within && key != Key::KeptDeposits {
                orders.insert(order);
            }
        }
        Ok(Self { keys, sums, places, orders: orders.len(), left_out: left_out.len() })
    }
}

/// Splits the ingredients of groups by item.
fn ingredients(shop: &Shop, costed: &Costed, periods: [Period; 2], groups: &mut [Groups; 2]) -> Result<(), CostingError> {
    let is_asked = |day: Day| periods.iter().any(|period| period.holds(day));
    // By item; then by side and group.
    let none = groups.each_ref().map(|groups| vec![Used::default(); groups.sums.len()]);
    let mut used = IdVec::<Item, _>::filled(none, shop.item_names.len());
    let note = |found: item_uses::ItemUse| {
        for (side, groups) in groups.iter().enumerate() {
            if let Some(at) = groups.places[found.line] {
                let more = Used { amount: found.amount.0, cost: Money(found.cost) };
                used[found.item][side][at].add(more)?;
            }
        }
        Ok(())
    };
    item_uses::of_ingredients(shop, costed, is_asked, note)?;
    for (name, sides) in shop.item_names.iter().zip(used) {
        for (groups, used) in groups.iter_mut().zip(sides) {
            for (sums, used) in groups.sums.iter_mut().zip(used).filter(|(_, used)| *used != Used::default()) {
                sums.other_ingredients += -used.cost;
                sums.items.insert(name.to_owned(), used);
            }
        }
    }
    Ok(())
}

fn named(shop: &Shop, key: Key, sums: Sums) -> (Group, Sums) {
    match key {
        Key::KeptDeposits => (Group::KeptDeposits, sums),
        Key::Delivery => (Group::Delivery, sums),
        Key::Design(design) => (Group::Design(shop.designs.names.text(design).to_owned()), Sums { tier: key.tier(shop), ..sums }),
        _ => (Group::Design("not logged".to_owned()), sums),
    }
}
