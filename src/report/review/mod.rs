//! The review as text, charts and a page: each part of it in words once, shown in several places.

pub mod answer;
pub(crate) mod cautions;
pub mod charts;
pub mod decisions;
pub mod document;
pub mod lacks;
pub mod page;
pub mod stages;
pub mod tiers;
pub(crate) mod ties;
pub mod worth;

pub use answer::answer;
pub use document::review_document;
