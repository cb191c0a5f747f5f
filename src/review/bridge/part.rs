//! The parts of a change between two periods.

/// One part of a change.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Part {
    /// Prices charged, set prices included: pieces now × (price now − price then).
    Prices,
    /// A different mix of designs, at the pieces sold now.
    Mix,
    /// More or fewer pieces, in the proportions of then.
    Volume,
    /// The owner's minutes on pieces themselves: stages shared by pieces or by minutes.
    PieceMinutes,
    /// The owner's other minutes on cookies: set-up, colours, batches by weight, and work done once per order.
    SetUpMinutes,
    /// Prices of ingredients: amount now × (price now − price then).
    IngredientPrices,
    /// Use of ingredients: (amount now − amount then for as many pieces) × price then.
    IngredientUse,
    /// Packaging per piece.
    Packaging,
    /// Fees per piece.
    Fees,
    /// Helper pay per piece.
    HelperPay,
    /// Rush charges, and tips if they count.
    RushAndTips,
    /// Discounts and refunds.
    DiscountsAndRefunds,
    /// Deliveries: revenue less cost, the owner's time included, without overhead.
    Delivery,
    /// Kept deposits, less their fees.
    KeptDeposits,
    /// Overhead of orders handed over.
    Overhead,
    /// Unassigned hours and costs.
    Unassigned,
    /// The target wage: hours now × (target now − target then).
    Target,
}

impl Part {
    /// All parts.
    pub const ALL: [Self; 17] = [
        Self::Prices,
        Self::Mix,
        Self::Volume,
        Self::PieceMinutes,
        Self::SetUpMinutes,
        Self::IngredientPrices,
        Self::IngredientUse,
        Self::Packaging,
        Self::Fees,
        Self::HelperPay,
        Self::RushAndTips,
        Self::DiscountsAndRefunds,
        Self::Delivery,
        Self::KeptDeposits,
        Self::Overhead,
        Self::Unassigned,
        Self::Target,
    ];

    /// Returns its name in JSON and CSV.
    #[must_use]
    pub fn word(self) -> &'static str {
        match self {
            Self::Prices => "price",
            Self::Mix => "mix",
            Self::Volume => "volume",
            Self::PieceMinutes => "minutes_per_piece",
            Self::SetUpMinutes => "set_up_minutes",
            Self::IngredientPrices => "ingredient_price",
            Self::IngredientUse => "ingredient_use",
            Self::Packaging => "packaging",
            Self::Fees => "fees",
            Self::HelperPay => "helper_pay",
            Self::RushAndTips => "rush_and_tips",
            Self::DiscountsAndRefunds => "discounts_and_refunds",
            Self::Delivery => "delivery",
            Self::KeptDeposits => "kept_deposits",
            Self::Overhead => "overhead",
            Self::Unassigned => "unassigned",
            Self::Target => "target_wage",
        }
    }
}
