//! Steps from one amount to another, a bar a step: sums stand on zero, changes hang where the one before ended.

use plotters::style::RGBColor;
use rust_decimal::Decimal;

use super::axis::AmountStyle;
use super::canvas::{Canvas, Layer};
use super::frame::{self, Axis};
use super::marks::Sign;
use super::row::{self, RowText, Rows};
use super::theme::{BASELINE, BELOW, SOFT_INK};

/// A bar narrower than this could not be seen.
const NARROWEST: f64 = 1.5;

/// How a bar looks.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) struct Look {
    pub(super) fill: RGBColor,
    pub(super) hatched: bool,
}

impl Look {
    pub(super) const fn plain(fill: RGBColor) -> Self {
        Self { fill, hatched: false }
    }

    pub(super) const fn hatched(fill: RGBColor) -> Self {
        Self { fill, hatched: true }
    }

    /// The sign of the key for it.
    pub(super) const fn sign(self) -> Sign {
        if self.hatched { Sign::Hatched(self.fill) } else { Sign::Plain(self.fill) }
    }
}

/// One row.
#[derive(Debug)]
pub(super) struct Step {
    pub(super) text: RowText,
    pub(super) amount: Decimal,
    /// A sum stands on zero; a change goes on from the row before.
    pub(super) is_sum: bool,
    pub(super) look: Look,
}

/// Everything about a waterfall but its rows.
#[derive(Debug)]
pub(super) struct Frame<'a> {
    pub(super) title: &'a str,
    pub(super) subtitle: &'a str,
    pub(super) axis: &'a str,
    pub(super) amounts: &'a AmountStyle,
    pub(super) headings: &'a [&'a str],
    pub(super) key: Vec<(Sign, String)>,
}

/// The chart as SVG.
pub(super) fn svg(frame: &Frame<'_>, steps: Vec<Step>) -> String {
    if steps.is_empty() {
        return frame::nothing_to_draw(frame.title, frame.subtitle);
    }
    let mut canvas = Canvas::default();
    let below_heading = frame::heading(&mut canvas, frame.title, frame.subtitle);
    let below_key = frame::key(&mut canvas, below_heading, &frame.key);
    let ends = ends(&steps);
    let looks: Vec<_> = steps.iter().map(|step| step.look).collect();
    let has_headings = frame.headings.iter().any(|heading| !heading.is_empty());
    let texts = steps.into_iter().map(|step| step.text).collect();
    let rows = Rows::new(texts, frame.headings, |close| below_key + row::heading_room(has_headings, close));
    let reached = || ends.iter().flat_map(|(from, to)| [*from, *to]);
    let range = (reached().fold(Decimal::ZERO, Decimal::min), reached().fold(Decimal::ZERO, Decimal::max));
    let axis = Axis::new(range, rows.plot_left, frame.amounts);
    axis.draw_lines(&mut canvas, rows.top, rows.bottom);
    rows.draw_headings(&mut canvas, frame.headings);
    rows.draw(&mut canvas);
    let half = if rows.close { 8.0 } else { 11.0 };
    for (((from, to), look), row) in ends.iter().zip(looks).zip(&rows.placed) {
        let (from, to) = (axis.scale.x(*from), axis.scale.x(*to));
        let (left, right) = (from.min(to), from.max(to));
        let right = right.max(left + if from.to_bits() == to.to_bits() { 0.0 } else { NARROWEST });
        let place = [left, row.middle() - half, right, row.middle() + half];
        if look.hatched { canvas.hatched(place, look.fill) } else { canvas.rect(Layer::Fill, place, look.fill) }
    }
    for ((from, to), pair) in ends.iter().zip(rows.placed.windows(2)) {
        if let [row, next] = pair {
            let x = axis.scale.x(*to);
            // Through a row where nothing moved.
            let top = row.middle() + if from == to { -half } else { half };
            canvas.line(Layer::Over, [(x, top), (x, next.middle() - half)], 1.0, SOFT_INK);
        }
    }
    if rows.close {
        axis.draw_labels(&mut canvas, rows.top - 8.0);
    }
    axis.draw_labels(&mut canvas, rows.bottom + 18.0);
    axis.draw_title(&mut canvas, frame.axis, rows.bottom + 38.0);
    canvas.svg(rows.bottom + 38.0 + BELOW, &frame::label(frame.title, frame.subtitle))
}

/// Where each bar begins and ends.
fn ends(steps: &[Step]) -> Vec<(Decimal, Decimal)> {
    let mut reached = Decimal::ZERO;
    steps
        .iter()
        .map(|step| {
            let from = if step.is_sum { Decimal::ZERO } else { reached };
            reached = from.saturating_add(step.amount);
            (from, reached)
        })
        .collect()
}

/// The bar of a sum that nobody judged.
pub(super) const SUM: Look = Look::plain(BASELINE);
