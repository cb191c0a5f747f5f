//! What a raise puts at risk: how much may be lost of what is sold before it earns less than before.

use super::TierRow;
use crate::pricing::fair::Season;
use crate::pricing::lines::{Kind, Line};
use crate::pricing::raise::{Share, leverage, margin_in_wage, margin_of_safety};
use crate::pricing::scarce::{Product, fill};
use crate::pricing::what_if::{Both, Compared};
use crate::quantity::TooLarge;
use crate::quantity::millionths::{Minutes, Money};
use crate::quantity::ratio::multiply_divide;

/// How much may be lost before a raise earns less than before. Negative: so much more must be sold. `None` without a raise.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub struct MayLose {
    /// In money.
    pub for_pay: Option<Share>,
    /// In what an hour pays: what is lost frees its hours.
    pub for_wage: Option<Share>,
}

/// What the season's orders earned and would have earned.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Orders {
    /// Contribution at today's prices: all but overhead taken off.
    pub before: Money,
    /// Contribution after.
    pub after: Money,
    /// The share of orders that may be lost.
    pub may_lose: MayLose,
    /// Per cent of pay that one per cent of orders makes, after.
    pub leverage: Option<Share>,
}

/// What a tenth fewer hours for pieces would leave of each tier.
pub(super) fn fill_fewer_hours(season: &Season, tiers: &mut [TierRow]) -> Result<(), TooLarge> {
    let product = |tier: &TierRow| {
        // Overhead and what no order explains go on without the piece.
        let gone = tier.piece.materials + tier.piece.helper_pay;
        Ok(Product { each: Money(season.kept.of(tier.price.0)?) - gone, minutes: tier.piece.own_minutes, wanted: tier.pieces })
    };
    let products = tiers.iter().map(product).collect::<Result<Vec<Product>, TooLarge>>()?;
    let all: i128 = products.iter().map(|product| product.minutes.0 * i128::from(product.wanted)).sum();
    let kept = fill(&products, Minutes(multiply_divide(all, 9, 10)?));
    for (tier, pieces) in tiers.iter_mut().zip(kept) {
        tier.in_fewer_hours = pieces;
    }
    Ok(())
}

impl Orders {
    /// What the new prices leave over today's, with as many orders; negative where they leave less.
    #[must_use]
    pub fn gain(&self) -> Money {
        self.after - self.before
    }
}

/// What goes when sales are lost.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Loss {
    /// Pieces, of orders that still run.
    Pieces,
    /// Whole orders.
    Orders,
}

impl Loss {
    /// What a line contributes that would be lost with it.
    fn contribution(self, line: &Line) -> Money {
        let of_pieces = Money(line.revenue.0 - (line.materials - line.order_materials).0 - line.percent_fees.0 - line.piece_helper_pay.0);
        match self {
            Self::Pieces => of_pieces,
            Self::Orders => line.owner_pay() + line.overhead,
        }
    }

    fn freed(self, line: &Line) -> Minutes {
        match self {
            Self::Pieces => line.piece_minutes,
            Self::Orders => line.owner_minutes,
        }
    }
}

pub(super) fn may_lose(
    compared: &Compared,
    wage_before: Option<Money>,
    which: impl Fn(&Line) -> bool,
    loss: Loss,
) -> Result<MayLose, TooLarge> {
    let sum = |lines: &[Line], known: bool| -> Money {
        lines
            .iter()
            .filter(|line| line.kind != Kind::DepositKept && which(line) && (line.known || !known))
            .map(|line| loss.contribution(line))
            .sum()
    };
    let (before, after) = (sum(&compared.before, false), sum(&compared.after, false));
    if before == after {
        return Ok(MayLose::default());
    }
    let freed = compared.after.iter().filter(|line| line.known && which(line)).map(|line| loss.freed(line)).sum();
    let known = (sum(&compared.before, true), sum(&compared.after, true));
    let for_wage = wage_before.map(|wage| margin_in_wage(known.1, known.0, freed, wage)).transpose()?;
    Ok(MayLose { for_pay: margin_of_safety(after, before)?, for_wage })
}

pub(super) fn orders(compared: &Compared, wage_before: Option<Money>, all_in: &Both) -> Result<Orders, TooLarge> {
    let sum = |lines: &[Line]| {
        lines.iter().filter(|line| line.kind != Kind::DepositKept).map(|line| Loss::Orders.contribution(line)).sum::<Money>()
    };
    let (before, after) = (sum(&compared.before), sum(&compared.after));
    Ok(Orders {
        before,
        after,
        may_lose: may_lose(compared, wage_before, |_| true, Loss::Orders)?,
        leverage: leverage(after, all_in.after.owner_pay)?,
    })
}
