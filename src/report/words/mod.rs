//! The language of results, once: money, numbers, counts, lists, periods and verdicts as a maker reads them.

mod amounts;
mod changes;
mod counts;
mod lacking;
mod lists;
mod money;
mod numbers;
mod parts;
mod periods;
mod untied;
mod verdicts;

pub use amounts::amount;
pub use changes::{price_change, volume_change};
pub use counts::{capitalised, colours, counted, in_letters, number, number_unless_zero};
pub use lacking::{lacking_by_name, lacking_in_numbers};
pub use lists::{NAMED, ORDERS_NAMED, and, first_of};
pub use money::{Currency, UNKNOWN};
pub use numbers::{
    NO_BREAK, chance_in_words, estimate, estimate_range, estimated_percent, hours, percent, percent_to_tenths, pieces, spell, tenths,
    unbroken,
};
pub use periods::{during, month_in_short, nothing_handed_over, orders_of, over, period_as_noun, period_in_words};
pub use untied::{left_out_in_words, untied_in_words, waiting_in_words};
pub use verdicts::{OPEN, beside_target, range_and_certainty, verdict, verdict_and_certainty, verdict_of};
