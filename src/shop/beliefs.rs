//! What is believed of how a shop is written, without its having said so.

use super::settings::{Proposal, Settings};

/// Headings that surely seem to be columns.
#[derive(Debug, Clone, Default)]
pub(super) struct Beliefs {
    /// Headings, each with its column.
    pub headings: Vec<Proposal>,
}

impl Beliefs {
    /// Adds them to the settings.
    pub(crate) fn apply(&self, settings: &mut Settings) {
        for Proposal { section, key, value, .. } in &self.headings {
            if let Some(table) = section.strip_prefix("columns.") {
                settings.columns.entry(table.to_owned()).or_default().insert(key.clone(), value.clone());
            }
        }
    }

    /// Believes the headings among some proposals; false where none is new.
    pub(crate) fn add_headings(&mut self, proposals: &[Proposal]) -> bool {
        let before = self.headings.len();
        for proposal in proposals.iter().filter(|proposal| proposal.section.starts_with("columns.")) {
            if !self.headings.contains(proposal) {
                self.headings.push(proposal.clone());
            }
        }
        self.headings.len() > before
    }

    /// The proposal for a table's column.
    pub(crate) fn heading_of(&self, table: &str, column: &str) -> Option<&Proposal> {
        let is_of = |proposal: &&Proposal| proposal.section.strip_prefix("columns.") == Some(table) && proposal.value == column;
        self.headings.iter().find(is_of)
    }
}
