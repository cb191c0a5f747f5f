//! What a shop's own tables and settings are called in problems: files by their names, and in a workbook its sheets.
//!
//! Problems are found and worded as if each table were a file and the settings stood in `shop.toml`. A maker with a workbook has
//! neither, so that their names are replaced by those of her sheets, and lines of `shop.toml` by settings of the settings sheet.

use super::folder::Folder;
use super::settings;
use super::sources::{Contents, is_settings, sheet_name};
use super::specification::TABLES;
use crate::reading::{Advice, Problem, TableSpecification};
use std::fmt::Write;

/// How a shop's files are called.
#[derive(Debug, Clone, Default, PartialEq, Eq)]
pub struct Naming {
    tables: Vec<TableNaming>,
    /// What to call the sheet of the settings, where there is no file of them.
    settings: Option<String>,
}

/// How a table that is no file is called.
#[derive(Debug, Clone, PartialEq, Eq)]
struct TableNaming {
    /// The file it would be.
    file: String,
    /// As the place of a problem: "cookies.xlsx, sheet orders".
    place: String,
    /// In a sentence: "the sheet orders".
    words: String,
}

impl Folder {
    /// How the shop's files are called.
    #[must_use]
    pub fn naming(&self) -> Naming {
        let Some(workbook) = self.workbooks().next() else { return Naming::default() };
        let sources = self.sources();
        let has_files = sources.iter().any(|source| source.workbook().is_none());
        let of_table = |table: &TableSpecification| {
            let own = sources.of_table(table);
            let sheets: Vec<&str> = own
                .iter()
                .filter_map(|source| if let Contents::Sheet { sheet, .. } = source.contents { Some(sheet) } else { None })
                .collect();
            let (place, words) = match (own.as_slice(), sheets.as_slice()) {
                ([], _) if !has_files => (sheet_name(workbook, table.name), format!("the sheet {}", table.name)),
                ([only], [sheet]) => (only.name.to_owned(), format!("the sheet {sheet}")),
                ([first, ..], sheets) if own.len() == sheets.len() => {
                    (first.name.to_owned(), format!("the sheets {}", sheets.join(" and ")))
                }
                _ => return None,
            };
            Some(TableNaming { file: table.file(), place, words })
        };
        let has_file = self.bytes(settings::FILE).is_some();
        let is_sheet = |contents: Contents<'_>| matches!(contents, Contents::Sheet { sheet, .. } if is_settings(sheet));
        let settings = self.found().find(|found| !has_file && is_sheet(found.contents)).map(|found| found.name.to_owned());
        Naming { tables: TABLES.iter().filter_map(of_table).collect(), settings }
    }

    /// Names the file or the sheet of each problem, and what its words speak of, as the shop has them.
    pub(crate) fn name_problems(&self, problems: &mut [Problem]) {
        self.sources().name_problems(problems);
        let naming = self.naming();
        if naming != Naming::default() {
            for problem in problems {
                naming.name(problem);
            }
        }
    }
}

impl Naming {
    fn name(&self, problem: &mut Problem) {
        if let Some(table) = self.tables.iter().find(|table| table.file == problem.file) {
            problem.file.clone_from(&table.place);
        } else if let Some(sheet) = self.settings.as_ref().filter(|_| problem.file == settings::FILE) {
            problem.file.clone_from(sheet);
            problem.place = None;
        }
        problem.what = self.reworded(&problem.what);
        if let Some(Advice::Do(text)) = &mut problem.instead {
            *text = self.reworded(text);
        }
    }

    /// A text with the names that the shop's tables and settings have.
    #[must_use]
    pub(crate) fn reworded(&self, text: &str) -> String {
        let mut text = text.to_owned();
        for table in &self.tables {
            text = replaced(&text, &table.file, &table.words);
        }
        if self.settings.is_some() { on_the_sheet(&text) } else { text }
    }
}

/// Replaces a file's name where it stands by itself.
fn replaced(text: &str, file: &str, words: &str) -> String {
    let mut parts = text.split(file);
    let mut out = parts.next().unwrap_or_default().to_owned();
    for part in parts {
        let is_longer = out.ends_with(|before: char| before.is_alphanumeric() || matches!(before, '-' | '_'));
        out.push_str(if is_longer { file } else { words });
        out.push_str(part);
    }
    out
}

const ON_THE_SHEET: &str = "on the settings sheet";

/// Words of `shop.toml` as words of the settings sheet: `"Pick-up" = "date" under [columns.orders] in shop.toml` is
/// `columns.orders.Pick-up = date on the settings sheet`.
fn on_the_sheet(text: &str) -> String {
    let section = text.find("under [").and_then(|at| text[at + 7..].split_once(']')).map(|(section, _)| section.to_owned());
    let mut text = text.to_owned();
    if let Some(section) = &section {
        let (lines, has_lines) = with_section(&text, section);
        text = lines;
        for written in [format!("under [{section}] in {}", settings::FILE), format!("under [{section}]")] {
            let words = if has_lines { ON_THE_SHEET.to_owned() } else { format!("under {section} {ON_THE_SHEET}") };
            text = text.replace(&written, &words);
        }
    } else {
        text = with_section(&text, "").0;
    }
    for (written, words) in [
        (format!("] in {} ", settings::FILE), format!("] {ON_THE_SHEET} ")),
        (format!("in {}", settings::FILE), ON_THE_SHEET.to_owned()),
        ("above the first section".to_owned(), ON_THE_SHEET.to_owned()),
        ("as its first line".to_owned(), "in a row of its own".to_owned()),
        (settings::FILE.to_owned(), "the settings sheet".to_owned()),
    ] {
        text = text.replace(&written, &words);
    }
    text
}

/// The text with each `key = "value"` in it as `section.key = value`, and whether there was one.
fn with_section(text: &str, section: &str) -> (String, bool) {
    let (mut out, mut rest, mut has_lines) = (String::new(), text, false);
    while let Some((before, after)) = rest.split_once(" = ") {
        let start = key_start(before);
        let (value, length) = token(after);
        let key = unquoted(&before[start..]);
        let dot = if section.is_empty() { "" } else { "." };
        out.push_str(&before[..start]);
        let _ = write!(out, "{section}{dot}{key} = {value}");
        rest = &after[length..];
        has_lines = true;
    }
    (out + rest, has_lines)
}

/// Where the key that a text ends with begins.
fn key_start(text: &str) -> usize {
    if !text.ends_with('"') {
        return text.rfind(' ').map_or(0, |at| at + 1);
    }
    let is_escaped = |at: usize| text[..at].bytes().rev().take_while(|byte| *byte == b'\\').count() % 2 == 1;
    text[..text.len() - 1].rmatch_indices('"').map(|(at, _)| at).find(|at| !is_escaped(*at)).unwrap_or(0)
}

/// The value that a text begins with, and its length as it is written.
fn token(text: &str) -> (String, usize) {
    let end = match text.strip_prefix('"') {
        Some(inner) => {
            let is_escaped = |at: usize| inner[..at].bytes().rev().take_while(|byte| *byte == b'\\').count() % 2 == 1;
            inner.match_indices('"').map(|(at, _)| at).find(|at| !is_escaped(*at)).map_or(text.len(), |at| at + 2)
        }
        None => text.find([' ', ',', ';', ')']).unwrap_or(text.len()),
    };
    (unquoted(&text[..end]), end)
}

fn unquoted(text: &str) -> String {
    match text.strip_prefix('"').and_then(|text| text.strip_suffix('"')) {
        Some(inner) => inner.replace("\\\"", "\"").replace("\\\\", "\\"),
        None => text.to_owned(),
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn lines_of_the_file_are_settings_of_the_sheet() {
        for (written, said) in [
            (
                "if 'Pick-up' is it, write \"Pick-up\" = \"date\" under [columns.orders] in shop.toml",
                "if 'Pick-up' is it, write columns.orders.Pick-up = date on the settings sheet",
            ),
            (
                "write the one you mean under [columns.orders] in shop.toml: \"A \\\"b\\\"\" = \"date\" or \"Due\" = \"date\"",
                "write the one you mean on the settings sheet: columns.orders.A \"b\" = date or columns.orders.Due = date",
            ),
            (
                "write decorate, or \"decorat e\" = \"decorate\" under [words] in shop.toml",
                "write decorate, or words.decorat e = decorate on the settings sheet",
            ),
            (
                "write how many card charges it made, or tap = 1 (0 for none) under [payments] in shop.toml",
                "write how many card charges it made, or payments.tap = 1 (0 for none) on the settings sheet",
            ),
            ("write target = 20.00, or your own, under [wage]", "write wage.target = 20.00, or your own, on the settings sheet"),
            ("write spares = \"10 %\", or your own, above the first section", "write spares = 10 %, or your own, on the settings sheet"),
            (
                "add its dough and icing, or a cost for regular pieces under [materials] in shop.toml",
                "add its dough and icing, or a cost for regular pieces under materials on the settings sheet",
            ),
            ("[formats.orders] in shop.toml says month first", "[formats.orders] on the settings sheet says month first"),
        ] {
            assert_eq!(on_the_sheet(written), said);
        }
    }

    #[test]
    fn a_tables_file_is_its_sheet_and_another_file_stays() {
        let words = "the sheet Sales";
        assert_eq!(
            replaced("add it to orders.csv; my-orders.csv and orders.csv", "orders.csv", words),
            "add it to the sheet Sales; my-orders.csv and the sheet Sales"
        );
    }
}
