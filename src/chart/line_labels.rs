//! Words at the ends of lines that leave a frame: right of it, or above it.

use super::canvas::{Align, Canvas, Words};
use super::font::Weight;
use super::labels::Place;
use super::text;
use super::theme::{INK, MARGIN, SMALL, SOFT_INK, WIDTH};

const LINE: f64 = 16.0;
/// From the frame to the words.
const GAP: f64 = 10.0;
/// Words above the frame are cut short past this.
const ABOVE_AT_MOST: f64 = 220.0;
/// How far words may be moved along the edge from where their line ends.
const SHIFTS: [f64; 9] = [0.0, -9.0, 9.0, -18.0, 18.0, -27.0, 27.0, -36.0, 36.0];

/// The words placed so far around one frame.
#[derive(Debug)]
pub(super) struct LineLabels {
    frame: Place,
    taken: Vec<Place>,
}

impl LineLabels {
    pub(super) fn new(frame: Place) -> Self {
        Self { frame, taken: Vec::new() }
    }

    /// Writes `label` above the frame over a line that stands at `x`.
    pub(super) fn draw_above(&mut self, canvas: &mut Canvas, x: f64, label: &str) -> bool {
        let above = (x.min(self.frame[2] - 2.0), self.frame[1]);
        self.draw(canvas, above, label, true)
    }

    /// Writes `label` where a line ends on the frame's edge; `false`, and nothing, where there is no room. Words
    /// right of the frame take two lines, those above it one.
    pub(super) fn draw(&mut self, canvas: &mut Canvas, end: (f64, f64), label: &str, strong: bool) -> bool {
        let (weight, ink) = if strong { (Weight::SemiBold, INK) } else { (Weight::Regular, SOFT_INK) };
        let [_, top, right, _] = self.frame;
        let label = text::clean(label);
        let above = end.1 <= top + 1.0 && end.0 < right - 1.0;
        let room = if above { ABOVE_AT_MOST } else { WIDTH - MARGIN - right - GAP };
        let lines = text::wrap(&label, weight, SMALL, room, if above { 1 } else { 3 });
        let width = lines.iter().map(|line| text::width(line, weight, SMALL)).fold(0.0, f64::max);
        let height = LINE * lines.iter().map(|_| 1.0).sum::<f64>();
        let found =
            SHIFTS.iter().map(|shift| if above { self.above(end.0, width, *shift) } else { self.beside(end.1, (width, height), *shift) });
        let Some(place) = found.into_iter().find(|place| self.is_free(*place)) else { return false };
        self.taken.push(place);
        let mut y = place[1] + LINE - 4.0;
        for line in lines {
            canvas.words((place[0], y), Words::new(line, SMALL).weight(weight).ink(ink).align(Align::Left));
            y += LINE;
        }
        true
    }

    /// One line above the frame, `shift` counting in steps upward where it is not nil.
    fn above(&self, x: f64, width: f64, shift: f64) -> Place {
        let left = (x - width / 2.0 + shift).min(WIDTH - MARGIN - width).max(MARGIN);
        let bottom = self.frame[1] - 5.0;
        [left, bottom - LINE, left + width, bottom]
    }

    fn beside(&self, y: f64, (width, height): (f64, f64), shift: f64) -> Place {
        let left = self.frame[2] + GAP;
        let top = (y - LINE / 2.0 + shift).min(self.frame[3] - height);
        [left, top, left + width, top + height]
    }

    fn is_free(&self, place: Place) -> bool {
        let apart =
            |other: &Place| place[2] + 6.0 <= other[0] || other[2] + 6.0 <= place[0] || place[3] <= other[1] || other[3] <= place[1];
        self.taken.iter().all(apart)
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::chart::samples::{attribute, texts};

    const FRAME: Place = [60.0, 100.0, 500.0, 500.0];

    #[test]
    fn words_stand_beyond_the_edge_their_line_ends_on() {
        let mut canvas = Canvas::default();
        let mut labels = LineLabels::new(FRAME);
        assert!(labels.draw(&mut canvas, (500.0, 300.0), "right", true));
        assert!(labels.draw(&mut canvas, (240.0, 100.0), "above", false));
        let svg = canvas.svg(600.0, "");
        let place = |wanted: &str| {
            let (_, line) = texts(&svg).into_iter().find(|(text, _)| *text == wanted).unwrap();
            (attribute(line, "x") / 4.0, attribute(line, "y") / 4.0)
        };
        assert!(place("right").0 > 500.0 && place("above").1 < 100.0);
    }

    #[test]
    fn lines_that_end_together_have_their_words_apart_or_not_at_all() {
        let mut canvas = Canvas::default();
        let mut labels = LineLabels::new(FRAME);
        let drawn = (0..9).filter(|_| labels.draw(&mut canvas, (500.0, 300.0), "$20 an hour", false)).count();
        assert!((3..9).contains(&drawn), "{drawn}");
        for (at, place) in labels.taken.iter().enumerate() {
            assert!(labels.taken[at + 1..].iter().all(|other| place[3] <= other[1] || other[3] <= place[1]));
        }
    }
}
