//! Words at the ends of lines that leave a frame: right of it, above it, or on a narrow page within it.

use crate::chart::draw::font::Weight;
use crate::chart::draw::labels::Place;
use crate::chart::draw::picture::{Picture, Words};
use crate::chart::draw::text;
use crate::chart::draw::theme::{INK, SOFT_INK};

/// From the frame to the words.
const GAP: f64 = 10.0;
/// Words above the frame are cut short past this.
const ABOVE_AT_MOST: f64 = 220.0;
/// How far words may be moved along the edge from where their line ends.
const SHIFTS: [f64; 9] = [0.0, -9.0, 9.0, -18.0, 18.0, -27.0, 27.0, -36.0, 36.0];

/// The words placed so far around one frame.
#[derive(Debug)]
pub(crate) struct LineLabels {
    frame: Place,
    pub taken: Vec<Place>,
}

impl LineLabels {
    pub fn new(frame: Place) -> Self {
        Self { frame, taken: Vec::new() }
    }

    /// Writes `label` where a line ends on the frame's edge; `false`, and nothing, where there is no room. Words right of
    /// the frame take up to three lines, those above it or within it one.
    pub fn draw(&mut self, picture: &mut Picture, [from, end]: [(f64, f64); 2], label: &str, is_strong: bool) -> bool {
        let page = picture.page();
        let (weight, ink) = if is_strong { (Weight::SemiBold, INK) } else { (Weight::Regular, SOFT_INK) };
        let is_level = (from.1 - end.1).abs() < 1.0;
        let is_above = end.1 <= self.frame[1] + 1.0 && !is_level;
        let is_beside = !is_above && !page.is_narrow;
        let room = if is_beside { page.right() - self.frame[2] - GAP } else { ABOVE_AT_MOST };
        let lines = text::wrap(&text::clean(label), weight, page.small.size, room, if is_beside { 3 } else { 1 });
        let width = lines.iter().map(|line| text::width(line, weight, page.small.size)).fold(0.0, f64::max);
        let height = page.small.line * lines.iter().map(|_| 1.0).sum::<f64>();
        let place = |shift: f64| {
            if is_above {
                let left = (end.0 - width / 2.0 + shift).min(page.right() - width).max(page.margin);
                let bottom = self.frame[1] - 5.0;
                [left, bottom - height, left + width, bottom]
            } else if is_beside {
                let left = self.frame[2] + GAP;
                let top = (end.1 - page.small.line / 2.0 + shift).min(self.frame[3] - height);
                [left, top, left + width, top + height]
            } else {
                // Beneath the line, which is lowest at one of its ends.
                let right = self.frame[2] - 4.0;
                let rise = (from.1 - end.1) / (end.0 - from.0).max(1.0) * (width + 4.0);
                let top = end.1 + rise.max(0.0) + 2.0 + shift.abs();
                [right - width, top, right, top + height]
            }
        };
        let found = SHIFTS.iter().map(|shift| place(*shift)).find(|place| self.is_free(*place));
        let Some(place) = found else { return false };
        self.taken.push(place);
        let baseline = (place[0], place[1] + page.small.line - 4.0);
        picture.lines(baseline, page.small.line, &lines, |line| Words::new(line, page.small.size).weight(weight).ink(ink));
        true
    }

    fn is_free(&self, place: Place) -> bool {
        let apart =
            |other: &Place| place[2] + 6.0 <= other[0] || other[2] + 6.0 <= place[0] || place[3] <= other[1] || other[3] <= place[1];
        place[3] <= self.frame[3] && self.taken.iter().all(apart)
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::chart::Width;
    use crate::chart::draw::page::Page;

    const FRAME: Place = [60.0, 100.0, 500.0, 500.0];

    #[test]
    fn words_stand_beyond_the_edge_their_line_ends_on() {
        let mut picture = Picture::new(Page::new(Width::Wide));
        let mut labels = LineLabels::new(FRAME);
        assert!(labels.draw(&mut picture, [(60.0, 500.0), (500.0, 300.0)], "right", true));
        assert!(labels.draw(&mut picture, [(60.0, 500.0), (240.0, 100.0)], "above", false));
        assert!(labels.taken[0][0] > 500.0 && labels.taken[1][3] < 100.0);
    }

    #[test]
    fn lines_that_end_together_have_their_words_apart_or_not_at_all() {
        for width in [Width::Wide, Width::Narrow] {
            let mut picture = Picture::new(Page::new(width));
            let mut labels = LineLabels::new([60.0, 100.0, 330.0, 500.0]);
            let drawn = (0..20).filter(|_| labels.draw(&mut picture, [(60.0, 500.0), (330.0, 300.0)], "$20 an hour", false)).count();
            assert!((2..20).contains(&drawn), "{drawn}");
            for (at, place) in labels.taken.iter().enumerate() {
                assert!(labels.taken[at + 1..].iter().all(|other| place[3] <= other[1] || other[3] <= place[1]));
            }
        }
    }
}
