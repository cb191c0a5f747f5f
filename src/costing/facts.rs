//! Facts: one row per cookie or delivery line of each order handed over, and one per kept deposit.
//!
//! Money and minutes are 64-bit millionths, ids are numbers with their names beside the frame. Sums are
//! taken in 128 bits ([`sum`] casts), because sums of 64-bit columns wrap silently.

use super::fees::Fees;
use super::labour::Labour;
use super::lines::Lines;
use super::materials::Materials;
use super::overheads::Overheads;
use super::revenue::Revenue;
use crate::ids::{Design, Id, IdVec, Names, Order, Theme};
use crate::quantity::{Period, TooLarge, ratio};
use crate::shop::Shop;
use polars::prelude::*;

/// Column names of the facts, and what they hold.
pub mod column {
    /// The order, by number.
    pub const ORDER: &str = "order";
    /// Hand-over day.
    pub const DAY: &str = "date";
    /// The line's row in orders.csv.
    pub const LINE_ROW: &str = "line_row";
    /// 0 cookie, 1 delivery, 2 kept deposit.
    pub const KIND: &str = "kind";
    /// The design, by number.
    pub const DESIGN: &str = "design";
    /// The design's tier, by number.
    pub const TIER: &str = "tier";
    /// The theme, by number.
    pub const THEME: &str = "theme";
    /// The channel, by number.
    pub const CHANNEL: &str = "channel";
    /// Colours of the order.
    pub const COLOURS: &str = "colours";
    /// Month of hand-over, twelve times the year plus the month from nil.
    pub const MONTH: &str = "month";
    /// Pieces in the whole order.
    pub const ORDER_PIECES: &str = "order_pieces";
    /// Pieces sold.
    pub const PIECES: &str = "pieces";
    /// Pieces of orders priced by the set.
    pub const SET_PRICED_PIECES: &str = "set_priced_pieces";
    /// Pieces × list price; the amount itself on delivery lines and kept deposits.
    pub const LIST_VALUE: &str = "list_value";
    /// Share of the set price's difference.
    pub const SET_DIFFERENCE: &str = "set_difference";
    /// Share of rush charges.
    pub const RUSH: &str = "rush";
    /// Share of discounts.
    pub const DISCOUNT: &str = "discount";
    /// Share of refunds.
    pub const REFUND: &str = "refund";
    /// Share of tips that count.
    pub const TIPS: &str = "tips";
    /// What the line brought in.
    pub const REVENUE: &str = "revenue";
    /// Ingredients.
    pub const INGREDIENTS: &str = "ingredients";
    /// Packaging.
    pub const PACKAGING: &str = "packaging";
    /// Ingredients the order takes whatever is in it.
    pub const ORDER_INGREDIENTS: &str = "order_ingredients";
    /// Packaging the order takes whatever is in it.
    pub const ORDER_PACKAGING: &str = "order_packaging";
    /// Fees.
    pub const FEES: &str = "fees";
    /// The percentage part of the fees.
    pub const PERCENT_FEES: &str = "percent_fees";
    /// The percentage on the list value alone.
    pub const LIST_FEES: &str = "list_fees";
    /// Helper pay.
    pub const HELPER_PAY: &str = "helper_pay";
    /// Helper pay in stages one more piece takes.
    pub const PIECE_HELPER_PAY: &str = "piece_helper_pay";
    /// Overhead.
    pub const OVERHEAD: &str = "overhead";
    /// The owner's minutes.
    pub const OWNER_MINUTES: &str = "owner_minutes";
    /// Helpers' minutes.
    pub const HELPER_MINUTES: &str = "helper_minutes";
    /// The owner's minutes in stages one more piece takes.
    pub const PIECE_MINUTES: &str = "piece_minutes";
    /// Revenue less out-of-pocket cost.
    pub const OWNER_PAY: &str = "owner_pay";
    /// Whether the hours of its order are known.
    pub const KNOWN: &str = "hours_known";
    /// Whether something it takes has no price.
    pub const INCOMPLETE: &str = "incomplete";
    /// Minutes by level: entries naming the design, naming orders, naming neither.
    pub const LEVELS: [&str; 3] = ["minutes_naming_design", "minutes_naming_order", "minutes_naming_neither"];
    /// Before a stage's name: its minutes. With no name: those of work without a stage.
    pub const STAGE: &str = "stage:";
}

/// The facts of a shop, all of its logs.
#[derive(Debug, Clone)]
pub struct Facts {
    frame: DataFrame,
    /// Themes by number: those written on rows, then those of designs.
    pub themes: Names<Theme>,
}

impl Facts {
    /// Puts the columns together.
    ///
    /// # Errors
    /// [`TooLarge`] where a sum does not fit.
    pub fn of(shop: &Shop, lines: &Lines, parts: &Parts<'_>) -> Result<Self, TooLarge> {
        let Parts { revenue, fees, materials, labour, overheads } = parts;
        let mut themes = shop.orders.themes.clone();
        let design_themes = design_themes(shop, &mut themes);
        let of_span = |line: usize| &lines.spans[lines.span[line]];
        let head = |line: usize| shop.orders.head(of_span(line).order);
        let order_pieces: Vec<i64> = lines.spans.iter().map(|span| lines.pieces[span.cookies.clone()].iter().sum()).collect();
        let mut set_priced = IdVec::<Order, bool>::filled(false, shop.orders.ids.len());
        for row in 0..shop.orders.rows() {
            set_priced[shop.orders.order[row]] |= shop.orders.kind[row] == crate::shop::orders::Kind::Set;
        }
        let mut all_fees = lines.nil();
        let mut owner_pay = lines.nil();
        for line in 0..lines.len() {
            all_fees[line] = ratio::narrow(i128::from(fees.percent[line]) + i128::from(fees.fixed[line]))?;
            let cost =
                [materials.ingredients[line], materials.packaging[line], all_fees[line], labour.helper_pay[line], overheads.overhead[line]];
            owner_pay[line] = ratio::narrow(i128::from(revenue.revenue[line]) - cost.iter().map(|cost| i128::from(*cost)).sum::<i128>())?;
        }
        let each = |value: &dyn Fn(usize) -> i64| (0..lines.len()).map(value).collect::<Vec<i64>>();
        let number = |value: &dyn Fn(usize) -> Option<u32>| (0..lines.len()).map(value).collect::<Vec<Option<u32>>>();
        let design = |line: usize| lines.design[line];
        let theme = |line: usize| {
            let own = shop.orders.theme[lines.row[line]];
            own.or_else(|| design_themes[lines.design[line]?])
        };
        let mut columns = vec![
            Column::new(column::ORDER.into(), number(&|line| Some(of_span(line).order.number()))),
            Column::new(column::DAY.into(), (0..lines.len()).map(|line| lines.day(line).0).collect::<Vec<i32>>()),
            Column::new(column::LINE_ROW.into(), number(&|line| Some(shop.orders.place[lines.row[line]].row))),
            Column::new(column::KIND.into(), number(&|line| Some(lines.kind[line] as u32))),
            Column::new(column::DESIGN.into(), number(&|line| design(line).map(Id::number))),
            Column::new(column::TIER.into(), number(&|line| shop.designs.tier[design(line)?].map(Id::number))),
            Column::new(column::THEME.into(), number(&|line| theme(line).map(Id::number))),
            Column::new(column::CHANNEL.into(), number(&|line| head(line).channel.map(Id::number))),
            Column::new(column::COLOURS.into(), number(&|line| head(line).colours.and_then(|colours| u32::try_from(colours).ok()))),
            Column::new(column::MONTH.into(), (0..lines.len()).map(|line| lines.day(line).month().0).collect::<Vec<i32>>()),
            Column::new(column::ORDER_PIECES.into(), each(&|line| order_pieces[lines.span[line]])),
            Column::new(column::PIECES.into(), lines.pieces.as_slice()),
            Column::new(
                column::SET_PRICED_PIECES.into(),
                each(&|line| if set_priced[of_span(line).order] { lines.pieces[line] } else { 0 }),
            ),
            Column::new(column::LIST_VALUE.into(), lines.listed.as_slice()),
            Column::new(column::SET_DIFFERENCE.into(), revenue.set_difference.as_slice()),
            Column::new(column::RUSH.into(), revenue.rush.as_slice()),
            Column::new(column::DISCOUNT.into(), revenue.discount.as_slice()),
            Column::new(column::REFUND.into(), revenue.refund.as_slice()),
            Column::new(column::TIPS.into(), revenue.tips.as_slice()),
            Column::new(column::REVENUE.into(), revenue.revenue.as_slice()),
            Column::new(column::INGREDIENTS.into(), materials.ingredients.as_slice()),
            Column::new(column::PACKAGING.into(), materials.packaging.as_slice()),
            Column::new(column::ORDER_INGREDIENTS.into(), materials.order_ingredients.as_slice()),
            Column::new(column::ORDER_PACKAGING.into(), materials.order_packaging.as_slice()),
            Column::new(column::FEES.into(), all_fees),
            Column::new(column::PERCENT_FEES.into(), fees.percent.as_slice()),
            Column::new(column::LIST_FEES.into(), fees.on_list.as_slice()),
            Column::new(column::HELPER_PAY.into(), labour.helper_pay.as_slice()),
            Column::new(column::PIECE_HELPER_PAY.into(), labour.piece_helper_pay.as_slice()),
            Column::new(column::OVERHEAD.into(), overheads.overhead.as_slice()),
            Column::new(column::OWNER_MINUTES.into(), labour.owner_minutes.as_slice()),
            Column::new(column::HELPER_MINUTES.into(), labour.helper_minutes.as_slice()),
            Column::new(column::PIECE_MINUTES.into(), labour.piece_minutes.as_slice()),
            Column::new(column::OWNER_PAY.into(), owner_pay),
            Column::new(column::KNOWN.into(), labour.known.as_slice()),
            Column::new(column::INCOMPLETE.into(), materials.incomplete.as_slice()),
        ];
        columns.extend(column::LEVELS.iter().zip(&labour.by_level).map(|(name, minutes)| Column::new((*name).into(), minutes.as_slice())));
        columns.extend(labour.by_stage.iter().map(|(stage, minutes)| {
            let stage = stage.map_or("", |stage| shop.hours.stages.text(stage));
            Column::new(format!("{}{stage}", column::STAGE).into(), minutes.as_slice())
        }));
        let frame = DataFrame::new(lines.len(), columns).map_err(|_| TooLarge)?;
        Ok(Self { frame, themes })
    }

    /// The frame, for group-bys.
    #[must_use]
    pub fn frame(&self) -> &DataFrame {
        &self.frame
    }

    /// The facts of a period, by hand-over date.
    ///
    /// # Errors
    /// Where polars fails.
    pub fn within(&self, period: Period) -> PolarsResult<Self> {
        let mut frame = self.frame.clone().lazy();
        if let Some(from) = period.from {
            frame = frame.filter(col(column::DAY).gt_eq(lit(from.0)));
        }
        if let Some(to) = period.to {
            frame = frame.filter(col(column::DAY).lt_eq(lit(to.0)));
        }
        Ok(Self { frame: frame.collect()?, themes: self.themes.clone() })
    }

    /// Names of the columns that hold minutes of a stage.
    pub fn stage_columns(&self) -> impl Iterator<Item = &str> {
        self.frame.get_column_names().into_iter().map(PlSmallStr::as_str).filter(|name| name.starts_with(column::STAGE))
    }
}

/// The costed columns that facts are put together from.
pub struct Parts<'a> {
    /// What lines brought in.
    pub revenue: &'a Revenue,
    /// Fees.
    pub fees: &'a Fees,
    /// Materials.
    pub materials: &'a Materials,
    /// Hours.
    pub labour: &'a Labour,
    /// Overheads.
    pub overheads: &'a Overheads,
}

/// The sum of a 64-bit column in 128 bits.
pub fn sum(name: &str) -> Expr {
    col(name).cast(DataType::Int128).sum()
}

/// The designs' own themes, added to those of rows.
fn design_themes(shop: &Shop, themes: &mut Names<Theme>) -> IdVec<Design, Option<Id<Theme>>> {
    shop.designs.theme.iter().map(|theme| theme.as_ref().map(|theme| themes.intern(theme))).collect()
}
