//! The keys that questions group facts by.

use crate::costing::column::{self, Column};
use crate::costing::facts::Facts;
use crate::costing::lines::LineKind;
use crate::ids::{Channel, Design, Id, Order, Theme, Tier};
use crate::quantity::Month;
use crate::shop::Shop;
use polars::prelude::{Expr, NULL, PolarsResult, lit, polars_err, when};

/// What facts are grouped by.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum By {
    /// A design.
    Design,
    /// A tier.
    Tier,
    /// An order.
    Order,
    /// A month of hand-over.
    Month,
    /// A theme.
    Theme,
    /// A channel.
    Channel,
    /// Pieces in the order.
    OrderSize,
    /// Icing colours in the order.
    Colours,
}

/// The group of a line, in the order of a table.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum Key {
    /// Lines without a value of what is grouped by.
    NotLogged,
    /// Kept deposits, if they have a row of their own.
    KeptDeposits,
    /// Delivery lines, if they have a row of their own.
    Delivery,
    /// A design.
    Design(Id<Design>),
    /// A tier.
    Tier(Id<Tier>),
    /// An order.
    Order(Id<Order>),
    /// A month.
    Month(Month),
    /// A theme.
    Theme(Id<Theme>),
    /// A channel.
    Channel(Id<Channel>),
    /// A class of [`SIZES`]; `None` for orders without pieces.
    Size(Option<usize>),
    /// A number of colours.
    Colours(u32),
}

/// Order sizes: the most pieces of each class, and its name.
pub(crate) const SIZES: &[(i64, &str)] = &[(12, "1–12"), (24, "13–24"), (36, "25–36"), (48, "37–48"), (i64::MAX, "49+")];

/// The kind of lines that have a row of their own; a cookie's for the others.
pub(super) const KIND: Column<LineKind> = Column::named("group kind");
/// The number of the group; blank if there is none.
pub(super) const NUMBER: Column<Option<i64>> = Column::named("group number");

impl By {
    /// All groupings.
    pub const ALL: [Self; 8] =
        [Self::Design, Self::Tier, Self::Order, Self::Month, Self::Theme, Self::Channel, Self::OrderSize, Self::Colours];

    /// Returns its name on the command line and in JSON.
    #[must_use]
    pub fn word(self) -> &'static str {
        match self {
            Self::Design => "design",
            Self::Tier => "tier",
            Self::Order => "order",
            Self::Month => "month",
            Self::Theme => "theme",
            Self::Channel => "channel",
            Self::OrderSize => "order-size",
            Self::Colours => "colours",
        }
    }

    /// Whether lines of a kind have a row of their own.
    fn has_own_row(self, kind: LineKind) -> bool {
        match kind {
            LineKind::Cookie => false,
            LineKind::Delivery => matches!(self, Self::Design | Self::Tier),
            LineKind::DepositKept => !matches!(self, Self::Order | Self::Month | Self::Channel),
        }
    }

    /// Returns the columns to group by: [`KIND`] and [`NUMBER`].
    pub(super) fn columns(self) -> [Expr; 2] {
        let number = match self {
            Self::Design => column::DESIGN.col(),
            Self::Tier => column::TIER.col(),
            Self::Order => column::ORDER.col(),
            Self::Month => column::MONTH.col(),
            Self::Theme => column::THEME.col(),
            Self::Channel => column::CHANNEL.col(),
            Self::OrderSize => column::ORDER_PIECES.col(),
            Self::Colours => column::COLOURS.col(),
        };
        let own = LineKind::ALL.into_iter().filter(|kind| self.has_own_row(*kind));
        let is_own_row = own.map(|kind| column::KIND.col().eq(column::KIND.literal(kind))).reduce(Expr::or).unwrap_or_else(|| lit(false));
        let kind = when(is_own_row.clone()).then(column::KIND.col()).otherwise(column::KIND.literal(LineKind::Cookie));
        let number = when(is_own_row).then(lit(NULL)).otherwise(number);
        [KIND.made_of(kind), NUMBER.made_of(number)]
    }

    /// Returns each line's key.
    pub(super) fn of_lines(self, facts: &Facts) -> PolarsResult<Vec<Key>> {
        let frame = facts.lazy().select(self.columns()).collect()?;
        let keys = KIND.values(&frame)?.into_iter().zip(NUMBER.values(&frame)?);
        keys.map(|(kind, number)| self.key(kind, number)).collect()
    }

    /// Returns the key of a kind and number, as [`columns`](Self::columns) gives them.
    ///
    /// # Errors
    /// Where the number is none that they give.
    pub(super) fn key(self, kind: LineKind, number: Option<i64>) -> PolarsResult<Key> {
        match (kind, number) {
            (LineKind::Delivery, _) => Ok(Key::Delivery),
            (LineKind::DepositKept, _) => Ok(Key::KeptDeposits),
            (LineKind::Cookie, None) => Ok(Key::NotLogged),
            (LineKind::Cookie, Some(number)) => {
                self.of_number(number).ok_or_else(|| polars_err!(ComputeError: "{number} is no {}", self.word()))
            }
        }
    }

    fn of_number(self, number: i64) -> Option<Key> {
        let at = || u32::try_from(number).ok();
        Some(match self {
            Self::Design => Key::Design(Id::new(at()?)),
            Self::Tier => Key::Tier(Id::new(at()?)),
            Self::Order => Key::Order(Id::new(at()?)),
            Self::Month => Key::Month(Month(i32::try_from(number).ok()?)),
            Self::Theme => Key::Theme(Id::new(at()?)),
            Self::Channel => Key::Channel(Id::new(at()?)),
            Self::OrderSize => Key::Size(SIZES.iter().position(|(most, _)| number <= *most).filter(|_| number > 0)),
            Self::Colours => Key::Colours(at()?),
        })
    }
}

impl Key {
    /// Returns its name in tables, JSON and CSV.
    #[must_use]
    pub fn name(self, shop: &Shop, facts: &Facts, by: By) -> String {
        match self {
            Self::NotLogged => match by {
                By::Tier => "no tier",
                By::Theme => "no theme",
                By::Channel => "no channel",
                _ => "not logged",
            }
            .to_owned(),
            Self::KeptDeposits => "kept deposits".to_owned(),
            Self::Delivery => "delivery".to_owned(),
            Self::Design(design) => shop.designs.names.text(design).to_owned(),
            Self::Tier(tier) => shop.designs.tiers.text(tier).to_owned(),
            Self::Order(order) => shop.orders.ids.text(order).to_owned(),
            Self::Month(month) => month.to_string(),
            Self::Theme(theme) => facts.themes.text(theme).to_owned(),
            Self::Channel(channel) => shop.orders.channels.text(channel).to_owned(),
            Self::Size(size) => size.map_or("0", |size| SIZES[size].1).to_owned(),
            Self::Colours(colours) => colours.to_string(),
        }
    }

    /// Returns the tier, if it is a design or a tier.
    #[must_use]
    pub fn tier(self, shop: &Shop) -> Option<String> {
        let tier = match self {
            Self::Design(design) => shop.designs.tier[design],
            Self::Tier(tier) => Some(tier),
            _ => None,
        };
        tier.map(|tier| shop.designs.tiers.text(tier).to_owned())
    }

    /// Whether it holds only deliveries or kept deposits.
    #[must_use]
    pub(crate) fn has_no_cookies(self) -> bool {
        matches!(self, Self::Delivery | Self::KeptDeposits)
    }
}
