//! What is wrong with a shop's data, where, and what to write instead.

use super::problem_kind::{ProblemKind, Severity};
use crate::ids::{Id, Names, Source};
use crate::quantity::millionths::Money;
use serde::ser::SerializeStruct;
use serde::{Serialize, Serializer};
use std::fmt;

/// What stands between the name of a workbook and that of its sheet, where a problem names both.
pub(crate) const SHEET: &str = ", sheet ";
/// The sheet of a workbook that holds its settings.
pub(crate) const SETTINGS_SHEET: &str = "settings";

/// Where in a file: its row as a spreadsheet counts (headings are row 1), and its line as a text editor does.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub struct Place {
    /// The file, or the sheet of a workbook.
    pub source: Id<Source>,
    /// Row, blank ones counted, a quoted line break not.
    pub row: u32,
    /// Line of the file on which the row begins.
    pub line: u32,
}

impl Place {
    /// A row of the first or only source.
    #[must_use]
    pub const fn of_row(row: u32, line: u32) -> Self {
        Self { source: Id::new(0), row, line }
    }
}

/// The text found where a problem is.
#[derive(Debug, Clone, PartialEq, Eq, PartialOrd, Ord)]
pub enum Found {
    /// A cell, a name or a number.
    Text(String),
    /// What stands for an order: its id, or a slip of one. Such ids may name customers.
    Order(String),
}

impl std::ops::Deref for Found {
    type Target = str;

    fn deref(&self) -> &str {
        match self {
            Self::Text(text) | Self::Order(text) => text,
        }
    }
}

/// What to write or do instead.
#[derive(Debug, Clone, PartialEq, Eq, PartialOrd, Ord)]
pub enum Advice {
    /// A known name that was probably meant, of the kind of what was found.
    DidYouMean(String),
    /// What to write or do.
    Do(String),
}

impl fmt::Display for Advice {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::DidYouMean(name) => write!(f, "did you mean {name}?"),
            Self::Do(text) => f.write_str(text),
        }
    }
}

impl<T: Into<String>> From<T> for Advice {
    fn from(text: T) -> Self {
        Self::Do(text.into())
    }
}

/// A problem in the shop's data: where it is, what is wrong and what to write instead.
#[derive(Debug, Clone, PartialEq, Eq, PartialOrd, Ord)]
pub struct Problem {
    /// How much it matters.
    pub severity: Severity,
    /// What it has in common with others like it.
    pub kind: &'static ProblemKind,
    /// The file's name in the shop's folder.
    pub file: String,
    /// The row, if it is of one row, or the first of several.
    pub place: Option<Place>,
    /// The other rows, if it is of several: to mend it by leaving rows out, all are.
    pub other_rows: Vec<Place>,
    /// The column or setting, if it is of one.
    pub column: Option<String>,
    /// The text found.
    pub found: Option<Found>,
    /// What is wrong, in words that follow the text found.
    pub what: String,
    /// What to write or do instead.
    pub instead: Option<Advice>,
    /// How much money is at stake, where that is known.
    pub at_stake: Option<Money>,
    /// A section of `shop.toml` and the line in it that would settle the problem, once she has made sure of it.
    pub line: Option<(&'static str, String)>,
}

impl Serialize for Problem {
    /// Writes every field but the line to paste, which `instead` has; what is not known is null, and money is a decimal string in the shop's currency.
    fn serialize<S: Serializer>(&self, serializer: S) -> Result<S::Ok, S::Error> {
        let mut fields = serializer.serialize_struct("Problem", 10)?;
        fields.serialize_field("severity", &self.severity)?;
        fields.serialize_field("group", self.kind.key)?;
        fields.serialize_field("file", &self.file)?;
        fields.serialize_field("row", &self.place.map(|place| place.row))?;
        fields.serialize_field("line", &self.place.map(|place| place.line))?;
        fields.serialize_field("column", &self.column)?;
        fields.serialize_field("found", &self.found.as_deref())?;
        fields.serialize_field("what", &self.what)?;
        fields.serialize_field("instead", &self.instead.as_ref().map(Advice::to_string))?;
        fields.serialize_field("at_stake", &self.at_stake.map(Money::stored))?;
        fields.end()
    }
}

impl Problem {
    /// A problem of a whole file, until a row or a column is given.
    #[must_use]
    pub fn of_file(kind: &'static ProblemKind, file: &str, what: impl Into<String>) -> Self {
        let (severity, file, what) = (kind.severity, file.to_owned(), what.into());
        Self {
            severity,
            kind,
            file,
            place: None,
            other_rows: Vec::new(),
            column: None,
            found: None,
            what,
            instead: None,
            at_stake: None,
            line: None,
        }
    }

    /// Whether it is in a table rather than in the settings.
    #[must_use]
    pub(crate) fn is_of_table(&self) -> bool {
        !self.is_of_settings_file() && !self.is_of_settings_sheet()
    }

    fn is_of_settings_file(&self) -> bool {
        std::path::Path::new(&self.file).extension().is_some_and(|extension| extension == "toml")
    }

    fn is_of_settings_sheet(&self) -> bool {
        self.file.rsplit_once(SHEET).is_some_and(|(_, sheet)| sheet.trim().eq_ignore_ascii_case(SETTINGS_SHEET))
    }

    /// Whether leaving a row out would mend it.
    #[must_use]
    pub(crate) fn is_of_row(&self) -> bool {
        self.is_of_table() && self.place.is_some_and(|place| place.row > 1)
    }

    /// Sets the row.
    #[must_use]
    pub fn at(mut self, place: Place) -> Self {
        self.place = Some(place);
        self
    }

    /// Sets several rows, in rising order; none leaves it a problem of the file.
    #[must_use]
    pub(crate) fn at_rows(mut self, rows: Vec<Place>) -> Self {
        let mut rows = rows.into_iter();
        self.place = rows.next();
        self.other_rows = rows.collect();
        self
    }

    /// Names the file of the problem's place, in words; a problem without a place keeps the file it has.
    pub(crate) fn name_source(&mut self, sources: &Names<Source>) {
        if let Some(place) = self.place.filter(|place| self.is_of_table() && place.source.index() < sources.len()) {
            sources.text(place.source).clone_into(&mut self.file);
        }
    }

    /// Sets the column or setting.
    #[must_use]
    pub fn column(mut self, column: &str) -> Self {
        self.column = Some(column.to_owned());
        self
    }

    /// Sets the text found.
    #[must_use]
    pub fn found(mut self, text: &str) -> Self {
        self.found = Some(Found::Text(text.to_owned()));
        self
    }

    /// Sets the text found, which names an order or was meant to.
    #[must_use]
    pub(crate) fn found_order(mut self, text: &str) -> Self {
        self.found = Some(Found::Order(text.to_owned()));
        self
    }

    /// What to write or do instead.
    #[must_use]
    pub fn instead(mut self, advice: impl Into<Advice>) -> Self {
        self.instead = Some(advice.into());
        self
    }

    /// Sets the known name that was probably meant.
    #[must_use]
    pub(crate) fn did_you_mean(self, name: &str) -> Self {
        self.instead(Advice::DidYouMean(name.to_owned()))
    }

    /// Sets the line of `shop.toml`, under its section, that would settle the problem.
    #[must_use]
    pub fn to_paste(mut self, section: &'static str, line: String) -> Self {
        self.line = Some((section, line));
        self
    }

    /// Replaces the id of an order, where one was found, by `shown` of it, and drops advice that names another order.
    pub(crate) fn hide_order(&mut self, shown: impl FnOnce(&str) -> String) {
        if let Some(Found::Order(id)) = &mut self.found {
            *id = shown(id);
            self.instead = self.instead.take().filter(|advice| !matches!(advice, Advice::DidYouMean(_)));
        }
    }

    /// Sets how much money is at stake.
    #[must_use]
    pub fn at_stake(mut self, money: Money) -> Self {
        self.at_stake = Some(money);
        self
    }

    /// File, row and column, as in "hours.csv, row 14, column date".
    #[must_use]
    pub fn position(&self) -> String {
        let is_file = self.is_of_settings_file();
        let row = match self.place {
            Some(Place { line, .. }) if is_file => format!(", line {line}"),
            Some(Place { row, line, .. }) if row != line => format!(", row {row} (line {line})"),
            Some(Place { row, .. }) => format!(", row {row}"),
            None => String::new(),
        };
        let name = match self.place {
            None if self.is_of_settings_sheet() => "setting",
            _ if is_file => "key",
            _ => "column",
        };
        let column = self.column.as_deref().map_or_else(String::new, |column| format!(", {name} {}", printable(column)));
        format!("{}{row}{column}", printable(&self.file))
    }

    /// The whole problem as one sentence; `money` is what is at stake, in the shop's currency.
    #[must_use]
    pub fn sentence(&self, money: Option<&str>) -> String {
        let found = self.found.as_deref().map_or_else(String::new, |found| format!("'{}' ", printable(found)));
        let money = money.map_or_else(String::new, |money| format!(" ({money})"));
        let instead = self.instead.as_ref().map_or_else(String::new, |instead| format!("; {}", printable(&instead.to_string())));
        // What is said of a whole file is a sentence with it.
        let is_of_file = self.place.is_none() && self.column.is_none() && self.found.is_none() && self.what.starts_with("is ");
        let colon = if is_of_file { "" } else { ":" };
        format!("{}{colon} {found}{}{money}{instead}", self.position(), printable(&self.what))
    }
}

impl fmt::Display for Problem {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(&self.sentence(None))
    }
}

/// Makes text from a file safe to print: control characters, and those that change the direction of writing, become the replacement
/// character.
#[must_use]
pub(crate) fn printable(text: &str) -> String {
    let turns = |c: char| matches!(c, '\u{202A}'..='\u{202E}' | '\u{2066}'..='\u{2069}');
    text.chars().map(|c| if c.is_control() || turns(c) { '\u{FFFD}' } else { c }).collect()
}

#[cfg(test)]
mod tests {
    use super::super::problem_kind::NOT_A_DATE;
    use super::*;

    #[test]
    fn a_problem_reads_as_one_sentence() {
        let problem = Problem::of_file(&NOT_A_DATE, "hours.csv", "is not a date")
            .at(Place::of_row(14, 16))
            .column("date")
            .found("sept 3")
            .instead("write 2026-09-03");
        assert_eq!(problem.to_string(), "hours.csv, row 14 (line 16), column date: 'sept 3' is not a date; write 2026-09-03");
        let sentence = problem.at_stake(Money(1_340_000)).sentence(Some("$1.34"));
        assert!(sentence.ends_with("'sept 3' is not a date ($1.34); write 2026-09-03"), "{sentence}");
    }

    #[test]
    fn control_characters_never_reach_the_terminal() {
        assert_eq!(printable("a\u{1b}[31mb\n"), "a\u{FFFD}[31mb\u{FFFD}");
        let problem = Problem::of_file(&NOT_A_DATE, "\u{1b}.toml", "\u{1b}").column("\u{1b}").found("\u{1b}").instead("\u{1b}");
        assert!(!problem.to_string().contains('\u{1b}'));
    }
}
