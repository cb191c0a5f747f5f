//! Text that a spreadsheet would run as a formula, made harmless in CSV and read back as it was.
//!
//! OWASP, *CSV Injection*: a leading `=`, `+`, `-`, `@`, tab, carriage return or line feed, and their full-width forms; OWASP ASVS
//! 1.2.10 adds NUL. The remedy is an apostrophe in front. Figures are never guarded: −3.50 is a number.

use std::borrow::Cow;

const LEADING: [char; 12] = ['=', '+', '-', '@', '\t', '\r', '\n', '\0', '＝', '＋', '－', '＠'];

/// Whether a spreadsheet might run the text as a formula, leading apostrophes aside.
fn is_dangerous(text: &str) -> bool {
    text.trim_start_matches('\'').starts_with(LEADING)
}

/// Guards text for a CSV cell: what begins with one of those characters, apostrophes in front or not, gets another apostrophe, so
/// that [`unguarded`] gives every text back.
#[must_use]
pub fn guarded(text: &str) -> Cow<'_, str> {
    if is_dangerous(text) { Cow::Owned(format!("'{text}")) } else { Cow::Borrowed(text) }
}

/// The text of a guarded cell: the inverse of [`guarded`].
#[must_use]
pub(crate) fn unguarded(cell: &str) -> &str {
    cell.strip_prefix('\'').filter(|text| is_dangerous(text)).unwrap_or(cell)
}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;

    #[test]
    fn what_a_spreadsheet_would_run_gets_an_apostrophe() {
        for text in ["=1+1", "+1", "-1", "@SUM(A1)", "\tx", "\rx", "\nx", "\0x", "＝1", "＋1", "－1", "＠x"] {
            assert_eq!(guarded(text), format!("'{text}"));
        }
        for text in ["", "moth", "a=b", "'", "'moth'", "3+4"] {
            assert_eq!((guarded(text).as_ref(), unguarded(text)), (text, text));
        }
        assert_eq!((unguarded("'=1"), unguarded("''=1"), guarded("'=1").as_ref()), ("=1", "'=1", "''=1"));
    }

    proptest! {
        #[test]
        fn every_text_comes_back(text in "['=+a＠\\x00-]{0,6}|.*") {
            let cell = guarded(&text);
            prop_assert!(!cell.starts_with(LEADING));
            prop_assert_eq!(unguarded(&cell), &text);
        }
    }
}
