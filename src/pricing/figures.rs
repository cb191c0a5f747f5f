//! Totals over lines, before and after.

use super::lines::Line;
use crate::costing::facts::{Figure, Figures};
use crate::costing::unassigned::Unassigned;
use crate::quantity::TooLarge;
use crate::quantity::millionths::{Minutes, Money};

/// Totals over some lines: of all of them, and of those with known hours, which hourly pay rests on.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub struct Totals {
    all: Figures,
    known: Figures,
    surplus: Option<Money>,
}

impl Totals {
    /// Adds lines up.
    pub fn of<'a>(lines: impl Iterator<Item = &'a Line>) -> Self {
        let mut totals = Self::default();
        lines.for_each(|line| totals.add(line));
        totals
    }

    pub(super) fn add(&mut self, line: &Line) {
        let figures = line.figures();
        self.all += &figures;
        if line.known {
            self.known += &figures;
        }
    }

    /// With hours and costs not tied to an order, which count as known.
    #[must_use]
    pub fn all_in(mut self, unassigned: &Unassigned) -> Self {
        self.all += &unassigned.figures();
        self.known += &unassigned.figures();
        self
    }

    /// Pieces sold, in millionths: of some only a share may be left.
    #[must_use]
    pub fn pieces(&self) -> i128 {
        self.all[Figure::Pieces]
    }

    /// Revenue.
    #[must_use]
    pub fn revenue(&self) -> Money {
        Money(self.all[Figure::Revenue])
    }

    /// Revenue − out-of-pocket cost.
    #[must_use]
    pub fn owner_pay(&self) -> Money {
        Money(self.all[Figure::OwnerPay])
    }

    /// The owner's minutes.
    #[must_use]
    pub fn owner_minutes(&self) -> Minutes {
        Minutes(self.all[Figure::OwnerMinutes])
    }

    /// The owner's pay of lines with known hours.
    #[must_use]
    pub(crate) fn known_pay(&self) -> Money {
        Money(self.known[Figure::OwnerPay])
    }

    /// The owner's minutes of lines with known hours.
    #[must_use]
    pub(crate) fn known_minutes(&self) -> Minutes {
        Minutes(self.known[Figure::OwnerMinutes])
    }

    /// Pay ÷ hours, of the lines with known hours.
    #[must_use]
    pub fn wage(&self) -> Option<Money> {
        self.known_pay().an_hour(self.known_minutes())
    }

    /// Pay above the target where positive, below it where negative, of the lines with known hours; `None` without a target.
    #[must_use]
    pub fn surplus(&self) -> Option<Money> {
        self.surplus
    }

    /// Returns them with their surplus at a target.
    fn against(self, target: Option<Money>) -> Result<Self, TooLarge> {
        let fair = target.map(|target| target.per_hour_for(self.known_minutes())).transpose()?;
        Ok(Self { surplus: fair.map(|fair| self.known_pay() - fair), ..self })
    }
}

/// Before and after.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub struct Both {
    /// As it happened.
    pub before: Totals,
    /// As it would have been.
    pub after: Totals,
}

impl Both {
    /// Returns both with their surplus at a target.
    pub(super) fn against(self, target: Option<Money>) -> Result<Self, TooLarge> {
        Ok(Self { before: self.before.against(target)?, after: self.after.against(target)? })
    }
}
