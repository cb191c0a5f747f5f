//! A setting that the tables themselves suggest, and the text of `shop.toml` with it.

use crate::reading::headings::quoted;
use crate::reading::problem::printable;
use toml_edit::{DocumentMut, Item, Key, Table, value};

/// Where new sections stand in a document: after any that were read.
const NEW_SECTIONS: isize = 1 << 24;

/// A setting proposed, with the reason.
#[derive(Debug, Clone, PartialEq, Eq, PartialOrd, Ord)]
pub struct Proposal {
    /// Its section, as `columns.orders` or `formats."orders-2025.csv"`.
    pub section: String,
    /// Its key in the section: a heading, or a column.
    pub key: String,
    /// Its value.
    pub value: String,
    /// Why, as a clause.
    pub because: String,
}

impl Proposal {
    /// Its line under its section: `"Pick-up" = "date"`.
    #[must_use]
    pub fn line(&self) -> String {
        format!("{} = {}", self.written_key(), quoted(&printable(&self.value)))
    }

    /// Its whole key, as in `columns.orders."Pick-up"`.
    #[must_use]
    pub fn path(&self) -> String {
        format!("{}.{}", self.section, self.written_key())
    }

    fn written_key(&self) -> String {
        let is_bare = !self.key.is_empty() && self.key.bytes().all(|byte| byte.is_ascii_alphanumeric() || matches!(byte, b'_' | b'-'));
        // A heading or a sheet stands in quotes, whatever is in it, as the manual writes it.
        let is_hers = self.section.starts_with("columns") || self.section == "sheets";
        if is_bare && !is_hers { self.key.clone() } else { quoted(&printable(&self.key)) }
    }
}

/// The text of `shop.toml` with proposals added, new sections after all that is there; comments and all else stay as they are. `None`
/// where the text is no TOML, or where a section's name is a value in it.
#[must_use]
pub fn with_proposals(text: &str, proposals: &[Proposal]) -> Option<String> {
    let mut document: DocumentMut = text.parse().ok()?;
    let mut sorted: Vec<&Proposal> = proposals.iter().collect();
    sorted.sort_by_key(|proposal| &proposal.section);
    // Comments at the end are of the last section that was there, so that new ones come after them.
    let mut at_end = document.trailing().as_str().unwrap_or_default().to_owned();
    let mut position = NEW_SECTIONS;
    for proposal in sorted {
        let mut item = document.as_item_mut();
        let keys = Key::parse(&proposal.section).ok()?;
        let mut sections = keys.iter().map(Key::get).peekable();
        while let Some(section) = sections.next() {
            let table = item.as_table_like_mut()?;
            if !table.contains_key(section) {
                let mut new = Table::new();
                // A section that holds sections alone has no line of its own.
                new.set_implicit(sections.peek().is_some());
                if sections.peek().is_none() {
                    position += 1;
                    new.set_position(Some(position));
                    let before = std::mem::take(&mut at_end);
                    let ends = if before.is_empty() || before.ends_with('\n') { "" } else { "\n" };
                    new.decor_mut().set_prefix(format!("{before}{ends}\n"));
                }
                table.insert(section, Item::Table(new));
            }
            item = table.get_mut(section)?;
        }
        item.as_table_like_mut()?.insert(&proposal.key, value(&proposal.value));
    }
    document.set_trailing(at_end);
    let written = document.to_string();
    // toml_edit ends lines as Unix does; a file of the other kind stays so.
    Some(if text.contains("\r\n") { written.replace("\r\n", "\n").replace('\n', "\r\n") } else { written })
}

/// The text of `shop.toml` with its currency as the first setting. `None` where the code is no currency's.
#[must_use]
pub fn with_currency(text: &str, code: &str) -> Option<String> {
    iso_currency::Currency::from_code(code)?;
    let rest = if text.trim().is_empty() { String::new() } else { format!("\n{text}") };
    Some(format!("currency = \"{code}\"\n{rest}"))
}

#[cfg(test)]
mod tests {
    use super::*;

    fn proposal(section: &str, key: &str, value: &str) -> Proposal {
        Proposal { section: section.into(), key: key.into(), value: value.into(), because: String::new() }
    }

    #[test]
    fn settings_are_added_and_comments_stay() {
        let text = "# My shop\ncurrency = \"USD\" # dollars\n\n[columns.orders]\n\"Cookie\"   = \"design\" # hers\n\n[wage]\ntarget = 20\n";
        let proposals = [
            proposal("columns.orders", "Pick-up", "date"),
            proposal("formats.orders", "date", "month/day/year"),
            proposal("columns.hours", "Day", "date"),
        ];
        let written = with_proposals(text, &proposals).unwrap();
        assert!(
            written.starts_with("# My shop\ncurrency = \"USD\" # dollars\n\n[columns.orders]\n\"Cookie\"   = \"design\" # hers\n"),
            "{written}"
        );
        assert!(written.contains("\"Cookie\"   = \"design\" # hers\nPick-up = \"date\"\n"), "{written}");
        assert!(
            written.contains("[formats.orders]\ndate = \"month/day/year\"\n") && written.contains("[columns.hours]\nDay = \"date\"\n"),
            "{written}"
        );
        assert!(!written.contains("[columns]") && !written.contains("[formats]"), "{written}");
        assert_eq!(with_proposals(&written, &[]).as_deref(), Some(written.as_str()));
    }

    #[test]
    fn windows_line_ends_stay_and_a_value_in_a_sections_place_is_refused() {
        let written =
            with_proposals("currency = \"USD\"\r\n[wage]\r\ntarget = 20\r\n", &[proposal("columns.orders", "Qty #", "quantity")]).unwrap();
        assert_eq!(written.matches('\n').count(), written.matches("\r\n").count());
        assert!(written.contains("[columns.orders]\r\n\"Qty #\" = \"quantity\"\r\n"), "{written}");
        assert_eq!(with_proposals("columns = 3\n", &[proposal("columns.orders", "a", "date")]), None);
        assert_eq!(with_proposals("[wage\n", &[]), None);
    }

    #[test]
    fn a_proposal_is_a_line_to_paste() {
        assert_eq!(proposal("columns.orders", "Pick-up", "date").line(), "\"Pick-up\" = \"date\"");
        assert_eq!(proposal("formats.orders", "date", "month/day/year").line(), "date = \"month/day/year\"");
        assert_eq!(proposal("columns.orders", "a \"b\"", "date").path(), "columns.orders.\"a \\\"b\\\"\"");
    }
}
