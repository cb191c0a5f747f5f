//! Questions over facts: wage views, the monthly review, and what the records lack.
//!
//! [`sums`] groups the facts, [`row`] judges a group, [`wage`] is the table of all groups with its totals.
//! Results are finished figures; how they are shown is the reports' business.

pub mod row;
pub mod sums;
pub mod wage;

pub use row::{Row, Verdict};
pub use wage::{By, Question, WageTable};
