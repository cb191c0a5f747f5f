//! The one cost model: what a piece and an order cost and how long they take, at present prices, by the reference season.
//!
//! Fair prices, the next list, quotes, the smallest order worth its set-up, what-ifs and the review's advice all ask it, so that
//! one question has one answer. A purchase becomes a cent on a cookie in four steps: its item's present landed price
//! ([`at_prices`](super::at_prices)) times the recipe is a piece's own [`materials`](Season::materials); [`Season::piece`] adds
//! the piece's work and its part of an order's set-up, box and fees, at the season's [`Rates`]; [`Piece::needs`] pays its time at a wage; and
//! [`Season::fair_list_price`] asks for so much that this is left of it after discounts and percentage fees.
//!
//! Rates are the season's sums over its cookie lines with known hours, so that over the season's pieces all of it adds up to
//! what was logged.

use super::change::Times;
use super::lines::{Kind, Line, Stages};
use super::raise::Share;
use super::work::{Pace, Work};
use crate::costing::Costed;
use crate::costing::minutes_each::MinutesFrom;
use crate::costing::unassigned::Unassigned;
use crate::ids::{Design, Id, IdVec};
use crate::minutes::Draw;
use crate::quantity::millionths::{MILLION, Minutes, Money};
use crate::quantity::ratio::{multiply_divide, narrow};
use crate::quantity::{Day, Percent, Period, TooLarge};
use crate::shop::Shop;

/// What one piece costs and takes; a sum over pieces, too.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub struct Piece {
    /// Its own materials, spares included.
    pub materials: Money,
    /// Its part of the order's box and fixed fees.
    pub of_order: Money,
    /// Helpers' part of its work.
    pub helper_pay: Money,
    /// Overhead.
    pub overhead: Money,
    /// Unassigned costs.
    pub unassigned: Money,
    /// The owner's minutes on the piece itself.
    pub own_minutes: Minutes,
    /// The owner's minutes of its part of set-up and colours.
    pub set_up_minutes: Minutes,
    /// Unassigned minutes.
    pub unassigned_minutes: Minutes,
}

impl Piece {
    /// Everything but the owner's time and percentage fees.
    #[must_use]
    pub fn cost(&self) -> Money {
        self.materials + self.of_order + self.helper_pay + self.overhead + self.unassigned
    }

    /// The owner's time.
    #[must_use]
    pub fn minutes(&self) -> Minutes {
        self.own_minutes + self.set_up_minutes + self.unassigned_minutes
    }

    /// What must be left of its price, discounts and percentage fees taken off, for a wage an hour.
    ///
    /// # Errors
    /// [`TooLarge`] where it does not fit.
    pub fn needs(&self, wage: Money) -> Result<Money, TooLarge> {
        Ok(self.cost() + wage.per_hour_for(self.minutes())?)
    }

    /// What an hour on it pays at a list price of which so much is kept; `None` where it takes no time.
    #[must_use]
    pub fn wage(&self, price: Money, kept: Times) -> Option<Money> {
        (Money(kept.of(price.0).ok()?) - self.cost()).an_hour(self.minutes())
    }

    /// The sum of so many of each piece.
    ///
    /// # Errors
    /// [`TooLarge`] where it does not fit.
    pub fn sum(pieces: impl Iterator<Item = (Self, i64)>) -> Result<Self, TooLarge> {
        let mut sum = Self::default();
        for (piece, count) in pieces {
            let piece = piece.map(|part| part.checked_mul(count.into()).ok_or(TooLarge))?;
            sum = Self {
                materials: sum.materials + piece.materials,
                of_order: sum.of_order + piece.of_order,
                helper_pay: sum.helper_pay + piece.helper_pay,
                overhead: sum.overhead + piece.overhead,
                unassigned: sum.unassigned + piece.unassigned,
                own_minutes: sum.own_minutes + piece.own_minutes,
                set_up_minutes: sum.set_up_minutes + piece.set_up_minutes,
                unassigned_minutes: sum.unassigned_minutes + piece.unassigned_minutes,
            };
        }
        Ok(sum)
    }

    /// One of so many pieces that this is the sum of.
    ///
    /// # Errors
    /// [`TooLarge`] where there are none.
    pub fn each_of(self, pieces: i64) -> Result<Self, TooLarge> {
        self.map(|part| multiply_divide(part, 1, pieces.into()))
    }

    fn map(self, of: impl Fn(i128) -> Result<i128, TooLarge>) -> Result<Self, TooLarge> {
        Ok(Self {
            materials: Money(of(self.materials.0)?),
            of_order: Money(of(self.of_order.0)?),
            helper_pay: Money(of(self.helper_pay.0)?),
            overhead: Money(of(self.overhead.0)?),
            unassigned: Money(of(self.unassigned.0)?),
            own_minutes: Minutes(of(self.own_minutes.0)?),
            set_up_minutes: Minutes(of(self.set_up_minutes.0)?),
            unassigned_minutes: Minutes(of(self.unassigned_minutes.0)?),
        })
    }
}

/// What one order costs whatever is in it.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub struct WholeOrder {
    /// F: its box, the fixed fee, helpers' set-up work, its part of overhead and of unassigned costs.
    pub cost: Money,
    /// S: the owner's set-up time: planning, colours, messages.
    pub minutes: Minutes,
}

/// Some pieces, as they are usually mixed: figures are of all of them together.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub struct Mix {
    /// How many.
    pub pieces: i64,
    /// p(1 − f): what is kept of their prices.
    pub kept: Money,
    /// c: their own materials, helper pay, overhead and unassigned costs.
    pub cost: Money,
    /// m: the owner's time on them.
    pub minutes: Minutes,
}

/// How large an order must be.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Smallest {
    /// At least so many pieces.
    From {
        /// Whole pieces, rounded up.
        pieces: i64,
        /// How many times the mix, in millionths, rounded half away from zero.
        mixes: i128,
    },
    /// No size is enough: a piece costs as much as it brings, or more.
    Never,
}

impl Smallest {
    /// Whole pieces, where any number is enough.
    #[must_use]
    pub fn pieces(self) -> Option<i64> {
        match self {
            Self::From { pieces, .. } => Some(pieces),
            Self::Never => None,
        }
    }
}

/// The smallest order of a mix that is worth its set-up: (F + w·S) ÷ (p(1 − f) − c − w·m), the break-even of any textbook with the
/// owner's time as a cost (`OpenStax`, *Principles of Accounting 2*, ch. 3.2; for a mix of products ch. 3.4).
///
/// `wage` is per hour; nil asks for the break-even in money alone.
///
/// # Errors
/// [`TooLarge`] where a figure does not fit.
pub fn smallest(order: &WholeOrder, mix: &Mix, wage: Money) -> Result<Smallest, TooLarge> {
    // Money × 60 and minutes × wage are on one scale, so that nothing is rounded before the division.
    let scaled = |money: Money| money.0.checked_mul(60 * MILLION).ok_or(TooLarge);
    let time = |minutes: Minutes| minutes.0.checked_mul(wage.0).ok_or(TooLarge);
    let to_earn = scaled(order.cost)?.checked_add(time(order.minutes)?).ok_or(TooLarge)?;
    let left = scaled(mix.kept - mix.cost)?.checked_sub(time(mix.minutes)?).ok_or(TooLarge)?;
    if mix.pieces <= 0 || left <= 0 {
        return Ok(Smallest::Never);
    }
    let needed = to_earn.max(0).checked_mul(i128::from(mix.pieces)).ok_or(TooLarge)?;
    let pieces = narrow(needed / left + i128::from(needed % left != 0))?;
    Ok(Smallest::From { pieces: pieces.max(1), mixes: multiply_divide(to_earn.max(0), MILLION, left)? })
}

/// The least price at which pieces leave what they need, rounded up to the millionth.
///
/// # Errors
/// [`TooLarge`] where it does not fit, or nothing is kept.
pub fn least_price(needs: i128, pieces: i128, kept: Times) -> Result<Money, TooLarge> {
    let whole = pieces.checked_mul(kept.numerator).filter(|whole| *whole > 0).ok_or(TooLarge)?;
    let needed = needs.checked_mul(kept.divisor).ok_or(TooLarge)?;
    Ok(Money(needed.div_euclid(whole) + i128::from(needed.rem_euclid(whole) != 0)))
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
    /// Unassigned hours and costs; nothing where they are left out.
    pub unassigned: Unassigned,
}

/// The reference season at present prices: what a piece and an order cost by it.
#[derive(Debug, Clone)]
pub struct Season {
    /// Its days.
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
    /// What goes with a minute of work.
    pub rates: Rates,
    /// The box and fixed fees of the mean order.
    pub order_cost: Money,
    /// Its work.
    pub work: Work,
    /// What that comes to by the mean of the learned minutes.
    pub pace: Pace,
    /// The mean of the learned minutes.
    pub mean: Draw,
    /// Posterior draws of the learned minutes; none where nothing was learned.
    pub draws: Vec<(Draw, Pace)>,
    /// Where minutes a piece came from.
    pub minutes_from: MinutesFrom,
    /// Whether designs timed on their own tell them apart, where nothing else does.
    pub timed_apart: bool,
    /// Own materials of a piece of each design at present prices, spares included.
    pub materials: IdVec<Design, Money>,
    /// Icing colours of the mean order.
    pub colours: f64,
}

impl Season {
    /// Whether any hours say what an hour pays.
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

    /// What is left of a charge after percentage fees.
    #[must_use]
    pub fn after_fees(&self) -> Times {
        let whole = self.comes_in.numerator;
        if whole > 0 { Times { numerator: self.kept.numerator, divisor: whole } } else { Times::ONE }
    }

    /// What a piece of a design costs in a typical order, whose set-up, colours, box and fixed fees it bears an even part of.
    ///
    /// # Errors
    /// [`TooLarge`] where a figure does not fit.
    pub fn piece(&self, design: Id<Design>) -> Result<Piece, TooLarge> {
        let work = self.work_of(self.work.of_piece(&self.pace, &self.mean, design), self.work.of_order(&self.pace))?;
        let of_order = if self.pieces > 0 { multiply_divide(self.order_cost.0, self.orders.into(), self.pieces.into())? } else { 0 };
        Ok(Piece { materials: self.materials[design], of_order: Money(of_order), ..work })
    }

    /// What one more piece of a design costs, in an order already running.
    ///
    /// # Errors
    /// [`TooLarge`] where a figure does not fit.
    pub fn own_piece(&self, design: Id<Design>) -> Result<Piece, TooLarge> {
        let work = self.work_of(self.work.of_piece(&self.pace, &self.mean, design), 0.0)?;
        Ok(Piece { materials: self.materials[design], ..work })
    }

    /// What an order's set-up takes with so many colours, box and fixed fees apart.
    ///
    /// # Errors
    /// [`TooLarge`] where a figure does not fit.
    pub fn set_up(&self, colours: f64) -> Result<Piece, TooLarge> {
        self.work_of(0.0, Work::of_set_up(&self.pace, colours))
    }

    /// What one more colour takes.
    ///
    /// # Errors
    /// [`TooLarge`] where a figure does not fit.
    pub fn colour(&self) -> Result<Piece, TooLarge> {
        self.work_of(0.0, self.pace.colour)
    }

    /// What an order costs whatever its pieces are, with so many colours.
    ///
    /// # Errors
    /// [`TooLarge`] where a figure does not fit.
    pub fn whole_order(&self, colours: f64) -> Result<WholeOrder, TooLarge> {
        let set_up = self.set_up(colours)?;
        Ok(WholeOrder { cost: self.order_cost + set_up.cost(), minutes: set_up.minutes() })
    }

    /// What goes with so many minutes of work, on pieces and on set-up: pay, overhead and what is unassigned, in proportion.
    fn work_of(&self, own: f64, set_up: f64) -> Result<Piece, TooLarge> {
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

    /// The list price of a design that pays a wage: what a piece needs, by what is kept of a list price. `None` where nothing is
    /// kept.
    ///
    /// # Errors
    /// [`TooLarge`] where a figure does not fit.
    pub fn fair_list_price(&self, piece: &Piece, wage: Money) -> Result<Option<Money>, TooLarge> {
        if self.kept.numerator <= 0 {
            return Ok(None);
        }
        least_price(piece.needs(wage)?.0, 1, self.kept).map(Some)
    }

    /// The season's pieces as one mix, at some list prices; those without a price are left out.
    ///
    /// # Errors
    /// [`TooLarge`] where a figure does not fit.
    pub fn mix(&self, list: impl Fn(Id<Design>) -> Option<Money>) -> Result<Mix, TooLarge> {
        let mut mix = Mix::default();
        for (design, sold) in self.sold.pairs().filter(|(_, sold)| **sold > 0) {
            let Some(price) = list(design) else { continue };
            let (own, pieces) = (self.own_piece(design)?, i128::from(*sold));
            mix.pieces += sold;
            mix.kept += Money(self.kept.of(price.0)? * pieces);
            mix.cost += Money(own.cost().0 * pieces);
            mix.minutes += Minutes(own.minutes().0 * pieces);
        }
        Ok(mix)
    }

    /// The smallest order worth its set-up at some list prices, of the season's mix and colours; `None` where nothing was sold at a
    /// price or no hours are known.
    ///
    /// # Errors
    /// [`TooLarge`] where a figure does not fit.
    pub fn smallest_order(&self, list: impl Fn(Id<Design>) -> Option<Money>, target: Money) -> Result<Option<Smallest>, TooLarge> {
        let mix = self.mix(list)?;
        if mix.pieces == 0 || !self.has_hours() {
            return Ok(None);
        }
        smallest(&self.whole_order(self.colours)?, &mix, target).map(Some)
    }
}

/// Own materials of a piece of each design, by its recipe, spares included, at the present prices; times what the season used
/// beyond or below its recipes (remakes, stock counts).
pub(super) fn materials(shop: &Shop, present: &Costed, lines: &[(Line, Stages)]) -> Result<IdVec<Design, Money>, TooLarge> {
    let mut each = IdVec::default();
    let with_spares = |amount: i128| multiply_divide(amount, Percent::WHOLE + i128::from(shop.settings.spares.0), Percent::WHOLE);
    for design in shop.designs.all() {
        if !present.bill.has_rows[design] {
            each.push(Money(with_spares(shop.settings.materials[shop.designs.size[design]].unwrap_or_default().0)?));
            continue;
        }
        let mut sum = 0;
        for (item, amount) in &present.bill.per_piece[design] {
            let last = present.materials.movements[*item].latest(Day(i32::MAX));
            let cost = if last.amount.0 == 0 { 0 } else { multiply_divide(last.cost, amount.0, last.amount.0)? };
            sum += if shop.items.is_packaging(shop.item_names.text(*item)) { cost } else { with_spares(cost)? };
        }
        each.push(Money(sum));
    }
    let (mut used, mut by_recipe) = (0, 0);
    for (line, _) in lines.iter().filter(|(line, _)| line.kind == Kind::Cookie) {
        used += (line.materials - line.order_materials).0;
        by_recipe += line.design.map_or(Ok(0), |design| multiply_divide(each[design].0, line.pieces, MILLION))?;
    }
    if by_recipe <= 0 || used <= 0 {
        return Ok(each);
    }
    each.into_iter().map(|money| multiply_divide(money.0, used, by_recipe).map(Money)).collect()
}
