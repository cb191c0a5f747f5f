//! The figures of a line, and their sums in 128 bits: the one accumulator of the house.

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
    /// Share of the set price's difference from list values.
    SetDifference,
    /// Share of rush charges.
    Rush,
    /// Share of discounts.
    Discount,
    /// Share of refunds.
    Refund,
    /// Share of tips, where they count.
    Tips,
    /// What the line brought in.
    Revenue,
    /// Ingredients.
    Ingredients,
    /// Packaging.
    Packaging,
    /// Ingredients that its order takes whatever is in it.
    OrderIngredients,
    /// Packaging that its order takes whatever is in it.
    OrderPackaging,
    /// Fees.
    Fees,
    /// The percentage part of the fees.
    PercentFees,
    /// The percentage on the list value alone: what one more piece would bear.
    ListFees,
    /// Helper pay.
    HelperPay,
    /// Helper pay in stages one more piece takes.
    PieceHelperPay,
    /// Overhead.
    Overhead,
    /// The owner's minutes.
    OwnerMinutes,
    /// Helpers' minutes.
    HelperMinutes,
    /// The owner's minutes in stages one more piece takes: those shared by pieces or by minutes.
    PieceMinutes,
    /// Revenue − out-of-pocket cost.
    OwnerPay,
}

use Figure::{
    Discount, Fees, HelperMinutes, HelperPay, Ingredients, ListFees, ListValue, OrderIngredients, OrderPackaging, Overhead, OwnerMinutes,
    OwnerPay, Packaging, PercentFees, PieceHelperPay, PieceMinutes, Pieces, Refund, Revenue, Rush, SetDifference, SetPricedPieces, Tips,
};

/// How many figures a line has.
const COUNT: usize = OwnerPay as usize + 1;

impl Figure {
    /// All of them.
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

    /// Costs paid out of pocket: revenue less these is the owner's pay.
    pub const COSTS: [Self; 5] = [Ingredients, Packaging, Fees, HelperPay, Overhead];

    /// The facts' column.
    #[must_use]
    pub const fn column(self) -> &'static str {
        match self {
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
        }
    }
}

/// One sum of each figure.
#[derive(Debug, Clone, Copy, Default, PartialEq, Eq)]
pub struct Figures([i128; COUNT]);

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
        let columns: std::collections::BTreeSet<&str> = Figure::ALL.iter().map(|figure| figure.column()).collect();
        assert_eq!(columns.len(), COUNT);
    }
}
