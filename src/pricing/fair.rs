//! Fair prices: what a piece of each design must bring for the target wage, from present ingredient prices, learned
//! minutes and the season's own rates.
//!
//! A piece carries its own materials and minutes; its even part of a typical order's set-up, colours, box and fixed fees;
//! overhead and helper pay at the season's rate a minute of work; and, on a line of its own, what no order explains, in
//! proportion to its minutes. Rates are the season's sums over its cookie lines, so that over the season's pieces all of it
//! adds up to what was logged.

use super::at_prices::list_in_force;
use super::change::Times;
use super::lines::{self, Kind, Line};
use super::order_size::WholeOrder;
pub use super::piece::Piece;
use super::piece::materials;
use super::raise::Share;
use super::work::{Pace, Work, draws, real};
use crate::costing::Costed;
use crate::costing::minutes_each::MinutesFrom;
use crate::costing::unassigned::Unassigned;
use crate::ids::{Design, Id, IdVec};
use crate::minutes::Draw;
use crate::quantity::millionths::{MILLION, Minutes, Money};
use crate::quantity::ratio::multiply_divide;
use crate::quantity::{Day, Period, TooLarge};
use crate::shop::Shop;

/// What a season was like, and what a piece takes by it.
#[derive(Debug, Clone)]
pub struct Season {
    /// The season.
    pub period: Period,
    /// Orders handed over in it with known hours.
    pub orders: i64,
    /// Pieces of those orders.
    pub pieces: i64,
    /// Pieces of each design sold in it, hours known or not.
    pub sold: IdVec<Design, i64>,
    /// Each design's list price today; else the mean charged, else none.
    pub old_price: IdVec<Design, Option<Money>>,
    /// What of an amount on the list comes in: less discounts, refunds, set prices, pieces given away.
    pub comes_in: Times,
    /// What of it is left after the percentage fees, too.
    pub kept: Times,
    /// The rates of an hour's work.
    pub rates: Rates,
    /// What an order takes whatever is in it: its box and fixed fees, of the mean order.
    pub order_cost: Money,
    /// Its work.
    pub work: Work,
    /// What it comes to by the mean of the learned minutes.
    pub pace: Pace,
    /// Learned minutes: the mean, and the draws.
    pub mean: Draw,
    /// None where nothing was learned.
    pub draws: Vec<(Draw, Pace)>,
    /// Where minutes a piece came from.
    pub minutes_from: MinutesFrom,
    /// Whether designs timed on their own tell them apart, where nothing else does.
    pub timed_apart: bool,
    /// Own materials of a piece of each design at the prices in force.
    pub materials: IdVec<Design, Money>,
    /// Icing colours of the mean order.
    pub colours: f64,
}

/// What goes with every minute of work, as sums over the season's cookie lines with known hours.
#[derive(Debug, Clone, Copy, Default)]
pub struct Rates {
    /// All of the work.
    pub hands_on: Minutes,
    /// The owner's part of it.
    pub owner: Minutes,
    /// What helpers were paid.
    pub helper_pay: Money,
    /// Overhead.
    pub overhead: Money,
    /// What no order explains; nothing where it is left out.
    pub unassigned: Unassigned,
}

impl Season {
    /// Of a period; `present` is the shop costed at present prices, and `day` the one whose list is today's. Without `unassigned`
    /// hours and costs that no order explains are left out of it.
    ///
    /// # Errors
    /// Where polars fails or a figure does not fit.
    pub fn of(shop: &Shop, present: &Costed, period: Period, unassigned: bool, day: Day) -> Result<Self, String> {
        let facts = present.facts.within(period).map_err(|error| error.to_string())?;
        let lines = lines::read(shop, &facts).map_err(|error| error.to_string())?;
        Self::of_lines(shop, present, period, unassigned, day, &lines).map_err(|error| error.to_string())
    }

    fn of_lines(
        shop: &Shop,
        present: &Costed,
        period: Period,
        unassigned: bool,
        day: Day,
        lines: &[(Line, lines::Stages)],
    ) -> Result<Self, TooLarge> {
        let work = Work::of(shop, present, lines);
        let (mean, of_draws) = draws(shop, present);
        let mut rates =
            Rates { unassigned: if unassigned { present.unassigned.within(period) } else { Unassigned::default() }, ..Rates::default() };
        let (mut order_costs, mut pieces) = (0, 0);
        let mut sold = IdVec::filled(0_i64, shop.designs.names.len());
        let (mut revenue, mut percent_fees) = (0, 0);
        let cookies = || lines.iter().map(|(line, _)| line).filter(|line| line.kind == Kind::Cookie);
        for line in cookies() {
            revenue += line.revenue.0;
            percent_fees += line.percent_fees.0;
            if let Some(design) = line.design {
                sold[design] += i64::try_from(line.pieces / MILLION).unwrap_or(i64::MAX);
            }
            if line.known {
                pieces += line.pieces / MILLION;
                rates.hands_on += line.hands_on();
                rates.owner += line.owner_minutes;
                rates.helper_pay += line.helper_pay;
                rates.overhead += line.overhead;
                order_costs += line.order_materials.0 + line.fixed_fees.0;
            }
        }
        let list = list_in_force(shop, lines);
        let each = |design: Id<Design>, day: Day| list(design, day).map(|price| price.times(1)).transpose();
        let old_price = shop.designs.all().map(|design| each(design, day)).collect::<Result<IdVec<Design, Option<Money>>, _>>()?;
        let mut listed = 0;
        for line in cookies() {
            let price = line.design.map_or(Ok(None), |design| each(design, line.day))?.unwrap_or_default();
            listed += multiply_divide(price.0, line.pieces, MILLION)?;
        }
        let orders = real_count(work.orders);
        let materials = materials(shop, present, lines)?;
        let paces = of_draws.into_iter().map(|draw| {
            let pace = work.pace(&draw);
            (draw, pace)
        });
        Ok(Self {
            period,
            orders,
            pieces: i64::try_from(pieces).map_err(|_| TooLarge)?,
            sold,
            old_price,
            comes_in: Times { numerator: revenue, divisor: listed.max(1) },
            kept: Times { numerator: revenue - percent_fees, divisor: listed.max(1) },
            rates,
            order_cost: Money(if orders > 0 { multiply_divide(order_costs, 1, orders.into())? } else { 0 }),
            pace: work.pace(&mean),
            draws: paces.collect(),
            colours: if work.orders > 0.0 { work.colours / work.orders } else { 0.0 },
            work,
            mean,
            minutes_from: present.minutes_from,
            timed_apart: present.minutes_from == MinutesFrom::Equal && !super::work::timed(shop).is_empty(),
            materials,
        })
    }

    /// Whether hours tell what an hour pays.
    #[must_use]
    pub fn has_hours(&self) -> bool {
        self.rates.owner > Minutes::ZERO
    }

    /// Whether materials of a design are known to cost anything.
    #[must_use]
    pub fn has_materials(&self, design: Id<Design>) -> bool {
        self.materials[design] > Money::ZERO
    }

    /// Pieces of the mean order, in millionths.
    #[must_use]
    pub fn mean_pieces(&self) -> i128 {
        multiply_divide(self.pieces.into(), MILLION, self.orders.into()).unwrap_or_default()
    }

    /// Overhead of an hour of work.
    #[must_use]
    pub fn overhead_an_hour(&self) -> Option<Money> {
        self.rates.overhead.an_hour(self.rates.hands_on)
    }

    /// The share of the work that helpers do.
    #[must_use]
    pub fn helped(&self) -> Share {
        let Rates { hands_on, owner, .. } = self.rates;
        Money(multiply_divide((hands_on - owner).0, MILLION, hands_on.0).unwrap_or_default())
    }

    /// What a piece of a design takes, by the mean of the learned minutes.
    ///
    /// # Errors
    /// [`TooLarge`] where a figure does not fit.
    pub fn piece(&self, design: Id<Design>) -> Result<Piece, TooLarge> {
        let own = self.work.of_piece(&self.pace, &self.mean, design);
        let piece = self.part(own, self.work.of_order(&self.pace))?;
        let of_order = if self.pieces > 0 { multiply_divide(self.order_cost.0, self.orders.into(), self.pieces.into())? } else { 0 };
        Ok(Piece { materials: self.materials[design], of_order: Money(of_order), ..piece })
    }

    /// What a piece takes of itself alone, in an order already running.
    ///
    /// # Errors
    /// [`TooLarge`] where a figure does not fit.
    pub fn own_piece(&self, design: Id<Design>) -> Result<Piece, TooLarge> {
        let own = self.part(self.work.of_piece(&self.pace, &self.mean, design), 0.0)?;
        Ok(Piece { materials: self.materials[design], ..own })
    }

    /// What an order takes whatever its pieces are, with so many colours.
    ///
    /// # Errors
    /// [`TooLarge`] where a figure does not fit.
    pub fn whole_order(&self, colours: f64) -> Result<WholeOrder, TooLarge> {
        let set_up = self.part(0.0, Work::of_set_up(&self.pace, colours))?;
        Ok(WholeOrder { cost: self.order_cost + set_up.cost(), minutes: set_up.minutes() })
    }

    /// What is left of a charge after percentage fees.
    #[must_use]
    pub fn after_fees(&self) -> Times {
        let whole = self.comes_in.numerator;
        if whole > 0 { Times { numerator: self.kept.numerator, divisor: whole } } else { Times::ONE }
    }

    /// What so many minutes of work, on pieces and on set-up, carry with them.
    ///
    /// # Errors
    /// [`TooLarge`] where a figure does not fit.
    pub fn part(&self, own: f64, set_up: f64) -> Result<Piece, TooLarge> {
        let exact = |minutes: f64| Minutes::from_estimate(minutes).ok_or(TooLarge);
        let (own, set_up) = (exact(own)?, exact(set_up)?);
        let all = (own + set_up).0;
        let Rates { hands_on, owner, helper_pay, overhead, unassigned } = self.rates;
        let share = |total: i128, of: i128| if hands_on.0 > 0 { multiply_divide(total, of, hands_on.0) } else { Ok(0) };
        Ok(Piece {
            helper_pay: Money(share(helper_pay.0, all)?),
            overhead: Money(share(overhead.0, all)?),
            unassigned: Money(share(unassigned.cost().0, all)?),
            own_minutes: Minutes(share(owner.0, own.0)?),
            set_up_minutes: Minutes(share(owner.0, set_up.0)?),
            unassigned_minutes: Minutes(share(unassigned.owner_minutes.0, all)?),
            ..Piece::default()
        })
    }

    /// In each draw, what a piece takes: cost and the owner's minutes, in main units and minutes.
    #[must_use]
    pub fn in_each_draw(&self, design: Id<Design>, piece: &Piece) -> Vec<(f64, f64)> {
        let fixed = real((piece.materials + piece.of_order).0) / 1e6;
        self.draws
            .iter()
            .map(|(draw, pace)| {
                let minutes = self.work.of_piece(pace, draw, design) + self.work.of_order(pace);
                let (cost, time) = self.carried(minutes);
                (fixed + cost, time)
            })
            .collect()
    }

    /// What minutes of work carry with them, as [`Season::part`] in floats: cost in main units and the owner's minutes.
    #[must_use]
    pub fn carried(&self, minutes: f64) -> (f64, f64) {
        let Rates { hands_on, owner, helper_pay, overhead, unassigned } = self.rates;
        let share = |total: i128| if hands_on.0 > 0 { real(total) / real(hands_on.0) * minutes } else { 0.0 };
        let cost = share(helper_pay.0 + overhead.0 + unassigned.cost().0);
        (cost, share(owner.0 + unassigned.owner_minutes.0))
    }

    /// What is kept of a list price, in main units.
    #[must_use]
    pub fn kept_of(&self, price: Money) -> f64 {
        real(price.0) / 1e6 * real(self.kept.numerator) / real(self.kept.divisor)
    }
}

/// A count as a whole number.
#[expect(clippy::cast_possible_truncation, reason = "a count of orders")]
fn real_count(count: f64) -> i64 {
    count.round() as i64
}
