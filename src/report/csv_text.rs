//! CSV as programs read it, safe to open in a spreadsheet.

use crate::reading::formula::guarded;
use serde_json::Value;

/// Rows of values under headings. Null is an empty cell; text that a spreadsheet would run as a formula is guarded,
/// numbers are left as they are.
#[must_use]
pub fn csv(headings: &[String], rows: impl IntoIterator<Item = Vec<Cell>>) -> String {
    let mut writer = csv::WriterBuilder::new().from_writer(Vec::new());
    // Writing to memory cannot fail, and every row has as many cells as there are headings.
    let mut write = |cells: Vec<String>| drop(writer.write_record(cells));
    write(headings.iter().map(|heading| guarded(heading).into_owned()).collect());
    for row in rows {
        write(row.into_iter().map(Cell::text).collect());
    }
    String::from_utf8(writer.into_inner().unwrap_or_default()).unwrap_or_default()
}

/// A cell.
#[derive(Debug, Clone)]
pub enum Cell {
    /// Text that came from a file.
    Text(String),
    /// A figure of ours.
    Figure(String),
    /// Not known.
    Unknown,
}

impl Cell {
    fn text(self) -> String {
        match self {
            Self::Text(text) => guarded(&text).into_owned(),
            Self::Figure(figure) => figure,
            Self::Unknown => String::new(),
        }
    }

    /// A JSON value as a cell; `is_text` where it came from a file.
    #[must_use]
    pub fn of(value: &Value, is_text: bool) -> Self {
        match value {
            Value::Null => Self::Unknown,
            Value::String(text) if is_text => Self::Text(text.clone()),
            Value::String(figure) => Self::Figure(figure.clone()),
            other => Self::Figure(other.to_string()),
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn text_is_made_harmless_and_numbers_are_not_touched() {
        let row = vec![Cell::Text("=1+1".into()), Cell::Figure("-3.50".into()), Cell::Unknown, Cell::Text("a, \"b\"".into())];
        assert_eq!(csv(&["key".into(), "pay".into(), "wage".into(), "x".into()], [row]), "key,pay,wage,x\n'=1+1,-3.50,,\"a, \"\"b\"\"\"\n");
    }
}
