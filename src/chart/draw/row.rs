//! The words of a row: its name, a note, and figures with a word beneath.

use plotters::style::RGBColor;

use super::font::Weight;
use super::page::Page;
use super::picture::{Align, Picture, Words};
use super::text;
use super::theme::{INK, OVER_INK, SHORT_INK, SOFT_INK};

/// How a word beside a figure is meant, which decides its colour.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Tone {
    /// Good news.
    Good,
    /// Bad news.
    Bad,
    /// Neither.
    Plain,
}

impl Tone {
    pub(in crate::chart) fn ink(self) -> RGBColor {
        match self {
            Self::Good => OVER_INK,
            Self::Bad => SHORT_INK,
            Self::Plain => SOFT_INK,
        }
    }
}

/// One figure of a row.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Figure {
    /// The figure as it is to be read; may be empty.
    pub text: String,
    /// A word beneath it, such as `below`.
    pub word: Option<(String, Tone)>,
    /// Whether it stands where there is no figure, such as `no hours`, or takes second place: drawn light.
    pub is_light: bool,
}

impl Figure {
    /// Makes a figure alone.
    #[must_use]
    pub fn new(text: impl Into<String>) -> Self {
        Self { text: text.into(), word: None, is_light: false }
    }

    /// Makes what stands where there is no figure.
    #[must_use]
    pub fn light(text: impl Into<String>) -> Self {
        Self { is_light: true, ..Self::new(text) }
    }

    /// Adds a word beneath.
    #[must_use]
    pub fn with(self, word: impl Into<String>, tone: Tone) -> Self {
        Self { word: Some((word.into(), tone)), ..self }
    }

    fn weight(&self) -> Weight {
        if self.is_light { Weight::Regular } else { Weight::SemiBold }
    }

    /// Smaller where it would have to be cut short.
    fn size(&self, page: &Page, at_most: f64) -> f64 {
        let is_short = text::width(&text::clean(&self.text), self.weight(), page.body.size) <= at_most;
        if is_short { page.body.size } else { page.small.size }
    }

    /// What it takes of a column of `at_most`.
    pub(super) fn width(&self, page: &Page, at_most: f64) -> f64 {
        let word = self.word.as_ref().map_or(0.0, |(word, _)| text::width(word, Weight::SemiBold, page.small.size));
        word.max(text::width(&text::clean(&self.text), self.weight(), self.size(page, at_most))).min(at_most)
    }

    pub(super) fn has_word_beneath(&self) -> bool {
        !self.text.is_empty() && self.word.is_some()
    }

    /// From its right end, with the baseline of its first line at `y`.
    pub(super) fn draw(&self, picture: &mut Picture, (right, y): (f64, f64), at_most: f64) {
        let page = picture.page();
        let ink = if self.is_light { SOFT_INK } else { INK };
        let words = Words::new(text::clean(&self.text), self.size(&page, at_most)).weight(self.weight());
        picture.words((right, y), words.ink(ink).align(Align::Right).within(at_most));
        if let Some((word, tone)) = &self.word {
            let y = if self.text.is_empty() { y } else { y + page.small.line + 1.0 };
            let words = Words::new(text::clean(word), page.small.size).bold();
            picture.words((right, y), words.ink(tone.ink()).align(Align::Right).within(at_most));
        }
    }
}

/// The words of a row.
#[derive(Debug, Clone, Default, PartialEq, Eq)]
pub struct Row {
    /// The name of the group that begins with this row; an empty one leaves a gap alone.
    pub group: Option<String>,
    /// What the row is for. Two lines are shown, the rest cut short with `…`.
    pub name: String,
    /// A few words beneath the name; may be empty.
    pub note: String,
    /// Its figures, in the order of the columns.
    pub figures: Vec<Figure>,
}
