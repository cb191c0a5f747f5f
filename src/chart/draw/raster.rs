//! From SVG to PNG, with the embedded fonts and no others, and without following any link.

use std::fmt;
use std::io::Cursor;
use std::sync::{Arc, OnceLock};

use resvg::tiny_skia::{Pixmap, Transform};
use resvg::usvg::{ImageHrefResolver, Options, Tree, fontdb};

use super::font;

/// Image pixels to one CSS pixel.
const DENSITY: f32 = 2.0;
/// The longest side of an image, in its pixels; a longer chart is drawn less densely.
const LONGEST_SIDE: f32 = 16_384.0;

/// Why a chart could not be turned into an image.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum ChartError {
    /// The text is not an SVG that can be drawn; holds the reader's reason.
    NotSvg(String),
    /// There is no image of this size, in pixels.
    Size {
        /// Width asked for.
        width: u32,
        /// Height asked for.
        height: u32,
    },
    /// The image could not be written as PNG; holds the encoder's reason.
    Encoding(String),
}

impl fmt::Display for ChartError {
    fn fmt(&self, out: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::NotSvg(reason) => write!(out, "the chart cannot be drawn: {reason}"),
            Self::Size { width, height } => {
                write!(out, "the chart cannot be drawn: an image of {width} × {height} pixels is too large")
            }
            Self::Encoding(reason) => write!(out, "the chart cannot be written as PNG: {reason}"),
        }
    }
}

impl std::error::Error for ChartError {}

/// Draws the PNG of an SVG made by a chart: two image pixels to a CSS pixel (1280 wide), fewer where it would be longer
/// than 16,384.
///
/// # Errors
/// [`ChartError`] if `svg` cannot be read, has no drawable size, or the image cannot be written.
pub fn png(svg: &str) -> Result<Vec<u8>, ChartError> {
    let tree = tree(svg)?;
    let longest = tree.size().width().max(tree.size().height());
    let density = DENSITY.min(LONGEST_SIDE / longest);
    let (width, height) = (pixels(tree.size().width() * density), pixels(tree.size().height() * density));
    let mut image = Pixmap::new(width, height).ok_or(ChartError::Size { width, height })?;
    resvg::render(&tree, Transform::from_scale(density, density), &mut image.as_mut());
    encoded(image).map_err(|reason| ChartError::Encoding(reason.to_string()))
}

/// A keyword of the PNG specification (W3C, third edition, 11.3.3.2), and what it says of our pictures.
const SOFTWARE: (&str, &str) = ("Software", "fairdozen");

/// An image as PNG that says what made it.
fn encoded(image: Pixmap) -> Result<Vec<u8>, png::EncodingError> {
    let mut bytes = Vec::new();
    let mut encoder = png::Encoder::new(&mut bytes, image.width(), image.height());
    encoder.set_color(png::ColorType::Rgba);
    encoder.set_depth(png::BitDepth::Eight);
    encoder.add_text_chunk(SOFTWARE.0.to_owned(), SOFTWARE.1.to_owned())?;
    let mut writer = encoder.write_header()?;
    writer.write_image_data(&image.take_demultiplied())?;
    writer.finish()?;
    Ok(bytes)
}

/// Returns whether bytes are a PNG that [`png()`] made.
#[must_use]
pub fn is_ours(bytes: &[u8]) -> bool {
    let Ok(reader) = png::Decoder::new(Cursor::new(bytes)).read_info() else { return false };
    reader.info().uncompressed_latin1_text.iter().any(|chunk| (chunk.keyword.as_str(), chunk.text.as_str()) == SOFTWARE)
}

/// Reads the SVG with its text laid out.
pub(crate) fn tree(svg: &str) -> Result<Tree, ChartError> {
    let options = Options {
        font_family: font::FAMILY.to_owned(),
        fontdb: fonts(),
        image_href_resolver: ImageHrefResolver { resolve_data: Box::new(|_, _, _| None), resolve_string: Box::new(|_, _| None) },
        ..Options::default()
    };
    Tree::from_str(svg, &options).map_err(|reason| ChartError::NotSvg(reason.to_string()))
}

/// The embedded fonts, also in place of any other family.
fn fonts() -> Arc<fontdb::Database> {
    static FONTS: OnceLock<Arc<fontdb::Database>> = OnceLock::new();
    Arc::clone(FONTS.get_or_init(|| {
        let mut fonts = fontdb::Database::new();
        for file in [font::REGULAR, font::SEMI_BOLD] {
            fonts.load_font_source(fontdb::Source::Binary(Arc::new(file)));
        }
        fonts.set_sans_serif_family(font::FAMILY);
        Arc::new(fonts)
    }))
}

#[expect(clippy::cast_possible_truncation, clippy::cast_sign_loss, reason = "rounded and within the longest side")]
fn pixels(length: f32) -> u32 {
    length.round().clamp(1.0, LONGEST_SIDE) as u32
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::chart::draw::font::Weight;
    use crate::chart::draw::text;

    fn page(width: u32, height: u32, inside: &str) -> String {
        format!("<svg xmlns=\"http://www.w3.org/2000/svg\" width=\"{width}\" height=\"{height}\">{inside}</svg>")
    }

    /// Width and height as the PNG specification (W3C, second edition, 11.2.2) has them in the `IHDR` chunk.
    fn size(png: &[u8]) -> (u32, u32) {
        assert_eq!(&png[..8], b"\x89PNG\r\n\x1a\n");
        assert_eq!(&png[12..16], b"IHDR");
        let at = |place: usize| u32::from_be_bytes(png[place..place + 4].try_into().unwrap());
        (at(16), at(20))
    }

    #[test]
    fn images_have_double_density_and_a_limit() {
        assert_eq!(size(&png(&page(960, 300, "")).unwrap()), (1920, 600));
        assert_eq!(size(&png(&page(96, 32_768, "")).unwrap()), (48, 16_384));
    }

    #[test]
    fn our_pictures_are_known_again() {
        let ours = png(&page(20, 20, "")).unwrap();
        assert!(is_ours(&ours));
        let mut reader = png::Decoder::new(Cursor::new(&ours)).read_info().unwrap();
        let mut pixels = vec![0; reader.output_buffer_size().unwrap()];
        reader.next_frame(&mut pixels).unwrap();
        let mut same_picture = Vec::new();
        let mut encoder = png::Encoder::new(&mut same_picture, 40, 40);
        encoder.set_color(png::ColorType::Rgba);
        encoder.write_header().unwrap().write_image_data(&pixels).unwrap();
        assert!(!is_ours(&same_picture) && !is_ours(b"") && !is_ours(b"fairdozen"));
    }

    #[test]
    fn what_is_no_svg_is_an_error() {
        for text in ["", "<html/>", "<svg", &page(0, 10, "")] {
            assert!(matches!(png(text), Err(ChartError::NotSvg(_))), "{text:?}");
        }
    }

    #[test]
    fn text_is_drawn_with_the_embedded_fonts_whatever_family_is_asked_for() {
        let blank = png(&page(100, 40, "")).unwrap();
        let drawn = |family: &str, weight: &str| {
            let text = format!("<text x=\"5\" y=\"25\" font-family=\"{family}\" font-weight=\"{weight}\">Ał</text>");
            png(&page(100, 40, &text)).unwrap()
        };
        let regular = drawn("Noto Sans, sans-serif", "normal");
        assert_ne!(regular, blank);
        assert_eq!(drawn("sans-serif", "normal"), regular);
        assert_ne!(drawn("Noto Sans, sans-serif", "bold"), regular);
    }

    #[test]
    fn no_picture_within_is_followed() {
        let picture = page(9, 9, "<rect width=\"9\" height=\"9\" fill=\"red\"/>");
        let file = std::env::temp_dir().join(format!("fairdozen-picture-{}.svg", std::process::id()));
        std::fs::write(&file, &picture).unwrap();
        let image = |href: &str| page(20, 20, &format!("<image href=\"{href}\" width=\"9\" height=\"9\"/>"));
        let linked = image(file.to_str().unwrap());
        // The same picture as base64.
        let within = image(&format!("data:image/svg+xml;base64,{RED_SQUARE}"));
        let blank = png(&page(20, 20, "")).unwrap();
        let (linked, within) = (png(&linked).unwrap(), png(&within).unwrap());
        std::fs::remove_file(&file).unwrap();
        assert_eq!(linked, blank);
        assert_eq!(within, blank);
    }

    #[test]
    fn measured_widths_agree_with_what_resvg_lays_out() {
        for (name, weight) in [("Dinosaur, wild AVATAR", "normal"), ("$1,234.50 short", "bold"), ("Łódź café", "normal")] {
            let text = format!("<text id=\"t\" x=\"0\" y=\"50\" font-size=\"40\" font-weight=\"{weight}\">{name}</text>");
            let tree = tree(&page(900, 100, &text)).unwrap();
            let laid_out = f64::from(tree.node_by_id("t").unwrap().bounding_box().width());
            let weight = if weight == "bold" { Weight::SemiBold } else { Weight::Regular };
            let measured = text::width(name, weight, 40.0);
            assert!(laid_out <= measured + 1.0 && laid_out >= 0.93 * measured, "{name}: {laid_out} {measured}");
        }
    }

    const RED_SQUARE: &str = "PHN2ZyB4bWxucz0iaHR0cDovL3d3dy53My5vcmcvMjAwMC9zdmciIHdpZHRoPSI5IiBoZWlnaHQ9IjkiPjxyZWN0IHdpZHRoPSI5\
        IiBoZWlnaHQ9IjkiIGZpbGw9InJlZCIvPjwvc3ZnPg==";
}
