//! The colours of every chart.
//!
//! Colours are the palette of Masataka Okabe and Kei Ito, "Color Universal Design" (2008), made to stay apart
//! for readers with any common kind of colour blindness. The greys are our own.

use plotters::style::RGBColor;

pub(crate) const WHITE: RGBColor = RGBColor(0xFF, 0xFF, 0xFF);
/// Titles, names, figures, the target line.
pub(crate) const INK: RGBColor = RGBColor(0x1F, 0x1F, 0x1F);
/// Notes, tick labels, axis titles.
pub(crate) const SOFT_INK: RGBColor = RGBColor(0x5C, 0x5C, 0x5C);
/// The line at zero.
pub(crate) const BASELINE: RGBColor = RGBColor(0x4A, 0x4A, 0x4A);
/// Lines at the ticks.
pub(crate) const GRID: RGBColor = RGBColor(0xDD, 0xDD, 0xDD);
/// Lines between rows.
pub(crate) const RULE: RGBColor = RGBColor(0xEC, 0xEC, 0xEC);

const BLACK: RGBColor = RGBColor(0x00, 0x00, 0x00);
const ORANGE: RGBColor = RGBColor(0xE6, 0x9F, 0x00);
const SKY_BLUE: RGBColor = RGBColor(0x56, 0xB4, 0xE9);
const BLUISH_GREEN: RGBColor = RGBColor(0x00, 0x9E, 0x73);
const YELLOW: RGBColor = RGBColor(0xF0, 0xE4, 0x42);
const BLUE: RGBColor = RGBColor(0x00, 0x72, 0xB2);
const VERMILLION: RGBColor = RGBColor(0xD5, 0x5E, 0x00);
const REDDISH_PURPLE: RGBColor = RGBColor(0xCC, 0x79, 0xA7);

/// A bar that reaches the target.
pub(crate) const OVER: RGBColor = BLUE;
/// A bar that does not; always hatched as well.
pub(crate) const SHORT: RGBColor = ORANGE;
/// An amount learned from the logs.
pub const LEARNED: RGBColor = BLUE;
/// The maker's own guess; always a hollow diamond.
pub(crate) const GUESS: RGBColor = VERMILLION;
/// An order far from what was expected; always a filled diamond.
pub(crate) const FAR_OFF: RGBColor = VERMILLION;
/// The area of the usual noise: the blue, nearly white.
pub(crate) const BAND: RGBColor = RGBColor(0xE4, 0xF0, 0xF7);
/// A bar that nobody judged.
pub const UNKNOWN: RGBColor = RGBColor(0x9A, 0x9A, 0x9A);
/// A mark short of the target; always hollow and a diamond.
pub(crate) const SHORT_MARK: RGBColor = VERMILLION;
/// Lines among many others: a wage that is not the target, the range of one design.
pub(crate) const FAINT: RGBColor = RGBColor(0x8A, 0x8A, 0x8A);
/// What several orders come to together; always a bold line.
pub(crate) const MEAN: RGBColor = VERMILLION;
/// Hours of work where a bar beside them is a wage.
pub const HOURS: RGBColor = BLUISH_GREEN;
/// The word "above" as text on white: the bar's blue, darker.
pub(crate) const OVER_INK: RGBColor = RGBColor(0x00, 0x5A, 0x8E);
/// The word "below" as text on white: vermillion, darker.
pub(crate) const SHORT_INK: RGBColor = RGBColor(0xA8, 0x4A, 0x00);

/// Fills for the parts of a stack, in order, each with the ink that can be read on it. Lighter and darker ones
/// alternate, so that neighbours differ in print without colour too.
const PARTS: [(RGBColor, RGBColor); 8] = [
    (SKY_BLUE, INK),
    (VERMILLION, BLACK),
    (YELLOW, INK),
    (BLUISH_GREEN, BLACK),
    (ORANGE, INK),
    (BLUE, WHITE),
    (REDDISH_PURPLE, INK),
    (BLACK, WHITE),
];

/// Returns the fill of part `index` of a stack, and the ink for a label on it. Past the eighth the palette begins again.
pub fn part(index: usize) -> (RGBColor, RGBColor) {
    PARTS[index % PARTS.len()]
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Relative luminance and contrast ratio as the W3C's Web Content Accessibility Guidelines 2.1 define them.
    fn contrast(a: RGBColor, b: RGBColor) -> f64 {
        let luminance = |colour: RGBColor| {
            let linear = |channel: u8| {
                let c = f64::from(channel) / 255.0;
                if c <= 0.03928 { c / 12.92 } else { ((c + 0.055) / 1.055).powf(2.4) }
            };
            0.2126 * linear(colour.0) + 0.7152 * linear(colour.1) + 0.0722 * linear(colour.2)
        };
        let (light, dark) = (luminance(a).max(luminance(b)), luminance(a).min(luminance(b)));
        (light + 0.05) / (dark + 0.05)
    }

    #[test]
    fn every_text_reaches_the_contrast_that_wcag_2_1_asks_of_small_text() {
        for ink in [INK, SOFT_INK, OVER_INK, SHORT_INK] {
            assert!(contrast(ink, WHITE) >= 4.5, "{ink:?} on white: {:.2}", contrast(ink, WHITE));
        }
        for (fill, ink) in PARTS {
            assert!(contrast(fill, ink) >= 4.5, "{ink:?} on {fill:?}: {:.2}", contrast(fill, ink));
        }
    }

    #[test]
    fn every_mark_reaches_the_contrast_that_wcag_2_1_asks_of_graphics() {
        for (mark, ground) in [
            (LEARNED, WHITE),
            (GUESS, WHITE),
            (LEARNED, BAND),
            (FAR_OFF, WHITE),
            (SHORT_MARK, WHITE),
            (FAINT, WHITE),
            (FAR_OFF, BAND),
            (BASELINE, BAND),
        ] {
            assert!(contrast(mark, ground) >= 3.0, "{mark:?} on {ground:?}: {:.2}", contrast(mark, ground));
        }
        assert!(contrast(INK, BAND) >= 4.5 && contrast(SOFT_INK, BAND) >= 4.5);
    }

    #[test]
    fn neighbours_differ_without_colour() {
        // Ratios of our own choosing: white gaps, the order of the key, hatching and words come on top.
        assert!(contrast(OVER, SHORT) >= 2.0, "{:.2}", contrast(OVER, SHORT));
        for index in 0..PARTS.len() {
            let ratio = contrast(part(index).0, part(index + 1).0);
            assert!(ratio >= 1.5, "parts {index} and the next: {ratio:.2}");
        }
    }
}
