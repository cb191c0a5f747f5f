//! Problems as a list a person can work through: by group, or one by one.

use super::layout::item;
use super::problem_groups::{Group, grouped, row_by_row};
use super::words::{Currency, counted};
use crate::quantity::millionths::Money;
use crate::reading::{Problem, Severity};
use std::fmt::Write;

/// How problems are listed.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Listing {
    /// Those of one kind together: a number, the first places, one piece of advice.
    Grouped,
    /// Each by itself, on lines of at most 100 columns.
    Each,
    /// Each by itself, on one line however long.
    EachOnALine,
}

/// Lists the problems of one severity under a heading that counts them; nothing where there are none.
///
/// Money at stake is written in `currency`, and left out where that is not known.
#[must_use]
pub fn listed(problems: &[Problem], severity: Severity, listing: Listing, currency: Option<&Currency>) -> String {
    let count = problems.iter().filter(|problem| problem.severity == severity).count();
    let list = without_heading(problems, severity, listing, currency);
    if count == 0 { list } else { format!("{}:\n{list}", how_many(count, severity)) }
}

/// The list alone, without its heading.
#[must_use]
pub fn without_heading(problems: &[Problem], severity: Severity, listing: Listing, currency: Option<&Currency>) -> String {
    let groups = grouped(problems, severity);
    let sentence = |problem: &&Problem| problem.sentence(shown(problem.at_stake, currency).as_deref());
    let sentences: Vec<String> = match (listing, severity) {
        (Listing::Grouped, _) => groups.iter().flat_map(|group| in_short(group, currency)).collect(),
        (_, Severity::Warning) => groups.iter().flat_map(|group| &group.problems).map(sentence).collect(),
        // As she will correct them.
        (_, Severity::Error | Severity::Assumed) => {
            let mut all: Vec<&Problem> = problems.iter().filter(|problem| problem.severity == severity).collect();
            all.sort_by_key(|problem| row_by_row(problem));
            all.iter().map(sentence).collect()
        }
    };
    let mut text = String::new();
    for sentence in sentences {
        let _ = writeln!(text, "{}", if listing == Listing::EachOnALine { format!("  {sentence}") } else { item(&sentence) });
    }
    text
}

/// Whether groups hide problems that [`Listing::Each`] would show.
#[must_use]
pub fn hides_some(problems: &[Problem], severity: Severity) -> bool {
    grouped(problems, severity).iter().any(Group::is_shown_as_one)
}

/// A number of problems: "1 error", "63 warnings".
#[must_use]
pub fn how_many(count: usize, severity: Severity) -> String {
    let (one, many) = match severity {
        Severity::Error => ("error", "errors"),
        Severity::Warning => ("warning", "warnings"),
        Severity::Assumed => ("assumption", "assumptions"),
    };
    counted(i64::try_from(count).unwrap_or(i64::MAX), one, many)
}

/// A group in two sentences: how many, what is at stake and where; what to do. What is not shown as one is each problem's sentence.
fn in_short(group: &Group<'_>, currency: Option<&Currency>) -> Vec<String> {
    if !group.is_shown_as_one() {
        return group.problems.iter().map(|problem| problem.sentence(shown(problem.at_stake, currency).as_deref())).collect();
    }
    let count = counted(i64::try_from(group.problems.len()).unwrap_or(i64::MAX), group.kind.many, group.kind.many);
    let money = shown(group.at_stake(), currency).map_or_else(String::new, |money| format!(" ({money})"));
    vec![format!("{count}{money}: {}. {}", group.places(), group.kind.advice)]
}

/// Money at stake, in words; `None` where it or the currency is not known.
fn shown(money: Option<Money>, currency: Option<&Currency>) -> Option<String> {
    Some(format!("{} at stake", currency?.exact(money?)))
}
