//! Reads marks off a picture.

use plotters::style::RGBColor;

use crate::chart::Picture;
use crate::chart::draw::font::Weight;
use crate::chart::draw::picture::{Align, Layer, Role, Shape};

/// A text with the place its letters take, from the tops of capitals to the ends of descenders.
#[derive(Debug, Clone)]
pub struct Text {
    pub words: String,
    pub size: f64,
    pub is_bold: bool,
    pub role: Role,
    pub left: f64,
    pub right: f64,
    pub baseline: f64,
    pub top: f64,
    pub bottom: f64,
}

impl Text {
    pub fn middle(&self) -> f64 {
        f64::midpoint(self.left, self.right)
    }
}

/// All texts, in the order laid out.
pub fn texts(picture: &Picture) -> Vec<Text> {
    let text = |role: Role, shape: &Shape| {
        let Shape::Words((x, baseline), words) = shape else { return None };
        let left = match words.align {
            Align::Left => *x,
            Align::Middle => x - words.width() / 2.0,
            Align::Right => x - words.width(),
        };
        Some(Text {
            words: words.text.clone(),
            size: words.size,
            is_bold: words.weight == Weight::SemiBold,
            role,
            left,
            right: left + words.width(),
            baseline: *baseline,
            top: baseline - 0.76 * words.size,
            bottom: baseline + 0.2 * words.size,
        })
    };
    picture.marks.iter().filter_map(|mark| text(mark.role, &mark.shape)).collect()
}

pub fn said(picture: &Picture) -> Vec<String> {
    texts(picture).into_iter().map(|text| text.words).collect()
}

/// The one text that reads so.
pub fn text(picture: &Picture, wanted: &str) -> Text {
    let found: Vec<_> = texts(picture).into_iter().filter(|text| text.words == wanted).collect();
    assert_eq!(found.len(), 1, "{wanted:?} in {:?}", said(picture));
    found.into_iter().next().unwrap()
}

/// Whether the texts come in this order from the top down, in the order laid out.
pub(crate) fn assert_order(picture: &Picture, wanted: &[&str]) {
    let said = said(picture);
    let mut from = 0;
    for wanted in wanted {
        let at = said[from..].iter().position(|text| text == wanted).unwrap_or_else(|| panic!("no {wanted:?} after {from} in {said:?}"));
        from += at + 1;
    }
}

/// The bars drawn for a row, column or point: left, top, right, bottom.
pub fn bars(picture: &Picture, at: usize) -> Vec<[f64; 4]> {
    let bar = |shape: &Shape| if let Shape::Rect(place, _) = shape { Some(*place) } else { None };
    data(picture, at, Layer::Fill).filter_map(bar).collect()
}

/// Their colours.
pub fn fills(picture: &Picture, at: usize) -> Vec<RGBColor> {
    let bar = |shape: &Shape| if let Shape::Rect(_, colour) = shape { Some(*colour) } else { None };
    data(picture, at, Layer::Fill).filter_map(bar).collect()
}

/// The hatching over them.
pub(crate) fn hatchings(picture: &Picture, at: usize) -> Vec<[f64; 4]> {
    let hatching = |shape: &Shape| if let Shape::Hatching(place) = shape { Some(*place) } else { None };
    data(picture, at, Layer::Hatch).filter_map(hatching).collect()
}

/// Middles of the outermost circle or diamond at each place that was drawn for a row or point.
pub fn signs(picture: &Picture, at: usize) -> Vec<(f64, f64)> {
    let mut middles: Vec<(f64, f64)> = Vec::new();
    for shape in data(picture, at, Layer::Over) {
        let middle = match shape {
            Shape::Circle(middle, ..) => *middle,
            Shape::Polygon(corners, _) if corners.len() == 4 => (corners[1].0, corners[0].1),
            _ => continue,
        };
        if middles.last() != Some(&middle) {
            middles.push(middle);
        }
    }
    middles
}

/// How many arrow heads were drawn.
pub(crate) fn arrows(picture: &Picture) -> usize {
    let is_arrow = |shape: &Shape| matches!(shape, Shape::Polygon(corners, _) if corners.len() == 3);
    picture.marks.iter().filter(|mark| mark.role != Role::Key && is_arrow(&mark.shape)).count()
}

/// Lines of one role and colour, with their ends.
pub fn lines(picture: &Picture, role: Role, wanted: RGBColor) -> Vec<[(f64, f64); 2]> {
    let line = |shape: &Shape| match shape {
        Shape::Line(ends, _, colour) if *colour == wanted => Some(*ends),
        _ => None,
    };
    picture.marks.iter().filter(|mark| mark.role == role).filter_map(|mark| line(&mark.shape)).collect()
}

fn data(picture: &Picture, at: usize, layer: Layer) -> impl Iterator<Item = &Shape> {
    picture.marks.iter().filter(move |mark| mark.role == Role::Data(at) && mark.layer == layer).map(|mark| &mark.shape)
}

/// The labels at ticks of a unit, each with its amount: `$` of `$10`, ` h` of `20 h`.
fn ticks(picture: &Picture, zero: &str) -> Vec<(f64, Text)> {
    let unit = zero.replace('0', "");
    let amount = |text: &Text| {
        let number = text.words.replace(&unit, "").replace(',', "").replace('−', "-");
        (unit.is_empty() || text.words.contains(&unit)).then(|| number.parse().ok())?
    };
    let ticks = texts(picture).into_iter().filter(|text| text.role == Role::Axis);
    ticks.filter_map(|text| Some((amount(&text)?, text))).collect()
}

/// From the places of ticks: where zero falls, and how far on one unit is.
fn scale(mut places: Vec<(f64, f64)>) -> (f64, f64) {
    places.sort_by(|a, b| a.0.total_cmp(&b.0));
    let ((first, from), (last, to)) = (places[0], places[places.len() - 1]);
    assert!(last > first, "{places:?}");
    let unit = (to - from) / (last - first);
    (from - first * unit, unit)
}

/// Where zero falls across, and how far on one unit is, read off the labels at the ticks.
pub(crate) fn across(picture: &Picture, zero: &str) -> (f64, f64) {
    let ticks = ticks(picture, zero);
    // Of two axes with equal labels the one across is lower.
    let lowest = ticks.iter().map(|(_, text)| text.baseline).fold(0.0, f64::max);
    scale(ticks.iter().filter(|(_, text)| text.baseline > lowest - 0.1).map(|(amount, text)| (*amount, text.middle())).collect())
}

/// The same up the page: where zero falls, and how far up one unit is.
pub(crate) fn upward(picture: &Picture, zero: &str) -> (f64, f64) {
    let ticks = ticks(picture, zero);
    let leftmost = ticks.iter().map(|(_, text)| text.right).fold(f64::MAX, f64::min);
    // From the baseline of a label to its line.
    let places = ticks.iter().filter(|(_, text)| text.right < leftmost + 0.1).map(|(amount, text)| (*amount, text.baseline - 4.5));
    let (zero, unit) = scale(places.collect());
    (zero, -unit)
}

pub(crate) fn assert_near(a: f64, b: f64) {
    assert!((a - b).abs() < 0.6, "{a} is not {b}");
}
