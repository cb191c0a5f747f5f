//! The arguments of the commands about prices to come.

use super::shared::{CostingArguments, PeriodArguments, ProgramArguments, ScreenArguments};
use super::values::{day, money, pieces, whole};
use crate::pricing::change::{Change, fewer, percent, price_change};
use crate::quantity::millionths::Money;
use crate::quantity::{Day, Percent};
use clap::{Args, ValueEnum};
use std::path::PathBuf;

/// Work out next season's price list, what a raise earns and what it puts at risk
///
/// Use it before a season. Fair prices come from today's ingredient prices, the minutes per piece in your logs, and last season's
/// set-up and costs. The list is the one that pays your target and changes your prices least. Your tables change only with --write.
/// The season is the last twelve months of orders, unless you choose another.
#[derive(Debug, Args)]
#[command(
    after_help = "Example: fairdozen tiers my-shop\n         fairdozen tiers my-shop --tiers 5 --max-rise 15% --if \"butter +20%\"\n         fairdozen tiers my-shop --write --starts 2027-02-01"
)]
pub struct Tiers {
    /// The shop's folder, or its workbook
    #[arg(default_value = ".")]
    pub shop: PathBuf,
    /// Number of tiers [default: as many as now]
    #[arg(long = "tiers", value_name = "COUNT", allow_negative_numbers = true, value_parser = |text: &str| whole(text, 1..=12), conflicts_with = "keep")]
    pub count: Option<i64>,
    /// Keep designs in their tiers and only change prices
    #[arg(long)]
    pub keep: bool,
    /// Target pay per hour, instead of the shop's
    #[arg(long, value_name = "MONEY", value_parser = money, allow_negative_numbers = true)]
    pub target: Option<Money>,
    /// Largest rise of any one price, such as 15%
    #[arg(long, value_name = "PERCENT", value_parser = percent, allow_hyphen_values = true)]
    pub max_rise: Option<Percent>,
    /// Change an item's price, such as "butter +20%" or "eggs x2"; can be repeated
    #[arg(long = "if", value_name = "CHANGE", value_parser = price_change)]
    pub changes: Vec<Change>,
    /// Leave hours and costs not tied to an order out of the prices
    #[arg(long)]
    pub without_unassigned: bool,
    /// Write the new list to tiers.csv, and designs that move to designs.csv
    #[arg(long)]
    pub write: bool,
    /// Day the new list starts; needs --write [default: the first of the month after your logs end]
    #[arg(long, value_name = "DATE", value_parser = day, requires = "write")]
    pub starts: Option<Day>,
    /// Write two charts (PNG) and the list, as whatif reads it, to this folder
    #[arg(long, value_name = "DIR")]
    pub out: Option<PathBuf>,
    #[command(flatten)]
    pub period: PeriodArguments,
    #[command(flatten)]
    pub costing: CostingArguments,
    #[command(flatten)]
    pub screen: ScreenArguments,
    #[command(flatten)]
    pub programs: ProgramArguments,
}

/// Show what past orders would have paid with other prices, costs, minimums or volumes
///
/// Use it to try a price list on past orders, or to see what dearer butter or fewer orders would do, beside what happened. Each price
/// you charged changes as its list price does; discounts, delivery and other charges stay as they were.
#[derive(Debug, Args)]
#[command(
    after_help = "Example: fairdozen whatif my-shop --prices spring.csv\n         fairdozen whatif my-shop --fewer \"character 20%\" --if \"eggs x2\"\n         fairdozen whatif my-shop --minimum 24 --by order\n\nA price list is a CSV file with the headings tier and price, written as your own tables are. Name a design\nin place of a tier to price it alone; a from column says the day a price starts."
)]
pub struct WhatIf {
    /// The shop's folder, or its workbook
    #[arg(default_value = ".")]
    pub shop: PathBuf,
    /// Price list to try: a CSV file with the headings tier and price
    #[arg(long, value_name = "FILE.csv")]
    pub prices: Option<PathBuf>,
    /// Fewer pieces of a tier or design, or fewer orders: "character 20%", "orders 10%"; can be repeated
    #[arg(long, value_name = "WHAT", value_parser = fewer)]
    pub fewer: Vec<Change>,
    /// Change an item's price, such as "butter +20%" or "eggs x2"; can be repeated
    #[arg(long = "if", value_name = "CHANGE", value_parser = price_change)]
    pub changes: Vec<Change>,
    /// Smallest order you accept, as 24 or "2 dozen"
    #[arg(long, value_name = "PIECES", allow_negative_numbers = true, value_parser = pieces)]
    pub minimum: Option<i64>,
    /// Target pay per hour, instead of the shop's
    #[arg(long, value_name = "MONEY", value_parser = money, allow_negative_numbers = true)]
    pub target: Option<Money>,
    /// Group rows by
    #[arg(long, value_enum, default_value = "tier")]
    pub by: WhatIfBy,
    #[command(flatten)]
    pub period: PeriodArguments,
    #[command(flatten)]
    pub costing: CostingArguments,
    #[command(flatten)]
    pub screen: ScreenArguments,
    #[command(flatten)]
    pub programs: ProgramArguments,
}

/// Price a new set: its price, a fair price, and what it pays per hour
///
/// Use it while the customer waits. Write the set as pieces of designs or tiers; give a new design its tier after a colon.
#[derive(Debug, Args)]
#[command(
    after_help = "Example: fairdozen quote my-shop \"6 numeral, 12 shape, 6 character\" --colours 6\n         fairdozen quote my-shop \"1 dozen letter, 4 paper crane:character\" --rush"
)]
pub struct Quote {
    /// The shop's folder, or its workbook
    pub shop: PathBuf,
    /// Set to price, such as "6 numeral, half dozen shape and 4 paper crane:character"
    pub set: String,
    /// Icing colours [default: as many as usual]
    #[arg(long, alias = "colors", allow_negative_numbers = true, value_parser = |text: &str| whole(text, 0..=60))]
    pub colours: Option<i64>,
    /// Add a rush charge: --rush 20%, or --rush alone for what you charged before (else 25%)
    #[arg(long, value_name = "PERCENT", value_parser = percent, num_args = 0..=1, require_equals = true)]
    #[allow(clippy::option_option, reason = "not asked for, asked for as usual, or asked for at so much")]
    pub rush: Option<Option<Percent>>,
    /// Day it is for, whose price list is used [default: your newest list]
    #[arg(long, value_name = "DATE", value_parser = day)]
    pub date: Option<Day>,
    /// Target pay per hour, instead of the shop's
    #[arg(long, value_name = "MONEY", value_parser = money, allow_negative_numbers = true)]
    pub target: Option<Money>,
    #[command(flatten)]
    pub costing: CostingArguments,
    #[command(flatten)]
    pub screen: ScreenArguments,
    /// Print JSON for programs
    #[arg(long)]
    pub json: bool,
}

/// How `whatif` groups its rows.
#[derive(Debug, Clone, Copy, ValueEnum, PartialEq, Eq)]
pub enum WhatIfBy {
    /// Tiers
    Tier,
    /// Designs
    Design,
    /// Orders
    Order,
}
