//! A chart's SVG with fewer bytes and the same look: the page holds two pictures of each chart, and half of their bytes say the same.

use crate::chart::font::FAMILY;
use std::fmt::Write;

/// What an SVG holds without being told, or inherits from the page.
const GIVEN: [&str; 3] = [" stroke=\"none\" stroke-width=\"1\"", " stroke=\"none\"", " text-anchor=\"start\""];

/// Leaves out attributes that say what holds without them, and joins neighbouring lines of one style into a path.
#[must_use]
pub(crate) fn compact(svg: &str) -> String {
    // Quotes within texts are escaped, so these are attributes only.
    let font = format!(" font-family=\"{FAMILY}, sans-serif\"");
    let svg = GIVEN.iter().fold(svg.replace(&font, ""), |svg, given| svg.replace(given, ""));
    let mut text = String::with_capacity(svg.len());
    let mut style = None;
    for element in svg.split_inclusive('\n') {
        let line = Line::read(element.trim_end());
        if style.is_some() && style != line.as_ref().map(|line| line.style) {
            text.push_str("\"/>\n");
        }
        match &line {
            Some(line) => {
                if style != Some(line.style) {
                    let _ = write!(text, "<path fill=\"none\" {} d=\"", line.style);
                }
                text.push_str(&line.drawn());
            }
            None => text.push_str(element),
        }
        style = line.map(|line| line.style);
    }
    if style.is_some() {
        text.push_str("\"/>\n");
    }
    text
}

/// An element `<line STYLE x1= y1= x2= y2=/>`.
struct Line<'a> {
    style: &'a str,
    from: (&'a str, &'a str),
    to: (&'a str, &'a str),
}

impl<'a> Line<'a> {
    fn read(element: &'a str) -> Option<Self> {
        let (style, place) = element.strip_prefix("<line ")?.strip_suffix("\"/>")?.split_once(" x1=\"")?;
        let (x1, place) = place.split_once("\" y1=\"")?;
        let (y1, place) = place.split_once("\" x2=\"")?;
        let (x2, y2) = place.split_once("\" y2=\"")?;
        let is_number = |text: &str| text.parse::<f64>().is_ok();
        [x1, y1, x2, y2].into_iter().all(is_number).then_some(Self { style, from: (x1, y1), to: (x2, y2) })
    }

    fn drawn(&self) -> String {
        let Self { from: (x1, y1), to: (x2, y2), .. } = self;
        match (x1 == x2, y1 == y2) {
            (_, true) => format!("M{x1} {y1}H{x2}"),
            (true, false) => format!("M{x1} {y1}V{y2}"),
            (false, false) => format!("M{x1} {y1}L{x2} {y2}"),
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn neighbouring_lines_of_one_style_become_a_path_and_the_rest_stays() {
        let svg = "<svg>\n<g>\n<line stroke=\"#DDD\" stroke-width=\"4\" x1=\"1\" y1=\"2\" x2=\"1\" y2=\"9\"/>\n\
                   <line stroke=\"#DDD\" stroke-width=\"4\" x1=\"3\" y1=\"2\" x2=\"8\" y2=\"2\"/>\n\
                   <line stroke=\"#000\" stroke-width=\"4\" x1=\"3\" y1=\"2.5\" x2=\"8\" y2=\"-7\"/>\n</g>\n\
                   <rect x=\"1\" y=\"2\" fill=\"#9A9A9A\" stroke=\"none\" stroke-width=\"1\"/>\n<line x=\"odd\"/>\n</svg>\n";
        let expected = "<svg>\n<g>\n<path fill=\"none\" stroke=\"#DDD\" stroke-width=\"4\" d=\"M1 2V9M3 2H8\"/>\n\
                        <path fill=\"none\" stroke=\"#000\" stroke-width=\"4\" d=\"M3 2.5L8 -7\"/>\n</g>\n\
                        <rect x=\"1\" y=\"2\" fill=\"#9A9A9A\"/>\n<line x=\"odd\"/>\n</svg>\n";
        assert_eq!(compact(svg), expected);
    }

    #[test]
    fn names_that_look_like_attributes_stay_as_they_were_typed() {
        let text = "<text x=\"1\" font-family=\"Noto Sans, sans-serif\" text-anchor=\"start\">\n a stroke=&quot;none&quot; bell\n</text>\n";
        assert_eq!(compact(text), "<text x=\"1\">\n a stroke=&quot;none&quot; bell\n</text>\n");
    }
}
