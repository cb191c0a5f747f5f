//! The two sides of a bridge, from a shop's facts: the lines with known hours, and what no order explains, as the headline
//! counts them. Where no hours are logged at all, every line, and no target.

use super::side::{Group, Side, Sums, Used};
use crate::costing::Costed;
use crate::costing::facts::column;
use crate::costing::item_uses;
use crate::costing::lines::LineKind;
use crate::costing::unassigned::Unassigned;
use crate::quantity::millionths::{Minutes, Money};
use crate::quantity::{Day, Period};
use crate::shop::Shop;
use polars::prelude::*;
use std::collections::{BTreeMap, BTreeSet};

/// A side, and the orders behind it.
#[derive(Debug, Clone, Default)]
pub struct Taken {
    /// The sums.
    pub side: Side,
    /// Orders whose lines are in them.
    pub orders: usize,
    /// Orders left out, because no hours are known of them.
    pub left_out: usize,
}

/// What each line is, as columns in the facts' order.
struct Columns {
    day: Vec<i32>,
    order: Vec<u32>,
    kind: Vec<u32>,
    design: Vec<Option<u32>>,
    known: Vec<bool>,
}

/// The sums of two periods; they may overlap.
///
/// # Errors
/// Where polars fails, or a figure does not fit.
pub fn sides(shop: &Shop, costed: &Costed, periods: [Period; 2]) -> PolarsResult<[Taken; 2]> {
    let columns = Columns::of(costed)?;
    let mut groups: [Groups; 2] = Default::default();
    let mut orders: [[BTreeSet<u32>; 2]; 2] = Default::default();
    // Lines of an order stand together, so that an order's last line met tells whether it is new to a group.
    let mut seen: [BTreeMap<Key, u32>; 2] = Default::default();
    let mut places: Vec<[Option<Key>; 2]> = vec![[None, None]; columns.day.len()];
    for (line, places) in places.iter_mut().enumerate() {
        for side in (0..2).filter(|side| periods[*side].holds(Day(columns.day[line]))) {
            let is_counted = columns.known[line] || !costed.any_hours;
            if columns.kind[line] != DEPOSIT_KEPT {
                orders[side][usize::from(is_counted)].insert(columns.order[line]);
            }
            if is_counted {
                let key = (columns.kind[line], columns.design[line]);
                places[side] = Some(key);
                let sums = groups[side].entry(key).or_default();
                sums.orders += i64::from(seen[side].insert(key, columns.order[line]) != Some(columns.order[line]));
            }
        }
    }
    fill(costed, &places, &mut groups)?;
    ingredients(shop, costed, periods, &places, &mut groups)?;
    let target = shop.settings.target.filter(|_| costed.any_hours).unwrap_or_default();
    let [then, now] = groups;
    let [orders_then, orders_now] = orders;
    let taken = |groups: Groups, orders: [BTreeSet<u32>; 2], period: Period| {
        let mut named: BTreeMap<Group, Sums> = groups.into_iter().map(|(key, sums)| named(shop, key, sums)).collect();
        let unexplained = costed.unassigned.within(period);
        if unexplained != Unassigned::default() {
            named.insert(Group::Unexplained, of_unexplained(&unexplained));
        }
        Taken { side: Side { groups: named, target }, orders: orders[1].len(), left_out: orders[0].len() }
    };
    Ok([taken(then, orders_then, periods[0]), taken(now, orders_now, periods[1])])
}

/// Kinds of lines, as the facts have them.
const COOKIE: u32 = LineKind::Cookie as u32;
const DEPOSIT_KEPT: u32 = LineKind::DepositKept as u32;

/// A line's kind and design.
type Key = (u32, Option<u32>);
type Groups = BTreeMap<Key, Sums>;

impl Columns {
    fn of(costed: &Costed) -> PolarsResult<Self> {
        let frame = costed.facts.frame();
        let numbers = |name: &str| -> PolarsResult<Vec<Option<u32>>> { Ok(frame.column(name)?.u32()?.iter().collect()) };
        let some = |numbers: Vec<Option<u32>>| numbers.into_iter().map(Option::unwrap_or_default).collect();
        Ok(Self {
            day: frame.column(column::DAY)?.i32()?.iter().map(Option::unwrap_or_default).collect(),
            order: some(numbers(column::ORDER)?),
            kind: some(numbers(column::KIND)?),
            design: numbers(column::DESIGN)?,
            known: frame.column(column::KNOWN)?.bool()?.iter().map(Option::unwrap_or_default).collect(),
        })
    }
}

/// Adds up the facts' columns of money and minutes.
fn fill(costed: &Costed, places: &[[Option<Key>; 2]], groups: &mut [Groups; 2]) -> PolarsResult<()> {
    let mut each = |name: &str, add: &dyn Fn(&mut Sums, i128)| -> PolarsResult<()> {
        for (places, value) in places.iter().zip(costed.facts.frame().column(name)?.i64()?.iter()) {
            for (groups, place) in groups.iter_mut().zip(places) {
                if let Some(sums) = place.and_then(|key| groups.get_mut(&key)) {
                    add(sums, value.unwrap_or_default().into());
                }
            }
        }
        Ok(())
    };
    each(column::PIECES, &|sums, value| sums.pieces = sums.pieces.saturating_add(i64::try_from(value).unwrap_or(i64::MAX)))?;
    each(column::LIST_VALUE, &|sums, value| sums.charged += Money(value))?;
    each(column::SET_DIFFERENCE, &|sums, value| sums.charged += Money(value))?;
    each(column::RUSH, &|sums, value| sums.rush_and_tips += Money(value))?;
    each(column::TIPS, &|sums, value| sums.rush_and_tips += Money(value))?;
    each(column::DISCOUNT, &|sums, value| sums.discounts_and_refunds += Money(value))?;
    each(column::REFUND, &|sums, value| sums.discounts_and_refunds += Money(value))?;
    // What items do not explain is left here.
    each(column::INGREDIENTS, &|sums, value| sums.other_ingredients += Money(value))?;
    each(column::PACKAGING, &|sums, value| sums.packaging += Money(value))?;
    each(column::FEES, &|sums, value| sums.fees += Money(value))?;
    each(column::HELPER_PAY, &|sums, value| sums.helper_pay += Money(value))?;
    each(column::OVERHEAD, &|sums, value| sums.overhead += Money(value))?;
    each(column::PIECE_MINUTES, &|sums, value| sums.piece_minutes += Minutes(value))?;
    each(column::PIECE_MINUTES, &|sums, value| sums.set_up_minutes += Minutes(-value))?;
    each(column::OWNER_MINUTES, &|sums, value| sums.set_up_minutes += Minutes(value))
}

/// Tells ingredients apart by item.
fn ingredients(
    shop: &Shop,
    costed: &Costed,
    periods: [Period; 2],
    places: &[[Option<Key>; 2]],
    groups: &mut [Groups; 2],
) -> PolarsResult<()> {
    let too_large = |_| polars_err!(ComputeError: "an amount of an ingredient is too large to be held exactly");
    let is_asked = |day: Day| periods.iter().any(|period| period.holds(day));
    let mut sums: BTreeMap<(usize, Key, crate::shop::items::Item), Used> = BTreeMap::new();
    for taken in item_uses::of_ingredients(shop, costed, is_asked).map_err(too_large)? {
        for (side, place) in places[taken.line].iter().enumerate() {
            let Some(key) = *place else { continue };
            let more = Used { amount: taken.amount.0, cost: Money(taken.cost) };
            sums.entry((side, key, taken.item)).or_default().add(more).map_err(too_large)?;
        }
    }
    for ((side, key, item), used) in sums {
        if let Some(group) = groups[side].get_mut(&key) {
            group.other_ingredients += -used.cost;
            group.items.insert(shop.item_names.text(item).to_owned(), used);
        }
    }
    Ok(())
}

fn named(shop: &Shop, (kind, design): Key, mut sums: Sums) -> (Group, Sums) {
    let group = match kind {
        COOKIE => {
            let design = design.map(crate::reading::Name);
            let tier = design.and_then(|design| shop.designs.tier[design.0 as usize]);
            sums.tier = tier.map(|tier| shop.designs.tiers.text(tier).to_owned());
            Group::Design(design.map_or("not logged", |design| shop.designs.names.text(design)).to_owned())
        }
        DEPOSIT_KEPT => Group::KeptDeposits,
        _ => Group::Delivery,
    };
    (group, sums)
}

fn of_unexplained(unassigned: &Unassigned) -> Sums {
    Sums {
        other_ingredients: unassigned.ingredients,
        packaging: unassigned.packaging,
        helper_pay: unassigned.helper_pay,
        overhead: unassigned.overhead,
        set_up_minutes: unassigned.owner_minutes,
        ..Sums::default()
    }
}
