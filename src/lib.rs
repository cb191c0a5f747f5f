//! What each cookie design cost, what it paid an hour, and whether the prices cover the time.

pub mod chart;
pub mod cli;
pub mod costing;
pub mod minutes;
pub mod pricing;
pub mod quantity;
pub mod reading;
pub mod report;
pub mod review;
pub mod shop;
