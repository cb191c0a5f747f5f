//! Bars across the page, a row each beside or beneath its name and figures: alone, stacked, or amounts in lanes with their
//! ranges.

use rust_decimal::Decimal;

use crate::chart::draw::amounts::AmountStyle;
use crate::chart::draw::axis::Axis;
use crate::chart::draw::fill::Fill;
use crate::chart::draw::heading::Heading;
use crate::chart::draw::heading::{axis_title, heading, key, only_words};
use crate::chart::draw::page::Page;
use crate::chart::draw::page::Width;
use crate::chart::draw::picture::{Align, Layer, Picture, Role, Words};
use crate::chart::draw::row::Row;
use crate::chart::draw::sign::{self, KeySign, Sign};
use crate::chart::draw::table::Table;
use crate::chart::draw::text;
use crate::chart::draw::theme::{INK, WHITE};
use crate::chart::draw::ticks;
use crate::chart::form::chart::Chart;
use crate::chart::form::series::Series;
use crate::chart::words;

/// From the middle of a lane up to what was learned and down to the guess, so that neither hides the other.
const UPPER: f64 = -7.5;
const LOWER: f64 = 7.0;
/// How far a pin reaches past a bar, or through both lanes.
const PAST_BAR: f64 = 5.0;
const THROUGH: f64 = 17.0;

/// One row. Amounts are in the unit of the axis, each with the number of its series.
#[derive(Debug, Clone, Default)]
pub struct BarRow {
    /// Its words.
    pub row: Row,
    /// What the bar is made of, from zero. A single part may be negative; of several a negative one (a credit) is not
    /// drawn.
    pub parts: Vec<(usize, Decimal)>,
    /// What stands at an amount.
    pub points: Vec<(usize, Decimal)>,
    /// A range of 90 %, in either order; one that is far wider than all else ends in an arrow head.
    pub range: Option<(Decimal, Decimal)>,
    /// Where the bar is covered only up to here: the rest is hatched.
    pub covered: Option<Decimal>,
}

/// Rows in the order given, on an axis from zero.
#[derive(Debug, Clone, Default)]
pub struct Bars {
    /// What stands over the chart.
    pub heading: Heading,
    /// What the axis measures.
    pub axis: String,
    /// How amounts are written at the ticks, in the bars and in words.
    pub amounts: AmountStyle,
    /// What bars and signs stand for, in the order of the key.
    pub series: Vec<Series>,
    /// What a range is called in the key.
    pub range: String,
    /// What the part of a bar that is not covered is called in the key.
    pub uncovered: String,
    /// Over the columns of figures; empty for none.
    pub columns: Vec<String>,
    /// The rows, from the top down.
    pub rows: Vec<BarRow>,
    /// An amount to measure by, and the words over its line.
    pub line: Option<(Decimal, String)>,
}

impl Chart for Bars {
    fn heading(&self) -> &Heading {
        &self.heading
    }

    fn picture(&self, width: Width) -> Picture {
        let page = Page::new(width);
        let mut picture = Picture::new(page);
        if self.rows.is_empty() {
            return only_words(picture, &self.heading, "");
        }
        let below_heading = heading(&mut picture, &self.heading);
        let below_key = key(&mut picture, below_heading, &self.key());
        let line_y = below_key + 16.0;
        let above = if self.line.is_some() { line_y + 8.0 } else { below_key };
        let has_lanes = self.rows.iter().any(|row| self.lanes(row) != (0.0, 0.0));
        let lane = if has_lanes { 2.0 * THROUGH } else { 22.0 };
        let table = Table::new(&page, self.rows.iter().map(|row| &row.row).collect(), &self.columns, (above, lane));
        let axis = Axis::across(self.ends(), table.plot, &self.amounts, &page);
        axis.draw_lines(&mut picture, &table.spans(&page));
        table.draw(&mut picture);
        let half = f64::min(if table.is_close { 8.0 } else { 11.0 }, lane / 2.0);
        for (at, (row, placed)) in self.rows.iter().zip(&table.placed).enumerate() {
            picture.role(Role::Data(at));
            self.draw_bar(&mut picture, &axis, row, (placed.middle(), half));
            self.draw_signs(&mut picture, &axis, row, (placed.middle(), half));
        }
        if let Some((amount, words)) = &self.line {
            draw_line(&mut picture, (axis.place(*amount), line_y), words, &table);
        }
        for y in table.tick_baselines() {
            axis.draw_labels(&mut picture, y);
        }
        let bottom = axis_title(&mut picture, &self.axis, (axis.title_left(&page), table.bottom + 38.0));
        picture.finished(bottom, &self.heading)
    }

    fn rows_in_words(&self) -> Vec<String> {
        let mut group = "";
        let rows = self.rows.iter().map(|of| {
            group = of.row.group.as_deref().unwrap_or(group);
            let amount = |(series, amount): &(usize, Decimal)| words::amount(self.series.get(*series), *amount, &self.amounts);
            let mut more = vec![words::range(of.range(), &self.amounts)];
            more.extend(of.points.iter().chain(&of.parts).map(amount));
            words::row(&of.row, group, &self.columns, more)
        });
        words::said(self.line.iter().map(|(_, line)| words::one_line(line)).chain(rows))
    }
}

impl Bars {
    /// Only what occurs in this chart.
    fn key(&self) -> Vec<(KeySign, String)> {
        let drawn = |at: usize| {
            let has = |amounts: &[(usize, Decimal)], nil: bool| amounts.iter().any(|(of, amount)| *of == at && (nil || !amount.is_zero()));
            self.rows.iter().any(|row| has(&row.parts, false) || has(&row.points, true))
        };
        let occurring = self.series.iter().enumerate().filter(|(at, _)| drawn(*at));
        let mut key: Vec<_> = occurring.map(|(_, series)| (KeySign::Sign(series.sign), series.name.clone())).collect();
        if self.rows.iter().any(|row| row.range.is_some()) {
            key.push((KeySign::Range, self.range.clone()));
        }
        // In the fills it is drawn over.
        let hatched: Vec<usize> = self.rows.iter().flat_map(BarRow::not_covered).collect();
        if let (Some(first), Some(last)) = (hatched.iter().min(), hatched.iter().max()) {
            key.push((KeySign::Hatching(self.fill(*first), self.fill(*last)), self.uncovered.clone()));
        }
        key
    }

    fn sign(&self, series: usize) -> Sign {
        self.series.get(series).map_or(Sign::Bar(Fill::Unknown), |series| series.sign)
    }

    fn fill(&self, series: usize) -> Fill {
        if let Sign::Bar(fill) = self.sign(series) { fill } else { Fill::Unknown }
    }

    /// From the least to the greatest amount. Time that was only waited widens the axis no more than a range does.
    fn ends(&self) -> (Decimal, Decimal) {
        let waited = |row: &BarRow| row.parts.iter().any(|(series, _)| self.fill(*series) == Fill::Waiting);
        let points = self.rows.iter().flat_map(|row| row.points.iter().map(|(_, amount)| *amount));
        let bars = self.rows.iter().filter(|row| !waited(row)).map(BarRow::length);
        let ranges = self.rows.iter().filter_map(BarRow::range);
        let waits = self.rows.iter().filter(|row| waited(row)).map(|row| (Decimal::ZERO, row.length()));
        ticks::range(points.chain(bars).chain(self.line.iter().map(|(amount, _)| *amount)), ranges.chain(waits))
    }

    /// Where what was learned stands, and the guess: apart where a row has both.
    fn lanes(&self, row: &BarRow) -> (f64, f64) {
        let has = |wanted: &[Sign]| row.points.iter().any(|(series, _)| wanted.contains(&self.sign(*series)));
        if has(&[Sign::Dot, Sign::Ring]) && has(&[Sign::Guess]) { (UPPER, LOWER) } else { (0.0, 0.0) }
    }

    fn draw_bar(&self, picture: &mut Picture, axis: &Axis, row: &BarRow, (middle, half): (f64, f64)) {
        let (top, bottom) = (middle - half, middle + half);
        let covered = row.covered.map_or(f64::MAX, |amount| axis.place(amount.max(Decimal::ZERO)));
        let (mut before, is_stack) = (Decimal::ZERO, row.parts.len() > 1);
        for (series, part) in &row.parts {
            let after = if is_stack { before.saturating_add((*part).max(Decimal::ZERO)) } else { *part };
            let (from, to) = (axis.place(before), axis.place(after));
            let (left, right) = (from.min(to), from.max(to));
            before = after;
            let fill = self.fill(*series);
            // A white gap sets neighbours apart, as far as the part is wide enough to lose it.
            let gap = if is_stack && right - left > 3.0 { 1.0 } else { 0.0 };
            fill.draw(picture, [left, top, right - gap, bottom]);
            if is_stack {
                let amount = text::clean(&self.amounts.write(*part, self.amounts.decimals));
                let words = Words::new(amount, picture.page().small.size).ink(fill.ink()).rim(fill.colour()).align(Align::Middle);
                let marks: Vec<f64> = row.points.iter().map(|(_, amount)| axis.place(*amount)).collect();
                // Not in a part of which some is hatched: the amount is that of both sides.
                let is_whole = right - gap <= covered;
                if let Some(x) = clear_of(&marks, (left, right - gap), words.width()).filter(|_| is_whole) {
                    picture.words((x, middle + 4.5), words);
                }
            }
            if fill == Fill::Waiting && !axis.holds(*part) && right - left > 20.0 {
                picture.rect(Layer::Over, [right - 12.0, top, right, bottom], WHITE);
                picture.polygon(Layer::Over, vec![(right - 11.0, top), (right, middle), (right - 11.0, bottom)], fill.colour());
            }
        }
        // Nothing where all is covered: the place is empty then.
        picture.hatching([covered, top, axis.place(before), bottom]);
    }

    fn draw_signs(&self, picture: &mut Picture, axis: &Axis, row: &BarRow, (middle, half): (f64, f64)) {
        let (upper, lower) = self.lanes(row);
        if let Some((low, high)) = row.range() {
            let closed = (axis.holds(low), axis.holds(high));
            sign::range(picture, (axis.place(low), axis.place(high)), middle + upper, closed);
        }
        let places = || row.points.iter().map(|(series, amount)| (self.sign(*series), axis.place(*amount)));
        for (_, x) in places().filter(|(sign, _)| *sign == Sign::Pin) {
            let reach = if row.parts.is_empty() { THROUGH } else { half + PAST_BAR };
            sign::pin(picture, (x, middle), reach);
        }
        for (sign, x) in places().filter(|(sign, _)| *sign != Sign::Pin) {
            sign.draw(picture, (x, middle + if sign == Sign::Guess { lower } else { upper }));
        }
    }
}

impl BarRow {
    /// The lower end first.
    fn range(&self) -> Option<(Decimal, Decimal)> {
        self.range.map(|(low, high)| (low.min(high), low.max(high)))
    }

    /// Where the bar ends.
    fn length(&self) -> Decimal {
        match self.parts.as_slice() {
            [(_, alone)] => *alone,
            parts => parts.iter().fold(Decimal::ZERO, |sum, (_, part)| sum.saturating_add((*part).max(Decimal::ZERO))),
        }
    }

    /// The series that are not covered, or not wholly.
    fn not_covered(&self) -> Vec<usize> {
        let Some(covered) = self.covered else { return Vec::new() };
        let mut reached = Decimal::ZERO;
        let mut not = Vec::new();
        for (series, part) in self.parts.iter().filter(|(_, part)| *part > Decimal::ZERO) {
            reached = reached.saturating_add(*part);
            if reached > covered {
                not.push(*series);
            }
        }
        not
    }
}

/// The middle of the widest side of a part that no mark crosses; `None` if a label of `width` does not fit there.
fn clear_of(marks: &[f64], (left, right): (f64, f64), width: f64) -> Option<f64> {
    const FROM_EDGE: f64 = 5.0;
    const FROM_MARK: f64 = 8.0;
    let (left, right) = (left + FROM_EDGE, right - FROM_EDGE);
    let mut sides = vec![(left, right)];
    for mark in marks {
        let split = |(from, to): (f64, f64)| [(from, to.min(mark - FROM_MARK)), (from.max(mark + FROM_MARK), to)];
        sides = sides.into_iter().flat_map(split).collect();
    }
    let widest = sides.into_iter().reduce(|best, next| if next.1 - next.0 > best.1 - best.0 { next } else { best });
    widest.filter(|(from, to)| to - from >= width).map(|(from, to)| f64::midpoint(from, to))
}

/// The line to measure by, from its words down through all rows.
fn draw_line(picture: &mut Picture, (x, baseline): (f64, f64), words: &str, table: &Table) {
    picture.role(Role::Line);
    let page = picture.page();
    if page.is_narrow {
        for (top, bottom) in table.spans(&page) {
            picture.line(Layer::Over, [(x, top - 2.0), (x, bottom + 2.0)], 2.0, INK);
        }
    } else {
        picture.line(Layer::Over, [(x, baseline + 6.0), (x, table.bottom + 4.0)], 2.0, INK);
    }
    let words = Words::new(text::clean(words), page.small.size).bold().align(Align::Middle).within(page.room());
    let half = words.width() / 2.0;
    picture.words((x.min(page.right() - half).max(page.margin + half), baseline), words);
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn labels_keep_clear_of_the_mark_and_of_the_ends() {
        assert_eq!(clear_of(&[500.0], (0.0, 100.0), 40.0), Some(50.0));
        assert_eq!(clear_of(&[20.0], (0.0, 100.0), 40.0), Some(61.5));
        assert_eq!(clear_of(&[80.0], (0.0, 100.0), 40.0), Some(38.5));
        assert_eq!(clear_of(&[50.0], (0.0, 100.0), 40.0), None);
        assert_eq!(clear_of(&[], (0.0, 45.0), 40.0), None);
    }
}
