//! Landed price of each ingredient over time, per base unit.

use crate::costing::Costed;
use crate::costing::stock::Quantity;
use crate::quantity::unit::Dimension;
use crate::quantity::{Day, Period, TooLarge};
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
///
/// # Errors
/// [`TooLarge`] where a price does not fit.
pub fn item_prices(shop: &Shop, costed: &Costed, period: Period) -> Result<Vec<ItemPrices>, TooLarge> {
    let mut items = Vec::new();
    for (item, name) in shop.item_names.pairs().filter(|(_, name)| !shop.items.is_packaging(name)) {
        let bought = costed.materials.movements[item].bought.iter().filter(|(day, _)| period.holds(**day));
        let (days, quantities): (Vec<Day>, Vec<Quantity>) = bought.unzip();
        let each = quantities.iter().map(|quantity| each(*quantity)).collect::<Result<Vec<_>, TooLarge>>()?;
        let prices: Vec<(Day, Decimal)> = days.into_iter().zip(each).filter_map(|(day, each)| Some((day, each?))).collect();
        if !prices.is_empty() {
            items.push(ItemPrices {
                item: name.to_owned(),
                measured: costed.bill.base_units.dimension(item),
                spent: quantities.iter().map(|quantity| quantity.cost).sum(),
                prices,
                then_and_now: then_and_now(&quantities)?,
            });
        }
    }
    items.sort_by(|one, other| other.spent.cmp(&one.spent).then_with(|| one.item.cmp(&other.item)));
    Ok(items)
}

fn then_and_now(bought: &[Quantity]) -> Result<Option<(Decimal, Decimal)>, TooLarge> {
    let third = bought.len() / 3;
    let mean = |days: &[Quantity]| {
        let mut sum = Quantity::default();
        for quantity in days {
            sum.add(*quantity)?;
        }
        each(sum)
    };
    Ok(mean(&bought[..third])?.zip(mean(&bought[bought.len() - third..])?))
}

/// Computes the price of one unit, from millionths of money and trillionths of a unit; `None` of nothing.
fn each(quantity: Quantity) -> Result<Option<Decimal>, TooLarge> {
    let decimal = |value, scale| Decimal::try_from_i128_with_scale(value, scale).map_err(|_| TooLarge);
    let (cost, amount) = (decimal(quantity.cost, 6)?, decimal(quantity.amount.0, 12)?);
    if amount.is_zero() { Ok(None) } else { cost.checked_div(amount).map(Some).ok_or(TooLarge) }
}
