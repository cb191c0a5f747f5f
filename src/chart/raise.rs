//! What a raise earns against the share of orders that it costs: a straight line, with the break-even marked.

use rust_decimal::Decimal;
use rust_decimal::prelude::ToPrimitive;

use super::alternative::{Chart, drawn_under_its_heading, row as in_words, said};
use super::axis::{self, AmountStyle};
use super::canvas::{Align, Canvas, Layer, Words};
use super::font::Weight;
use super::frame;
use super::marks;
use super::text;
use super::theme::{BASELINE, BELOW, GRID, INK, LEARNED, MARGIN, OVER_INK, SHORT_INK, SMALL, SOFT_INK, WIDTH};

/// The plot.
const LEFT: f64 = MARGIN + 92.0;
const RIGHT: f64 = WIDTH - MARGIN - 20.0;
const HEIGHT: f64 = 340.0;

/// Money over what is earned now, by the share of orders lost.
#[derive(Debug, Clone)]
pub struct RaiseChart {
    /// What the chart finds, as a sentence.
    pub title: String,
    /// What it shows.
    pub subtitle: String,
    /// What is measured across, such as `orders lost, of all`.
    pub across: String,
    /// What is measured up.
    pub up: String,
    /// How amounts are written at the ticks.
    pub amounts: AmountStyle,
    /// What the raise earns with no order lost, in main units.
    pub gain: Decimal,
    /// What is earned less with all of them lost: not positive.
    pub lost_all: Decimal,
    /// The right end of the plot, in per cent of orders lost; from 1 to 100.
    pub most: u32,
    /// The break-even as it is to be read; marked where it lies within the plot.
    pub break_even: String,
}

struct Plot {
    low: f64,
    high: f64,
    top: f64,
    most: f64,
}

impl Plot {
    fn x(&self, share: f64) -> f64 {
        LEFT + (share / self.most).clamp(0.0, 1.0) * (RIGHT - LEFT)
    }

    fn y(&self, amount: f64) -> f64 {
        let share = (amount - self.low) / (self.high - self.low);
        self.top + HEIGHT - share.clamp(0.0, 1.0) * HEIGHT
    }
}

impl RaiseChart {
    /// The chart as SVG, 640 CSS pixels wide. Without any change, a sentence says so.
    #[must_use]
    pub fn svg(&self) -> String {
        let most = f64::from(self.most.clamp(1, 100));
        let (gain, lost_all) = (place(self.gain), place(self.lost_all));
        if self.gain.is_zero() || lost_all >= gain {
            let sentence = if self.gain.is_zero() {
                "No order lost or won makes these prices better or worse than now."
            } else {
                "Fewer orders would leave more: each costs more than it brings in."
            };
            return frame::only_words(&self.title, &self.subtitle, sentence);
        }
        let mut canvas = Canvas::default();
        let below = frame::heading(&mut canvas, &self.title, &self.subtitle);
        let end = gain + (lost_all - gain) * most / 100.0;
        let ticks = axis::ticks(decimal(end).min(Decimal::ZERO), self.gain.max(Decimal::ZERO), 6, self.amounts.decimals);
        let first = ticks.values.first().copied().map_or(end.min(0.0), |tick| place(tick).min(end));
        let last = ticks.values.last().copied().map_or(gain.max(0.0), |tick| place(tick).max(gain));
        let plot = Plot { low: first, high: last, top: below + 34.0, most };
        frame::axis_title(&mut canvas, &self.up, (MARGIN, below + 14.0));
        for tick in &ticks.values {
            let y = plot.y(place(*tick));
            canvas.line(Layer::Ground, [(LEFT, y), (RIGHT, y)], 1.0, GRID);
            let label = text::elide(&text::clean(&self.amounts.write(*tick, ticks.places)), Weight::Regular, SMALL, LEFT - MARGIN - 10.0);
            canvas.words((LEFT - 10.0, y + 4.5), Words::new(label, SMALL).ink(SOFT_INK).align(Align::Right));
        }
        for share in (0..=self.most.clamp(1, 100)).step_by(if self.most <= 12 {
            2
        } else if self.most <= 60 {
            10
        } else {
            20
        }) {
            let x = plot.x(f64::from(share));
            canvas.line(Layer::Ground, [(x, plot.top), (x, plot.top + HEIGHT)], 1.0, GRID);
            canvas.words((x, plot.top + HEIGHT + 20.0), Words::new(format!("{share} %"), SMALL).ink(SOFT_INK).align(Align::Middle));
        }
        let zero = plot.y(0.0);
        canvas.line(Layer::Over, [(LEFT, zero), (RIGHT, zero)], 1.5, BASELINE);
        canvas.line(Layer::Over, [(plot.x(0.0), plot.y(gain)), (plot.x(most), plot.y(end))], 3.0, LEARNED);
        self.mark(&mut canvas, &plot, (gain, lost_all));
        let below = plot.top + HEIGHT + 44.0;
        frame::axis_title(&mut canvas, &self.across, (LEFT, below));
        canvas.svg(below + BELOW, &frame::label(&self.title, &self.subtitle))
    }

    /// The break-even, its words above the line to its right, and which side is which.
    fn mark(&self, canvas: &mut Canvas, plot: &Plot, (gain, lost_all): (f64, f64)) {
        let share = 100.0 * gain / (gain - lost_all);
        if !(0.0..=plot.most).contains(&share) {
            return;
        }
        let (x, zero) = (plot.x(share), plot.y(0.0));
        canvas.line(Layer::Over, [(x, zero), (x, plot.top + HEIGHT)], 1.5, INK);
        marks::dot(canvas, (x, zero));
        let room = RIGHT - x - 16.0;
        let words = text::elide(&text::clean(&self.break_even), Weight::SemiBold, SMALL, room.max(x - LEFT - 16.0));
        let words = Words::new(words, SMALL).weight(Weight::SemiBold);
        let fits = words.width() <= room;
        // Above the falling line on its right; on its left below it.
        if fits {
            canvas.words((x + 12.0, zero - 12.0), words);
        } else {
            canvas.words((x - 12.0, zero + 22.0), words.align(Align::Right));
        }
        canvas.words((RIGHT - 8.0, plot.top + 16.0), Words::new("more than now", SMALL).ink(OVER_INK).align(Align::Right));
        canvas.words((LEFT + 10.0, plot.top + HEIGHT - 10.0), Words::new("less than now", SMALL).ink(SHORT_INK));
    }
}

impl Chart for RaiseChart {
    drawn_under_its_heading!();

    fn rows_in_words(&self) -> Vec<String> {
        let write = |amount: Decimal| self.amounts.write(amount, self.amounts.decimals);
        let at = |share: &str, amount: Decimal| in_words(share, &[&write(amount)]);
        said([at("none lost", self.gain), self.break_even.clone(), at("all lost", self.lost_all)].into_iter())
    }
}

fn place(amount: Decimal) -> f64 {
    amount.to_f64().unwrap_or(0.0)
}

fn decimal(amount: f64) -> Decimal {
    use rust_decimal::prelude::FromPrimitive;
    Decimal::from_f64(amount).unwrap_or_default()
}
