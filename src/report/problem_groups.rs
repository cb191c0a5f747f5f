//! Problems of one kind as one group: how many they are, what they come to, and where the first of them stand.

use crate::quantity::millionths::Money;
use crate::reading::problem::printable;
use crate::reading::{Place, Problem, ProblemKind, Severity};
use crate::shop::specification::TABLES;
use std::cmp::Reverse;
use std::collections::BTreeMap;

/// How many places a group shows.
const PLACES: usize = 3;
/// Letters of a name shown with its place.
const LETTERS: usize = 40;

/// All problems of one kind, table by table and row by row.
#[derive(Debug)]
pub struct Group<'a> {
    /// What they have in common.
    pub kind: &'static ProblemKind,
    /// The problems; at least one.
    pub problems: Vec<&'a Problem>,
}

/// Groups the problems of one severity, in the order to look at them.
///
/// Errors and assumptions come table by table. Warnings come by the money at stake, dearest first; those with none known come
/// after, the smaller group first, so that a habit repeated fifty times does not bury the one slip.
#[must_use]
pub fn grouped(problems: &[Problem], severity: Severity) -> Vec<Group<'_>> {
    let mut by_kind: BTreeMap<&'static ProblemKind, Vec<&Problem>> = BTreeMap::new();
    for problem in problems.iter().filter(|problem| problem.severity == severity) {
        by_kind.entry(problem.kind).or_default().push(problem);
    }
    let mut groups: Vec<Group<'_>> = by_kind.into_iter().map(|(kind, problems)| Group { kind, problems }).collect();
    for group in &mut groups {
        group.problems.sort_by_key(|problem| row_by_row(problem));
    }
    groups.sort_by_key(|group| row_by_row(group.problems[0]));
    if severity == Severity::Warning {
        groups.sort_by_key(|group| (Reverse(group.at_stake()), group.problems.len()));
    }
    groups
}

/// Table by table and row by row, as she will correct them; what is of the folder or the settings comes first.
pub(super) fn row_by_row(problem: &Problem) -> (Option<usize>, &str, Option<Place>) {
    (TABLES.iter().position(|table| table.file() == problem.file), &problem.file, problem.place)
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
    pub fn is_shown_as_one(&self) -> bool {
        self.problems.len() > 1 && !self.kind.many.is_empty()
    }

    /// The first three places: "orders.csv, row 18 ('10.00'), row 21 ('6.00'), row 31 ('2.75') and 51 more".
    #[must_use]
    pub fn places(&self) -> String {
        let mut file = None;
        let mut shown: Vec<String> = Vec::new();
        let of_many_columns = self.problems.iter().any(|problem| problem.column != self.problems[0].column);
        for problem in &self.problems {
            let place = place(problem, of_many_columns);
            // An item that ran out twice is named once.
            if shown.len() == PLACES || (problem.place.is_none() && shown.contains(&place)) {
                continue;
            }
            // A name that is of no row stands for itself.
            let is_new = file.replace(&problem.file) != Some(&problem.file) && (problem.place.is_some() || problem.found.is_none());
            let name = printable(&problem.file);
            shown.push(match (is_new, place.is_empty()) {
                (true, true) => name,
                (true, false) => format!("{name}, {place}"),
                (false, _) => place,
            });
        }
        let rest = self.problems.len() - shown.len();
        if rest > 0 {
            return format!("{} and {rest} more", shown.join(", "));
        }
        match shown.split_last() {
            Some((last, first)) if !first.is_empty() => format!("{} and {last}", first.join(", ")),
            _ => shown.concat(),
        }
    }
}

/// Where a problem stands in its file, and what is there; a row's column only where the group's problems are of several.
fn place(problem: &Problem, of_many_columns: bool) -> String {
    let row = problem.place.map(|place| if problem.is_of_table() { format!("row {}", place.row) } else { format!("line {}", place.line) });
    let found = problem.found.as_deref().map(|found| format!("'{}'", shortened(found)));
    let column = problem.column.as_deref().filter(|_| row.is_none() || of_many_columns).map(printable);
    match (row, found, column) {
        (Some(row), Some(found), _) => format!("{row} ({found})"),
        (Some(row), None, Some(column)) => format!("{row} ({column})"),
        (Some(row), None, None) => row,
        (None, Some(found), Some(column)) => format!("{column} ({found})"),
        (None, Some(found), None) => found,
        (None, None, column) => column.unwrap_or_default(),
    }
}

fn shortened(text: &str) -> String {
    let text = printable(text);
    if text.chars().count() <= LETTERS { text } else { text.chars().take(LETTERS - 1).chain(['…']).collect() }
}

#[cfg(test)]
mod tests {
    use super::*;

    static TIMER: ProblemKind = ProblemKind::warning("timer", "timers ran long", "Check them.");
    static PRICE: ProblemKind = ProblemKind::warning("price", "prices are low", "Check them.");
    static ORDER: ProblemKind = ProblemKind::warning("order", "orders have no hours", "Log them.");
    static UNSOLD: ProblemKind = ProblemKind::warning("unsold", "designs were never sold", "Remove them.");

    fn at(kind: &'static ProblemKind, file: &str, row: u32, found: &str) -> Problem {
        Problem::of_file(kind, file, "is odd").at(Place { row, line: row }).column("x").found(found)
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
    }

    #[test]
    fn a_group_shows_its_first_three_places() {
        let shown = |problems: &[Problem]| grouped(problems, Severity::Warning)[0].places();
        let mut problems = vec![at(&PRICE, "hours.csv", 2, "z"), at(&PRICE, "orders.csv", 31, "2.75")];
        assert_eq!(shown(&problems), "orders.csv, row 31 ('2.75') and hours.csv, row 2 ('z')");
        problems.push(at(&PRICE, "orders.csv", 18, "10.00"));
        assert_eq!(shown(&problems), "orders.csv, row 18 ('10.00'), row 31 ('2.75') and hours.csv, row 2 ('z')");
        problems.extend((100..151).map(|row| at(&PRICE, "orders.csv", row, "1")));
        assert_eq!(shown(&problems), "orders.csv, row 18 ('10.00'), row 31 ('2.75'), row 100 ('1') and 51 more");
        let names = ["gel", "salt"].map(|name| Problem::of_file(&PRICE, "purchases.csv", "was never used").found(name));
        assert_eq!(shown(&names), "'gel' and 'salt'");
        let again = ["gel", "gel", "salt"].map(|name| Problem::of_file(&PRICE, "purchases.csv", "ran out").found(name));
        assert_eq!(shown(&again), "'gel', 'salt' and 1 more");
        let files = ["hours.csv", "orders.csv"].map(|file| Problem::of_file(&PRICE, file, "the file is empty"));
        assert_eq!(shown(&files), "orders.csv and hours.csv");
        let blank =
            [2, 3].map(|row| Problem::of_file(&PRICE, "orders.csv", "the cell is blank").at(Place { row, line: row }).column("date"));
        assert_eq!(shown(&blank), "orders.csv, row 2 and row 3");
        let [first, second] = blank;
        assert_eq!(shown(&[first, second.column("order")]), "orders.csv, row 2 (date) and row 3 (order)");
    }

    #[test]
    fn a_long_name_is_cut_where_places_are_shown() {
        let name = "lantern ".repeat(20);
        let places = grouped(&[at(&PRICE, "orders.csv", 2, &name)], Severity::Warning)[0].places();
        assert_eq!(places, "orders.csv, row 2 ('lantern lantern lantern lantern lantern…')");
    }
}
