//! Minutes logged for each order against the minutes expected of it: a dot an order, on equal logarithmic scales.

use super::canvas::{Align, Canvas, Layer, Words};
use super::font::Weight;
use super::frame;
use super::labels::Labels;
use super::marks::{self, Sign};
use super::text;
use super::theme::{BAND, BASELINE, BELOW, GRID, MARGIN, SMALL, SOFT_INK};
use super::time_axis::{self, TimeAxis};

/// The frame is a square: what is twice as long is as far across as up.
pub(super) const SIDE: f64 = 500.0;
/// Left of the frame, for the labels of the ticks.
pub(super) const LEFT: f64 = MARGIN + 68.0;
/// Above the frame: the title of the axis, and under it the words at the end of the diagonal.
const ABOVE: f64 = 30.0 + LINE;
/// Far-off orders that are named, the farthest first.
const NAMED: usize = 6;
const NAME_AT_MOST: f64 = 190.0;
/// A line of small text, from the tops of its capitals to the ends of its descenders, and down to its baseline.
const NAME_HEIGHT: f64 = 14.0;
const TO_BASELINE: f64 = 10.5;
const LINE: f64 = 17.0;

/// One order. It is left out where either time is not finite, not above nil, or beyond any axis (under a hundredth of
/// a minute, over ten million minutes).
#[derive(Debug, Clone)]
pub struct LoggedPoint {
    /// What a far-off order is named by; cut short with `…` where it is long.
    pub name: String,
    /// Minutes that the learned minutes expect.
    pub expected: f64,
    /// Minutes logged.
    pub logged: f64,
    /// Whether the two are too far apart to be the usual noise: drawn as a diamond, the farthest six with their names.
    pub far_off: bool,
}

/// Expected minutes across, logged minutes up.
#[derive(Debug, Clone)]
pub struct LoggedChart {
    /// What the chart finds, as a sentence.
    pub title: String,
    /// What it shows: period, count, caution.
    pub subtitle: String,
    /// What is measured across, such as `time expected from your learned minutes`.
    pub expected_axis: String,
    /// What is measured up, such as `time you logged`.
    pub logged_axis: String,
    /// The usual noise as a factor: 1.25 draws a band from the expected ÷ 1.25 to the expected × 1.25. No band unless it is
    /// finite and above 1.
    pub usual: f64,
    /// The orders; of those in one place the last is seen.
    pub points: Vec<LoggedPoint>,
}

/// The square frame on the page.
struct Frame {
    axis: TimeAxis,
    top: f64,
}

impl LoggedChart {
    /// The chart as SVG, 640 CSS pixels wide. Without a point that can be drawn, a sentence says so.
    #[must_use]
    pub fn svg(&self) -> String {
        let points: Vec<_> = self.points.iter().filter(|point| point.is_drawn()).collect();
        if points.is_empty() {
            return frame::nothing_to_draw(&self.title, &self.subtitle);
        }
        let mut canvas = Canvas::default();
        let below_heading = frame::heading(&mut canvas, &self.title, &self.subtitle);
        let below_key = frame::key(&mut canvas, below_heading, &key(&points));
        frame::axis_title(&mut canvas, &self.logged_axis, (MARGIN, below_key + 14.0));
        let times = points.iter().flat_map(|point| [point.expected, point.logged]);
        let frame = Frame { axis: TimeAxis::new(times, SIDE), top: below_key + ABOVE };
        self.draw_ground(&mut canvas, &frame);
        draw_points(&mut canvas, &frame, &points);
        let below = frame.top + SIDE + 42.0;
        frame::axis_title(&mut canvas, &self.expected_axis, (LEFT, below));
        canvas.svg(below + BELOW, &frame::label(&self.title, &self.subtitle))
    }

    /// The band, the ticks and the diagonal, with the words at its end.
    fn draw_ground(&self, canvas: &mut Canvas, frame: &Frame) {
        let (right, y) = (LEFT + SIDE, frame.top - 8.0);
        let expected = Words::new("as expected", SMALL).weight(Weight::SemiBold).align(Align::Right);
        let before = right - expected.width() - 12.0;
        canvas.words((right, y), expected);
        if self.usual.is_finite() && self.usual > 1.0 {
            let wide = (frame.axis.step(self.usual) * SIDE).min(SIDE);
            let (left, right, top, bottom) = (LEFT, LEFT + SIDE, frame.top, frame.top + SIDE);
            let corners =
                [(left, bottom), (left + wide, bottom), (right, top + wide), (right, top), (right - wide, top), (left, bottom - wide)];
            canvas.polygon(Layer::Under, corners.to_vec(), BAND);
            let words = text::elide(&usual_in_words(self.usual), Weight::Regular, SMALL, before - MARGIN);
            canvas.words((before, y), Words::new(words, SMALL).ink(SOFT_INK).align(Align::Right));
        }
        frame.draw_ticks(canvas);
        canvas.line(Layer::Over, [(LEFT, frame.top + SIDE), (LEFT + SIDE, frame.top)], 1.5, BASELINE);
    }
}

impl LoggedPoint {
    fn is_drawn(&self) -> bool {
        time_axis::is_drawn(self.expected) && time_axis::is_drawn(self.logged)
    }

    /// Its distance, and less than any where it has no place.
    pub(super) fn farness(&self) -> f64 {
        if self.is_drawn() { self.distance() } else { -1.0 }
    }

    /// How many times as long as expected, or as short, as a logarithm.
    fn distance(&self) -> f64 {
        (self.logged.ln() - self.expected.ln()).abs()
    }
}

impl Frame {
    fn place(&self, point: &LoggedPoint) -> (f64, f64) {
        (LEFT + self.axis.share(point.expected) * SIDE, self.top + SIDE - self.axis.share(point.logged) * SIDE)
    }

    /// `top` of a line of small text, or one `step` further if a line at a tick would run through it.
    fn clear_of_lines(&self, top: f64, step: f64) -> f64 {
        let struck = |(share, _): &(f64, String)| (top - 1.0..=top + NAME_HEIGHT).contains(&(self.top + SIDE - share * SIDE));
        if self.axis.ticks.iter().any(struck) { top + step } else { top }
    }

    fn draw_ticks(&self, canvas: &mut Canvas) {
        let (left, right, top, bottom) = (LEFT, LEFT + SIDE, self.top, self.top + SIDE);
        for (share, label) in &self.axis.ticks {
            let (x, y) = (left + share * SIDE, bottom - share * SIDE);
            canvas.line(Layer::Ground, [(x, top), (x, bottom)], 1.0, GRID);
            canvas.line(Layer::Ground, [(left, y), (right, y)], 1.0, GRID);
            let words = Words::new(label.clone(), SMALL).ink(SOFT_INK);
            canvas.words((x, bottom + 18.0), words.clone().align(Align::Middle));
            canvas.words((left - 8.0, y + 4.5), words.align(Align::Right));
        }
        canvas.line(Layer::Ground, [(left, top), (left, bottom)], 1.0, BASELINE);
        canvas.line(Layer::Ground, [(left, bottom), (right, bottom)], 1.0, BASELINE);
    }
}

/// Only what occurs in this chart.
fn key(points: &[&LoggedPoint]) -> Vec<(Sign, String)> {
    let far_off = points.iter().filter(|point| point.far_off).count();
    let mut key = Vec::new();
    if far_off < points.len() {
        key.push((Sign::SmallDot, "an order".to_owned()));
    }
    if far_off > NAMED {
        key.push((Sign::FarOff, format!("an order far from what was expected: {far_off} of them, the farthest named")));
    } else if far_off > 0 {
        key.push((Sign::FarOff, "an order far from what was expected".to_owned()));
    }
    key
}

/// `usual: from 20 % less to 25 % more` for 1.25.
fn usual_in_words(usual: f64) -> String {
    let (less, more) = (100.0 * (1.0 - 1.0 / usual), 100.0 * (usual - 1.0));
    format!("usual: from {less:.0} % less to {more:.0} % more")
}

/// The dots, over them the far-off ones with their names, and the words in the corners that are free.
fn draw_points(canvas: &mut Canvas, frame: &Frame, points: &[&LoggedPoint]) {
    let places: Vec<_> = points.iter().map(|point| frame.place(point)).collect();
    let placed = || points.iter().zip(&places);
    for (_, place) in placed().filter(|(point, _)| !point.far_off) {
        marks::small_dot(canvas, *place);
    }
    let mut far_off: Vec<_> = placed().filter(|(point, _)| point.far_off).collect();
    // The farthest last, so that it is seen.
    far_off.sort_by(|(a, _), (b, _)| a.distance().total_cmp(&b.distance()));
    let mut labels = Labels::new([LEFT, frame.top, LEFT + SIDE, frame.top + SIDE], &places);
    let mut named = Vec::new();
    for (point, place) in far_off.iter().rev().take(NAMED) {
        let name = text::elide(&text::clean(&point.name), Weight::SemiBold, SMALL, NAME_AT_MOST);
        let words = Words::new(name, SMALL).weight(Weight::SemiBold);
        if let Some(found) = labels.find(**place, (words.width(), NAME_HEIGHT)) {
            if let Some(line) = found.line {
                canvas.line(Layer::Over, line, 1.0, SOFT_INK);
            }
            named.push((found.place, words));
        }
    }
    for (_, place) in far_off {
        marks::far_off(canvas, *place);
    }
    for ([left, top, ..], words) in named {
        canvas.words((left, top + TO_BASELINE), words);
    }
    draw_corners(canvas, frame, &labels);
}

/// Which side is which, where neither an order nor a name is in the way.
fn draw_corners(canvas: &mut Canvas, frame: &Frame, labels: &Labels) {
    let slower = Words::new("took longer than expected", SMALL).ink(SOFT_INK);
    let quicker = Words::new("quicker than expected", SMALL).ink(SOFT_INK).align(Align::Right);
    let (left, right) = (LEFT + 10.0, LEFT + SIDE - 10.0);
    let top = frame.clear_of_lines(frame.top + 10.0, NAME_HEIGHT + 2.0);
    if labels.is_empty([left, top, left + slower.width(), top + NAME_HEIGHT]) {
        canvas.words((left, top + TO_BASELINE), slower);
    }
    let top = frame.clear_of_lines(frame.top + SIDE - 10.0 - NAME_HEIGHT, -NAME_HEIGHT - 2.0);
    if labels.is_empty([right - quicker.width(), top, right, top + NAME_HEIGHT]) {
        canvas.words((right, top + TO_BASELINE), quicker);
    }
}
