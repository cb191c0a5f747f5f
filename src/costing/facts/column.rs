//! The columns of the facts other than their [`Figure`](crate::costing::figure::Figure)s, by name and type.

use crate::ids::{Channel, Design, Order, Theme, Tier};
use polars::prelude::{Expr, col};
use std::marker::PhantomData;

/// A column of ids of `T`.
pub struct Ids<T> {
    name: &'static str,
    of: PhantomData<fn() -> T>,
}

impl<T> Ids<T> {
    const fn named(name: &'static str) -> Self {
        Self { name, of: PhantomData }
    }

    /// Returns its name.
    #[must_use]
    pub const fn name(&self) -> &'static str {
        self.name
    }

    /// Returns it as an expression.
    pub fn col(&self) -> Expr {
        col(self.name)
    }
}

/// The order.
pub const ORDER: Ids<Order> = Ids::named("order");
/// The design of cookie lines; null on others.
pub const DESIGN: Ids<Design> = Ids::named("design");
/// The design's tier.
pub const TIER: Ids<Tier> = Ids::named("tier");
/// The line's theme, else its design's.
pub const THEME: Ids<Theme> = Ids::named("theme");
/// The order's channel.
pub const CHANNEL: Ids<Channel> = Ids::named("channel");

/// Hand-over day.
pub const DAY: &str = "date";
/// Month of hand-over.
pub const MONTH: &str = "month";
/// The line's row in orders.csv.
pub const LINE_ROW: &str = "line_row";
/// The kind of line: the number of a [`LineKind`](crate::costing::lines::LineKind).
pub const KIND: &str = "kind";
/// Icing colours of the order.
pub const COLOURS: &str = "colours";
/// Pieces in the whole order.
pub const ORDER_PIECES: &str = "order_pieces";
/// Whether its order has known hours.
pub const KNOWN: &str = "hours_known";
/// Whether it uses an item without a price.
pub const INCOMPLETE: &str = "incomplete";
/// Minutes by level: of entries naming the design, naming orders, naming neither.
pub const LEVELS: [&str; 3] = ["minutes_naming_design", "minutes_naming_order", "minutes_naming_neither"];
