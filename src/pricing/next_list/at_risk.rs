//! What a raise puts at risk: how much may be lost of what is sold before it earns less than before.

use crate::costing::lines::LineKind;
use crate::pricing::figures::Both;
use crate::pricing::lines::Line;
use crate::pricing::raise::{leverage, margin_in_wage, margin_of_safety};
use crate::pricing::what_if::Compared;
use crate::quantity::Factor;
use crate::quantity::TooLarge;
use crate::quantity::millionths::{Minutes, Money, Share};

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

impl Orders {
    /// What the new prices leave over today's, with as many orders; negative where they leave less.
    #[must_use]
    pub fn gain(&self) -> Money {
        self.after - self.before
    }
}

/// A line with less of what is lost: pieces of orders that still run, or whole orders.
pub(super) type Loss = fn(&Line, Factor) -> Result<Line, TooLarge>;

/// Of some lines, what would be lost with all of it: pay and hours of the lines that count.
fn lost<'a>(lines: impl Iterator<Item = &'a Line>, loss: Loss) -> Result<(Money, Minutes), TooLarge> {
    let mut sum = (Money::ZERO, Minutes::ZERO);
    for line in lines.filter(|line| line.kind != LineKind::DepositKept) {
        let left = loss(line, Factor::ZERO)?;
        sum.0 += line.owner_pay() - left.owner_pay();
        sum.1 += line.owner_minutes - left.owner_minutes;
    }
    Ok(sum)
}

/// What may be lost of some lines, before they earn less than at today's prices.
pub(super) fn may_lose(
    compared: &Compared,
    wage_before: Option<Money>,
    which: impl Fn(&Line) -> bool,
    loss: Loss,
) -> Result<MayLose, TooLarge> {
    let of = |lines: &[Line], known: bool| lost(lines.iter().filter(|line| which(line) && (line.known || !known)), loss);
    let ((before, _), (after, _)) = (of(&compared.before, false)?, of(&compared.after, false)?);
    if before == after {
        return Ok(MayLose::default());
    }
    let ((known_before, _), (known_after, freed)) = (of(&compared.before, true)?, of(&compared.after, true)?);
    let for_wage = wage_before.map(|wage| margin_in_wage(known_after, known_before, freed, wage)).transpose()?;
    Ok(MayLose { for_pay: margin_of_safety(after, before)?, for_wage })
}

pub(super) fn orders(compared: &Compared, wage_before: Option<Money>, all_in: &Both) -> Result<Orders, TooLarge> {
    let (before, _) = lost(compared.before.iter(), Line::with_fewer_orders)?;
    let (after, _) = lost(compared.after.iter(), Line::with_fewer_orders)?;
    Ok(Orders {
        before,
        after,
        may_lose: may_lose(compared, wage_before, |_| true, Line::with_fewer_orders)?,
        leverage: leverage(after, all_in.after.owner_pay())?,
    })
}
