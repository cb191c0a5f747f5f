//! Ingredients and packaging of each line: each day's use of an item, priced by [`stock`](super::stock), is shared
//! over the day's lines by amount. Parts add up to the cost of the day exactly.

use super::bill::Bill;
use super::landed;
use super::lines::{LineKind, Lines};
use super::sharing::add;
use super::stock::{Gap, Movements, Run};
use super::unassigned::{Source, Unassigned, UnassignedLog};
use crate::ids::{Design, Id, IdVec, Item};
use crate::quantity::household;
use crate::quantity::millionths::Money;
use crate::quantity::{Amount, Percent, TooLarge, ratio, share};
use crate::shop::Shop;
use crate::shop::settings::CostFlow;

/// Each line's materials, in millionths of the main unit.
#[derive(Debug, Default)]
pub struct Materials {
    /// Ingredients.
    pub ingredients: Vec<i64>,
    /// Packaging.
    pub packaging: Vec<i64>,
    /// The part of `ingredients` used once per order, whatever is in it.
    pub order_ingredients: Vec<i64>,
    /// The part of `packaging` used once per order, whatever is in it.
    pub order_packaging: Vec<i64>,
    /// Whether it uses an item without a price.
    pub incomplete: Vec<bool>,
    /// Stock ledger of each item.
    pub runs: IdVec<Item, Run>,
    /// Purchases, returns, uses and counts of each item.
    pub movements: IdVec<Item, Movements>,
}

/// One line's use of an item.
pub(super) struct Use {
    pub line: usize,
    pub own: Amount,
    pub of_order: Amount,
}

impl Materials {
    /// Computes the materials of each line, in the order of `lines`.
    ///
    /// # Errors
    /// [`TooLarge`] where a cost does not fit.
    pub fn of(shop: &Shop, lines: &Lines, bill: &Bill, flow: CostFlow, unassigned: &mut UnassignedLog) -> Result<Self, TooLarge> {
        let mut materials = Self {
            ingredients: lines.zeros(),
            packaging: lines.zeros(),
            order_ingredients: lines.zeros(),
            order_packaging: lines.zeros(),
            incomplete: vec![false; lines.len()],
            runs: IdVec::default(),
            movements: landed::movements(shop, bill)?,
        };
        materials.assume(shop, lines, bill)?;
        let mut by_day: Vec<usize> = (0..lines.len()).filter(|line| lines.kind[*line] != LineKind::DepositKept).collect();
        by_day.sort_by_key(|line| (lines.day(*line), *line));
        for (item, name) in shop.item_names.pairs() {
            let packaging = shop.items.is_packaging(name);
            let uses = uses(shop, lines, bill, item, packaging, &by_day)?;
            for used in &uses {
                let sum = materials.movements[item].used.entry(lines.day(used.line)).or_default();
                *sum = sum.plus(used.own)?.plus(used.of_order)?;
            }
            let run = materials.movements[item].run(flow)?;
            if !materials.movements[item].has_price() && !household::is_free(name) {
                for used in &uses {
                    materials.incomplete[used.line] = true;
                }
            }
            materials.add_costs(lines, packaging, &uses, &run)?;
            for (day, cost) in &run.unassigned {
                let cost = Money(*cost);
                let amount = if packaging {
                    Unassigned { packaging: cost, ..Unassigned::default() }
                } else {
                    Unassigned { ingredients: cost, ..Unassigned::default() }
                };
                unassigned.note(*day, Source::Item(item), amount);
            }
            materials.runs.push(run);
        }
        Ok(materials)
    }

    /// Adds the assumed materials by size, per piece made, of designs without a recipe.
    fn assume(&mut self, shop: &Shop, lines: &Lines, bill: &Bill) -> Result<(), TooLarge> {
        for line in 0..lines.len() {
            let Some(design) = lines.design[line].filter(|design| !bill.has_rows[*design]) else {
                continue;
            };
            match shop.settings.materials[shop.designs.size[design]] {
                Some(each) => add(&mut self.ingredients, line, made(shop, lines, line, each.0)?)?,
                None => self.incomplete[line] = true,
            }
        }
        Ok(())
    }

    /// Adds what the uses of an item are charged to their lines.
    fn add_costs(&mut self, lines: &Lines, packaging: bool, uses: &[Use], run: &Run) -> Result<(), TooLarge> {
        let (all, of_order) =
            if packaging { (&mut self.packaging, &mut self.order_packaging) } else { (&mut self.ingredients, &mut self.order_ingredients) };
        share_costs(lines, uses, run, run.gaps.iter(), |used, cost| {
            add(all, used.line, cost.own + cost.of_order)?;
            add(of_order, used.line, cost.of_order)
        })
    }
}

/// What one use of an item is charged.
pub(super) struct ItemCost {
    /// The amount used; of what a count found missing, its share.
    pub amount: Amount,
    /// The cost of its own amount.
    pub own: i128,
    /// The cost of its amount used once per order.
    pub of_order: i128,
}

/// Calls `take` with what each use is charged: the cost of each day shared over the day's uses by amount, then what counts found,
/// amount and cost, over the uses since the count before.
pub(super) fn share_costs<'g>(
    lines: &Lines,
    uses: &[Use],
    run: &Run,
    gaps: impl Iterator<Item = &'g Gap>,
    mut take: impl FnMut(&Use, ItemCost) -> Result<(), TooLarge>,
) -> Result<(), TooLarge> {
    let mut share_out = |uses: &[&Use], cost: i128, missing: Option<Amount>| -> Result<(), TooLarge> {
        let weights: Vec<i128> = uses.iter().flat_map(|used| [used.own.0, used.of_order.0]).collect();
        let Some(costs) = share::by_weight(cost, &weights)? else { return Ok(()) };
        let found = missing.map(|missing| share::by_weight(missing.0, &weights)).transpose()?.flatten();
        let amounts = found.as_deref().unwrap_or(&weights).chunks_exact(2);
        for ((used, costs), amounts) in uses.iter().zip(costs.chunks_exact(2)).zip(amounts) {
            take(used, ItemCost { amount: Amount(amounts[0]).plus(Amount(amounts[1]))?, own: costs[0], of_order: costs[1] })?;
        }
        Ok(())
    };
    for day in uses.chunk_by(|one, other| lines.day(one.line) == lines.day(other.line)) {
        let cost = run.issued.get(&lines.day(day[0].line)).copied().unwrap_or(0);
        share_out(&day.iter().collect::<Vec<_>>(), cost, None)?;
    }
    for gap in gaps {
        let mut since: Vec<&Use> = uses.iter().filter(|used| gap.covers(lines.day(used.line))).collect();
        since.sort_by_key(|used| used.line);
        share_out(&since, gap.cost, Some(gap.missing))?;
    }
    Ok(())
}

/// Lists the uses of an item by line, in the order of `by_day`.
pub(super) fn uses(
    shop: &Shop,
    lines: &Lines,
    bill: &Bill,
    item: Id<Item>,
    packaging: bool,
    by_day: &[usize],
) -> Result<Vec<Use>, TooLarge> {
    let per_piece: IdVec<Design, i128> = bill.per_piece.iter().map(|takes| takes.get(&item).map_or(0, |amount| amount.0)).collect();
    let per_order = bill.per_order.get(&item).copied().unwrap_or_default();
    let per_delivery = bill.per_delivery.get(&item).copied().unwrap_or_default();
    if per_order == Amount::ZERO && per_delivery == Amount::ZERO && per_piece.iter().all(|amount| *amount == 0) {
        return Ok(Vec::new());
    }
    let of_order = of_orders(lines, per_order)?;
    let mut uses = Vec::new();
    for &line in by_day {
        let own = match lines.design[line] {
            Some(design) => {
                let each = per_piece[design];
                if packaging { each.checked_mul(i128::from(lines.pieces[line])).ok_or(TooLarge)? } else { made(shop, lines, line, each)? }
            }
            None => per_delivery.0,
        };
        let of_order = of_order.get(line).copied().unwrap_or(0);
        if own != 0 || of_order != 0 {
            uses.push(Use { line, own: Amount(own), of_order: Amount(of_order) });
        }
    }
    Ok(uses)
}

/// Computes `each` × pieces made: as logged, else pieces sold plus spares, not rounded to whole pieces.
fn made(shop: &Shop, lines: &Lines, line: usize, each: i128) -> Result<i128, TooLarge> {
    match lines.made[line] {
        Some(made) => each.checked_mul(i128::from(made)).ok_or(TooLarge),
        None => {
            let sold = each.checked_mul(i128::from(lines.pieces[line])).ok_or(TooLarge)?;
            ratio::multiply_divide(sold, Percent::WHOLE + i128::from(shop.settings.spares.0), Percent::WHOLE)
        }
    }
}

/// Shares an amount per order over each order's cookie lines by pieces, or its delivery lines equally.
fn of_orders(lines: &Lines, per_order: Amount) -> Result<Vec<i128>, TooLarge> {
    if per_order == Amount::ZERO {
        return Ok(Vec::new());
    }
    let mut amounts = vec![0; lines.len()];
    for span in lines.spans.iter().filter(|span| span.is_done()) {
        let carriers = span.carriers();
        let parts = match share::by_weight(per_order.0, &lines.pieces_of(carriers.clone()))? {
            Some(parts) => parts,
            None => share::equally(per_order.0, carriers.len())?.unwrap_or_default(),
        };
        amounts[carriers].copy_from_slice(&parts);
    }
    Ok(amounts)
}
