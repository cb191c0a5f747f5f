//! Differences in a period's stock: use beyond what was bought, and what counts found.

use crate::costing::Costed;
use crate::costing::stock::{Quantity, Run};
use crate::quantity::Period;
use crate::quantity::unit::Dimension;
use crate::shop::Shop;

/// A difference in an item's stock.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Missing {
    /// The item.
    pub item: String,
    /// What its base unit measures.
    pub measured: Dimension,
    /// Amount and cost; negative if a count found more than the logs say.
    pub quantity: Quantity,
}

/// Sums the period's use beyond what had been bought, the dearest first.
#[must_use]
pub fn shortfalls(shop: &Shop, costed: &Costed, period: Period) -> Vec<Missing> {
    missing(shop, costed, |run| run.shortfalls.iter().filter(|(day, _)| period.holds(*day)).map(|(_, short)| *short).collect())
}

/// Sums the differences that the period's counts found, the dearest first.
#[must_use]
pub fn gaps(shop: &Shop, costed: &Costed, period: Period) -> Vec<Missing> {
    missing(shop, costed, |run| {
        let within = run.gaps.iter().filter(|gap| period.holds(gap.through));
        within.map(|gap| Quantity { amount: gap.missing, cost: gap.cost }).collect()
    })
}

fn missing(shop: &Shop, costed: &Costed, of: impl Fn(&Run) -> Vec<Quantity>) -> Vec<Missing> {
    let items = costed.materials.runs.pairs();
    let mut missing: Vec<Missing> = items
        .filter_map(|(item, run)| {
            let mut quantity = Quantity::default();
            for part in of(run) {
                quantity.add(part).ok()?;
            }
            let (name, measured) = (shop.item_names.text(item).to_owned(), costed.bill.base_units.dimension(item));
            (quantity != Quantity::default()).then_some(Missing { item: name, measured, quantity })
        })
        .collect();
    missing.sort_by(|one, other| other.quantity.cost.abs().cmp(&one.quantity.cost.abs()).then_with(|| one.item.cmp(&other.item)));
    missing
}
