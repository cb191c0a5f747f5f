//! Sums over groups of facts, in 128 bits.

use super::key::{By, Key};
use crate::costing::facts::{Facts, Figure, Figures, column, sum};
use crate::costing::lines::LineKind;
use crate::costing::unassigned::Unassigned;
use polars::prelude::*;
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
pub fn by_key(facts: &Facts, by: By) -> PolarsResult<BTreeMap<Key, Sums>> {
    let groups = grouped(facts, by.columns())?;
    let mut sums = BTreeMap::<Key, Sums>::new();
    for (kind, number, group) in groups {
        let sum = sums.entry(by.key(LineKind::from_number(kind), number)).or_default();
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
pub fn whole(facts: &Facts) -> PolarsResult<Sums> {
    let groups = grouped(facts, [lit(LineKind::Cookie.number()), lit(NULL)])?;
    Ok(groups.into_iter().next().map(|(_, _, sums)| sums).unwrap_or_default())
}

/// Names of the columns that facts are grouped by.
const KIND: &str = "group kind";
const NUMBER: &str = "group number";
const COOKIE: &str = "is cookie";

/// Sums the facts by two columns, a kind and a number.
fn grouped(facts: &Facts, [kind, number]: [Expr; 2]) -> PolarsResult<Vec<(u32, Option<i64>, Sums)>> {
    let keyed = facts.lazy().with_columns([
        kind.cast(DataType::UInt32).alias(KIND),
        number.cast(DataType::Int64).alias(NUMBER),
        col(column::KIND).eq(lit(LineKind::Cookie.number())).alias(COOKIE),
    ]);
    let orders = || column::ORDER.col().n_unique().cast(DataType::Int64);
    let known_orders = column::ORDER.col().filter(col(column::KNOWN)).n_unique().cast(DataType::Int64);
    let counts = keyed.clone().group_by([col(KIND), col(NUMBER)]).agg([orders().alias("orders"), known_orders.alias("known_orders")]);
    let counts = counts.sort([KIND, NUMBER], SortMultipleOptions::default()).collect()?;
    let mut groups: Vec<(u32, Option<i64>, Sums)> = counts
        .column(KIND)?
        .u32()?
        .iter()
        .zip(counts.column(NUMBER)?.i64()?.iter())
        .zip(counts.column("orders")?.i64()?.iter().zip(counts.column("known_orders")?.i64()?.iter()))
        .map(|((kind, number), (orders, known))| {
            let sums = Sums { orders: orders.unwrap_or_default(), known_orders: known.unwrap_or_default(), ..Sums::default() };
            (kind.unwrap_or_default(), number, sums)
        })
        .collect();
    let places: BTreeMap<(u32, Option<i64>), usize> =
        groups.iter().zip(0..).map(|((kind, number, _), at)| ((*kind, *number), at)).collect();
    for part in parts(keyed)? {
        let sums = &mut groups[places[&(part.kind, part.number)]].2;
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
    kind: u32,
    number: Option<i64>,
    known: bool,
    cookies: bool,
    lines: i64,
    incomplete_lines: i64,
    figures: Figures,
}

fn parts(keyed: LazyFrame) -> PolarsResult<Vec<Part>> {
    let mut sums =
        vec![len().cast(DataType::Int64).alias("lines"), col(column::INCOMPLETE).cast(DataType::Int64).sum().alias("incomplete_lines")];
    sums.extend(Figure::ALL.map(|figure| sum(figure.column())));
    let frame = keyed.group_by([col(KIND), col(NUMBER), col(column::KNOWN), col(COOKIE)]).agg(sums).collect()?;
    let count = |name: &str| -> PolarsResult<Vec<i64>> { Ok(frame.column(name)?.i64()?.iter().map(Option::unwrap_or_default).collect()) };
    let (lines, incomplete) = (count("lines")?, count("incomplete_lines")?);
    let keys = frame.column(KIND)?.u32()?.iter().zip(frame.column(NUMBER)?.i64()?.iter());
    let truths = frame.column(column::KNOWN)?.bool()?.iter().zip(frame.column(COOKIE)?.bool()?.iter());
    let part = |(((kind, number), (known, cookies)), (lines, incomplete_lines))| Part {
        kind: Option::unwrap_or_default(kind),
        number,
        known: Option::unwrap_or_default(known),
        cookies: Option::unwrap_or_default(cookies),
        lines,
        incomplete_lines,
        figures: Figures::default(),
    };
    let mut parts: Vec<Part> = keys.zip(truths).zip(lines.into_iter().zip(incomplete)).map(part).collect();
    for figure in Figure::ALL {
        for (part, sum) in parts.iter_mut().zip(frame.column(figure.column())?.i128()?.iter()) {
            part.figures[figure] = sum.unwrap_or_default();
        }
    }
    Ok(parts)
}
