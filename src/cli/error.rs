//! Why a command gave no answer.

use super::files::FileError;
use crate::chart::ChartError;
use crate::costing::CostingError;
use crate::period::NoSuchMonth;
use crate::pricing::error::{PricingError, TypedError, UnknownName};
use crate::quantity::TooLarge;
use crate::report::record::WriteError;
use crate::shop::writable::NotWritable;
use polars::error::PolarsError;
use rust_xlsxwriter::XlsxError;

/// An error of a command; its text is what a person reads.
#[derive(Debug, thiserror::Error)]
pub enum Error {
    /// The program was asked for something it cannot give; says what to type instead.
    #[error("{0}")]
    Usage(String),
    /// The shop's tables have errors, or cannot be changed as was asked.
    #[error("{0}")]
    Data(String),
    /// A figure does not fit its column.
    #[error(transparent)]
    TooLarge(#[from] TooLarge),
    /// A group-by or join failed.
    #[error(transparent)]
    Frame(#[from] PolarsError),
    /// The shop could not be costed.
    #[error(transparent)]
    Costing(#[from] CostingError),
    /// There is no price, list or quote.
    #[error(transparent)]
    Pricing(#[from] PricingError),
    /// Something was typed that cannot be read.
    #[error(transparent)]
    Typed(#[from] TypedError),
    /// A month typed by its name is not in the logs.
    #[error(transparent)]
    NoSuchMonth(#[from] NoSuchMonth),
    /// A chart could not be drawn.
    #[error(transparent)]
    Chart(#[from] ChartError),
    /// A record could not be written.
    #[error(transparent)]
    Record(#[from] WriteError),
    /// The page's template failed.
    #[error(transparent)]
    Page(#[from] minijinja::Error),
    /// A new shop's table could not be made.
    #[error(transparent)]
    Csv(#[from] csv::Error),
    /// A new shop's workbook could not be made.
    #[error(transparent)]
    Workbook(#[from] XlsxError),
    /// One of her tables cannot be changed.
    #[error("Nothing was written: {0}")]
    NotWritable(#[from] NotWritable),
    /// A file could not be written.
    #[error(transparent)]
    File(#[from] FileError),
}

impl Error {
    /// Makes an error of wrong usage.
    pub fn usage(text: impl Into<String>) -> Self {
        Self::Usage(text.into())
    }

    /// Errors in the shop's tables.
    pub fn data(text: impl Into<String>) -> Self {
        Self::Data(text.into())
    }

    /// Returns the exit code: 1 where the shop's data is at fault, else 2.
    pub fn code(&self) -> u8 {
        match self {
            Self::Data(_)
            | Self::NotWritable(_)
            | Self::TooLarge(_)
            | Self::Costing(CostingError::TooLarge(_))
            | Self::Pricing(PricingError::Costing(CostingError::TooLarge(_)))
            | Self::File(FileError::Overtaken(_)) => 1,
            Self::Usage(_)
            | Self::Frame(_)
            | Self::Costing(CostingError::Frame(_))
            | Self::Pricing(_)
            | Self::Typed(_)
            | Self::NoSuchMonth(_)
            | Self::Chart(_)
            | Self::Record(_)
            | Self::Page(_)
            | Self::Csv(_)
            | Self::Workbook(_)
            | Self::File(_) => 2,
        }
    }
}

impl From<UnknownName> for Error {
    fn from(error: UnknownName) -> Self {
        Self::Typed(error.into())
    }
}
