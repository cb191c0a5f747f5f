//! Problems as a list a person can work through.

use crate::reading::{Problem, Severity};
use crate::shop::specification::TABLES;
use std::collections::BTreeMap;
use std::fmt::Write;

/// The problems of one severity under a heading that counts them; nothing where there are none.
#[must_use]
pub fn listed(problems: &[Problem], severity: Severity) -> String {
    let mut of_kind: Vec<&Problem> = problems.iter().filter(|problem| problem.severity == severity).collect();
    if of_kind.is_empty() {
        return String::new();
    }
    // Rarest first: a habit repeated fifty times must not bury the one slip.
    let place = |problem: &Problem| (problem.file.clone(), problem.column.clone());
    let mut times: BTreeMap<_, usize> = BTreeMap::new();
    for problem in &of_kind {
        *times.entry(place(problem)).or_default() += 1;
    }
    match severity {
        Severity::Warning => of_kind.sort_by_key(|problem| times[&place(problem)]),
        // Table by table and row by row, as she will mend them.
        _ => of_kind.sort_by_key(|problem| (TABLES.iter().position(|table| table.file() == problem.file), problem.place)),
    }
    let mut text = String::new();
    let _ = writeln!(text, "{}", heading(of_kind.len(), severity));
    for problem in of_kind {
        let _ = writeln!(text, "  {problem}");
    }
    text
}

fn heading(count: usize, severity: Severity) -> String {
    let (one, many) = match severity {
        Severity::Error => ("thing must be mended", "things must be mended"),
        Severity::Warning => ("thing is worth a look", "things are worth a look"),
        Severity::Assumed => ("thing was taken to be so", "things were taken to be so"),
    };
    format!("{count} {}:", if count == 1 { one } else { many })
}
