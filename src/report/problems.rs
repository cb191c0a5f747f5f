//! Problems as a list a person can work through.

use crate::reading::{Problem, Severity};
use std::fmt::Write;

/// The problems of one severity under a heading that counts them; nothing where there are none.
#[must_use]
pub fn listed(problems: &[Problem], severity: Severity) -> String {
    let of_kind: Vec<&Problem> = problems.iter().filter(|problem| problem.severity == severity).collect();
    if of_kind.is_empty() {
        return String::new();
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
