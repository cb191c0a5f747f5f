//! A page to draw on, in CSS pixels with quarter-pixel places. Marks are collected in layers and turned into SVG
//! once the height is known.
//!
//! Plotters' SVG backend writes the marks; it knows whole coordinates only, so the page is drawn four times its
//! size and brought back by the `viewBox`. What the backend cannot say (hatching, a white rim around letters,
//! crisp edges) is said by the groups the layers are wrapped in.

use plotters::backend::{DrawingBackend, SVGBackend};
use plotters::style::text_anchor::{HPos, Pos, VPos};
use plotters::style::{FontDesc, FontFamily, FontStyle, RGBColor, ShapeStyle, TextStyle};

use super::font::Weight;
use super::text;
use super::theme::{INK, WHITE, WIDTH};

/// Units of the drawing to one CSS pixel.
const UNITS: f64 = 4.0;
/// The fill that the hatch layer is drawn in, replaced by the pattern.
const HATCH_FILL: RGBColor = RGBColor(0xFF, 0xFF, 0xFF);

/// From the ground up.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub(super) enum Layer {
    /// Soft areas that all else lies on.
    Under,
    /// Grid lines and rules.
    Ground,
    /// Bars.
    Fill,
    /// Diagonal lines over bars.
    Hatch,
    /// Lines over bars.
    Over,
    /// Letters.
    Words,
}

/// Where a text stands from its place.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Align {
    Left,
    Middle,
    Right,
}

/// A line of text. `rim` is the colour drawn around its letters to keep them readable over lines.
#[derive(Debug, Clone)]
pub(super) struct Words {
    text: String,
    size: f64,
    weight: Weight,
    ink: RGBColor,
    align: Align,
    rim: RGBColor,
}

impl Words {
    /// Regular, dark, from its left end, with a white rim; `text` must be [`text::clean`].
    pub(super) fn new(text: impl Into<String>, size: f64) -> Self {
        Self { text: text.into(), size, weight: Weight::Regular, ink: INK, align: Align::Left, rim: WHITE }
    }

    pub(super) fn weight(self, weight: Weight) -> Self {
        Self { weight, ..self }
    }

    pub(super) fn ink(self, ink: RGBColor) -> Self {
        Self { ink, ..self }
    }

    pub(super) fn align(self, align: Align) -> Self {
        Self { align, ..self }
    }

    pub(super) fn rim(self, rim: RGBColor) -> Self {
        Self { rim, ..self }
    }

    pub(super) fn width(&self) -> f64 {
        text::width(&self.text, self.weight, self.size)
    }
}

#[derive(Debug)]
enum Mark {
    /// Left, top, right, bottom.
    Rect([f64; 4], RGBColor),
    /// Two ends, width, colour.
    Line([(f64, f64); 2], f64, RGBColor),
    Polygon(Vec<(f64, f64)>, RGBColor),
    /// Middle, radius, colour.
    Circle((f64, f64), f64, RGBColor),
    /// Where the baseline begins, ends or has its middle.
    Words((f64, f64), Words),
}

/// Marks in layers; see the module.
#[derive(Debug, Default)]
pub(super) struct Canvas {
    marks: Vec<(Layer, Mark)>,
}

impl Canvas {
    /// A filled rectangle; nothing if it is empty.
    pub(super) fn rect(&mut self, layer: Layer, [left, top, right, bottom]: [f64; 4], colour: RGBColor) {
        if right > left && bottom > top {
            self.marks.push((layer, Mark::Rect([left, top, right, bottom], colour)));
        }
    }

    /// A rectangle filled with `colour` and hatched in white.
    pub(super) fn hatched(&mut self, place: [f64; 4], colour: RGBColor) {
        self.rect(Layer::Fill, place, colour);
        self.hatching(place);
    }

    /// White hatching alone, over what is there, leaving a border of a pixel so that ends stay sharp.
    pub(super) fn hatching(&mut self, [left, top, right, bottom]: [f64; 4]) {
        self.rect(Layer::Hatch, [left + 1.0, top + 1.0, right - 1.0, bottom - 1.0], HATCH_FILL);
    }

    pub(super) fn line(&mut self, layer: Layer, ends: [(f64, f64); 2], width: f64, colour: RGBColor) {
        self.marks.push((layer, Mark::Line(ends, width, colour)));
    }

    pub(super) fn polygon(&mut self, layer: Layer, corners: Vec<(f64, f64)>, colour: RGBColor) {
        self.marks.push((layer, Mark::Polygon(corners, colour)));
    }

    pub(super) fn circle(&mut self, layer: Layer, middle: (f64, f64), radius: f64, colour: RGBColor) {
        self.marks.push((layer, Mark::Circle(middle, radius, colour)));
    }

    /// A line of text with its baseline at `y`; nothing if it is empty.
    pub(super) fn words(&mut self, (x, y): (f64, f64), words: Words) {
        if !words.text.is_empty() {
            self.marks.push((Layer::Words, Mark::Words((x, y), words)));
        }
    }

    /// The finished SVG, `height` tall, with `label` for those who cannot see it.
    pub(super) fn svg(mut self, height: f64, label: &str) -> String {
        self.marks.sort_by_key(|(layer, _)| *layer);
        let (page_width, page_height) = (units(WIDTH), units(height));
        let mut svg = format!(
            "<svg xmlns=\"http://www.w3.org/2000/svg\" width=\"{}\" height=\"{}\" \
             viewBox=\"0 0 {page_width} {page_height}\" role=\"img\" aria-label=\"{}\">\n{HATCH_PATTERN}\
             <rect width=\"{page_width}\" height=\"{page_height}\" fill=\"#FFFFFF\"/>\n",
            page_width / 4,
            page_height / 4,
            escape(label),
        );
        let size = (page_width.unsigned_abs(), page_height.unsigned_abs());
        for group in self.marks.chunk_by(|(a, mark_a), (b, mark_b)| a == b && mark_a.rim() == mark_b.rim()) {
            if let Some((layer, mark)) = group.first() {
                svg.push_str(&group_opening(*layer, mark.rim()));
                svg.push_str(&written(group, *layer, size));
                svg.push_str("</g>\n");
            }
        }
        svg.push_str("</svg>\n");
        svg
    }
}

/// White diagonals, 1.25 pixels wide and 5.5 apart. [`super::in_page`] renames it.
const HATCH_PATTERN: &str = "<defs><pattern id=\"fairdozen-hatch\" width=\"22\" height=\"22\" \
     patternUnits=\"userSpaceOnUse\" patternTransform=\"rotate(45)\"><rect width=\"6\" height=\"22\" \
     fill=\"#FFFFFF\"/></pattern></defs>\n";

impl Mark {
    fn rim(&self) -> Option<RGBColor> {
        match self {
            Self::Words(_, words) => Some(words.rim),
            _ => None,
        }
    }
}

fn group_opening(layer: Layer, rim: Option<RGBColor>) -> String {
    match (layer, rim) {
        (_, Some(RGBColor(red, green, blue))) => {
            format!("<g stroke=\"#{red:02X}{green:02X}{blue:02X}\" stroke-width=\"14\" stroke-linejoin=\"round\" paint-order=\"stroke\">\n")
        }
        (Layer::Ground | Layer::Fill, None) => "<g shape-rendering=\"crispEdges\">\n".to_owned(),
        _ => "<g>\n".to_owned(),
    }
}

/// The marks of one group as plotters writes them, without its own outer element.
fn written(group: &[(Layer, Mark)], layer: Layer, size: (u32, u32)) -> String {
    let mut page = String::new();
    let mut backend = SVGBackend::with_string(&mut page, size);
    for (_, mark) in group {
        draw(&mut backend, mark);
    }
    drop(backend);
    let inside = page.split_once(">\n").map_or("", |(_, after)| after);
    let inside = inside.rsplit_once("</svg>").map_or(inside, |(before, _)| before);
    // Quotes within texts are escaped, so these can match attributes only.
    let inside = inside.replace(" opacity=\"1\"", "");
    if layer == Layer::Hatch { inside.replace("fill=\"#FFFFFF\"", "fill=\"url(#fairdozen-hatch)\"") } else { inside }
}

fn draw(backend: &mut SVGBackend<'_>, mark: &Mark) {
    let written = match mark {
        Mark::Rect([left, top, right, bottom], colour) => {
            let corners = ((edge(*left), edge(*top)), (edge(*right), edge(*bottom)));
            backend.draw_rect(corners.0, corners.1, colour, true)
        }
        Mark::Line(ends, width, colour) => {
            let style = ShapeStyle::from(colour).stroke_width(units(*width).unsigned_abs());
            backend.draw_line(place(ends[0]), place(ends[1]), &style)
        }
        Mark::Polygon(corners, colour) => backend.fill_polygon(corners.iter().copied().map(place), colour),
        Mark::Circle(middle, radius, colour) => backend.draw_circle(place(*middle), units(*radius).unsigned_abs(), colour, true),
        Mark::Words((x, y), words) => {
            // Plotters puts a top-anchored text 0.76 em lower.
            backend.draw_text(&words.text, &style(words), (units(*x), units(*y - 0.76 * words.size)))
        }
    };
    // Into a string nothing can fail: the backend's errors are those of files.
    written.ok();
}

fn style(words: &Words) -> TextStyle<'_> {
    let style = match words.weight {
        Weight::Regular => FontStyle::Normal,
        // Plotters writes "bold"; the semi-bold is the heaviest there is, so it is the one found.
        Weight::SemiBold => FontStyle::Bold,
    };
    // Plotters divides the size by 1.24 on writing.
    let size = f64::from(units(words.size)) * 1.24;
    let across = match words.align {
        Align::Left => HPos::Left,
        Align::Middle => HPos::Center,
        Align::Right => HPos::Right,
    };
    TextStyle::from(FontDesc::new(FontFamily::Name(FAMILIES), size, style)).color(&words.ink).pos(Pos::new(across, VPos::Top))
}

/// On a page without the font the browser's own takes its place.
const FAMILIES: &str = "Noto Sans, sans-serif";

fn place((x, y): (f64, f64)) -> (i32, i32) {
    (units(x), units(y))
}

/// Edges of bars fall on half pixels, which are whole ones in an image of double density.
fn edge(length: f64) -> i32 {
    2 * units(length / 2.0)
}

#[expect(clippy::cast_possible_truncation, reason = "rounded, and `as` keeps to the ends of i32")]
fn units(length: f64) -> i32 {
    (length * UNITS).round() as i32
}

fn escape(text: &str) -> String {
    text.replace('&', "&amp;").replace('<', "&lt;").replace('>', "&gt;").replace('"', "&quot;")
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::chart::theme::{BODY, SMALL, SUBTITLE, TITLE};

    #[test]
    fn layers_come_out_from_the_ground_up_whatever_the_order_of_drawing() {
        let mut canvas = Canvas::default();
        canvas.words((10.0, 20.0), Words::new("word", 14.0));
        canvas.circle(Layer::Under, (5.0, 5.0), 4.0, RGBColor(4, 5, 6));
        canvas.line(Layer::Over, [(0.0, 0.0), (9.0, 0.0)], 1.5, INK);
        canvas.hatched([0.0, 0.0, 10.0, 10.0], RGBColor(1, 2, 3));
        let svg = canvas.svg(50.0, "label");
        let at = |what: &str| svg.find(what).unwrap_or_else(|| panic!("no {what} in {svg}"));
        assert!(at("<circle") < at("#010203") && at("#040506") < at("#010203"));
        assert!(at("#010203") < at("url(#fairdozen-hatch)"));
        assert!(at("url(#fairdozen-hatch)") < at("<line"));
        assert!(at("<line") < at("word"));
        assert!(svg.contains(&format!("viewBox=\"0 0 {} 200\"", units(WIDTH))) && svg.contains("height=\"50\""));
    }

    #[test]
    fn nothing_is_drawn_for_empty_marks() {
        let mut canvas = Canvas::default();
        let bare = Canvas::default().svg(50.0, "");
        canvas.rect(Layer::Fill, [5.0, 0.0, 5.0, 10.0], INK);
        canvas.rect(Layer::Fill, [5.0, 0.0, 1.0, 10.0], INK);
        canvas.words((0.0, 0.0), Words::new("", 14.0));
        assert_eq!(canvas.svg(50.0, ""), bare);
    }

    #[test]
    fn text_and_label_are_escaped() {
        let mut canvas = Canvas::default();
        canvas.words((0.0, 9.0), Words::new("a<b & \" opacity=\"1\"", 14.0));
        let svg = canvas.svg(50.0, "\"><script>");
        assert!(svg.contains("a&lt;b &amp; &quot; opacity=&quot;1&quot;"));
        assert!(svg.contains("aria-label=\"&quot;&gt;&lt;script&gt;\""));
    }

    #[test]
    fn font_sizes_come_out_whole_in_spite_of_plotters_division() {
        let mut canvas = Canvas::default();
        for size in [TITLE, SUBTITLE, BODY, SMALL] {
            canvas.words((0.0, 50.0), Words::new("x", size));
        }
        let svg = canvas.svg(60.0, "");
        for size in ["92", "61", "58", "50"] {
            assert!(svg.contains(&format!("font-size=\"{size}\"")), "{svg}");
        }
    }
}
