//! Unassigned hours and costs: those that no line can carry. They are shown and counted, never dropped.

use super::figure::{Figure, Figures};
use crate::ids::{Id, Item, Stage};
use crate::quantity::millionths::{Minutes, Money};
use crate::quantity::{Day, Period};
use std::collections::BTreeMap;

/// An amount of unassigned hours and costs.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub struct Unassigned {
    /// The owner's minutes.
    pub owner_minutes: Minutes,
    /// Helpers' minutes.
    pub helper_minutes: Minutes,
    /// Pay for the helpers' minutes.
    pub helper_pay: Money,
    /// Ingredients.
    pub ingredients: Money,
    /// Packaging.
    pub packaging: Money,
    /// Overhead.
    pub overhead: Money,
}

impl Unassigned {
    /// Returns the sum of its costs.
    #[must_use]
    pub fn cost(&self) -> Money {
        self.figures().sum(&Figure::COSTS)
    }

    /// Returns it as figures of a line without revenue, to be added to sums over lines.
    #[must_use]
    pub fn figures(&self) -> Figures {
        let mut figures = Figures::default();
        figures[Figure::Ingredients] = self.ingredients.0;
        figures[Figure::Packaging] = self.packaging.0;
        figures[Figure::HelperPay] = self.helper_pay.0;
        figures[Figure::Overhead] = self.overhead.0;
        figures[Figure::OwnerMinutes] = self.owner_minutes.0;
        figures[Figure::HelperMinutes] = self.helper_minutes.0;
        figures[Figure::OwnerPay] = -figures.sum(&Figure::COSTS).0;
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

/// The source of an unassigned amount, so that it can be named.
#[derive(Debug, Clone, PartialEq, Eq, PartialOrd, Ord)]
pub enum Source {
    /// An overhead, by what it is for.
    Overhead(String),
    /// Hours of a stage; `None` is work without one.
    Hours(Option<Id<Stage>>),
    /// An item: a count's gap that no use carries, or the difference of a refund.
    Item(Id<Item>),
}

/// The unassigned amounts of one source in a period.
#[derive(Debug, Clone, PartialEq, Eq)]
pub(crate) struct OfSource {
    /// The source.
    pub source: Source,
    /// The first and last day of its amounts.
    pub days: (Day, Day),
    /// Their sum.
    pub amount: Unassigned,
}

/// Unassigned amounts, each on its day: hours on theirs, overheads on the first of the month they accrue in.
#[derive(Debug, Clone, Default)]
pub struct UnassignedLog {
    entries: Vec<(Day, Source, Unassigned)>,
}

impl UnassignedLog {
    /// Adds an amount on a day.
    pub fn note(&mut self, day: Day, source: Source, amount: Unassigned) {
        if amount != Unassigned::default() {
            self.entries.push((day, source, amount));
        }
    }

    /// Sums the amounts of a period.
    #[must_use]
    pub fn within(&self, period: Period) -> Unassigned {
        let mut sum = Unassigned::default();
        for (_, _, amount) in self.entries.iter().filter(|(day, ..)| period.holds(*day)) {
            sum.add(amount);
        }
        sum
    }

    /// Sums the amounts of a period by source, in the order of sources.
    #[must_use]
    pub(crate) fn by_source(&self, period: Period) -> Vec<OfSource> {
        let mut sources: BTreeMap<&Source, ((Day, Day), Unassigned)> = BTreeMap::new();
        for (day, source, amount) in self.entries.iter().filter(|(day, ..)| period.holds(*day)) {
            let (days, sum) = sources.entry(source).or_insert(((*day, *day), Unassigned::default()));
            *days = (days.0.min(*day), days.1.max(*day));
            sum.add(amount);
        }
        sources.into_iter().map(|(source, (days, amount))| OfSource { source: source.clone(), days, amount }).collect()
    }
}
