//! The tables of a shop: names, columns, kinds, meaning and example. The one place that says so.

use super::everyday_forms::{BASE_FORMS, CLASS_FORMS, KIND_FORMS, SIZE_FORMS, STATUS_FORMS};
use super::everyday_headings;
use super::size::Size;
use super::status::Status;
use crate::reading::{ColumnSpecification, Kind, Least, TableSpecification};

/// The kinds of row in `orders`; their order is that of [`super::orders::Kind`].
pub(crate) const KINDS: &[&str] = &["cookie", "set", "delivery", "rush", "discount", "refund", "tip", "tax", "deposit kept"];
/// What may become of an order.
pub(crate) const STATUSES: &[&str] = &[Status::Done.word(), Status::Quoted.word(), Status::Cancelled.word()];
/// What an overhead may be shared by.
pub(crate) const OVERHEAD_BASES: &[&str] = &["hours", "pieces", "orders", "revenue"];
/// Sizes of a cookie.
pub(crate) const SIZES: &[&str] = &[Size::Mini.word(), Size::Regular.word(), Size::Large.word()];
/// Classes of an item.
pub(crate) const CLASSES: &[&str] = &["ingredient", "packaging"];

const fn column(name: &'static str, kind: Kind, meaning: &'static str, example: &'static str) -> ColumnSpecification {
    ColumnSpecification { name, also: None, kind, required: false, filled: false, carried: false, meaning, example }
}

/// The column must be there; its cells may be blank.
const fn present(mut column: ColumnSpecification) -> ColumnSpecification {
    column.required = true;
    column
}

/// The column must be there and no cell of it blank.
const fn filled(mut column: ColumnSpecification) -> ColumnSpecification {
    column.required = true;
    column.filled = true;
    column
}

/// The column may be missing where another has what it holds; else no cell of it may be blank.
const fn filled_if_there(mut column: ColumnSpecification) -> ColumnSpecification {
    column.filled = true;
    column
}

/// A blank cell is as the one above it, where the file writes each text once.
const fn carried(mut column: ColumnSpecification) -> ColumnSpecification {
    column.carried = true;
    column
}

const fn also(mut column: ColumnSpecification, spelling: &'static str) -> ColumnSpecification {
    column.also = Some(spelling);
    column
}

/// Every table, required one first.
pub const TABLES: &[TableSpecification] = &[ORDERS, PURCHASES, HOURS, OVERHEADS, COUNTS, DESIGNS, RECIPES, ITEMS, TIERS];

/// What was charged.
pub const ORDERS: TableSpecification = TableSpecification {
    name: "orders",
    is_log: true,
    meaning: "one row for each thing charged in an order",
    everyday: everyday_headings::ORDERS,
    columns: &[
        carried(filled(column("order", Kind::Text, "the order's own number or word; best one that names nobody", "A104"))),
        present(column("date", Kind::Day, "the day it was handed over; on one row of the order at least", "2026-09-03")),
        column(
            "kind",
            Kind::Choice(KINDS, KIND_FORMS),
            "what the row charges: cookie (default), set, delivery, rush, discount, refund, tip, tax or deposit kept",
            "cookie",
        ),
        column("design", Kind::Text, "the design, on cookie rows", "paper lantern"),
        column("quantity", Kind::Pieces(Least::AboveNil), "pieces on a cookie row; blank or 1 on the others", "2 dozen"),
        present(column(
            "price",
            Kind::Price(Least::Any),
            "per piece on a cookie row (blank: the tier's list price; 0: free); the amount, positive, on the others",
            "4.50",
        )),
        column("made", Kind::Pieces(Least::Nil), "pieces baked for the row, where known (else quantity and the shop's spares)", "26"),
        also(column("colours", Kind::Whole, "icing colours in the order's set", "5"), "colors"),
        column("payments", Kind::Payments, "card charges made (0 for cash), or how it was paid", "2"),
        column("theme", Kind::Text, "the occasion", "harvest"),
        column("channel", Kind::Text, "where it was sold", "market"),
        column("status", Kind::Choice(STATUSES, STATUS_FORMS), "done (default), quoted or cancelled", "done"),
    ],
};

/// What was bought.
pub(crate) const PURCHASES: TableSpecification = TableSpecification {
    name: "purchases",
    is_log: true,
    meaning: "one row for each item on a receipt",
    everyday: everyday_headings::PURCHASES,
    columns: &[
        carried(filled(column("date", Kind::Day, "the day it was bought; on the first row of a receipt at least", "2026-08-21"))),
        filled(column("item", Kind::Text, "the item, as recipes call it", "butter")),
        column("packs", Kind::Number(Least::NotNil), "packs bought (default 1); negative when returned", "4"),
        filled(column("size", Kind::Size(Least::AboveNil), "how much one pack holds", "1")),
        filled_if_there(column("unit", Kind::Unit, "the unit of the size, unless that has it (4 lb)", "lb")),
        filled(column("paid", Kind::Money(Least::Any), "what the row cost in total; negative when returned", "17.96")),
        column("shipping", Kind::Money(Least::Nil), "shipping of the whole receipt, on any of its rows", "6.00"),
        column("tax", Kind::Money(Least::Nil), "tax of the whole receipt, on any of its rows", "1.26"),
        column("receipt", Kind::Text, "the same text on the rows of one receipt, or on its first row, with the date", "R-31"),
        column("supplier", Kind::Text, "who sold it", "warehouse"),
    ],
};

/// Time worked.
pub const HOURS: TableSpecification = TableSpecification {
    name: "hours",
    is_log: true,
    meaning: "one row for each stretch of work",
    everyday: everyday_headings::HOURS,
    columns: &[
        filled(column("date", Kind::Day, "the day of the work", "2026-09-01")),
        column("minutes", Kind::Minutes, "minutes worked; or write start and end", "95"),
        column("start", Kind::TimeOrSpan, "when it began", "18:30"),
        column("end", Kind::Time, "when it ended; before the start means past midnight", "20:05"),
        column("stage", Kind::Text, "the kind of work, one of [stages]", "decorate"),
        column("order", Kind::Orders, "the order; several joined by +; or a hand-over date for every order of that day", "A104+A105"),
        column("design", Kind::Text, "the one design worked on, where it was timed", "paper lantern"),
        column("pieces", Kind::Pieces(Least::AboveNil), "how many of the design these minutes made (blank: all of the order's)", "12"),
        column("who", Kind::Text, "blank for you; else a helper of [helpers]", "robin"),
    ],
};

/// Costs of being in business.
pub(crate) const OVERHEADS: TableSpecification = TableSpecification {
    name: "overheads",
    is_log: true,
    meaning: "one row for each cost that serves a span of days",
    everyday: everyday_headings::OVERHEADS,
    columns: &[
        filled(column("from", Kind::Day, "first day it serves", "2026-01-01")),
        column("to", Kind::Day, "last day it serves (blank: the one day)", "2026-12-31"),
        filled(column("what", Kind::Text, "what it is", "insurance")),
        filled(column("paid", Kind::Money(Least::Any), "what it cost in total", "312.00")),
        column("shared_by", Kind::Choice(OVERHEAD_BASES, BASE_FORMS), "hours (default), pieces, orders or revenue", "hours"),
    ],
};

/// Stock counts.
pub(crate) const COUNTS: TableSpecification = TableSpecification {
    name: "counts",
    is_log: true,
    meaning: "one row for each item counted, at the end of a day",
    everyday: everyday_headings::COUNTS,
    columns: &[
        filled(column("date", Kind::Day, "the day", "2026-06-30")),
        filled(column("item", Kind::Text, "the item", "butter")),
        filled(column("amount", Kind::Size(Least::Nil), "how much was there", "3.5")),
        filled_if_there(column("unit", Kind::Unit, "the unit of the amount, unless that has it (4 lb)", "lb")),
    ],
};

/// The designs sold.
pub const DESIGNS: TableSpecification = TableSpecification {
    name: "designs",
    is_log: false,
    meaning: "one row for each design",
    everyday: everyday_headings::DESIGNS,
    columns: &[
        filled(column("design", Kind::Text, "its name", "paper lantern")),
        column("tier", Kind::Text, "its price level", "scene"),
        column("size", Kind::Choice(SIZES, SIZE_FORMS), "mini, regular (default) or large: picks assumed materials", "regular"),
        column("minutes_each", Kind::Minutes, "your own guess of decorating minutes for one piece", "9"),
        column("theme", Kind::Text, "its occasion", "harvest"),
        column("also_called", Kind::Text, "other names the logs use, separated by ;", "lantern; lamp"),
        column("earlier_tiers", Kind::Text, "tiers it sat in before, with the last day in each, separated by ;", "shape until 2026-05-31"),
    ],
};

/// What goes into what.
pub(crate) const RECIPES: TableSpecification = TableSpecification {
    name: "recipes",
    is_log: false,
    meaning: "one row for each item a recipe, a design, every order or every delivery takes",
    everyday: everyday_headings::RECIPES,
    columns: &[
        filled(column("for", Kind::Text, "a recipe, a design (amounts for one piece), every order or every delivery", "dough")),
        filled(column("item", Kind::Text, "a purchased item or another recipe", "butter")),
        filled(column("amount", Kind::Size(Least::Nil), "how much of it", "227")),
        filled_if_there(column("unit", Kind::Unit, "the unit of the amount, unless that has it (4 lb)", "g")),
        column(
            "yields",
            Kind::Number(Least::AboveNil),
            "how much the whole recipe makes, on one of its rows (blank: its parts' weight)",
            "860",
        ),
        column("yield_unit", Kind::Text, "the unit of the yield", "g"),
        column("extra", Kind::Percent, "made beyond what is used, on one of its rows", "40 %"),
    ],
};

/// What is known of an item.
pub const ITEMS: TableSpecification = TableSpecification {
    name: "items",
    is_log: false,
    meaning: "one row for each item that needs a class or a weight",
    everyday: everyday_headings::ITEMS,
    columns: &[
        filled(column("item", Kind::Text, "the item", "meringue powder")),
        column("class", Kind::Choice(CLASSES, CLASS_FORMS), "ingredient (default) or packaging", "ingredient"),
        column("grams_per_cup", Kind::Number(Least::AboveNil), "what a US cup of it weighs", "150"),
        column("grams_each", Kind::Number(Least::AboveNil), "what one weighs", "50"),
    ],
};

/// The price list.
pub const TIERS: TableSpecification = TableSpecification {
    name: "tiers",
    is_log: false,
    meaning: "one row for each price of a tier, by the day it starts",
    everyday: everyday_headings::TIERS,
    columns: &[
        filled(column("tier", Kind::Text, "the tier", "scene")),
        filled(column("price", Kind::Price(Least::Nil), "list price of a piece", "6.50")),
        column("from", Kind::Day, "the day it starts (blank: from the beginning)", "2026-02-01"),
    ],
};

/// A price list to try on past orders: not a table of the shop, but read like one.
pub(crate) const PRICE_FILE: TableSpecification = TableSpecification {
    name: "prices",
    is_log: false,
    meaning: "one row for each price of a tier or of a design by itself",
    everyday: everyday_headings::TIERS,
    columns: &[
        column("tier", Kind::Text, "the tier", "scene"),
        column("design", Kind::Text, "a design, where the row is of it alone", "paper lantern"),
        filled(column("price", Kind::Price(Least::Nil), "list price of a piece", "6.50")),
        column("from", Kind::Day, "the day it starts (blank: from the beginning)", "2026-02-01"),
    ],
};

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_heading_finds_its_own_column_and_no_other() {
        for table in TABLES {
            for (index, column) in table.columns.iter().enumerate() {
                assert_eq!(table.column(&column.name.to_uppercase().replace('_', " ")), Some(index), "{} {}", table.name, column.name);
                assert!(!column.meaning.is_empty() && !column.example.is_empty(), "{} {}", table.name, column.name);
            }
        }
        assert_eq!(ORDERS.column("Colors"), ORDERS.column("colours"));
    }
}
