//! A chart laid out: marks with their places, in CSS pixels, each with what it is there for.

use plotters::style::RGBColor;

use super::font::Weight;
use super::page::Page;
use super::text;
use super::theme::{INK, WHITE};

/// From the ground up.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub(crate) enum Layer {
    /// Soft areas that all else lies on.
    Under,
    /// Grid lines and rules.
    Ground,
    /// Bars.
    Fill,
    /// Diagonal lines over bars.
    Hatch,
    /// Lines over bars.
    Over,
    /// Letters.
    Words,
}

/// What a mark is there for.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(crate) enum Role {
    /// Title and subtitle, or a sentence in place of a chart.
    Heading,
    Key,
    /// Lines at the ticks, their labels, and what an axis measures.
    Axis,
    /// The table beside or above the bars: names, notes, figures.
    Table,
    /// What is drawn for the row, column or point of this number.
    Data(usize),
    /// Lines to measure by, with their words.
    Line,
    /// The name or the number of a point.
    Name,
    /// What is listed below a plot.
    List,
}

/// Where a text stands from its place.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(crate) enum Align {
    Left,
    Middle,
    Right,
}

/// A line of text. `rim` is the colour drawn around its letters to keep them readable over lines.
#[derive(Debug, Clone, PartialEq)]
pub struct Words {
    pub text: String,
    pub size: f64,
    pub weight: Weight,
    pub ink: RGBColor,
    pub align: Align,
    pub rim: RGBColor,
}

impl Words {
    /// Sets a text regular, dark, from its left end, with a white rim; `text` must be [`text::clean`].
    pub fn new(text: impl Into<String>, size: f64) -> Self {
        Self { text: text.into(), size, weight: Weight::Regular, ink: INK, align: Align::Left, rim: WHITE }
    }

    pub fn weight(self, weight: Weight) -> Self {
        Self { weight, ..self }
    }

    pub(crate) fn bold(self) -> Self {
        self.weight(Weight::SemiBold)
    }

    pub(crate) fn ink(self, ink: RGBColor) -> Self {
        Self { ink, ..self }
    }

    pub(crate) fn align(self, align: Align) -> Self {
        Self { align, ..self }
    }

    pub(crate) fn rim(self, rim: RGBColor) -> Self {
        Self { rim, ..self }
    }

    pub fn width(&self) -> f64 {
        text::width(&self.text, self.weight, self.size)
    }

    /// Cuts it short with `…` where it is wider than `room`.
    pub fn within(self, room: f64) -> Self {
        Self { text: text::elide(&self.text, self.weight, self.size, room), ..self }
    }
}

#[derive(Debug, Clone, PartialEq)]
pub enum Shape {
    /// Left, top, right, bottom.
    Rect([f64; 4], RGBColor),
    /// White hatching over what is there.
    Hatching([f64; 4]),
    /// Two ends, width, colour.
    Line([(f64, f64); 2], f64, RGBColor),
    Polygon(Vec<(f64, f64)>, RGBColor),
    /// Middle, radius, colour.
    Circle((f64, f64), f64, RGBColor),
    /// Where the baseline begins, ends or has its middle.
    Words((f64, f64), Words),
}

#[derive(Debug, Clone, PartialEq)]
pub(crate) struct Mark {
    pub layer: Layer,
    pub role: Role,
    pub shape: Shape,
}

/// A chart laid out for one width: every mark with its place, before anything is drawn.
#[derive(Debug, Clone)]
pub struct Picture {
    pub(in crate::chart) page: Page,
    pub(in crate::chart) height: f64,
    /// For those who cannot see it.
    pub(in crate::chart) label: String,
    pub(in crate::chart) marks: Vec<Mark>,
    pub(super) role: Role,
}

impl Picture {
    pub(in crate::chart) fn new(page: Page) -> Self {
        Self { page, height: 0.0, label: String::new(), marks: Vec::new(), role: Role::Heading }
    }

    /// The marks that follow are there for `role`.
    pub(in crate::chart) fn role(&mut self, role: Role) {
        self.role = role;
    }

    pub(in crate::chart) fn page(&self) -> Page {
        self.page
    }

    fn add(&mut self, layer: Layer, shape: Shape) {
        self.marks.push(Mark { layer, role: self.role, shape });
    }

    /// A filled rectangle; nothing if it is empty.
    pub(in crate::chart) fn rect(&mut self, layer: Layer, [left, top, right, bottom]: [f64; 4], colour: RGBColor) {
        if right > left && bottom > top {
            self.add(layer, Shape::Rect([left, top, right, bottom], colour));
        }
    }

    /// White hatching alone, over what is there, leaving a border of a pixel so that ends stay sharp.
    pub(in crate::chart) fn hatching(&mut self, [left, top, right, bottom]: [f64; 4]) {
        if right > left + 2.0 && bottom > top + 2.0 {
            self.add(Layer::Hatch, Shape::Hatching([left + 1.0, top + 1.0, right - 1.0, bottom - 1.0]));
        }
    }

    pub(in crate::chart) fn line(&mut self, layer: Layer, ends: [(f64, f64); 2], width: f64, colour: RGBColor) {
        self.add(layer, Shape::Line(ends, width, colour));
    }

    pub(in crate::chart) fn polygon(&mut self, layer: Layer, corners: Vec<(f64, f64)>, colour: RGBColor) {
        self.add(layer, Shape::Polygon(corners, colour));
    }

    pub(in crate::chart) fn circle(&mut self, layer: Layer, middle: (f64, f64), radius: f64, colour: RGBColor) {
        self.add(layer, Shape::Circle(middle, radius, colour));
    }

    /// A line of text with its baseline at `y`; nothing if it is empty.
    pub(in crate::chart) fn words(&mut self, place: (f64, f64), words: Words) {
        if !words.text.is_empty() {
            self.add(Layer::Words, Shape::Words(place, words));
        }
    }

    /// Lines of text one beneath the other, the first with its baseline at `y`; returns where the next would stand.
    pub(in crate::chart) fn lines(&mut self, (x, mut y): (f64, f64), step: f64, lines: &[String], of: impl Fn(&str) -> Words) -> f64 {
        for line in lines {
            self.words((x, y), of(line));
            y += step;
        }
        y
    }
}
