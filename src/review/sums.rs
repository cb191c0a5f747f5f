//! Sums over groups of facts, in 128 bits.

use crate::costing::facts::{Facts, column, sum};
use polars::prelude::*;
use std::ops::{AddAssign, Index, IndexMut};

/// A figure that is summed.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Figure {
    /// Pieces sold.
    Pieces,
    /// Pieces of orders priced by the set.
    SetPricedPieces,
    /// Pieces × list price.
    ListValue,
    /// What was brought in.
    Revenue,
    /// Ingredients.
    Ingredients,
    /// Packaging.
    Packaging,
    /// Fees.
    Fees,
    /// The percentage part of fees.
    PercentFees,
    /// Helper pay.
    HelperPay,
    /// Overhead.
    Overhead,
    /// The owner's minutes.
    OwnerMinutes,
    /// Helpers' minutes.
    HelperMinutes,
    /// Revenue less out-of-pocket cost.
    OwnerPay,
    /// The percentage on list value alone.
    ListFees,
    /// Ingredients the order takes whatever is in it.
    OrderIngredients,
    /// Packaging the order takes whatever is in it.
    OrderPackaging,
    /// Helper pay in stages one more piece takes.
    PieceHelperPay,
    /// The owner's minutes in stages one more piece takes.
    PieceMinutes,
}

impl Figure {
    /// The facts' column it is the sum of.
    #[must_use]
    pub fn column(self) -> &'static str {
        match self {
            Self::Pieces => column::PIECES,
            Self::SetPricedPieces => column::SET_PRICED_PIECES,
            Self::ListValue => column::LIST_VALUE,
            Self::Revenue => column::REVENUE,
            Self::Ingredients => column::INGREDIENTS,
            Self::Packaging => column::PACKAGING,
            Self::Fees => column::FEES,
            Self::PercentFees => column::PERCENT_FEES,
            Self::HelperPay => column::HELPER_PAY,
            Self::Overhead => column::OVERHEAD,
            Self::OwnerMinutes => column::OWNER_MINUTES,
            Self::HelperMinutes => column::HELPER_MINUTES,
            Self::OwnerPay => column::OWNER_PAY,
            Self::ListFees => column::LIST_FEES,
            Self::OrderIngredients => column::ORDER_INGREDIENTS,
            Self::OrderPackaging => column::ORDER_PACKAGING,
            Self::PieceHelperPay => column::PIECE_HELPER_PAY,
            Self::PieceMinutes => column::PIECE_MINUTES,
        }
    }
}

/// How many there are.
const FIGURES: usize = Figure::PieceMinutes as usize + 1;

use Figure::{
    Fees, HelperMinutes, HelperPay, Ingredients, ListFees, ListValue, OrderIngredients, OrderPackaging, Overhead, OwnerMinutes, OwnerPay,
    Packaging, PercentFees, PieceHelperPay, PieceMinutes, Pieces, Revenue, SetPricedPieces,
};

/// Figures that are summed over all lines of a group, over those with known hours, and over cookie lines among these.
const OF_ALL: &[Figure] = &[
    Pieces,
    SetPricedPieces,
    ListValue,
    Revenue,
    Ingredients,
    Packaging,
    Fees,
    HelperPay,
    Overhead,
    OwnerMinutes,
    HelperMinutes,
    OwnerPay,
];
const OF_KNOWN: &[Figure] =
    &[Pieces, ListValue, Revenue, Ingredients, Packaging, Fees, PercentFees, HelperPay, Overhead, OwnerMinutes, OwnerPay];
const OF_COOKIES: &[Figure] =
    &[Pieces, ListValue, Ingredients, Packaging, OwnerMinutes, ListFees, OrderIngredients, OrderPackaging, PieceHelperPay, PieceMinutes];

/// One sum of each figure; nil where a set of lines has no use for it.
#[derive(Debug, Clone, Copy, Default, PartialEq, Eq)]
pub struct Figures([i128; FIGURES]);

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

/// The sums of one group.
#[derive(Debug, Clone, Copy, Default, PartialEq, Eq)]
pub struct Sums {
    /// Over all its lines.
    pub all: Figures,
    /// Over lines of orders whose hours are known.
    pub known: Figures,
    /// Over cookie lines of orders whose hours are known.
    pub cookies: Figures,
    /// Different orders.
    pub orders: i64,
    /// Different orders whose hours are known.
    pub known_orders: i64,
    /// Lines.
    pub lines: i64,
    /// Lines of orders whose hours are known.
    pub known_lines: i64,
    /// Lines that take something without a price.
    pub incomplete_lines: i64,
}

impl AddAssign<&Sums> for Sums {
    /// Orders are not added: one order may lie in several groups.
    fn add_assign(&mut self, other: &Self) {
        self.all += &other.all;
        self.known += &other.known;
        self.cookies += &other.cookies;
        self.lines += other.lines;
        self.known_lines += other.known_lines;
        self.incomplete_lines += other.incomplete_lines;
    }
}

const KEY: &str = "key";

/// Sums by a key, keys ascending.
///
/// # Errors
/// Where polars fails.
pub fn by_key(facts: &Facts, key: Expr) -> PolarsResult<Vec<(i64, Sums)>> {
    let known = || col(column::KNOWN);
    let cookie = || known().and(col(column::KIND).eq(lit(0_u32)));
    let mut sums = vec![
        col(column::ORDER).n_unique().cast(DataType::Int64).alias("orders"),
        col(column::ORDER).filter(known()).n_unique().cast(DataType::Int64).alias("known_orders"),
        col(column::KIND).count().cast(DataType::Int64).alias("lines"),
        known().cast(DataType::Int64).sum().alias("known_lines"),
        col(column::INCOMPLETE).cast(DataType::Int64).sum().alias("incomplete_lines"),
    ];
    let wide = |figure: Figure| col(figure.column()).cast(DataType::Int128);
    let among = |lines: Expr, figure: Figure| when(lines).then(wide(figure)).otherwise(lit(0).cast(DataType::Int128)).sum();
    let named = |set: &str, figure: Figure| format!("{set} {}", figure.column());
    sums.extend(OF_ALL.iter().map(|figure| sum(figure.column()).alias(named("all", *figure))));
    sums.extend(OF_KNOWN.iter().map(|figure| among(known(), *figure).alias(named("known", *figure))));
    sums.extend(OF_COOKIES.iter().map(|figure| among(cookie(), *figure).alias(named("cookies", *figure))));
    let frame = facts
        .frame()
        .clone()
        .lazy()
        .group_by([key.cast(DataType::Int64).alias(KEY)])
        .agg(sums)
        .sort([KEY], SortMultipleOptions::default())
        .collect()?;
    let keys = frame.column(KEY)?.i64()?.clone();
    let mut groups: Vec<(i64, Sums)> = keys.iter().map(|key| (key.unwrap_or_default(), Sums::default())).collect();
    let mut fill = |name: &str, set: &dyn Fn(&mut Sums, i128)| -> PolarsResult<()> {
        let column = frame.column(name)?.cast(&DataType::Int128)?;
        for ((_, sums), value) in groups.iter_mut().zip(column.i128()?.iter()) {
            set(sums, value.unwrap_or_default());
        }
        Ok(())
    };
    let small = |value: i128| i64::try_from(value).unwrap_or(i64::MAX);
    fill("orders", &|sums, value| sums.orders = small(value))?;
    fill("known_orders", &|sums, value| sums.known_orders = small(value))?;
    fill("lines", &|sums, value| sums.lines = small(value))?;
    fill("known_lines", &|sums, value| sums.known_lines = small(value))?;
    fill("incomplete_lines", &|sums, value| sums.incomplete_lines = small(value))?;
    for figure in OF_ALL {
        fill(&named("all", *figure), &|sums, value| sums.all[*figure] = value)?;
    }
    for figure in OF_KNOWN {
        fill(&named("known", *figure), &|sums, value| sums.known[*figure] = value)?;
    }
    for figure in OF_COOKIES {
        fill(&named("cookies", *figure), &|sums, value| sums.cookies[*figure] = value)?;
    }
    Ok(groups)
}

/// Sums over all facts; nil where there are none.
///
/// # Errors
/// Where polars fails.
pub fn whole(facts: &Facts) -> PolarsResult<Sums> {
    Ok(by_key(facts, lit(0) * col(column::KIND).cast(DataType::Int64))?.first().map(|(_, sums)| *sums).unwrap_or_default())
}
