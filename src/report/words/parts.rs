//! The parts of a change in a maker's words.

use crate::costing::figure::Figure;
use crate::review::bridge::Part;

impl Figure {
    /// Inside a sentence: `helper pay`.
    #[must_use]
    pub(crate) fn in_words(self) -> String {
        self.column().name().replace('_', " ")
    }
}

impl Part {
    /// Returns the maker's words for it.
    #[must_use]
    pub(crate) fn in_words(self) -> &'static str {
        match self {
            Self::Prices => "prices",
            Self::Mix => "a different mix of designs",
            Self::Volume => "pieces sold",
            Self::PieceMinutes => "minutes per piece",
            Self::SetUpMinutes => "set-up minutes",
            Self::IngredientPrices => "ingredient prices",
            Self::IngredientUse => "ingredient use",
            Self::Packaging => "packaging",
            Self::Fees => "card fees",
            Self::HelperPay => "helper pay",
            Self::RushAndTips => "rush charges and tips",
            Self::DiscountsAndRefunds => "discounts and refunds",
            Self::Delivery => "deliveries",
            Self::KeptDeposits => "kept deposits",
            Self::Overhead => "overhead",
            Self::Unassigned => "hours and costs not tied to an order",
            Self::Target => "your target",
        }
    }

    /// Says what a part did to her pay, where a direction can be named: `you worked faster`.
    #[must_use]
    pub(crate) fn moved_in_words(self, for_the_better: bool) -> &'static str {
        match (self, for_the_better) {
            (Self::Prices, true) => "higher prices",
            (Self::Prices, false) => "lower prices",
            (Self::PieceMinutes, true) => "you worked faster",
            (Self::PieceMinutes, false) => "you worked slower",
            (Self::SetUpMinutes, true) => "less set-up time",
            (Self::SetUpMinutes, false) => "more set-up time",
            (Self::IngredientPrices, true) => "cheaper ingredients",
            (Self::IngredientPrices, false) => "dearer ingredients",
            (Self::IngredientUse, true) => "less of the ingredients used",
            (Self::IngredientUse, false) => "more of the ingredients used",
            _ => self.in_words(),
        }
    }
}
