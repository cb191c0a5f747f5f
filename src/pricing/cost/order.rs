//! How large an order must be to be worth its set-up.

use crate::quantity::TooLarge;
use crate::quantity::millionths::{MILLION, Minutes, Money};
use crate::quantity::ratio::{multiply_divide, narrow};

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
/// `wage` is per hour; 0 asks for the break-even in money alone.
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

#[cfg(test)]
mod tests {
    use super::*;

    fn dollars(cents: i128) -> Money {
        Money(cents * 10_000)
    }

    fn minutes(whole: i128) -> Minutes {
        Minutes(whole * MILLION)
    }

    #[test]
    fn an_hour_of_set_up_wants_ten_pieces_that_leave_two_dollars_each() {
        // Worked by hand: (2 + 20) ÷ (4.00 − 0.80 − 3 minutes at 20 an hour) = 22 ÷ 2.20 = 10.
        let order = WholeOrder { cost: dollars(200), minutes: minutes(60) };
        let mix = Mix { pieces: 1, kept: dollars(400), cost: dollars(80), minutes: minutes(3) };
        assert_eq!(smallest(&order, &mix, dollars(2000)), Ok(Smallest::From { pieces: 10, mixes: 10 * MILLION }));
        let dearer = WholeOrder { cost: dollars(201), ..order };
        assert_eq!(smallest(&dearer, &mix, dollars(2000)).map(Smallest::pieces), Ok(Some(11)));
    }

    #[test]
    fn a_piece_that_brings_no_more_than_it_takes_pays_at_no_size() {
        let order = WholeOrder { cost: dollars(200), minutes: minutes(60) };
        let mix = Mix { pieces: 1, kept: dollars(180), cost: dollars(80), minutes: minutes(3) };
        assert_eq!(smallest(&order, &mix, dollars(2000)), Ok(Smallest::Never));
        assert_eq!(smallest(&order, &Mix { pieces: 0, ..mix }, dollars(0)), Ok(Smallest::Never));
        // Without a wage every piece leaves a dollar.
        assert_eq!(smallest(&order, &mix, dollars(0)).map(Smallest::pieces), Ok(Some(2)));
    }

    #[test]
    fn one_piece_is_the_least_even_without_set_up() {
        let mix = Mix { pieces: 1, kept: dollars(180), cost: dollars(80), minutes: minutes(0) };
        assert_eq!(smallest(&WholeOrder::default(), &mix, dollars(2000)).map(Smallest::pieces), Ok(Some(1)));
    }
}
