//! Questions over facts: wage views, the monthly review, and what the records lack.
//!
//! [`sums`] groups the facts by [`key`], [`row`] judges a group and [`certainty`] says how surely, [`wage`] is the table of all groups with its totals;
//! [`monthly`] puts a review together from tables, its [`headline`], the designs [`below_target`] a decision and what
//! [`reconciliation`] it to the logs; the [`bridge`] tells what changed since another period; [`minutes`] tells what a piece of each design takes, [`stage_hours`] what was logged. Results are finished figures; how they are shown is the reports' business.

pub mod advice;
pub mod below_target;
pub mod bridge;
mod build_review;
pub mod certainty;
pub mod decisions;
mod find_advice;
pub mod first_rows;
pub mod headline;
pub mod hours_by;
pub mod item_prices;
pub mod key;
pub mod minutes;
pub mod monthly;
pub mod months;
pub mod order_sizes;
pub mod problem_groups;
pub mod reconciliation;
pub mod row;
pub mod sold_together;
pub mod stage_hours;
pub mod stock;
pub mod sums;
pub mod untied;
pub mod verdict;
pub mod wage;

pub use bridge::{BasePeriod, Bridge};
pub use key::{By, Key};
pub use monthly::Review;
pub use row::Row;
pub use verdict::Verdict;
pub use wage::{Question, Sort, WageTable};
