//! Groups of rows that stand in several files: which file's rows count.

use super::rows::{At, Cell, Rows};
use super::{Differing, Groups, Kept, Merger};
use crate::quantity::Day;
use crate::reading::table::{Column, Table};
use std::collections::{BTreeMap, BTreeSet};

/// Decides each group that stands in several files, and keeps the rows that count. Returns those that differ, in the order of their texts,
/// and all rows of the groups decided.
pub(super) fn decide(merger: &mut Merger<'_>, groups: Groups) -> (Vec<Differing>, BTreeSet<At>) {
    let rows = merger.rows;
    let Some(column) = rows.place(groups.group) else { return Default::default() };
    let mut by_text: BTreeMap<usize, BTreeMap<usize, Vec<At>>> = BTreeMap::new();
    for (table, of) in rows.tables.iter().enumerate() {
        for at in (0..of.rows()).map(|row| At { table, row }) {
            if let Cell::Text(text) = rows.cell(at, column) {
                by_text.entry(text).or_default().entry(table).or_default().push(at);
            }
        }
    }
    let decider = Decider {
        rows,
        agreed: groups.agreed.iter().filter_map(|column| rows.place(column)).collect(),
        ends: rows.tables.iter().map(|table| last_day(table, groups.day)).collect(),
    };
    let (mut differing, mut decided) = (Vec::new(), BTreeSet::new());
    for files in by_text.into_values().filter(|files| files.len() > 1) {
        decided.extend(files.values().flatten());
        let Some(counted) = decider.file_with_all(&files, |_| true) else {
            differing.push(decider.differing(&files, groups.group));
            let counted = differing.last().map_or(0, |differing| differing.counted);
            merger.kept.extend(files[&counted].iter().map(|at| Kept { first: *at, more: Vec::new() }));
            continue;
        };
        let mut kept: Vec<Kept> = files[&counted].iter().map(|at| Kept { first: *at, more: Vec::new() }).collect();
        let mut known = rows.columns_of(counted);
        for (table, others) in files.iter().filter(|(table, _)| **table != counted) {
            let own = rows.columns_of(*table);
            for (at, place) in others.iter().zip(decider.places(&files[&counted], others).unwrap_or_default()) {
                merger.repeated += 1;
                merger.fuller += usize::from(!rows.say_the_same(*at, kept[place].first, &decider.agreed));
                if own & !known != 0 {
                    kept[place].more.push(*at);
                }
            }
            known |= own;
        }
        merger.kept.append(&mut kept);
    }
    differing.sort_by(|one, other| one.group.cmp(&other.group));
    (differing, decided)
}

/// Compares the rows of groups.
struct Decider<'a> {
    rows: &'a Rows<'a>,
    /// Columns whose cells agree over a group's rows.
    agreed: Vec<usize>,
    /// The last day of each file.
    ends: Vec<Option<Day>>,
}

impl Decider<'_> {
    /// Of some files, the one that holds the rows of all others; of several such the one with most columns.
    fn file_with_all(&self, files: &BTreeMap<usize, Vec<At>>, is_among: impl Fn(usize) -> bool) -> Option<usize> {
        let among = || files.iter().filter(|(table, _)| is_among(**table));
        let holds_all = |rows: &[At]| among().all(|(_, others)| self.places(rows, others).is_some());
        let with_all = among().filter(|(_, rows)| holds_all(rows)).map(|(table, _)| *table);
        with_all.min_by_key(|table| std::cmp::Reverse(self.rows.columns_of(*table).count_ones()))
    }

    /// The row that each of the others stands in, each in one of its own; `None` where one stands in none.
    fn places(&self, rows: &[At], others: &[At]) -> Option<Vec<usize>> {
        let is_same_group = self.agreed.iter().all(|column| fits(self.agreed_on(others, *column), self.agreed_on(rows, *column)));
        if !is_same_group || others.len() > rows.len() {
            return None;
        }
        // A maximum matching by augmenting paths (Kuhn 1955).
        let mut holder: Vec<Option<usize>> = vec![None; rows.len()];
        for other in 0..others.len() {
            if !self.place(rows, others, other, &mut holder, &mut vec![false; rows.len()]) {
                return None;
            }
        }
        let mut places = vec![0; others.len()];
        for (row, other) in holder.iter().enumerate().filter_map(|(row, other)| Some((row, (*other)?))) {
            places[other] = row;
        }
        Some(places)
    }

    /// Finds a row for one of the others, moving those placed before where they can stand elsewhere.
    fn place(&self, rows: &[At], others: &[At], other: usize, holder: &mut [Option<usize>], tried: &mut [bool]) -> bool {
        for row in 0..rows.len() {
            if tried[row] || !self.stands_in(others[other], rows[row]) {
                continue;
            }
            tried[row] = true;
            let moved = holder[row].is_none_or(|before| self.place(rows, others, before, holder, tried));
            if moved {
                holder[row] = Some(other);
                return true;
            }
        }
        false
    }

    /// Whether a row says nothing that another does not, in the columns that both files have.
    fn stands_in(&self, row: At, other: At) -> bool {
        let both = self.rows.columns_of(row.table) & self.rows.columns_of(other.table);
        let mut columns = self.rows.in_columns(both).filter(|column| !self.agreed.contains(column));
        columns.all(|column| fits(Some(self.rows.cell(row, column)), Some(self.rows.cell(other, column))))
    }

    /// What a group's rows of one file say in a column whose cells agree.
    fn agreed_on(&self, rows: &[At], column: usize) -> Option<Cell> {
        let table = rows.first()?.table;
        if self.rows.columns_of(table) >> column & 1 == 0 {
            return None;
        }
        let filled = rows.iter().find(|at| self.rows.is_filled(**at, column));
        filled.or(rows.first()).map(|at| self.rows.cell(*at, column))
    }

    /// A group of which no file holds the rows of all others: the latest file counts.
    fn differing(&self, files: &BTreeMap<usize, Vec<At>>, group: &'static str) -> Differing {
        let latest = files.keys().map(|table| self.ends[*table]).max().flatten();
        let among_latest = self.file_with_all(files, |table| self.ends[table] == latest);
        let counted = among_latest.or_else(|| files.keys().copied().find(|table| self.ends[*table] == latest)).unwrap_or(0);
        let is_held = |others: &[At]| self.places(&files[&counted], others).is_some();
        let first = files[&counted][0];
        Differing {
            group: self.rows.text(first, group).unwrap_or_default().to_owned(),
            counted,
            passed_over: files.iter().filter(|(table, others)| **table != counted && !is_held(others)).map(|(table, _)| *table).collect(),
            is_open: among_latest.is_none(),
            place: self.rows.tables[first.table].places[first.row],
        }
    }
}

/// Whether a cell says nothing that another does not; `None` is the cell of a column that its file lacks.
fn fits(cell: Option<Cell>, other: Option<Cell>) -> bool {
    let (Some(cell), Some(other)) = (cell, other) else { return true };
    cell == Cell::Blank || cell == other
}

fn last_day(table: &Table, column: &str) -> Option<Day> {
    match table.columns.get(column)? {
        Column::Day(days) => days.iter().flatten().copied().max(),
        _ => None,
    }
}
