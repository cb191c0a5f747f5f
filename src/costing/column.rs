//! The columns of the facts, each by its name and the type of its values: the only way to reach one.

use super::lines::LineKind;
use crate::ids::{Channel, Design, Id, Order, Stage, Theme, Tier};
use crate::quantity::{Day, Month};
use polars::prelude::{Column as FrameColumn, DataFrame, DataType, Expr, Literal, NULL, PolarsResult, col, lit, polars_err};
use std::borrow::Cow;
use std::marker::PhantomData;

/// A column of values of `T`. An `Option` may be blank.
pub struct Column<T> {
    name: Cow<'static, str>,
    of: PhantomData<fn() -> T>,
}

/// The order.
pub(crate) const ORDER: Column<Id<Order>> = Column::named("order");
/// The design of cookie lines.
pub const DESIGN: Column<Option<Id<Design>>> = Column::named("design");
/// The design's tier.
pub(crate) const TIER: Column<Option<Id<Tier>>> = Column::named("tier");
/// The line's theme, else its design's.
pub(crate) const THEME: Column<Option<Id<Theme>>> = Column::named("theme");
/// The order's channel.
pub(crate) const CHANNEL: Column<Option<Id<Channel>>> = Column::named("channel");
/// Hand-over day.
pub(crate) const DAY: Column<Day> = Column::named("date");
/// Month of hand-over.
pub(crate) const MONTH: Column<Month> = Column::named("month");
/// The line's row in orders.csv.
pub(crate) const LINE_ROW: Column<u32> = Column::named("line_row");
/// The kind of line.
pub(crate) const KIND: Column<LineKind> = Column::named("kind");
/// Icing colours of the order, if logged.
pub const COLOURS: Column<Option<u32>> = Column::named("colours");
/// Pieces in the whole order.
pub(crate) const ORDER_PIECES: Column<i64> = Column::named("order_pieces");
/// Whether its order has known hours.
pub const KNOWN: Column<bool> = Column::named("hours_known");
/// Whether it uses an item without a price.
pub(crate) const INCOMPLETE: Column<bool> = Column::named("incomplete");
/// Minutes by level: of entries naming the design, naming orders, naming neither.
pub const LEVELS: [Column<i64>; 3] =
    [Column::named("minutes_naming_design"), Column::named("minutes_naming_order"), Column::named("minutes_naming_neither")];

/// Returns the column of minutes in a stage, the owner's and helpers' together; `None` is work without a stage.
#[must_use]
pub(crate) fn minutes_in(stage: Option<Id<Stage>>) -> Column<i64> {
    stage.map_or(Column::named("no stage"), |stage| Column { name: format!("stage {}", stage.number()).into(), of: PhantomData })
}

impl<T> Column<T> {
    /// Makes the column with a name.
    #[must_use]
    pub const fn named(name: &'static str) -> Self {
        Self { name: Cow::Borrowed(name), of: PhantomData }
    }

    /// Returns its name.
    #[must_use]
    pub fn name(&self) -> &str {
        &self.name
    }

    /// Returns it as an expression.
    pub fn col(&self) -> Expr {
        col(self.name())
    }
}

impl<T: Value> Column<T> {
    /// Fills it with one value per row.
    pub fn filled(&self, values: impl IntoIterator<Item = T>) -> FrameColumn {
        T::Stored::filled(self.name(), values.into_iter().map(T::stored).collect())
    }

    /// Returns its value in each row of a frame.
    ///
    /// # Errors
    /// Where the frame has no such column, or it holds what is no value of it.
    pub fn values(&self, frame: &DataFrame) -> PolarsResult<Vec<T>> {
        let value = |stored| T::of(stored).ok_or_else(|| polars_err!(ComputeError: "{} holds what it cannot", self.name()));
        T::Stored::of(frame.column(self.name())?)?.into_iter().map(value).collect()
    }

    /// Returns a value as it stores it, as an expression.
    #[expect(clippy::unused_self, reason = "the column gives the type that the value is stored as")]
    pub(crate) fn literal(&self, value: T) -> Expr {
        value.stored().map_or_else(|| lit(NULL), lit).cast(T::Stored::TYPE)
    }

    /// Returns the expression that makes it of another.
    pub(crate) fn made_of(&self, expression: Expr) -> Expr {
        expression.cast(T::Stored::TYPE).alias(self.name())
    }
}

impl Column<i64> {
    /// Returns the expression of its sum, in 128 bits: sums of 64-bit columns wrap silently.
    pub fn sum(&self) -> Expr {
        self.col().cast(DataType::Int128).sum()
    }

    /// Returns the column that [`sum`](Self::sum) makes of it.
    #[must_use]
    pub fn summed(self) -> Column<i128> {
        Column { name: self.name, of: PhantomData }
    }
}

/// A value that a column can hold.
pub trait Value: Sized {
    /// The number or truth it is stored as.
    type Stored: Stored;

    /// Returns what is stored; `None` is a blank.
    fn stored(self) -> Option<Self::Stored>;

    /// Returns the value stored; `None` if it is of no value.
    fn of(stored: Option<Self::Stored>) -> Option<Self>;
}

/// A number or truth as frames store it.
pub trait Stored: Literal + Sized {
    /// The frames' name of the type.
    const TYPE: DataType;

    /// Makes a frame's column.
    fn filled(name: &str, values: Vec<Option<Self>>) -> FrameColumn;

    /// Returns the values of a frame's column.
    ///
    /// # Errors
    /// Where it is of another type.
    fn of(column: &FrameColumn) -> PolarsResult<Vec<Option<Self>>>;
}

macro_rules! stored {
    ($($type:ident $name:ident,)*) => {$(
        impl Stored for $type {
            const TYPE: DataType = DataType::$name;

            fn filled(name: &str, values: Vec<Option<Self>>) -> FrameColumn {
                FrameColumn::new(name.into(), values)
            }

            fn of(column: &FrameColumn) -> PolarsResult<Vec<Option<Self>>> {
                Ok(column.$type()?.iter().collect())
            }
        }

        impl Value for $type {
            type Stored = Self;

            fn stored(self) -> Option<Self> {
                Some(self)
            }

            fn of(stored: Option<Self>) -> Option<Self> {
                stored
            }
        }
    )*};
}

stored!(bool Boolean, u32 UInt32, i32 Int32, i64 Int64, i128 Int128,);

impl<T> Value for Id<T> {
    type Stored = u32;

    fn stored(self) -> Option<u32> {
        Some(self.number())
    }

    fn of(stored: Option<u32>) -> Option<Self> {
        stored.map(Self::new)
    }
}

impl Value for LineKind {
    type Stored = u32;

    fn stored(self) -> Option<u32> {
        Some(self as u32)
    }

    fn of(stored: Option<u32>) -> Option<Self> {
        Self::ALL.into_iter().find(|kind| kind.stored() == stored)
    }
}

impl Value for Day {
    type Stored = i32;

    fn stored(self) -> Option<i32> {
        Some(self.0)
    }

    fn of(stored: Option<i32>) -> Option<Self> {
        stored.map(Self)
    }
}

impl Value for Month {
    type Stored = i32;

    fn stored(self) -> Option<i32> {
        Some(self.0)
    }

    fn of(stored: Option<i32>) -> Option<Self> {
        stored.map(Self)
    }
}

impl<V: Value> Value for Option<V> {
    type Stored = V::Stored;

    fn stored(self) -> Option<V::Stored> {
        self.and_then(V::stored)
    }

    fn of(stored: Option<V::Stored>) -> Option<Self> {
        stored.map_or(Some(None), |stored| V::of(Some(stored)).map(Some))
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use polars::prelude::df;

    #[test]
    fn what_is_filled_in_is_read_back() {
        let kinds = [LineKind::DepositKept, LineKind::Cookie];
        let designs = [None, Some(Id::new(4))];
        let frame = DataFrame::new(2, vec![KIND.filled(kinds), DESIGN.filled(designs), DAY.filled([Day(-1), Day(1)])]).unwrap();
        assert_eq!(KIND.values(&frame).unwrap(), kinds);
        assert_eq!(DESIGN.values(&frame).unwrap(), designs);
        assert_eq!(DAY.values(&frame).unwrap(), [Day(-1), Day(1)]);
    }

    #[test]
    fn blanks_unknown_kinds_and_other_types_are_errors() {
        let frame = df!("order" => [Some(1_u32), None], "kind" => [0_u32, 3], "date" => [1_i64, 2]).unwrap();
        assert!(
            ORDER.values(&frame).is_err() && KIND.values(&frame).is_err() && DAY.values(&frame).is_err() && TIER.values(&frame).is_err()
        );
    }
}
