//! Differences in a period's stock: use beyond what was bought, and what counts found.

use crate::costing::Costed;
use crate::costing::stock::{Quantity, Run};
use crate::quantity::unit::Dimension;
use crate::quantity::{Period, TooLarge};
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
///
/// # Errors
/// [`TooLarge`] where an amount does not fit.
pub fn shortfalls(shop: &Shop, costed: &Costed, period: Period) -> Result<Vec<Missing>, TooLarge> {
    missing(shop, costed, |run| run.shortfalls.iter().filter(|(day, _)| period.holds(*day)).map(|(_, short)| *short).collect())
}

/// Sums the differences that the period's counts found, the dearest first.
///
/// # Errors
/// [`TooLarge`] where an amount does not fit.
pub fn gaps(shop: &Shop, costed: &Costed, period: Period) -> Result<Vec<Missing>, TooLarge> {
    missing(shop, costed, |run| {
        let within = run.gaps.iter().filter(|gap| period.holds(gap.through));
        within.map(|gap| Quantity { amount: gap.missing, cost: gap.cost }).collect()
    })
}

fn missing(shop: &Shop, costed: &Costed, of: impl Fn(&Run) -> Vec<Quantity>) -> Result<Vec<Missing>, TooLarge> {
    let mut missing = Vec::new();
    for (item, run) in costed.materials.runs.pairs() {
        let mut quantity = Quantity::default();
        for part in of(run) {
            quantity.add(part)?;
        }
        if quantity != Quantity::default() {
            missing.push(Missing {
                item: shop.item_names.text(item).to_owned(),
                measured: costed.bill.base_units.dimension(item),
                quantity,
            });
        }
    }
    missing.sort_by(|one, other| other.quantity.cost.abs().cmp(&one.quantity.cost.abs()).then_with(|| one.item.cmp(&other.item)));
    Ok(missing)
}
