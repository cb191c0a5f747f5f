//! The settings of a folder: those of `shop.toml`, and of a workbook's sheet where the file does not say.

use super::folder::Folder;
use super::kinds::MISSING_FILE;
use super::settings::{self, Settings};
use super::sources::{Contents, is_settings};
use crate::reading::Problem;
use crate::reading::problem_kind::NOT_UTF8;
use crate::reading::workbook::Setting;

impl Folder {
    /// The settings of `shop.toml`, and of a sheet where the file does not say.
    pub(super) fn settings(&self, problems: &mut Vec<Problem>) -> Option<Settings> {
        let sheet = self.settings_sheet(problems);
        let text = match self.bytes(settings::FILE).map(std::str::from_utf8) {
            None if sheet.is_none() => {
                // It may be a sheet of a workbook that cannot be opened.
                if !self.has_errors() {
                    problems.push(self.no_settings());
                }
                return None;
            }
            None => "",
            Some(Ok(text)) => text.trim_start_matches('\u{FEFF}'),
            Some(Err(_)) => {
                let problem = Problem::of_file(&NOT_UTF8, settings::FILE, "the file has letters that are not UTF-8");
                problems.push(problem.instead("save it as UTF-8"));
                return None;
            }
        };
        match &sheet {
            Some((name, settings)) => settings::read_with_sheet(text, name, settings, problems),
            None => Settings::read(text, problems),
        }
    }

    /// That neither file nor sheet says the currency.
    fn no_settings(&self) -> Problem {
        let what = match self.workbooks().next() {
            Some(workbook) => format!("is missing, and {workbook} has no sheet {}", settings::SHEET),
            None => "is missing from the folder".to_owned(),
        };
        let problem = Problem::of_file(&MISSING_FILE, settings::FILE, what);
        problem.instead("create it with one line: currency = \"USD\", or your own currency")
    }

    /// The settings of the first sheet of that name, with what to call the sheet.
    fn settings_sheet(&self, problems: &mut Vec<Problem>) -> Option<(String, Vec<Setting>)> {
        let (called, (settings, mut wrong)) = self.found().find_map(|found| match found.contents {
            Contents::Sheet { workbook, sheet, .. } if is_settings(sheet) => Some((found.name, workbook.settings(sheet, found.name))),
            _ => None,
        })?;
        problems.append(&mut wrong);
        Some((called.to_owned(), settings))
    }
}
