//! Facts: one row per cookie or delivery line of each order handed over, and one per kept deposit.
//!
//! A frame of typed [`mod@column`]s: those that identify a line, one per [`Figure`], and minutes by stage.

use super::column::{self, Column, Value};
use super::error::CostingError;
use super::fees::Fees;
pub use super::figure::{Figure, Figures};
use super::labour::Labour;
use super::lines::Lines;
use super::materials::Materials;
use super::overheads::Overheads;
use super::revenue::Revenue;
use crate::ids::{Design, Id, IdVec, Names, Order, Stage, Theme};
use crate::quantity::{Period, TooLarge, ratio};
use crate::shop::Shop;
use crate::shop::orders::Kind;

use polars::prelude::{Column as FrameColumn, DataFrame, IntoLazy, LazyFrame, PolarsResult};

/// The facts of a shop: of all its logs or of a period.
#[derive(Debug, Clone)]
pub struct Facts {
    frame: DataFrame,
    /// Stages with a column of minutes; `None` is work without a stage.
    stages: Vec<Option<Id<Stage>>>,
    /// Theme names: those written on order rows, then those of designs.
    pub themes: Names<Theme>,
}

/// The costed columns that facts are built from.
pub(super) struct Parts<'a> {
    pub revenue: &'a Revenue,
    pub fees: &'a Fees,
    pub materials: &'a Materials,
    pub labour: &'a Labour,
    pub overheads: &'a Overheads,
}

impl Facts {
    /// Builds the facts of lines from their costed columns.
    ///
    /// # Errors
    /// Where a sum does not fit, or polars fails.
    pub(super) fn of(shop: &Shop, lines: &Lines, parts: &Parts<'_>) -> Result<Self, CostingError> {
        let mut themes = shop.orders.themes.clone();
        let mut columns = identities(shop, lines, &mut themes);
        columns.extend(figures(shop, lines, parts)?);
        let Parts { materials, labour, .. } = parts;
        columns.push(column::KNOWN.filled(labour.known.iter().copied()));
        columns.push(column::INCOMPLETE.filled(materials.incomplete.iter().copied()));
        columns.extend(column::LEVELS.iter().zip(&labour.by_level).map(|(level, minutes)| level.filled(minutes.iter().copied())));
        columns.extend(labour.by_stage.iter().map(|(stage, minutes)| column::minutes_in(*stage).filled(minutes.iter().copied())));
        let frame = DataFrame::new(lines.len(), columns)?;
        Ok(Self { frame, stages: labour.by_stage.keys().copied().collect(), themes })
    }

    /// Returns the frame, for group-bys and joins.
    pub fn lazy(&self) -> LazyFrame {
        self.frame.clone().lazy()
    }

    /// Returns the number of lines.
    #[must_use]
    pub fn lines(&self) -> usize {
        self.frame.height()
    }

    /// Keeps the facts of a period, by hand-over date.
    ///
    /// # Errors
    /// Where polars fails.
    pub fn within(&self, period: Period) -> PolarsResult<Self> {
        let mut frame = self.lazy();
        if let Some(from) = period.from {
            frame = frame.filter(column::DAY.col().gt_eq(column::DAY.literal(from)));
        }
        if let Some(to) = period.to {
            frame = frame.filter(column::DAY.col().lt_eq(column::DAY.literal(to)));
        }
        Ok(Self { frame: frame.collect()?, stages: self.stages.clone(), themes: self.themes.clone() })
    }

    /// Returns one column's value of each line.
    ///
    /// # Errors
    /// Where polars fails, or the facts have no such column.
    pub fn values<T: Value>(&self, column: &Column<T>) -> PolarsResult<Vec<T>> {
        column.values(&self.frame)
    }

    /// Returns one figure of each line.
    ///
    /// # Errors
    /// Where polars fails.
    pub fn figure(&self, figure: Figure) -> PolarsResult<Vec<i64>> {
        self.values(&figure.column())
    }

    /// Returns the stages that have minutes; `None` is work without a stage.
    #[must_use]
    pub fn stages(&self) -> &[Option<Id<Stage>>] {
        &self.stages
    }
}

/// Builds the columns that identify a line.
fn identities(shop: &Shop, lines: &Lines, themes: &mut Names<Theme>) -> Vec<FrameColumn> {
    let of_design: IdVec<Design, Option<Id<Theme>>> =
        shop.designs.theme.iter().map(|theme| theme.as_ref().map(|theme| themes.intern(theme))).collect();
    let span = |line: usize| &lines.spans[lines.span[line]];
    let head = |line: usize| shop.orders.head(span(line).order);
    let theme = |line: usize| shop.orders.theme[lines.row[line]].or_else(|| of_design[lines.design[line]?]);
    let order_pieces: Vec<i64> = lines.spans.iter().map(|span| lines.pieces[span.cookies.clone()].iter().sum()).collect();
    let all = || 0..lines.len();
    vec![
        column::ORDER.filled(all().map(|line| span(line).order)),
        column::DAY.filled(all().map(|line| lines.day(line))),
        column::LINE_ROW.filled(all().map(|line| shop.orders.place[lines.row[line]].row)),
        column::KIND.filled(lines.kind.iter().copied()),
        column::DESIGN.filled(lines.design.iter().copied()),
        column::TIER.filled(all().map(|line| shop.designs.tier[lines.design[line]?])),
        column::THEME.filled(all().map(theme)),
        column::CHANNEL.filled(all().map(|line| head(line).channel)),
        column::COLOURS.filled(all().map(|line| u32::try_from(head(line).colours?).ok())),
        column::MONTH.filled(all().map(|line| lines.day(line).month())),
        column::ORDER_PIECES.filled(lines.span.iter().map(|span| order_pieces[*span])),
    ]
}

/// Builds one column for each figure.
fn figures(shop: &Shop, lines: &Lines, parts: &Parts<'_>) -> Result<Vec<FrameColumn>, TooLarge> {
    let Parts { revenue, fees, materials, labour, overheads } = parts;
    let all_fees = fees.percent.iter().zip(&fees.fixed).map(|(percent, fixed)| ratio::narrow(i128::from(*percent) + i128::from(*fixed)));
    let all_fees = all_fees.collect::<Result<Vec<i64>, TooLarge>>()?;
    let (set_priced_pieces, no_pay_yet) = (set_priced_pieces(shop, lines), Vec::new());
    let known = |figure: Figure| match figure {
        Figure::Pieces => &lines.pieces,
        Figure::SetPricedPieces => &set_priced_pieces,
        Figure::ListValue => &lines.listed,
        Figure::SetDifference => &revenue.set_difference,
        Figure::Rush => &revenue.rush,
        Figure::Discount => &revenue.discount,
        Figure::Refund => &revenue.refund,
        Figure::Tips => &revenue.tips,
        Figure::Revenue => &revenue.total,
        Figure::Ingredients => &materials.ingredients,
        Figure::Packaging => &materials.packaging,
        Figure::OrderIngredients => &materials.order_ingredients,
        Figure::OrderPackaging => &materials.order_packaging,
        Figure::Fees => &all_fees,
        Figure::PercentFees => &fees.percent,
        Figure::ListFees => &fees.on_list,
        Figure::HelperPay => &labour.helper_pay,
        Figure::PieceHelperPay => &labour.piece_helper_pay,
        Figure::Overhead => &overheads.overhead,
        Figure::OwnerMinutes => &labour.owner_minutes,
        Figure::HelperMinutes => &labour.helper_minutes,
        Figure::PieceMinutes => &labour.piece_minutes,
        Figure::OwnerPay => &no_pay_yet,
    };
    let costs = Figure::COSTS.map(known);
    let owner_pay = (0..lines.len())
        .map(|line| ratio::narrow(i128::from(revenue.total[line]) - costs.iter().map(|cost| i128::from(cost[line])).sum::<i128>()));
    let owner_pay = owner_pay.collect::<Result<Vec<i64>, TooLarge>>()?;
    let values = |figure| if figure == Figure::OwnerPay { &owner_pay } else { known(figure) };
    Ok(Figure::ALL.map(|figure| figure.column().filled(values(figure).iter().copied())).into())
}

/// Computes the pieces of each line whose order was priced as a set; zero for others.
fn set_priced_pieces(shop: &Shop, lines: &Lines) -> Vec<i64> {
    let mut set_priced = IdVec::<Order, bool>::filled(false, shop.orders.ids.len());
    for row in 0..shop.orders.rows() {
        set_priced[shop.orders.order[row]] |= shop.orders.kind[row] == Kind::Set;
    }
    let pieces = |line: usize| if set_priced[lines.spans[lines.span[line]].order] { lines.pieces[line] } else { 0 };
    (0..lines.len()).map(pieces).collect()
}
