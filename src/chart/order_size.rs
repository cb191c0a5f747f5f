//! Pay an hour against the size of the order: a dot an order, the mean of each class of sizes, and the smallest order
//! worth its set-up.

use std::collections::BTreeSet;

use rust_decimal::Decimal;

use super::axis::AmountStyle;
use super::canvas::{Canvas, Layer, Words};
use super::fence;
use super::font::Weight;
use super::frame::{self, Axis};
use super::line_labels::LineLabels;
use super::marks::{self, Sign, Toward};
use super::text;
use super::theme::{BASELINE, BELOW, INK, LEARNED, MARGIN, SMALL, SOFT_INK, WIDTH};
use super::upright::Upright;

const HEIGHT: f64 = 360.0;
/// Right of the frame, for the words at the target, and above it, for those at the smallest order.
const BESIDE: f64 = 80.0;
const ABOVE: f64 = 36.0;
/// The axis of sizes reaches at least as far as this.
const FEWEST_PIECES: i64 = 12;
/// From this many orders on their dots are small and without a rim.
const MANY: usize = 300;
const SMALL_DOT: f64 = 2.25;
const OTHER_DOT: f64 = 3.75;
/// Between the columns of the classes.
const COLUMN_GAP: f64 = 12.0;
/// Room for the mark of a mean before its figure.
const MARK: f64 = 26.0;

/// One order. It is left out where it has no pieces.
#[derive(Debug, Clone)]
pub struct SizeDot {
    /// Pieces in the order.
    pub pieces: i64,
    /// Pay an hour in the currency's main unit. Wages and sizes far out of the rest are drawn as arrow heads at the edge.
    pub wage: Decimal,
    /// Whether it is of the period in question: drawn dark over the others, which are lighter then.
    pub current: bool,
}

/// A class of sizes.
#[derive(Debug, Clone)]
pub struct SizeClass {
    /// Such as `13–24 pieces`.
    pub name: String,
    /// Fewest pieces in it.
    pub from: i64,
    /// Most pieces in it; `None` for no end.
    pub to: Option<i64>,
    /// What its orders paid an hour together; `None` draws no line.
    pub mean: Option<Decimal>,
    /// The mean as it is to be read, such as `$18.20`, or why there is none.
    pub label: String,
    /// A few words beneath it, such as `12 orders`; may be empty.
    pub note: String,
}

/// Pieces across, wages up.
#[derive(Debug, Clone)]
pub struct OrderSizeChart {
    /// What the chart finds, as a sentence.
    pub title: String,
    /// What it shows: period, count, caution.
    pub subtitle: String,
    /// What is measured across, such as `pieces in the order`.
    pub pieces_axis: String,
    /// What is measured up, such as `pay an hour before your own taxes, USD`.
    pub wage_axis: String,
    /// How wages are written at the ticks.
    pub amounts: AmountStyle,
    /// The orders.
    pub orders: Vec<SizeDot>,
    /// The classes, listed below the plot in the order given.
    pub classes: Vec<SizeClass>,
    /// The target wage and the words beside its line, such as `target $20.00`.
    pub target: Option<(Decimal, String)>,
    /// The smallest order worth its set-up, in pieces, and the words over its line.
    pub smallest: Option<(Decimal, String)>,
}

/// The frame on the page.
struct Frame {
    pieces: Axis,
    wages: Upright,
    top: f64,
    bottom: f64,
}

impl OrderSizeChart {
    /// The chart as SVG, 640 CSS pixels wide. Without an order that can be drawn, a sentence says so.
    #[must_use]
    pub fn svg(&self) -> String {
        let orders: Vec<_> = self.orders.iter().filter(|order| order.pieces > 0).collect();
        if orders.is_empty() {
            return frame::nothing_to_draw(&self.title, &self.subtitle);
        }
        let mut canvas = Canvas::default();
        let below_heading = frame::heading(&mut canvas, &self.title, &self.subtitle);
        let (wages, sizes) = self.ranges(&orders);
        let beyond = |order: &&&SizeDot| order.wage < wages.0 || order.wage > wages.1 || Decimal::from(order.pieces) > sizes.1;
        let below_key = frame::key(&mut canvas, below_heading, &self.key(&orders, orders.iter().filter(beyond).count()));
        frame::axis_title(&mut canvas, &self.wage_axis, (MARGIN, below_key + 14.0));
        let frame = self.frame(wages, sizes, below_key + 14.0 + ABOVE);
        let (left, right) = (frame.pieces.scale.left, frame.pieces.scale.right);
        frame.pieces.draw_lines(&mut canvas, frame.top, frame.bottom);
        frame.wages.draw(&mut canvas, left, right);
        // A crowd of dots would hide the lines; a few dots would be hidden by them.
        if orders.len() >= MANY {
            frame.draw_orders(&mut canvas, &orders);
            self.draw_lines(&mut canvas, &frame);
        } else {
            self.draw_lines(&mut canvas, &frame);
            frame.draw_orders(&mut canvas, &orders);
        }
        frame.pieces.draw_labels(&mut canvas, frame.bottom + 18.0);
        frame.pieces.draw_title(&mut canvas, &self.pieces_axis, frame.bottom + 38.0);
        let bottom = draw_classes(&mut canvas, &self.classes, frame.bottom + 48.0);
        canvas.svg(bottom + BELOW, &frame::label(&self.title, &self.subtitle))
    }

    /// From the least to the greatest wage and size that lie within the fences, and all that the lines stand at.
    fn ranges(&self, orders: &[&SizeDot]) -> ((Decimal, Decimal), (Decimal, Decimal)) {
        let marked = self.classes.iter().filter_map(|class| class.mean).chain(self.target.iter().map(|(target, _)| *target));
        let wages = fence::within(orders.iter().map(|order| order.wage).collect());
        let wages = marked.fold(wages, |(low, high), wage| (low.min(wage), high.max(wage)));
        let sizes = fence::within(orders.iter().map(|order| Decimal::from(order.pieces)).collect());
        let smallest = self.smallest.iter().map(|(smallest, _)| *smallest);
        let high = smallest.fold(sizes.1.max(Decimal::from(FEWEST_PIECES)), Decimal::max);
        (wages, (Decimal::ZERO, high))
    }

    fn frame(&self, wages: (Decimal, Decimal), sizes: (Decimal, Decimal), top: f64) -> Frame {
        let bottom = top + HEIGHT;
        let wages = Upright::new(wages, (top, bottom), &self.amounts);
        let number = AmountStyle { prefix: String::new(), suffix: String::new(), decimals: 0 };
        let pieces = Axis::between(sizes, (MARGIN + wages.room(), WIDTH - MARGIN - BESIDE), &number);
        Frame { pieces, wages, top, bottom }
    }

    /// Only what occurs in this chart.
    fn key(&self, orders: &[&SizeDot], beyond: usize) -> Vec<(Sign, String)> {
        let mut key = if are_told_apart(orders) {
            vec![(Sign::CurrentDot, "an order of this period".to_owned()), (Sign::OtherDot, "an order before it".to_owned())]
        } else {
            vec![(Sign::SmallDot, "an order".to_owned())]
        };
        if beyond > 0 {
            let orders = if beyond == 1 { "an order".to_owned() } else { format!("{beyond} orders") };
            key.push((Sign::Beyond, format!("{orders} far beyond the edge")));
        }
        if self.classes.iter().any(|class| class.mean.is_some()) {
            key.push((Sign::Mean, "all orders of a size together".to_owned()));
        }
        key
    }

    /// The means of the classes, the target, the smallest order.
    fn draw_lines(&self, canvas: &mut Canvas, frame: &Frame) {
        let (left, right) = (frame.pieces.scale.left, frame.pieces.scale.right);
        if let Some((target, _)) = &self.target {
            let y = frame.wages.y(*target);
            canvas.line(Layer::Over, [(left, y), (right, y)], 2.0, INK);
        }
        for class in &self.classes {
            let Some(mean) = class.mean else { continue };
            // Half a piece further at either end, so that classes meet and hold their own dots.
            let from = frame.pieces.scale.x(Decimal::from(class.from).saturating_sub(Decimal::new(5, 1)));
            let to = class.to.map_or(right, |to| frame.pieces.scale.x(Decimal::from(to).saturating_add(Decimal::new(5, 1))));
            if to - from > 2.0 {
                marks::mean(canvas, (from + 1.0, to - 1.0), frame.wages.y(mean));
            }
        }
        let mut labels = LineLabels::new([left, frame.top, right, frame.bottom]);
        if let Some((target, words)) = &self.target {
            labels.draw(canvas, (right, frame.wages.y(*target)), words, true);
        }
        if let Some((smallest, words)) = &self.smallest {
            let x = frame.pieces.scale.x(*smallest);
            canvas.line(Layer::Over, [(x, frame.top - 4.0), (x, frame.bottom)], 1.5, BASELINE);
            labels.draw_above(canvas, x, words);
        }
    }
}

impl Frame {
    /// Dots, and arrow heads for what lies beyond the edge. Of orders in one place one is drawn.
    fn draw_orders(&self, canvas: &mut Canvas, orders: &[&SizeDot]) {
        let many = orders.len() >= MANY;
        let told_apart = are_told_apart(orders);
        let mut seen = BTreeSet::new();
        // Those of the period last, so that they are seen.
        let (current, others): (Vec<&SizeDot>, Vec<&SizeDot>) = orders.iter().partition(|order| order.current);
        for order in others.into_iter().chain(current) {
            let pieces = Decimal::from(order.pieces);
            let (x, y) = (self.pieces.scale.x(pieces), self.wages.y(order.wage));
            let ((low, high), last) = (self.wages.ends(), self.pieces.ends().1);
            let toward = if order.wage > high {
                Some(Toward::Up)
            } else if order.wage < low {
                Some(Toward::Down)
            } else {
                (pieces > last).then_some(Toward::Right)
            };
            if !seen.insert((quarters(x), quarters(y), toward, order.current)) {
                continue;
            }
            match toward {
                Some(toward) => marks::beyond(canvas, (x, y), toward),
                None if told_apart && order.current => marks::current_dot(canvas, (x, y)),
                None if told_apart => marks::other_dot(canvas, (x, y), if many { SMALL_DOT } else { OTHER_DOT }),
                None if many => canvas.circle(Layer::Over, (x, y), SMALL_DOT, LEARNED),
                None => marks::small_dot(canvas, (x, y)),
            }
        }
    }
}

/// Whether some orders are of the period and some are not.
fn are_told_apart(orders: &[&SizeDot]) -> bool {
    orders.iter().any(|order| order.current) && orders.iter().any(|order| !order.current)
}

/// A place in quarter pixels, as it is written.
#[expect(clippy::cast_possible_truncation, reason = "rounded, and within the page")]
fn quarters(place: f64) -> i32 {
    (place * 4.0).round() as i32
}

/// The classes in columns below the plot; returns where the last line ends.
fn draw_classes(canvas: &mut Canvas, classes: &[SizeClass], top: f64) -> f64 {
    if classes.is_empty() {
        return top - 10.0;
    }
    let width = (WIDTH - 2.0 * MARGIN + COLUMN_GAP) / u32::try_from(classes.len()).map_or(1.0, f64::from);
    let mut left = MARGIN;
    for class in classes {
        // The mark ties the figure to its line in the plot.
        let marked = class.mean.is_some() && width > 3.0 * MARK;
        if marked {
            marks::mean(canvas, (left, left + MARK - 8.0), top + 35.5);
        }
        let lines = [
            (&class.name, Weight::Regular, SOFT_INK, (0.0, 20.0)),
            (&class.label, Weight::SemiBold, INK, (if marked { MARK } else { 0.0 }, 40.0)),
            (&class.note, Weight::Regular, SOFT_INK, (0.0, 58.0)),
        ];
        for (words, weight, ink, (across, down)) in lines {
            let room = width - COLUMN_GAP - across;
            let words = text::elide(&text::clean(words), weight, SMALL, room);
            // Of more columns than there is room for, the words go.
            if text::width(&words, weight, SMALL) <= room {
                canvas.words((left + across, top + down), Words::new(words, SMALL).weight(weight).ink(ink));
            }
        }
        left += width;
    }
    top + 58.0
}
