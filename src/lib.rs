//! What each cookie design cost, what it paid an hour, whether the prices cover the time, and what they should be next.
//!
//! A folder's bytes become cells ([`reading`]), cells a checked [`shop`], and [`costing`] turns the shop into facts, one row a
//! line of each order handed over, whole hours split by [`minutes`] learned from the logs. [`review`] asks what the facts say of
//! the past and [`pricing`] what they say of the next price list; [`report`] and [`chart`] show the answers, and [`cli`] is the
//! door. Money and time are exact ([`quantity`]).

pub mod chart;
pub mod cli;
pub mod costing;
pub mod ids;
pub mod minutes;
pub mod period;
pub mod pricing;
pub mod quantity;
pub mod reading;
pub mod report;
pub mod review;
pub mod shop;
