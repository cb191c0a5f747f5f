//! Words of the shop's own that no cell says, or that stand for nothing.

use super::everyday_forms::{BASE_FORMS, CLASS_FORMS, KIND_FORMS, SIZE_FORMS, STAGE_FORMS, STATUS_FORMS};
use super::kinds::UNUSED_WORD;
use super::settings::{FILE, Settings};
use super::specification::{CLASSES, KINDS, OVERHEAD_BASES, SIZES, STATUSES};
use super::table_read::TableRead;
use crate::reading::Problem;
use crate::reading::folding;
use crate::reading::format::word::{Forms, Vocabulary};
use crate::reading::nearest::nearest;
use std::collections::{BTreeMap, BTreeSet};

/// Warns of each line of `[words]` that no table was read by.
pub(super) fn warn(settings: &Settings, found: &[TableRead], problems: &mut Vec<Problem>) {
    let in_files = found.iter().flat_map(|read| &read.files).flat_map(|file| &file.understood).flat_map(|read| &read.words);
    let in_tables = found.iter().flat_map(|read| &read.words).flat_map(|(_, words)| words);
    let said: BTreeSet<String> = in_files.chain(in_tables).map(|word| folding::word(&word.found)).collect();
    let stages: Vec<&str> = settings.stages.keys().map(String::as_str).collect();
    let helpers: Vec<&str> = settings.helpers.keys().map(String::as_str).collect();
    let lists: [(&[&str], Forms); 7] = [
        (KINDS, KIND_FORMS),
        (STATUSES, STATUS_FORMS),
        (OVERHEAD_BASES, BASE_FORMS),
        (SIZES, SIZE_FORMS),
        (CLASSES, CLASS_FORMS),
        (&stages, STAGE_FORMS),
        (&helpers, Forms::NONE),
    ];
    let none = BTreeMap::new();
    let is_known = |ours: &str| lists.iter().any(|(words, forms)| Vocabulary { words, forms: *forms, own: &none }.find(ours).is_some());
    for (hers, ours) in settings.words.iter().filter(|(hers, _)| !said.contains(&folding::word(hers))) {
        let problem = |what: String| Problem::of_file(&UNUSED_WORD, FILE, what).column("words").found(hers);
        problems.push(if is_known(ours) {
            problem("is said by no cell".to_owned()).instead("spell it as the cell does, or remove its line")
        } else {
            let problem = problem(format!("stands for '{ours}', which no column knows"));
            match nearest(ours, lists.iter().flat_map(|(words, _)| words.iter().copied())) {
                Some(near) => problem.instead(format!("did you mean {near}?")),
                None => problem.instead("write a kind, a status, a stage or another word of the tables"),
            }
        });
    }
}
