//! The plot of a scatter: its two axes and what lies on them.

use rust_decimal::Decimal;
use rust_decimal::prelude::ToPrimitive;

use super::line_labels::LineLabels;
use super::points::{Corner, Line, LineLook, Measure, Point, Ranges, Scatter};
use crate::chart::draw::axis::Axis;
use crate::chart::draw::heading::axis_title;
use crate::chart::draw::labels::{Labels, Place, Segment};
use crate::chart::draw::page::Page;
use crate::chart::draw::picture::{Align, Layer, Picture, Role, Words};
use crate::chart::draw::row::Tone;
use crate::chart::draw::sign::{self, Sign, Toward};
use crate::chart::draw::theme::{BAND, BASELINE, FAINT, INK, LEARNED};
use crate::chart::draw::times::Times;
use crate::chart::draw::{amounts::AmountStyle, text};

/// From this many points on they are small, and lie under the lines.
pub const MANY: usize = 300;
/// Height of a plot that is no square, and the longest side of a square, on a wide page and on a narrow one.
const HIGH: [f64; 2] = [430.0, 300.0];
const SIDE: [f64; 2] = [500.0, 300.0];
/// Left of a square, for the labels of times: most often, and for the longest.
const TIMES_ROOM: [f64; 2] = [68.0, 44.0];
const TIMES_ROOM_AT_MOST: f64 = 72.0;
/// Right of a wide plot: for words at the ends of lines, and without any.
const BESIDE: f64 = 100.0;
const BORDER: f64 = 20.0;
const NARROW_BORDER: f64 = 6.0;
/// Above the plot: for words at the ends of lines, and without any.
const ABOVE: [f64; 2] = [38.0, 20.0];
/// A line of small text, from the tops of its capitals to the ends of its descenders, and down to its baseline.
pub(crate) const NAME_HEIGHT: f64 = 14.0;
pub(crate) const TO_BASELINE: f64 = 10.5;

/// Two axes on the page.
#[derive(Debug)]
pub(crate) struct Plot {
    across: Axis,
    up: Axis,
}

impl Plot {
    pub fn new(scatter: &Scatter, page: &Page, (across, up): Ranges, above: f64) -> Self {
        let narrow = usize::from(page.is_narrow);
        let has_words = scatter.lines.iter().any(|line| !(line.words.is_empty() || page.is_narrow && line.is_level()));
        let top = above + ABOVE[usize::from(!has_words && scatter.uprights.is_empty())];
        if let (Measure::Times, Measure::Times) = (&scatter.across.measure, &scatter.up.measure) {
            let side = |room: f64| SIDE[narrow].min(page.right() - NARROW_BORDER - page.margin - room);
            let minutes = scatter.points.iter().flat_map(|point| [point.across, point.up]).filter_map(|minutes| minutes.to_f64());
            let times = Times::new(minutes, side(TIMES_ROOM_AT_MOST), page.small.size);
            let room = Axis::times(times.clone(), (0.0, 1.0)).room(page).max(TIMES_ROOM[narrow]);
            let (left, side) = (page.margin + room, side(room));
            let up = Axis::times(times.clone(), (top + side, top));
            return Self { across: Axis::times(times, (left, left + side)).on_page(page), up };
        }
        let style = |measure: &Measure| if let Measure::Amounts(style) = measure { style.clone() } else { AmountStyle::default() };
        let up = Axis::upward(up, (top + HIGH[narrow], top), &style(&scatter.up.measure), page);
        let border = match (page.is_narrow, has_words) {
            (true, _) => NARROW_BORDER,
            (false, true) => BESIDE,
            (false, false) => BORDER,
        };
        let ends = (page.margin + up.room(page), page.right() - border);
        let across = Axis::across_whole(across, ends, &style(&scatter.across.measure), page);
        Self { across, up }
    }

    /// Returns its left, top, right and bottom.
    pub fn frame(&self) -> Place {
        let ((left, right), (bottom, top)) = (self.across.span(), self.up.span());
        [left, top, right, bottom]
    }

    pub fn place(&self, point: &Point) -> (f64, f64) {
        (self.across.place(point.across), self.up.place(point.up))
    }

    /// Returns a point's place in quarter pixels, as it is written, and where it lies beyond the edge.
    #[expect(clippy::cast_possible_truncation, reason = "rounded, and within the page")]
    pub fn quarters(&self, point: &Point) -> (i32, i32, Option<Toward>) {
        let (x, y) = self.place(point);
        ((x * 4.0).round() as i32, (y * 4.0).round() as i32, self.toward(point))
    }

    fn toward(&self, point: &Point) -> Option<Toward> {
        let ((low, high), last) = (self.up.ends(), self.across.ends().1);
        match point {
            _ if point.up > high => Some(Toward::Up),
            _ if point.up < low => Some(Toward::Down),
            _ => (point.across > last).then_some(Toward::Right),
        }
    }

    /// Draws the band, the lines at the ticks and their labels.
    pub(crate) fn draw_ground(&self, picture: &mut Picture, scatter: &Scatter) {
        let [left, top, right, bottom] = self.frame();
        if let Some(factor) = scatter.band.as_ref().and_then(|(factor, _)| factor.to_f64()) {
            picture.role(Role::Line);
            let first = self.across.ends().0.to_f64().unwrap_or(1.0);
            let wide = self.across.at(first * factor) - left;
            let corners =
                [(left, bottom), (left + wide, bottom), (right, top + wide), (right, top), (right - wide, top), (left, bottom - wide)];
            picture.polygon(Layer::Under, corners.to_vec(), BAND);
        }
        self.across.draw_lines(picture, &[(top, bottom)]);
        self.up.draw_upward(picture, left, right);
        self.across.draw_labels(picture, bottom + 18.0);
    }

    /// Draws what is measured across, beneath the labels; returns its baseline.
    pub(crate) fn draw_axis_words(&self, picture: &mut Picture, title: &str) -> f64 {
        let [left, .., bottom] = self.frame();
        axis_title(picture, title, (left, bottom + 38.0))
    }

    pub(crate) fn draw_range(&self, picture: &mut Picture, point: &Point) -> Vec<[(f64, f64); 2]> {
        let Some((low, high)) = point.range() else { return Vec::new() };
        let (from, to, y) = (self.across.place(low), self.across.place(high), self.up.place(point.up));
        sign::thin_range(picture, (from, to), y, self.across.holds(high));
        // Twice, for it would strike a word through from end to end; a slanting line crosses a few letters.
        vec![[(from, y), (to, y)]; 2]
    }

    pub(crate) fn draw_point(&self, picture: &mut Picture, point: &Point, sign: Sign, is_small: bool) {
        let place = self.place(point);
        match self.toward(point) {
            Some(toward) => sign::beyond(picture, place, toward),
            None if is_small => sign.draw_small(picture, place),
            None => sign.draw(picture, place),
        }
    }

    /// Draws the lines with their words, the one to measure by first, so that its words have the best place; then levels and
    /// uprights. Returns the places of the words and the lines.
    pub(crate) fn draw_lines(&self, picture: &mut Picture, scatter: &Scatter) -> (Vec<Place>, Vec<Segment>, Vec<Segment>) {
        picture.role(Role::Line);
        let is_narrow = picture.page().is_narrow;
        let [_, top, right, bottom] = self.frame();
        let mut labels = LineLabels::new(self.frame());
        let (targets, others): (Vec<_>, Vec<_>) = scatter.lines.iter().partition(|line| line.look == LineLook::Target);
        let (mut drawn, mut barred) = (Vec::new(), Vec::new());
        for line in targets.into_iter().chain(others) {
            let Some(ends) = self.ends_of(line) else { continue };
            let is_in_key = is_narrow && line.is_level();
            if !is_in_key && !line.words.is_empty() && !labels.draw(picture, ends, &line.words, line.look != LineLook::Faint) {
                continue;
            }
            let (width, colour) = match line.look {
                LineLook::Target => (2.0, INK),
                LineLook::Faint => (1.25, FAINT),
                LineLook::Main => (3.0, LEARNED),
                LineLook::Even => (1.5, BASELINE),
            };
            picture.line(Layer::Over, ends, width, colour);
            drawn.push(ends);
            // A steep line through a name cannot be told from its letters.
            if line.look == LineLook::Target && !line.is_level() {
                barred.push(ends);
            }
        }
        for level in &scatter.levels {
            let Some(amount) = level.amount else { continue };
            let (from, to) = (self.across.place(level.from), level.to.map_or(right, |to| self.across.place(to)));
            if to - from > 2.0 {
                sign::level(picture, (from + 1.0, to - 1.0), self.up.place(amount));
            }
        }
        for (amount, words) in &scatter.uprights {
            let x = self.across.place(*amount);
            picture.line(Layer::Over, [(x, top - 4.0), (x, bottom)], 1.5, BASELINE);
            labels.draw(picture, [(x, bottom), (x, top)], words, true);
        }
        (labels.taken, drawn, barred)
    }

    /// The part of a line that lies within the plot, from the left; `None` if there is none.
    fn ends_of(&self, line: &Line) -> Option<[(f64, f64); 2]> {
        let (base, slope) = (line.base.to_f64()?, line.slope.to_f64()?);
        let float = |(first, last): (Decimal, Decimal)| Some((first.to_f64()?, last.to_f64()?));
        let ((low, high), (first, last)) = (float(self.up.ends())?, float(self.across.ends())?);
        // The stretch across over which the line is within.
        let (from, to) = if slope == 0.0 {
            if (low..=high).contains(&base) { (first, last) } else { return None }
        } else {
            let (a, b) = ((low - base) / slope, (high - base) / slope);
            (a.min(b).max(first), a.max(b).min(last))
        };
        let page = |across: f64| (self.across.at(across), self.up.at(base + slope * across));
        (from < to).then(|| [page(from), page(to)])
    }

    /// Draws words in corners, where neither a point nor a name is in their way.
    pub(crate) fn draw_corners(&self, picture: &mut Picture, corners: &[(Corner, String, Tone)], labels: &Labels) {
        picture.role(Role::Line);
        let [left, top, right, bottom] = self.frame();
        let size = picture.page().small.size;
        for (corner, words, tone) in corners {
            let words = Words::new(text::clean(words), size).ink(tone.ink()).within(right - left - 20.0);
            let x = if matches!(corner, Corner::TopLeft | Corner::BottomLeft) { left + 10.0 } else { right - 10.0 - words.width() };
            let y = if matches!(corner, Corner::TopLeft | Corner::TopRight) {
                self.clear_of_ticks(top + 10.0, NAME_HEIGHT + 2.0)
            } else {
                self.clear_of_ticks(bottom - 10.0 - NAME_HEIGHT, -NAME_HEIGHT - 2.0)
            };
            if labels.is_empty([x, y, x + words.width(), y + NAME_HEIGHT]) {
                picture.words((x, y + TO_BASELINE), words.align(Align::Left));
            }
        }
    }

    /// `top` of a line of small text, or one `step` further if a line at a tick would run through it.
    fn clear_of_ticks(&self, top: f64, step: f64) -> f64 {
        let is_struck = self.up.ticks.iter().any(|(y, _)| (top - 1.0..=top + NAME_HEIGHT).contains(y));
        if is_struck { top + step } else { top }
    }
}
