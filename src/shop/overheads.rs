//! Overheads: costs that serve a span of days.

use super::kinds::ENDS_EARLY;
use crate::quantity::Day;
use crate::reading::{Problem, Table};

/// What an overhead is shared by; in the order of [`super::specification::OVERHEAD_BASES`].
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum Base {
    /// Hands-on minutes, yours and helpers'.
    Hours,
    /// Pieces sold.
    Pieces,
    /// Equally by order, then by pieces.
    Orders,
    /// Revenue.
    Revenue,
}

const BASES: [Base; 4] = [Base::Hours, Base::Pieces, Base::Orders, Base::Revenue];

/// One overhead; it accrues evenly by day.
#[derive(Debug, Clone)]
pub struct Overhead {
    /// First day it serves.
    pub from: Day,
    /// Last day it serves.
    pub to: Day,
    /// What it is.
    pub what: String,
    /// Paid in all, in millionths of the main unit.
    pub paid: i64,
    /// How it is shared.
    pub base: Base,
}

/// Reads the `overheads` log; a row that ends before it begins is left out, with a problem.
pub fn read(mut table: Table, problems: &mut Vec<Problem>) -> Vec<Overhead> {
    let from = table.days("from");
    let to = table.days("to");
    let (what, names) = table.text("what");
    let paid = table.millionths("paid");
    let bases = table.wholes("shared_by");
    let mut overheads = Vec::with_capacity(table.rows());
    for row in 0..table.rows() {
        let (Some(from), Some(what), Some(paid)) = (from[row], what[row], paid[row]) else { continue };
        let to = to[row].unwrap_or(from);
        if to < from {
            let problem = table.problem(&ENDS_EARLY, row, "to", format!("is before the first day, {from}")).found(&to.to_string());
            problems.push(problem.instead("swap the two, or correct the year"));
            continue;
        }
        let base = bases[row].and_then(|at| BASES.get(usize::try_from(at).ok()?)).copied().unwrap_or(Base::Hours);
        overheads.push(Overhead { from, to, what: names.text(what).to_owned(), paid, base });
    }
    overheads
}
