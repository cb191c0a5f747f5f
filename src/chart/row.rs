//! The left of every chart, set like a table: the name of each row with a note beneath, and its figures in columns
//! before the bars. Figures in columns never meet a bar, a whisker or the target line.

use plotters::style::RGBColor;

use super::canvas::{Align, Canvas, Layer, Words};
use super::font::Weight;
use super::text;
use super::theme::{BODY, GRID, INK, MARGIN, RULE, SMALL, SOFT_INK, WIDTH};

const NAME_AT_LEAST: f64 = 80.0;
const NAME_AT_MOST: f64 = 290.0;
const FIGURE_AT_MOST: f64 = 120.0;
const COLUMN_GAP: f64 = 24.0;
const LINE: f64 = 18.0;
const SMALL_LINE: f64 = 16.0;
/// Above the first row of a group.
const GROUP: f64 = 34.0;
const CLOSE_GROUP: f64 = 30.0;
/// From this many rows on they stand closer together.
const CLOSE: usize = 17;

/// A verdict in its colour.
pub(super) type Word = (&'static str, RGBColor);

/// The text of one column in one row.
#[derive(Debug)]
pub(super) struct Figure {
    text: String,
    weight: Weight,
    ink: RGBColor,
    /// Stands beneath the text, or in its place where that is empty.
    word: Option<Word>,
}

impl Figure {
    /// `text` as the caller gave it; it is cleaned here.
    pub(super) fn new(text: &str, word: Option<Word>) -> Self {
        Self { text: text::clean(text), weight: Weight::SemiBold, ink: INK, word }
    }

    /// What stands where there is no figure, such as `no hours`.
    pub(super) fn missing(text: &str) -> Self {
        Self { weight: Weight::Regular, ink: SOFT_INK, ..Self::new(text, None) }
    }

    fn width(&self) -> f64 {
        let word = self.word.map_or(0.0, |(word, _)| text::width(word, Weight::SemiBold, SMALL));
        word.max(text::width(&self.text, self.weight, self.size()))
    }

    /// Smaller where it would have to be cut short.
    fn size(&self) -> f64 {
        if text::width(&self.text, self.weight, BODY) <= FIGURE_AT_MOST { BODY } else { SMALL }
    }

    fn has_word_beneath(&self) -> bool {
        !self.text.is_empty() && self.word.is_some()
    }

    /// From its right end, with the baseline of its first line at `y`.
    fn draw(&self, canvas: &mut Canvas, right: f64, y: f64) {
        let text = text::elide(&self.text, self.weight, self.size(), FIGURE_AT_MOST);
        let words = Words::new(text, self.size()).weight(self.weight).ink(self.ink).align(Align::Right);
        canvas.words((right, y), words);
        if let Some((word, ink)) = self.word {
            let y = if self.text.is_empty() { y } else { y + LINE - 1.0 };
            let words = Words::new(word, SMALL).weight(Weight::SemiBold).ink(ink).align(Align::Right);
            canvas.words((right, y), words);
        }
    }
}

/// What stands before one bar, and above it where a group of rows begins.
#[derive(Debug)]
pub(super) struct RowText {
    /// The name of the group that begins here.
    group: Option<String>,
    name: String,
    note: String,
    figures: Vec<Figure>,
}

impl RowText {
    /// Texts as the caller gave them; they are cleaned here.
    pub(super) fn new(name: &str, note: &str, figures: Vec<Figure>) -> Self {
        Self { group: None, name: text::clean(name), note: text::clean(note), figures }
    }

    /// The first of a group: its name stands above. An empty name leaves the gap alone.
    pub(super) fn first_of(self, group: &str) -> Self {
        Self { group: Some(text::clean(group)), ..self }
    }
}

/// A row with its place: `top` to `bottom`, the bar in the middle.
#[derive(Debug)]
pub(super) struct Row {
    text: RowText,
    name_lines: Vec<String>,
    pub(super) top: f64,
    pub(super) bottom: f64,
}

impl Row {
    /// Half way down, where the bar lies.
    pub(super) fn middle(&self) -> f64 {
        f64::midpoint(self.top, self.bottom)
    }
}

/// All rows, laid out from the top down.
#[derive(Debug)]
pub(super) struct Rows {
    pub(super) placed: Vec<Row>,
    name_room: f64,
    /// Right ends of the columns of figures.
    figure_rights: Vec<f64>,
    /// Where the bars may begin.
    pub(super) plot_left: f64,
    pub(super) top: f64,
    pub(super) bottom: f64,
    pub(super) close: bool,
}

impl Rows {
    /// `headings` are the headings of the figure columns, which may be empty texts; `top_if_close` says where the
    /// first row begins, given whether the rows stand close together.
    pub(super) fn new(texts: Vec<RowText>, headings: &[&str], top_if_close: impl FnOnce(bool) -> f64) -> Self {
        let name_room = texts
            .iter()
            .map(|row| text::width(&row.name, Weight::Regular, BODY).max(text::width(&row.note, Weight::Regular, SMALL)))
            .fold(NAME_AT_LEAST, f64::max)
            .min(NAME_AT_MOST);
        let mut right = MARGIN + name_room;
        let figure_rights = headings
            .iter()
            .enumerate()
            .map(|(column, heading)| {
                let widest = texts
                    .iter()
                    .filter_map(|row| row.figures.get(column))
                    .map(Figure::width)
                    .fold(text::width(heading, Weight::Regular, SMALL), f64::max);
                if widest > 0.0 {
                    right += COLUMN_GAP + widest.min(FIGURE_AT_MOST);
                }
                right
            })
            .collect();
        let close = texts.len() >= CLOSE;
        let top = top_if_close(close);
        let mut y = top;
        let placed = texts
            .into_iter()
            .map(|text| {
                let name_lines = text::wrap(&text.name, Weight::Regular, BODY, name_room, 2);
                if text.group.is_some() {
                    y += if close { CLOSE_GROUP } else { GROUP };
                }
                let row = Row { top: y, bottom: y + height(&text, name_lines.len(), close), text, name_lines };
                y = row.bottom;
                row
            })
            .collect();
        Self { placed, name_room, figure_rights, plot_left: right + COLUMN_GAP, top, bottom: y, close }
    }

    /// Names, notes, figures and the thin lines between rows.
    pub(super) fn draw(&self, canvas: &mut Canvas) {
        for row in &self.placed {
            if let Some(group) = &row.text.group {
                self.draw_group(canvas, group, row.top);
            }
            let mut y = row.middle() - block(&row.text, row.name_lines.len()) / 2.0 + LINE - 4.5;
            let first = y;
            for line in &row.name_lines {
                canvas.words((MARGIN, y), Words::new(line.clone(), BODY));
                y += LINE;
            }
            let note = text::elide(&row.text.note, Weight::Regular, SMALL, self.name_room);
            canvas.words((MARGIN, y - 1.0), Words::new(note, SMALL).ink(SOFT_INK));
            let two_lines = row.text.figures.iter().any(Figure::has_word_beneath);
            let figures = if row.name_lines.len() < 2 {
                first
            } else {
                // Beside a name of two lines the figures are level with the bar.
                row.middle() + 5.0 - if two_lines { LINE / 2.0 } else { 0.0 }
            };
            for (figure, right) in row.text.figures.iter().zip(&self.figure_rights) {
                figure.draw(canvas, *right, figures);
            }
            let ends = [(MARGIN, row.bottom), (WIDTH - MARGIN, row.bottom)];
            canvas.line(Layer::Ground, ends, 1.0, RULE);
        }
    }

    /// The name of a group and the line between it and its first row, at `top`.
    fn draw_group(&self, canvas: &mut Canvas, name: &str, top: f64) {
        let name = text::elide(name, Weight::SemiBold, BODY, self.plot_left - COLUMN_GAP - MARGIN);
        canvas.words((MARGIN, top - 8.0), Words::new(name, BODY).weight(Weight::SemiBold));
        canvas.line(Layer::Ground, [(MARGIN, top), (WIDTH - MARGIN, top)], 1.0, GRID);
    }

    /// The headings of the figure columns, with their baseline at `y`.
    pub(super) fn draw_headings(&self, canvas: &mut Canvas, headings: &[&str], y: f64) {
        for (heading, right) in headings.iter().zip(&self.figure_rights) {
            canvas.words((*right, y), Words::new(*heading, SMALL).ink(SOFT_INK).align(Align::Right));
        }
    }
}

fn height(text: &RowText, name_lines: usize, close: bool) -> f64 {
    let padding = if close { 10.0 } else { 20.0 };
    block(text, name_lines) + padding
}

/// The height of a row's text.
fn block(text: &RowText, name_lines: usize) -> f64 {
    let names = LINE * if name_lines > 1 { 2.0 } else { 1.0 };
    let names = if text.note.is_empty() { names } else { names + SMALL_LINE };
    if text.figures.iter().any(Figure::has_word_beneath) { names.max(LINE + SMALL_LINE) } else { names }
}
