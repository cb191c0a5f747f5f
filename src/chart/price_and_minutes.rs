//! What a piece is sold for against the hands-on minutes it takes: a mark a design, and lines along which every
//! design earns the same an hour.

use rust_decimal::Decimal;
use rust_decimal::prelude::ToPrimitive;

use super::axis::{self, AmountStyle};
use super::canvas::{Align, Canvas, Layer, Words};
use super::font::Weight;
use super::frame::{self, Axis};
use super::labels::{Labels, Place};
use super::line_labels::LineLabels;
use super::marks::{self, Sign};
use super::numbered;
use super::text;
use super::theme::{BELOW, FAINT, INK, MARGIN, SMALL, SOFT_INK, WIDTH};
use super::upright::Upright;
use super::wage_by_tier::Standing;

const HEIGHT: f64 = 440.0;
/// Right of the frame and above it, for the words at the ends of the lines.
pub(super) const BESIDE: f64 = 100.0;
const ABOVE: f64 = 44.0;
/// A longer name is cut short where it stands beside its mark.
const NAME_AT_MOST: f64 = 150.0;
/// How far a name may stand from its mark; a number may stand a little farther.
const NAME_REACH: f64 = 36.0;
const NUMBER_REACH: f64 = 54.0;
/// A line of small text, from the tops of its capitals to the ends of its descenders, and down to its baseline.
const NAME_HEIGHT: f64 = 14.0;
const TO_BASELINE: f64 = 10.5;

/// One design. It is left out where its minutes are negative.
#[derive(Debug, Clone)]
pub struct PriceMinutesPoint {
    /// The design. Written beside its mark where there is room, else under a number below the plot.
    pub name: String,
    /// Hands-on minutes a piece.
    pub minutes: Decimal,
    /// Price a piece in the currency's main unit.
    pub price: Decimal,
    /// Both as they are to be read, such as `$9.00, 33 min`.
    pub label: String,
    /// Lower end of the 90 % interval of the minutes. The interval is drawn where both ends are known.
    pub low: Option<Decimal>,
    /// Upper end of the 90 % interval of the minutes.
    pub high: Option<Decimal>,
    /// Whether it pays the target: decides the mark.
    pub standing: Standing,
}

/// A line along which every design earns the same an hour: price = `base` + `a_minute` × minutes.
#[derive(Debug, Clone)]
pub struct WageLine {
    /// What a piece costs out of pocket: the price that pays no time at all.
    pub base: Decimal,
    /// What each minute adds, such as 20 ÷ 60.
    pub a_minute: Decimal,
    /// Such as `$20 an hour, your target`.
    pub label: String,
    /// Drawn strong, as the one to measure by.
    pub is_target: bool,
}

/// Minutes across, prices up, both from zero.
#[derive(Debug, Clone)]
pub struct PriceMinutesChart {
    /// What the chart finds, as a sentence.
    pub title: String,
    /// What it shows: period, count, caution.
    pub subtitle: String,
    /// What is measured across, such as `hands-on minutes a piece`.
    pub minutes_axis: String,
    /// What is measured up, such as `price a piece, USD`.
    pub price_axis: String,
    /// How prices are written at the ticks.
    pub amounts: AmountStyle,
    /// The designs; where there is too little room for all names, those that come first have theirs.
    pub points: Vec<PriceMinutesPoint>,
    /// The lines of equal wage. One whose words find no room is not drawn.
    pub lines: Vec<WageLine>,
}

/// The frame on the page.
struct Frame {
    minutes: Axis,
    prices: Upright,
    top: f64,
    bottom: f64,
}

impl PriceMinutesChart {
    /// The chart as SVG, 640 CSS pixels wide. Without a design that can be drawn, a sentence says so.
    #[must_use]
    pub fn svg(&self) -> String {
        let points: Vec<_> = self.points.iter().filter(|point| point.is_drawn()).collect();
        if points.is_empty() {
            return frame::nothing_to_draw(&self.title, &self.subtitle);
        }
        let mut canvas = Canvas::default();
        let below_heading = frame::heading(&mut canvas, &self.title, &self.subtitle);
        let below_key = frame::key(&mut canvas, below_heading, &key(&points));
        frame::axis_title(&mut canvas, &self.price_axis, (MARGIN, below_key + 14.0));
        let frame = self.frame(&points, below_key + 14.0 + ABOVE);
        let (left, right) = (frame.minutes.scale.left, frame.minutes.scale.right);
        frame.minutes.draw_lines(&mut canvas, frame.top, frame.bottom);
        frame.prices.draw(&mut canvas, left, right);
        let lines = self.draw_wage_lines(&mut canvas, &frame);
        frame.minutes.draw_labels(&mut canvas, frame.bottom + 18.0);
        frame.minutes.draw_title(&mut canvas, &self.minutes_axis, frame.bottom + 38.0);
        let numbered = draw_points(&mut canvas, &frame, &points, lines);
        let bottom = numbered::draw(&mut canvas, frame.bottom + 46.0, &numbered);
        canvas.svg(bottom + BELOW, &frame::label(&self.title, &self.subtitle))
    }

    fn frame(&self, points: &[&PriceMinutesPoint], top: f64) -> Frame {
        let bottom = top + HEIGHT;
        let prices = || points.iter().map(|point| point.price).chain(self.lines.iter().map(|line| line.base));
        let prices = (prices().fold(Decimal::ZERO, Decimal::min), prices().fold(Decimal::ZERO, Decimal::max));
        let prices = Upright::new(prices, (top, bottom), &self.amounts);
        let minutes = axis::range(points.iter().map(|point| point.minutes), points.iter().filter_map(|point| point.interval()));
        let style = AmountStyle { prefix: String::new(), suffix: " min".to_owned(), decimals: 0 };
        let minutes = Axis::between(minutes, (MARGIN + prices.room(), WIDTH - MARGIN - BESIDE), &style);
        Frame { minutes, prices, top, bottom }
    }

    /// The lines with their words, the target's first, so that its words have the best place; returns what was drawn.
    fn draw_wage_lines(&self, canvas: &mut Canvas, frame: &Frame) -> Vec<[(f64, f64); 2]> {
        let mut labels = LineLabels::new(frame.place());
        let (targets, others): (Vec<_>, Vec<_>) = self.lines.iter().partition(|line| line.is_target);
        let mut drawn = Vec::new();
        for line in targets.into_iter().chain(others) {
            let Some(ends) = frame.ends_of(line) else { continue };
            if !labels.draw(canvas, ends[1], &line.label, line.is_target) {
                continue;
            }
            let (width, colour) = if line.is_target { (2.0, INK) } else { (1.25, FAINT) };
            canvas.line(Layer::Over, ends, width, colour);
            drawn.push(ends);
        }
        drawn
    }
}

impl PriceMinutesPoint {
    fn is_drawn(&self) -> bool {
        self.minutes >= Decimal::ZERO
    }

    fn interval(&self) -> Option<(Decimal, Decimal)> {
        let (low, high) = (self.low?.max(Decimal::ZERO), self.high?.max(Decimal::ZERO));
        Some((low.min(high), low.max(high)))
    }

    fn draw_mark(&self, canvas: &mut Canvas, place: (f64, f64)) {
        match self.standing {
            Standing::Over => marks::over_dot(canvas, place),
            Standing::Short => marks::short_diamond(canvas, place),
            Standing::Unknown => marks::unknown_ring(canvas, place),
        }
    }
}

impl Frame {
    fn place(&self) -> Place {
        [self.minutes.scale.left, self.top, self.minutes.scale.right, self.bottom]
    }

    fn place_of(&self, point: &PriceMinutesPoint) -> (f64, f64) {
        (self.minutes.scale.x(point.minutes), self.prices.y(point.price))
    }

    /// The part of a line that lies within the frame, from the left; `None` if there is none.
    fn ends_of(&self, line: &WageLine) -> Option<[(f64, f64); 2]> {
        let (base, slope) = (line.base.to_f64()?, line.a_minute.to_f64()?);
        let (first, last) = self.prices.ends();
        let (low, high, long) = (first.to_f64()?, last.to_f64()?, self.minutes.ends().1.to_f64()?);
        // The stretch of minutes over which the price is within.
        let (from, to) = if slope == 0.0 {
            if (low..=high).contains(&base) { (0.0, long) } else { return None }
        } else {
            let (a, b) = ((low - base) / slope, (high - base) / slope);
            (a.min(b).max(0.0), a.max(b).min(long))
        };
        if from >= to {
            return None;
        }
        let [left, top, right, bottom] = self.place();
        let page = |minutes: f64| {
            let share = ((base + slope * minutes - low) / (high - low)).clamp(0.0, 1.0);
            (left + minutes / long * (right - left), bottom - share * (bottom - top))
        };
        Some([page(from), page(to)])
    }
}

/// Only what occurs in this chart.
fn key(points: &[&PriceMinutesPoint]) -> Vec<(Sign, String)> {
    let any = |standing| points.iter().any(|point| point.standing == standing);
    let entries = [
        (any(Standing::Over), Sign::OverDot, "above your target"),
        (any(Standing::Short), Sign::ShortDiamond, "below your target"),
        (any(Standing::Unknown), Sign::UnknownRing, "can't tell yet"),
        (points.iter().any(|point| point.interval().is_some()), Sign::ThinWhisker, "range of minutes (90 %)"),
    ];
    entries.into_iter().filter(|(occurs, ..)| *occurs).map(|(_, sign, words)| (sign, words.to_owned())).collect()
}

/// Whiskers, marks and names; returns the designs that go by a number. Where so many lie in one place that not even
/// numbers fit, the list has them without one.
fn draw_points(canvas: &mut Canvas, frame: &Frame, points: &[&PriceMinutesPoint], mut lines: Vec<[(f64, f64); 2]>) -> Vec<numbered::Entry> {
    let places: Vec<_> = points.iter().map(|point| frame.place_of(point)).collect();
    for (point, (_, y)) in points.iter().zip(&places) {
        if let Some((low, high)) = point.interval() {
            let (from, to) = (frame.minutes.scale.x(low), frame.minutes.scale.x(high));
            marks::thin_whisker(canvas, (from, to), *y, frame.minutes.holds(high));
            // Twice, for it would strike a word through from end to end; a slanting line crosses a few letters.
            lines.extend([[(from, *y), (to, *y)]; 2]);
        }
    }
    // The first last, so that it is seen.
    for (point, place) in points.iter().zip(&places).rev() {
        point.draw_mark(canvas, *place);
    }
    let mut labels = Labels::new(frame.place(), &places).beside_lines(lines);
    let mut unnamed = Vec::new();
    for (point, place) in points.iter().zip(&places) {
        let name = text::elide(&text::clean(&point.name), Weight::Regular, SMALL, NAME_AT_MOST);
        let words = Words::new(name, SMALL);
        if words.width() <= 0.0 {
            continue;
        }
        match labels.find_clear(*place, (words.width(), NAME_HEIGHT), NAME_REACH) {
            Some(found) => draw_label(canvas, found.place, found.line, words),
            None => unnamed.push((point, place)),
        }
    }
    let mut entries = Vec::new();
    let mut number = 1;
    for (point, place) in unnamed {
        let words = Words::new(number.to_string(), SMALL).weight(Weight::SemiBold);
        let mut entry = numbered::Entry { number: String::new(), name: point.name.clone(), label: point.label.clone() };
        if let Some(found) = labels.find_clear(*place, (words.width(), NAME_HEIGHT), NUMBER_REACH) {
            draw_label(canvas, found.place, found.line, words);
            entry.number = number.to_string();
            number += 1;
        }
        entries.push(entry);
    }
    entries
}

fn draw_label(canvas: &mut Canvas, [left, top, ..]: Place, line: Option<[(f64, f64); 2]>, words: Words) {
    if let Some(line) = line {
        canvas.line(Layer::Over, line, 1.0, SOFT_INK);
    }
    canvas.words((left, top + TO_BASELINE), words.align(Align::Left));
}
