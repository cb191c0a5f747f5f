//! Facts: one row per cookie or delivery line of each order handed over, and one per kept deposit.
//!
//! A frame of typed columns: [`column`](mod@column)s that identify a line, one column per [`Figure`], and minutes by stage.
//! Figures are 64-bit; sums of them are taken in 128 bits, because sums of 64-bit columns wrap silently.

pub mod column;

use super::error::CostingError;
use super::fees::Fees;
pub use super::figure::{Figure, Figures};
use super::labour::Labour;
use super::lines::{LineKind, Lines};
use super::materials::Materials;
use super::overheads::Overheads;
use super::revenue::Revenue;
use crate::ids::{Design, Id, IdVec, Names, Order, Stage, Theme};
use crate::quantity::{Day, Period, TooLarge, ratio};
use crate::shop::Shop;
use crate::shop::orders::Kind;
use column::Ids;

use polars::prelude::*;

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
pub struct Parts<'a> {
    /// Revenue.
    pub revenue: &'a Revenue,
    /// Fees.
    pub fees: &'a Fees,
    /// Materials.
    pub materials: &'a Materials,
    /// Minutes and helper pay.
    pub labour: &'a Labour,
    /// Overheads.
    pub overheads: &'a Overheads,
}

impl Facts {
    /// Builds the facts of lines from their costed columns.
    ///
    /// # Errors
    /// Where a sum does not fit, or polars fails.
    pub fn of(shop: &Shop, lines: &Lines, parts: &Parts<'_>) -> Result<Self, CostingError> {
        let mut themes = shop.orders.themes.clone();
        let mut columns = identities(shop, lines, &mut themes);
        columns.extend(figures(shop, lines, parts)?);
        let Parts { materials, labour, .. } = parts;
        columns.push(Column::new(column::KNOWN.into(), labour.known.as_slice()));
        columns.push(Column::new(column::INCOMPLETE.into(), materials.incomplete.as_slice()));
        columns.extend(column::LEVELS.iter().zip(&labour.by_level).map(|(name, minutes)| Column::new((*name).into(), minutes.as_slice())));
        columns.extend(labour.by_stage.iter().map(|(stage, minutes)| Column::new(stage_column(*stage).into(), minutes.as_slice())));
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
            frame = frame.filter(col(column::DAY).gt_eq(lit(from.0)));
        }
        if let Some(to) = period.to {
            frame = frame.filter(col(column::DAY).lt_eq(lit(to.0)));
        }
        Ok(Self { frame: frame.collect()?, stages: self.stages.clone(), themes: self.themes.clone() })
    }

    /// Returns one figure of each line.
    ///
    /// # Errors
    /// Where polars fails.
    pub fn figure(&self, figure: Figure) -> PolarsResult<Vec<i64>> {
        self.whole(figure.column())
    }

    /// Returns each line's id in a column of ids.
    ///
    /// # Errors
    /// Where polars fails.
    pub fn ids<T>(&self, column: &Ids<T>) -> PolarsResult<Vec<Option<Id<T>>>> {
        Ok(self.frame.column(column.name())?.u32()?.iter().map(|id| id.map(Id::new)).collect())
    }

    /// Returns each line's order.
    ///
    /// # Errors
    /// Where polars fails.
    pub fn orders(&self) -> PolarsResult<Vec<Id<Order>>> {
        Ok(self.full(column::ORDER.name())?.u32()?.iter().flatten().map(Id::new).collect())
    }

    /// Returns the kind of each line.
    ///
    /// # Errors
    /// Where polars fails.
    pub fn kinds(&self) -> PolarsResult<Vec<LineKind>> {
        Ok(self.full(column::KIND)?.u32()?.iter().flatten().map(LineKind::from_number).collect())
    }

    /// Returns each line's hand-over day.
    ///
    /// # Errors
    /// Where polars fails.
    pub fn days(&self) -> PolarsResult<Vec<Day>> {
        Ok(self.full(column::DAY)?.i32()?.iter().flatten().map(Day).collect())
    }

    /// Returns whether each line's order has known hours.
    ///
    /// # Errors
    /// Where polars fails.
    pub fn known(&self) -> PolarsResult<Vec<bool>> {
        self.truths(column::KNOWN)
    }

    /// Returns whether each line uses an item without a price.
    ///
    /// # Errors
    /// Where polars fails.
    pub fn incomplete(&self) -> PolarsResult<Vec<bool>> {
        self.truths(column::INCOMPLETE)
    }

    /// Returns each line's row in orders.csv.
    ///
    /// # Errors
    /// Where polars fails.
    pub fn rows(&self) -> PolarsResult<Vec<u32>> {
        Ok(self.full(column::LINE_ROW)?.u32()?.iter().flatten().collect())
    }

    /// Returns the icing colours of each line's order, if logged.
    ///
    /// # Errors
    /// Where polars fails.
    pub fn colours(&self) -> PolarsResult<Vec<Option<u32>>> {
        Ok(self.frame.column(column::COLOURS)?.u32()?.iter().collect())
    }

    /// Returns the pieces in each line's whole order.
    ///
    /// # Errors
    /// Where polars fails.
    pub fn order_pieces(&self) -> PolarsResult<Vec<i64>> {
        self.whole(column::ORDER_PIECES)
    }

    /// Returns each line's minutes by level: of entries naming its design, naming its order, naming neither.
    ///
    /// # Errors
    /// Where polars fails.
    pub fn minutes_by_level(&self) -> PolarsResult<[Vec<i64>; 3]> {
        let [design, order, neither] = column::LEVELS.map(|name| self.whole(name));
        Ok([design?, order?, neither?])
    }

    /// Returns the stages that have minutes; `None` is work without a stage.
    #[must_use]
    pub fn stages(&self) -> &[Option<Id<Stage>>] {
        &self.stages
    }

    /// Returns each line's minutes in a stage, the owner's and helpers' together.
    ///
    /// # Errors
    /// Where polars fails, or the stage is not one of [`stages`](Self::stages).
    pub fn minutes_of(&self, stage: Option<Id<Stage>>) -> PolarsResult<Vec<i64>> {
        self.whole(&stage_column(stage))
    }

    /// A column that has a value for each line.
    fn full(&self, name: &str) -> PolarsResult<&Column> {
        let column = self.frame.column(name)?;
        polars_ensure!(column.null_count() == 0, ComputeError: "{name} is blank on some lines");
        Ok(column)
    }

    fn whole(&self, name: &str) -> PolarsResult<Vec<i64>> {
        Ok(self.full(name)?.i64()?.iter().flatten().collect())
    }

    fn truths(&self, name: &str) -> PolarsResult<Vec<bool>> {
        Ok(self.full(name)?.bool()?.iter().flatten().collect())
    }
}

/// Sums a 64-bit column in 128 bits.
pub fn sum(name: &str) -> Expr {
    col(name).cast(DataType::Int128).sum()
}

fn stage_column(stage: Option<Id<Stage>>) -> String {
    stage.map_or_else(|| "no stage".to_owned(), |stage| format!("stage {}", stage.number()))
}

/// Builds the columns that identify a line.
fn identities(shop: &Shop, lines: &Lines, themes: &mut Names<Theme>) -> Vec<Column> {
    let of_design: IdVec<Design, Option<Id<Theme>>> =
        shop.designs.theme.iter().map(|theme| theme.as_ref().map(|theme| themes.intern(theme))).collect();
    let span = |line: usize| &lines.spans[lines.span[line]];
    let head = |line: usize| shop.orders.head(span(line).order);
    let theme = |line: usize| shop.orders.theme[lines.row[line]].or_else(|| of_design[lines.design[line]?]);
    let order_pieces: Vec<i64> = lines.spans.iter().map(|span| lines.pieces[span.cookies.clone()].iter().sum()).collect();
    let number = |name: &str, value: &dyn Fn(usize) -> Option<u32>| {
        Column::new(name.into(), (0..lines.len()).map(value).collect::<Vec<Option<u32>>>())
    };
    vec![
        number(column::ORDER.name(), &|line| Some(span(line).order.number())),
        Column::new(column::DAY.into(), (0..lines.len()).map(|line| lines.day(line).0).collect::<Vec<i32>>()),
        number(column::LINE_ROW, &|line| Some(shop.orders.place[lines.row[line]].row)),
        number(column::KIND, &|line| Some(lines.kind[line].number())),
        number(column::DESIGN.name(), &|line| lines.design[line].map(Id::number)),
        number(column::TIER.name(), &|line| shop.designs.tier[lines.design[line]?].map(Id::number)),
        number(column::THEME.name(), &|line| theme(line).map(Id::number)),
        number(column::CHANNEL.name(), &|line| head(line).channel.map(Id::number)),
        number(column::COLOURS, &|line| head(line).colours.and_then(|colours| u32::try_from(colours).ok())),
        Column::new(column::MONTH.into(), (0..lines.len()).map(|line| lines.day(line).month().0).collect::<Vec<i32>>()),
        Column::new(column::ORDER_PIECES.into(), lines.span.iter().map(|span| order_pieces[*span]).collect::<Vec<i64>>()),
    ]
}

/// Builds one column for each figure.
fn figures(shop: &Shop, lines: &Lines, parts: &Parts<'_>) -> Result<Vec<Column>, TooLarge> {
    let Parts { revenue, fees, materials, labour, overheads } = parts;
    let all_fees = fees.percent.iter().zip(&fees.fixed).map(|(percent, fixed)| ratio::narrow(i128::from(*percent) + i128::from(*fixed)));
    let all_fees = all_fees.collect::<Result<Vec<i64>, TooLarge>>()?;
    let costs = [&materials.ingredients, &materials.packaging, &all_fees, &labour.helper_pay, &overheads.overhead];
    let owner_pay = (0..lines.len())
        .map(|line| ratio::narrow(i128::from(revenue.revenue[line]) - costs.iter().map(|cost| i128::from(cost[line])).sum::<i128>()));
    let owner_pay = owner_pay.collect::<Result<Vec<i64>, TooLarge>>()?;
    let set_priced_pieces = set_priced_pieces(shop, lines);
    let values = |figure: Figure| match figure {
        Figure::Pieces => &lines.pieces,
        Figure::SetPricedPieces => &set_priced_pieces,
        Figure::ListValue => &lines.listed,
        Figure::SetDifference => &revenue.set_difference,
        Figure::Rush => &revenue.rush,
        Figure::Discount => &revenue.discount,
        Figure::Refund => &revenue.refund,
        Figure::Tips => &revenue.tips,
        Figure::Revenue => &revenue.revenue,
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
        Figure::OwnerPay => &owner_pay,
    };
    Ok(Figure::ALL.map(|figure| Column::new(figure.column().into(), values(figure).as_slice())).into())
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
