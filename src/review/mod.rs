//! Questions over the facts: hourly pay by any group, and the review of a month or season. Results are finished
//! figures; how they are worded and drawn is up to the reports.
//!
//! [`sums`] groups the facts by [`key`]; [`row`] computes a group's figures and `verdict`, and [`certainty`] their
//! range; [`wage`] is the table of all groups with its totals.
//!
//! `monthly` is a whole review: its [`headline`], the designs [`below_target`], the [`advice`] that follows, and
//! the `reconciliation` with the maker's own books; [`untied`] names hours and costs not tied to an order. The
//! [`bridge`] explains the change since another period, [`minutes`] shows minutes per piece, [`stage_hours`] the
//! hours as logged.

pub mod advice;
pub mod below_target;
pub mod bridge;
mod build_review;
pub mod certainty;
pub mod decisions;
mod find_advice;
pub mod first_rows;
pub mod headline;
pub(crate) mod hours_by;
pub mod item_prices;
pub mod key;
pub mod lacking;
pub mod list_prices;
pub mod minutes;
mod monthly;
pub mod months;
pub(crate) mod order_sizes;
pub(crate) mod problem_groups;
mod reconciliation;
pub mod row;
pub(crate) mod sold_together;
pub(crate) mod stage_hours;
pub mod stock;
pub mod sums;
pub(crate) mod untied;
mod verdict;
pub mod wage;

pub use bridge::{BasePeriod, Bridge};
pub use key::{By, Key};
pub use monthly::Review;
pub use row::Row;
pub use verdict::Verdict;
pub use wage::{Question, Sort, WageTable};
