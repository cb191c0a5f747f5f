//! The smallest order worth its set-up: break-even with the maker's time as a cost.
//!
//! Whole-order cost and set-up time at the wage, over what a piece leaves after its own cost and time:
//! (F + w·S) ÷ (p(1 − f) − c − w·m). The break-even of any textbook (`OpenStax`, *Principles of Accounting 2*, ch. 3.2;
//! for a mix of products ch. 3.4), whose examples run through it in tests.

use crate::costing::facts::{Facts, column};
use crate::quantity::TooLarge;
use crate::quantity::millionths::{MILLION, Minutes, Money};
use crate::quantity::ratio::{multiply_divide, narrow};
use crate::shop::Shop;
use crate::shop::settings::SharedBy;
use polars::prelude::*;

/// What one order costs whatever is in it.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub struct WholeOrder {
    /// Its box, the fixed fee, helpers' set-up work, its part of overhead.
    pub cost: Money,
    /// The owner's set-up time: planning, colours, messages.
    pub minutes: Minutes,
}

/// Some pieces, as they are usually mixed: figures are of all of them together.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub struct Mix {
    /// How many.
    pub pieces: i64,
    /// What they bring, after the percentage fee.
    pub kept: Money,
    /// Their own materials, helper pay and overhead.
    pub cost: Money,
    /// The owner's time on them.
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

/// The smallest order of a mix that pays the wage for all of its time.
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

/// What orders took as they were: the mean order's whole-order part, and the pieces of all of them as one mix.
///
/// Over the cookie lines with known hours. Overhead goes with the owner's minutes. `None` without any such line.
///
/// # Errors
/// Where polars fails.
pub fn of_facts(shop: &Shop, facts: &Facts) -> PolarsResult<Option<(WholeOrder, Mix)>> {
    let known = col(column::KNOWN).and(col(column::PIECES).gt(lit(0_i64)));
    let frame = facts.frame().clone().lazy().filter(known).collect()?;
    let orders = i128::try_from(frame.column(column::ORDER)?.n_unique()?).unwrap_or(i128::MAX);
    if orders == 0 {
        return Ok(None);
    }
    let weighed: Vec<&str> = facts.stage_columns().filter(|name| is_by_weight(shop, name)).collect();
    let read = |name: &str| -> PolarsResult<Vec<i128>> {
        Ok(frame.column(name)?.i64()?.iter().map(|value| i128::from(value.unwrap_or_default())).collect())
    };
    let sum = |name: &str| -> PolarsResult<i128> { Ok(read(name)?.into_iter().sum()) };
    let (owner, helper, own) = (read(column::OWNER_MINUTES)?, read(column::HELPER_MINUTES)?, read(column::PIECE_MINUTES)?);
    let mut by_weight = vec![0_i128; owner.len()];
    for name in weighed {
        for (sum, part) in by_weight.iter_mut().zip(read(name)?) {
            *sum += part;
        }
    }
    // Stages do not say whose minutes they are: the owner's part of a line's is that of all its minutes.
    let of_owner = |part: i128, line: usize| multiply_divide(part, owner[line], owner[line] + helper[line]).unwrap_or_default();
    let with_pieces: i128 = (0..owner.len()).map(|line| own[line] + of_owner(by_weight[line], line)).sum();
    let all: i128 = owner.iter().sum();
    let overhead = sum(column::OVERHEAD)?;
    let overhead_of_pieces = multiply_divide(overhead, with_pieces, all).unwrap_or_default();
    let materials = sum(column::INGREDIENTS)? + sum(column::PACKAGING)?;
    let of_orders = sum(column::ORDER_INGREDIENTS)? + sum(column::ORDER_PACKAGING)?;
    let fixed_fees = sum(column::FEES)? - sum(column::PERCENT_FEES)?;
    let (help, help_of_pieces) = (sum(column::HELPER_PAY)?, sum(column::PIECE_HELPER_PAY)?);
    let mean = |total: i128| multiply_divide(total, 1, orders).unwrap_or_default();
    let order = WholeOrder {
        cost: Money(mean(of_orders + fixed_fees + help - help_of_pieces + overhead - overhead_of_pieces)),
        minutes: Minutes(mean(all - with_pieces)),
    };
    let mix = Mix {
        pieces: i64::try_from(sum(column::PIECES)?).unwrap_or(i64::MAX),
        kept: Money(sum(column::REVENUE)? - sum(column::PERCENT_FEES)?),
        cost: Money(materials - of_orders + help_of_pieces + overhead_of_pieces),
        minutes: Minutes(with_pieces),
    };
    Ok(Some((order, mix)))
}

/// Whether a column of the facts holds minutes of a stage shared by weight.
pub(super) fn is_by_weight(shop: &Shop, name: &str) -> bool {
    shared_by(shop, name) == Some(SharedBy::Weight)
}

/// How the minutes of a column of the facts are shared; `None` for work without a stage.
pub(super) fn shared_by(shop: &Shop, name: &str) -> Option<SharedBy> {
    let stage = name.strip_prefix(column::STAGE)?;
    if stage.is_empty() { None } else { Some(shop.settings.stages.get(stage).copied().unwrap_or(SharedBy::Minutes)) }
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
