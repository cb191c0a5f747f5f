//! Money, minutes, amounts, units, weights and periods: exact, checked, and free of files and clocks.
//!
//! Money and minutes are whole millionths held in 64 bits, stock amounts whole trillionths of a base
//! unit held in 128. Products and quotients go through [`ratio`], which never wraps and rounds half away
//! from zero; totals are divided by [`share`] alone, into parts that add up to the total.

pub mod amount;
pub mod calendar;
pub mod dozens;
mod exact;
pub mod factor;
pub mod fraction;
pub mod household;
pub mod millionths;
pub mod month_names;
pub(crate) mod month_words;
pub mod number;
pub mod ratio;
pub mod share;
pub mod unit;
mod units;

pub use amount::Amount;
pub use calendar::{Day, Month, Period};
pub use factor::Factor;
pub use millionths::{Minutes, Money};
pub use number::{Percent, Price};
pub use ratio::TooLarge;
