//! A `shop.toml` that explains itself: every setting with what it means, set to its default or waiting to be set.

use crate::shop::settings::specification::{SETTINGS, Setting};
use std::fmt::Write;

const HEAD: &str = "# The settings of your shop. A line that begins with # is not read: take the # away to set what it shows.\n\
    # Names in capitals are for you to replace by your own.\n";

/// The text, with the shop's currency.
#[must_use]
pub fn settings_file(currency: &str) -> String {
    let mut text = HEAD.to_owned();
    let mut section = "";
    for setting in SETTINGS {
        let (of, key) = setting.section_and_key();
        if of != section {
            section = of;
            let _ = write!(text, "\n{}[{section}]\n", commented(has_own_name(section)));
        } else if section.is_empty() {
            text.push('\n');
        }
        let value = match (key, setting.default) {
            ("currency", _) => format!("\"{currency}\""),
            (_, "") => setting.example.to_owned(),
            (_, default) => as_written(default, setting),
        };
        let is_set = setting.key == "currency" || !setting.default.is_empty();
        let _ = writeln!(text, "# {}\n{}{key} = {value}", setting.meaning, commented(!is_set));
    }
    text
}

/// What keeps a line from being read.
fn commented(is_commented: bool) -> &'static str {
    if is_commented { "# " } else { "" }
}

/// Whether a section is named by the maker.
fn has_own_name(section: &str) -> bool {
    section.chars().any(char::is_uppercase)
}

/// A default in the form that the setting's example has in TOML.
fn as_written(default: &str, setting: &Setting) -> String {
    match setting.example.chars().next() {
        Some('"') => format!("\"{default}\""),
        Some('[') => format!("[{default}]"),
        _ => default.to_owned(),
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::shop::settings::{Proposal, Settings, with_proposals};

    fn read(text: &str) -> Settings {
        let mut problems = Vec::new();
        let settings = Settings::read(text, &mut problems);
        assert_eq!(problems, [], "{text}");
        settings.unwrap()
    }

    #[test]
    fn as_it_is_it_says_no_more_than_the_currency() {
        let shown = |settings: Settings| format!("{settings:?}");
        assert_eq!(shown(read(&settings_file("EUR"))), shown(read("currency = \"EUR\"\n")));
    }

    #[test]
    fn every_setting_can_be_set_by_taking_its_mark_away() {
        let text = settings_file("USD");
        let set =
            |line: &str| line.strip_prefix("# ").filter(|rest| rest.starts_with('[') || rest.contains(" = ")).unwrap_or(line).to_owned();
        let all: String = text.lines().map(|line| set(line) + "\n").collect();
        let own = all.replace("TABLE", "orders").replace("HEADING", "\"Pick-up day\"");
        let settings = read(&own);
        assert_eq!(settings.fees_of(Some("CHANNEL")).percent.to_string(), "1.5 %");
        assert_eq!(settings.columns["orders"]["Pick-up day"], "date");
        for setting in SETTINGS {
            let key = setting.key.rsplit('.').next().unwrap();
            assert!(all.contains(&format!("\n# {}\n{key} = ", setting.meaning)), "{}", setting.key);
        }
    }

    #[test]
    fn every_line_of_the_file_that_start_writes_stays_in_its_section() {
        let text = settings_file("USD");
        let sections = |text: &str| {
            let mut section = String::new();
            let mut lines: Vec<(String, String)> = Vec::new();
            for line in text.lines().filter(|line| !line.is_empty()) {
                if line.starts_with('[') {
                    line.clone_into(&mut section);
                }
                lines.push((section.clone(), line.to_owned()));
            }
            lines
        };
        let proposal = |section: &str, key: &str, value: &str| Proposal {
            section: section.into(),
            key: key.into(),
            value: value.into(),
            because: String::new(),
        };
        let proposals = [
            proposal("formats.hours", "date", "month/day/year"),
            proposal("columns.orders", "Pick-up", "date"),
            proposal("columns.hours", "Day", "date"),
        ];
        let written = with_proposals(&text, &proposals).unwrap();
        let (before, after) = (sections(&text), sections(&written));
        assert_eq!(after[..before.len()], before);
        let new: Vec<&str> = after[before.len()..].iter().map(|(_, line)| line.as_str()).collect();
        let expected =
            ["[columns.hours]", "Day = \"date\"", "[columns.orders]", "Pick-up = \"date\"", "[formats.hours]", "date = \"month/day/year\""];
        assert_eq!(new, expected);
        let again = with_proposals(&written, &[proposal("columns.purchases", "Where", "supplier")]).unwrap();
        assert_eq!(sections(&again)[..after.len()], after, "a section of a name that is there stands at the end too");
    }
}
