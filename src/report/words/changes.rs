//! Changes that were asked for, in words.

use crate::pricing::change::Change;
use crate::quantity::millionths::{MILLION, Minutes};
use crate::quantity::ratio::divide;
use crate::reading::problem::printable;

/// A change in words: `butter at +20 %`.
#[must_use]
pub fn change(change: &Change) -> String {
    let percent = divide(change.times.numerator * 100 * MILLION, change.times.divisor).unwrap_or_default() - 100 * MILLION;
    let percent = format!("{}{} %", if percent < 0 { "−" } else { "+" }, Minutes(percent.abs()).decimal().normalize());
    format!("{} at {percent}", printable(&change.of))
}
