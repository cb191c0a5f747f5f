//! The two sides of a bridge, from a shop's facts: the lines with known hours, and what no order explains, as the headline
//! counts them. Where no hours are logged at all, every line, and no target.

use super::side::{Group, Side, Sums, Used};
use crate::costing::Costed;
use crate::costing::facts::column;
use crate::costing::item_uses;
use crate::costing::lines::LineKind;
use crate::costing::unassigned::Unassigned;
use crate::ids::{Id, IdVec, Item};
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

/// Each group of a period, and each line's place among them.
#[derive(Default)]
struct Groups {
    numbers: BTreeMap<Key, usize>,
    sums: Vec<Sums>,
    /// By line; `None` where it does not count.
    places: Vec<Option<usize>>,
    orders: BTreeSet<u32>,
    left_out: BTreeSet<u32>,
}

/// A line's kind and design.
type Key = (u32, Option<u32>);

/// Kinds of lines, as the facts have them.
const COOKIE: u32 = LineKind::Cookie as u32;
const DEPOSIT_KEPT: u32 = LineKind::DepositKept as u32;

/// The sums of two periods; they may overlap.
///
/// # Errors
/// Where polars fails, or a figure does not fit.
pub fn sides(shop: &Shop, costed: &Costed, periods: [Period; 2]) -> PolarsResult<[Taken; 2]> {
    let columns = Columns::of(costed)?;
    let mut groups = periods.map(|period| Groups::of(&columns, period, costed.any_hours));
    for groups in &mut groups {
        groups.fill(costed)?;
    }
    ingredients(shop, costed, periods, &mut groups)?;
    let target = shop.settings.target.filter(|_| costed.any_hours).unwrap_or_default();
    let taken = |(groups, period): (Groups, Period)| {
        let sums = groups.numbers.into_iter().zip(groups.sums);
        let mut named: BTreeMap<Group, Sums> = sums.map(|((key, _), sums)| named(shop, key, sums)).collect();
        let unexplained = costed.unassigned.within(period);
        if unexplained != Unassigned::default() {
            named.insert(Group::Unexplained, of_unexplained(&unexplained));
        }
        Taken { side: Side { groups: named, target }, orders: groups.orders.len(), left_out: groups.left_out.len() }
    };
    let [then, now] = groups;
    Ok([taken((then, periods[0])), taken((now, periods[1]))])
}

impl Groups {
    fn of(columns: &Columns, period: Period, any_hours: bool) -> Self {
        let mut groups = Self { places: vec![None; columns.day.len()], ..Self::default() };
        let counts = |line: &usize| columns.known[*line] || !any_hours;
        let within = (0..columns.day.len()).filter(|line| period.holds(Day(columns.day[*line])));
        let (counted, left): (Vec<usize>, Vec<usize>) = within.partition(counts);
        groups.left_out.extend(left.into_iter().map(|line| columns.order[line]));
        let key = |line: usize| (columns.kind[line], columns.design[line]);
        let keys: BTreeSet<Key> = counted.iter().map(|line| key(*line)).collect();
        groups.numbers = keys.into_iter().zip(0..).collect();
        groups.sums = vec![Sums::default(); groups.numbers.len()];
        // Lines of an order stand together, so that the last order met tells whether one is new to a group.
        let mut last = vec![None; groups.numbers.len()];
        for line in counted {
            let (at, order) = (groups.numbers[&key(line)], columns.order[line]);
            groups.places[line] = Some(at);
            groups.sums[at].orders += i64::from(last[at].replace(order) != Some(order));
            if columns.kind[line] != DEPOSIT_KEPT {
                groups.orders.insert(order);
            }
        }
        groups
    }

    /// Adds up the facts' columns of money and minutes.
    fn fill(&mut self, costed: &Costed) -> PolarsResult<()> {
        let mut each = |name: &str, add: &dyn Fn(&mut Sums, i128)| -> PolarsResult<()> {
            for (place, value) in self.places.iter().zip(costed.facts.frame().column(name)?.i64()?.iter()) {
                if let Some(at) = place {
                    add(&mut self.sums[*at], value.unwrap_or_default().into());
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
}

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

/// Tells ingredients apart by item.
fn ingredients(shop: &Shop, costed: &Costed, periods: [Period; 2], groups: &mut [Groups; 2]) -> PolarsResult<()> {
    let too_large = |_| polars_err!(ComputeError: "an amount of an ingredient is too large to be held exactly");
    let is_asked = |day: Day| periods.iter().any(|period| period.holds(day));
    // By item; then by side and group.
    let none = groups.each_ref().map(|groups| vec![Used::default(); groups.sums.len()]);
    let mut used = IdVec::<Item, _>::filled(none, shop.item_names.len());
    let take = |taken: item_uses::ItemUse| {
        for (side, groups) in groups.iter().enumerate() {
            if let Some(at) = groups.places[taken.line] {
                let more = Used { amount: taken.amount.0, cost: Money(taken.cost) };
                used[taken.item][side][at].add(more)?;
            }
        }
        Ok(())
    };
    item_uses::of_ingredients(shop, costed, is_asked, take).map_err(too_large)?;
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

fn named(shop: &Shop, (kind, design): Key, mut sums: Sums) -> (Group, Sums) {
    let group = match kind {
        COOKIE => {
            let design = design.map(Id::new);
            let tier = design.and_then(|design| shop.designs.tier[design]);
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
