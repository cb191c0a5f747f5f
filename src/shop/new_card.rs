//! A designs card for a shop that has none: what its orders sell, names that look alike as one design.

use super::designs::Designs;
use super::kinds::UNSOLD_DESIGN;
use super::orders::Orders;
use super::table_edit::TableEdit;
use crate::ids::{Design, IdVec};
use crate::reading::Problem;
use crate::reading::nearest::bare;
use std::cmp::Reverse;
use std::collections::{BTreeMap, BTreeSet};

/// The first line of a new card.
pub const HEADINGS: &str = "design,tier,size,also_called\n";

/// A row of the new card.
#[derive(Debug, Clone, PartialEq, Eq, PartialOrd, Ord)]
pub(crate) struct CardRow {
    /// The design: of names that look alike the one most rows have.
    pub design: String,
    /// The others, sorted.
    pub also_called: Vec<String>,
}

/// The rows of a card for what the orders sell and the hours name, sorted. Names that differ in letter case, blanks, punctuation or a plural
/// alone become one design, but for those in `apart`.
#[must_use]
pub fn rows(designs: &Designs, orders: &Orders, problems: &[Problem], apart: &[String]) -> Vec<CardRow> {
    let mut sold = IdVec::<Design, usize>::filled(0, designs.names.len());
    for design in orders.design.iter().flatten() {
        sold[*design] += 1;
    }
    let unsold = problems.iter().filter(|problem| *problem.kind == UNSOLD_DESIGN).filter_map(|problem| problem.found.as_deref());
    let unsold: BTreeSet<&str> = unsold.filter(|name| !name.contains(';')).collect();
    let named = designs.names.pairs().map(|(design, name)| (name, sold[design])).chain(unsold.into_iter().map(|name| (name, 0)));
    let mut alike: BTreeMap<String, Vec<(Reverse<usize>, &str)>> = BTreeMap::new();
    for (name, times) in named {
        let key = if apart.iter().any(|apart| apart == name) { format!("={name}") } else { bare(name) };
        alike.entry(key).or_default().push((Reverse(times), name));
    }
    let row = |mut names: Vec<(Reverse<usize>, &str)>| {
        names.sort_unstable();
        let mut names = names.into_iter().map(|(_, name)| name.to_owned());
        let design = names.next().unwrap_or_default();
        let mut also_called: Vec<String> = names.collect();
        also_called.sort();
        CardRow { design, also_called }
    };
    // A name of hours alone that looks like none sold may be a slip, which stays an error.
    let is_sold = |names: &Vec<(Reverse<usize>, &str)>| names.iter().any(|(times, _)| times.0 > 0);
    let mut rows: Vec<CardRow> = alike.into_values().filter(is_sold).map(row).collect();
    rows.sort();
    rows
}

/// Adds the rows to a card without any. `None` where its headings leave no place for them.
pub fn add(card: &mut TableEdit<'_>, rows: &[CardRow]) -> Option<()> {
    for row in rows {
        let others = (!row.also_called.is_empty()).then(|| ("also_called", row.also_called.join("; ")));
        card.push(&[("design", row.design.clone())].into_iter().chain(others).collect::<Vec<_>>())?;
    }
    Some(())
}
