//! Sums the two sides of a bridge from a shop's facts: the lines with known hours and what is unassigned, as the
//! headline counts them. Without any hours logged: every line, and no target.

use super::side::{Group, Side, Sums};
use crate::costing::item_uses;
use crate::costing::stock::Quantity;
use crate::costing::unassigned::Unassigned;
use crate::costing::{Costed, CostingError, column};
use crate::quantity::{Day, Period};
use crate::review::key::{By, Key};
use crate::review::sums;
use crate::shop::Shop;
use std::collections::BTreeSet;

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

/// Sums two periods, which may overlap.
///
/// # Errors
/// Where polars fails, or a figure does not fit.
pub fn sides(shop: &Shop, costed: &Costed, periods: [Period; 2]) -> Result<[SideWithOrders; 2], CostingError> {
    let [then, now] = periods.map(|period| counted(shop, costed, period));
    let mut sides = [then?, now?];
    let is_asked = |day: Day| periods.iter().any(|period| period.holds(day));
    item_uses::of_ingredients(shop, costed, is_asked, |found| {
        for (side, group_of) in &mut sides {
            if let Some(sums) = group_of[found.line].and_then(|group| side.side.groups.get_mut(&group)) {
                sums.items.entry(found.item).or_default().add(found.quantity)?;
            }
        }
        Ok(())
    })?;
    for sums in sides.iter_mut().flat_map(|(side, _)| side.side.groups.values_mut()) {
        sums.items.retain(|_, used| *used != Quantity::default());
    }
    Ok(sides.map(|(side, _)| side))
}

/// Sums the lines of a period with known hours, or all lines if no hours are logged at all; not yet by item. Returns the group of
/// each line of the facts, too; `None` if it is not counted.
fn counted(shop: &Shop, costed: &Costed, period: Period) -> Result<(SideWithOrders, Vec<Option<Group>>), CostingError> {
    let all = &costed.facts;
    let mut side = Side { target: shop.settings.target.filter(|_| costed.hours_known.any).unwrap_or_default(), ..Side::default() };
    for (key, sums) in sums::by_key(&all.within(period)?, By::Design)? {
        let (figures, orders, lines) =
            if costed.hours_known.any { (sums.known, sums.known_orders, sums.known_lines) } else { (sums.all, sums.orders, sums.lines) };
        if lines > 0 {
            let tier = if let Key::Design(design) = key { shop.designs.tier[design] } else { None };
            let sums = side.groups.entry(group(key)).or_insert(Sums { tier, ..Sums::default() });
            sums.add(&Sums { orders, figures, ..Sums::default() })?;
        }
    }
    let unassigned = costed.unassigned.within(period);
    if unassigned != Unassigned::default() {
        side.groups.entry(Group::Unassigned).or_default().figures += &unassigned.figures();
    }
    let of_lines = By::Design.of_lines(all)?.into_iter().zip(all.values(&column::ORDER)?);
    let of_lines = of_lines.zip(all.values(&column::DAY)?).zip(all.values(&column::KNOWN)?);
    let (mut group_of, mut orders, mut left_out) = (Vec::with_capacity(all.lines()), BTreeSet::new(), BTreeSet::new());
    for (((key, order), day), known) in of_lines {
        let (within, counts) = (period.holds(day), known || !costed.hours_known.any);
        group_of.push((within && counts).then(|| group(key)));
        if within && !counts {
            left_out.insert(order);
        } else if within && key != Key::KeptDeposits {
            orders.insert(order);
        }
    }
    Ok((SideWithOrders { side, orders: orders.len(), left_out: left_out.len() }, group_of))
}

/// Returns the group of a key of designs. A cookie has a design; one without could be no design's.
fn group(key: Key) -> Group {
    match key {
        Key::Design(design) => Group::Design(design),
        Key::Delivery => Group::Delivery,
        Key::KeptDeposits => Group::KeptDeposits,
        _ => Group::Unassigned,
    }
}
