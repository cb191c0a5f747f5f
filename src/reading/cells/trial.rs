//! A small table for the tests of reading.

use crate::reading::specification::{ColumnSpecification, Kind, Least, TableSpecification};

const fn column(name: &'static str, kind: Kind, required: bool) -> ColumnSpecification {
    ColumnSpecification { name, also: None, kind, required, filled: false, carried: false, meaning: "", example: "" }
}

/// Orders, with a column of every kind that a workbook types.
pub(in crate::reading) const ORDERS: TableSpecification = TableSpecification {
    name: "orders",
    is_log: true,
    meaning: "",
    everyday: &[],
    columns: &[
        column("order", Kind::Text, true),
        column("date", Kind::Day, true),
        column("design", Kind::Text, false),
        column("quantity", Kind::Pieces(Least::AboveNil), false),
        column("paid", Kind::Money(Least::Any), true),
        column("minutes", Kind::Minutes, false),
        column("start", Kind::Time, false),
        column("tax", Kind::Percent, false),
        column("theme", Kind::Text, false),
        column("channel", Kind::Text, false),
    ],
};

/// Hours, whose only column that must be there is a date.
pub(in crate::reading) const HOURS: TableSpecification =
    TableSpecification { name: "hours", columns: &[column("date", Kind::Day, true), column("minutes", Kind::Minutes, false)], ..ORDERS };

/// Designs, whose only column that must be there is a name.
pub(in crate::reading) const DESIGNS: TableSpecification =
    TableSpecification { name: "designs", columns: &[column("design", Kind::Text, true), column("tier", Kind::Text, false)], ..ORDERS };
