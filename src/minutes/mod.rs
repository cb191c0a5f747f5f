//! Minutes learned from whole-order hours: what a piece of each design takes, with honest error bars.
//!
//! [`observed`] reads a shop's orders and hours into [`observations`]; [`priors`] makes them a [`model`]; [`fit`] draws
//! from its posterior, by the sampler in [`nuts`] started and scaled by an [`approximation`] that takes its place in
//! large shops and where sampling does not settle, and by [`diagnostics`] says whether the draws can be trusted.
//! [`learned`] is the result: draws in minutes, their mean, and which designs the orders tell [`identifiability`]; [`predicted`]
//! sets them against each order and [`timing`] says what to time next.
//!
//! Results are the same bits on any machine and for any number of threads: a fixed seed ([`random`]), sums in one
//! order, and no function whose digits depend on the system. Floats end in this room: costing takes from it nothing but
//! the proportions it splits whole minutes by.

pub mod approximation;
mod cholesky;
mod curvature;
pub mod diagnostics;
pub mod fit;
pub mod identifiability;
pub mod learned;
mod mode;
pub mod model;
pub mod normal;
pub mod nuts;
pub mod observations;
pub mod observed;
pub mod predicted;
pub mod priors;
pub mod random;
mod sparse;
pub mod timing;

pub use learned::{Draw, Learned, Unlearned, learn, learnable};
