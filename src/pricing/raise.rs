//! What a raise earns, and how much of what is sold may be lost before it earns less than before.
//!
//! A raise lifts what each piece contributes. Of contributions after the raise, those before are the break-even: the share
//! between them may be lost. With the raise r and the contribution before it m, each a share of the price, that is
//! r ÷ (m + r). It is the textbook's margin of safety with what must still be earned in place of fixed cost (`OpenStax`,
//! *Principles of Accounting 2*, ch. 3.5).

use crate::quantity::TooLarge;
use crate::quantity::millionths::{MILLION, Minutes, Money, Share};
use crate::quantity::ratio::multiply_divide;

/// What may be lost of something, before its contribution falls from `after` to `least`, as a share of it. Negative: so much
/// more of it must be sold. `None` where it contributes nothing, so that losing it costs nothing.
///
/// # Errors
/// [`TooLarge`] where a figure does not fit.
pub fn margin_of_safety(after: Money, least: Money) -> Result<Option<Share>, TooLarge> {
    if after <= Money::ZERO {
        return Ok(None);
    }
    // All of it, where before it contributed a loss.
    multiply_divide(after.0 - least.0, MILLION, after.0).map(|share| Some(Money(share.min(MILLION))))
}

/// What may be lost before the hourly wage falls below what it was. Lost pieces free their minutes, which at the wage before
/// are worth so much: only what they contribute beyond that is missed. All of it, where they contribute no more.
///
/// # Errors
/// [`TooLarge`] where a figure does not fit.
pub(crate) fn margin_in_wage(after: Money, least: Money, freed: Minutes, wage_before: Money) -> Result<Share, TooLarge> {
    let worth = wage_before.per_hour_for(freed)?;
    let (beyond, raise) = (after - worth, after - least);
    if beyond <= Money::ZERO || (raise > Money::ZERO && raise >= beyond) {
        return Ok(if raise < Money::ZERO { Money(-MILLION) } else { Money(MILLION) });
    }
    multiply_divide(raise.0, MILLION, beyond.0).map(Money)
}

/// How many per cent of pay one per cent of what is sold makes: contribution ÷ pay. `None` without pay.
///
/// # Errors
/// [`TooLarge`] where a figure does not fit.
pub fn leverage(contribution: Money, pay: Money) -> Result<Option<Share>, TooLarge> {
    if pay <= Money::ZERO {
        return Ok(None);
    }
    multiply_divide(contribution.0, MILLION, pay.0).map(|times| Some(Money(times)))
}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;

    proptest! {
        /// r ÷ (m + r), as the trade page has it.
        #[test]
        fn the_share_is_the_closed_form(m in 1_i128..1000, r in 0_i128..1000) {
            let found = margin_of_safety(Money((m + r) * MILLION), Money(m * MILLION)).unwrap().unwrap();
            prop_assert_eq!(found.0, multiply_divide(r, MILLION, m + r).unwrap());
        }

        /// At the share that may be lost the wage is what it was, but for rounding.
        #[test]
        fn losing_just_so_much_gives_the_wage_before(before in 100_i128..500, raise in 1_i128..80, hours in 1_i128..20, fixed in 0_i128..90) {
            let minutes = Minutes(hours * 60 * MILLION);
            let wage = Money((before - fixed) * MILLION).an_hour(minutes).unwrap();
            let after = Money((before + raise) * MILLION);
            let share = margin_in_wage(after, Money(before * MILLION), minutes, wage).unwrap();
            let left = MILLION - share.0;
            if left > 1000 {
                let pay = multiply_divide(after.0, left, MILLION).unwrap() - fixed * MILLION;
                let again = Money(pay).an_hour(Minutes(multiply_divide(minutes.0, left, MILLION).unwrap())).unwrap();
                let off = (again.0 - wage.0).abs();
                prop_assert!(off * left < 1000 * MILLION, "{again:?} against {wage:?} with {left} left");
            }
        }
    }

    #[test]
    fn a_tenth_more_at_four_fifths_contribution_may_lose_a_ninth() {
        // TRADE: m 80 %, r 10 %: 11.1 %; m 60 %: 14.3 %. Arithmetic.
        for (m, share) in [(80, 111_111), (60, 142_857)] {
            assert_eq!(margin_of_safety(Money((m + 10) * MILLION), Money(m * MILLION)), Ok(Some(Money(share))));
        }
        assert_eq!(margin_of_safety(Money(0), Money(0)), Ok(None));
        assert_eq!(margin_of_safety(Money(90), Money(100)), Ok(Some(Money(-111_111))));
    }

    #[test]
    fn pieces_that_pay_less_an_hour_than_before_may_all_be_lost() {
        // Three hours that contribute 30 pay 10 an hour, against 20: without them the wage rises.
        let hours = Minutes(180 * MILLION);
        assert_eq!(margin_in_wage(Money(30 * MILLION), Money(25 * MILLION), hours, Money(20 * MILLION)), Ok(Money(MILLION)));
        assert_eq!(margin_in_wage(Money(25 * MILLION), Money(30 * MILLION), hours, Money(20 * MILLION)), Ok(Money(-MILLION)));
    }
}
