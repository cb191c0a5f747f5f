//! A list below a plot: what stands behind the numbers where names had no room.

use super::canvas::{Align, Canvas, Words};
use super::font::Weight;
use super::text;
use super::theme::{MARGIN, SMALL, SOFT_INK, WIDTH};

const COLUMNS: usize = 2;
const GAP: f64 = 20.0;
const NUMBER: f64 = 28.0;
const LINE: f64 = 20.0;
/// A figure wider than this is cut short.
const FIGURE_AT_MOST: f64 = 120.0;

/// One number.
#[derive(Debug)]
pub(super) struct Entry {
    /// Empty where the mark has no number beside it.
    pub(super) number: String,
    pub(super) name: String,
    pub(super) label: String,
}

/// The entries below `top`, column by column; returns where the last line ends.
pub(super) fn draw(canvas: &mut Canvas, top: f64, entries: &[Entry]) -> f64 {
    let width = (WIDTH - 2.0 * MARGIN - GAP) / 2.0;
    let lines = entries.len().div_ceil(COLUMNS).max(1);
    let mut left = MARGIN;
    let mut bottom = top;
    for column in entries.chunks(lines) {
        let mut y = top + 8.0;
        for entry in column {
            y += LINE;
            let number = Words::new(text::clean(&entry.number), SMALL).weight(Weight::SemiBold).align(Align::Right);
            canvas.words((left + NUMBER - 8.0, y), number);
            let label = text::elide(&text::clean(&entry.label), Weight::Regular, SMALL, FIGURE_AT_MOST);
            let label = Words::new(label, SMALL).ink(SOFT_INK).align(Align::Right);
            let room = width - NUMBER - label.width() - 10.0;
            let name = text::elide(&text::clean(&entry.name), Weight::Regular, SMALL, room);
            canvas.words((left + NUMBER, y), Words::new(name, SMALL));
            canvas.words((left + width, y), label);
            bottom = f64::max(bottom, y);
        }
        left += width + GAP;
    }
    bottom
}
