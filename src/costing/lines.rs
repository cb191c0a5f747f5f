//! The lines that carry revenue and cost: cookie and delivery lines of orders handed over, and kept deposits.
//!
//! They are sorted once by (order, kind, design, price, quantity, made, theme), and by row only between identical
//! rows. Ties in sharing go to the earlier line, so the order of rows in the file changes nothing.

use crate::ids::{Design, Id, Order};
use crate::quantity::{Day, TooLarge};
use crate::shop::orders::{Kind, Orders, Status};
use std::ops::Range;

/// The kind of a line.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum LineKind {
    /// Pieces of a design.
    Cookie,
    /// A delivery.
    Delivery,
    /// A deposit kept from a cancelled order.
    DepositKept,
}

impl LineKind {
    /// All kinds.
    pub const ALL: [Self; 3] = [Self::Cookie, Self::Delivery, Self::DepositKept];

    /// Returns its name in orders.csv and in exports.
    #[must_use]
    pub fn word(self) -> &'static str {
        match self {
            Self::Cookie => "cookie",
            Self::Delivery => "delivery",
            Self::DepositKept => "deposit kept",
        }
    }
}

/// One order's lines: cookies first, then deliveries, then kept deposits.
#[derive(Debug, Clone)]
pub struct Span {
    /// The order.
    pub order: Id<Order>,
    /// Its hand-over day.
    pub day: Day,
    /// Its cookie lines.
    pub cookies: Range<usize>,
    /// Its delivery lines.
    pub deliveries: Range<usize>,
    /// Its kept deposits.
    pub deposits: Range<usize>,
}

impl Span {
    /// Whether it was handed over, and so carries hours, materials and overhead.
    #[must_use]
    pub(crate) fn is_done(&self) -> bool {
        self.deposits.is_empty()
    }

    /// Returns the lines that carry the order's shared money: its cookie lines, or its delivery lines if it has no
    /// cookies.
    pub(super) fn carriers(&self) -> Range<usize> {
        if self.cookies.is_empty() { self.deliveries.clone() } else { self.cookies.clone() }
    }

    /// Returns its cookie and delivery lines.
    #[must_use]
    pub fn lines(&self) -> Range<usize> {
        self.cookies.start..self.deliveries.end
    }
}

/// The lines as columns, in their fixed order.
#[derive(Debug, Default)]
pub struct Lines {
    /// Each line's row in the orders table.
    pub row: Vec<usize>,
    /// Its kind.
    pub kind: Vec<LineKind>,
    /// The index of its order in `spans`.
    pub span: Vec<usize>,
    /// Its design, on cookie lines.
    pub design: Vec<Option<Id<Design>>>,
    /// Pieces sold; zero on other lines.
    pub pieces: Vec<i64>,
    /// Pieces baked, where known.
    pub made: Vec<Option<i64>>,
    /// Pieces × list price on cookie lines, the amount on others; in millionths of the main unit.
    pub listed: Vec<i64>,
    /// The orders, in the order of their ids.
    pub spans: Vec<Span>,
}

impl Lines {
    /// Collects the lines of a shop's orders.
    ///
    /// # Errors
    /// [`TooLarge`] where a line's value does not fit.
    pub fn of(orders: &Orders) -> Result<Self, TooLarge> {
        let mut rows: Vec<(usize, LineKind)> = Vec::with_capacity(orders.rows());
        for row in 0..orders.rows() {
            let done = orders.head(orders.order[row]).status == Status::Done;
            match orders.kind[row] {
                Kind::Cookie if done => rows.push((row, LineKind::Cookie)),
                Kind::Delivery if done => rows.push((row, LineKind::Delivery)),
                Kind::DepositKept if !done => rows.push((row, LineKind::DepositKept)),
                _ => {}
            }
        }
        let theme = |row: usize| orders.theme[row].map(|theme| orders.themes.text(theme));
        rows.sort_unstable_by_key(|&(row, kind)| {
            (orders.order[row], kind, orders.design[row], orders.price[row], orders.quantity[row], orders.made[row], theme(row), row)
        });
        let mut lines = Self::default();
        for (row, kind) in rows {
            let at = lines.row.len();
            let order = orders.order[row];
            if lines.spans.last().is_none_or(|span| span.order != order) {
                let Some(day) = orders.head(order).day else { continue };
                lines.spans.push(Span { order, day, cookies: at..at, deliveries: at..at, deposits: at..at });
            }
            if let Some(span) = lines.spans.last_mut() {
                span.grow(kind, at);
            }
            lines.row.push(row);
            lines.kind.push(kind);
            lines.span.push(lines.spans.len() - 1);
            lines.design.push(orders.design[row]);
            lines.pieces.push(if kind == LineKind::Cookie { orders.quantity[row] } else { 0 });
            lines.made.push(orders.made[row]);
            lines.listed.push(orders.amount(row)?);
        }
        Ok(lines)
    }

    /// Returns the number of lines.
    #[must_use]
    pub fn len(&self) -> usize {
        self.row.len()
    }

    /// Whether there are none.
    #[must_use]
    pub fn is_empty(&self) -> bool {
        self.row.is_empty()
    }

    /// Returns a line's hand-over day.
    #[must_use]
    pub fn day(&self, line: usize) -> Day {
        self.spans[self.span[line]].day
    }

    /// Returns the pieces of some lines, as weights.
    pub(super) fn pieces_of(&self, lines: Range<usize>) -> Vec<i128> {
        self.pieces[lines].iter().map(|pieces| i128::from(*pieces)).collect()
    }

    /// Makes a column of zeros, one per line.
    pub(super) fn zeros(&self) -> Vec<i64> {
        vec![0; self.len()]
    }
}

impl Span {
    fn grow(&mut self, kind: LineKind, at: usize) {
        match kind {
            LineKind::Cookie => {
                self.cookies.end = at + 1;
                self.deliveries = at + 1..at + 1;
                self.deposits = at + 1..at + 1;
            }
            LineKind::Delivery => {
                self.deliveries.end = at + 1;
                self.deposits = at + 1..at + 1;
            }
            LineKind::DepositKept => self.deposits.end = at + 1,
        }
    }
}
