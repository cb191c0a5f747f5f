//! What each cookie design cost, what it paid an hour, and whether the prices cover the time.

pub mod costing;
pub mod quantity;
pub mod reading;
pub mod shop;
