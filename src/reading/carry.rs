//! Cells that a sheet leaves blank because they are as in the row above.

/// Fills the blanks of a column that is written once for several rows in a row; `None` where the column is not written so.
///
/// A column is written so if it has blanks, its first cell is filled, and no text stands in two rows in a row: where texts are
/// repeated, a blank is a cell that was forgotten.
#[must_use]
pub fn carried<'t>(texts: &[&'t str]) -> Option<Vec<&'t str>> {
    let is_repeated = texts.windows(2).any(|pair| !pair[0].is_empty() && pair[0] == pair[1]);
    if is_repeated || texts.first().is_none_or(|first| first.is_empty()) || !texts.contains(&"") {
        return None;
    }
    let mut above = "";
    let below = |text: &&'t str| {
        above = if text.is_empty() { above } else { text };
        above
    };
    Some(texts.iter().map(below).collect())
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn blanks_are_as_above_only_where_nothing_is_repeated() {
        assert_eq!(carried(&["1", "", "", "2", "3", ""]).unwrap(), ["1", "1", "1", "2", "3", "3"]);
        for texts in [&["1", "1", ""][..], &["", "1", ""], &["1", "2"], &[]] {
            assert_eq!(carried(texts), None, "{texts:?}");
        }
    }
}
