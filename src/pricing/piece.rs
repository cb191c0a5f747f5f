//! What one piece takes, and its own materials.

use super::change::Times;
use super::lines::{self, Kind, Line};
use crate::costing::Costed;
use crate::ids::{Design, IdVec};
use crate::quantity::millionths::{MILLION, Minutes, Money};
use crate::quantity::ratio::multiply_divide;
use crate::quantity::{Day, Percent, TooLarge};
use crate::shop::Shop;

/// What one piece takes.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub struct Piece {
    /// Its own materials, spares included.
    pub materials: Money,
    /// Its part of the order's box and fixed fees.
    pub of_order: Money,
    /// Helpers' part of its work.
    pub helper_pay: Money,
    /// Overhead.
    pub overhead: Money,
    /// Costs that no order explains.
    pub unassigned: Money,
    /// The owner's minutes on the piece itself.
    pub own_minutes: Minutes,
    /// The owner's minutes of its part of set-up and colours.
    pub set_up_minutes: Minutes,
    /// Minutes that no order explains.
    pub unassigned_minutes: Minutes,
}

impl Piece {
    /// Everything but the owner's time and percentage fees.
    #[must_use]
    pub fn cost(&self) -> Money {
        [self.of_order, self.helper_pay, self.overhead, self.unassigned].into_iter().fold(self.materials, |sum, part| sum + part)
    }

    /// The owner's time.
    #[must_use]
    pub fn minutes(&self) -> Minutes {
        self.own_minutes + self.set_up_minutes + self.unassigned_minutes
    }

    /// What it must leave, discounts and percentage fees taken off, for a wage an hour.
    ///
    /// # Errors
    /// [`TooLarge`] where it does not fit.
    pub fn needs(&self, wage: Money) -> Result<Money, TooLarge> {
        Ok(self.cost() + wage.per_hour_for(self.minutes())?)
    }

    /// What it pays an hour at a list price; `None` where it takes no time.
    #[must_use]
    pub fn wage(&self, price: Money, kept: Times) -> Option<Money> {
        (Money(kept.of(price.0).ok()?) - self.cost()).an_hour(self.minutes())
    }
}

/// Own materials of a piece of each design, by its recipe, spares included, at the last prices; times what the season used
/// beyond or below its recipes (remakes, stock counts).
pub(super) fn materials(shop: &Shop, present: &Costed, lines: &[(Line, lines::Stages)]) -> Result<IdVec<Design, Money>, TooLarge> {
    let mut each = IdVec::default();
    let with_spares = |amount: i128| multiply_divide(amount, Percent::WHOLE + i128::from(shop.settings.spares.0), Percent::WHOLE);
    for design in shop.designs.all() {
        if !present.bill.has_rows[design] {
            each.push(Money(with_spares(shop.settings.materials[shop.designs.size[design]].unwrap_or_default().0)?));
            continue;
        }
        let mut sum = 0;
        for (item, amount) in &present.bill.per_piece[design] {
            let last = present.materials.movements[*item].latest(Day(i32::MAX));
            let cost = if last.amount.0 == 0 { 0 } else { multiply_divide(last.cost, amount.0, last.amount.0)? };
            sum += if shop.items.is_packaging(shop.item_names.text(*item)) { cost } else { with_spares(cost)? };
        }
        each.push(Money(sum));
    }
    let (mut used, mut by_recipe) = (0, 0);
    for (line, _) in lines.iter().filter(|(line, _)| line.kind == Kind::Cookie) {
        used += (line.materials - line.order_materials).0;
        by_recipe += line.design.map_or(Ok(0), |design| multiply_divide(each[design].0, line.pieces, MILLION))?;
    }
    if by_recipe <= 0 || used <= 0 {
        return Ok(each);
    }
    each.into_iter().map(|money| multiply_divide(money.0, used, by_recipe).map(Money)).collect()
}
