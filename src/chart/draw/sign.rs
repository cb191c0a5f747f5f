//! The signs that stand at an amount, and the marks of a key made from them.

use plotters::style::RGBColor;

use super::fill::Fill;
use super::picture::{Layer, Picture};
use super::theme::{BAND, BASELINE, FAINT, FAR_OFF, GUESS, INK, LEARNED, MEAN, OVER, SHORT_MARK, WHITE};

/// What stands at an amount. Shapes differ, so that none is known by its colour alone.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum Sign {
    /// A bar.
    Bar(Fill),
    /// A dark line across a bar: a price.
    Pin,
    /// A filled dot: an amount learned from the logs.
    Dot,
    /// The dot, hollow: learned only together with others.
    Ring,
    /// A hollow diamond: the maker's own guess, or the price now.
    Guess,
    /// A small dot: one of many.
    One,
    /// A dark dot: one of many, of the period in question.
    Current,
    /// A light dot: one of many, of another time.
    Before,
    /// A filled diamond: one of many that stands out.
    FarOff,
    /// A large dot: reaches the target.
    Above,
    /// A large hollow diamond: does not.
    Below,
    /// A dark ring: not judged.
    Unknown,
}

impl Sign {
    /// At `middle`; a bar has no such place.
    pub(in crate::chart) fn draw(self, picture: &mut Picture, middle: (f64, f64)) {
        let mut circles =
            |rings: &[(f64, RGBColor)]| rings.iter().for_each(|(radius, colour)| picture.circle(Layer::Over, middle, *radius, *colour));
        match self {
            Self::Bar(_) => {}
            Self::Pin => pin(picture, middle, 8.0),
            // A little lower than a range's end bars, which show even where they are nearest.
            Self::Dot => circles(&[(4.75, LEARNED)]),
            Self::Ring => circles(&[(5.5, LEARNED), (3.25, WHITE)]),
            Self::One => circles(&[(4.75, WHITE), (3.75, LEARNED)]),
            Self::Current => circles(&[(5.5, WHITE), (4.5, INK)]),
            Self::Before => circles(&[(3.75, LEARNED), (2.75, BAND)]),
            Self::Above => circles(&[(6.75, WHITE), (5.5, OVER)]),
            Self::Unknown => circles(&[(6.75, WHITE), (5.5, BASELINE), (3.5, WHITE)]),
            Self::Guess => diamonds(picture, middle, &[(8.5, WHITE), (7.25, GUESS), (4.5, WHITE)]),
            Self::FarOff => diamonds(picture, middle, &[(9.0, WHITE), (7.25, FAR_OFF)]),
            Self::Below => diamonds(picture, middle, &[(9.0, WHITE), (7.75, SHORT_MARK), (4.5, WHITE)]),
        }
    }

    /// The same where hundreds stand close together.
    pub(in crate::chart) fn draw_small(self, picture: &mut Picture, middle: (f64, f64)) {
        match self {
            Self::One => picture.circle(Layer::Over, middle, 2.25, LEARNED),
            Self::Before => {
                picture.circle(Layer::Over, middle, 2.25, LEARNED);
                picture.circle(Layer::Over, middle, 1.25, BAND);
            }
            _ => self.draw(picture, middle),
        }
    }
}

/// What stands beside an entry of the key, 22 pixels wide.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(crate) enum KeySign {
    Sign(Sign),
    /// Hatching that lies over several fills, of which the first and the last are shown.
    Hatching(Fill, Fill),
    /// A bar that says little.
    Hollow,
    Range,
    ThinRange,
    Beyond,
    Level,
    Band,
    /// The line to measure by.
    Line,
}

impl KeySign {
    pub fn draw(self, picture: &mut Picture, left: f64, middle: f64) {
        let place = [left, middle - 7.0, left + 22.0, middle + 7.0];
        let centre = (left + 11.0, middle);
        let ends = (left, left + 22.0);
        match self {
            Self::Sign(Sign::Bar(fill)) => fill.draw(picture, place),
            Self::Sign(sign) => sign.draw(picture, centre),
            Self::Hatching(first, last) => {
                picture.rect(Layer::Fill, place, last.colour());
                picture.rect(Layer::Fill, [left, place[1], centre.0, place[3]], first.colour());
                picture.hatching(place);
            }
            Self::Hollow => Fill::Unknown.draw_hollow(picture, place),
            Self::Range => range(picture, ends, middle, (true, true)),
            Self::ThinRange => thin_range(picture, ends, middle, true),
            Self::Beyond => beyond(picture, (centre.0, middle - 3.5), Toward::Up),
            Self::Level => level(picture, ends, middle),
            Self::Band => picture.rect(Layer::Fill, place, BAND),
            Self::Line => picture.line(Layer::Over, [(left, middle), (left + 22.0, middle)], 2.0, INK),
        }
    }
}

/// Draws a range as a line, with an end bar at each end that is `closed` and an arrow head where it goes on.
pub fn range(picture: &mut Picture, (low, high): (f64, f64), y: f64, closed: (bool, bool)) {
    // White beneath, so that the line stays visible over any bar.
    for (width, colour, cap) in [(3.0, WHITE, 5.75), (1.5, INK, 5.0)] {
        picture.line(Layer::Over, [(low, y), (high, y)], width, colour);
        for (x, closed, inward) in [(low, closed.0, 7.0), (high, closed.1, -7.0)] {
            if closed {
                picture.line(Layer::Over, [(x, y - cap), (x, y + cap)], width, colour);
            } else if colour == INK {
                picture.polygon(Layer::Over, vec![(x, y), (x + inward, y - 4.0), (x + inward, y + 4.0)], colour);
            }
        }
    }
}

/// Draws a short upright line that marks an amount, as far as `reach` above and below.
pub(crate) fn pin(picture: &mut Picture, (x, y): (f64, f64), reach: f64) {
    picture.line(Layer::Over, [(x, y - reach - 1.0), (x, y + reach + 1.0)], 6.0, WHITE);
    picture.line(Layer::Over, [(x, y - reach), (x, y + reach)], 3.0, INK);
}

/// Draws a range beside many others: a thin line with small end bars, the upper left out where the range goes on.
pub(crate) fn thin_range(picture: &mut Picture, (low, high): (f64, f64), y: f64, closed: bool) {
    picture.line(Layer::Fill, [(low, y), (high, y)], 1.0, FAINT);
    picture.line(Layer::Fill, [(low, y - 3.0), (low, y + 3.0)], 1.0, FAINT);
    if closed {
        picture.line(Layer::Fill, [(high, y - 3.0), (high, y + 3.0)], 1.0, FAINT);
    } else {
        picture.polygon(Layer::Over, vec![(high, y), (high - 7.0, y - 4.0), (high - 7.0, y + 4.0)], FAINT);
    }
}

/// On which side of a frame something lies.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub(crate) enum Toward {
    Up,
    Down,
    Right,
}

/// Draws something beyond the edge: an arrow head at the edge, within it.
pub fn beyond(picture: &mut Picture, (x, y): (f64, f64), toward: Toward) {
    let corners = match toward {
        Toward::Up => vec![(x, y - 1.0), (x + 5.0, y + 8.0), (x - 5.0, y + 8.0)],
        Toward::Down => vec![(x, y + 1.0), (x + 5.0, y - 8.0), (x - 5.0, y - 8.0)],
        Toward::Right => vec![(x + 1.0, y), (x - 8.0, y + 5.0), (x - 8.0, y - 5.0)],
    };
    picture.polygon(Layer::Over, corners, FAR_OFF);
}

/// Draws what several points come to together: a bold level line over their dots.
pub fn level(picture: &mut Picture, (left, right): (f64, f64), y: f64) {
    picture.line(Layer::Over, [(left - 1.0, y), (right + 1.0, y)], 7.0, WHITE);
    picture.line(Layer::Over, [(left, y), (right, y)], 4.0, MEAN);
}

fn diamonds(picture: &mut Picture, (x, y): (f64, f64), sizes: &[(f64, RGBColor)]) {
    for (reach, colour) in sizes {
        picture.polygon(Layer::Over, vec![(x - reach, y), (x, y - reach), (x + reach, y), (x, y + reach)], *colour);
    }
}
