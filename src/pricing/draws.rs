//! Ranges and chances: the cost model's sums in every posterior draw of the learned minutes. Estimates, in floats.

use super::cost::{Piece, Season};
use super::work::{Pace, real};
use crate::ids::{Design, Id};
use crate::minutes::Draw;
use crate::minutes::learned::Estimate;
use crate::minutes::model::count;
use crate::quantity::Factor;
use crate::quantity::millionths::Share;
use crate::quantity::millionths::{Minutes, Money};

/// What something costs and takes in every draw; no draws where nothing was learned.
#[derive(Debug, Clone, Default)]
pub struct Drawn(Vec<InDraw>);

/// What something costs and takes in one draw.
#[derive(Debug, Clone, Copy, Default)]
struct InDraw {
    /// In main units, without the owner's time and percentage fees.
    cost: f64,
    /// The owner's minutes, unassigned ones included.
    minutes: f64,
    /// Minutes of work on it, the owner's and helpers'.
    work: f64,
}

impl Season {
    /// A piece of a design in a typical order, in every draw.
    #[must_use]
    pub(crate) fn drawn_piece(&self, design: Id<Design>, piece: &Piece) -> Drawn {
        let fixed = real((piece.materials + piece.of_order).0) / 1e6;
        self.drawn(|_, draw, pace| (fixed, self.work.of_piece(pace, draw, design) + self.work.of_order(pace)))
    }

    /// In every draw, by its number, what materials in main units and minutes of work come to.
    #[must_use]
    pub fn drawn(&self, of: impl Fn(usize, &Draw, &Pace) -> (f64, f64)) -> Drawn {
        let (hands_on, all) = (self.rates.hands_on, self.rates.of_all());
        let share = |total: i128, minutes: f64| if hands_on.0 > 0 { real(total) / real(hands_on.0) * minutes } else { 0.0 };
        let each = self.draws.iter().enumerate().map(|(at, (draw, pace))| {
            let (materials, work) = of(at, draw, pace);
            InDraw { cost: materials + share(all.cost().0, work), minutes: share(all.minutes().0, work), work }
        });
        Drawn(each.collect())
    }

    /// The share of the work that is the owner's.
    #[must_use]
    pub(crate) fn owners_share(&self) -> f64 {
        real(self.rates.owner.0) / real(self.rates.hands_on.0.max(1))
    }
}

impl Drawn {
    /// The sum of so many of each.
    #[must_use]
    pub fn sum<'a>(each: impl Iterator<Item = (&'a Self, i64)>) -> Self {
        let mut sums: Vec<InDraw> = Vec::new();
        for (Self(drawn), times) in each {
            sums.resize(drawn.len(), InDraw::default());
            let times = real(times.into());
            for (sum, one) in sums.iter_mut().zip(drawn) {
                sum.cost += times * one.cost;
                sum.minutes += times * one.minutes;
                sum.work += times * one.work;
            }
        }
        Self(sums)
    }

    /// Minutes of work, the owner's and helpers', in every draw.
    pub fn work(&self) -> impl Iterator<Item = f64> + '_ {
        self.0.iter().map(|one| one.work)
    }

    /// One draw in twenty asks for a lower price than the first, one for a higher than the second, for a wage an hour.
    #[must_use]
    pub fn fair_price(&self, wage: Money, kept: Factor) -> Option<(Money, Money)> {
        let wage = real(wage.0) / 1e6;
        money_range(self.0.iter().map(|InDraw { cost, minutes, .. }| (cost + wage * minutes / 60.0) / factor(kept)))
    }

    /// One draw in twenty pays less an hour than the first, one more than the second, at a price.
    #[must_use]
    pub fn wage(&self, price: Money, kept: Factor) -> Option<(Money, Money)> {
        let brought = real(price.0) / 1e6 * factor(kept);
        let timed = self.0.iter().filter(|one| one.minutes > 0.0);
        money_range(timed.map(|InDraw { cost, minutes, .. }| (brought - cost) / minutes * 60.0))
    }

    /// The share of draws in which a price pays a wage an hour.
    #[must_use]
    pub fn chance(&self, price: Money, kept: Factor, wage: Money) -> Option<Share> {
        let (brought, wage) = (real(price.0) / 1e6 * factor(kept), real(wage.0) / 1e6);
        let reached = self.0.iter().filter(|InDraw { cost, minutes, .. }| brought - cost >= wage * minutes / 60.0).count();
        (!self.0.is_empty()).then(|| Money::from_estimate(count(reached) / count(self.0.len()))).flatten()
    }
}

fn factor(times: Factor) -> f64 {
    real(times.numerator) / real(times.divisor)
}

fn money_range(each: impl Iterator<Item = f64>) -> Option<(Money, Money)> {
    let Estimate { low, high, .. } = range(each)?;
    Money::from_estimate(low).zip(Money::from_estimate(high))
}

/// One draw in twenty lies below the first minutes, one above the second.
#[must_use]
pub(crate) fn minutes_range(each: impl Iterator<Item = f64>) -> Option<(Minutes, Minutes)> {
    let Estimate { low, high, .. } = range(each)?;
    Minutes::from_estimate(low).zip(Minutes::from_estimate(high))
}

fn range(each: impl Iterator<Item = f64>) -> Option<Estimate> {
    let each: Vec<f64> = each.collect();
    (!each.is_empty()).then(|| Estimate::of(each))
}
