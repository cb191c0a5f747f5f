//! The names of points: beside them, or in a list below the plot under a number; and the list of levels.

use super::plot::{NAME_HEIGHT, Plot, TO_BASELINE};
use super::points::{Level, Point};
use crate::chart::draw::labels::{Labels, Place, Segment};
use crate::chart::draw::picture::{Align, Layer, Picture, Role, Words};
use crate::chart::draw::theme::{INK, SOFT_INK};
use crate::chart::draw::{sign, text};

/// A longer name is cut short where it stands beside its mark.
const NAME_AT_MOST: f64 = 150.0;
/// How far a name may stand from its mark on a wide page and on a narrow one; a number may stand farther.
const NAME_REACH: [f64; 2] = [36.0, 22.0];
const NUMBER_REACH: f64 = 76.0;
/// Between columns of a list, and from a number to its name.
const GAP: f64 = 20.0;
const NUMBER: f64 = 28.0;
const LINE: f64 = 20.0;
/// A figure wider than this is cut short.
const FIGURE_AT_MOST: f64 = 150.0;
/// Room for the mark of a level before its figure.
const MARK: f64 = 26.0;
/// Between the columns of levels.
const LEVEL_GAP: f64 = 12.0;

/// One line of the list.
#[derive(Debug)]
pub struct Entry {
    /// Empty where the mark has no number beside it.
    number: String,
    name: String,
    label: String,
}

/// Draws names and numbers, apart from words and lines that are there already and never on the barred lines; returns what goes by a number. Where so many lie
/// in one place that not even numbers fit, the list has them without one.
pub fn draw(
    picture: &mut Picture,
    plot: &Plot,
    points: &[(usize, &Point)],
    (words, lines, barred): (Vec<Place>, Vec<Segment>, Vec<Segment>),
) -> (Vec<Entry>, Labels) {
    picture.role(Role::Name);
    let size = picture.page().small.size;
    let places: Vec<_> = points.iter().map(|(_, point)| plot.place(point)).collect();
    let mut labels = Labels::new(plot.frame(), places.clone()).beside(words, lines).off(barred);
    let reach = NAME_REACH[usize::from(picture.page().is_narrow)];
    let mut unnamed = Vec::new();
    for ((_, point), place) in points.iter().zip(&places).filter(|((_, point), _)| point.is_named) {
        let words = Words::new(text::clean(&point.name), size).within(NAME_AT_MOST);
        if words.width() <= 0.0 {
            continue;
        }
        match labels.find(*place, (words.width(), NAME_HEIGHT), reach) {
            Some(found) => draw_label(picture, found.place, found.line, words),
            None => unnamed.push((*point, *place)),
        }
    }
    let mut entries: Vec<Entry> = Vec::new();
    for (point, place) in unnamed {
        let number = (entries.iter().filter(|entry| !entry.number.is_empty()).count() + 1).to_string();
        let words = Words::new(number.clone(), size).bold();
        let found = labels.find(place, (words.width(), NAME_HEIGHT), NUMBER_REACH);
        if let Some(found) = found {
            draw_label(picture, found.place, found.line, words);
        }
        let number = if found.is_some() { number } else { String::new() };
        entries.push(Entry { number, name: text::clean(&point.name), label: text::clean(&point.label) });
    }
    (entries, labels)
}

fn draw_label(picture: &mut Picture, [left, top, ..]: Place, line: Option<[(f64, f64); 2]>, words: Words) {
    if let Some(line) = line {
        picture.line(Layer::Over, line, 1.0, SOFT_INK);
    }
    picture.words((left, top + TO_BASELINE), words);
}

/// Draws the list below `top`, column by column; returns where the last line ends.
pub(crate) fn draw_list(picture: &mut Picture, top: f64, entries: &[Entry]) -> f64 {
    picture.role(Role::List);
    let page = picture.page();
    let columns = if page.is_narrow { 1 } else { 2 };
    let width = if page.is_narrow { page.room() } else { (page.room() - GAP) / 2.0 };
    let lines = entries.len().div_ceil(columns).max(1);
    let (mut left, mut bottom) = (page.margin, top);
    for column in entries.chunks(lines) {
        let mut y = top + 16.0;
        for entry in column {
            y += LINE;
            picture.words((left + NUMBER - 8.0, y), Words::new(entry.number.clone(), page.small.size).bold().align(Align::Right));
            let label = Words::new(entry.label.clone(), page.small.size).ink(SOFT_INK).align(Align::Right).within(FIGURE_AT_MOST);
            let room = width - NUMBER - label.width() - 10.0;
            picture.words((left + NUMBER, y), Words::new(entry.name.clone(), page.small.size).within(room));
            picture.words((left + width, y), label);
            bottom = f64::max(bottom, y);
        }
        left += width + GAP;
    }
    bottom
}

/// Draws the levels below `top`: in columns, or on a narrow page a line each; returns where the last line ends.
pub(crate) fn draw_levels(picture: &mut Picture, top: f64, levels: &[Level]) -> f64 {
    picture.role(Role::List);
    let page = picture.page();
    if levels.is_empty() {
        return top;
    }
    let small = |words: &str| Words::new(text::clean(words), page.small.size);
    if page.is_narrow {
        let mut y = top + 8.0;
        for level in levels {
            y += LINE;
            if level.amount.is_some() {
                sign::level(picture, (page.margin, page.margin + MARK - 8.0), y - 4.5);
            }
            let third = (page.room() - MARK) / 3.0;
            picture.words((page.margin + MARK, y), small(&level.name).ink(SOFT_INK).within(third + 12.0));
            picture.words((page.right() - third + 4.0, y), small(&level.label).bold().align(Align::Right).within(third - 20.0));
            picture.words((page.right(), y), small(&level.note).ink(SOFT_INK).align(Align::Right).within(third - 10.0));
        }
        return y;
    }
    let width = (page.room() + LEVEL_GAP) / u32::try_from(levels.len()).map_or(1.0, f64::from);
    let mut left = page.margin;
    for level in levels {
        // The mark ties the figure to its line in the plot.
        let is_marked = level.amount.is_some() && width > 3.0 * MARK;
        if is_marked {
            sign::level(picture, (left, left + MARK - 8.0), top + 45.5);
        }
        let indent = if is_marked { MARK } else { 0.0 };
        let lines = [
            (small(&level.name).ink(SOFT_INK), (0.0, 30.0)),
            (small(&level.label).bold().ink(INK), (indent, 50.0)),
            (small(&level.note).ink(SOFT_INK), (0.0, 68.0)),
        ];
        for (words, (across, down)) in lines {
            let words = words.within(width - LEVEL_GAP - across);
            // Of more columns than there is room for, the words go.
            if words.width() <= width - LEVEL_GAP - across {
                picture.words((left + across, top + down), words);
            }
        }
        left += width;
    }
    top + 68.0
}
