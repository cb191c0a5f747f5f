//! Hours by stage of work: the maker's own, and what helpers worked; and apart from them the hours things only waited.

use rust_decimal::Decimal;

use super::axis::{self, AmountStyle};
use super::canvas::{Canvas, Layer};
use super::frame::{self, Axis};
use super::marks::Sign;
use super::row::{self, Figure, Row, RowText, Rows};
use super::theme::{BELOW, HELPERS, OWN, WAITING, WHITE};

/// Over the hours and their shares.
const HEADINGS: [&str; 2] = ["hours", "share"];
/// Above the waiting.
const WAITING_GROUP: &str = "waiting, not work";

/// One stage of work.
#[derive(Debug, Clone)]
pub struct StageBar {
    /// The stage, such as `decorate`. Two lines are shown, the rest cut short with `…`.
    pub name: String,
    /// A few words beneath the name; may be empty.
    pub note: String,
    /// Hours the maker worked. Negative hours are drawn as nil.
    pub own: Decimal,
    /// Hours her helpers worked, drawn behind her own; nil if none.
    pub helpers: Decimal,
    /// All its hours as they are to be read, such as `12.4 h`.
    pub label: String,
    /// Its share of all hours as it is to be read, such as `31 %`; may be empty.
    pub share: String,
}

/// Time in which nobody worked, such as a rack of pieces drying.
#[derive(Debug, Clone)]
pub struct WaitingBar {
    /// What waited, such as `dry`.
    pub name: String,
    /// A few words beneath the name; may be empty.
    pub note: String,
    /// Hours waited. Where they are far more than any stage's, the bar ends open with an arrow head.
    pub hours: Decimal,
    /// The hours as they are to be read.
    pub label: String,
}

/// Hours in bars, in the order given, from zero.
#[derive(Debug, Clone)]
pub struct StagesChart {
    /// What the chart finds, as a sentence.
    pub title: String,
    /// What it shows: period, count, caution.
    pub subtitle: String,
    /// What the axis measures, such as `hours of work`.
    pub axis: String,
    /// The stages, from the top down.
    pub stages: Vec<StageBar>,
    /// What only waited, listed apart below.
    pub waiting: Vec<WaitingBar>,
}

impl StagesChart {
    /// The chart as SVG, 640 CSS pixels wide and as tall as it needs. Without rows, a sentence says so.
    #[must_use]
    pub fn svg(&self) -> String {
        if self.stages.is_empty() && self.waiting.is_empty() {
            return frame::nothing_to_draw(&self.title, &self.subtitle);
        }
        let mut canvas = Canvas::default();
        let below_heading = frame::heading(&mut canvas, &self.title, &self.subtitle);
        let below_key = frame::key(&mut canvas, below_heading, &self.key());
        let rows = Rows::new(self.texts(), &HEADINGS, |close| below_key + row::heading_room(true, close));
        let hours = AmountStyle { prefix: String::new(), suffix: " h".to_owned(), decimals: 0 };
        let axis = Axis::new(self.range(), rows.plot_left, &hours);
        axis.draw_lines(&mut canvas, rows.top, rows.bottom);
        rows.draw_headings(&mut canvas, &HEADINGS);
        rows.draw(&mut canvas);
        let half = if rows.close { 8.0 } else { 11.0 };
        for (stage, row) in self.stages.iter().zip(&rows.placed) {
            stage.draw(&mut canvas, &axis, row, half);
        }
        for (waiting, row) in self.waiting.iter().zip(rows.placed.iter().skip(self.stages.len())) {
            waiting.draw(&mut canvas, &axis, row, half);
        }
        if rows.close {
            axis.draw_labels(&mut canvas, rows.top - 8.0);
        }
        axis.draw_labels(&mut canvas, rows.bottom + 18.0);
        axis.draw_title(&mut canvas, &self.axis, rows.bottom + 38.0);
        canvas.svg(rows.bottom + 38.0 + BELOW, &frame::label(&self.title, &self.subtitle))
    }

    fn texts(&self) -> Vec<RowText> {
        let figures = |label: &str, share: &str| vec![Figure::new(label, None), Figure::new(share, None)];
        let stages = self.stages.iter().map(|stage| RowText::new(&stage.name, &stage.note, figures(&stage.label, &stage.share)));
        let waiting = self.waiting.iter().enumerate().map(|(at, waiting)| {
            let text = RowText::new(&waiting.name, &waiting.note, figures(&waiting.label, ""));
            if at == 0 { text.first_of(WAITING_GROUP) } else { text }
        });
        stages.chain(waiting).collect()
    }

    /// Only what occurs in this chart. Her own hours need no sign where there are no others.
    fn key(&self) -> Vec<(Sign, String)> {
        let mut key = Vec::new();
        if self.stages.iter().any(|stage| stage.helpers > Decimal::ZERO) {
            key.push((Sign::Plain(OWN), "you".to_owned()));
            key.push((Sign::Plain(HELPERS), "your helpers".to_owned()));
        }
        key
    }

    /// Waiting may widen the axis a little, as an interval does: a night of drying must not flatten the work.
    fn range(&self) -> (Decimal, Decimal) {
        let waiting = self.waiting.iter().map(|waiting| (Decimal::ZERO, waiting.hours));
        axis::range(self.stages.iter().map(StageBar::worked), waiting)
    }
}

impl StageBar {
    fn worked(&self) -> Decimal {
        self.own.max(Decimal::ZERO).saturating_add(self.helpers.max(Decimal::ZERO))
    }

    fn draw(&self, canvas: &mut Canvas, axis: &Axis, row: &Row, half: f64) {
        let (top, bottom) = (row.middle() - half, row.middle() + half);
        let (own, all) = (axis.scale.x(self.own.max(Decimal::ZERO)), axis.scale.x(self.worked()));
        canvas.rect(Layer::Fill, [axis.scale.zero(), top, own, bottom], OWN);
        // A white gap sets the two apart where both are there and wide enough to lose it.
        let gap = if own > axis.scale.zero() && all - own > 3.0 { 1.5 } else { 0.0 };
        canvas.rect(Layer::Fill, [own + gap, top, all, bottom], HELPERS);
    }
}

impl WaitingBar {
    /// An outline around hatching, open at its end where it goes on.
    fn draw(&self, canvas: &mut Canvas, axis: &Axis, row: &Row, half: f64) {
        let (top, bottom) = (row.middle() - half, row.middle() + half);
        let (left, right) = (axis.scale.zero(), axis.scale.x(self.hours.max(Decimal::ZERO)));
        canvas.hatched([left, top, right, bottom], WAITING);
        if !axis.holds(self.hours) && right - left > 20.0 {
            canvas.rect(Layer::Over, [right - 12.0, top, right, bottom], WHITE);
            canvas.polygon(Layer::Over, vec![(right - 11.0, top), (right, row.middle()), (right - 11.0, bottom)], WAITING);
        }
    }
}
