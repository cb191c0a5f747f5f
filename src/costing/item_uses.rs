//! Amount and cost of each ingredient that lines used on some days: the facts' `ingredients`, split by item again.
//! Computed only where a question asks for it, from the stock ledgers that costing kept.
//!
//! What a count found missing is charged to lines as use: its amount is shared as its cost is, so that cost ÷ amount
//! stays the price paid.

use super::lines::Lines;
use super::materials::{share_costs, uses};
use super::pipeline::Costed;
use super::stock::Quantity;
use crate::ids::{Id, Item};
use crate::quantity::{Day, TooLarge};
use crate::shop::Shop;
use std::collections::BTreeSet;

/// One line's use of one item.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(crate) struct ItemUse {
    /// The line, by its row in the facts.
    pub line: usize,
    /// The item.
    pub item: Id<Item>,
    /// Its amount and cost.
    pub quantity: Quantity,
}

/// Calls `take` with each use of an ingredient on the days asked for, item by item. Where a count found some missing,
/// a line has several uses of one item, to be added up. The assumed materials of designs without a recipe belong to
/// no item and are left out.
///
/// # Errors
/// [`TooLarge`] where a figure does not fit.
pub(crate) fn of_ingredients(
    shop: &Shop,
    costed: &Costed,
    is_asked: impl Fn(Day) -> bool,
    mut take: impl FnMut(ItemUse) -> Result<(), TooLarge>,
) -> Result<(), TooLarge> {
    let lines = Lines::of(&shop.orders)?;
    let mut by_day: Vec<(Day, usize)> =
        (0..lines.len()).filter(|line| lines.spans[lines.span[*line]].is_done()).map(|line| (lines.day(line), line)).collect();
    by_day.sort_unstable();
    let asked: BTreeSet<Day> = by_day.iter().map(|(day, _)| *day).filter(|day| is_asked(*day)).collect();
    let asked_lines: Vec<bool> = (0..lines.len()).map(|line| is_asked(lines.day(line))).collect();
    let (Some(first), Some(last)) = (asked.first().copied(), asked.last().copied()) else { return Ok(()) };
    for (item, _) in shop.item_names.pairs().filter(|(_, name)| !shop.items.is_packaging(name)) {
        let run = &costed.materials.runs[item];
        // A count's gap is shared over all that was used since the count before, on days asked for or not.
        let gaps: Vec<_> = run.gaps.iter().filter(|gap| asked.iter().any(|day| gap.covers(*day))).collect();
        let from =
            gaps.iter().map(|gap| gap.after.map_or(Day(i32::MIN), |after| Day(after.0 + 1))).min().map_or(first, |day| day.min(first));
        let to = gaps.iter().map(|gap| gap.through).max().map_or(last, |day| day.max(last));
        let window = by_day.partition_point(|(day, _)| *day < from)..by_day.partition_point(|(day, _)| *day <= to);
        let window: Vec<usize> =
            by_day[window].iter().map(|(_, line)| *line).filter(|line| !gaps.is_empty() || asked_lines[*line]).collect();
        let all = uses(shop, &lines, &costed.bill, item, false, &window)?;
        share_costs(&lines, &all, run, gaps.into_iter(), |used, charge| {
            let quantity = Quantity { amount: charge.amount, cost: charge.own + charge.of_order };
            if asked_lines[used.line] { take(ItemUse { line: used.line, item, quantity }) } else { Ok(()) }
        })?;
    }
    Ok(())
}
