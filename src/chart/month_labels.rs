//! The words of the chart of months: figures over its bars, apart from one another, and the months and years below.

use plotters::style::RGBColor;

use super::canvas::{Align, Canvas, Layer, Words};
use super::font::Weight;
use super::labels::Place;
use super::months::{Across, MonthBar};
use super::text;
use super::theme::{BAND, INK, SMALL, SOFT_INK, WHITE};

const HEIGHT: f64 = 15.0;
const TO_BASELINE: f64 = 11.5;
/// From a bar to its figure; from there on a line joins the two.
const GAP: f64 = 5.0;
const JOINED_FROM: f64 = 12.0;
/// Steps in which a figure moves up to find room.
const RISE: f64 = 4.0;
const MONTH_AT_MOST: f64 = 70.0;
/// From a figure to the right edge, beyond which the words of the target stand.
const FROM_EDGE: f64 = 6.0;
/// Between figures at one height, which must not read as one.
const BETWEEN: f64 = 12.0;

/// What stands over a bar.
#[derive(Debug)]
pub(super) struct Figure {
    /// The middle of the bar's upper end.
    pub(super) top: (f64, f64),
    /// Half the bar's width.
    pub(super) half: f64,
    /// Empty where it has no figure; the bar is still in the way of others.
    pub(super) text: String,
    pub(super) strong: bool,
    /// Moves up to find room; another only stands where it has room at once.
    pub(super) wanted: bool,
}

/// The figures over the bars of a panel, no higher than `ceiling` and not on a line at `struck`.
pub(super) fn draw_figures(canvas: &mut Canvas, across: Across, figures: &[Figure], ceiling: f64, struck: Option<f64>) {
    let rank = |figure: &&Figure| (!figure.strong, !figure.wanted);
    let mut ordered: Vec<_> = figures.iter().filter(|figure| !figure.text.is_empty()).collect();
    // A stable order: of equals the earlier month first.
    ordered.sort_by_key(rank);
    let mut taken: Vec<Place> = Vec::new();
    for figure in ordered {
        let weight = if figure.strong { Weight::SemiBold } else { Weight::Regular };
        let words = Words::new(figure.text.clone(), SMALL).weight(weight).ink(INK).rim(rim(figure.strong));
        let (x, top) = figure.top;
        let half = words.width() / 2.0;
        let middle = x.min(across.right - FROM_EDGE - half).max(across.left + half);
        let (left, right) = (middle - half, middle + half);
        let beneath = figures.iter().filter(|bar| bar.top.0 + bar.half > left - 2.0 && bar.top.0 - bar.half < right + 2.0);
        let highest = beneath.map(|bar| bar.top.1).fold(top, f64::min);
        let rises = if figure.wanted { 60 } else { 1 };
        let found = (0..rises).map(|step| highest - GAP - f64::from(step) * RISE).find(|bottom| {
            let place = [left, bottom - HEIGHT, right, *bottom];
            let joint = [x - 1.0, *bottom, x + 1.0, top];
            let crossed = struck.is_some_and(|y| (place[1] - 1.0..=place[3] + 1.0).contains(&y));
            place[1] >= ceiling && !crossed && taken.iter().all(|other| apart(place, *other) && apart(joint, *other))
        });
        let Some(bottom) = found else { continue };
        taken.push([left, bottom - HEIGHT, right, bottom]);
        if top - bottom > JOINED_FROM {
            canvas.line(Layer::Ground, [(x, bottom + 1.0), (x, top - 2.0)], 1.0, SOFT_INK);
            taken.push([x - 1.0, bottom, x + 1.0, top]);
        }
        canvas.words((middle, bottom - HEIGHT + TO_BASELINE), words.align(Align::Middle));
    }
}

/// The current month stands on the band.
fn rim(current: bool) -> RGBColor {
    if current { BAND } else { WHITE }
}

fn apart(a: Place, b: Place) -> bool {
    a[2] + BETWEEN <= b[0] || b[2] + BETWEEN <= a[0] || a[3] <= b[1] || b[3] <= a[1]
}

/// The months under the bars, as many as fit and always the current one, and the years under them; returns where the
/// last line ends.
pub(super) fn draw_months(canvas: &mut Canvas, across: Across, months: &[MonthBar], bottom: f64) -> f64 {
    let name = |month: &MonthBar| text::elide(&text::clean(&month.month), Weight::SemiBold, SMALL, MONTH_AT_MOST);
    let widest = months.iter().map(|month| text::width(&name(month), Weight::SemiBold, SMALL)).fold(0.0, f64::max);
    let every = (1..=months.len().max(1)).find(|every| step_of(*every) * across.step >= widest + 6.0).unwrap_or(months.len().max(1));
    let from = months.iter().rposition(|month| month.current).unwrap_or(0);
    let mut free_from = across.left - 8.0;
    let mut years: Vec<(f64, String)> = Vec::new();
    for (at, (month, x)) in months.iter().zip(across.middles()).enumerate() {
        if at.abs_diff(from) % every == 0 {
            let (weight, ink) = if month.current { (Weight::SemiBold, INK) } else { (Weight::Regular, SOFT_INK) };
            let words = Words::new(name(month), SMALL).weight(weight).ink(ink).rim(rim(month.current)).align(Align::Middle);
            canvas.words((x, bottom + 18.0), words);
        }
        let year = text::elide(&text::clean(&month.year), Weight::Regular, SMALL, MONTH_AT_MOST);
        if years.last().is_none_or(|(_, last)| *last != year) {
            years.push((x - across.step / 2.0, year));
        }
    }
    let ends: Vec<_> = years.iter().skip(1).map(|(x, _)| *x).chain([across.right + 40.0]).collect();
    for ((x, year), end) in years.into_iter().zip(ends) {
        if x > across.left + 1.0 {
            canvas.line(Layer::Ground, [(x, bottom + 26.0), (x, bottom + 42.0)], 1.0, SOFT_INK);
        }
        let left = x + 5.0;
        let words = Words::new(year, SMALL).ink(SOFT_INK);
        if left >= free_from && left + words.width() <= end {
            free_from = left + words.width() + 6.0;
            canvas.words((left, bottom + 38.0), words);
        }
    }
    bottom + 38.0
}

fn step_of(every: usize) -> f64 {
    u32::try_from(every).map_or(f64::MAX, f64::from)
}
