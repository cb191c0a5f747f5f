//! Why a price cannot be worked out, and what is wrong with what was typed.

use crate::costing::CostingError;
use crate::quantity::{Day, Percent, TooLarge};
use polars::prelude::PolarsError;
use thiserror::Error;

/// Why there is no price, list or quote.
#[derive(Debug, Error)]
pub enum PricingError {
    /// The shop cannot be costed, or a figure does not fit.
    #[error(transparent)]
    Costing(#[from] CostingError),
    /// Nothing was sold in the season at a price.
    #[error(
        "nothing with a price was sold in this period, so there is nothing to price; add orders to orders.csv, or choose other days with --from"
    )]
    NothingSold,
    /// No order of the season has hours.
    #[error("no order of this period has hours, so no fair price can be worked out; log minutes by order in hours.csv")]
    NoHours,
    /// Designs without a tier to stay in.
    #[error("--keep leaves designs in their tiers, but designs.csv has no tier for {}; write one there, or leave --keep out", .0.join(", "))]
    NoTiers(Vec<String>),
    /// Discounts and fees leave nothing of a list price.
    #[error("discounts and fees took all that was charged in this period, so no price would be high enough")]
    NothingKept,
    /// So many rising prices do not lie under the cap.
    #[error("no list with that many tiers fits under {}; raise it with --max-rise, or ask for fewer tiers with --tiers", cap(*.0))]
    Capped(Option<Percent>),
    /// A design, or a tier, whose first list price starts after the day asked for.
    #[error("{key} has no list price on {day}; tiers.csv gives its first from {first}")]
    NotYetListed {
        /// Its name.
        key: String,
        /// The day asked for.
        day: Day,
        /// The day its first price starts.
        first: Day,
    },
    /// A design, or a tier, that has no list price and was not sold.
    #[error("{0} has no list price and was not sold last season; add its tier's price to tiers.csv")]
    NeverPriced(String),
}

impl From<TooLarge> for PricingError {
    fn from(error: TooLarge) -> Self {
        Self::Costing(error.into())
    }
}

impl From<PolarsError> for PricingError {
    fn from(error: PolarsError) -> Self {
        Self::Costing(error.into())
    }
}

fn cap(most: Option<Percent>) -> String {
    most.map_or_else(|| "these prices".to_owned(), |rise| format!("a {rise} cap"))
}

/// What is wrong with what was typed, and what to write instead.
#[derive(Debug, Clone, PartialEq, Eq, Error)]
pub enum TypedError {
    /// No change of a price.
    #[error("'{0}' is not a change of price; write it as \"butter +20%\" or \"eggs x2\"")]
    PriceChange(String),
    /// No share to leave out.
    #[error("'{0}' does not say how many fewer; write it as \"character 20%\" or \"orders 10%\"")]
    Fewer(String),
    /// No percentage.
    #[error("'{0}' is not a percentage; write it as 15%")]
    Percent(String),
    /// A name that is not known.
    #[error(transparent)]
    Unknown(#[from] UnknownName),
    /// A set without parts; with one of the shop's own as it could be written.
    #[error("the set is empty; write it as \"{0}\"")]
    EmptySet(String),
    /// No part of a set.
    #[error("'{0}' is no part of a set; write how many and of what: \"6 numeral\", \"1 dozen letter\", \"4 crane:character\"")]
    Part(String),
    /// Too few or too many pieces.
    #[error("'{text}' asks for {pieces} pieces; write a number from 1 to {most}")]
    Pieces {
        /// As typed.
        text: String,
        /// How many.
        pieces: i64,
        /// The most there may be.
        most: i64,
    },
    /// Two parts without a comma between them.
    #[error("'{text}' looks like more than one part; put commas between them: \"{example}\"")]
    TwoParts {
        /// As typed.
        text: String,
        /// As it could be written.
        example: String,
    },
    /// A tier where a new design's name belongs.
    #[error("{tier} is a tier; write \"{pieces} {tier}\" for any of it, or the new design's own name")]
    IsTier {
        /// The tier.
        tier: String,
        /// How many pieces were asked for.
        pieces: i64,
    },
    /// A tier given to a design that is known.
    #[error("{typed} is no new design; leave the tier out: \"{pieces} {design}\"")]
    IsKnown {
        /// As typed.
        typed: String,
        /// The design.
        design: String,
        /// How many pieces were asked for.
        pieces: i64,
    },
    /// A design that may be new, without its tier.
    #[error("{unknown}; if it is new, name its tier: \"{example}\"")]
    NewWithoutTier {
        /// The name.
        unknown: UnknownName,
        /// As it could be written.
        example: String,
    },
}

/// A name that is none of those known.
#[derive(Debug, Clone, PartialEq, Eq, Error)]
#[error("'{text}' is {what}; {nearest}")]
pub struct UnknownName {
    /// As typed.
    pub text: String,
    /// What it is none of.
    pub what: &'static str,
    /// What may have been meant.
    pub nearest: Nearest,
}

/// What may have been meant by a name that is not known.
#[derive(Debug, Clone, PartialEq, Eq, Error)]
pub enum Nearest {
    /// The known name nearest to it.
    #[error("did you mean {0}?")]
    Name(String),
    /// No name is known.
    #[error("the shop has none")]
    None,
    /// A few names, none of them near.
    #[error("there are: {}", .0.join(", "))]
    Any(Vec<String>),
    /// Many names, none of them near.
    #[error("write it as your tables do")]
    AsInTables,
}
