//! Values variances in pay and minutes as surplus and hourly wage, to the last stored digit.
//!
//! Surplus: minutes at the target of the base period; the target's own change on the hours now. Wage: with W = pay ÷
//! hours, `W₁ − W₀ = (ΔP − W̄ ΔH) ÷ H̄`, where bars are plain means of both periods (the indicator of T. L. Bennet,
//! *Journal of the Royal Statistical Society*, 1920, from memory; the Shapley value of a product of two). It is
//! linear in pay and hours, so each part has its own term in any order of the parts, and swapping the periods turns
//! every sign.

use super::part::Part;
use super::side::Side;
use super::variances::Variance;
use crate::quantity::millionths::{MILLION, Minutes, Money};
use crate::quantity::{TooLarge, share};
use ethnum::I256;

/// The effect of a change.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub struct Effect {
    /// Owner's pay.
    pub pay: Money,
    /// The owner's minutes.
    pub minutes: Minutes,
    /// Surplus; the pay, if there is no target.
    pub surplus: Money,
    /// Hourly wage; `None` if either side has no hours.
    pub wage: Option<Money>,
}

impl Effect {
    /// Adds another effect.
    pub fn add(&mut self, more: &Self) {
        self.pay += more.pay;
        self.minutes += more.minutes;
        self.surplus += more.surplus;
        self.wage = self.wage.zip(more.wage).map(|(one, other)| one + other);
    }
}

/// The totals of one side.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub struct Whole {
    /// Owner's pay.
    pub pay: Money,
    /// The owner's minutes.
    pub minutes: Minutes,
    /// Pay less those minutes at the target; the pay, if there is no target.
    pub surplus: Money,
    /// Pay ÷ hours; `None` without hours.
    pub wage: Option<Money>,
}

impl Whole {
    /// Computes the totals of a side.
    ///
    /// # Errors
    /// [`TooLarge`] where a figure does not fit.
    pub fn of(side: &Side) -> Result<Self, TooLarge> {
        let (pay, minutes) = (side.pay(), side.minutes());
        Ok(Self { pay, minutes, surplus: pay - side.target.per_hour_for(minutes)?, wage: pay.an_hour(minutes) })
    }
}

/// Computes the effect of each variance, in their order, those of the target included.
///
/// # Errors
/// [`TooLarge`] where a figure does not fit.
pub fn effects(variances: &[Variance], then: &Side, now: &Side) -> Result<Vec<Effect>, TooLarge> {
    let (before, after) = (Whole::of(then)?, Whole::of(now)?);
    // Minutes × target are kept in undivided units, so that nothing is lost.
    let an_hour = wide(60 * MILLION);
    let raise = now.target - then.target;
    let surplus = variances.iter().map(|cell| match cell.part {
        Part::Target => Ok(-times(wide(raise.0), wide(cell.minutes.0))?),
        _ => sum(times(wide(cell.pay.0), an_hour)?, -times(wide(then.target.0), wide(cell.minutes.0))?),
    });
    let surplus = share::to_total((after.surplus - before.surplus).0, &surplus.collect::<Result<Vec<_>, TooLarge>>()?, an_hour)?;
    let wage = match (before.wage, after.wage) {
        (Some(was), Some(is)) => Some(wages(variances, &before, &after, is - was)?),
        _ => None,
    };
    let effect = |(at, cell): (usize, &Variance)| {
        let of_target = cell.part == Part::Target;
        Effect {
            pay: cell.pay,
            minutes: if of_target { Minutes::ZERO } else { cell.minutes },
            surplus: Money(surplus[at]),
            wage: wage.as_ref().map(|wage| Money(wage[at])),
        }
    };
    Ok(variances.iter().enumerate().map(effect).collect())
}

/// Computes each variance's term of the change in wage.
fn wages(variances: &[Variance], before: &Whole, after: &Whole, change: Money) -> Result<Vec<i128>, TooLarge> {
    let (p0, m0, p1, m1) = (wide(before.pay.0), wide(before.minutes.0), wide(after.pay.0), wide(after.minutes.0));
    let product = times(m0, m1)?;
    let pay = times(product, I256::from(2))?;
    let minutes = sum(times(p0, m1)?, times(p1, m0)?)?;
    let per_hour = wide(60 * MILLION);
    let terms = variances.iter().map(|cell| {
        if cell.part == Part::Target {
            return Ok(I256::ZERO);
        }
        let term = sum(times(pay, wide(cell.pay.0))?, -times(minutes, wide(cell.minutes.0))?)?;
        times(term, per_hour)
    });
    share::to_total(change.0, &terms.collect::<Result<Vec<_>, TooLarge>>()?, times(product, sum(m0, m1)?)?)
}

fn wide(value: i128) -> I256 {
    I256::from(value)
}

fn times(one: I256, other: I256) -> Result<I256, TooLarge> {
    one.checked_mul(other).ok_or(TooLarge)
}

fn sum(one: I256, other: I256) -> Result<I256, TooLarge> {
    one.checked_add(other).ok_or(TooLarge)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn figures_past_256_bits_are_an_error() {
        let most = I256::from(i128::MAX);
        assert_eq!(times(most * most, most), Err(TooLarge));
    }
}
