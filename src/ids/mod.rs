//! Typed ids, the names they stand for, and vectors indexed by them: an order's id cannot be used for a design.

mod id;
mod id_vec;
mod names;

pub use id::{Channel, Design, Helper, Id, Item, Order, Receipt, Source, Stage, Text, Theme, Tier};
pub use id_vec::IdVec;
pub use names::Names;
