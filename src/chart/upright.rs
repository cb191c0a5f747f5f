//! An axis of amounts up the page.

use rust_decimal::Decimal;

use super::axis::{self, AmountStyle, Scale};
use super::canvas::{Align, Canvas, Layer, Words};
use super::font::Weight;
use super::text;
use super::theme::{BASELINE, GRID, SMALL, SOFT_INK};

/// From one tick to the next, at least.
const APART: f64 = 34.0;
/// A label wider than this is cut short.
const LABEL_AT_MOST: f64 = 100.0;
/// From the labels to what they label.
const GAP: f64 = 8.0;

/// An axis from `bottom` up to `top`.
#[derive(Debug)]
pub(super) struct Upright {
    scale: Scale,
    /// Amounts and texts of the ticks.
    ticks: Vec<(Decimal, String)>,
    first: Decimal,
    last: Decimal,
}

impl Upright {
    /// Over `low..=high` and zero, ending on ticks.
    pub(super) fn new((low, high): (Decimal, Decimal), (top, bottom): (f64, f64), amounts: &AmountStyle) -> Self {
        let most = (1..=8).rev().find(|most| f64::from(*most) * APART <= bottom - top).unwrap_or(1);
        // The range may end on a tick at either end, which makes two steps more.
        let ticks = axis::ticks(low, high, most, amounts.decimals);
        let first = ticks.values.first().copied().unwrap_or_default().min(low);
        let last = ticks.values.last().copied().unwrap_or_default().max(high);
        let label = |tick: Decimal| text::elide(&text::clean(&amounts.write(tick, ticks.places)), Weight::Regular, SMALL, LABEL_AT_MOST);
        let labelled = ticks.values.iter().map(|tick| (*tick, label(*tick))).collect();
        Self { scale: Scale::new(first, last, bottom, top), ticks: labelled, first, last }
    }

    /// The room its labels take, left of what they label.
    pub(super) fn room(&self) -> f64 {
        self.ticks.iter().map(|(_, label)| text::width(label, Weight::Regular, SMALL)).fold(0.0, f64::max) + GAP
    }

    /// Where `amount` falls; outside the range, at its nearer end.
    pub(super) fn y(&self, amount: Decimal) -> f64 {
        self.scale.x(amount)
    }

    /// Where zero falls.
    pub(super) fn zero(&self) -> f64 {
        self.scale.zero()
    }

    /// The least and the greatest amount on the axis.
    pub(super) fn ends(&self) -> (Decimal, Decimal) {
        (self.first, self.last)
    }

    /// Grid lines from `left` to `right`, the line at zero, and the labels before them.
    pub(super) fn draw(&self, canvas: &mut Canvas, left: f64, right: f64) {
        for (tick, label) in &self.ticks {
            let y = self.y(*tick);
            canvas.line(Layer::Ground, [(left, y), (right, y)], 1.0, GRID);
            canvas.words((left - GAP, y + 4.5), Words::new(label.clone(), SMALL).ink(SOFT_INK).align(Align::Right));
        }
        canvas.line(Layer::Over, [(left, self.zero()), (right, self.zero())], 1.5, BASELINE);
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::chart::samples::{dec, dollars};

    #[test]
    fn more_is_higher_and_labels_keep_apart() {
        for (low, high, height) in [("0", "24", 200.0), ("-9", "3", 120.0), ("0", "0", 90.0), ("-1000000000", "0.01", 500.0)] {
            let axis = Upright::new((dec(low), dec(high)), (100.0, 100.0 + height), &dollars());
            assert!(axis.y(dec(high)) <= axis.y(dec(low)));
            assert!((axis.y(axis.last) - 100.0).abs() < 1e-9 || low == high);
            let places: Vec<_> = axis.ticks.iter().map(|(tick, _)| axis.y(*tick)).collect();
            assert!(places.windows(2).all(|pair| pair[0] - pair[1] >= 14.0), "{low}..{high}: {places:?}");
        }
    }

    #[test]
    fn an_amount_beyond_any_tick_is_still_on_the_page() {
        let axis = Upright::new((Decimal::MIN, Decimal::MAX), (0.0, 100.0), &dollars());
        assert!((0.0..=100.0).contains(&axis.y(Decimal::MAX)) && axis.ends() == (Decimal::MIN, Decimal::MAX));
        assert!(axis.room() <= LABEL_AT_MOST + GAP);
    }
}
