//! The figures of a line, and [`Figures`], their sums in 128 bits: the only accumulator.

use super::column::Column;
use crate::quantity::millionths::{Minutes, Money};
use crate::quantity::{TooLarge, ratio};
use std::ops::{AddAssign, Index, IndexMut};

/// A figure of a line: pieces, money in millionths of the main unit, or minutes in millionths.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Figure {
    /// Pieces sold.
    Pieces,
    /// Pieces of orders priced by the set.
    SetPricedPieces,
    /// Pieces × list price; the amount itself on delivery lines and kept deposits.
    ListValue,
    /// Share of set price − list values.
    SetDifference,
    /// Share of rush charges.
    Rush,
    /// Share of discounts.
    Discount,
    /// Share of refunds.
    Refund,
    /// Share of tips, if the shop counts them.
    Tips,
    /// Revenue: list value with all of these shares.
    Revenue,
    /// Ingredients.
    Ingredients,
    /// Packaging.
    Packaging,
    /// The part of the ingredients used once per order.
    OrderIngredients,
    /// The part of the packaging used once per order.
    OrderPackaging,
    /// Fees.
    Fees,
    /// The percentage part of the fees.
    PercentFees,
    /// The percentage of the list value: the fee that one more piece would add.
    ListFees,
    /// Helper pay.
    HelperPay,
    /// Helper pay in the stages that one more piece adds to.
    PieceHelperPay,
    /// Overhead.
    Overhead,
    /// The owner's minutes.
    OwnerMinutes,
    /// Helpers' minutes.
    HelperMinutes,
    /// The owner's minutes in the stages that one more piece adds to: those shared by pieces or by minutes.
    PieceMinutes,
    /// Owner's pay: revenue − out-of-pocket cost.
    OwnerPay,
}

use Figure::{
    Discount, Fees, HelperMinutes, HelperPay, Ingredients, ListFees, ListValue, OrderIngredients, OrderPackaging, Overhead, OwnerMinutes,
    OwnerPay, Packaging, PercentFees, PieceHelperPay, PieceMinutes, Pieces, Refund, Revenue, Rush, SetDifference, SetPricedPieces, Tips,
};

/// Number of figures of a line.
const COUNT: usize = OwnerPay as usize + 1;

impl Figure {
    /// All figures.
    pub const ALL: [Self; COUNT] = [
        Pieces,
        SetPricedPieces,
        ListValue,
        SetDifference,
        Rush,
        Discount,
        Refund,
        Tips,
        Revenue,
        Ingredients,
        Packaging,
        OrderIngredients,
        OrderPackaging,
        Fees,
        PercentFees,
        ListFees,
        HelperPay,
        PieceHelperPay,
        Overhead,
        OwnerMinutes,
        HelperMinutes,
        PieceMinutes,
        OwnerPay,
    ];

    /// Out-of-pocket costs: revenue less these is the owner's pay.
    pub(crate) const COSTS: [Self; 5] = [Ingredients, Packaging, Fees, HelperPay, Overhead];

    /// Returns its column in the facts.
    #[must_use]
    pub const fn column(self) -> Column<i64> {
        Column::named(match self {
            Pieces => "pieces",
            SetPricedPieces => "set_priced_pieces",
            ListValue => "list_value",
            SetDifference => "set_difference",
            Rush => "rush",
            Discount => "discount",
            Refund => "refund",
            Tips => "tips",
            Revenue => "revenue",
            Ingredients => "ingredients",
            Packaging => "packaging",
            OrderIngredients => "order_ingredients",
            OrderPackaging => "order_packaging",
            Fees => "fees",
            PercentFees => "percent_fees",
            ListFees => "list_fees",
            HelperPay => "helper_pay",
            PieceHelperPay => "piece_helper_pay",
            Overhead => "overhead",
            OwnerMinutes => "owner_minutes",
            HelperMinutes => "helper_minutes",
            PieceMinutes => "piece_minutes",
            OwnerPay => "owner_pay",
        })
    }
}

/// The sum of each figure.
#[derive(Debug, Clone, Copy, Default, PartialEq, Eq)]
pub struct Figures([i128; COUNT]);

impl Figures {
    /// Returns a sum of money.
    #[must_use]
    pub fn money(&self, figure: Figure) -> Money {
        Money(self[figure])
    }

    /// Returns a sum of minutes.
    #[must_use]
    pub fn minutes(&self, figure: Figure) -> Minutes {
        Minutes(self[figure])
    }

    /// Returns the pieces sold.
    ///
    /// # Errors
    /// [`TooLarge`] where they do not fit 64 bits.
    pub fn pieces(&self) -> Result<i64, TooLarge> {
        ratio::narrow(self[Pieces])
    }

    /// Returns the sum of some costs, or of other money.
    #[must_use]
    pub fn sum(&self, figures: &[Figure]) -> Money {
        figures.iter().map(|figure| self.money(*figure)).sum()
    }

    /// Returns the out-of-pocket costs, in the order of [`Figure::COSTS`].
    #[must_use]
    pub fn costs(&self) -> [Money; Figure::COSTS.len()] {
        Figure::COSTS.map(|cost| self.money(cost))
    }

    /// Computes the hourly pay: owner's pay ÷ owner's hours; `None` without hours.
    #[must_use]
    pub fn wage(&self) -> Option<Money> {
        self.money(OwnerPay).an_hour(self.minutes(OwnerMinutes))
    }
}

impl Index<Figure> for Figures {
    type Output = i128;

    fn index(&self, figure: Figure) -> &i128 {
        &self.0[figure as usize]
    }
}

impl IndexMut<Figure> for Figures {
    fn index_mut(&mut self, figure: Figure) -> &mut i128 {
        &mut self.0[figure as usize]
    }
}

impl AddAssign<&Figures> for Figures {
    fn add_assign(&mut self, other: &Self) {
        for (sum, part) in self.0.iter_mut().zip(other.0) {
            *sum += part;
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_figure_has_a_place_and_a_column_of_its_own() {
        assert!(Figure::ALL.iter().enumerate().all(|(at, figure)| *figure as usize == at));
        let columns: std::collections::BTreeSet<String> = Figure::ALL.iter().map(|figure| figure.column().name().to_owned()).collect();
        assert_eq!(columns.len(), COUNT);
    }
}
