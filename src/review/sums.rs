//! Sums over groups of facts, in 128 bits.

use super::key::{By, KIND, Key, NUMBER};
use crate::costing::column::{self, Column};
use crate::costing::facts::{Facts, Figure, Figures};
use crate::costing::lines::LineKind;
use crate::costing::unassigned::Unassigned;
use polars::prelude::{Expr, LazyFrame, PolarsResult, SortMultipleOptions, len};
use std::collections::BTreeMap;
use std::ops::AddAssign;

/// The sums of one group.
#[derive(Debug, Clone, Copy, Default, PartialEq, Eq)]
pub struct Sums {
    /// Of all its lines.
    pub all: Figures,
    /// Of lines with known hours.
    pub known: Figures,
    /// Of cookie lines with known hours.
    pub cookies: Figures,
    /// Different orders.
    pub orders: i64,
    /// Different orders with known hours.
    pub known_orders: i64,
    /// Lines.
    pub lines: i64,
    /// Lines with known hours.
    pub known_lines: i64,
    /// Lines that use an item without a price.
    pub incomplete_lines: i64,
}

impl AddAssign<&Sums> for Sums {
    /// Adds all but numbers of orders: one order may lie in several groups.
    fn add_assign(&mut self, other: &Self) {
        self.all += &other.all;
        self.known += &other.known;
        self.cookies += &other.cookies;
        self.lines += other.lines;
        self.known_lines += other.known_lines;
        self.incomplete_lines += other.incomplete_lines;
    }
}

impl Sums {
    /// Adds hours and costs not tied to an order, which count as known.
    #[must_use]
    pub fn all_in(mut self, unassigned: &Unassigned) -> Self {
        self.all += &unassigned.figures();
        self.known += &unassigned.figures();
        self
    }
}

/// Sums the facts by key, in the order of keys.
///
/// # Errors
/// Where polars fails.
pub(super) fn by_key(facts: &Facts, by: By) -> PolarsResult<BTreeMap<Key, Sums>> {
    let groups = grouped(facts, by.columns())?;
    let mut sums = BTreeMap::<Key, Sums>::new();
    for (kind, number, group) in groups {
        let sum = sums.entry(by.key(kind, number)?).or_default();
        *sum += &group;
        // A size class joins several numbers, but each order has only one.
        sum.orders += group.orders;
        sum.known_orders += group.known_orders;
    }
    Ok(sums)
}

/// Sums all facts; zero if there are none.
///
/// # Errors
/// Where polars fails.
pub(super) fn whole(facts: &Facts) -> PolarsResult<Sums> {
    let groups = grouped(facts, [KIND.made_of(KIND.literal(LineKind::Cookie)), NUMBER.made_of(NUMBER.literal(None))])?;
    Ok(groups.into_iter().next().map(|(_, _, sums)| sums).unwrap_or_default())
}

/// Whether lines are cookies.
const COOKIE: Column<bool> = Column::named("is cookie");
/// Different orders.
const ORDERS: Column<i64> = Column::named("orders");
/// Different orders with known hours.
const KNOWN_ORDERS: Column<i64> = Column::named("known orders");
/// Lines.
const LINES: Column<i64> = Column::named("lines");
/// Lines that use an item without a price.
const INCOMPLETE_LINES: Column<i64> = Column::named("incomplete lines");

/// Sums the facts by [`KIND`] and [`NUMBER`].
fn grouped(facts: &Facts, by: [Expr; 2]) -> PolarsResult<Vec<(LineKind, Option<i64>, Sums)>> {
    let is_cookie = COOKIE.made_of(column::KIND.col().eq(column::KIND.literal(LineKind::Cookie)));
    let keyed = facts.lazy().with_columns(by.into_iter().chain([is_cookie]).collect::<Vec<_>>());
    let orders = ORDERS.made_of(column::ORDER.col().n_unique());
    let known_orders = KNOWN_ORDERS.made_of(column::ORDER.col().filter(column::KNOWN.col()).n_unique());
    let counts = keyed.clone().group_by([KIND.col(), NUMBER.col()]).agg([orders, known_orders]);
    let counts = counts.sort([KIND.name(), NUMBER.name()], SortMultipleOptions::default()).collect()?;
    let keys = KIND.values(&counts)?.into_iter().zip(NUMBER.values(&counts)?);
    let orders = ORDERS.values(&counts)?.into_iter().zip(KNOWN_ORDERS.values(&counts)?);
    let group = |((kind, number), (orders, known_orders))| (kind, number, Sums { orders, known_orders, ..Sums::default() });
    let mut groups: Vec<(LineKind, Option<i64>, Sums)> = keys.zip(orders).map(group).collect();
    let places: BTreeMap<(LineKind, Option<i64>), usize> =
        groups.iter().zip(0..).map(|((kind, number, _), at)| ((*kind, *number), at)).collect();
    for part in parts(keyed)? {
        let sums = &mut groups[places[&part.group]].2;
        sums.all += &part.figures;
        sums.lines += part.lines;
        sums.incomplete_lines += part.incomplete_lines;
        if part.known {
            sums.known += &part.figures;
            sums.known_lines += part.lines;
            if part.cookies {
                sums.cookies += &part.figures;
            }
        }
    }
    Ok(groups)
}

/// The lines of a group that agree in whether their hours are known and whether they are cookies.
struct Part {
    group: (LineKind, Option<i64>),
    known: bool,
    cookies: bool,
    lines: i64,
    incomplete_lines: i64,
    figures: Figures,
}

fn parts(keyed: LazyFrame) -> PolarsResult<Vec<Part>> {
    let incomplete = INCOMPLETE_LINES.made_of(column::INCOMPLETE.col()).sum();
    let mut sums = vec![LINES.made_of(len()), incomplete];
    sums.extend(Figure::ALL.map(|figure| figure.column().sum()));
    let frame = keyed.group_by([KIND.col(), NUMBER.col(), column::KNOWN.col(), COOKIE.col()]).agg(sums).collect()?;
    let groups = KIND.values(&frame)?.into_iter().zip(NUMBER.values(&frame)?);
    let truths = column::KNOWN.values(&frame)?.into_iter().zip(COOKIE.values(&frame)?);
    let counts = LINES.values(&frame)?.into_iter().zip(INCOMPLETE_LINES.values(&frame)?);
    let part = |((group, (known, cookies)), (lines, incomplete_lines))| Part {
        group,
        known,
        cookies,
        lines,
        incomplete_lines,
        figures: Figures::default(),
    };
    let mut parts: Vec<Part> = groups.zip(truths).zip(counts).map(part).collect();
    for figure in Figure::ALL {
        for (part, sum) in parts.iter_mut().zip(figure.column().summed().values(&frame)?) {
            part.figures[figure] = sum;
        }
    }
    Ok(parts)
}
