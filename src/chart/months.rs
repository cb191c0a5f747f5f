//! Pay an hour and hours worked, month by month, one above the other on the same months.

use rust_decimal::Decimal;

use super::axis::AmountStyle;
use super::canvas::{Canvas, Layer};
use super::frame;
use super::line_labels::LineLabels;
use super::marks::{self, Sign};
use super::month_labels::{self, Figure};
use super::text;
use super::theme::{BAND, BELOW, HOURS, INK, MARGIN, OVER, SHORT, UNKNOWN, WIDTH};
use super::upright::Upright;
use super::wage_by_tier::Standing;

/// Months drawn at most: the last ones.
const MOST: usize = 36;
/// Heights of the two panels.
const WAGES_HIGH: f64 = 240.0;
const HOURS_HIGH: f64 = 130.0;
/// Above each panel: the title of its axis, and under that room for figures over the tallest bar, of which the wages
/// have three that may have to stand over one another.
const ABOVE_WAGES: f64 = 70.0;
const ABOVE_HOURS: f64 = 72.0;
const FIGURES_OVER_WAGES: f64 = 51.0;
const FIGURES_OVER_HOURS: f64 = 36.0;
/// Right of the panels, for the words at the target.
const BESIDE: f64 = 80.0;
/// Bars are this share of a month's width, and no wider than this.
const FILLED: f64 = 0.7;
const WIDEST: f64 = 48.0;
/// From this width of a month on every bar has its figure.
const ROOMY: f64 = 66.0;

/// One month.
#[derive(Debug, Clone)]
pub struct MonthBar {
    /// The month as it stands under its bar, such as `Mar`. Where months are many, every second or third is written.
    pub month: String,
    /// Its year, written under the first of its months, such as `2026`.
    pub year: String,
    /// Pay an hour in the currency's main unit; `None` without orders or hours, which leaves a gap.
    pub wage: Option<Decimal>,
    /// The wage as it is to be read, such as `$18.40`.
    pub wage_label: String,
    /// Hours worked; `None` leaves a gap.
    pub hours: Option<Decimal>,
    /// The hours as they are to be read, such as `47 h`.
    pub hours_label: String,
    /// Whether so few orders stand behind it that it says little: the bar is hollow, and neither best nor worst.
    pub few: bool,
    /// Whether it is the month in question: it stands on a band and always has its figures.
    pub current: bool,
    /// Whether the wage reaches the target: decides the fill.
    pub standing: Standing,
}

/// Two panels of bars, in the order given.
#[derive(Debug, Clone)]
pub struct MonthsChart {
    /// What the chart finds, as a sentence.
    pub title: String,
    /// What it shows: period, count, caution.
    pub subtitle: String,
    /// What the upper axis measures, such as `pay an hour before your own taxes, USD`.
    pub wage_axis: String,
    /// What the lower axis measures, such as `hours you worked`.
    pub hours_axis: String,
    /// How wages are written at the ticks.
    pub amounts: AmountStyle,
    /// The months, from the left; months without orders are among them. Of more than 36 the last 36 are drawn.
    pub months: Vec<MonthBar>,
    /// The target wage and the words beside its line, such as `target $20.00`.
    pub target: Option<(Decimal, String)>,
}

/// Where the months lie across both panels.
#[derive(Debug, Clone, Copy)]
pub(super) struct Across {
    pub(super) left: f64,
    pub(super) right: f64,
    pub(super) step: f64,
}

impl Across {
    fn new(left: f64, right: f64, count: usize) -> Self {
        Self { left, right, step: (right - left) / u32::try_from(count.max(1)).map_or(1.0, f64::from) }
    }

    /// The middles of the months.
    pub(super) fn middles(&self) -> impl Iterator<Item = f64> + use<> {
        let Self { left, step, .. } = *self;
        (0_u32..).map(move |at| left + (f64::from(at) + 0.5) * step)
    }

    fn half_bar(&self) -> f64 {
        (FILLED * self.step).min(WIDEST) / 2.0
    }
}

impl MonthsChart {
    /// The chart as SVG, 640 CSS pixels wide. Without a month that has a figure, a sentence says so.
    #[must_use]
    pub fn svg(&self) -> String {
        let months = &self.months[self.months.len().saturating_sub(MOST)..];
        if months.iter().all(|month| month.wage.is_none() && month.hours.is_none()) {
            return frame::nothing_to_draw(&self.title, &self.subtitle);
        }
        let mut canvas = Canvas::default();
        let below_heading = frame::heading(&mut canvas, &self.title, &self.subtitle);
        let below_key = frame::key(&mut canvas, below_heading, &key(months));
        let wages_top = below_key + ABOVE_WAGES;
        let hours_top = wages_top + WAGES_HIGH + ABOVE_HOURS;
        let bottom = hours_top + HOURS_HIGH;
        let targets = self.target.iter().map(|(target, _)| *target);
        let wages = range(months.iter().filter_map(|month| month.wage).chain(targets));
        let wages = Upright::new(wages, (wages_top, wages_top + WAGES_HIGH), &self.amounts);
        let in_hours = AmountStyle { prefix: String::new(), suffix: " h".to_owned(), decimals: 0 };
        let hours = Upright::new(range(months.iter().filter_map(MonthBar::worked)), (hours_top, bottom), &in_hours);
        let across = Across::new(MARGIN + wages.room().max(hours.room()), WIDTH - MARGIN - BESIDE, months.len());
        // A lone month needs no telling apart.
        for (_, x) in months.iter().zip(across.middles()).filter(|(month, _)| month.current && months.len() > 1) {
            let half = across.step / 2.0;
            canvas.rect(Layer::Under, [x - half, wages_top - 8.0, x + half, bottom + 26.0], BAND);
        }
        for (axis, title, top) in
            [(&wages, &self.wage_axis, wages_top - FIGURES_OVER_WAGES), (&hours, &self.hours_axis, hours_top - FIGURES_OVER_HOURS)]
        {
            frame::axis_title(&mut canvas, title, (MARGIN, top - 4.0));
            axis.draw(&mut canvas, across.left, across.right);
        }
        let target = self.target.as_ref().map(|(target, words)| (wages.y(*target), words));
        let figures = draw_wages(&mut canvas, &wages, across, months);
        month_labels::draw_figures(&mut canvas, across, &figures, wages_top - FIGURES_OVER_WAGES, target.map(|(y, _)| y));
        if let Some((y, words)) = target {
            let ends = [(across.left, y), (across.right, y)];
            canvas.line(Layer::Over, ends, 2.0, INK);
            let frame = [across.left, wages_top, across.right, wages_top + WAGES_HIGH];
            LineLabels::new(frame).draw(&mut canvas, ends[1], words, true);
        }
        let figures = draw_hours(&mut canvas, &hours, across, months);
        month_labels::draw_figures(&mut canvas, across, &figures, hours_top - FIGURES_OVER_HOURS, None);
        let below_months = month_labels::draw_months(&mut canvas, across, months, bottom);
        canvas.svg(below_months + BELOW, &frame::label(&self.title, &self.subtitle))
    }
}

impl MonthBar {
    /// Hours that can be drawn.
    fn worked(&self) -> Option<Decimal> {
        self.hours.map(|hours| hours.max(Decimal::ZERO))
    }

    fn fill(&self) -> Sign {
        match self.standing {
            Standing::Over => Sign::Plain(OVER),
            Standing::Short => Sign::Hatched(SHORT),
            Standing::Unknown => Sign::Plain(UNKNOWN),
        }
    }
}

fn range(amounts: impl Iterator<Item = Decimal>) -> (Decimal, Decimal) {
    amounts.fold((Decimal::ZERO, Decimal::ZERO), |(low, high), amount| (low.min(amount), high.max(amount)))
}

/// Only what occurs in this chart.
fn key(months: &[MonthBar]) -> Vec<(Sign, String)> {
    let any = |standing| months.iter().any(|month| month.wage.is_some() && !month.few && month.standing == standing);
    let few = months.iter().any(|month| month.wage.is_some() && month.few);
    let entries = [
        (any(Standing::Over), Sign::Plain(OVER), "above your target"),
        (any(Standing::Short), Sign::Hatched(SHORT), "below your target"),
        (any(Standing::Unknown), Sign::Plain(UNKNOWN), "not judged"),
        (few, Sign::Hollow(UNKNOWN), "few orders, so rough"),
    ];
    entries.into_iter().filter(|(occurs, ..)| *occurs).map(|(_, sign, words)| (sign, words.to_owned())).collect()
}

/// The bars of the wages; returns the figures over them.
fn draw_wages(canvas: &mut Canvas, axis: &Upright, across: Across, months: &[MonthBar]) -> Vec<Figure> {
    let telling = || months.iter().filter(|month| !month.few).filter_map(|month| month.wage);
    let (best, worst) = (telling().max(), telling().min());
    let ranked = telling().count() >= 3 && best != worst;
    let mut figures = Vec::new();
    for (month, x) in months.iter().zip(across.middles()) {
        let Some(wage) = month.wage else { continue };
        let (zero, end, half) = (axis.zero(), axis.y(wage), across.half_bar());
        let place = [x - half, zero.min(end), x + half, zero.max(end)];
        match month.fill() {
            Sign::Plain(colour) | Sign::Hatched(colour) if month.few => marks::hollow(canvas, place, colour),
            Sign::Hatched(colour) => canvas.hatched(place, colour),
            Sign::Plain(colour) => canvas.rect(Layer::Fill, place, colour),
            _ => {}
        }
        let rank = |extreme| ranked && !month.few && Some(wage) == extreme;
        let word = if rank(best) {
            "best "
        } else if rank(worst) {
            "worst "
        } else {
            ""
        };
        figures.push(figure(month, across, (x, place[1]), word, &month.wage_label));
    }
    figures
}

/// The bars of the hours; returns the figures over them.
fn draw_hours(canvas: &mut Canvas, axis: &Upright, across: Across, months: &[MonthBar]) -> Vec<Figure> {
    let most = months.iter().filter_map(MonthBar::worked).max();
    let several = months.iter().filter_map(MonthBar::worked).count() >= 3;
    let mut figures = Vec::new();
    for (month, x) in months.iter().zip(across.middles()) {
        let Some(hours) = month.worked() else { continue };
        let (top, half) = (axis.y(hours), across.half_bar());
        canvas.rect(Layer::Fill, [x - half, top, x + half, axis.zero()], HOURS);
        let word = if several && Some(hours) == most { "most " } else { "" };
        figures.push(figure(month, across, (x, top), word, &month.hours_label));
    }
    figures
}

/// A bar's figure: always wanted with a `word` and for the current month, else where there is room for all.
fn figure(month: &MonthBar, across: Across, top: (f64, f64), word: &str, label: &str) -> Figure {
    let wanted = month.current || !word.is_empty();
    let text = if wanted || across.step >= ROOMY { text::clean(&format!("{word}{label}")) } else { String::new() };
    Figure { top, half: across.half_bar(), text, strong: month.current, wanted }
}
