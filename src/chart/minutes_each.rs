//! Minutes a piece by design, learned from the hours of whole orders, beside the maker's own guess.

use rust_decimal::Decimal;
use rust_decimal::prelude::FromPrimitive;

use super::axis::{self, AmountStyle};
use super::canvas::Canvas;
use super::frame::{self, Axis};
use super::marks::{self, Sign};
use super::row::{Figure, RowText, Rows};
use super::theme::{BELOW, SOFT_INK};

/// From the middle of a row to what was learned and to the guess beneath it, so that neither hides the other.
const LANES: (f64, f64) = (-7.0, 6.5);

/// One design. Minutes that are not finite or not above nil are taken as not known.
#[derive(Debug, Clone)]
pub struct MinutesRow {
    /// The design. Two lines are shown, the rest cut short with `…`.
    pub name: String,
    /// A few words beneath the name, such as `12 orders, 214 pieces`; may be empty.
    pub note: String,
    /// Median minutes a piece; `None` where no logged order has the design, which draws no dot.
    pub minutes: Option<f64>,
    /// Lower end of the 90 % interval. The interval is drawn where both ends are known, and `minutes` is; this end may
    /// be nil.
    pub low: Option<f64>,
    /// Upper end of the 90 % interval.
    pub high: Option<f64>,
    /// Minutes a piece on the maker's own card.
    pub card: Option<f64>,
    /// The minutes as they are to be read, such as `33 min`; `not sold with hours` is written where this is empty and
    /// `minutes` is `None`.
    pub label: String,
    /// Whether the orders tell the design apart from those it was sold with.
    pub told_apart: bool,
}

/// The designs of one tier.
#[derive(Debug, Clone)]
pub struct MinutesGroup {
    /// The tier. Groups are headed where any of them has a name.
    pub name: String,
    /// The designs, from the top down. A group without any is not drawn.
    pub rows: Vec<MinutesRow>,
}

/// Minutes a piece as dots with their intervals, in the order given, on an axis from nil.
#[derive(Debug, Clone)]
pub struct MinutesChart {
    /// What the chart finds, as a sentence.
    pub title: String,
    /// What it shows: period, count, caution.
    pub subtitle: String,
    /// What the axis measures, such as `minutes of decorating a piece`.
    pub axis: String,
    /// The tiers, from the top down.
    pub groups: Vec<MinutesGroup>,
}

impl MinutesChart {
    /// The chart as SVG, 640 CSS pixels wide and as tall as it needs. Without rows, a sentence says so.
    #[must_use]
    pub fn svg(&self) -> String {
        if self.rows().next().is_none() {
            return frame::nothing_to_draw(&self.title, &self.subtitle);
        }
        let mut canvas = Canvas::default();
        let below_heading = frame::heading(&mut canvas, &self.title, &self.subtitle);
        let below_key = frame::key(&mut canvas, below_heading, &self.key());
        // A long chart has its ticks at both ends.
        let rows = Rows::new(self.texts(), &[""], |close| below_key + if close { 22.0 } else { 0.0 });
        let minutes = AmountStyle { prefix: String::new(), suffix: " min".to_owned(), decimals: 0 };
        let axis = Axis::new(self.range(), rows.plot_left, &minutes);
        axis.draw_lines(&mut canvas, rows.top, rows.bottom);
        rows.draw(&mut canvas);
        let two_lanes = self.has_guesses();
        for (design, row) in self.rows().zip(&rows.placed) {
            // A guess alone in its row stands in the middle.
            let lanes = if two_lanes && design.median().is_some() { LANES } else { (0.0, 0.0) };
            design.draw(&mut canvas, &axis, (row.middle() + lanes.0, row.middle() + lanes.1));
        }
        if rows.close {
            axis.draw_labels(&mut canvas, rows.top - 8.0);
        }
        axis.draw_labels(&mut canvas, rows.bottom + 18.0);
        axis.draw_title(&mut canvas, &self.axis, rows.bottom + 38.0);
        canvas.svg(rows.bottom + 38.0 + BELOW, &frame::label(&self.title, &self.subtitle))
    }

    fn rows(&self) -> impl Iterator<Item = &MinutesRow> {
        self.groups.iter().flat_map(|group| &group.rows)
    }

    fn has_guesses(&self) -> bool {
        self.rows().any(|row| row.guess().is_some())
    }

    fn texts(&self) -> Vec<RowText> {
        let headed = self.groups.iter().any(|group| !group.rows.is_empty() && !group.name.trim().is_empty());
        let mut texts = Vec::new();
        for group in &self.groups {
            for (at, row) in group.rows.iter().enumerate() {
                texts.push(if headed && at == 0 { row.text().first_of(&group.name) } else { row.text() });
            }
        }
        texts
    }

    /// Only what occurs in this chart.
    fn key(&self) -> Vec<(Sign, String)> {
        let dotted = |told_apart| self.rows().any(|row| row.median().is_some() && row.told_apart == told_apart);
        let entries = [
            (dotted(true), Sign::Dot, "from your hours"),
            (self.rows().any(|row| row.interval().is_some()), Sign::Whisker, "range (90 %)"),
            (self.has_guesses(), Sign::Guess, "your own guess on the card"),
            (dotted(false), Sign::Ring, "not told apart by your orders"),
        ];
        entries.into_iter().filter(|(occurs, ..)| *occurs).map(|(_, sign, words)| (sign, words.to_owned())).collect()
    }

    fn range(&self) -> (Decimal, Decimal) {
        let marks = self.rows().flat_map(|row| row.median().into_iter().chain(row.guess()));
        axis::range(marks, self.rows().filter_map(MinutesRow::interval))
    }
}

impl MinutesRow {
    fn text(&self) -> RowText {
        let figure = match self.median() {
            None if self.label.trim().is_empty() => Figure::missing("not sold with hours"),
            None => Figure::missing(&self.label),
            Some(_) => Figure::new(&self.label, (!self.told_apart).then_some(("not told apart", SOFT_INK))),
        };
        RowText::new(&self.name, &self.note, vec![figure])
    }

    fn median(&self) -> Option<Decimal> {
        amount(self.minutes?).filter(|minutes| !minutes.is_zero())
    }

    fn guess(&self) -> Option<Decimal> {
        amount(self.card?).filter(|minutes| !minutes.is_zero())
    }

    fn interval(&self) -> Option<(Decimal, Decimal)> {
        self.median()?;
        let (low, high) = (amount(self.low?)?, amount(self.high?)?);
        (!high.is_zero()).then_some((low.min(high), low.max(high)))
    }

    fn draw(&self, canvas: &mut Canvas, axis: &Axis, (learned_y, guess_y): (f64, f64)) {
        if let Some((low, high)) = self.interval() {
            let ends = (axis.scale.x(low), axis.scale.x(high));
            marks::whisker(canvas, ends, learned_y, (axis.holds(low), axis.holds(high)));
        }
        if let Some(guess) = self.guess() {
            marks::guess(canvas, (axis.scale.x(guess), guess_y));
        }
        if let Some(median) = self.median() {
            let place = (axis.scale.x(median), learned_y);
            if self.told_apart { marks::dot(canvas, place) } else { marks::ring(canvas, place) }
        }
    }
}

/// Minutes as an amount on the axis; `None` for what is no time.
fn amount(minutes: f64) -> Option<Decimal> {
    Decimal::from_f64(minutes).filter(|minutes| *minutes >= Decimal::ZERO)
}
