//! What the number formats of an `.xlsx` sheet's cells show: percentages, and how many decimals (ECMA-376 part 1, 18.8.31).

use super::package::Fault;
use calamine::{Style, Xlsx};
use std::io::Cursor;
use std::sync::Arc;

/// An open workbook.
pub(super) type Book = Xlsx<Cursor<Arc<[u8]>>>;

/// What a number format shows of a number.
#[derive(Debug, Clone, Copy, Default, PartialEq, Eq)]
pub(super) struct Shown {
    pub is_percentage: bool,
    /// How many decimals; `None` where they are as many as the number has, or where it is shown as something else.
    pub decimals: Option<usize>,
}

/// The formats of a sheet's cells, those that say anything.
pub(super) struct Formats {
    styles: Vec<Shown>,
    /// Row, column and style, sorted.
    cells: Vec<(u32, u32, u32)>,
}

impl Formats {
    pub fn read(book: &mut Book, sheet: &str) -> Result<Self, Fault> {
        let broken = |_| Fault::Broken;
        let mut reader = book.worksheet_cells_reader(sheet).map_err(broken)?;
        let styles: Vec<Shown> = reader.styles().iter().map(of_style).collect();
        let mut cells = Vec::new();
        if styles.iter().any(|shown| *shown != Shown::default()) {
            while let Some((row, column, style)) = reader.next_style_id().map_err(broken)? {
                if styles.get(style).is_some_and(|shown| *shown != Shown::default()) {
                    cells.push((row, column, u32::try_from(style).map_err(|_| Fault::Broken)?));
                }
            }
        }
        cells.sort_unstable();
        Ok(Self { styles, cells })
    }

    /// What the format of a cell shows.
    pub fn of(&self, (row, column): (u32, u32)) -> Shown {
        let at = self.cells.partition_point(|(of_row, of_column, _)| (*of_row, *of_column) < (row, column));
        let style = self.cells.get(at).filter(|(of_row, of_column, _)| (*of_row, *of_column) == (row, column));
        style.and_then(|(_, _, style)| self.styles.get(*style as usize)).copied().unwrap_or_default()
    }
}

fn of_style(style: &Style) -> Shown {
    style.number_format.as_ref().map(|format| of_format(&format.format_code)).unwrap_or_default()
}

/// What a format says of positive numbers, by its signs that are not quoted, escaped or a colour's.
fn of_format(format: &str) -> Shown {
    let (mut quoted, mut bracketed, mut signs) = (false, false, format.chars());
    let mut bare = String::new();
    while let Some(sign) = signs.next() {
        match sign {
            '"' => quoted = !quoted,
            '\\' | '_' | '*' if !quoted => drop(signs.next()),
            '[' if !quoted => bracketed = true,
            ']' if !quoted => bracketed = false,
            _ if !quoted && !bracketed => bare.push(sign),
            _ => {}
        }
    }
    let first = bare.split(';').next().unwrap_or_default();
    Shown { is_percentage: bare.contains('%'), decimals: decimals(first) }
}

/// How many decimals a section of a format shows; `None` of dates, texts, fractions, powers of ten and thousands.
fn decimals(section: &str) -> Option<usize> {
    let is_digit = |sign: char| matches!(sign, '0' | '#' | '?');
    let last = section.rfind(is_digit)?;
    let is_other = section.contains(|sign: char| sign.is_ascii_alphabetic() || matches!(sign, '/' | '@'));
    if is_other || section[last + 1..].starts_with(',') {
        return None;
    }
    Some(section.split_once('.').map_or(0, |(_, after)| after.chars().take_while(|sign| is_digit(*sign)).count()))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn formats_show_percentages_and_decimals() {
        let of = |format: &str| {
            let Shown { is_percentage, decimals } = of_format(format);
            (is_percentage, decimals)
        };
        for (format, expected) in [
            ("General", (false, None)),
            ("0", (false, Some(0))),
            ("#,##0.00", (false, Some(2))),
            ("\"$\"#,##0.00_);[Red]\\(\"$\"#,##0.00\\)", (false, Some(2))),
            ("_($* #,##0.0_)", (false, Some(1))),
            ("0.0%", (true, Some(1))),
            ("0\"%\"", (false, Some(0))),
            ("0,", (false, None)),
            ("0.00E+00", (false, None)),
            ("# ?/?", (false, None)),
            ("yyyy-mm-dd", (false, None)),
            ("@", (false, None)),
        ] {
            assert_eq!(of(format), expected, "{format}");
        }
    }
}
