//! Sums over lines, before and after.

use super::lines::Line;
use crate::costing::unassigned::Unassigned;
use crate::quantity::millionths::{Minutes, Money};

/// Sums over some lines.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub struct Figures {
    /// Pieces sold, in millionths.
    pub pieces: i128,
    /// What was brought in.
    pub revenue: Money,
    /// Revenue less out-of-pocket cost.
    pub owner_pay: Money,
    /// The owner's minutes.
    pub owner_minutes: Minutes,
    /// The owner's pay of lines with known hours, which the wage rests on.
    pub known_pay: Money,
    /// Their minutes.
    pub known_minutes: Minutes,
}

impl Figures {
    /// Of lines.
    pub fn of<'a>(lines: impl Iterator<Item = &'a Line>) -> Self {
        let mut figures = Self::default();
        lines.for_each(|line| figures.add(line));
        figures
    }

    pub(super) fn add(&mut self, line: &Line) {
        let pay = line.owner_pay();
        self.pieces += line.pieces;
        self.revenue += line.revenue;
        self.owner_pay += pay;
        self.owner_minutes += line.owner_minutes;
        if line.known {
            self.known_pay += pay;
            self.known_minutes += line.owner_minutes;
        }
    }

    /// With what is unassigned.
    #[must_use]
    pub fn all_in(mut self, unassigned: &Unassigned) -> Self {
        for (pay, minutes) in [(&mut self.owner_pay, &mut self.owner_minutes), (&mut self.known_pay, &mut self.known_minutes)] {
            *pay = *pay - unassigned.cost();
            *minutes += unassigned.owner_minutes;
        }
        self
    }

    /// Pay ÷ hours, of the lines with known hours.
    #[must_use]
    pub fn wage(&self) -> Option<Money> {
        self.known_pay.an_hour(self.known_minutes)
    }

    /// Over a fair wage, or short of it where negative, of the lines with known hours.
    #[must_use]
    pub fn surplus(&self, target: Option<Money>) -> Option<Money> {
        Some(self.known_pay - target?.per_hour_for(self.known_minutes).ok()?)
    }
}

/// Before and after.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub struct Both {
    /// As it happened.
    pub before: Figures,
    /// As it would have been.
    pub after: Figures,
}
