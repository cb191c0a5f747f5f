//! What no line can carry: shown and counted, never dropped.

use super::facts::{Figure, Figures};
use crate::quantity::millionths::{Minutes, Money};
use crate::quantity::{Day, Period};

/// Time and cost that no line carries.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub struct Unassigned {
    /// The owner's minutes.
    pub owner_minutes: Minutes,
    /// Helpers' minutes.
    pub helper_minutes: Minutes,
    /// What those cost.
    pub helper_pay: Money,
    /// Ingredients.
    pub ingredients: Money,
    /// Packaging.
    pub packaging: Money,
    /// Overhead.
    pub overhead: Money,
}

impl Unassigned {
    /// All of its costs.
    #[must_use]
    pub fn cost(&self) -> Money {
        self.helper_pay + self.ingredients + self.packaging + self.overhead
    }

    /// As figures of a line that brings nothing in: what adds it to sums over lines.
    #[must_use]
    pub fn figures(&self) -> Figures {
        let mut figures = Figures::default();
        figures[Figure::Ingredients] = self.ingredients.0;
        figures[Figure::Packaging] = self.packaging.0;
        figures[Figure::HelperPay] = self.helper_pay.0;
        figures[Figure::Overhead] = self.overhead.0;
        figures[Figure::OwnerMinutes] = self.owner_minutes.0;
        figures[Figure::HelperMinutes] = self.helper_minutes.0;
        figures[Figure::OwnerPay] = -self.cost().0;
        figures
    }

    fn add(&mut self, other: &Self) {
        self.owner_minutes += other.owner_minutes;
        self.helper_minutes += other.helper_minutes;
        self.helper_pay += other.helper_pay;
        self.ingredients += other.ingredients;
        self.packaging += other.packaging;
        self.overhead += other.overhead;
    }
}

/// Unassigned amounts, each on its day: hours on theirs, overheads on the first of the month they accrue in.
#[derive(Debug, Clone, Default)]
pub struct UnassignedLog {
    entries: Vec<(Day, Unassigned)>,
}

impl UnassignedLog {
    /// Notes an amount.
    pub fn note(&mut self, day: Day, amount: Unassigned) {
        if amount != Unassigned::default() {
            self.entries.push((day, amount));
        }
    }

    /// What lies in a period.
    #[must_use]
    pub fn within(&self, period: Period) -> Unassigned {
        let mut sum = Unassigned::default();
        for (_, amount) in self.entries.iter().filter(|(day, _)| period.holds(*day)) {
            sum.add(amount);
        }
        sum
    }
}
