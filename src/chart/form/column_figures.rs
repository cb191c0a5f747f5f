//! Figures over columns: beside their neighbours, apart from one another, and never on a line.

use crate::chart::draw::font::Weight;
use crate::chart::draw::labels::Place;
use crate::chart::draw::picture::{Align, Layer, Picture, Role, Words};
use crate::chart::draw::theme::{BAND, SOFT_INK, WHITE};

/// The height of a figure, and from its top to its baseline.
const HEIGHT: f64 = 15.0;
const TO_BASELINE: f64 = 11.5;
/// From a column to its figure; from there on a line joins the two.
const GAP: f64 = 5.0;
const JOINED_FROM: f64 = 12.0;
/// Steps in which a figure moves up to find room.
const RISE: f64 = 4.0;
/// From a figure to the right edge, and between figures at one height, which must not read as one.
const FROM_EDGE: f64 = 6.0;
const BETWEEN: f64 = 12.0;
/// From a line that joins a column to its figure to any other figure.
const CLEAR: f64 = 2.0;

/// What stands over a column.
#[derive(Debug)]
pub struct Figure {
    /// The middle of the column's upper end.
    pub top: (f64, f64),
    /// Half the column's width.
    pub half: f64,
    /// Empty where it has no figure; the column is still in the way of others.
    pub text: String,
    pub is_strong: bool,
    /// Moves up to find room; another only stands where it has room at once.
    pub is_wanted: bool,
}

/// Draws the figures over the columns of a panel, between its edges, no higher than `ceiling` and not on a line at `struck`.
pub(crate) fn draw_figures(
    picture: &mut Picture,
    (edge_left, edge_right): (f64, f64),
    figures: &[Figure],
    ceiling: f64,
    struck: Option<f64>,
) {
    picture.role(Role::Name);
    let size = picture.page().small.size;
    let mut ordered: Vec<_> = figures.iter().filter(|figure| !figure.text.is_empty()).collect();
    // The highest first, for others may rise past it; of equals the earlier month.
    ordered.sort_by(|a, b| {
        let rank = |figure: &Figure| (!figure.is_strong, !figure.is_wanted);
        rank(a).cmp(&rank(b)).then_with(|| a.top.1.total_cmp(&b.top.1))
    });
    let mut taken: Vec<Place> = Vec::new();
    for figure in ordered {
        let weight = if figure.is_strong { Weight::SemiBold } else { Weight::Regular };
        let words = Words::new(figure.text.clone(), size).weight(weight).rim(if figure.is_strong { BAND } else { WHITE });
        let (x, top) = figure.top;
        let half = words.width() / 2.0;
        let middle = x.min(edge_right - FROM_EDGE - half).max(edge_left + half);
        let (left, right) = (middle - half, middle + half);
        let beneath = figures.iter().filter(|bar| bar.top.0 + bar.half > left - 2.0 && bar.top.0 - bar.half < right + 2.0);
        let highest = beneath.map(|bar| bar.top.1).fold(top, f64::min);
        let rises: u32 = if figure.is_wanted { 60 } else { 1 };
        let found = (0..rises).map(|step| highest - GAP - f64::from(step) * RISE).find(|bottom| {
            let place = [left, bottom - HEIGHT, right, *bottom];
            let joint = [x - 1.0, *bottom, x + 1.0, top];
            let crossed = struck.is_some_and(|y| (place[1] - 1.0..=place[3] + 1.0).contains(&y));
            place[1] >= ceiling && !crossed && taken.iter().all(|other| apart(place, *other, BETWEEN) && apart(joint, *other, CLEAR))
        });
        let Some(bottom) = found else { continue };
        taken.push([left, bottom - HEIGHT, right, bottom]);
        if top - bottom > JOINED_FROM {
            picture.line(Layer::Ground, [(x, bottom + 1.0), (x, top - 2.0)], 1.0, SOFT_INK);
            taken.push([x - 1.0, bottom, x + 1.0, top]);
        }
        picture.words((middle, bottom - HEIGHT + TO_BASELINE), words.align(Align::Middle));
    }
}

fn apart(a: Place, b: Place, between: f64) -> bool {
    a[2] + between <= b[0] || b[2] + between <= a[0] || a[3] <= b[1] || b[3] <= a[1]
}
