//! The one font of the charts, carried inside the program: Noto Sans, regular and semi-bold, cut down to Latin
//! letters, punctuation and currency signs. Its licence (SIL Open Font License 1.1) lies beside it in `font/`.
//!
//! Also how wide a letter is. Only the two tables needed for that are read, as the `OpenType` specification
//! (1.9, `cmap` format 4 and `hmtx`) lays them out; shaping and drawing are resvg's.

use std::collections::BTreeMap;
use std::sync::OnceLock;

/// The family name both fonts go by, as SVG and CSS ask for it.
pub(crate) const FAMILY: &str = "Noto Sans";
/// The regular weight, 400: a whole `TrueType` file.
pub(crate) const REGULAR: &[u8] = include_bytes!("font/NotoSans-Regular.ttf");
/// The semi-bold weight, 600: a whole `TrueType` file.
pub(crate) const SEMI_BOLD: &[u8] = include_bytes!("font/NotoSans-SemiBold.ttf");

/// Both, each with its weight as CSS counts it: what a page needs for its `@font-face` rules.
pub(crate) const FACES: [(u16, &[u8]); 2] = [(400, REGULAR), (600, SEMI_BOLD)];

/// How heavy a text is.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(in crate::chart) enum Weight {
    Regular,
    SemiBold,
}

/// The advance of `letter` in ems; `None` where the font has no such letter.
pub(in crate::chart) fn advance(letter: char, weight: Weight) -> Option<f64> {
    static FACES: OnceLock<[BTreeMap<u16, f64>; 2]> = OnceLock::new();
    let [regular, semi_bold] = FACES.get_or_init(|| [REGULAR, SEMI_BOLD].map(|file| advances(file).unwrap_or_default()));
    let face = match weight {
        Weight::Regular => regular,
        Weight::SemiBold => semi_bold,
    };
    face.get(&u16::try_from(u32::from(letter)).ok()?).copied()
}

/// The advances of all letters of a font file, by character code; `None` if the file is not laid out as expected.
fn advances(file: &[u8]) -> Option<BTreeMap<u16, f64>> {
    let units_per_em = f64::from(u16_at(table(file, *b"head")?, 18)?);
    let metrics_count = usize::from(u16_at(table(file, *b"hhea")?, 34)?);
    let metrics = table(file, *b"hmtx")?;
    let characters = unicode_subtable(table(file, *b"cmap")?)?;
    let segments = usize::from(u16_at(characters, 6)? / 2);
    let mut advances = BTreeMap::new();
    for segment in 0..segments {
        let (last, first) = (u16_at(characters, 14 + 2 * segment)?, u16_at(characters, 16 + 2 * (segments + segment))?);
        let delta = u16_at(characters, 16 + 2 * (2 * segments + segment))?;
        let range_at = 16 + 2 * (3 * segments + segment);
        let range_offset = usize::from(u16_at(characters, range_at)?);
        // The last segment is the closing 0xFFFF, which is no character.
        for code in (first..=last).filter(|&code| code != u16::MAX) {
            let glyph = if range_offset == 0 {
                code.wrapping_add(delta)
            } else {
                match u16_at(characters, range_at + range_offset + 2 * usize::from(code - first))? {
                    0 => 0,
                    listed => listed.wrapping_add(delta),
                }
            };
            if glyph != 0 {
                // Glyphs past the last metric share it.
                let metric = usize::from(glyph).min(metrics_count.checked_sub(1)?);
                advances.insert(code, f64::from(u16_at(metrics, 4 * metric)?) / units_per_em);
            }
        }
    }
    Some(advances)
}

fn table(file: &[u8], tag: [u8; 4]) -> Option<&[u8]> {
    let count = usize::from(u16_at(file, 4)?);
    let record = (0..count).find_map(|index| {
        let record = file.get(12 + 16 * index..28 + 16 * index)?;
        record.starts_with(&tag).then_some(record)
    })?;
    let start = usize::try_from(u32_at(record, 8)?).ok()?;
    let length = usize::try_from(u32_at(record, 12)?).ok()?;
    file.get(start..start.checked_add(length)?)
}

/// The `cmap` subtable for Unicode's basic plane (platform 3, encoding 1), in format 4.
fn unicode_subtable(cmap: &[u8]) -> Option<&[u8]> {
    let count = usize::from(u16_at(cmap, 2)?);
    let record = (0..count)
        .filter_map(|index| cmap.get(4 + 8 * index..12 + 8 * index))
        .find(|record| u16_at(record, 0) == Some(3) && u16_at(record, 2) == Some(1))?;
    let subtable = cmap.get(usize::try_from(u32_at(record, 4)?).ok()?..)?;
    (u16_at(subtable, 0)? == 4).then_some(subtable)
}

fn u16_at(bytes: &[u8], at: usize) -> Option<u16> {
    Some(u16::from_be_bytes(bytes.get(at..at.checked_add(2)?)?.try_into().ok()?))
}

fn u32_at(bytes: &[u8], at: usize) -> Option<u32> {
    Some(u32::from_be_bytes(bytes.get(at..at.checked_add(4)?)?.try_into().ok()?))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn advances_are_those_fonttools_reads_from_the_same_files() {
        // Noto Sans 2.015, 1000 units to the em; read with fontTools 4 (`hmtx` through `getBestCmap`).
        for (letter, regular, semi_bold) in ADVANCES_BY_FONTTOOLS {
            assert_eq!(advance(letter, Weight::Regular), Some(regular / 1000.0), "{letter:?}");
            assert_eq!(advance(letter, Weight::SemiBold), Some(semi_bold / 1000.0), "{letter:?}");
        }
    }

    #[test]
    fn digits_are_tabular_so_that_figures_line_up() {
        for weight in [Weight::Regular, Weight::SemiBold] {
            let widths: Vec<_> = ('0'..='9').map(|digit| advance(digit, weight)).collect();
            assert!(widths.iter().all(|width| width.is_some() && *width == widths[0]), "{widths:?}");
        }
    }

    #[test]
    fn has_european_letters_and_currency_signs_and_lacks_the_rest() {
        for letter in "éłŐőßğŞžñøåŒ€£¥₹₺₽₴₪¢−–—…’“”�½".chars() {
            assert!(advance(letter, Weight::Regular).is_some(), "{letter:?}");
        }
        for letter in ['花', '🍪', 'ж', '\u{7}'] {
            assert_eq!(advance(letter, Weight::Regular), None, "{letter:?}");
        }
    }

    #[test]
    fn a_damaged_file_gives_no_widths_rather_than_a_panic() {
        for length in 0..2000 {
            assert_eq!(advances(&REGULAR[..length]), None, "cut at {length}");
        }
        assert_eq!(advances(&[0xFF; 400]), None);
    }

    const ADVANCES_BY_FONTTOOLS: [(char, f64, f64); 11] = [
        (' ', 260.0, 260.0),
        ('0', 572.0, 572.0),
        ('i', 258.0, 283.0),
        ('W', 930.0, 953.0),
        ('é', 564.0, 585.0),
        ('€', 572.0, 572.0),
        ('ł', 258.0, 287.0),
        ('−', 572.0, 577.0),
        ('…', 791.0, 831.0),
        ('�', 1000.0, 1000.0),
        ('\u{301}', 0.0, 0.0),
    ];
}
