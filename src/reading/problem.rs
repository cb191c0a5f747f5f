//! What is wrong with a shop's data, where, and what to write instead.

use serde::ser::SerializeStruct;
use serde::{Serialize, Serializer};
use std::fmt;

/// How much a problem matters.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Serialize)]
#[serde(rename_all = "lowercase")]
pub enum Severity {
    /// The figures cannot be trusted: the command stops.
    Error,
    /// The figures stand, but a look is worth it.
    Warning,
    /// Something the records do not say was taken to be so.
    Assumed,
}

/// Where in a file: its row as a spreadsheet counts (headings are row 1), and its line as a text editor does.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub struct Place {
    /// Row, blank ones counted, a quoted line break not.
    pub row: u32,
    /// Line of the file on which the row begins.
    pub line: u32,
}

/// One problem, complete enough to be mended without asking again.
#[derive(Debug, Clone, PartialEq, Eq, PartialOrd, Ord)]
pub struct Problem {
    /// How much it matters.
    pub severity: Severity,
    /// The file's name in the shop's folder.
    pub file: String,
    /// The row, where it is one row's.
    pub place: Option<Place>,
    /// The column's name, where it is one cell's.
    pub column: Option<String>,
    /// The text found.
    pub found: Option<String>,
    /// What is wrong, in the maker's words; goes on after the text found.
    pub what: String,
    /// What to write or do instead.
    pub instead: Option<String>,
}

impl Serialize for Problem {
    /// Every field is there; what is not known is null.
    fn serialize<S: Serializer>(&self, serializer: S) -> Result<S::Ok, S::Error> {
        let mut fields = serializer.serialize_struct("Problem", 8)?;
        fields.serialize_field("severity", &self.severity)?;
        fields.serialize_field("file", &self.file)?;
        fields.serialize_field("row", &self.place.map(|place| place.row))?;
        fields.serialize_field("line", &self.place.map(|place| place.line))?;
        fields.serialize_field("column", &self.column)?;
        fields.serialize_field("found", &self.found)?;
        fields.serialize_field("what", &self.what)?;
        fields.serialize_field("instead", &self.instead)?;
        fields.end()
    }
}

impl Problem {
    /// A problem of a whole file.
    #[must_use]
    pub fn of_file(severity: Severity, file: &str, what: impl Into<String>) -> Self {
        Self { severity, file: file.to_owned(), place: None, column: None, found: None, what: what.into(), instead: None }
    }

    /// Whether it is of a table, and not of the settings or the folder.
    #[must_use]
    pub fn is_of_table(&self) -> bool {
        std::path::Path::new(&self.file).extension().is_some_and(|extension| extension == "csv")
    }

    /// At a row.
    #[must_use]
    pub fn at(mut self, place: Place) -> Self {
        self.place = Some(place);
        self
    }

    /// In a column.
    #[must_use]
    pub fn column(mut self, column: &str) -> Self {
        self.column = Some(column.to_owned());
        self
    }

    /// The text found in the cell.
    #[must_use]
    pub fn found(mut self, text: &str) -> Self {
        self.found = Some(text.to_owned());
        self
    }

    /// What to write or do instead.
    #[must_use]
    pub fn instead(mut self, advice: impl Into<String>) -> Self {
        self.instead = Some(advice.into());
        self
    }
}

impl fmt::Display for Problem {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(&printable(&self.file))?;
        let is_table = self.is_of_table();
        match self.place {
            Some(Place { line, .. }) if !is_table => write!(f, ", line {line}")?,
            Some(Place { row, line }) if row != line => write!(f, ", row {row} (line {line})")?,
            Some(Place { row, .. }) => write!(f, ", row {row}")?,
            None => {}
        }
        if let Some(column) = &self.column {
            write!(f, ", {} {column}", if is_table { "column" } else { "key" }, column = printable(column))?;
        }
        f.write_str(": ")?;
        if let Some(found) = &self.found {
            write!(f, "'{}' ", printable(found))?;
        }
        f.write_str(&printable(&self.what))?;
        if let Some(instead) = &self.instead {
            write!(f, "; {}", printable(instead))?;
        }
        Ok(())
    }
}

/// Text from a file made safe to be shown: control characters, and those that turn the direction of what follows, are
/// shown as a replacement character.
#[must_use]
pub fn printable(text: &str) -> String {
    let turns = |c: char| matches!(c, '\u{202A}'..='\u{202E}' | '\u{2066}'..='\u{2069}');
    text.chars().map(|c| if c.is_control() || turns(c) { '\u{FFFD}' } else { c }).collect()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_problem_reads_as_one_sentence() {
        let problem = Problem::of_file(Severity::Error, "hours.csv", "is not a date")
            .at(Place { row: 14, line: 16 })
            .column("date")
            .found("sept 3")
            .instead("write 2026-09-03");
        assert_eq!(problem.to_string(), "hours.csv, row 14 (line 16), column date: 'sept 3' is not a date; write 2026-09-03");
    }

    #[test]
    fn control_characters_never_reach_the_terminal() {
        assert_eq!(printable("a\u{1b}[31mb\n"), "a\u{FFFD}[31mb\u{FFFD}");
        let problem = Problem::of_file(Severity::Error, "\u{1b}.toml", "\u{1b}").column("\u{1b}").found("\u{1b}").instead("\u{1b}");
        assert!(!problem.to_string().contains('\u{1b}'));
    }
}
