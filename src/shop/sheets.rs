//! Sheets of a workbook whose names are of no table: which they hold is proposed where one table alone can be meant, and asked about
//! where several could. `[sheets]` in the settings says it.

use super::everyday_tables::tables_called;
use super::folder::Folder;
use super::kinds::{NO_SUCH_SHEET, SHEET_UNCLEAR, SHEET_UNREAD};
use super::settings::{self, NO_TABLE, Proposal, Settings};
use super::sources::{Contents, Found, Sources, is_same, is_settings};
use super::specification::TABLES;
use crate::reading::headings::quoted;
use crate::reading::nearest::nearest;
use crate::reading::workbook::Look;
use crate::reading::{Problem, TableSpecification};

/// A sheet that nothing but its headings speaks for has at least so many columns of its table.
const TELLING_COLUMNS: usize = 3;

impl Folder {
    /// What each sheet of no table seems to hold: proposed where it is sure, else asked. A sheet that the settings name is not asked about.
    pub(super) fn sheet_proposals(&self, settings: Option<&Settings>, sources: &Sources<'_>, problems: &mut Vec<Problem>) -> Vec<Proposal> {
        let is_begun = |table: &'static TableSpecification| {
            let reading = settings.map(|settings| settings.reading(table.name)).unwrap_or_default();
            sources.of_table(table).iter().any(|source| source.workbook().is_none() || !source.cells(&reading).is_blank())
        };
        let mut proposals = Vec::new();
        for found in self.found().filter(|found| found.table.is_none()) {
            let Found { name: called, contents: Contents::Sheet { workbook, sheet, .. }, .. } = found else { continue };
            let is_named = settings.is_some_and(|settings| settings.sheets.keys().any(|named| is_same(named, sheet)));
            let is_hidden = workbook.sheets().iter().any(|known| known.name == sheet && known.is_hidden);
            if is_settings(sheet) || is_named || is_hidden {
                continue;
            }
            let seems = Seems::of(sheet, &workbook.looks(sheet, TABLES));
            match seems {
                Seems::One(look) if !is_begun(look.table) => {
                    let because = format!("it has columns for {}", look.columns.join(", "));
                    let section = "sheets".to_owned();
                    let proposal = Proposal { section, key: sheet.to_owned(), value: look.table.name.to_owned(), because };
                    let problem = Problem::of_file(&SHEET_UNREAD, called, format!("looks like {}: {}", look.table.name, proposal.because));
                    problems.push(
                        problem.instead(format!("write {} under [sheets] in shop.toml, or let check --write do it", proposal.line())),
                    );
                    proposals.push(proposal);
                }
                Seems::One(look) => {
                    let what = format!("could be more {}: it has columns for {}", look.table.name, look.columns.join(", "));
                    problems.push(Problem::of_file(&SHEET_UNCLEAR, called, what).instead(choices(sheet, &[look.table.name])));
                }
                Seems::Any(tables) => {
                    let names: Vec<&str> = tables.iter().map(|table| table.name).collect();
                    let what = format!("could be {}", names.join(" or "));
                    problems.push(Problem::of_file(&SHEET_UNCLEAR, called, what).instead(choices(sheet, &names)));
                }
                Seems::Nothing => {}
            }
        }
        proposals
    }

    /// A sheet named in the settings must be in the workbook.
    pub(super) fn check_named_sheets(&self, settings: &Settings, problems: &mut Vec<Problem>) {
        // What is in a workbook that cannot be opened is not known.
        if self.has_errors() {
            return;
        }
        let sheets: Vec<&str> =
            self.found().filter_map(|found| if let Contents::Sheet { sheet, .. } = found.contents { Some(sheet) } else { None }).collect();
        let workbooks: Vec<&str> = self.workbooks().collect();
        for named in settings.sheets.keys().filter(|named| sheets.iter().all(|sheet| !is_same(named, sheet))) {
            let what = if workbooks.is_empty() {
                "is a sheet of no workbook in the folder".to_owned()
            } else {
                format!("is not a sheet of {}", workbooks.join(" or "))
            };
            let problem = Problem::of_file(&NO_SUCH_SHEET, settings::FILE, what).column("sheets").found(named);
            problems.push(match nearest(named, sheets.iter().copied()) {
                Some(near) => problem.did_you_mean(near),
                None => problem.instead("remove the line, or write the sheet's name as its tab does"),
            });
        }
    }
}

/// The lines that could answer what a sheet holds.
fn choices(sheet: &str, tables: &[&str]) -> String {
    let line = |table: &str| format!("{} = {}", quoted(sheet), quoted(table));
    let lines: Vec<String> = tables.iter().map(|table| line(table)).collect();
    format!("write what it is under [sheets] in shop.toml: {}, or {} if it is no table", lines.join(" or "), line(NO_TABLE))
}

/// The table that a text file of another name surely holds, by its name and its headings.
#[must_use]
pub(crate) fn table_of_export(name: &str, bytes: &[u8]) -> Option<&'static TableSpecification> {
    match Seems::of(name, &Look::of_csv(bytes, TABLES)) {
        Seems::One(look) => Some(look.table),
        Seems::Any(_) | Seems::Nothing => None,
    }
}

/// What a sheet of no table seems to hold.
enum Seems {
    /// One table alone.
    One(Look),
    /// One of several.
    Any(Vec<&'static TableSpecification>),
    /// None.
    Nothing,
}

impl Seems {
    /// Its name and its headings must not contradict each other. Headings alone speak for the table of which they have all that it needs,
    /// and the most.
    fn of(sheet: &str, looks: &[Look]) -> Self {
        let called = tables_called(sheet);
        let is_called = |look: &&Look| called.iter().any(|table| table.name == look.table.name);
        let whole: Vec<&Look> = looks.iter().filter(|look| look.is_whole() && look.columns.len() > 1).collect();
        let most = whole.iter().map(|look| look.columns.len()).max().unwrap_or(0);
        let by_headings: Vec<&Look> = whole.iter().filter(|look| look.columns.len() == most && most >= TELLING_COLUMNS).copied().collect();
        let both: Vec<&Look> = whole.iter().filter(|look| is_called(look)).copied().collect();
        match (both.as_slice(), called.as_slice(), by_headings.as_slice()) {
            ([one], ..) | ([], [], [one]) => return Self::One((*one).clone()),
            _ => {}
        }
        let by_name = looks.iter().filter(|look| is_called(look) && look.columns.len() > 1);
        let speaks = if both.is_empty() { by_headings } else { both };
        let could_be: Vec<&Look> = speaks.into_iter().chain(by_name).collect();
        let is_in = |table: &&TableSpecification| could_be.iter().any(|look| look.table.name == table.name);
        let tables: Vec<&'static TableSpecification> = TABLES.iter().filter(is_in).collect();
        if tables.is_empty() { Self::Nothing } else { Self::Any(tables) }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn look(table: &'static str, columns: &[&'static str]) -> Look {
        Look { table: TABLES.iter().find(|of| of.name == table).unwrap(), columns: columns.to_vec() }
    }

    fn seems(sheet: &str, looks: &[Look]) -> Vec<&'static str> {
        match Seems::of(sheet, looks) {
            Seems::One(look) => vec!["surely", look.table.name],
            Seems::Any(tables) => tables.iter().map(|table| table.name).collect(),
            Seems::Nothing => Vec::new(),
        }
    }

    #[test]
    fn a_sheet_is_sure_where_name_and_headings_agree_on_one_table() {
        let orders = look("orders", &["order", "date", "design", "quantity", "price"]);
        let hours = look("hours", &["date", "order", "design", "pieces"]);
        assert_eq!(seems("Sales", &[orders.clone(), hours.clone()]), ["surely", "orders"]);
        assert_eq!(seems("Sheet1", &[orders.clone(), hours.clone()]), ["surely", "orders"], "the most columns");
        assert_eq!(seems("Time", &[orders.clone(), hours.clone()]), ["surely", "hours"]);
        assert_eq!(seems("Stock", &[orders, hours]), ["orders"], "the name speaks for another table");
        let (counts, purchases) =
            (look("counts", &["date", "item", "amount", "unit"]), look("purchases", &["date", "item", "size", "paid"]));
        assert_eq!(seems("Sheet1", &[purchases, counts]), ["purchases", "counts"]);
        assert_eq!(seems("Notes", &[look("items", &["item"]), look("designs", &["design", "size"])]), [""; 0]);
        assert_eq!(seems("Sales", &[look("orders", &["order", "date"])]), ["orders"], "not sure without what orders need");
    }
}
