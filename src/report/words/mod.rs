//! The language of results, once: money, numbers, counts, lists, periods and verdicts as a maker reads them.

mod changes;
mod counts;
mod money;
mod numbers;
mod parts;
mod periods;
mod untied;
mod verdicts;

pub use changes::{price_change, volume_change};
pub use counts::{and, capitalised, colours, counted, in_letters, number};
pub use money::{Currency, UNKNOWN};
pub use numbers::{chance_in_words, estimate, hours, percent, spell, tenths};
pub use periods::{during, month_in_short, nothing_handed_over, orders_of, period_as_noun, period_in_words};
pub use untied::{left_out_in_words, untied_in_words};
pub use verdicts::{OPEN, RANGE_AND_CERTAINTY, beside_target, verdict, verdict_and_certainty, verdict_of};
