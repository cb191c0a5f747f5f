//! Tables on a terminal: numbers to the right, words to the left, at most 100 columns wide.

use comfy_table::{CellAlignment, ContentArrangement, LineStyle, TableStyle};
use std::borrow::Cow;

/// Columns a table may take.
const WIDTH: usize = 100;
/// Letters of a name that are always kept.
const LEAST_NAME: usize = 12;

/// A table ready to be shown: on a terminal, or on a page.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Table {
    /// Headings; a line break where one may be broken.
    pub headings: Vec<&'static str>,
    /// Cells, as many as there are headings.
    pub rows: Vec<Vec<String>>,
    /// How many of the last rows are totals.
    pub totals: usize,
}

impl Table {
    /// On a terminal.
    #[must_use]
    pub fn text(&self) -> String {
        aligned(&self.headings, &self.rows, self.totals)
    }

    /// Whether a column holds words rather than figures: the first, and those that have words without a digit in them.
    #[must_use]
    pub fn holds_words(&self, column: usize) -> bool {
        holds_words(&self.rows, column)
    }
}

fn holds_words(rows: &[Vec<String>], column: usize) -> bool {
    let mut cells = rows.iter().filter_map(|row| row.get(column));
    column == 0 || cells.any(|cell| cell.chars().any(char::is_alphabetic) && !cell.chars().any(char::is_numeric))
}

/// A table: first column words, the others figures, but those with words without a digit in them; a rule above the last
/// `totals` rows. Names too long for the width are cut, with an ellipsis.
#[must_use]
pub fn aligned(headings: &[&str], rows: &[Vec<String>], totals: usize) -> String {
    let longest = rows.iter().filter_map(|row| row.first()).map(|name| name.chars().count()).max().unwrap_or(0);
    let mut text = drawn(headings, rows, totals, longest);
    let over = text.lines().map(|line| line.chars().count()).max().unwrap_or(0).saturating_sub(WIDTH);
    if over > 0 {
        text = drawn(headings, rows, totals, longest.saturating_sub(over).max(LEAST_NAME));
    }
    text
}

/// Prose broken into lines of at most 100 columns, the later ones indented.
#[must_use]
pub fn wrapped(text: &str, indent: usize) -> String {
    broken(text, 0, indent)
}

/// An item of a list, broken as prose is: its first line two columns in, the later ones four.
#[must_use]
pub fn item(text: &str) -> String {
    broken(text, 2, 4)
}

fn broken(text: &str, first: usize, indent: usize) -> String {
    let mut lines = vec![" ".repeat(first)];
    for word in text.split_whitespace() {
        let line = lines.last_mut().map_or("", |line| line.as_str());
        let start = line.trim().is_empty();
        if !start && line.chars().count() + 1 + word.chars().count() > WIDTH {
            lines.push(" ".repeat(indent));
        } else if !start && let Some(line) = lines.last_mut() {
            line.push(' ');
        }
        if let Some(line) = lines.last_mut() {
            line.push_str(word);
        }
    }
    lines.join("\n")
}

fn drawn(headings: &[&str], rows: &[Vec<String>], totals: usize, name: usize) -> String {
    let mut table = comfy_table::Table::new();
    table.load_style(TableStyle::new().header_separator(LineStyle::none().fill('─').junction('─')));
    table.set_content_arrangement(ContentArrangement::Disabled);
    table.set_header(headings.iter().copied());
    for row in rows {
        table.add_row(row.iter().enumerate().map(|(at, cell)| if at == 0 { cut(cell, name) } else { Cow::from(cell) }));
    }
    for (at, column) in table.column_iter_mut().enumerate() {
        column.set_padding((0, 1));
        column.set_cell_alignment(if holds_words(rows, at) { CellAlignment::Left } else { CellAlignment::Right });
    }
    let text = table.to_string();
    let mut lines: Vec<&str> = text.lines().map(str::trim_end).collect();
    let rule = lines.iter().find(|line| line.contains('─')).copied().unwrap_or_default();
    if totals > 0 && totals < rows.len() {
        lines.insert(lines.len() - totals, rule);
    }
    lines.join("\n") + "\n"
}

fn cut(text: &str, most: usize) -> Cow<'_, str> {
    if text.chars().count() <= most {
        return Cow::from(text);
    }
    Cow::from(text.chars().take(most.saturating_sub(1)).chain(['…']).collect::<String>())
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn figures_stand_to_the_right_and_totals_below_a_rule() {
        let rows = [["moth", "9.50", "pays"], ["total", "19.00", ""]].map(|row| row.map(String::from).to_vec());
        let expected = "design   paid  verdict\n───────────────────────\nmoth     9.50  pays\n───────────────────────\ntotal   19.00\n";
        assert_eq!(aligned(&["design", "paid", "verdict"], &rows, 1), expected);
    }

    #[test]
    fn long_names_are_cut_to_the_width() {
        let rows = [vec!["x".repeat(300), "1".into()]];
        let text = aligned(&["design", "pieces"], &rows, 0);
        assert!(text.lines().all(|line| line.chars().count() <= WIDTH), "{text}");
        assert!(text.contains('…'));
    }

    #[test]
    fn prose_is_wrapped_between_words() {
        let text = wrapped(&"word ".repeat(40), 2);
        assert!(text.lines().all(|line| line.chars().count() <= WIDTH));
        assert_eq!((text.lines().count(), text.split_whitespace().count()), (3, 40));
        let text = item(&"word ".repeat(40));
        assert!(text.lines().all(|line| line.chars().count() <= WIDTH) && text.starts_with("  word"));
        assert!(text.lines().skip(1).all(|line| line.starts_with("    word")), "{text}");
    }
}
