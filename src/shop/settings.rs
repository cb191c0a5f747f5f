//! The settings in `shop.toml`. `settings/` holds their specification and reading.

use super::size::BySize;
use crate::quantity::millionths::Money;
use crate::quantity::{Percent, Period};
use crate::reading::headings::quoted;
use crate::reading::problem::SETTINGS_SHEET;
use crate::reading::table::{FileFormats, Reading};
use std::collections::BTreeMap;

mod file;
mod proposal;
mod sheet;
pub mod specification;
mod value;

pub use proposal::{Proposal, with_currency, with_proposals};
pub use sheet::read_with_sheet;

/// The file's name.
pub const FILE: &str = "shop.toml";

/// The sheet of a workbook that holds them instead: setting, value, meaning.
pub(crate) const SHEET: &str = SETTINGS_SHEET;

/// The word in `[sheets]` for a sheet that holds no table.
pub(crate) const NO_TABLE: &str = "none";

/// Which purchases set the price of an item used.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub enum CostFlow {
    /// The last purchase on or before the day.
    #[default]
    Latest,
    /// Moving weighted average.
    Average,
    /// First in, first out.
    Fifo,
}

/// How a stage's minutes are divided among order lines.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum SharedBy {
    /// Pieces sold.
    Pieces,
    /// Grams of dough and icing.
    Weight,
    /// Minutes per piece × pieces.
    Minutes,
    /// Equally by order, then by pieces.
    Orders,
    /// Icing colours by order, then by pieces.
    Colours,
    /// Equally over orders with delivery lines, to those lines.
    Delivery,
    /// Waiting, such as drying, which is never paid.
    Unattended,
}

/// Fees on card charges.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub struct Fees {
    /// Share of everything charged.
    pub percent: Percent,
    /// Per card charge.
    pub fixed: Money,
    /// Card charges an order, where it does not say.
    pub payments: i64,
}

/// What one channel's fees differ in.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub struct ChannelFees {
    /// Share of everything charged.
    pub percent: Option<Percent>,
    /// Per card charge.
    pub fixed: Option<Money>,
    /// Card charges an order, where it does not say.
    pub payments: Option<i64>,
}

/// The settings in `shop.toml`.
#[derive(Debug, Clone, Default)]
pub struct Settings {
    /// ISO 4217 code.
    pub currency: String,
    /// Percentage baked beyond what is sold.
    pub spares: Percent,
    /// Which purchases a use is costed at.
    pub cost_flow: CostFlow,
    /// Whether tips are revenue.
    pub tips_count: bool,
    /// Whether tax on purchases is no cost.
    pub reclaim_purchase_tax: bool,
    /// Target wage, per hour.
    pub target: Option<Money>,
    /// Least wage, per hour.
    pub floor: Option<Money>,
    /// Fees of any order.
    pub fees: Fees,
    /// What a channel's fees differ in.
    pub channel_fees: BTreeMap<String, ChannelFees>,
    /// Materials of one piece by size, for designs without a recipe.
    pub materials: BySize<Option<Money>>,
    /// Helpers' rates per hour.
    pub helpers: BTreeMap<String, Money>,
    /// Days ahead that an entry naming no order serves.
    pub reach: i32,
    /// Stages and how each is shared.
    pub stages: BTreeMap<String, SharedBy>,
    /// Price endings, as parts of the main unit.
    pub endings: Vec<Money>,
    /// Named periods.
    pub seasons: BTreeMap<String, Period>,
    /// Sheets of a workbook whose names are of no table, each with the table it holds, or [`NO_TABLE`].
    pub sheets: BTreeMap<String, String>,
    /// The shop's own headings, by table, each with the column it stands for.
    pub columns: BTreeMap<String, BTreeMap<String, String>>,
    /// How columns are written: by table or file, and by column or heading, the name of a [`crate::reading::format::Style`].
    pub formats: BTreeMap<String, BTreeMap<String, String>>,
    /// The shop's own words, each with the stage, kind, status or other word of ours it stands for.
    pub words: BTreeMap<String, String>,
    /// How an order may have been paid, in the shop's own words, each with its card charges.
    pub payments: BTreeMap<String, i64>,
    /// Names of rows that stand twice in one file and are meant to.
    pub repeats: Vec<String>,
}

/// The stages every shop has, before its own are added. Common practice, no source.
pub const DEFAULT_STAGES: &[(&str, SharedBy)] = &[
    ("plan", SharedBy::Orders),
    ("shopping", SharedBy::Weight),
    ("mix", SharedBy::Weight),
    ("roll", SharedBy::Pieces),
    ("bake", SharedBy::Pieces),
    ("icing", SharedBy::Weight),
    ("tint", SharedBy::Colours),
    ("decorate", SharedBy::Minutes),
    ("dry", SharedBy::Unattended),
    ("pack", SharedBy::Pieces),
    ("deliver", SharedBy::Delivery),
    ("clean", SharedBy::Pieces),
    ("admin", SharedBy::Orders),
];

/// The names of what a stage may be shared by.
pub(crate) const SHARED_BY: &[(&str, SharedBy)] = &[
    ("pieces", SharedBy::Pieces),
    ("weight", SharedBy::Weight),
    ("minutes", SharedBy::Minutes),
    ("orders", SharedBy::Orders),
    ("colours", SharedBy::Colours),
    ("colors", SharedBy::Colours),
    ("delivery", SharedBy::Delivery),
    ("unattended", SharedBy::Unattended),
];

/// The names of the cost flows.
pub const COST_FLOWS: &[(&str, CostFlow)] = &[("latest", CostFlow::Latest), ("average", CostFlow::Average), ("fifo", CostFlow::Fifo)];

impl Settings {
    /// The fees of a channel: its own where it has them, else the shop's.
    #[must_use]
    pub(crate) fn fees_of(&self, channel: Option<&str>) -> Fees {
        let own = channel.and_then(|channel| self.channel_fees.get(channel)).copied().unwrap_or_default();
        Fees {
            percent: own.percent.unwrap_or(self.fees.percent),
            fixed: own.fixed.unwrap_or(self.fees.fixed),
            payments: own.payments.unwrap_or(self.fees.payments),
        }
    }

    /// How the shop writes one of its tables.
    #[must_use]
    pub fn reading(&self, table: &str) -> Reading {
        let of = |all: &BTreeMap<String, BTreeMap<String, String>>| all.get(table).cloned().unwrap_or_default();
        let (columns, formats) = (of(&self.columns), of(&self.formats));
        let (words, payments) = (self.words.clone(), self.payments.clone());
        Reading { table: table.to_owned(), columns, formats, of_file: None, words, payments, currency: self.currency.clone() }
    }

    /// How the shop writes one of the several files of a table.
    #[must_use]
    pub(crate) fn reading_of(&self, table: &str, file: &str) -> Reading {
        let formats = self.formats.iter().find(|(section, _)| section.to_lowercase() == file.to_lowercase());
        let formats = formats.map(|(_, formats)| formats.clone()).unwrap_or_default();
        Reading { of_file: Some(FileFormats { section: quoted(file), formats }), ..self.reading(table) }
    }

    /// A channel's own fees, added if it has none yet.
    fn fees_of_channel(&mut self, names: &[String]) -> &mut ChannelFees {
        self.channel_fees.entry(names.concat()).or_default()
    }

    /// A season, added if there is none of that name yet.
    fn season(&mut self, names: &[String]) -> &mut Period {
        self.seasons.entry(names.concat()).or_default()
    }
}
