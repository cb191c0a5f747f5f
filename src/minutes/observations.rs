//! Observations of minutes: stretches of work, with the orders, colours and pieces in them.

use super::model::count;
use crate::ids::{Id, Order};

/// The work that a stretch of minutes covers.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum Covers {
    /// Stages shared by minutes: decorating.
    Decorating,
    /// Work without a stage: whole orders, from dough to packing.
    Whole,
}

/// Orders logged together.
#[derive(Debug, Clone, PartialEq)]
pub struct Group {
    /// Minutes logged.
    pub minutes: f64,
    /// The work they cover.
    pub covers: Covers,
    /// Number of orders.
    pub orders: f64,
    /// Colours, summed over the orders; zero if none are logged anywhere.
    pub colours: f64,
    /// Pieces of each design, by its index in [`Observations::designs`].
    pub pieces: Vec<(usize, f64)>,
    /// Time of the orders, in years from a fixed day.
    pub years: f64,
    /// The orders' ids; empty in simulated shops.
    pub named: Vec<Id<Order>>,
}

/// A design timed on its own.
#[derive(Debug, Clone, PartialEq)]
pub struct Timed {
    /// Its index in [`Observations::designs`].
    pub design: usize,
    /// Pieces made.
    pub pieces: f64,
    /// Minutes they took.
    pub minutes: f64,
    /// Time, in years from the same day as the groups'.
    pub years: f64,
}

/// What the design card says of a design.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub struct Design {
    /// Its tier.
    pub tier: Option<usize>,
    /// The card's guess of minutes per piece.
    pub card: Option<f64>,
}

/// All observations of a shop.
#[derive(Debug, Clone, Default)]
pub struct Observations {
    /// The designs sold.
    pub designs: Vec<Design>,
    /// Groups of orders, with their minutes.
    pub groups: Vec<Group>,
    /// Designs timed.
    pub timed: Vec<Timed>,
    /// Whether a stage shared by orders is logged separately.
    pub set_up_separate: bool,
    /// Whether a stage shared by colours is logged separately.
    pub colours_separate: bool,
}

impl Observations {
    /// Computes the mean time of all observations, in years: the trend is zero there.
    #[must_use]
    pub fn middle(&self) -> f64 {
        let all = || self.groups.iter().map(|group| group.years).chain(self.timed.iter().map(|timed| timed.years));
        all().sum::<f64>() / count(all().count().max(1))
    }
}
