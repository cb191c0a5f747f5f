//! Works out what each cookie design cost, what it paid per hour, whether the prices cover the maker's time, and what
//! the next prices should be.
//!
//! **The data's path**, in the order of the files. [`reading`] turns the bytes of a folder into cells, [`shop`] the
//! cells into typed tables checked against each other, and [`costing`] the tables into facts: one row per line of
//! each order handed over. [`minutes`] learns from whole orders' hours what a piece of each design takes. [`review`]
//! asks the facts about the past, [`pricing`] about the next prices; [`report`] and [`chart`] show the answers, and
//! [`cli`] is the way in. Money and time are exact ([`quantity`]). `start` makes the files of a new shop.
//!
//! **Where a purchase becomes a cent on a cookie:**
//! 1. `shop/purchases.rs` reads the row: item, amount, unit, money paid. `shop/load.rs` reads the tables in turn.
//! 2. [`costing::landed`] adds its share of shipping and tax to the price (landed cost).
//! 3. [`costing::bill`] says how much of the item a piece, an order and a delivery use, in its base unit.
//! 4. [`costing::stock`] prices each day's use under the shop's cost flow.
//! 5. [`costing::materials`] shares that cost over the day's [`costing::lines`] by [`quantity::share`] (largest
//!    remainder), to the last stored digit. Here is the cent.
//! 6. [`costing::facts`] stores it as `ingredients` or `packaging` of the line.
//! 7. [`review::sums`] adds the facts up by design, and [`review::row`] makes pay, wage and fair price of the sums.

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
mod start;
