//! The rows that problems are in, as their files have them: cells of known columns only, for the others may name customers.

use super::folder::Folder;
use super::settings::Settings;
use crate::reading::{Known, Problem};
use std::collections::BTreeMap;

/// The row of a problem.
#[derive(Debug, Clone, PartialEq, Eq)]
pub(crate) struct Excerpt {
    /// Its cells of known columns.
    pub cells: Vec<String>,
    /// Which of them the problem is of.
    pub at: usize,
}

impl Folder {
    /// The row of each problem that is of one cell of a table; `None` for the others.
    #[must_use]
    pub(crate) fn excerpts(&self, problems: &[&Problem]) -> Vec<Option<Excerpt>> {
        let mut excerpts = vec![None; problems.len()];
        let settings = self.settings(&mut Vec::new());
        let sources = self.sources();
        for source in sources.iter() {
            let is_here = |problem: &Problem| problem.place.is_some_and(|place| place.source == source.id) && problem.file == source.name;
            let here: Vec<usize> = (0..problems.len()).filter(|at| is_here(problems[*at])).collect();
            if here.is_empty() {
                continue;
            }
            let reading = settings.as_ref().map(|settings: &Settings| settings.reading(source.table.name)).unwrap_or_default();
            let cells = source.cells(&reading);
            let rows: BTreeMap<u32, usize> = cells.places().iter().enumerate().map(|(row, place)| (place.row, row)).collect();
            let known = Known { specification: source.table, columns: &reading.columns };
            let columns: Vec<(usize, Vec<&str>)> = (0..cells.headings.len())
                .filter(|at| cells.is_kept(*at))
                .filter_map(|at| Some((known.column(&cells.headings[at])?, cells.column(at).collect())))
                .collect();
            for at in here {
                let Problem { place: Some(place), column: Some(column), .. } = problems[at] else { continue };
                let column = source.table.column(column).and_then(|wanted| columns.iter().position(|(column, _)| *column == wanted));
                if let (Some(row), Some(column)) = (rows.get(&place.row), column) {
                    let cells = columns.iter().map(|(_, texts)| texts[*row].to_owned()).collect();
                    excerpts[at] = Some(Excerpt { cells, at: column });
                }
            }
        }
        excerpts
    }
}
