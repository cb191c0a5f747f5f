//! What stands between the columns of a text file: a comma, a semicolon or a tab, found by trying each on the first rows.

use super::known::{HEADINGS_WITHIN, Known};
use std::cmp::Reverse;
use std::fmt;

/// Rows that are looked at.
const ROWS: usize = 50;

/// What stands between columns.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Separator {
    /// `,`
    Comma,
    /// `;`
    Semicolon,
    /// A tab.
    Tab,
}

impl Separator {
    const ALL: [Self; 3] = [Self::Comma, Self::Semicolon, Self::Tab];

    /// The separator of a sign.
    #[must_use]
    pub fn of(sign: char) -> Option<Self> {
        Self::ALL.into_iter().find(|separator| char::from(separator.byte()) == sign)
    }

    /// Its byte.
    #[must_use]
    pub const fn byte(self) -> u8 {
        match self {
            Self::Comma => b',',
            Self::Semicolon => b';',
            Self::Tab => b'\t',
        }
    }
}

impl fmt::Display for Separator {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(match self {
            Self::Comma => "comma",
            Self::Semicolon => "semicolon",
            Self::Tab => "tab",
        })
    }
}

/// The sign named in a first line `sep=;`, which some spreadsheets write and read, and the length of that line with its line break.
#[must_use]
pub(super) fn said(text: &str) -> Option<(char, usize)> {
    let line = text.split(['\r', '\n']).next()?;
    let bare = line.trim_matches('"');
    let (word, sign) = bare.split_at_checked(4)?;
    let mut signs = sign.chars();
    let sign = signs.next().filter(|_| word.eq_ignore_ascii_case("sep=") && signs.next().is_none())?;
    let rest = &text[line.len()..];
    let ending = ["\r\n", "\n", "\r"].into_iter().find(|ending| rest.starts_with(ending)).map_or(0, str::len);
    Some((sign, line.len() + ending))
}

/// Chooses the separator with which the headings match the table best; then the one with which the largest share of rows is of one width,
/// then the widest; a comma where none is better.
#[must_use]
pub(crate) fn choose(text: &str, known: &Known) -> Separator {
    let merit = |separator: &Separator| {
        let records = reader(text, *separator).into_records().take(ROWS).map_while(Result::ok);
        let rows: Vec<Vec<String>> = records.map(|row| row.iter().map(str::to_owned).collect()).collect();
        let headings = rows.iter().take(HEADINGS_WITHIN).map(|row| known.recognised(row)).max().unwrap_or(0);
        (headings, of_one_width(&rows))
    };
    // The first of equals is the least by this key.
    Separator::ALL.into_iter().min_by_key(|separator| Reverse(merit(separator))).unwrap_or(Separator::Comma)
}

/// The most rows that are of the same width, of two columns or more, in a thousand of all; and that width.
fn of_one_width(rows: &[Vec<String>]) -> (usize, usize) {
    let wide = rows.iter().map(Vec::len).filter(|width| *width > 1);
    let share = |width: usize| rows.iter().filter(|row| row.len() == width).count() * 1000 / rows.len();
    wide.map(|width| (share(width), width)).max().unwrap_or_default()
}

/// A reader of the text's records, which may be of different widths.
pub(super) fn reader(text: &str, separator: Separator) -> csv::Reader<&[u8]> {
    csv::ReaderBuilder::new().has_headers(false).flexible(true).delimiter(separator.byte()).from_reader(text.as_bytes())
}

#[cfg(test)]
mod tests {
    use super::super::cells::trial::ORDERS;
    use super::super::specification::TableSpecification;
    use super::*;
    use std::collections::BTreeMap;

    fn chosen(text: &str) -> Separator {
        choose(text, &Known { specification: &ORDERS, columns: &BTreeMap::new() })
    }

    #[test]
    fn the_headings_decide_then_the_widths_of_rows() {
        assert_eq!(chosen("order;date;paid\nA1;2026-09-03;4,50\n"), Separator::Semicolon);
        assert_eq!(chosen("order\tdate, by hand;paid\tpaid\nA1\t2026-09-03\t4,50\n"), Separator::Tab);
        assert_eq!(chosen("\"order;date\",date,paid\n\"1;2;3;4\",,\n"), Separator::Comma);
        assert_eq!(chosen("a;b;c\n1,5;2,5;x\n"), Separator::Semicolon);
        assert_eq!(chosen("My orders, 2026; all of them\n\norder;date\nA1;2026-09-03\n"), Separator::Semicolon);
        assert_eq!((chosen(""), chosen("order\n1\n"), chosen("a,b;c\n")), (Separator::Comma, Separator::Comma, Separator::Comma));
    }

    #[test]
    fn a_shops_own_headings_count() {
        let columns = BTreeMap::from([("Pick-up".to_owned(), "date".to_owned()), ("Nr".to_owned(), "order".to_owned())]);
        let known = Known { specification: &ORDERS as &TableSpecification, columns: &columns };
        assert_eq!(choose("Nr;Pick-up;a,b,c\n1;2,3,4;5\n", &known), Separator::Semicolon);
    }

    #[test]
    fn a_first_line_may_name_it() {
        assert_eq!((said("sep=;\r\na;b"), said("\"sep=\t\"\na"), said("SEP=|")), (Some((';', 7)), Some(('\t', 8)), Some(('|', 5))));
        assert_eq!((said("sep=,,\n"), said("sep\n"), said("separator\n"), said("é=;x")), (None, None, None, None));
    }
}
