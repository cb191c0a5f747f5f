//! The left of every chart, set like a table: the name of each row with a note beneath, and its figures in columns
//! before the bars. Figures in columns never meet a bar, a whisker or the target line.

use plotters::style::RGBColor;

use super::canvas::{Align, Canvas, Layer, Words};
use super::font::Weight;
use super::text;
use super::theme::{BODY, GRID, INK, MARGIN, RULE, SMALL, SOFT_INK, WIDTH};

const NAME_AT_LEAST: f64 = 80.0;
const NAME_AT_MOST: f64 = 190.0;
/// Names, figures and the gaps between them, so that the bars keep nearly half of the page.
const TEXT_AT_MOST: f64 = 312.0;
/// A figure wider than this is cut short, where there is one column, two, or more.
const FIGURE_AT_MOST: [f64; 3] = [120.0, 92.0, 72.0];
const COLUMN_GAP: f64 = 14.0;
const LINE: f64 = 18.0;
const SMALL_LINE: f64 = 16.0;
/// Above the first row of a group.
const GROUP: f64 = 34.0;
const CLOSE_GROUP: f64 = 30.0;
/// The headings of the columns, and the ticks that a long chart has above its rows too.
const HEADING: f64 = 22.0;
const TICKS_ABOVE: f64 = 20.0;
/// From this many rows on they stand closer together.
const CLOSE: usize = 17;

/// A verdict in its colour.
type Word = (&'static str, RGBColor);

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

    /// What it takes of a column of `at_most`.
    fn width(&self, at_most: f64) -> f64 {
        let word = self.word.map_or(0.0, |(word, _)| text::width(word, Weight::SemiBold, SMALL));
        word.max(text::width(&self.text, self.weight, self.size(at_most))).min(at_most)
    }

    /// Smaller where it would have to be cut short.
    fn size(&self, at_most: f64) -> f64 {
        if text::width(&self.text, self.weight, BODY) <= at_most { BODY } else { SMALL }
    }

    fn has_word_beneath(&self) -> bool {
        !self.text.is_empty() && self.word.is_some()
    }

    /// From its right end, with the baseline of its first line at `y`.
    fn draw(&self, canvas: &mut Canvas, (right, y): (f64, f64), at_most: f64) {
        let size = self.size(at_most);
        let text = text::elide(&self.text, self.weight, size, at_most);
        let words = Words::new(text, size).weight(self.weight).ink(self.ink).align(Align::Right);
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
    note_lines: Vec<String>,
    pub(super) top: f64,
    pub(super) bottom: f64,
}

impl Row {
    /// Half way down, where the bar lies.
    pub(super) fn middle(&self) -> f64 {
        f64::midpoint(self.top, self.bottom)
    }

    /// The height of its text.
    fn block(&self) -> f64 {
        let names = LINE * if self.name_lines.len() > 1 { 2.0 } else { 1.0 };
        let names = names + SMALL_LINE * self.note_lines.iter().map(|_| 1.0).sum::<f64>();
        if self.text.figures.iter().any(Figure::has_word_beneath) { names.max(LINE + SMALL_LINE) } else { names }
    }
}

/// All rows, laid out from the top down.
#[derive(Debug)]
pub(super) struct Rows {
    pub(super) placed: Vec<Row>,
    figure_at_most: f64,
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
        let columns = Columns::new(&texts, headings);
        let close = texts.len() >= CLOSE;
        let top = top_if_close(close);
        let mut y = top;
        let placed = texts
            .into_iter()
            .map(|text| {
                let name_lines = text::wrap(&text.name, Weight::Regular, BODY, columns.name_room, 2);
                let note_lines = text::wrap(&text.note, Weight::Regular, SMALL, columns.name_room, 2);
                if text.group.is_some() {
                    y += if close { CLOSE_GROUP } else { GROUP };
                }
                let mut row = Row { top: y, bottom: y, text, name_lines, note_lines };
                row.bottom += row.block() + if close { 10.0 } else { 20.0 };
                y = row.bottom;
                row
            })
            .collect();
        let Columns { figure_at_most, figure_rights, plot_left, .. } = columns;
        Self { placed, figure_at_most, figure_rights, plot_left, top, bottom: y, close }
    }

    /// Names, notes, figures and the thin lines between rows.
    pub(super) fn draw(&self, canvas: &mut Canvas) {
        for row in &self.placed {
            if let Some(group) = &row.text.group {
                self.draw_group(canvas, group, row.top);
            }
            let mut y = row.middle() - row.block() / 2.0 + LINE - 4.5;
            let first = y;
            for line in &row.name_lines {
                canvas.words((MARGIN, y), Words::new(line.clone(), BODY));
                y += LINE;
            }
            for line in &row.note_lines {
                canvas.words((MARGIN, y - 1.0), Words::new(line.clone(), SMALL).ink(SOFT_INK));
                y += SMALL_LINE;
            }
            let two_lines = row.text.figures.iter().any(Figure::has_word_beneath);
            let figures = if row.name_lines.len() < 2 && row.note_lines.len() < 2 {
                first
            } else {
                // Beside a name or a note of two lines the figures are level with the bar.
                row.middle() + 5.0 - if two_lines { LINE / 2.0 } else { 0.0 }
            };
            for (figure, right) in row.text.figures.iter().zip(&self.figure_rights) {
                figure.draw(canvas, (*right, figures), self.figure_at_most);
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

    /// The headings of the figure columns. A label at a tick may reach over the last column, so they stand above the
    /// ticks where those are above the rows.
    pub(super) fn draw_headings(&self, canvas: &mut Canvas, headings: &[&str]) {
        let y = self.top - 8.0 - if self.close { TICKS_ABOVE } else { 0.0 };
        for (heading, right) in headings.iter().zip(&self.figure_rights) {
            let heading = text::elide(heading, Weight::Regular, SMALL, self.figure_at_most);
            canvas.words((*right, y), Words::new(heading, SMALL).ink(SOFT_INK).align(Align::Right));
        }
    }
}

/// The room above the rows for their headings, and for ticks above a long chart.
pub(super) fn heading_room(has_headings: bool, close: bool) -> f64 {
    let headings = if has_headings { HEADING } else { 0.0 };
    headings + if close { TICKS_ABOVE } else { 0.0 }
}

/// How the left of a chart is shared out between the names and the columns of figures.
struct Columns {
    name_room: f64,
    figure_at_most: f64,
    figure_rights: Vec<f64>,
    plot_left: f64,
}

impl Columns {
    /// Figures take what they need; names take what is left, and wrap.
    fn new(texts: &[RowText], headings: &[&str]) -> Self {
        let widest = |column: usize, heading: &str, at_most: f64| {
            let figures = texts.iter().filter_map(|row| row.figures.get(column)).map(|figure| figure.width(at_most));
            figures.fold(text::width(heading, Weight::Regular, SMALL).min(at_most), f64::max)
        };
        let widths = |at_most: f64| headings.iter().enumerate().map(move |(column, heading)| widest(column, heading, at_most));
        let count = widths(FIGURE_AT_MOST[0]).filter(|width| *width > 0.0).count();
        let figure_at_most = FIGURE_AT_MOST[count.clamp(1, FIGURE_AT_MOST.len()) - 1];
        let figures: f64 = widths(figure_at_most).filter(|width| *width > 0.0).map(|width| COLUMN_GAP + width).sum();
        let left = (TEXT_AT_MOST - figures - COLUMN_GAP).clamp(NAME_AT_LEAST, NAME_AT_MOST);
        let name_room = texts
            .iter()
            .map(|row| text::width(&row.name, Weight::Regular, BODY).max(text::width(&row.note, Weight::Regular, SMALL)))
            .fold(NAME_AT_LEAST, f64::max)
            .min(left);
        let mut right = MARGIN + name_room;
        let figure_rights = widths(figure_at_most).map(|width| {
            if width > 0.0 {
                right += COLUMN_GAP + width;
            }
            right
        });
        let figure_rights = figure_rights.collect();
        Self { name_room, figure_at_most, figure_rights, plot_left: right + COLUMN_GAP }
    }
}
