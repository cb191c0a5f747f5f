//! The review of a month or season: did the prices cover the time, what does not pay, and what ties it to the logs.

use super::advice::Advice;
use super::below_target::BelowTarget;
use super::bridge::Bridge;
use super::headline::Headline;
use super::item_prices::ItemPrices;
use super::minutes::MinutesTable;
use super::months::MonthRow;
use super::order_sizes::OrderOfSize;
use super::reconciliation::Reconciliation;
use super::stock::Missing;
use super::wage::WageTable;
use crate::pricing::order_size::Smallest;
use crate::quantity::Period;
use crate::quantity::millionths::{Minutes, Money};

/// A finished review.
#[derive(Debug, Clone)]
pub struct Review {
    /// Which days.
    pub period: Period,
    /// The season's name, where the days are one's.
    pub season: Option<String>,
    /// The wage aimed at.
    pub target: Option<Money>,
    /// The answer.
    pub headline: Headline,
    /// By tier.
    pub tiers: WageTable,
    /// By design.
    pub designs: WageTable,
    /// Designs that do not pay, most short first.
    pub below_target: Vec<BelowTarget>,
    /// Hours by stage of the orders handed over, most first; the last name is blank for work without a stage.
    pub stages: Vec<(String, Minutes)>,
    /// Waiting, logged in the period: never paid.
    pub rack_minutes: Minutes,
    /// What ties it to her own sums.
    pub reconciliation: Reconciliation,
    /// What changed since another period, where it was asked for.
    pub bridge: Option<Bridge>,
    /// Orders handed over that no hours name.
    pub orders_without_hours: Vec<String>,
    /// By theme.
    pub themes: WageTable,
    /// Month by month, to the end of the period.
    pub months: Vec<MonthRow>,
    /// Orders of the year that ends with the period, by size.
    pub orders_of_size: Vec<OrderOfSize>,
    /// The same year by classes of size.
    pub sizes: WageTable,
    /// The smallest order worth its set-up, over that year.
    pub smallest_order: Option<Smallest>,
    /// What ingredients cost over that year, dearest first.
    pub item_prices: Vec<ItemPrices>,
    /// Minutes a piece, where they were learned.
    pub minutes: Option<MinutesTable>,
    /// What orders took beyond what was bought, dearest first.
    pub shortfalls: Vec<Missing>,
    /// What counts found missing, dearest first.
    pub gaps: Vec<Missing>,
    /// What is worth doing.
    pub advice: Vec<Advice>,
}

impl Review {
    /// Whether nothing was handed over, and no deposit kept.
    #[must_use]
    pub fn is_empty(&self) -> bool {
        self.designs.rows.is_empty()
    }
}
