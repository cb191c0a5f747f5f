//! The arguments of the commands about prices to come.

use super::shared::{CostingArguments, PeriodArguments, ProgramArguments};
use super::values::{day, money, pieces, whole};
use crate::pricing::change::{Change, fewer, percent, price_change};
use crate::quantity::millionths::Money;
use crate::quantity::{Day, Percent};
use clap::{Args, ValueEnum};
use std::path::PathBuf;

/// Work out next season's price list, what a raise would earn and what it puts at risk
///
/// Use it before a season. Fair prices come from present ingredient prices, the minutes your logs say a piece takes, and last
/// season's set-up and costs; the list is the one that pays your wage and moves your prices least, each design staying near its own
/// price. Nothing is written unless you say --write. A season is the last twelve months of hand-overs, unless you choose another.
#[derive(Debug, Args)]
#[command(
    after_help = "Example: fairdozen tiers my-shop\n         fairdozen tiers my-shop --tiers 5 --max-rise 15% --if \"butter +20%\"\n         fairdozen tiers my-shop --write --starts 2027-02-01"
)]
pub struct Tiers {
    /// The shop's folder
    #[arg(default_value = ".")]
    pub shop: PathBuf,
    /// How many tiers [default: as many as now]
    #[arg(long = "tiers", value_name = "COUNT", allow_negative_numbers = true, value_parser = |text: &str| whole(text, 1..=12), conflicts_with = "keep")]
    pub count: Option<i64>,
    /// Leave designs in their tiers and only price them
    #[arg(long)]
    pub keep: bool,
    /// The wage aimed at, per hour, in place of the shop's
    #[arg(long, value_name = "MONEY", value_parser = money, allow_negative_numbers = true)]
    pub target: Option<Money>,
    /// The most any one price may rise, as 15%
    #[arg(long, value_name = "PERCENT", value_parser = percent, allow_hyphen_values = true)]
    pub max_rise: Option<Percent>,
    /// A change of an item's price, as "butter +20%" or "eggs x2"; may be given again
    #[arg(long = "if", value_name = "CHANGE", value_parser = price_change)]
    pub changes: Vec<Change>,
    /// Leave out of the prices the hours and costs that no order explains
    #[arg(long)]
    pub without_unassigned: bool,
    /// Put the new list into tiers.csv, and moved designs into designs.csv
    #[arg(long)]
    pub write: bool,
    /// The day the new list starts [default: the first of the month after the logs' last]
    #[arg(long, value_name = "DATE", value_parser = day, requires = "write")]
    pub starts: Option<Day>,
    /// Write two charts (PNG) and the list itself, as whatif reads it, into this folder
    #[arg(long, value_name = "DIR")]
    pub out: Option<PathBuf>,
    #[command(flatten)]
    pub period: PeriodArguments,
    #[command(flatten)]
    pub costing: CostingArguments,
    #[command(flatten)]
    pub programs: ProgramArguments,
}

/// Show what past orders would have paid at other prices, costs, minimums or volumes
///
/// Use it to try a price list on the orders you had, or to see what dearer butter or fewer orders would do. What happened stands
/// beside it. Each price you charged is changed as its list price is; discounts, delivery and the rest stay as they were.
#[derive(Debug, Args)]
#[command(
    after_help = "Example: fairdozen whatif my-shop --prices spring.csv\n         fairdozen whatif my-shop --fewer \"character 20%\" --if \"eggs x2\"\n         fairdozen whatif my-shop --minimum 24 --by order\n\nA price list is a CSV file with the headings tier,price; design for a row of one design alone, and from where a price\nstarts on a day."
)]
pub struct WhatIf {
    /// The shop's folder
    #[arg(default_value = ".")]
    pub shop: PathBuf,
    /// Another price list: a CSV file with the headings tier,price
    #[arg(long, value_name = "FILE.csv")]
    pub prices: Option<PathBuf>,
    /// Fewer pieces of a tier or a design, or fewer orders: "character 20%", "orders 10%"; may be given again
    #[arg(long, value_name = "WHAT", value_parser = fewer)]
    pub fewer: Vec<Change>,
    /// A change of an item's price, as "butter +20%" or "eggs x2"; may be given again
    #[arg(long = "if", value_name = "CHANGE", value_parser = price_change)]
    pub changes: Vec<Change>,
    /// Orders of fewer pieces are turned away
    #[arg(long, value_name = "PIECES", allow_negative_numbers = true, value_parser = pieces)]
    pub minimum: Option<i64>,
    /// The wage aimed at, per hour, in place of the shop's
    #[arg(long, value_name = "MONEY", value_parser = money, allow_negative_numbers = true)]
    pub target: Option<Money>,
    /// What rows are of
    #[arg(long, value_enum, default_value = "tier")]
    pub by: WhatIfBy,
    #[command(flatten)]
    pub period: PeriodArguments,
    #[command(flatten)]
    pub costing: CostingArguments,
    #[command(flatten)]
    pub programs: ProgramArguments,
}

/// Price a new set: what it comes to, what would be fair, and what an hour of it would pay
///
/// Use it while the customer waits. A set is written as pieces of designs or tiers; a new design with its tier after a colon.
#[derive(Debug, Args)]
#[command(
    after_help = "Example: fairdozen quote my-shop \"6 numeral, 12 shape, 6 character\" --colours 6\n         fairdozen quote my-shop \"1 dozen letter, 4 paper crane:character\" --rush"
)]
pub struct Quote {
    /// The shop's folder
    pub shop: PathBuf,
    /// The set, as "6 numeral, 1 dozen shape, 4 paper crane:character"
    pub set: String,
    /// Icing colours [default: as many as usual]
    #[arg(long, alias = "colors", allow_negative_numbers = true, value_parser = |text: &str| whole(text, 0..=60))]
    pub colours: Option<i64>,
    /// A rush charge: --rush=20%, or --rush alone for what you charged before (else 25%)
    #[arg(long, value_name = "PERCENT", value_parser = percent, num_args = 0..=1, require_equals = true)]
    #[allow(clippy::option_option, reason = "not asked for, asked for as usual, or asked for at so much")]
    pub rush: Option<Option<Percent>>,
    /// The day it is for: the price list in force then [default: your newest]
    #[arg(long, value_name = "DATE", value_parser = day)]
    pub date: Option<Day>,
    /// The wage aimed at, per hour, in place of the shop's
    #[arg(long, value_name = "MONEY", value_parser = money, allow_negative_numbers = true)]
    pub target: Option<Money>,
    #[command(flatten)]
    pub costing: CostingArguments,
    /// Print JSON for programs
    #[arg(long)]
    pub json: bool,
}

/// What rows of `whatif` are of.
#[derive(Debug, Clone, Copy, ValueEnum, PartialEq, Eq)]
pub enum WhatIfBy {
    /// Tiers
    Tier,
    /// Designs
    Design,
    /// Orders
    Order,
}
