//! Why a shop cannot be costed, or its facts not be asked.

use crate::quantity::TooLarge;
use polars::error::PolarsError;

/// An error of costing, or of a question over facts.
#[derive(Debug, thiserror::Error)]
pub enum CostingError {
    /// A figure outgrows what can be held exactly.
    #[error(transparent)]
    TooLarge(#[from] TooLarge),
    /// A frame could not be built, grouped or read.
    #[error(transparent)]
    Frame(#[from] PolarsError),
}
