//! The axis of amounts: its range, its ticks, and where an amount falls.
//!
//! Ticks are exact decimals; an amount becomes a binary float only as a place on the page.

use rust_decimal::Decimal;
use rust_decimal::prelude::ToPrimitive;

/// How an amount of money is written at a tick: `prefix`, digits with `decimals` places (none where all ticks are
/// whole), `suffix`. Signs are part of the text: `"$"` before, `" kr"` after.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct AmountStyle {
    /// Text before the digits, such as `$`.
    pub prefix: String,
    /// Text after the digits, such as ` kr`.
    pub suffix: String,
    /// Places after the point, as many as the currency has.
    pub decimals: u32,
}

impl AmountStyle {
    /// `amount` with `places` decimals, thousands apart by commas, a minus sign before the currency's.
    pub(super) fn write(&self, amount: Decimal, places: u32) -> String {
        let rounded = amount.round_dp_with_strategy(places, rust_decimal::RoundingStrategy::MidpointAwayFromZero);
        let digits = format!("{:.*}", usize::try_from(places).unwrap_or(0), rounded.abs());
        let (whole, fraction) = digits.split_once('.').map_or((digits.as_str(), None), |(w, f)| (w, Some(f)));
        let mut written = String::new();
        if rounded.is_sign_negative() && !rounded.is_zero() {
            written.push('−');
        }
        written.push_str(&self.prefix);
        for (at, digit) in whole.chars().enumerate() {
            if at > 0 && (whole.len() - at) % 3 == 0 {
                written.push(',');
            }
            written.push(digit);
        }
        if let Some(fraction) = fraction {
            written.push('.');
            written.push_str(fraction);
        }
        written.push_str(&self.suffix);
        written
    }
}

/// From the least to the greatest amount drawn, and zero. Marks always fit; an interval may widen the range by four
/// tenths at either end, for one wild interval must not flatten all the rest.
pub(super) fn range(marks: impl Iterator<Item = Decimal>, intervals: impl Iterator<Item = (Decimal, Decimal)>) -> (Decimal, Decimal) {
    let (low, high) = marks.fold((Decimal::ZERO, Decimal::ZERO), |(low, high), mark| (low.min(mark), high.max(mark)));
    let (lowest, highest) = intervals.fold((low, high), |(lowest, highest), (low, high)| (lowest.min(low), highest.max(high)));
    let span = high.saturating_sub(low);
    if span.is_zero() {
        return (lowest, highest);
    }
    let widest = span.checked_mul(Decimal::new(4, 1)).unwrap_or(Decimal::ZERO);
    (lowest.max(low.saturating_sub(widest)), highest.min(high.saturating_add(widest)))
}

/// Ticks at equal steps, from the first at or below the range to the last at or above it. Zero is one of them.
#[derive(Debug, Clone, PartialEq, Eq)]
pub(super) struct Ticks {
    pub(super) values: Vec<Decimal>,
    /// Decimals that tell the ticks apart: none where the step is whole.
    pub(super) places: u32,
}

/// At most about `most` steps of 1, 2 or 5 × a power of ten over `low..=high`, both widened to take in zero. A range
/// of nothing, or too large to count in, has zero alone.
pub(super) fn ticks(low: Decimal, high: Decimal, most: u32, decimals: u32) -> Ticks {
    let (low, high) = (low.min(Decimal::ZERO), high.max(Decimal::ZERO));
    try_ticks(low, high, most.max(1), decimals).unwrap_or_else(|| Ticks { values: vec![Decimal::ZERO], places: 0 })
}

fn try_ticks(low: Decimal, high: Decimal, most: u32, decimals: u32) -> Option<Ticks> {
    let least = high.checked_sub(low).filter(|span| !span.is_zero())?.checked_div(Decimal::from(most))?;
    // A hundred-thousandth of a unit is finer than any price.
    let mut power = Decimal::new(1, 5);
    let step = 'found: loop {
        for digit in [1, 2, 5] {
            let step = power.checked_mul(Decimal::from(digit))?;
            if step >= least {
                break 'found step.normalize();
            }
        }
        power = power.checked_mul(Decimal::TEN)?;
    };
    let first = low.checked_div(step)?.floor().checked_mul(step)?;
    let mut values = vec![first];
    let mut tick = first;
    while tick < high {
        tick = tick.checked_add(step)?;
        values.push(tick);
    }
    Some(Ticks { values, places: if step.scale() == 0 { 0 } else { step.scale().max(decimals) } })
}

/// From amounts to places across the page.
#[derive(Debug, Clone, Copy)]
pub(super) struct Scale {
    low: f64,
    high: f64,
    pub(super) left: f64,
    pub(super) right: f64,
}

impl Scale {
    /// `low` falls on `left`, `high` on `right`; both are widened to take in zero.
    pub(super) fn new(low: Decimal, high: Decimal, left: f64, right: f64) -> Self {
        let low = as_place(low.min(Decimal::ZERO));
        let high = as_place(high.max(Decimal::ZERO));
        let high = if high > low { high } else { low + 1.0 };
        Self { low, high, left, right }
    }

    /// Where `amount` falls; outside the range, at its nearer end.
    pub(super) fn x(&self, amount: Decimal) -> f64 {
        let share = (as_place(amount) - self.low) / (self.high - self.low);
        self.left + share.clamp(0.0, 1.0) * (self.right - self.left)
    }

    /// Where zero falls.
    pub(super) fn zero(&self) -> f64 {
        self.x(Decimal::ZERO)
    }
}

fn as_place(amount: Decimal) -> f64 {
    amount.to_f64().unwrap_or(0.0)
}

#[cfg(test)]
mod tests {
    use super::*;

    fn dec(text: &str) -> Decimal {
        text.parse().unwrap()
    }

    fn dollars() -> AmountStyle {
        AmountStyle { prefix: "$".into(), suffix: String::new(), decimals: 2 }
    }

    #[test]
    fn amounts_are_written_exactly() {
        assert_eq!(dollars().write(dec("1234567.5"), 2), "$1,234,567.50");
        assert_eq!(dollars().write(dec("-0.004"), 2), "$0.00");
        assert_eq!(dollars().write(dec("-20"), 0), "−$20");
        assert_eq!(dollars().write(dec("0.125"), 2), "$0.13");
        let crowns = AmountStyle { prefix: String::new(), suffix: " kr".into(), decimals: 0 };
        assert_eq!(crowns.write(dec("250"), 0), "250 kr");
        assert_eq!(dollars().write(Decimal::MAX, 0), "$79,228,162,514,264,337,593,543,950,335");
    }

    #[test]
    fn ticks_are_round_cover_the_range_and_hold_zero() {
        let range = ["-1000000", "-7.31", "-0.02", "0", "0.003", "4.99", "23.4", "100", "987654321"];
        for (low, high) in range.iter().flat_map(|low| range.iter().map(move |high| (dec(low), dec(high)))) {
            let Ticks { values, places } = ticks(low, high, 6, 2);
            assert!(values.contains(&Decimal::ZERO), "{low}..{high}: {values:?}");
            assert!(values.iter().all(|tick| tick.round_dp(places) == *tick), "{values:?} at {places} places");
            assert!(values.len() <= 9, "{low}..{high}: {values:?}");
            assert!(values[0] <= low.min(Decimal::ZERO) && *values.last().unwrap() >= high.max(Decimal::ZERO));
            assert!(values.windows(2).all(|pair| pair[1] - pair[0] == values[1] - values[0]));
        }
        let plain = ticks(Decimal::ZERO, dec("23.4"), 6, 2);
        assert_eq!(plain.values, ["0", "5", "10", "15", "20", "25"].map(dec));
        assert_eq!(plain.places, 0);
        assert_eq!(ticks(Decimal::ZERO, dec("2.2"), 6, 2).places, 2);
    }

    #[test]
    fn ranges_of_nothing_or_too_large_for_the_arithmetic_have_zero_alone() {
        assert_eq!(ticks(Decimal::MIN, Decimal::MAX, 6, 2).values, [Decimal::ZERO]);
        assert_eq!(ticks(Decimal::ZERO, Decimal::ZERO, 6, 2), Ticks { values: vec![Decimal::ZERO], places: 0 });
    }

    #[test]
    fn places_run_from_left_to_right_and_stay_within() {
        let scale = Scale::new(dec("-10"), dec("30"), 100.0, 500.0);
        for (amount, x) in [("-10", 100.0), ("0", 200.0), ("15", 350.0), ("30", 500.0), ("99", 500.0), ("-99", 100.0)] {
            assert!((scale.x(dec(amount)) - x).abs() < 1e-9, "{amount}");
        }
        let nothing = Scale::new(Decimal::ZERO, Decimal::ZERO, 100.0, 500.0);
        assert!((nothing.zero() - 100.0).abs() < 1e-9);
        let huge = Scale::new(Decimal::MIN, Decimal::MAX, 100.0, 500.0);
        assert!((huge.zero() - 300.0).abs() < 1e-9);
    }
}
