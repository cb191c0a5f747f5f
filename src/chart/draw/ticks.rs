//! Ticks: which amounts an axis names.
//!
//! They are exact decimals; an amount becomes a binary float only as a place on the page.

use rust_decimal::Decimal;

/// Returns the range from the least to the greatest amount drawn, and zero. Marks always fit; an interval may widen the range by four
/// tenths at either end, for one wild interval must not flatten all the rest.
pub fn range(marks: impl Iterator<Item = Decimal>, intervals: impl Iterator<Item = (Decimal, Decimal)>) -> (Decimal, Decimal) {
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
pub(crate) struct Ticks {
    pub values: Vec<Decimal>,
    /// Decimals that tell the ticks apart: none where the step is whole.
    pub places: u32,
}

/// Finds at most about `most` steps of 1, 2 or 5 × a power of ten over `low..=high`, both widened to take in zero. A range
/// of nothing, or too large to count in, has zero alone.
pub(crate) fn ticks(low: Decimal, high: Decimal, most: u32, decimals: u32) -> Ticks {
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

/// Returns `ticks` without the first and the last where more than half of the step to it would be empty, as long as zero and
/// two others are left.
pub(crate) fn without_empty_ends(ticks: &[Decimal], low: Decimal, high: Decimal) -> &[Decimal] {
    const AT_MOST: Decimal = Decimal::from_parts(5, 0, 0, false, 1);
    let mut kept = ticks;
    let is_empty = |tick: Decimal, inner: Decimal, end: Decimal| {
        let step = tick.saturating_sub(inner).abs();
        tick.saturating_sub(end).abs() > step.saturating_mul(AT_MOST)
    };
    if let [first, next, rest @ ..] = kept
        && rest.len() > 1
        && *next <= Decimal::ZERO
        && is_empty(*first, *next, low)
    {
        kept = &kept[1..];
    }
    if let [rest @ .., before, last] = kept
        && rest.len() > 1
        && *before >= Decimal::ZERO
        && is_empty(*last, *before, high)
    {
        kept = &kept[..kept.len() - 1];
    }
    kept
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::chart::tests::samples::dec;

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
    fn an_axis_does_not_go_on_to_a_tick_far_beyond_what_is_drawn() {
        let ticks = |low: i64, high: i64, values: &[i64]| {
            let values: Vec<_> = values.iter().copied().map(Decimal::from).collect();
            let kept = without_empty_ends(&values, Decimal::from(low), Decimal::from(high)).to_vec();
            kept.into_iter().map(|tick| i64::try_from(tick).unwrap()).collect::<Vec<_>>()
        };
        assert_eq!(ticks(-112, 1000, &[-500, 0, 500, 1000]), [0, 500, 1000]);
        assert_eq!(ticks(-300, 1000, &[-500, 0, 500, 1000]), [-500, 0, 500, 1000]);
        assert_eq!(ticks(-112, 1010, &[-500, 0, 500, 1000, 1500]), [0, 500, 1000]);
        assert_eq!(ticks(-1, 1, &[-500, 0, 500]), [-500, 0, 500], "three are few enough");
        assert_eq!(ticks(0, 1, &[0, 500]), [0, 500]);
    }
}
