//! Where the problems of a group stand, in words.

use crate::reading::Problem;
use crate::reading::problem::printable;
use crate::review::problem_groups::Group;

/// How many places a group shows.
const PLACES: usize = 3;
/// Letters of a name shown with its place.
const LETTERS: usize = 40;

/// The first three places: "orders.csv, row 18 ('10.00'), row 21 ('6.00'), row 31 ('2.75') and 51 more".
#[must_use]
pub fn places(group: &Group<'_>) -> String {
    let mut file = None;
    let mut shown: Vec<String> = Vec::new();
    let of_many_columns = group.problems.iter().any(|problem| problem.column != group.problems[0].column);
    for problem in &group.problems {
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
    let rest = group.problems.len() - shown.len();
    if rest > 0 {
        return format!("{} and {rest} more", shown.join(", "));
    }
    match shown.split_last() {
        Some((last, first)) if !first.is_empty() => format!("{} and {last}", first.join(", ")),
        _ => shown.concat(),
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
    use crate::reading::{Place, ProblemKind, Severity};
    use crate::review::problem_groups::grouped;

    static PRICE: ProblemKind = ProblemKind::warning("price", "prices are low", "Check them.");

    fn at(kind: &'static ProblemKind, file: &str, row: u32, found: &str) -> Problem {
        Problem::of_file(kind, file, "is odd").at(Place::of_row(row, row)).column("x").found(found)
    }

    #[test]
    fn a_group_shows_its_first_three_places() {
        let shown = |problems: &[Problem]| places(&grouped(problems, Severity::Warning)[0]);
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
            [2, 3].map(|row| Problem::of_file(&PRICE, "orders.csv", "the cell is blank").at(Place::of_row(row, row)).column("date"));
        assert_eq!(shown(&blank), "orders.csv, row 2 and row 3");
        let [first, second] = blank;
        assert_eq!(shown(&[first, second.column("order")]), "orders.csv, row 2 (date) and row 3 (order)");
    }

    #[test]
    fn a_long_name_is_cut_where_places_are_shown() {
        let name = "lantern ".repeat(20);
        let problems = [at(&PRICE, "orders.csv", 2, &name)];
        assert_eq!(places(&grouped(&problems, Severity::Warning)[0]), "orders.csv, row 2 ('lantern lantern lantern lantern lantern…')");
    }
}
