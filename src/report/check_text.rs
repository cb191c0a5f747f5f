//! What `check` found: the tables read, what to mend, what is worth a look, what was taken to be so.

use super::layout::{aligned, wrapped};
use super::problems::listed;
use super::words::counted;
use crate::reading::problem::printable;
use crate::reading::{Problem, Severity};
use crate::shop::load::FileRead;
use serde_json::json;
use std::fmt::Write;

/// The whole of it, for a person.
#[must_use]
pub fn check_text(files: &[FileRead], problems: &[Problem]) -> String {
    let mut text = String::new();
    let rows: Vec<Vec<String>> =
        files.iter().map(|file| vec![file.file.clone(), file.rows.map_or_else(|| "none".to_owned(), |rows| rows.to_string())]).collect();
    if !rows.is_empty() {
        let _ = writeln!(text, "{}", aligned(&["table", "rows"], &rows, 0));
    }
    for file in files.iter().filter(|file| !file.ignored.is_empty()) {
        let _ = writeln!(
            text,
            "{}\n",
            wrapped(&format!("{}: columns left alone, and not kept: {}", file.file, printable(&file.ignored.join(", "))), 2)
        );
    }
    for severity in [Severity::Error, Severity::Warning, Severity::Assumed] {
        let list = listed(problems, severity);
        if !list.is_empty() {
            for line in list.lines() {
                let _ = writeln!(text, "{}", if line.starts_with("  ") { format!("  {}", wrapped(line, 4)) } else { line.to_owned() });
            }
            text.push('\n');
        }
    }
    text.push_str(&verdict(problems));
    text
}

/// One line that says whether the figures can be trusted.
#[must_use]
pub fn verdict(problems: &[Problem]) -> String {
    let count = |severity| i64::try_from(problems.iter().filter(|problem| problem.severity == severity).count()).unwrap_or(i64::MAX);
    let (errors, warnings) = (count(Severity::Error), count(Severity::Warning));
    match (errors, warnings) {
        (0, 0) => "Nothing to mend.\n".to_owned(),
        (0, warnings) => format!("Nothing must be mended; {} worth a look.\n", counted(warnings, "thing is", "things are")),
        (errors, _) => format!("{} be mended before anything can be worked out.\n", counted(errors, "thing must", "things must")),
    }
}

/// For programs (`fairdozen.check/1`).
#[must_use]
pub fn check_json(files: &[FileRead], problems: &[Problem]) -> String {
    let count = |severity| problems.iter().filter(|problem| problem.severity == severity).count();
    let files: Vec<_> = files.iter().map(|file| json!({ "file": file.file, "rows": file.rows, "ignored_columns": file.ignored })).collect();
    let object = json!({
        "schema": "fairdozen.check/1",
        "files": files,
        "errors": count(Severity::Error),
        "warnings": count(Severity::Warning),
        "assumed": count(Severity::Assumed),
        "problems": problems,
    });
    format!("{object:#}\n")
}
