//! What the logs say of minutes: stretches of work, with the orders, colours and pieces in them.

use super::model::count;
use crate::ids::{Id, Order};

/// What a stretch of minutes covers.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum Covers {
    /// Stages shared by minutes: decorating.
    Decorating,
    /// Work without a stage: the whole of the orders, from dough to packing.
    Whole,
}

/// Orders logged together.
#[derive(Debug, Clone, PartialEq)]
pub struct Group {
    /// Minutes logged.
    pub minutes: f64,
    /// What they cover.
    pub covers: Covers,
    /// Number of orders.
    pub orders: f64,
    /// Colours, summed over the orders; where none are logged anywhere, nil.
    pub colours: f64,
    /// Pieces of each design, by its place in [`Observations::designs`].
    pub pieces: Vec<(usize, f64)>,
    /// Years from some day.
    pub years: f64,
    /// Which orders; empty in simulated shops.
    pub named: Vec<Id<Order>>,
}

/// A design timed on its own.
#[derive(Debug, Clone, PartialEq)]
pub struct Timed {
    /// Its place in [`Observations::designs`].
    pub design: usize,
    /// Pieces made.
    pub pieces: f64,
    /// Minutes they took.
    pub minutes: f64,
    /// Years from the same day as the groups'.
    pub years: f64,
}

/// What is known of a design beside the logs.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub struct Design {
    /// Its tier.
    pub tier: Option<usize>,
    /// The card's guess of minutes a piece.
    pub card: Option<f64>,
}

/// All that is learned from.
#[derive(Debug, Clone, Default)]
pub struct Observations {
    /// The designs sold.
    pub designs: Vec<Design>,
    /// Orders, with their minutes.
    pub groups: Vec<Group>,
    /// Designs timed.
    pub timed: Vec<Timed>,
    /// Whether a stage shared by orders is logged apart.
    pub set_up_separate: bool,
    /// Whether a stage shared by colours is logged apart.
    pub colours_separate: bool,
}

impl Observations {
    /// The mean time of all observations, in years: where the trend is nil.
    #[must_use]
    pub fn middle(&self) -> f64 {
        let all = || self.groups.iter().map(|group| group.years).chain(self.timed.iter().map(|timed| timed.years));
        all().sum::<f64>() / count(all().count().max(1))
    }
}
