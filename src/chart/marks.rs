//! The marks that stand for an amount, and the signs of the key made from them.

use plotters::style::RGBColor;

use super::canvas::{Canvas, Layer};
use super::theme::{BAND, BASELINE, FAINT, FAR_OFF, GUESS, INK, LEARNED, MEAN, OVER, SHORT_MARK, WHITE};

/// The sign beside an entry of the key, 22 pixels wide.
#[derive(Debug, Clone, Copy)]
pub(super) enum Sign {
    Plain(RGBColor),
    Hatched(RGBColor),
    /// Hatching that lies over several fills, of which the first and the last are shown.
    HatchedPair(RGBColor, RGBColor),
    Whisker,
    Pin,
    Dot,
    Ring,
    Guess,
    SmallDot,
    CurrentDot,
    OtherDot,
    FarOff,
    OverDot,
    ShortDiamond,
    UnknownRing,
    ThinWhisker,
    Hollow(RGBColor),
    Beyond,
    Mean,
}

impl Sign {
    pub(super) fn draw(self, canvas: &mut Canvas, left: f64, middle: f64) {
        let place = [left, middle - 7.0, left + 22.0, middle + 7.0];
        let centre = (left + 11.0, middle);
        match self {
            Self::Plain(colour) => canvas.rect(Layer::Fill, place, colour),
            Self::Hatched(colour) => canvas.hatched(place, colour),
            Self::HatchedPair(first, last) => {
                canvas.rect(Layer::Fill, place, last);
                canvas.rect(Layer::Fill, [left, place[1], centre.0, place[3]], if first == last { last } else { first });
                canvas.hatching(place);
            }
            Self::Whisker => whisker(canvas, (left, left + 22.0), middle, (true, true)),
            Self::Pin => pin(canvas, left + 11.0, middle - 8.0, middle + 8.0),
            Self::Dot => dot(canvas, centre),
            Self::Ring => ring(canvas, centre),
            Self::Guess => guess(canvas, centre),
            Self::CurrentDot => current_dot(canvas, centre),
            Self::OtherDot => other_dot(canvas, centre, 3.75),
            Self::SmallDot => small_dot(canvas, centre),
            Self::FarOff => far_off(canvas, centre),
            Self::OverDot => over_dot(canvas, centre),
            Self::ShortDiamond => short_diamond(canvas, centre),
            Self::UnknownRing => unknown_ring(canvas, centre),
            Self::Hollow(colour) => hollow(canvas, place, colour),
            Self::Beyond => beyond(canvas, (centre.0, middle - 3.5), Toward::Up),
            Self::Mean => mean(canvas, (left, left + 22.0), middle),
            Self::ThinWhisker => thin_whisker(canvas, (left, left + 22.0), middle, true),
        }
    }
}

/// A range drawn as a line, with an end bar at each end that is `closed` and an arrow head where it goes on.
pub(super) fn whisker(canvas: &mut Canvas, (low, high): (f64, f64), y: f64, closed: (bool, bool)) {
    // White beneath, so that the line stays visible over any bar.
    for (width, colour, cap) in [(3.0, WHITE, 5.75), (1.5, INK, 5.0)] {
        canvas.line(Layer::Over, [(low, y), (high, y)], width, colour);
        for (x, closed, inward) in [(low, closed.0, 7.0), (high, closed.1, -7.0)] {
            if closed {
                canvas.line(Layer::Over, [(x, y - cap), (x, y + cap)], width, colour);
            } else if colour == INK {
                canvas.polygon(Layer::Over, vec![(x, y), (x + inward, y - 4.0), (x + inward, y + 4.0)], colour);
            }
        }
    }
}

/// A short upright line that marks an amount across a bar.
pub(super) fn pin(canvas: &mut Canvas, x: f64, top: f64, bottom: f64) {
    canvas.line(Layer::Over, [(x, top - 1.0), (x, bottom + 1.0)], 6.0, WHITE);
    canvas.line(Layer::Over, [(x, top), (x, bottom)], 3.0, INK);
}

/// An amount learned from the logs; a little lower than a whisker's end bars, which show even where they are nearest.
pub(super) fn dot(canvas: &mut Canvas, middle: (f64, f64)) {
    canvas.circle(Layer::Over, middle, 4.75, LEARNED);
}

/// An amount learned only together with others: the dot, hollow.
pub(super) fn ring(canvas: &mut Canvas, middle: (f64, f64)) {
    canvas.circle(Layer::Over, middle, 5.5, LEARNED);
    canvas.circle(Layer::Over, middle, 3.25, WHITE);
}

/// The maker's own guess: a hollow diamond.
pub(super) fn guess(canvas: &mut Canvas, middle: (f64, f64)) {
    for (reach, colour) in [(8.5, WHITE), (7.25, GUESS), (4.5, WHITE)] {
        diamond(canvas, middle, reach, colour);
    }
}

/// One of many.
pub(super) fn small_dot(canvas: &mut Canvas, middle: (f64, f64)) {
    canvas.circle(Layer::Over, middle, 4.75, WHITE);
    canvas.circle(Layer::Over, middle, 3.75, LEARNED);
}

/// One of many, of the period in question: larger and dark.
pub(super) fn current_dot(canvas: &mut Canvas, middle: (f64, f64)) {
    canvas.circle(Layer::Over, middle, 5.5, WHITE);
    canvas.circle(Layer::Over, middle, 4.5, INK);
}

/// One of many, of another time: light with an outline.
pub(super) fn other_dot(canvas: &mut Canvas, middle: (f64, f64), radius: f64) {
    canvas.circle(Layer::Over, middle, radius, LEARNED);
    canvas.circle(Layer::Over, middle, radius - 1.0, BAND);
}

/// One of many that stands out.
pub(super) fn far_off(canvas: &mut Canvas, middle: (f64, f64)) {
    diamond(canvas, middle, 9.0, WHITE);
    diamond(canvas, middle, 7.25, FAR_OFF);
}

/// A design that reaches the target.
pub(super) fn over_dot(canvas: &mut Canvas, middle: (f64, f64)) {
    canvas.circle(Layer::Over, middle, 6.75, WHITE);
    canvas.circle(Layer::Over, middle, 5.5, OVER);
}

/// A design that does not: a hollow diamond.
pub(super) fn short_diamond(canvas: &mut Canvas, middle: (f64, f64)) {
    for (reach, colour) in [(9.0, WHITE), (7.75, SHORT_MARK), (4.5, WHITE)] {
        diamond(canvas, middle, reach, colour);
    }
}

/// A design that nobody judged.
pub(super) fn unknown_ring(canvas: &mut Canvas, middle: (f64, f64)) {
    for (radius, colour) in [(6.75, WHITE), (5.5, BASELINE), (3.5, WHITE)] {
        canvas.circle(Layer::Over, middle, radius, colour);
    }
}

/// A range beside many others: a thin line with small end bars, the upper left out where the range goes on.
pub(super) fn thin_whisker(canvas: &mut Canvas, (low, high): (f64, f64), y: f64, closed: bool) {
    canvas.line(Layer::Fill, [(low, y), (high, y)], 1.0, FAINT);
    canvas.line(Layer::Fill, [(low, y - 3.0), (low, y + 3.0)], 1.0, FAINT);
    if closed {
        canvas.line(Layer::Fill, [(high, y - 3.0), (high, y + 3.0)], 1.0, FAINT);
    } else {
        canvas.polygon(Layer::Over, vec![(high, y), (high - 7.0, y - 4.0), (high - 7.0, y + 4.0)], FAINT);
    }
}

/// Where an order lies beyond the edge.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub(super) enum Toward {
    Up,
    Down,
    Right,
}

/// An order beyond the edge: an arrow head at the edge, within it.
pub(super) fn beyond(canvas: &mut Canvas, (x, y): (f64, f64), toward: Toward) {
    let corners = match toward {
        Toward::Up => vec![(x, y - 1.0), (x + 5.0, y + 8.0), (x - 5.0, y + 8.0)],
        Toward::Down => vec![(x, y + 1.0), (x + 5.0, y - 8.0), (x - 5.0, y - 8.0)],
        Toward::Right => vec![(x + 1.0, y), (x - 8.0, y + 5.0), (x - 8.0, y - 5.0)],
    };
    canvas.polygon(Layer::Over, corners, FAR_OFF);
}

/// What several orders come to together: a bold line over their dots.
pub(super) fn mean(canvas: &mut Canvas, (left, right): (f64, f64), y: f64) {
    canvas.line(Layer::Over, [(left - 1.0, y), (right + 1.0, y)], 7.0, WHITE);
    canvas.line(Layer::Over, [(left, y), (right, y)], 4.0, MEAN);
}

/// A bar that says little: its outline.
pub(super) fn hollow(canvas: &mut Canvas, [left, top, right, bottom]: [f64; 4], colour: RGBColor) {
    canvas.rect(Layer::Fill, [left, top, right, bottom], colour);
    canvas.rect(Layer::Fill, [left + 2.0, top + 2.0, right - 2.0, bottom - 2.0], WHITE);
}

fn diamond(canvas: &mut Canvas, (x, y): (f64, f64), reach: f64, colour: RGBColor) {
    canvas.polygon(Layer::Over, vec![(x - reach, y), (x, y - reach), (x + reach, y), (x, y + reach)], colour);
}
