//! The facts of a period, line by line, in the parts that pricing changes: whole numbers of millionths.

use crate::costing::column;
use crate::costing::facts::{Facts, Figure, Figures};
use crate::costing::lines::LineKind;
use crate::ids::{Design, Id, Order, Tier};
use crate::quantity::millionths::{MILLION, Minutes, Money};
use crate::quantity::ratio::multiply_divide;
use crate::quantity::{Day, TooLarge};
use crate::shop::Shop;
use crate::shop::settings::SharedBy;
use polars::prelude::*;

use crate::quantity::Factor;

/// One line's figures. Money and minutes in millionths.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Line {
    /// Its order.
    pub order: Id<Order>,
    /// Its hand-over day.
    pub day: Day,
    /// What it is.
    pub kind: LineKind,
    /// Its design.
    pub design: Option<Id<Design>>,
    /// The design's tier.
    pub tier: Option<Id<Tier>>,
    /// Whether the hours of its order are known.
    pub known: bool,
    /// Its row in orders.csv.
    pub row: u32,
    /// Pieces sold, in millionths: fewer pieces need not be whole.
    pub pieces: i128,
    /// What was charged for it: its own price, or its part of the set's.
    pub charged: Money,
    /// What it brought in.
    pub revenue: Money,
    /// Ingredients and packaging.
    pub materials: Money,
    /// What of them its order takes whatever is in it.
    pub order_materials: Money,
    /// The percentage part of fees.
    pub percent_fees: Money,
    /// The fixed part.
    pub fixed_fees: Money,
    /// Helper pay.
    pub helper_pay: Money,
    /// What of it one more piece takes.
    pub piece_helper_pay: Money,
    /// Overhead.
    pub overhead: Money,
    /// The owner's minutes.
    pub owner_minutes: Minutes,
    /// Helpers' minutes.
    pub helper_minutes: Minutes,
    /// What of the owner's the pieces themselves take: decorating, rolling, mixing; not set-up or colours.
    pub variable_minutes: Minutes,
}

impl Line {
    /// Revenue less out-of-pocket cost.
    #[must_use]
    pub fn owner_pay(&self) -> Money {
        Money(self.revenue.0 - self.materials.0 - self.percent_fees.0 - self.fixed_fees.0 - self.helper_pay.0 - self.overhead.0)
    }

    /// As figures to add up: pieces (in millionths, unlike the facts' whole ones), revenue, fees, helper pay, overhead, minutes and the
    /// owner's pay. Materials are left out: ingredients and packaging are one sum here.
    #[must_use]
    pub fn figures(&self) -> Figures {
        let mut figures = Figures::default();
        figures[Figure::Pieces] = self.pieces;
        figures[Figure::Revenue] = self.revenue.0;
        figures[Figure::Fees] = (self.percent_fees + self.fixed_fees).0;
        figures[Figure::PercentFees] = self.percent_fees.0;
        figures[Figure::HelperPay] = self.helper_pay.0;
        figures[Figure::Overhead] = self.overhead.0;
        figures[Figure::OwnerMinutes] = self.owner_minutes.0;
        figures[Figure::HelperMinutes] = self.helper_minutes.0;
        figures[Figure::OwnerPay] = self.owner_pay().0;
        figures
    }

    /// With some of its pieces gone from an order that still runs: set-up, what the order takes and overhead stay.
    ///
    /// # Errors
    /// [`TooLarge`] where a figure does not fit.
    pub(crate) fn with_fewer_pieces(&self, left: Factor) -> Result<Self, TooLarge> {
        let of = |money: Money| left.of(money.0).map(Money);
        Ok(Self {
            pieces: left.of(self.pieces)?,
            charged: of(self.charged)?,
            revenue: of(self.revenue)?,
            materials: self.order_materials + of(self.materials - self.order_materials)?,
            percent_fees: of(self.percent_fees)?,
            helper_pay: self.helper_pay - self.piece_helper_pay + of(self.piece_helper_pay)?,
            piece_helper_pay: of(self.piece_helper_pay)?,
            owner_minutes: self.owner_minutes - self.variable_minutes + Minutes(left.of(self.variable_minutes.0)?),
            variable_minutes: Minutes(left.of(self.variable_minutes.0)?),
            ..*self
        })
    }

    /// With some of such orders gone altogether: only overhead stays.
    ///
    /// # Errors
    /// [`TooLarge`] where a figure does not fit.
    pub(crate) fn with_fewer_orders(&self, left: Factor) -> Result<Self, TooLarge> {
        let of = |money: Money| left.of(money.0).map(Money);
        let time = |minutes: Minutes| left.of(minutes.0).map(Minutes);
        Ok(Self {
            pieces: left.of(self.pieces)?,
            charged: of(self.charged)?,
            revenue: of(self.revenue)?,
            materials: of(self.materials)?,
            order_materials: of(self.order_materials)?,
            percent_fees: of(self.percent_fees)?,
            fixed_fees: of(self.fixed_fees)?,
            helper_pay: of(self.helper_pay)?,
            piece_helper_pay: of(self.piece_helper_pay)?,
            owner_minutes: time(self.owner_minutes)?,
            helper_minutes: time(self.helper_minutes)?,
            variable_minutes: time(self.variable_minutes)?,
            ..*self
        })
    }
}

/// Minutes of one line by how their stage is shared, the owner's and helpers' together.
#[derive(Debug, Clone, Copy, Default, PartialEq, Eq)]
pub struct Stages {
    /// Work without a stage.
    pub whole: i128,
    /// Decorating, and what else is shared by minutes.
    pub minutes: i128,
    /// Rolling, baking, packing.
    pub pieces: i128,
    /// Mixing, icing, shopping.
    pub weight: i128,
    /// Tinting.
    pub colours: i128,
    /// Planning, admin, bringing.
    pub orders: i128,
}

/// The lines of facts, with their minutes by kind of work.
///
/// # Errors
/// Where polars fails.
pub fn read(shop: &Shop, facts: &Facts) -> PolarsResult<Vec<(Line, Stages)>> {
    let figure = |figure: Figure| -> PolarsResult<Vec<i128>> { Ok(facts.figure(figure)?.into_iter().map(i128::from).collect()) };
    let mut stages = vec![Stages::default(); facts.lines()];
    for stage in facts.stages() {
        for (stages, minutes) in stages.iter_mut().zip(facts.values(&column::minutes_in(*stage))?) {
            *match shop.hours.shared_by(*stage) {
                _ if stage.is_none() => &mut stages.whole,
                SharedBy::Minutes | SharedBy::Unattended => &mut stages.minutes,
                SharedBy::Pieces => &mut stages.pieces,
                SharedBy::Weight => &mut stages.weight,
                SharedBy::Colours => &mut stages.colours,
                SharedBy::Orders | SharedBy::Delivery => &mut stages.orders,
            } += i128::from(minutes);
        }
    }
    let (orders, kinds) = (facts.values(&column::ORDER)?, facts.values(&column::KIND)?);
    let (designs, tiers) = (facts.values(&column::DESIGN)?, facts.values(&column::TIER)?);
    let (rows, known, days) = (facts.values(&column::LINE_ROW)?, facts.values(&column::KNOWN)?, facts.values(&column::DAY)?);
    let (pieces, revenue) = (figure(Figure::Pieces)?, figure(Figure::Revenue)?);
    let (listed, set_difference) = (figure(Figure::ListValue)?, figure(Figure::SetDifference)?);
    let (ingredients, packaging) = (figure(Figure::Ingredients)?, figure(Figure::Packaging)?);
    let (order_ingredients, order_packaging) = (figure(Figure::OrderIngredients)?, figure(Figure::OrderPackaging)?);
    let (fees, percent_fees) = (figure(Figure::Fees)?, figure(Figure::PercentFees)?);
    let (helper_pay, piece_helper_pay) = (figure(Figure::HelperPay)?, figure(Figure::PieceHelperPay)?);
    let (overhead, own) = (figure(Figure::Overhead)?, figure(Figure::PieceMinutes)?);
    let (owner, helper) = (figure(Figure::OwnerMinutes)?, figure(Figure::HelperMinutes)?);
    Ok((0..facts.lines())
        .map(|at| {
            // Stages do not say whose minutes they are: the owner's part of mixing is that of all the line's minutes.
            let mixed = multiply_divide(stages[at].weight, owner[at], owner[at] + helper[at]).unwrap_or_default();
            let line = Line {
                day: days[at],
                order: orders[at],
                kind: kinds[at],
                design: designs[at],
                tier: tiers[at],
                known: known[at],
                row: rows[at],
                pieces: pieces[at] * MILLION,
                charged: Money(listed[at] + set_difference[at]),
                revenue: Money(revenue[at]),
                materials: Money(ingredients[at] + packaging[at]),
                order_materials: Money(order_ingredients[at] + order_packaging[at]),
                percent_fees: Money(percent_fees[at]),
                fixed_fees: Money(fees[at] - percent_fees[at]),
                helper_pay: Money(helper_pay[at]),
                piece_helper_pay: Money(piece_helper_pay[at]),
                overhead: Money(overhead[at]),
                owner_minutes: Minutes(owner[at]),
                helper_minutes: Minutes(helper[at]),
                variable_minutes: Minutes((own[at] + mixed).min(owner[at])),
            };
            (line, stages[at])
        })
        .collect())
}
