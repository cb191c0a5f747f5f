//! What a shop means to keep, though it stands twice: the names under `[repeats] keep` in `shop.toml`.

use crate::reading::headings::quoted;
use crate::reading::problem::printable;
use crate::reading::{Problem, Severity};
use crate::shop::kinds::UNUSED_KEEP;
use crate::shop::settings;

/// The names kept, and which of them were met.
#[derive(Debug, Clone, Default)]
pub struct Kept {
    /// As the settings have them.
    written: Vec<String>,
    is_met: Vec<bool>,
    /// Whether a table could not be searched yet.
    is_open: bool,
}

/// What rows that stand again are called: `hours 2026-09-01 to 2026-09-12 (12 rows)`, `recipes dough (7 rows)`. A sheet of settings parts a
/// list at commas and semicolons, so no name has any.
pub(super) fn name(table: &str, first: &str, last: Option<&str>, rows: usize) -> String {
    let first = if first.is_empty() { String::new() } else { format!(" {}", printable(first)) };
    let last = last.map_or_else(String::new, |last| format!(" to {last}"));
    format!("{table}{first}{last} ({rows} {})", if rows == 1 { "row" } else { "rows" }).replace([',', ';'], " ")
}

/// A name without what is easily typed otherwise: letter case and the number of spaces.
fn folded(name: &str) -> String {
    name.split_whitespace().collect::<Vec<_>>().join(" ").to_lowercase()
}

impl Kept {
    /// The names that the settings keep.
    #[must_use]
    pub fn of(written: &[String]) -> Self {
        Self { written: written.to_vec(), is_met: vec![false; written.len()], is_open: false }
    }

    /// Whether rows of this name may not stand again: then what to do. Each name written keeps one repeat, so that a block which is kept
    /// and then pasted once more is an error.
    pub(super) fn refuses(&mut self, name: &str) -> Option<String> {
        let kept = (0..self.written.len()).find(|at| !self.is_met[*at] && folded(&self.written[*at]) == folded(name));
        if let Some(kept) = kept {
            self.is_met[kept] = true;
            return None;
        }
        let list: Vec<String> = self.written.iter().map(String::as_str).chain([name]).map(|name| quoted(&printable(name))).collect();
        let list = list.join(", ");
        Some(format!("delete one of the two; or, if you meant both, name it under [repeats] in {}: keep = [{list}]", settings::FILE))
    }

    /// Notes that a table could not be searched yet.
    pub(crate) fn leave_open(&mut self) {
        self.is_open = true;
    }

    /// Warns of names that nothing has; not while there are errors, for what cannot be read yet may have them.
    pub(crate) fn warn_of_unmet(&self, problems: &mut Vec<Problem>) {
        if self.is_open || problems.iter().any(|problem| problem.severity == Severity::Error) {
            return;
        }
        for (name, _) in self.written.iter().zip(&self.is_met).filter(|(_, is_met)| !**is_met) {
            let problem =
                Problem::of_file(&UNUSED_KEEP, settings::FILE, "names no rows that stand twice").column("repeats.keep").found(name);
            problems.push(problem.instead("remove it"));
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_name_keeps_one_repeat() {
        let name = name("hours", "2026-09-01", Some("2026-09-12"), 12);
        assert_eq!(name, "hours 2026-09-01 to 2026-09-12 (12 rows)");
        let mut kept = Kept::of(&["Hours  2026-09-01 to 2026-09-12 (12 rows)".to_owned(), "orders 2026-09-03 (2 rows)".to_owned()]);
        assert_eq!(kept.refuses(&name), None);
        let advice = kept.refuses(&name).unwrap();
        assert!(
            advice.ends_with(
                "keep = [\"Hours  2026-09-01 to 2026-09-12 (12 rows)\", \"orders 2026-09-03 (2 rows)\", \"hours 2026-09-01 to 2026-09-12 (12 rows)\"]"
            ),
            "{advice}"
        );
        let mut problems = Vec::new();
        kept.warn_of_unmet(&mut problems);
        assert_eq!(
            problems.iter().map(ToString::to_string).collect::<Vec<_>>(),
            ["shop.toml, key repeats.keep: 'orders 2026-09-03 (2 rows)' names no rows that stand twice; remove it"]
        );
    }
}
