//! A picture drawn: its marks as SVG, layer by layer.
//!
//! Plotters' SVG backend writes the marks; it knows whole coordinates only, so the page is drawn four times its
//! size and brought back by the `viewBox`. What the backend cannot say (hatching, a white rim around letters,
//! crisp edges) is said by the groups the layers are wrapped in.

use plotters::backend::{DrawingBackend, SVGBackend};
use plotters::style::text_anchor::{HPos, Pos, VPos};
use plotters::style::{FontDesc, FontFamily, FontStyle, RGBColor, ShapeStyle, TextStyle};

use super::font::Weight;
use super::picture::{Align, Layer, Mark, Picture, Shape, Words};

/// Units of the drawing to one CSS pixel.
const UNITS: f64 = 4.0;
/// The fill that the hatch layer is drawn in, replaced by the pattern.
const HATCH_FILL: RGBColor = RGBColor(0xFF, 0xFF, 0xFF);
/// The id of the hatching where a picture stands alone.
const ALONE: &str = "fairdozen-hatch";

impl Picture {
    /// Writes the picture as SVG, with a white ground of its own and of its own size.
    #[must_use]
    pub fn svg(&self) -> String {
        let (width, height) = (units(self.page.width), units(self.height));
        let opening = format!(
            "<svg xmlns=\"http://www.w3.org/2000/svg\" width=\"{}\" height=\"{}\" viewBox=\"0 0 {width} {height}\" role=\"img\" \
             aria-label=\"{}\">\n",
            width / 4,
            height / 4,
            escape(&self.label)
        );
        self.written(&opening, ALONE)
    }

    /// Writes the picture for an HTML page: as wide as what it stands in, its height following from the `viewBox`; its label
    /// in a `title` that the `svg` element names; of class `chart`; and every id within begins with `id`, so that
    /// pictures on one page keep apart. `id` is cut down to ASCII letters, digits and `-`, and must differ from picture
    /// to picture.
    ///
    /// The picture brings its own white ground, in a dark page too. Its letters ask for [`FAMILY`](super::font::FAMILY);
    /// a page that carries the [`FACES`](super::font::FACES) shows them as the PNG does.
    #[must_use]
    pub(crate) fn svg_in_page(&self, id: &str) -> String {
        let id: String = id.chars().filter(|letter| letter.is_ascii_alphanumeric() || *letter == '-').collect();
        let opening = format!(
            "<svg xmlns=\"http://www.w3.org/2000/svg\" class=\"chart\" width=\"100%\" viewBox=\"0 0 {} {}\" role=\"img\" \
             aria-labelledby=\"{id}-title\">\n<title id=\"{id}-title\">{}</title>\n",
            units(self.page.width),
            units(self.height),
            escape(&self.label)
        );
        self.written(&opening, &format!("{id}-hatch"))
    }

    fn written(&self, opening: &str, hatch: &str) -> String {
        let (width, height) = (units(self.page.width), units(self.height));
        // White diagonals, 1.25 pixels wide and 5.5 apart.
        let mut svg = format!(
            "{opening}<defs><pattern id=\"{hatch}\" width=\"22\" height=\"22\" patternUnits=\"userSpaceOnUse\" \
             patternTransform=\"rotate(45)\"><rect width=\"6\" height=\"22\" fill=\"#FFFFFF\"/></pattern></defs>\n\
             <rect width=\"{width}\" height=\"{height}\" fill=\"#FFFFFF\"/>\n"
        );
        let mut marks: Vec<&Mark> = self.marks.iter().collect();
        marks.sort_by_key(|mark| mark.layer);
        let size = (width.unsigned_abs(), height.unsigned_abs());
        for group in marks.chunk_by(|a, b| a.layer == b.layer && a.rim() == b.rim()) {
            if let Some(first) = group.first() {
                svg.push_str(&group_opening(first.layer, first.rim()));
                svg.push_str(&group_written(group, hatch, size));
                svg.push_str("</g>\n");
            }
        }
        svg.push_str("</svg>\n");
        svg
    }
}

impl Mark {
    fn rim(&self) -> Option<RGBColor> {
        match &self.shape {
            Shape::Words(_, words) => Some(words.rim),
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
fn group_written(group: &[&Mark], hatch: &str, size: (u32, u32)) -> String {
    let mut page = String::new();
    let mut backend = SVGBackend::with_string(&mut page, size);
    for mark in group {
        draw(&mut backend, &mark.shape);
    }
    drop(backend);
    let inside = page.split_once(">\n").map_or("", |(_, after)| after);
    let inside = inside.rsplit_once("</svg>").map_or(inside, |(before, _)| before);
    // Quotes within texts are escaped, so these can match attributes only.
    let inside = inside.replace(" opacity=\"1\"", "");
    let is_hatching = group.first().is_some_and(|mark| mark.layer == Layer::Hatch);
    if is_hatching { inside.replace("fill=\"#FFFFFF\"", &format!("fill=\"url(#{hatch})\"")) } else { inside }
}

fn draw(backend: &mut SVGBackend<'_>, shape: &Shape) {
    let rect = |[left, top, right, bottom]: [f64; 4]| ((edge(left), edge(top)), (edge(right), edge(bottom)));
    let written = match shape {
        Shape::Rect(place, colour) => {
            let (from, to) = rect(*place);
            backend.draw_rect(from, to, colour, true)
        }
        Shape::Hatching(place) => {
            let (from, to) = rect(*place);
            backend.draw_rect(from, to, &HATCH_FILL, true)
        }
        Shape::Line(ends, width, colour) => {
            let style = ShapeStyle::from(colour).stroke_width(units(*width).unsigned_abs());
            backend.draw_line(place(ends[0]), place(ends[1]), &style)
        }
        Shape::Polygon(corners, colour) => backend.fill_polygon(corners.iter().copied().map(place), colour),
        Shape::Circle(middle, radius, colour) => backend.draw_circle(place(*middle), units(*radius).unsigned_abs(), colour, true),
        Shape::Words((x, y), words) => {
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
