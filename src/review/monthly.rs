//! The review of a month or season: did the prices cover the time, which designs do not pay, and does it agree with
//! the maker's own books. The figures only; `build_review.rs` fills them in.

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
use crate::pricing::cost::Smallest;
use crate::quantity::millionths::{Minutes, Money};
use crate::quantity::{Month, Period};

/// A finished review.
#[derive(Debug, Clone)]
pub struct Review {
    /// Its days.
    pub period: Period,
    /// Name of the season with these days, if there is one.
    pub season: Option<String>,
    /// The target wage.
    pub target: Option<Money>,
    /// The headline.
    pub headline: Headline,
    /// By tier.
    pub tiers: WageTable,
    /// By design.
    pub designs: WageTable,
    /// Designs below target, the largest shortfall first.
    pub below_target: Vec<BelowTarget>,
    /// Minutes by stage of the orders handed over, the most first; last of all, work without a stage.
    pub stages: Vec<(Option<String>, Minutes)>,
    /// Unattended minutes logged in the period: never paid.
    pub rack_minutes: Minutes,
    /// Reconciliation with the maker's own books.
    pub reconciliation: Reconciliation,
    /// The change since another period, if asked for.
    pub bridge: Option<Bridge>,
    /// The month the logs begin in, where that is why there is no period before to compare with.
    pub logs_begin: Option<Month>,
    /// By theme.
    pub themes: WageTable,
    /// Month by month, to the end of the period.
    pub months: Vec<MonthRow>,
    /// Orders of the year that ends with the period, by size.
    pub orders_of_size: Vec<OrderOfSize>,
    /// The same year by classes of size.
    pub sizes: WageTable,
    /// The smallest order that covers its set-up, over that year.
    pub smallest_order: Option<Smallest>,
    /// The time that advised prices pay the target over.
    pub priced_over: Period,
    /// Prices of ingredients over that year, the most money first.
    pub item_prices: Vec<ItemPrices>,
    /// Minutes per piece, if they were learned.
    pub minutes: Option<MinutesTable>,
    /// Use beyond what was bought, the dearest first.
    pub shortfalls: Vec<Missing>,
    /// Differences that counts found, the dearest first.
    pub gaps: Vec<Missing>,
    /// What to do about it.
    pub advice: Vec<Advice>,
}

impl Review {
    /// Whether nothing was handed over and no deposit kept.
    #[must_use]
    pub fn is_empty(&self) -> bool {
        self.designs.rows.is_empty()
    }

    /// The owner's minutes that shared time brought to orders without hours of their own: counted, but in no hourly pay.
    #[must_use]
    pub(crate) fn minutes_of_unknown_orders(&self) -> Minutes {
        self.reconciliation.counted - self.headline.minutes
    }

    /// The owner's pay that orders without hours left: counted, but in no hourly pay.
    #[must_use]
    pub(crate) fn pay_of_unknown_orders(&self) -> Money {
        self.designs.all_in.owner_pay - self.headline.pay
    }

    /// Whether a larger minimum order could cover the set-up: some order of the year is as large as the smallest that does.
    #[must_use]
    pub(crate) fn can_minimum_cover_set_up(&self) -> bool {
        let largest = self.orders_of_size.iter().map(|order| order.pieces).max();
        self.smallest_order.and_then(Smallest::pieces).zip(largest).is_some_and(|(needed, largest)| needed <= largest)
    }
}
