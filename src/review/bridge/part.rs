//! The parts that a change between two periods is taken apart into.

/// One part.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Part {
    /// What pieces were charged at, set prices included: pieces now × (price now − price then).
    Prices,
    /// Which designs were sold, at as many pieces as now.
    Mix,
    /// How many pieces were sold, of the designs sold then and in their proportions.
    Volume,
    /// The owner's minutes on pieces themselves: stages shared by pieces or by minutes.
    PieceMinutes,
    /// The owner's other minutes on cookies: set-up, colours, batches by weight, and what is done once an order.
    SetUpMinutes,
    /// What ingredients cost: amount now × (price now − price then).
    IngredientPrices,
    /// How much of the ingredients went into a piece: (amount now − amount then for as many pieces) × price then.
    IngredientUse,
    /// Packaging of a piece.
    Packaging,
    /// Fees of a piece.
    Fees,
    /// Helper pay of a piece.
    HelperPay,
    /// Rush charges, and tips where they count.
    RushAndTips,
    /// Discounts and refunds.
    DiscountsAndRefunds,
    /// Deliveries: what they brought less what they cost, the owner's time included, overhead apart.
    Delivery,
    /// Kept deposits, less their fees.
    KeptDeposits,
    /// Overhead of orders handed over.
    Overhead,
    /// Hours and costs that no order explains.
    Unassigned,
    /// The wage aimed at: hours now × (target now − target then).
    Target,
}

impl Part {
    /// All of them.
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

    /// Its name for programs.
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
