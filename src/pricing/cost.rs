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

mod order;
mod piece;

use super::lines::{Line, Stages};
use super::work::{Pace, Work};
use crate::costing::Costed;
use crate::costing::lines::LineKind;
use crate::costing::minutes_each::MinutesFrom;
use crate::costing::unassigned::Unassigned;
use crate::ids::{Design, Id, IdVec};
use crate::minutes::Draw;
use crate::quantity::Factor;
use crate::quantity::millionths::Share;
use crate::quantity::millionths::{MILLION, Minutes, Money};
use crate::quantity::ratio::multiply_divide;
use crate::quantity::{Percent, Period, TooLarge};
use crate::shop::Shop;
pub use order::{Mix, Smallest, WholeOrder, smallest};
pub use piece::Piece;

/// The least price at which pieces leave what they need, rounded up to the millionth.
///
/// # Errors
/// [`TooLarge`] where it does not fit, or nothing is kept.
pub(crate) fn least_price(needs: i128, pieces: i128, kept: Factor) -> Result<Money, TooLarge> {
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
    /// List value of the cookies sold in it.
    pub listed: Money,
    /// What came in for them: less discounts, refunds, set prices, pieces given away.
    pub revenue: Money,
    /// Percentage fees on it.
    pub percent_fees: Money,
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

impl Rates {
    /// What all of the work costs and takes.
    pub(super) fn of_all(&self) -> Piece {
        Piece {
            helper_pay: self.helper_pay,
            overhead: self.overhead,
            unassigned: self.unassigned.cost(),
            own_minutes: self.owner,
            unassigned_minutes: self.unassigned.owner_minutes,
            ..Piece::default()
        }
    }
}

impl Season {
    /// Whether any hours say what an hour pays.
    #[must_use]
    pub(crate) fn has_hours(&self) -> bool {
        self.rates.owner > Minutes::ZERO
    }

    /// Whether materials of a design are known to cost anything.
    #[must_use]
    pub(crate) fn has_materials(&self, design: Id<Design>) -> bool {
        self.materials[design] > Money::ZERO
    }

    /// Pieces of the mean order, in millionths; `None` without orders.
    #[must_use]
    pub(crate) fn mean_pieces(&self) -> Option<i128> {
        multiply_divide(self.pieces.into(), MILLION, self.orders.into()).ok()
    }

    /// Overhead of an hour of work.
    #[must_use]
    pub(crate) fn overhead_an_hour(&self) -> Option<Money> {
        self.rates.overhead.an_hour(self.rates.hands_on)
    }

    /// The share of the work that helpers do; `None` without work.
    #[must_use]
    pub(crate) fn helped(&self) -> Option<Share> {
        let Rates { hands_on, owner, .. } = self.rates;
        multiply_divide((hands_on - owner).0, MILLION, hands_on.0).ok().map(Money)
    }

    /// What of an amount on the list comes in. `None` where nothing with a list price was sold.
    #[must_use]
    pub(crate) fn comes_in(&self) -> Option<Factor> {
        Factor::of_whole(self.revenue, self.listed)
    }

    /// What of an amount on the list is left after percentage fees, too. `None` where nothing with a list price was sold.
    #[must_use]
    pub fn kept(&self) -> Option<Factor> {
        Factor::of_whole(self.revenue - self.percent_fees, self.listed)
    }

    /// What is left of a charge after percentage fees: all of it, where nothing came in.
    #[must_use]
    pub fn after_fees(&self) -> Factor {
        Factor::of_whole(self.revenue - self.percent_fees, self.revenue).unwrap_or(Factor::ONE)
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

    /// What an order's set-up takes with so many colours, without box and fixed fees.
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
        let Rates { hands_on, owner, .. } = self.rates;
        let share = |total: i128, of: Minutes| if hands_on.0 > 0 { multiply_divide(total, of.0, hands_on.0) } else { Ok(0) };
        Ok(Piece {
            own_minutes: Minutes(share(owner.0, own)?),
            set_up_minutes: Minutes(share(owner.0, set_up)?),
            ..self.rates.of_all().map(|total| share(total, own + set_up))?
        })
    }

    /// The list price of a design that pays a wage: what a piece needs, by what is kept of a list price. `None` where nothing is
    /// kept.
    ///
    /// # Errors
    /// [`TooLarge`] where a figure does not fit.
    pub(crate) fn fair_list_price(&self, piece: &Piece, wage: Money) -> Result<Option<Money>, TooLarge> {
        let kept = self.kept().filter(|kept| kept.numerator > 0);
        kept.map(|kept| least_price(piece.needs(wage)?.0, 1, kept)).transpose()
    }

    /// The season's pieces as one mix, at some list prices; those without a price are left out.
    ///
    /// # Errors
    /// [`TooLarge`] where a figure does not fit.
    pub fn mix(&self, list: impl Fn(Id<Design>) -> Option<Money>) -> Result<Mix, TooLarge> {
        let mut mix = Mix::default();
        let Some(kept) = self.kept() else { return Ok(mix) };
        for (design, sold) in self.sold.pairs().filter(|(_, sold)| **sold > 0) {
            let Some(price) = list(design) else { continue };
            let (own, pieces) = (self.own_piece(design)?, i128::from(*sold));
            mix.pieces += sold;
            mix.kept += Money(kept.of(price.0)? * pieces);
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
            let last = present.materials.movements[*item].last();
            let cost = if last.amount.0 == 0 { 0 } else { multiply_divide(last.cost, amount.0, last.amount.0)? };
            sum += if shop.items.is_packaging(shop.item_names.text(*item)) { cost } else { with_spares(cost)? };
        }
        each.push(Money(sum));
    }
    let (mut used, mut by_recipe) = (0, 0);
    for (line, _) in lines.iter().filter(|(line, _)| line.kind == LineKind::Cookie) {
        used += (line.materials - line.order_materials).0;
        by_recipe += line.design.map_or(Ok(0), |design| multiply_divide(each[design].0, line.pieces, MILLION))?;
    }
    if by_recipe <= 0 || used <= 0 {
        return Ok(each);
    }
    each.into_iter().map(|money| multiply_divide(money.0, used, by_recipe).map(Money)).collect()
}
