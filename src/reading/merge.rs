//! Several files of one table as one table: rows that stand in several files count once.
//!
//! Rows are compared as they were read, in the columns that both files have; letter case and blanks in names weigh nothing. A row counts as
//! often as in the file that has it most: so an export that overlaps another adds nothing, and two equal rows of one file stay two. What
//! only one of the files has a column for is taken from that file. Two rows are never compared where each file has an amount that the other
//! has no column for: one file with minutes and one with start and end have nothing in common that tells two stretches of work apart.
//!
//! Rows may belong to groups (an order's rows) that are only whole together. There a blank cell says less than a filled one: where each row
//! of one file stands in the other, as it is or filled further, the other's rows count. Where neither file holds the other's rows so, the
//! file whose days run latest decides.

mod groups;
mod rows;

use super::problem::Place;
use super::specification::TableSpecification;
use super::table::{Column, ColumnRead, Table};
use crate::ids::Names;
use rows::{At, Cell, Rows};
use std::collections::{BTreeMap, BTreeSet, HashMap};

/// The columns by which rows are groups, and what the cells of a group have in common.
#[derive(Debug, Clone, Copy)]
pub struct Groups {
    /// A text column: rows with the same text are one group.
    pub group: &'static str,
    /// A column of days, by which files are early or late.
    pub day: &'static str,
    /// Columns whose cells agree over a group's rows; a blank one is as the others.
    pub agreed: &'static [&'static str],
    /// Columns of words in which a blank says the first word.
    pub first_word_if_blank: &'static [&'static str],
}

/// A group whose rows differ between files.
#[derive(Debug, Clone, PartialEq, Eq)]
pub(crate) struct Differing {
    /// The group's text.
    pub group: String,
    /// The file whose rows count, by its place among those merged.
    pub counted: usize,
    /// The files whose rows do not.
    pub passed_over: Vec<usize>,
    /// Whether another file ends the same day, so that nothing says which to count.
    pub is_open: bool,
    /// The first of the rows that count.
    pub place: Place,
}

/// The tables of several files as one.
#[derive(Debug)]
pub(crate) struct Merged {
    /// The rows that count, file by file.
    pub table: Table,
    /// Rows left out because another file has them, too.
    pub repeated: usize,
    /// Of these, the rows that say more in one file than in the other: a column that the other lacks, or a cell that is blank there.
    pub fuller: usize,
    /// Groups whose rows differ between files, in the order of their texts.
    pub differing: Vec<Differing>,
}

/// A row that counts: where it stands, and where else it stands with columns that the first file lacks.
struct Kept {
    first: At,
    more: Vec<At>,
}

/// Merges the tables of several files, which were read by one specification.
#[must_use]
pub(crate) fn merge(specification: &TableSpecification, mut tables: Vec<Table>, groups: Option<Groups>) -> Merged {
    if tables.len() < 2 {
        let table = tables.pop().unwrap_or_else(|| Table::without_rows(specification));
        return Merged { table, repeated: 0, fuller: 0, differing: Vec::new() };
    }
    let rows = Rows::of(specification, &tables, groups);
    let mut merger = Merger { rows: &rows, kept: Vec::new(), repeated: 0, fuller: 0 };
    let (differing, decided) = groups.map(|groups| groups::decide(&mut merger, groups)).unwrap_or_default();
    let of_groups = merger.kept.len();
    for (table, of) in tables.iter().enumerate() {
        let left: Vec<At> = (0..of.rows()).map(|row| At { table, row }).filter(|at| !decided.contains(at)).collect();
        merger.add(table, &left, of_groups);
    }
    let Merger { mut kept, repeated, fuller, .. } = merger;
    kept.sort_by_key(|kept| kept.first);
    Merged { table: joined(specification, &tables, &kept), repeated, fuller, differing }
}

/// Collects the rows that count.
struct Merger<'a> {
    rows: &'a Rows<'a>,
    kept: Vec<Kept>,
    repeated: usize,
    fuller: usize,
}

impl Merger<'_> {
    /// The columns that a kept row has.
    fn columns(&self, kept: &Kept) -> u32 {
        kept.more.iter().fold(self.rows.columns_of(kept.first.table), |columns, at| columns | self.rows.columns_of(at.table))
    }

    /// Adds rows of one file: those that are kept already count once. The rows kept first, of groups decided, are no others'.
    fn add(&mut self, table: usize, added: &[At], of_groups: usize) {
        let own = self.rows.columns_of(table);
        // The rows kept of earlier files, by the columns they have; of equal rows the first is taken first.
        let mut earlier: BTreeMap<u32, HashMap<Vec<Cell>, Vec<usize>>> = BTreeMap::new();
        for (at, kept) in self.kept.iter().enumerate().skip(of_groups).rev() {
            let columns = self.columns(kept);
            if self.rows.may_be_compared(columns, own) {
                let alike = earlier.entry(columns).or_default();
                alike.entry(self.values(kept, columns & own)).or_default().push(at);
            }
        }
        let mut columns: Vec<u32> = earlier.keys().copied().collect();
        columns.sort_by_key(|columns| std::cmp::Reverse((columns & own).count_ones()));
        let mut new = Vec::new();
        for at in added {
            let same = columns.iter().find_map(|columns| {
                let alike = earlier.get_mut(columns)?.get_mut(&self.rows.values(*at, columns & own))?;
                Some((*columns, alike.pop()?))
            });
            match same {
                None => new.push(Kept { first: *at, more: Vec::new() }),
                Some((columns, kept)) => {
                    self.repeated += 1;
                    self.fuller += usize::from(!self.rows.say_the_same(*at, self.kept[kept].first, &[]));
                    if own & !columns != 0 {
                        self.kept[kept].more.push(*at);
                    }
                }
            }
        }
        self.kept.append(&mut new);
    }

    /// What a kept row says in some columns, each cell from the first file that has the column.
    fn values(&self, kept: &Kept, columns: u32) -> Vec<Cell> {
        self.rows.in_columns(columns).map(|column| self.rows.cell(self.rows.source(kept, column), column)).collect()
    }
}

/// The rows that count as one table; texts are numbered anew.
fn joined(specification: &TableSpecification, tables: &[Table], kept: &[Kept]) -> Table {
    let places = kept.iter().map(|kept| tables[kept.first.table].places[kept.first.row]).collect();
    let mut joined = Table { places, ..Table::without_rows(specification) };
    for (to, Kept { first, .. }) in kept.iter().enumerate() {
        joined.wrong.extend(tables[first.table].wrong.range((first.row, "")..(first.row + 1, "")).map(|(_, column)| (to, *column)));
    }
    for column in specification.columns {
        let name = column.name;
        if tables.iter().all(|table| table.lacks(name)) {
            joined.lacking.insert(name);
            continue;
        }
        let Some(like) = tables.iter().find_map(|table| table.columns.get(name)) else { continue };
        let has = |at: &&At| tables[at.table].columns.contains_key(name);
        // Each row's column with the row in it; none where no file with the row has the column.
        let cells = || {
            kept.iter().map(|kept| {
                let at = std::iter::once(&kept.first).chain(&kept.more).find(has)?;
                Some((tables[at.table].columns.get(name)?, at.row))
            })
        };
        macro_rules! values {
            ($kind:ident) => {
                Column::$kind(
                    cells()
                        .map(|cell| match cell {
                            Some((Column::$kind(values), row)) => values[row],
                            _ => None,
                        })
                        .collect(),
                )
            };
        }
        let column = match like {
            Column::Text(..) => {
                let mut names = Names::default();
                let text = |cell: Option<(&Column, usize)>| match cell {
                    Some((Column::Text(values, texts), row)) => values[row].map(|id| names.intern(texts.text(id))),
                    _ => None,
                };
                let values = cells().map(text).collect();
                Column::Text(values, names)
            }
            Column::Day(_) => values!(Day),
            Column::Millionths(_) => values!(Millionths),
            Column::Number(_) => values!(Number),
            Column::Price(_) => values!(Price),
            Column::Whole(_) => values!(Whole),
            Column::Span(_) => values!(Span),
            Column::Percent(_) => values!(Percent),
        };
        joined.columns.insert(name, column);
        let mut formats = tables.iter().filter_map(|table| table.format_of(name));
        // A format is the table's where all its files that have one have the same.
        let format = formats.next().filter(|first| formats.all(|other| other == *first)).map(str::to_owned);
        joined.understood.push(ColumnRead { column: name, format, ..ColumnRead::default() });
    }
    let ignored: BTreeSet<&String> = tables.iter().flat_map(|table| &table.ignored).collect();
    joined.ignored = ignored.into_iter().cloned().collect();
    joined
}

#[cfg(test)]
mod tests;
