//! An axis: its range, its ticks, and where an amount falls, across the page or up it.

use rust_decimal::Decimal;
use rust_decimal::prelude::ToPrimitive;

use super::amounts::AmountStyle;
use super::page::Page;
use super::picture::{Align, Layer, Picture, Role, Words};
use super::theme::{BASELINE, GRID, SOFT_INK};
use super::ticks::{Ticks, ticks, without_empty_ends};
use super::times::Times;
use super::{font::Weight, text};

/// Between two labels across, and from one tick to the next upward, at least.
const APART: f64 = 16.0;
const APART_UPWARD: f64 = 30.0;
/// A label wider than this before an upright axis is cut short.
const LABEL_AT_MOST: f64 = 100.0;
/// From the labels of an upright axis to what they label.
const GAP: f64 = 8.0;

/// From amounts to places on the page, in either direction.
#[derive(Debug, Clone)]
pub(crate) struct Axis {
    scale: Scale,
    /// Where the scale begins and ends.
    from: f64,
    to: f64,
    /// Places and texts of the ticks.
    pub ticks: Vec<(f64, String)>,
}

#[derive(Debug, Clone)]
enum Scale {
    /// Equal steps from the first amount to the last.
    Even(Decimal, Decimal),
    Times(Times),
}

impl Axis {
    /// Across the page over `low..=high` and zero, with as many ticks as leave room between their labels; it ends on
    /// ticks unless that would leave much of it empty, for a bar may end at the edge.
    pub(crate) fn across((low, high): (Decimal, Decimal), ends: (f64, f64), amounts: &AmountStyle, page: &Page) -> Self {
        Self::fitting((low, high), ends, amounts, page, |ticks| without_empty_ends(ticks, low, high))
    }

    /// Makes the same axis, always ending on ticks.
    pub(crate) fn across_whole(range: (Decimal, Decimal), ends: (f64, f64), amounts: &AmountStyle, page: &Page) -> Self {
        Self::fitting(range, ends, amounts, page, |ticks| ticks)
    }

    /// Makes an axis up the page from `bottom` to `top`, over `low..=high` and zero, ending on ticks.
    pub(crate) fn upward((low, high): (Decimal, Decimal), (bottom, top): (f64, f64), amounts: &AmountStyle, page: &Page) -> Self {
        let most = (1..=8).rev().find(|most| f64::from(*most) * APART_UPWARD <= bottom - top).unwrap_or(1);
        let Ticks { values, places } = ticks(low, high, most, amounts.decimals);
        let label =
            |tick: Decimal| text::elide(&text::clean(&amounts.write(tick, places)), Weight::Regular, page.small.size, LABEL_AT_MOST);
        let texts = values.iter().map(|tick| label(*tick)).collect();
        Self::with_ticks(&values, texts, (low, high), (bottom, top))
    }

    /// Makes an axis of minutes on a logarithmic scale, in either direction.
    pub fn times(times: Times, (from, to): (f64, f64)) -> Self {
        let ticks = times.ticks.iter().map(|(share, label)| (from + share * (to - from), label.clone())).collect();
        Self { scale: Scale::Times(times), from, to, ticks }
    }

    /// Leaves out ticks across whose labels would leave the page.
    pub(crate) fn on_page(self, page: &Page) -> Self {
        let is_on = |(x, text): &(f64, String)| x + text::width(text, Weight::Regular, page.small.size) / 2.0 <= page.right();
        Self { ticks: self.ticks.iter().filter(|tick| is_on(tick)).cloned().collect(), ..self }
    }

    fn fitting(
        (low, high): (Decimal, Decimal),
        (left, right): (f64, f64),
        amounts: &AmountStyle,
        page: &Page,
        kept: impl Fn(&[Decimal]) -> &[Decimal],
    ) -> Self {
        let half = |text: Option<&String>| text.map_or(0.0, |text| text::width(text, Weight::Regular, page.small.size) / 2.0);
        let with = |values: &[Decimal], places: u32| {
            let texts: Vec<_> = values.iter().map(|tick| text::clean(&amounts.write(*tick, places))).collect();
            // A label may be centred on an end of the axis and must not cross the margin.
            let over = (page.margin + half(texts.first()) - left).max(0.0).min((right - left) / 4.0);
            let beyond = (right + half(texts.last()) - page.right()).max(0.0).min((right - left) / 2.0);
            Self::with_ticks(values, texts, (low, high), (left + over, right - beyond))
        };
        (1..=8)
            .rev()
            .map(|most| ticks(low, high, most, amounts.decimals))
            .map(|Ticks { values, places }| with(kept(&values), places))
            .find(|axis| axis.labels_fit(page))
            .unwrap_or_else(|| with(&[Decimal::ZERO], 0))
    }

    fn with_ticks(values: &[Decimal], texts: Vec<String>, (low, high): (Decimal, Decimal), (from, to): (f64, f64)) -> Self {
        let first = values.first().copied().unwrap_or_default().min(low);
        let last = values.last().copied().unwrap_or_default().max(high);
        let mut axis = Self { scale: Scale::Even(first, last), from, to, ticks: Vec::new() };
        axis.ticks = values.iter().map(|tick| axis.place(*tick)).zip(texts).collect();
        axis
    }

    /// Whether the labels keep apart from one another and within the page.
    fn labels_fit(&self, page: &Page) -> bool {
        let mut free_from = page.margin;
        self.ticks.iter().all(|(x, text)| {
            let half = text::width(text, Weight::Regular, page.small.size) / 2.0;
            let fits = x - half >= free_from - 0.01 && x + half <= page.right() + 0.01;
            free_from = x + half + APART;
            fits
        })
    }

    /// Returns where `amount` falls; outside the range, at its nearer end.
    pub fn place(&self, amount: Decimal) -> f64 {
        self.at(as_place(amount))
    }

    /// Returns the same for an amount that is only a place.
    pub fn at(&self, amount: f64) -> f64 {
        let share = match &self.scale {
            Scale::Even(first, last) => {
                let (low, high) = (as_place((*first).min(Decimal::ZERO)), as_place((*last).max(Decimal::ZERO)));
                (amount - low) / if high > low { high - low } else { 1.0 }
            }
            Scale::Times(times) => times.share(amount),
        };
        self.from + share.clamp(0.0, 1.0) * (self.to - self.from)
    }

    /// Returns where zero falls.
    pub fn zero(&self) -> f64 {
        self.place(Decimal::ZERO)
    }

    /// Returns where the axis begins and ends: left and right, or bottom and top.
    pub fn span(&self) -> (f64, f64) {
        (self.from, self.to)
    }

    /// Returns the least and the greatest amount on the axis.
    pub fn ends(&self) -> (Decimal, Decimal) {
        match &self.scale {
            Scale::Even(first, last) => (*first, *last),
            Scale::Times(times) => times.ends(),
        }
    }

    /// Returns whether `amount` lies within the axis.
    pub fn holds(&self, amount: Decimal) -> bool {
        let (first, last) = self.ends();
        (first..=last).contains(&amount)
    }

    /// Returns where the title of an axis across begins: under the axis, or at the margin of a narrow page.
    pub(crate) fn title_left(&self, page: &Page) -> f64 {
        if page.is_narrow { page.margin } else { self.from }
    }

    /// Draws, for an axis across, grid lines over each of `spans` of the page, top to bottom, and the line at zero.
    pub(crate) fn draw_lines(&self, picture: &mut Picture, spans: &[(f64, f64)]) {
        picture.role(Role::Axis);
        for (top, bottom) in spans {
            for (x, _) in &self.ticks {
                picture.line(Layer::Ground, [(*x, *top), (*x, *bottom)], 1.0, GRID);
            }
            picture.line(Layer::Over, [(self.zero(), *top), (self.zero(), *bottom)], 1.5, BASELINE);
        }
    }

    /// Draws, for an axis across, the labels of its ticks with their baseline at `y`.
    pub(crate) fn draw_labels(&self, picture: &mut Picture, y: f64) {
        picture.role(Role::Axis);
        let size = picture.page().small.size;
        for (x, text) in &self.ticks {
            picture.words((*x, y), Words::new(text.clone(), size).ink(SOFT_INK).align(Align::Middle));
        }
    }

    /// Returns the room an upright axis takes for its labels, left of what they label.
    pub fn room(&self, page: &Page) -> f64 {
        self.ticks.iter().map(|(_, label)| text::width(label, Weight::Regular, page.small.size)).fold(0.0, f64::max) + GAP
    }

    /// Draws, for an upright axis, grid lines from `left` to `right`, the line where it begins, and the labels before them.
    pub(crate) fn draw_upward(&self, picture: &mut Picture, left: f64, right: f64) {
        picture.role(Role::Axis);
        let size = picture.page().small.size;
        for (y, label) in &self.ticks {
            picture.line(Layer::Ground, [(left, *y), (right, *y)], 1.0, GRID);
            picture.words((left - GAP, *y + 4.5), Words::new(label.clone(), size).ink(SOFT_INK).align(Align::Right));
        }
        picture.line(Layer::Over, [(left, self.zero()), (right, self.zero())], 1.5, BASELINE);
    }
}

fn as_place(amount: Decimal) -> f64 {
    amount.to_f64().unwrap_or(0.0)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::chart::Width;
    use crate::chart::tests::samples::{dec, dollars};

    fn across(low: i64, high: i64, left: f64, page: &Page) -> Axis {
        Axis::across((Decimal::from(low), Decimal::from(high)), (left, page.right()), &dollars(), page)
    }

    #[test]
    fn tick_labels_never_touch_and_stay_on_the_page() {
        for (page, left) in [(Page::new(Width::Wide), 400.0), (Page::new(Width::Narrow), 10.0)] {
            for (low, high) in [(0, 24), (-9, 3), (-99_999_999, 99_999_999), (0, i64::MAX), (i64::MIN, i64::MAX), (0, 0)] {
                let axis = across(low, high, left, &page);
                assert!(axis.labels_fit(&page), "{low}..{high}: {:?}", axis.ticks);
                assert!(axis.holds(Decimal::from(low)) && axis.holds(Decimal::from(high)));
            }
            assert!(across(0, 24, left, &page).ticks.len() >= 5);
        }
        let axis = across(-112, 1010, 400.0, &Page::new(Width::Wide));
        assert!(!axis.holds(Decimal::from(-113)), "half of a step would be empty");
    }

    #[test]
    fn places_run_from_left_to_right_and_stay_within() {
        let page = Page::new(Width::Wide);
        let axis = Axis::across_whole((dec("-10"), dec("30")), (100.0, 500.0), &dollars(), &page);
        for (amount, x) in [("-10", 100.0), ("0", 200.0), ("15", 350.0), ("30", 500.0), ("99", 500.0), ("-99", 100.0)] {
            assert!((axis.place(dec(amount)) - x).abs() < 1e-9, "{amount}");
        }
        let nothing = Axis::across_whole((Decimal::ZERO, Decimal::ZERO), (100.0, 500.0), &dollars(), &page);
        assert!((nothing.zero() - 100.0).abs() < 1e-9);
        let huge = Axis::across_whole((Decimal::MIN, Decimal::MAX), (100.0, 500.0), &dollars(), &page);
        assert!((huge.zero() - 300.0).abs() < 1e-9);
    }

    #[test]
    fn upward_more_is_higher_and_labels_keep_apart() {
        let page = Page::new(Width::Wide);
        for (low, high, height) in [("0", "24", 200.0), ("-9", "3", 120.0), ("0", "0", 90.0), ("-1000000000", "0.01", 500.0)] {
            let axis = Axis::upward((dec(low), dec(high)), (100.0 + height, 100.0), &dollars(), &page);
            assert!(axis.place(dec(high)) <= axis.place(dec(low)));
            assert!(axis.ticks.windows(2).all(|pair| pair[0].0 - pair[1].0 >= 14.0), "{low}..{high}: {:?}", axis.ticks);
        }
        let all = Axis::upward((Decimal::MIN, Decimal::MAX), (100.0, 0.0), &dollars(), &page);
        assert!((0.0..=100.0).contains(&all.place(Decimal::MAX)) && all.ends() == (Decimal::MIN, Decimal::MAX));
        assert!(all.room(&page) <= LABEL_AT_MOST + GAP);
    }
}
