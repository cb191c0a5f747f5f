//! Settings of a workbook's sheet in place of `shop.toml`, or beside it: what the file says counts.

use super::specification::SETTINGS;
use super::{FILE, Settings};
use crate::reading::Problem;
use crate::reading::workbook::Setting;
use crate::shop::kinds::SETTING_IN_BOTH;
use std::collections::BTreeSet;
use toml_edit::{Array, DocumentMut, Item, Key, Table, value};

/// Reads the text of `shop.toml` with the settings of a sheet that it does not have itself; `sheet` is what to call the sheet in problems.
/// `None` as for [`Settings::read`].
pub fn read_with_sheet(text: &str, sheet: &str, settings: &[Setting], problems: &mut Vec<Problem>) -> Option<Settings> {
    let Ok(mut document) = text.parse::<DocumentMut>() else { return Settings::read(text, problems) };
    let mut of_sheet = BTreeSet::new();
    for Setting { key, value, place } in settings {
        match add(&mut document, key, value) {
            Some(false) => {
                let what = format!("is set here and in {FILE}; {FILE} counts");
                let problem = Problem::of_file(&SETTING_IN_BOTH, sheet, what).at(*place).column("setting").found(key);
                problems.push(problem.instead("remove one of the two"));
            }
            Some(true) | None => {
                of_sheet.insert(key.as_str());
            }
        }
    }
    let before = problems.len();
    let read = Settings::read(&document.to_string(), problems);
    for problem in &mut problems[before..] {
        let named = problem.column.as_deref().or(problem.found.as_deref());
        if named.is_some_and(|key| of_sheet.contains(key)) {
            sheet.clone_into(&mut problem.file);
            problem.place = None;
        }
    }
    read
}

/// Adds a setting, unless the document has it: then false. `None` where a section's name is a value in it.
fn add(document: &mut DocumentMut, key: &str, text: &str) -> Option<bool> {
    // A heading of her own may hold points; a file's name does, and stands in quotes.
    let quoted = if key.contains('"') { Key::parse(key).ok() } else { None };
    let parts: Vec<&str> = match (&quoted, key.split_once('.').map(|(section, _)| section)) {
        (Some(keys), _) => keys.iter().map(Key::get).collect(),
        (None, Some("columns" | "formats")) => key.splitn(3, '.').collect(),
        (None, Some("sheets" | "words" | "payments" | "helpers" | "stages")) => key.splitn(2, '.').collect(),
        (None, _) => key.split('.').collect(),
    };
    let (last, sections) = parts.split_last()?;
    let mut item = document.as_item_mut();
    for section in sections {
        let table = item.as_table_like_mut()?;
        if !table.contains_key(section) {
            table.insert(section, Item::Table(Table::new()));
        }
        item = table.get_mut(section)?;
    }
    let table = item.as_table_like_mut()?;
    if table.contains_key(last) {
        return Some(false);
    }
    let is_list = SETTINGS.iter().any(|setting| setting.key == key && setting.kind.is_list());
    let list = || text.split([',', ';']).map(|part| part.trim().trim_matches(['[', ']']).trim()).filter(|part| !part.is_empty());
    table.insert(last, if is_list { value(list().collect::<Array>()) } else { value(text) });
    Some(true)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::quantity::millionths::Money;
    use crate::reading::Place;

    fn sheet(settings: &[(&str, &str)]) -> Vec<Setting> {
        let setting = |(key, value): &(&str, &str)| Setting { place: Place::of_row(2, 2), key: (*key).into(), value: (*value).into() };
        settings.iter().map(setting).collect()
    }

    #[test]
    fn a_sheet_stands_in_for_the_file_and_the_file_counts_where_both_say() {
        let settings =
            sheet(&[("currency", "USD"), ("wage.target", "20.00"), ("prices.endings", "0.00, 0.50"), ("columns.orders.Qty.", "quantity")]);
        let mut problems = Vec::new();
        let read = read_with_sheet("", "a.xlsx, sheet settings", &settings, &mut problems).unwrap();
        assert_eq!((read.target, read.endings.as_slice(), problems.len()), (Some(Money(20_000_000)), &[Money(0), Money(500_000)][..], 0));
        assert_eq!(read.columns["orders"]["Qty."], "quantity");
        let read = read_with_sheet("[wage]\ntarget = 25\n", "a.xlsx, sheet settings", &settings, &mut problems).unwrap();
        assert_eq!((read.target, problems.len()), (Some(Money(25_000_000)), 1));
        assert!(
            problems[0]
                .to_string()
                .starts_with("a.xlsx, sheet settings, row 2, column setting: 'wage.target' is set here and in shop.toml")
        );
    }

    #[test]
    fn a_wrong_setting_names_the_sheet() {
        let mut problems = Vec::new();
        let settings = sheet(&[("currency", "USD"), ("wage.target", "much"), ("wage.targt", "20")]);
        read_with_sheet("", "a.xlsx, sheet settings", &settings, &mut problems);
        assert_eq!(problems.len(), 2, "{problems:?}");
        assert!(problems.iter().all(|problem| problem.file == "a.xlsx, sheet settings"), "{problems:?}");
    }
}
