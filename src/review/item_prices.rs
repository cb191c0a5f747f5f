//! Landed price of each ingredient over time, per base unit.

use crate::costing::Costed;
use crate::costing::stock::Quantity;
use crate::ids::Id;
use crate::quantity::unit::Dimension;
use crate::quantity::{Day, Period};
use crate::shop::Shop;
use rust_decimal::Decimal;

/// The prices of an item.
#[derive(Debug, Clone, PartialEq)]
pub struct ItemPrices {
    /// The item.
    pub item: String,
    /// What its base unit measures.
    pub measured: Dimension,
    /// Landed cost of all its purchases in the period, in millionths.
    pub spent: i128,
    /// Landed price per unit, by day of purchase.
    pub prices: Vec<(Day, Decimal)>,
    /// Mean price of the first and of the last third of its purchase days, by quantity, since a small purchase that
    /// bears a whole shipping charge says little. `None` below three days.
    pub then_and_now: Option<(Decimal, Decimal)>,
}

/// Lists the ingredients bought in a period, the most money first.
#[must_use]
pub fn item_prices(shop: &Shop, costed: &Costed, period: Period) -> Vec<ItemPrices> {
    let mut items: Vec<ItemPrices> = (0..)
        .map(Id::new)
        .zip(shop.item_names.iter())
        .zip(&costed.materials.movements)
        .filter(|((_, name), _)| !shop.items.is_packaging(name))
        .filter_map(|((item, name), movements)| {
            let bought = || movements.bought.iter().filter(|(day, _)| period.holds(**day));
            let prices: Vec<(Day, Decimal)> = bought().filter_map(|(day, quantity)| Some((*day, each(*quantity)?))).collect();
            let quantities: Vec<Quantity> = bought().map(|(_, quantity)| *quantity).collect();
            (!prices.is_empty()).then(|| ItemPrices {
                item: name.to_owned(),
                measured: costed.bill.base_units.dimension(item),
                spent: quantities.iter().map(|quantity| quantity.cost).sum(),
                prices,
                then_and_now: then_and_now(&quantities),
            })
        })
        .collect();
    items.sort_by(|one, other| other.spent.cmp(&one.spent).then_with(|| one.item.cmp(&other.item)));
    items
}

fn then_and_now(bought: &[Quantity]) -> Option<(Decimal, Decimal)> {
    let third = bought.len() / 3;
    let mean = |days: &[Quantity]| {
        let mut sum = Quantity::default();
        for quantity in days {
            sum.add(*quantity).ok()?;
        }
        each(sum)
    };
    (third > 0).then(|| Some((mean(&bought[..third])?, mean(&bought[bought.len() - third..])?))).flatten()
}

/// Computes the price of one unit, from millionths of money and trillionths of a unit.
fn each(quantity: Quantity) -> Option<Decimal> {
    let cost = Decimal::try_from_i128_with_scale(quantity.cost, 6).ok()?;
    let amount = Decimal::try_from_i128_with_scale(quantity.amount.0, 12).ok()?;
    cost.checked_div(amount)
}
