//! A second look at a shop that says too little of how it is written.
//!
//! Where a column is missing, its headings are believed to be what they surely seem, so that one check says all that is wrong. They stay
//! errors until `shop.toml` says so, and nothing is worked out before.

use super::beliefs::Beliefs;
use super::folder::Folder;
use super::kinds::UNMAPPED_HEADING;
use super::load::{Loaded, Skipped};
use crate::reading::Problem;
use crate::reading::problem_kind::MISSING_COLUMN;

impl Folder {
    /// Reads the shop, passing over the rows in `skipped`.
    #[must_use]
    pub fn load(&self, skipped: &Skipped) -> Loaded {
        let mut believed = Beliefs::default();
        let mut found = self.load_believing(skipped, &believed);
        let missing: Vec<Problem> = found.problems.iter().filter(|problem| *problem.kind == MISSING_COLUMN).cloned().collect();
        // A heading that is believed has cells behind it, which may tell of another.
        while !missing.is_empty() && believed.add_headings(&found.proposals) {
            found = self.load_believing(skipped, &believed);
        }
        let is_same = |one: &Problem, other: &Problem| one.kind == other.kind && one.file == other.file && one.column == other.column;
        let is_mended = |missing: &&Problem| !found.problems.iter().any(|problem| is_same(problem, missing));
        let mut unmapped: Vec<Problem> = missing.iter().filter(is_mended).filter_map(|missing| self.unmapped(missing, &believed)).collect();
        self.name_problems(&mut unmapped);
        found.problems.append(&mut unmapped);
        found.proposals.splice(0..0, believed.headings);
        found
    }

    /// The error in place of a missing column whose heading is believed.
    fn unmapped(&self, missing: &Problem, believed: &Beliefs) -> Option<Problem> {
        let column = missing.column.as_deref()?;
        let table = self.sources().iter().find(|source| source.name == missing.file)?.table;
        let heading = believed.heading_of(table.name, column)?;
        let what = "seems to be this column, but shop.toml does not say so";
        let problem = Problem::of_file(&UNMAPPED_HEADING, &missing.file, what).column(column).found(&heading.key);
        Some(problem.instead(format!("run check --write, or write {} under [{}] in shop.toml", heading.line(), heading.section)))
    }
}
