//! What surrounds the bars of every chart: title, key, axis, and the sentence where there is nothing to draw.

use rust_decimal::Decimal;

use super::axis::{self, AmountStyle, Scale, Ticks};
use super::canvas::{Align, Canvas, Layer, Words};
use super::font::Weight;
use super::marks::Sign;
use super::text;
use super::theme::{BASELINE, BELOW, BODY, GRID, MARGIN, SMALL, SOFT_INK, SUBTITLE, TITLE, WIDTH};

/// Title in at most four lines, subtitle in at most five; returns where the next thing may begin.
pub(super) fn heading(canvas: &mut Canvas, title: &str, subtitle: &str) -> f64 {
    let room = WIDTH - 2.0 * MARGIN;
    let mut y = MARGIN - 8.0;
    for line in text::wrap(&text::clean(title), Weight::SemiBold, TITLE, room, 4) {
        y += 30.0;
        canvas.words((MARGIN, y), Words::new(line, TITLE).weight(Weight::SemiBold));
    }
    y += 6.0;
    for line in text::wrap(&text::clean(subtitle), Weight::Regular, SUBTITLE, room, 5) {
        y += 21.0;
        canvas.words((MARGIN, y), Words::new(line, SUBTITLE).ink(SOFT_INK));
    }
    y + 20.0
}

/// What a reader hears who cannot see the chart.
pub(super) fn label(title: &str, subtitle: &str) -> String {
    text::clean(&format!("{title}. {subtitle}"))
}

/// The whole chart where there are no rows.
pub(super) fn nothing_to_draw(title: &str, subtitle: &str) -> String {
    only_words(title, subtitle, "There is nothing to draw for this period yet.")
}

/// The whole chart where a sentence says all there is.
pub(super) fn only_words(title: &str, subtitle: &str, sentence: &str) -> String {
    let mut canvas = Canvas::default();
    let y = heading(&mut canvas, title, subtitle) + 12.0;
    canvas.words((MARGIN, y), Words::new(sentence, BODY));
    canvas.svg(y + BELOW, &label(title, subtitle))
}

/// The key, as many entries to a line as fit; returns where the next thing may begin.
pub(super) fn key(canvas: &mut Canvas, top: f64, entries: &[(Sign, String)]) -> f64 {
    const SIGN_ROOM: f64 = 30.0;
    if entries.is_empty() {
        return top;
    }
    let (mut x, mut y) = (MARGIN, top + 14.0);
    let most = WIDTH - 2.0 * MARGIN - SIGN_ROOM;
    for (sign, entry) in entries {
        let words = text::elide(&text::clean(entry), Weight::Regular, SMALL, most);
        let words = Words::new(words, SMALL);
        let width = SIGN_ROOM + words.width();
        if x > MARGIN && x + width > WIDTH - MARGIN {
            (x, y) = (MARGIN, y + 24.0);
        }
        sign.draw(canvas, x, y - 4.5);
        canvas.words((x + SIGN_ROOM, y), words);
        x += width + 22.0;
    }
    y + 20.0
}

/// What an axis measures, from `left` on; from further left where it would leave the page.
pub(super) fn axis_title(canvas: &mut Canvas, title: &str, (left, y): (f64, f64)) {
    let title = text::elide(&text::clean(title), Weight::Regular, SMALL, WIDTH - 2.0 * MARGIN);
    let words = Words::new(title, SMALL).ink(SOFT_INK);
    canvas.words((left.min(WIDTH - MARGIN - words.width()).max(MARGIN), y), words);
}

/// An axis of amounts across the page.
#[derive(Debug)]
pub(super) struct Axis {
    pub(super) scale: Scale,
    /// Places and texts of the ticks.
    ticks: Vec<(f64, String)>,
    last: Decimal,
    first: Decimal,
}

impl Axis {
    /// Over `low..=high` and zero, with as many ticks as leave room between their labels; it ends on ticks unless that
    /// would leave much of it empty, for a bar may end at the edge.
    pub(super) fn new((low, high): (Decimal, Decimal), left: f64, amounts: &AmountStyle) -> Self {
        Self::fitting((low, high), (left, WIDTH - MARGIN), amounts, |ticks| without_empty_ends(ticks, low, high))
    }

    /// The same, between two places across the page, ending on ticks.
    pub(super) fn between(range: (Decimal, Decimal), ends: (f64, f64), amounts: &AmountStyle) -> Self {
        Self::fitting(range, ends, amounts, |ticks| ticks)
    }

    fn fitting((low, high): (Decimal, Decimal), ends: (f64, f64), amounts: &AmountStyle, kept: impl Fn(&[Decimal]) -> &[Decimal]) -> Self {
        (1..=8)
            .rev()
            .map(|most| axis::ticks(low, high, most, amounts.decimals))
            .map(|Ticks { values, places }| Self::with_ticks((kept(&values), places), (low, high), ends, amounts))
            .find(Self::labels_fit)
            .unwrap_or_else(|| Self::with_ticks((&[Decimal::ZERO], 0), (low, high), ends, amounts))
    }

    fn with_ticks(
        (ticks, places): (&[Decimal], u32),
        (low, high): (Decimal, Decimal),
        (left, right): (f64, f64),
        amounts: &AmountStyle,
    ) -> Self {
        let first = ticks.first().copied().unwrap_or_default().min(low);
        let last = ticks.last().copied().unwrap_or_default().max(high);
        let texts: Vec<_> = ticks.iter().map(|tick| text::clean(&amounts.write(*tick, places))).collect();
        // The last label may be centred on the axis' end and must not cross the margin.
        let overhang = texts.last().map_or(0.0, |text| text::width(text, Weight::Regular, SMALL) / 2.0);
        let scale = Scale::new(first, last, left, right - overhang.min((right - left) / 2.0));
        let ticks = ticks.iter().map(|tick| scale.x(*tick)).zip(texts).collect();
        Self { scale, ticks, last, first }
    }

    /// Whether the labels keep apart from one another and within the page.
    fn labels_fit(&self) -> bool {
        const APART: f64 = 16.0;
        let mut free_from = MARGIN;
        self.ticks.iter().all(|(x, text)| {
            let half = text::width(text, Weight::Regular, SMALL) / 2.0;
            let fits = x - half >= free_from - 0.01 && x + half <= WIDTH - MARGIN + 0.01;
            free_from = x + half + APART;
            fits
        })
    }

    /// Whether `amount` lies within the axis.
    pub(super) fn holds(&self, amount: Decimal) -> bool {
        (self.first..=self.last).contains(&amount)
    }

    /// The least and the greatest amount on the axis.
    pub(super) fn ends(&self) -> (Decimal, Decimal) {
        (self.first, self.last)
    }

    /// Grid lines from `top` to `bottom` and the line at zero.
    pub(super) fn draw_lines(&self, canvas: &mut Canvas, top: f64, bottom: f64) {
        for (x, _) in &self.ticks {
            canvas.line(Layer::Ground, [(*x, top), (*x, bottom)], 1.0, GRID);
        }
        let zero = self.scale.zero();
        canvas.line(Layer::Over, [(zero, top), (zero, bottom)], 1.5, BASELINE);
    }

    /// Tick labels with their baseline at `y`.
    pub(super) fn draw_labels(&self, canvas: &mut Canvas, y: f64) {
        for (x, text) in &self.ticks {
            canvas.words((*x, y), Words::new(text.clone(), SMALL).ink(SOFT_INK).align(Align::Middle));
        }
    }

    /// What the axis measures, with its baseline at `y`.
    pub(super) fn draw_title(&self, canvas: &mut Canvas, title: &str, y: f64) {
        axis_title(canvas, title, (self.scale.left, y));
    }
}

/// `ticks` without the first and the last where more than half of the step to it would be empty, as long as zero and
/// two others are left.
fn without_empty_ends(ticks: &[Decimal], low: Decimal, high: Decimal) -> &[Decimal] {
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
    use crate::chart::theme::INK;

    fn axis(low: i64, high: i64) -> Axis {
        let dollars = AmountStyle { prefix: "$".into(), suffix: String::new(), decimals: 2 };
        Axis::new((Decimal::from(low), Decimal::from(high)), 400.0, &dollars)
    }

    #[test]
    fn tick_labels_never_touch_and_stay_on_the_page() {
        for (low, high) in [(0, 24), (-9, 3), (-99_999_999, 99_999_999), (0, i64::MAX), (i64::MIN, i64::MAX)] {
            let axis = axis(low, high);
            assert!(axis.labels_fit(), "{low}..{high}: {:?}", axis.ticks);
            assert!(axis.holds(Decimal::from(low)) && axis.holds(Decimal::from(high)));
            let (x, label) = axis.ticks.last().unwrap();
            assert!(x + text::width(label, Weight::Regular, SMALL) / 2.0 <= WIDTH - MARGIN + 0.01, "{low}..{high}");
        }
        assert!(axis(0, 24).ticks.len() >= 5);
    }

    #[test]
    fn the_key_goes_on_to_a_second_line_rather_than_off_the_page() {
        let entries = |count: usize| vec![(Sign::Plain(INK), "an element of the cost".to_owned()); count];
        let mut canvas = Canvas::default();
        let one = key(&mut canvas, 0.0, &entries(2));
        let many = key(&mut canvas, 0.0, &entries(9));
        assert!(many >= one + 24.0);
        assert!(key(&mut canvas, 7.0, &[]).to_bits() == 7.0_f64.to_bits());
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
        let axis = axis(-112, 1010);
        assert!(axis.holds(Decimal::from(-112)) && axis.holds(Decimal::from(1010)) && !axis.holds(Decimal::from(-113)));
    }
}
