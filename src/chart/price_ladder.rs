//! A price list now and next, design by design, with the fair price of each.

use rust_decimal::Decimal;

use super::alternative::{Chart, drawn_under_its_heading, interval, row as in_words, said};
use super::axis::{self, AmountStyle};
use super::canvas::Canvas;
use super::frame::{self, Axis};
use super::marks::{self, Sign};
use super::row::{self, Figure, RowText, Rows};
use super::theme::{BELOW, SHORT_INK};

/// From the middle of a row to the fair price and to the price now beneath it, so that neither hides the other.
const LANES: (f64, f64) = (-8.0, 7.5);
/// Half of the next price's line, which shows above, between and beneath the others.
const REACH: f64 = 17.0;
/// Over the price now, and the next price with the word "moves" beneath it.
const HEADINGS: [&str; 2] = ["now", "next"];

/// One design. Amounts are in the currency's main unit.
#[derive(Debug, Clone)]
pub struct LadderRow {
    /// The design. Two lines are shown, the rest cut short with `…`.
    pub name: String,
    /// A few words beneath the name; may be empty.
    pub note: String,
    /// List price now.
    pub old: Decimal,
    /// The same as it is to be read.
    pub old_label: String,
    /// List price next.
    pub new: Decimal,
    /// The same as it is to be read.
    pub new_label: String,
    /// The price that pays the wage aimed at.
    pub fair: Decimal,
    /// Its 90 % interval, where there is one.
    pub interval: Option<(Decimal, Decimal)>,
    /// Whether it moves to another tier, which is said in a word.
    pub moves: bool,
}

/// The designs of one new tier.
#[derive(Debug, Clone)]
pub struct LadderGroup {
    /// The tier.
    pub name: String,
    /// The designs, from the top down. A group without any is not drawn.
    pub rows: Vec<LadderRow>,
}

/// Prices now and next beside fair prices, in the order given, on an axis from nil.
#[derive(Debug, Clone)]
pub struct LadderChart {
    /// What the chart finds, as a sentence.
    pub title: String,
    /// What it shows: season, wage, caution.
    pub subtitle: String,
    /// What the axis measures.
    pub axis: String,
    /// How amounts are written at the ticks.
    pub amounts: AmountStyle,
    /// The tiers, from the top down.
    pub groups: Vec<LadderGroup>,
}

impl LadderChart {
    /// The chart as SVG, 640 CSS pixels wide and as tall as it needs. Without rows, a sentence says so.
    #[must_use]
    pub fn svg(&self) -> String {
        if self.rows().next().is_none() {
            return frame::nothing_to_draw(&self.title, &self.subtitle);
        }
        let mut canvas = Canvas::default();
        let below_heading = frame::heading(&mut canvas, &self.title, &self.subtitle);
        let below_key = frame::key(&mut canvas, below_heading, &self.key());
        let rows = Rows::new(self.texts(), &HEADINGS, |close| below_key + row::heading_room(true, close));
        let axis = Axis::new(self.range(), rows.plot_left, &self.amounts);
        axis.draw_lines(&mut canvas, rows.top, rows.bottom);
        rows.draw_headings(&mut canvas, &HEADINGS);
        rows.draw(&mut canvas);
        for (design, row) in self.rows().zip(&rows.placed) {
            design.draw(&mut canvas, &axis, row.middle());
        }
        if rows.close {
            axis.draw_labels(&mut canvas, rows.top - 8.0);
        }
        axis.draw_labels(&mut canvas, rows.bottom + 18.0);
        axis.draw_title(&mut canvas, &self.axis, rows.bottom + 38.0);
        canvas.svg(rows.bottom + 38.0 + BELOW, &frame::label(&self.title, &self.subtitle))
    }

    fn rows(&self) -> impl Iterator<Item = &LadderRow> {
        self.groups.iter().flat_map(|group| &group.rows)
    }

    fn texts(&self) -> Vec<RowText> {
        let mut texts = Vec::new();
        for group in &self.groups {
            for (at, row) in group.rows.iter().enumerate() {
                texts.push(if at == 0 { row.text().first_of(&group.name) } else { row.text() });
            }
        }
        texts
    }

    fn key(&self) -> Vec<(Sign, String)> {
        let mut key = vec![(Sign::Guess, "price now"), (Sign::Pin, "next price"), (Sign::Dot, "fair price")];
        if self.rows().any(|row| row.interval.is_some()) {
            key.push((Sign::Whisker, "range (90 %)"));
        }
        key.into_iter().map(|(sign, words)| (sign, words.to_owned())).collect()
    }

    fn range(&self) -> (Decimal, Decimal) {
        let marks = self.rows().flat_map(|row| [row.old, row.new, row.fair]);
        axis::range(marks, self.rows().filter_map(|row| row.interval))
    }
}

impl Chart for LadderChart {
    drawn_under_its_heading!();

    fn rows_in_words(&self) -> Vec<String> {
        let in_tier = |group: &LadderGroup| -> Vec<String> {
            let of = |row: &LadderRow| {
                let (old, new) = (format!("now {}", row.old_label), format!("next {}", row.new_label));
                let fair = format!("fair {}", self.amounts.write(row.fair, self.amounts.decimals));
                let (low, high) = row.interval.unzip();
                let moves = if row.moves { "moves" } else { "" };
                in_words(&row.name, &[&group.name, moves, &old, &new, &fair, &interval(low, high, &self.amounts), &row.note])
            };
            group.rows.iter().map(of).collect()
        };
        said(self.groups.iter().flat_map(in_tier))
    }
}

impl LadderRow {
    fn text(&self) -> RowText {
        let word = self.moves.then_some(("moves", SHORT_INK));
        let figures = vec![Figure::new(&self.old_label, None), Figure::new(&self.new_label, word)];
        RowText::new(&self.name, &self.note, figures)
    }

    fn draw(&self, canvas: &mut Canvas, axis: &Axis, middle: f64) {
        if let Some((low, high)) = self.interval {
            marks::whisker(canvas, (axis.scale.x(low), axis.scale.x(high)), middle + LANES.0, (axis.holds(low), axis.holds(high)));
        }
        marks::pin(canvas, axis.scale.x(self.new), middle - REACH, middle + REACH);
        marks::guess(canvas, (axis.scale.x(self.old), middle + LANES.1));
        marks::dot(canvas, (axis.scale.x(self.fair), middle + LANES.0));
    }
}
