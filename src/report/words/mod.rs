//! The language of results, once: money, numbers, counts, lists, periods and verdicts as a maker reads them.

mod changes;
mod counts;
mod money;
mod numbers;
mod periods;

pub use changes::change;
pub use counts::{and, capitalised, colours, counted, in_letters};
pub use money::{Currency, UNKNOWN};
pub use numbers::{chance_in_words, estimate, hours, percent, spell, tenths};
pub use periods::{months_in_words, orders_of, period_in_words};
