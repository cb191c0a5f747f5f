//! Problems of one kind as one group, in the order to look at them.

use crate::quantity::millionths::Money;
use crate::reading::{Place, Problem, ProblemKind, Severity};
use crate::shop::sources::table_of_source;
use crate::shop::specification::TABLES;
use std::cmp::Reverse;
use std::collections::BTreeMap;

/// All problems of one kind, table by table and row by row; of warnings the dearest first.
#[derive(Debug)]
pub struct Group<'a> {
    /// What they have in common.
    pub kind: &'static ProblemKind,
    /// The problems, at least one.
    pub problems: Vec<&'a Problem>,
}

/// Groups the problems of one severity, in the order to look at them.
///
/// Errors and assumptions come table by table. Warnings come by the money at stake, dearest first, within a group as well; those with
/// none known come after, the smaller group first. So a habit repeated fifty times does not bury the one slip.
#[must_use]
pub fn grouped(problems: &[Problem], severity: Severity) -> Vec<Group<'_>> {
    let mut by_kind: BTreeMap<&'static ProblemKind, Vec<&Problem>> = BTreeMap::new();
    for problem in row_by_row(problems, severity) {
        by_kind.entry(problem.kind).or_default().push(problem);
    }
    let mut groups: Vec<Group<'_>> = by_kind.into_iter().map(|(kind, problems)| Group { kind, problems }).collect();
    groups.sort_by_key(|group| place(group.problems[0]));
    if severity == Severity::Warning {
        for group in &mut groups {
            group.problems.sort_by_key(|problem| Reverse(problem.at_stake));
        }
        groups.sort_by_key(|group| (Reverse(group.at_stake()), group.problems.len()));
    }
    groups
}

/// The problems of one severity, table by table and row by row, as she will correct them; what is of the folder or the settings
/// comes first.
#[must_use]
pub(crate) fn row_by_row(problems: &[Problem], severity: Severity) -> Vec<&Problem> {
    let mut all: Vec<&Problem> = problems.iter().filter(|problem| problem.severity == severity).collect();
    all.sort_by_key(|problem| place(problem));
    all
}

fn place(problem: &Problem) -> (Option<usize>, &str, Option<Place>) {
    let table = table_of_source(&problem.file).map(|table| table.name);
    (TABLES.iter().position(|of| Some(of.name) == table), &problem.file, problem.place)
}

impl Group<'_> {
    /// The money at stake in all of them; `None` where it is known of none.
    #[must_use]
    pub fn at_stake(&self) -> Option<Money> {
        let known: Vec<Money> = self.problems.iter().filter_map(|problem| problem.at_stake).collect();
        (!known.is_empty()).then(|| known.into_iter().sum())
    }

    /// Whether it is shown as one: a single problem says more by itself.
    #[must_use]
    pub(crate) fn is_shown_as_one(&self) -> bool {
        self.problems.len() > 1 && !self.kind.many.is_empty()
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    static TIMER: ProblemKind = ProblemKind::warning("timer", "timers ran long", "Check them.");
    static PRICE: ProblemKind = ProblemKind::warning("price", "prices are low", "Check them.");
    static ORDER: ProblemKind = ProblemKind::warning("order", "orders have no hours", "Log them.");
    static UNSOLD: ProblemKind = ProblemKind::warning("unsold", "designs were never sold", "Remove them.");

    fn at(kind: &'static ProblemKind, file: &str, row: u32, found: &str) -> Problem {
        Problem::of_file(kind, file, "is odd").at(Place::of_row(row, row)).column("x").found(found)
    }

    #[test]
    fn the_dearest_group_comes_first_then_the_smaller() {
        let mut problems = vec![at(&UNSOLD, "designs.csv", 2, "a"), at(&UNSOLD, "designs.csv", 3, "b"), at(&ORDER, "orders.csv", 9, "c")];
        problems.extend((2..8).map(|row| at(&PRICE, "orders.csv", row, "2.75").at_stake(Money(40_000_000))));
        problems.push(at(&TIMER, "hours.csv", 271, "760").at_stake(Money(253_000_000)));
        let keys = |problems: &[Problem]| grouped(problems, Severity::Warning).iter().map(|group| group.kind.key).collect::<Vec<_>>();
        assert_eq!(keys(&problems), ["timer", "price", "order", "unsold"]);
        problems.push(at(&PRICE, "orders.csv", 8, "2.75").at_stake(Money(40_000_000)));
        assert_eq!(keys(&problems), ["price", "timer", "order", "unsold"], "a group's money is that of all its problems");
        problems.reverse();
        assert_eq!(keys(&problems), ["price", "timer", "order", "unsold"], "whatever order they were found in");
        assert!(grouped(&problems, Severity::Error).is_empty());
        problems.push(at(&PRICE, "orders.csv", 311, "4.00").at_stake(Money(102_000_000)));
        let rows = grouped(&problems, Severity::Warning)[0].problems.iter().map(|problem| problem.place.unwrap().row).collect::<Vec<_>>();
        assert_eq!(rows, [311, 2, 3, 4, 5, 6, 7, 8], "the dearest first, then row by row");
    }
}
