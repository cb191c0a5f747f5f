//! The table that bars belong to: the name of each row with a note beneath, and its figures in columns. On a wide page it
//! stands left of the bars, so that figures never meet a bar or a line; on a narrow one each row stands above its own bar.

use super::font::Weight;
use super::page::Page;
use super::picture::{Align, Layer, Picture, Role, Words};
use super::row::{Figure, Row};
use super::text;
use super::theme::{GRID, RULE, SOFT_INK};

const NAME_AT_LEAST: f64 = 80.0;
const NAME_AT_MOST: f64 = 190.0;
/// Names, figures and the gaps between them, so that the bars keep nearly half of a wide page.
const TEXT_AT_MOST: f64 = 312.0;
/// A figure wider than this is cut short, where there is one column, two, or more.
const FIGURE_AT_MOST: [f64; 3] = [120.0, 92.0, 72.0];
/// On a narrow page the names stand on a line of their own if the figures leave them less.
const NARROW_NAME_AT_LEAST: f64 = 110.0;
const COLUMN_GAP: f64 = 14.0;
/// Above the first row of a group.
const GROUP: f64 = 34.0;
const CLOSE_GROUP: f64 = 30.0;
/// The headings of the columns, and the ticks that a long chart has above its rows too.
const HEADING: f64 = 22.0;
const TICKS_ABOVE: f64 = 20.0;
/// From this many rows on they stand closer together.
const CLOSE: usize = 17;
/// From a text to the bar beneath it.
const ABOVE_LANE: f64 = 5.0;

/// A row with its place: `top` to `bottom`.
#[derive(Debug)]
pub(crate) struct Placed {
    name: Vec<String>,
    note: Vec<String>,
    /// Baseline of the first line of the name, and of the figures.
    name_y: f64,
    figures_y: f64,
    pub top: f64,
    pub bottom: f64,
    /// Where its bar lies, top and bottom.
    pub lane: (f64, f64),
}

impl Placed {
    /// Returns the place half way down the lane.
    pub fn middle(&self) -> f64 {
        f64::midpoint(self.lane.0, self.lane.1)
    }
}

/// All rows, laid out from the top down.
#[derive(Debug)]
pub struct Table<'a> {
    rows: Vec<&'a Row>,
    headings: &'a [String],
    columns: Columns,
    pub placed: Vec<Placed>,
    /// Left and right of the room for the bars.
    pub plot: (f64, f64),
    pub top: f64,
    pub bottom: f64,
    pub is_close: bool,
}

impl<'a> Table<'a> {
    /// Lays the table out from `above` down, `lane` the least height of the room for a bar. `headings` are those of the columns of figures;
    /// empty texts leave out the line of headings.
    pub fn new(page: &Page, rows: Vec<&'a Row>, headings: &'a [String], (above, lane): (f64, f64)) -> Self {
        let columns = if page.is_narrow { Columns::narrow(page, &rows, headings) } else { Columns::wide(page, &rows, headings) };
        let is_close = rows.len() >= CLOSE;
        let has_headings = headings.iter().any(|heading| !heading.is_empty());
        let top = above + if has_headings { HEADING } else { 0.0 } + if is_close { TICKS_ABOVE } else { 0.0 };
        let mut y = top;
        let placed = rows.iter().map(|row| {
            if row.group.is_some() {
                y += if is_close { CLOSE_GROUP } else { GROUP };
            }
            let wrap = |text: &str, size| text::wrap(&text::clean(text), Weight::Regular, size, columns.name_room, 2);
            let (name, note) = (wrap(&row.name, page.body.size), wrap(&row.note, page.small.size));
            let placed = if page.is_narrow {
                narrow_row(page, row, (name, note), (y, lane), (columns.is_stacked, is_close))
            } else {
                wide_row(page, row, (name, note), (y, lane), is_close)
            };
            y = placed.bottom;
            placed
        });
        let placed = placed.collect();
        let plot = if page.is_narrow { (page.margin, page.right()) } else { (columns.right + COLUMN_GAP, page.right()) };
        Self { rows, headings, columns, placed, plot, top, bottom: y, is_close }
    }

    /// Returns where lines at the ticks may run: beside the table, or in the lane of each row.
    pub fn spans(&self, page: &Page) -> Vec<(f64, f64)> {
        if page.is_narrow { self.placed.iter().map(|row| row.lane).collect() } else { vec![(self.top, self.bottom)] }
    }

    /// Draws headings, names, notes, figures and the thin lines between rows.
    pub fn draw(&self, picture: &mut Picture) {
        picture.role(Role::Table);
        let page = picture.page();
        // A label at a tick may reach over the last column, so they stand above the ticks of a long chart.
        let y = self.top - 8.0 - if self.is_close { TICKS_ABOVE } else { 0.0 };
        for (heading, right) in self.headings.iter().zip(&self.columns.rights) {
            let words = Words::new(text::clean(heading), page.small.size).ink(SOFT_INK).align(Align::Right);
            picture.words((*right, y), words.within(self.columns.figure_at_most));
        }
        for (row, placed) in self.rows.iter().zip(&self.placed) {
            if let Some(group) = &row.group {
                let room = if page.is_narrow { page.room() } else { self.columns.right - page.margin };
                let words = Words::new(text::clean(group), page.body.size).bold().within(room);
                picture.words((page.margin, placed.top - 8.0), words);
                picture.line(Layer::Ground, [(page.margin, placed.top), (page.right(), placed.top)], 1.0, GRID);
            }
            let name = |line: &str| Words::new(line, page.body.size);
            let y = picture.lines((page.margin, placed.name_y), page.body.line, &placed.name, name);
            let note = |line: &str| Words::new(line, page.small.size).ink(SOFT_INK);
            picture.lines((page.margin, y - 1.0), page.small.line, &placed.note, note);
            for (figure, right) in row.figures.iter().zip(&self.columns.rights) {
                figure.draw(picture, (*right, placed.figures_y), self.columns.figure_at_most);
            }
            picture.line(Layer::Ground, [(page.margin, placed.bottom), (page.right(), placed.bottom)], 1.0, RULE);
        }
    }

    /// Returns where the labels of ticks stand: below the rows, and above them too where they are many.
    pub(crate) fn tick_baselines(&self) -> Vec<f64> {
        let above = self.is_close.then_some(self.top - 8.0);
        above.into_iter().chain([self.bottom + 18.0]).collect()
    }
}

fn count(lines: &[String]) -> f64 {
    lines.iter().map(|_| 1.0).sum()
}

/// A row whose bar stands beside it.
fn wide_row(page: &Page, row: &Row, (name, note): (Vec<String>, Vec<String>), (top, lane): (f64, f64), is_close: bool) -> Placed {
    let has_word = row.figures.iter().any(Figure::has_word_beneath);
    let text = page.body.line * count(&name).max(1.0) + page.small.line * count(&note);
    let block = if has_word { text.max(page.body.line + page.small.line) } else { text };
    let bottom = top + (block + if is_close { 10.0 } else { 20.0 }).max(lane + 6.0);
    let middle = f64::midpoint(top, bottom);
    let name_y = middle - block / 2.0 + page.body.line - 4.5;
    let figures_y = if name.len() < 2 && note.len() < 2 {
        name_y
    } else {
        // Beside a name or a note of two lines the figures are level with the bar.
        middle + 5.0 - if has_word { page.body.line / 2.0 } else { 0.0 }
    };
    Placed { name, note, name_y, figures_y, top, bottom, lane: (top, bottom) }
}

/// A row that stands above its bar: name and note at the left, figures at the right or beneath.
fn narrow_row(
    page: &Page,
    row: &Row,
    (name, note): (Vec<String>, Vec<String>),
    (top, lane): (f64, f64),
    (is_stacked, is_close): (bool, bool),
) -> Placed {
    let pad = if is_close { 5.0 } else { 8.0 };
    let text = page.body.line * count(&name).max(1.0) + page.small.line * count(&note);
    let has_word = row.figures.iter().any(Figure::has_word_beneath);
    let figures = page.body.line + if has_word { page.small.line } else { 0.0 };
    let name_y = top + pad + page.body.line - 4.5;
    let (figures_y, block) = if is_stacked { (name_y + text, text + figures) } else { (name_y, text.max(figures)) };
    let begin = top + pad + block + ABOVE_LANE;
    let lane = (begin, begin + lane);
    Placed { name, note, name_y, figures_y, top, bottom: lane.1 + pad, lane }
}

/// How the width is shared out between the names and the columns of figures.
#[derive(Debug)]
struct Columns {
    name_room: f64,
    figure_at_most: f64,
    /// Right ends of the columns.
    rights: Vec<f64>,
    right: f64,
    /// Whether the figures stand beneath the names.
    is_stacked: bool,
}

/// What each column takes; nothing where it has neither figures nor a heading.
fn widths(page: &Page, rows: &[&Row], headings: &[String], at_most: f64) -> Vec<f64> {
    let columns = headings.iter().enumerate().map(|(column, heading)| {
        let figures = rows.iter().filter_map(|row| row.figures.get(column)).map(|figure| figure.width(page, at_most));
        figures.fold(text::width(&text::clean(heading), Weight::Regular, page.small.size).min(at_most), f64::max)
    });
    columns.collect()
}

fn filled(widths: &[f64]) -> impl Iterator<Item = f64> {
    widths.iter().copied().filter(|width| *width > 0.0)
}

impl Columns {
    /// Figures take what they need; names take what is left, and wrap.
    fn wide(page: &Page, rows: &[&Row], headings: &[String]) -> Self {
        let many = filled(&widths(page, rows, headings, FIGURE_AT_MOST[0])).count();
        let figure_at_most = FIGURE_AT_MOST[many.clamp(1, FIGURE_AT_MOST.len()) - 1];
        let widths = widths(page, rows, headings, figure_at_most);
        let figures: f64 = filled(&widths).map(|width| COLUMN_GAP + width).sum();
        let left = (TEXT_AT_MOST - figures - COLUMN_GAP).clamp(NAME_AT_LEAST, NAME_AT_MOST);
        let needed = |row: &&Row| {
            let name = text::width(&text::clean(&row.name), Weight::Regular, page.body.size);
            name.max(text::width(&text::clean(&row.note), Weight::Regular, page.small.size))
        };
        let name_room = rows.iter().map(needed).fold(NAME_AT_LEAST, f64::max).min(left);
        let mut right = page.margin + name_room;
        let rights = widths.iter().map(|width| {
            if *width > 0.0 {
                right += COLUMN_GAP + width;
            }
            right
        });
        let rights = rights.collect();
        Self { name_room, figure_at_most, rights, right, is_stacked: false }
    }

    /// Figures end at the right margin; names take what they leave, or a line of their own.
    fn narrow(page: &Page, rows: &[&Row], headings: &[String]) -> Self {
        let all = widths(page, rows, headings, page.room());
        let columns = filled(&all).map(|_| 1.0).sum::<f64>().max(1.0);
        let figures: f64 = filled(&all).map(|width| COLUMN_GAP + width).sum();
        let is_stacked = page.room() - figures < NARROW_NAME_AT_LEAST;
        let name_room = if is_stacked { page.room() } else { page.room() - figures };
        let figure_at_most = if figures > page.room() { (page.room() - COLUMN_GAP * (columns - 1.0)) / columns } else { page.room() };
        let mut right = page.right();
        let mut rights: Vec<_> = all
            .iter()
            .rev()
            .map(|width| {
                let here = right;
                if *width > 0.0 {
                    right -= COLUMN_GAP + width.min(figure_at_most);
                }
                here
            })
            .collect();
        rights.reverse();
        Self { name_room, figure_at_most, rights, right: page.right(), is_stacked }
    }
}
