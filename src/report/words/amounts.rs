//! Amounts of an item, in the unit it is kept in.

use super::number;
use crate::quantity::unit::Dimension;
use crate::review::stock::Missing;
use rust_decimal::prelude::ToPrimitive;
use rust_decimal::{Decimal, RoundingStrategy};

/// Writes how much of an item is missing: `1,250 g`, `3`, `0.75 kg`; to a whole unit, or two decimals below ten.
#[must_use]
pub fn amount(missing: &Missing) -> String {
    // Amounts are kept in millionths of a millionth.
    let amount = Decimal::try_from_i128_with_scale(missing.quantity.amount.0.abs(), 12).unwrap_or_default();
    let decimals = if amount < Decimal::TEN { 2 } else { 0 };
    let rounded = amount.round_dp_with_strategy(decimals, RoundingStrategy::MidpointAwayFromZero).normalize();
    let written = rounded.to_i64().filter(|_| rounded.is_integer()).map_or_else(|| rounded.to_string(), number);
    if missing.measured == Dimension::Count { written } else { format!("{written} {}", missing.measured.base_unit()) }
}
