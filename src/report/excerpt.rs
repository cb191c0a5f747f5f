//! A problem with the row it is in, a mark under the cell, as compilers show errors.

use super::words::Currency;
use crate::reading::problem::printable;
use crate::reading::{Advice, Problem, Severity};
use crate::shop::excerpt::Excerpt;
use annotate_snippets::{AnnotationKind, Level, Renderer, Snippet};

/// Letters of a cell that are shown.
const LETTERS: usize = 30;

/// The problem in a few lines; `is_coloured` where the terminal shows colours.
#[must_use]
pub(crate) fn excerpt(problem: &Problem, row: &Excerpt, currency: Option<&Currency>, is_coloured: bool) -> String {
    let cells: Vec<String> = row.cells.iter().map(|cell| shortened(cell)).collect();
    let start: usize = cells[..row.at].iter().map(|cell| cell.len() + ", ".len()).sum();
    let end = start + cells[row.at].len();
    let found = problem.found.as_deref().map_or_else(String::new, |found| format!("'{}' ", printable(found)));
    let money = problem.at_stake.and_then(|money| Some(format!(" ({} at stake)", currency?.exact(money)))).unwrap_or_default();
    let title = format!("{found}{}{money}", printable(&problem.what));
    let advice = problem.instead.as_ref().map_or_else(String::new, |advice: &Advice| printable(&advice.to_string()));
    let level = if problem.severity == Severity::Error { Level::ERROR } else { Level::WARNING };
    let line = problem.place.map_or(1, |place| place.row) as usize;
    let source = cells.join(", ");
    let snippet = Snippet::source(source)
        .line_start(line)
        .path(printable(&problem.file))
        .annotation(AnnotationKind::Primary.span(start..end).label(advice));
    let renderer = if is_coloured { Renderer::styled() } else { Renderer::plain() };
    renderer.render(&[level.primary_title(title).element(snippet)]) + "\n"
}

fn shortened(text: &str) -> String {
    let text = printable(text);
    if text.chars().count() <= LETTERS { text } else { text.chars().take(LETTERS - 1).chain(['…']).collect() }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::reading::Place;
    use crate::reading::problem_kind::NOT_A_DATE;

    #[test]
    fn the_mark_stands_under_the_cell() {
        let problem = Problem::of_file(&NOT_A_DATE, "orders.csv", "is not a date").at(Place::of_row(4, 4)).column("date");
        let problem = problem.found("7 Marhc 2026").instead("write 2026-03-07");
        let row = Excerpt { cells: ["A1", "7 Marhc 2026", "moon"].map(String::from).into(), at: 1 };
        let shown = excerpt(&problem, &row, None, false);
        let lines: Vec<&str> = shown.lines().map(str::trim_end).collect();
        assert_eq!(lines[0], "error: '7 Marhc 2026' is not a date", "{shown}");
        assert!(lines[1].ends_with("orders.csv:4:5"), "{shown}");
        let (row, marks) = (lines[3], lines[4]);
        assert!(row.starts_with("4 |") && row.ends_with("A1, 7 Marhc 2026, moon"), "{shown}");
        assert_eq!(marks.find('^').unwrap(), row.find("7 Marhc").unwrap(), "{shown}");
        assert!(marks.ends_with("^^^^^^^^^^^^ write 2026-03-07"), "{shown}");
        assert!(excerpt(&problem, &Excerpt { cells: vec!["\u{1b}[1m".into()], at: 0 }, None, false).chars().all(|c| c != '\u{1b}'));
    }
}
