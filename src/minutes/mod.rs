//! Minutes learned from whole-order hours: how long a piece of each design takes, with ranges.
//!
//! In the order of the data: [`observed`] reads a shop's orders and hours into [`observations`]; [`priors`] builds a
//! [`model`] of them; [`fit`] draws from its posterior. It uses the sampler in [`nuts`], started and scaled by an
//! [`approximation`] that replaces it for large shops and where sampling does not converge; [`diagnostics`] tell
//! whether the draws can be trusted. [`learned`] is the result: draws in minutes and their mean, with the
//! [`identifiability`] of each design. [`predicted`] compares each order with its expected minutes, and [`timing`]
//! finds what to time next, with the [`timed_noise`] of batches timed on their own.
//!
//! Results are the same bits on any machine and for any number of threads: a fixed seed ([`random`]), sums in one
//! order, and no function whose digits depend on the system. Floats end here: costing takes only the proportions that
//! it splits whole minutes by.

pub(crate) mod approximation;
mod cholesky;
mod curvature;
pub mod diagnostics;
pub mod fit;
pub(crate) mod identifiability;
pub mod learned;
pub mod mass_matrix;
mod mode;
pub mod model;
#[cfg(test)]
mod model_tests;
pub mod normal;
pub mod nuts;
pub mod observations;
pub mod observed;
mod pattern;
pub(crate) mod predicted;
pub mod priors;
pub mod random;
pub mod reparameterised;
mod sparse;
pub mod timed_noise;
pub mod timing;

pub use learned::{Draw, Learned, Unlearned, learn, learnable};
