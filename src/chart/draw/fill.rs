//! How bars are filled.

use plotters::style::RGBColor;

use super::picture::{Layer, Picture};
use super::theme::{BASELINE, HOURS, LEARNED, OVER, SHORT, UNKNOWN, WHITE, part};

/// What a bar stands for, which decides its colour and whether it is hatched: colour never carries a meaning alone.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum Fill {
    /// Reaches the target, or moves toward it: blue.
    Above,
    /// Does not, or moves away from it: orange, hatched.
    Below,
    /// Not judged: grey.
    Unknown,
    /// Measured against nothing: blue.
    Plain,
    /// Hours of work beside bars of pay: green.
    Hours,
    /// Time in which nobody worked: grey, hatched. It does not widen the axis by much; a longer bar ends in an arrow.
    Waiting,
    /// A sum: dark.
    Sum,
    /// A part of a stack, by its place among the parts, so that a colour means the same in every chart.
    Part(usize),
}

impl Fill {
    pub(in crate::chart) fn colour(self) -> RGBColor {
        match self {
            Self::Above => OVER,
            Self::Plain => LEARNED,
            Self::Below => SHORT,
            Self::Unknown | Self::Waiting => UNKNOWN,
            Self::Hours => HOURS,
            Self::Sum => BASELINE,
            Self::Part(index) => part(index).0,
        }
    }

    /// The ink that can be read on it.
    pub(in crate::chart) fn ink(self) -> RGBColor {
        match self {
            Self::Part(index) => part(index).1,
            _ => WHITE,
        }
    }

    fn is_hatched(self) -> bool {
        matches!(self, Self::Below | Self::Waiting)
    }

    /// A bar of left, top, right and bottom.
    pub(in crate::chart) fn draw(self, picture: &mut Picture, place: [f64; 4]) {
        picture.rect(Layer::Fill, place, self.colour());
        if self.is_hatched() {
            picture.hatching(place);
        }
    }

    /// The outline alone: a bar that says little.
    pub(in crate::chart) fn draw_hollow(self, picture: &mut Picture, [left, top, right, bottom]: [f64; 4]) {
        picture.rect(Layer::Fill, [left, top, right, bottom], self.colour());
        picture.rect(Layer::Fill, [left + 2.0, top + 2.0, right - 2.0, bottom - 2.0], WHITE);
    }
}
