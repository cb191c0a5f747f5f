//! Rows that stand twice in one file. `repeats/` finds blocks of rows and orders pasted twice; what the shop means to keep stands in
//! `shop.toml`.
//!
//! Rows are compared as read, in known columns, one file at a time, before files are merged: rows that stand in two files count once.

mod blocks;
mod kept;
mod orders;
pub mod overlaps;
mod rows_in_words;
mod suffix_automaton;

pub use kept::Kept;

use self::blocks::{Block, blocks};
use self::orders::{OrderTwice, orders_twice};
use self::rows_in_words::{rows_in_words, stretch_in_words};
use super::kinds::{BLOCK_TWICE, ORDER_TWICE, ROW_TWICE};
use super::specification::{COUNTS, HOURS, ORDERS, RECIPES};
use crate::reading::{Place, Problem, Table, TableSpecification};

/// Reports what stands twice in one file of a table, but for what is `kept`. Cards that list each name once, and counts, report a name
/// that stands twice themselves; a table that lacks what tells its rows apart is not searched. Where headings are open, single rows that
/// seem the same are not told of yet.
pub(super) fn find(specification: &TableSpecification, table: &Table, is_open: bool, kept: &mut Kept, problems: &mut Vec<Problem>) {
    let is_looked_at = (specification.is_log && specification.name != COUNTS.name) || specification.name == RECIPES.name;
    let lacks_all = |columns: &[&str]| columns.iter().all(|column| table.lacks(column));
    let is_told_apart = match specification.name {
        name if name == ORDERS.name => !lacks_all(&["design"]),
        name if name == HOURS.name => !lacks_all(&["minutes", "start"]),
        _ => true,
    };
    if !is_looked_at || !is_told_apart {
        return;
    }
    let alike = table.alike();
    let finder = Finder { specification, table };
    let mut told = vec![false; alike.len()];
    let blocks = blocks(&alike);
    for Block { again, length, .. } in &blocks {
        told[*again..again + length].fill(true);
    }
    let orders = if specification.name == ORDERS.name { orders_twice(table, &alike) } else { Vec::new() };
    // An order that blocks repeat needs no problem of its own.
    let orders: Vec<OrderTwice> = orders.into_iter().filter(|order| order.again.iter().any(|row| !told[*row])).collect();
    for order in &orders {
        order.again.iter().for_each(|row| told[*row] = true);
    }
    let twice = |row: &usize| alike[*row] != *row && !told[*row] && !is_open;
    problems.extend(blocks.iter().filter_map(|block| finder.block(block, kept)));
    problems.extend(orders.iter().filter_map(|order| finder.order(order, kept)));
    problems.extend((0..alike.len()).filter(twice).map(|row| finder.row(row, alike[row])));
}

/// Words what was found in one file.
struct Finder<'a> {
    specification: &'a TableSpecification,
    table: &'a Table,
}

impl Finder<'_> {
    fn block(&self, block: &Block, kept: &mut Kept) -> Option<Problem> {
        let rows = |from: usize| (from..from + block.length).collect::<Vec<usize>>();
        let (first, again) = (self.places(&rows(block.first)), self.places(&rows(block.again)));
        let what = format!("{} repeat {}", stretch_in_words(&again), stretch_in_words(&first));
        let advice = kept.refuses(&self.name(&rows(block.again)))?;
        Some(Problem::of_file(&BLOCK_TWICE, &self.table.file, what).at_rows(again).instead(advice))
    }

    fn order(&self, order: &OrderTwice, kept: &mut Kept) -> Option<Problem> {
        let (first, again) = (self.places(&order.first), self.places(&order.again));
        let what = format!("is written twice: {} repeat {}", rows_in_words(&again), rows_in_words(&first));
        let advice = kept.refuses(&self.name(&order.again))?;
        let problem = Problem::of_file(&ORDER_TWICE, &self.table.file, what).column("order").found_order(&order.order);
        Some(problem.at_rows(again).instead(advice))
    }

    fn row(&self, row: usize, first: usize) -> Problem {
        let what = format!("the row is the same as row {}", self.table.places[first].row);
        let problem = Problem::of_file(&ROW_TWICE, &self.table.file, what).at(self.table.places[row]);
        problem.instead("delete it if it was written twice by mistake")
    }

    fn places(&self, rows: &[usize]) -> Vec<Place> {
        rows.iter().map(|row| self.table.places[*row]).collect()
    }

    /// What `shop.toml` calls rows that stand again: the table, their first and last day or what they are for, and how many they are.
    /// So rows that are added later, wherever they stand, change no name.
    fn name(&self, rows: &[usize]) -> String {
        let days = self.table.days_of("date").or_else(|| self.table.days_of("from"));
        let day = |row: &usize| days.and_then(|days| days[*row]).map(|day| day.to_string());
        let recipe = || {
            let (texts, names) = self.table.text_of("for")?;
            Some(names.text(rows.iter().find_map(|row| texts[*row])?).to_owned())
        };
        let first = rows.iter().find_map(day).or_else(recipe).unwrap_or_default();
        let last = rows.iter().rev().find_map(day).filter(|last| *last != first);
        kept::name(self.specification.name, &first, last.as_deref(), rows.len())
    }
}
