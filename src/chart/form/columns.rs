//! Columns over months: panels one above the other on the same months.

use rust_decimal::Decimal;

use super::column_figures::{Figure, draw_figures};
use super::line_labels::LineLabels;
use crate::chart::draw::amounts::AmountStyle;
use crate::chart::draw::axis::Axis;
use crate::chart::draw::fill::Fill;
use crate::chart::draw::heading::Heading;
use crate::chart::draw::heading::{axis_title, heading, key, only_words};
use crate::chart::draw::page::Page;
use crate::chart::draw::page::Width;
use crate::chart::draw::picture::{Align, Layer, Picture, Role, Words};
use crate::chart::draw::sign::{KeySign, Sign};
use crate::chart::draw::theme::{BAND, INK, SOFT_INK};
use crate::chart::draw::{font::Weight, text};
use crate::chart::form::chart::Chart;
use crate::chart::words;

/// Months drawn at most: the last ones.
const MOST: usize = 36;
/// Heights of the first panel and of the others, wide and narrow.
const FIRST_HIGH: [f64; 2] = [240.0, 190.0];
const OTHERS_HIGH: [f64; 2] = [130.0, 100.0];
/// Above the first panel and the others, for the title of the axis and under it for figures over the tallest column, of
/// which the first panel has three that may have to stand over one another.
const ABOVE: [f64; 2] = [70.0, 72.0];
const FIGURES: [f64; 2] = [51.0, 36.0];
/// Right of the panels of a wide page, for the words at a line.
const BESIDE: f64 = 80.0;
/// Columns are this share of a month's width, and no wider than this.
const FILLED: f64 = 0.7;
const WIDEST: f64 = 48.0;
/// From this width of a month on every column has its figure.
const ROOMY: f64 = 66.0;
const MONTH_AT_MOST: f64 = 70.0;

/// One column.
#[derive(Debug, Clone)]
pub struct Column {
    /// Its amount, up or down from zero.
    pub amount: Decimal,
    /// The amount as it is to be read.
    pub label: String,
    /// A word before the label, such as `best`, with which it is always written; may be empty.
    pub word: String,
    /// How it is filled.
    pub fill: Fill,
    /// Whether it says little: drawn as an outline.
    pub is_rough: bool,
    /// The amount as it is said to those who cannot see it.
    pub said: String,
}

/// One month, with a column for each panel; none leaves a gap.
#[derive(Debug, Clone, Default)]
pub struct Month {
    /// As it stands under its columns, such as `Mar`. Where months are many, every second or third is written.
    pub name: String,
    /// Its year, written under the first of its months.
    pub year: String,
    /// Whether it is the month in question: it stands on a band and always has its figures.
    pub is_current: bool,
    /// Its columns, in the order of the panels.
    pub columns: Vec<Option<Column>>,
    /// A few short words in the gap where the first panel has no column, where they have room; may be empty.
    pub gap: String,
}

/// What the columns of one panel measure.
#[derive(Debug, Clone, Default)]
pub struct Panel {
    /// What the axis measures.
    pub axis: String,
    /// How amounts are written at the ticks.
    pub amounts: AmountStyle,
    /// An amount to measure by, and the words beside its line.
    pub line: Option<(Decimal, String)>,
    /// Label of a month without a column; may be empty.
    pub missing: String,
}

/// Months from the left, in the order given; months without columns are among them. Of more than 36 the last 36 are drawn.
#[derive(Debug, Clone, Default)]
pub struct Columns {
    /// What stands over the chart.
    pub heading: Heading,
    /// What a fill means; those that do not occur are left out of the key.
    pub key: Vec<(Fill, String)>,
    /// What an outline means in the key.
    pub rough: String,
    /// The panels, from the top down.
    pub panels: Vec<Panel>,
    /// The months.
    pub months: Vec<Month>,
}

/// Where the months lie across all panels.
#[derive(Debug, Clone, Copy)]
struct Across {
    left: f64,
    right: f64,
    step: f64,
}

impl Across {
    /// From `left` to `right`, or less far where the name of the last month would reach over the margin.
    fn new((left, right): (f64, f64), months: &[Month], page: &Page) -> Self {
        let half = months.last().map_or(0.0, |month| text::width(&name(month, page), Weight::SemiBold, page.small.size)) / 2.0;
        let step = ((right - left) / number(months.len())).min((page.right() - half - left) / (number(months.len()) - 0.5));
        Self { left, right: left + number(months.len()) * step, step }
    }

    fn middle(&self, at: usize) -> f64 {
        self.left + (number(at) + 0.5) * self.step
    }

    fn half_column(&self) -> f64 {
        (FILLED * self.step).min(WIDEST) / 2.0
    }
}

/// A month's name, cut short where it is long.
fn name(month: &Month, page: &Page) -> String {
    text::elide(&text::clean(&month.name), Weight::SemiBold, page.small.size, MONTH_AT_MOST)
}

fn number(count: usize) -> f64 {
    u32::try_from(count).map_or(f64::MAX, f64::from)
}

impl Chart for Columns {
    fn heading(&self) -> &Heading {
        &self.heading
    }

    fn picture(&self, width: Width) -> Picture {
        let page = Page::new(width);
        let mut picture = Picture::new(page);
        let months = self.drawn();
        if months.iter().all(|month| month.columns.iter().all(Option::is_none)) {
            return only_words(picture, &self.heading, "");
        }
        let below_heading = heading(&mut picture, &self.heading);
        let below_key = key(&mut picture, below_heading, &self.key(page.is_narrow));
        let mut bottom = below_key;
        let axes = self.panels.iter().enumerate().map(|(at, panel)| {
            let (which, narrow) = (at.min(1), usize::from(page.is_narrow));
            let top = bottom + ABOVE[which];
            bottom = top + if at == 0 { FIRST_HIGH[narrow] } else { OTHERS_HIGH[narrow] };
            Axis::upward(panel.range(months, at), (bottom, top), &panel.amounts, &page)
        });
        let axes: Vec<Axis> = axes.collect();
        let left = page.margin + axes.iter().map(|axis| axis.room(&page)).fold(0.0, f64::max);
        let right = page.right() - if page.is_narrow { 2.0 } else { BESIDE };
        let across = Across::new((left, right), months, &page);
        draw_band(&mut picture, across, months, (axes.first().map_or(0.0, |axis| axis.span().1), bottom));
        for (at, (panel, axis)) in self.panels.iter().zip(&axes).enumerate() {
            let ceiling = axis.span().1 - FIGURES[at.min(1)];
            axis_title(&mut picture, &panel.axis, (page.margin, ceiling - 4.0));
            axis.draw_upward(&mut picture, across.left, across.right);
            draw_panel(&mut picture, (panel, axis), across, months, at, ceiling);
        }
        let below_months = draw_months(&mut picture, across, months, bottom);
        picture.finished(below_months, &self.heading)
    }

    fn rows_in_words(&self) -> Vec<String> {
        let rows = self.months.iter().map(|month| {
            let panels = self.panels.iter().zip(&month.columns);
            let parts = panels.map(|(panel, column)| column.as_ref().map_or(panel.missing.as_str(), |column| column.said.as_str()));
            words::line(&format!("{} {}", month.name, month.year), parts)
        });
        let lines = self.panels.iter().filter_map(|panel| panel.line.as_ref()).map(|(_, line)| words::one_line(line));
        words::said(lines.chain(rows))
    }
}

impl Columns {
    fn drawn(&self) -> &[Month] {
        &self.months[self.months.len().saturating_sub(MOST)..]
    }

    /// Only what occurs in this chart, and on a narrow page the lines, which have no room beside them.
    fn key(&self, is_narrow: bool) -> Vec<(KeySign, String)> {
        let columns = || self.drawn().iter().flat_map(|month| month.columns.iter().flatten());
        let occurs = |fill: Fill| columns().any(|column| column.fill == fill && !column.is_rough);
        let mut key: Vec<_> = self
            .key
            .iter()
            .filter(|(fill, _)| occurs(*fill))
            .map(|(fill, words)| (KeySign::Sign(Sign::Bar(*fill)), words.clone()))
            .collect();
        if columns().any(|column| column.is_rough) {
            key.push((KeySign::Hollow, self.rough.clone()));
        }
        let lines = self.panels.iter().filter(|_| is_narrow).filter_map(|panel| panel.line.as_ref());
        key.extend(lines.map(|(_, words)| (KeySign::Line, words.clone())));
        key
    }
}

impl Panel {
    fn range(&self, months: &[Month], at: usize) -> (Decimal, Decimal) {
        let amounts = columns(months, at).map(|(_, column)| column.amount).chain(self.line.iter().map(|(amount, _)| *amount));
        amounts.fold((Decimal::ZERO, Decimal::ZERO), |(low, high), amount| (low.min(amount), high.max(amount)))
    }
}

/// The columns of a panel, each with the number of its month.
fn columns(months: &[Month], panel: usize) -> impl Iterator<Item = (usize, &Column)> {
    months.iter().enumerate().filter_map(move |(at, month)| Some((at, month.columns.get(panel)?.as_ref()?)))
}

/// The month in question stands on a band through all panels; a lone month needs no telling apart.
fn draw_band(picture: &mut Picture, across: Across, months: &[Month], (top, bottom): (f64, f64)) {
    picture.role(Role::Axis);
    for (at, _) in months.iter().enumerate().filter(|(_, month)| month.is_current && months.len() > 1) {
        let (x, half) = (across.middle(at), across.step / 2.0);
        picture.rect(Layer::Under, [x - half, top - 8.0, x + half, bottom + 26.0], BAND);
    }
}

fn draw_panel(picture: &mut Picture, (panel, axis): (&Panel, &Axis), across: Across, months: &[Month], number: usize, ceiling: f64) {
    let mut figures = Vec::new();
    for (at, column) in columns(months, number) {
        picture.role(Role::Data(at));
        let (x, half, zero, end) = (across.middle(at), across.half_column(), axis.zero(), axis.place(column.amount));
        let place = [x - half, zero.min(end), x + half, zero.max(end)];
        if column.is_rough {
            column.fill.draw_hollow(picture, place);
        } else {
            column.fill.draw(picture, place);
        }
        let is_strong = months.get(at).is_some_and(|month| month.is_current);
        // Always wanted with a word and for the month in question, else where there is room for all.
        let is_wanted = is_strong || !column.word.is_empty();
        let text =
            if is_wanted || across.step >= ROOMY { text::clean(&format!("{} {}", column.word, column.label)) } else { String::new() };
        figures.push(Figure { top: (x, place[1]), half, text, is_strong, is_wanted });
    }
    if number == 0 {
        draw_gaps(picture, across, months, axis.zero());
    }
    let line = panel.line.as_ref().map(|(amount, words)| (axis.place(*amount), words));
    draw_figures(picture, (across.left, across.right), &figures, ceiling, line.map(|(y, _)| y));
    if let Some((y, words)) = line {
        picture.role(Role::Line);
        let ends = [(across.left, y), (across.right, y)];
        picture.line(Layer::Over, ends, 2.0, INK);
        if !picture.page().is_narrow {
            LineLabels::new([across.left, axis.span().1, across.right, axis.span().0]).draw(picture, ends, words, true);
        }
    }
}

/// Draws the labels of months without a column in the first panel: a word a line, above zero, where there is room.
fn draw_gaps(picture: &mut Picture, across: Across, months: &[Month], zero: f64) {
    const LINE: f64 = 17.0;
    let size = picture.page().small.size;
    for (at, month) in months.iter().enumerate().filter(|(_, month)| month.columns.first().is_none_or(Option::is_none)) {
        let lines: Vec<Words> =
            month.gap.split_whitespace().map(|word| Words::new(text::clean(word), size).ink(SOFT_INK).align(Align::Middle)).collect();
        // As far as the columns beside it.
        if lines.iter().all(|words| words.width() <= 2.0 * (across.step - across.half_column()) - 1.0) {
            picture.role(Role::Name);
            let mut baseline = zero - 6.0;
            for words in lines.into_iter().rev() {
                picture.words((across.middle(at), baseline), words);
                baseline -= LINE;
            }
        }
    }
}

/// The months under the columns, as many as fit and always the one in question, and the years under them; returns where
/// the last line ends.
fn draw_months(picture: &mut Picture, across: Across, months: &[Month], bottom: f64) -> f64 {
    picture.role(Role::Axis);
    let page = picture.page();
    let size = page.small.size;
    let widest = months.iter().map(|month| text::width(&name(month, &page), Weight::SemiBold, size)).fold(0.0, f64::max);
    let every = (1..=months.len().max(1)).find(|every| number(*every) * across.step >= widest + 6.0).unwrap_or(months.len().max(1));
    let from = months.iter().rposition(|month| month.is_current).unwrap_or(0);
    let mut years: Vec<(f64, String)> = Vec::new();
    for (at, month) in months.iter().enumerate() {
        let x = across.middle(at);
        if at.abs_diff(from) % every == 0 {
            let words = Words::new(name(month, &page), size).align(Align::Middle);
            let words = if month.is_current { words.bold().rim(BAND) } else { words.ink(SOFT_INK) };
            picture.words((x, bottom + 18.0), words);
        }
        let year = text::elide(&text::clean(&month.year), Weight::Regular, size, MONTH_AT_MOST);
        if years.last().is_none_or(|(_, last)| *last != year) {
            years.push((x - across.step / 2.0, year));
        }
    }
    draw_years(picture, across, &years, bottom);
    bottom + 38.0
}

/// The years from the left of their first month on, where they have room before the next.
fn draw_years(picture: &mut Picture, across: Across, years: &[(f64, String)], bottom: f64) {
    let page = picture.page();
    let mut free_from = across.left - 8.0;
    let ends = years.iter().skip(1).map(|(x, _)| *x).chain([page.right()]);
    for ((x, year), end) in years.iter().zip(ends) {
        if *x > across.left + 1.0 {
            picture.line(Layer::Ground, [(*x, bottom + 26.0), (*x, bottom + 42.0)], 1.0, SOFT_INK);
        }
        let left = x + 5.0;
        let words = Words::new(year.clone(), page.small.size).ink(SOFT_INK);
        if left >= free_from && left + words.width() <= end {
            free_from = left + words.width() + 6.0;
            picture.words((left, bottom + 38.0), words);
        }
    }
}
