//! Problems as a list a person can work through: by group, or one by one.

use super::problem_places::places;
use super::terminal;
use super::words::{Currency, counted};
use crate::quantity::millionths::Money;
use crate::reading::{Problem, Severity};
use crate::review::problem_groups::{Group, grouped, row_by_row};

/// How problems are listed.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Listing {
    /// Those of one kind together: a number, the first places, one piece of advice.
    Grouped,
    /// Each by itself.
    Each,
}

/// The problems of one severity, a sentence or two each.
///
/// Money at stake is written in `currency`, and left out where that is not known.
#[must_use]
pub fn sentences(problems: &[Problem], severity: Severity, listing: Listing, currency: Option<&Currency>) -> Vec<String> {
    let sentence = |problem: &&Problem| problem.sentence(shown(problem.at_stake, currency).as_deref());
    let groups = || grouped(problems, severity).into_iter();
    match (listing, severity) {
        (Listing::Grouped, _) => groups().flat_map(|group| in_short(&group, currency)).collect(),
        (Listing::Each, Severity::Warning) => groups().flat_map(|group| group.problems).map(|problem| sentence(&problem)).collect(),
        (Listing::Each, Severity::Error | Severity::Assumed) => row_by_row(problems, severity).iter().map(sentence).collect(),
    }
}

/// Errors by group under a heading that counts them, each sentence as `words` has it, for the error stream; nothing where there are none.
#[must_use]
pub fn errors(problems: &[Problem], words: impl Fn(&str) -> String) -> String {
    let sentences: Vec<String> = sentences(problems, Severity::Error, Listing::Grouped, None).iter().map(|text| words(text)).collect();
    let heading = heading(problems, Severity::Error, Listing::Grouped);
    if sentences.is_empty() { String::new() } else { terminal::list(&heading, &sentences) }
}

/// How many problems of a severity there are and in how many groups, as the heading of their list: "63 warnings in 4 groups:", "1 warning:".
#[must_use]
pub fn heading(problems: &[Problem], severity: Severity, listing: Listing) -> String {
    let is_grouped = listing == Listing::Grouped && hides_some(problems, severity);
    let groups = if is_grouped { in_groups(problems, severity) } else { String::new() };
    format!("{}{groups}:", how_many(count(problems, severity), severity))
}

/// Into how many groups problems fall: " in 4 groups".
pub(super) fn in_groups(problems: &[Problem], severity: Severity) -> String {
    format!(" in {}", counted(grouped(problems, severity).len(), "group", "groups"))
}

/// Problems of a severity.
#[must_use]
pub fn count(problems: &[Problem], severity: Severity) -> usize {
    problems.iter().filter(|problem| problem.severity == severity).count()
}

/// Whether groups hide problems that [`Listing::Each`] would show.
#[must_use]
pub(crate) fn hides_some(problems: &[Problem], severity: Severity) -> bool {
    grouped(problems, severity).iter().any(Group::is_shown_as_one)
}

/// A number of problems: "1 error", "63 warnings".
#[must_use]
pub(crate) fn how_many(count: usize, severity: Severity) -> String {
    let (one, many) = match severity {
        Severity::Error => ("error", "errors"),
        Severity::Warning => ("warning", "warnings"),
        Severity::Assumed => ("assumption", "assumptions"),
    };
    counted(count, one, many)
}

/// A group in two sentences: how many, what is at stake and where; what to do. What is not shown as one is each problem's sentence.
fn in_short(group: &Group<'_>, currency: Option<&Currency>) -> Vec<String> {
    if !group.is_shown_as_one() {
        return group.problems.iter().map(|problem| problem.sentence(shown(problem.at_stake, currency).as_deref())).collect();
    }
    let count = counted(group.problems.len(), group.kind.many, group.kind.many);
    let money = shown(group.at_stake(), currency).map_or_else(String::new, |money| format!(" ({money})"));
    vec![format!("{count}{money}: {}. {}", places(group), group.kind.advice)]
}

/// Money at stake, in words; `None` where it or the currency is not known.
fn shown(money: Option<Money>, currency: Option<&Currency>) -> Option<String> {
    Some(format!("{} at stake", currency?.exact(money?)))
}
