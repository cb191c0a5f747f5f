//! The arguments, as typed.

use crate::pricing::change::{Change, fewer, percent, price_change};
use crate::quantity::millionths::Money;
use crate::quantity::{Day, Month, Percent, number};
use crate::review::{By, Sort};
use clap::builder::PossibleValue;
use clap::{Args, Parser, Subcommand, ValueEnum};
use std::path::PathBuf;

/// Tells a maker of decorated cookies, from the logs she keeps, what each design cost and what it paid an hour
///
/// A shop is a folder with shop.toml and its tables as CSV files: orders, and as far as you keep them hours,
/// purchases, overheads, counts, designs, recipes, items and tiers. Without a command the shop is checked and its
/// latest month reviewed.
#[derive(Debug, Parser)]
#[command(name = "fairdozen", version, args_conflicts_with_subcommands = true, max_term_width = 100)]
#[command(after_help = "Example: fairdozen my-shop\n\nThe hourly wage is before your own taxes. Not tax, legal or accounting advice.")]
pub struct Arguments {
    /// What to do
    #[command(subcommand)]
    pub command: Option<Command>,
    /// The shop's folder
    #[arg(default_value = ".")]
    pub shop: PathBuf,
    /// Leave rows with errors out, and list them
    #[arg(long)]
    pub skip_bad_rows: bool,
    /// Print dates and numbers in place of order ids
    #[arg(long)]
    pub hide_orders: bool,
}

/// The commands.
#[derive(Debug, Subcommand)]
pub enum Command {
    Check(Check),
    Review(Review),
    Wage(Wage),
    Minutes(Minutes),
    Tiers(Tiers),
    Whatif(WhatIf),
    Quote(Quote),
    Export(Export),
}

/// Read every table; list what to mend, what is worth a look, and what was taken to be so
///
/// Use it after every evening of typing. Each problem names the file, the row, the column, what is wrong and what to
/// write instead. Exit code 1 where something must be mended.
#[derive(Debug, Args)]
#[command(after_help = "Example: fairdozen check my-shop\n         fairdozen check my-shop --names --write")]
#[allow(clippy::struct_excessive_bools, reason = "each is a switch on the command line")]
pub struct Check {
    /// The shop's folder
    #[arg(default_value = ".")]
    pub shop: PathBuf,
    /// Show misspelt designs with the names they were probably meant to be
    #[arg(long)]
    pub names: bool,
    /// Add those names to the designs card (`also_called`)
    #[arg(long, requires = "names")]
    pub write: bool,
    /// Leave this misspelling out; may be given again
    #[arg(long, requires = "names", value_name = "NAME")]
    pub except: Vec<String>,
    /// Which purchases a use is costed at, in place of the shop's own choice
    #[arg(long, value_enum)]
    pub cost_flow: Option<FlowWord>,
    /// Print dates and numbers in place of order ids
    #[arg(long)]
    pub hide_orders: bool,
    /// Print JSON for programs
    #[arg(long, conflicts_with = "names")]
    pub json: bool,
}

/// Did a month or season cover your time? On one page, with charts and tables
///
/// Use it on the first Sunday of the month. Says first whether prices covered your time, then which tiers and designs
/// pay, what would mend those that do not, what is worth doing, what changed since the month before, and what ties the
/// figures to your own sums. The page (index.html), its charts (PNG), tables (CSV) and the text are written into a folder.
#[derive(Debug, Args)]
#[command(
    after_help = "Example: fairdozen review my-shop\n         fairdozen review my-shop --month 2026-10 --out october\n         fairdozen review my-shop --month 2026-10 --against last-year"
)]
pub struct Review {
    /// The shop's folder
    #[arg(default_value = ".")]
    pub shop: PathBuf,
    #[command(flatten)]
    pub period: PeriodArguments,
    /// What to tell the change since: previous, last-year, a month as 2026-09, or a season named in shop.toml [default:
    /// previous, the month before]
    #[arg(long, value_name = "WHEN")]
    pub against: Option<String>,
    /// Where to write [default: reviews/MONTH in the shop's folder]
    #[arg(long, value_name = "DIR")]
    pub out: Option<PathBuf>,
    #[command(flatten)]
    pub costing: CostingArguments,
}

/// Show what each design, tier, order or month cost and paid an hour
///
/// Use it any time, to see which designs lose money and which only look cheap because the set carried them. The total
/// equals your logs; what no order explains stands beside it.
#[derive(Debug, Args)]
#[command(
    after_help = "Example: fairdozen wage my-shop --by tier --both\n         fairdozen wage my-shop --by order --month 2026-10 --sort wage"
)]
pub struct Wage {
    /// The shop's folder
    #[arg(default_value = ".")]
    pub shop: PathBuf,
    /// What rows are of
    #[arg(long, value_enum, default_value = "design")]
    pub by: By,
    #[command(flatten)]
    pub period: PeriodArguments,
    #[command(flatten)]
    pub costing: CostingArguments,
    /// Show what one more piece in an order already running would pay, too
    #[arg(long)]
    pub both: bool,
    /// Order the rows by
    #[arg(long, value_enum)]
    pub sort: Option<Sort>,
    /// Print JSON for programs
    #[arg(long, conflicts_with = "csv")]
    pub json: bool,
    /// Print CSV for programs
    #[arg(long)]
    pub csv: bool,
}

/// Show what a piece of each design takes, worked out from the hours of whole orders
///
/// Use it to see which of your guesses are off and what to time next. Orders hold different designs in different
/// numbers, so their hours together tell what a piece of each takes, and how surely. What your logs fit is given as a
/// range; orders far from what was expected are often logging mistakes.
#[derive(Debug, Args)]
#[command(after_help = "Example: fairdozen minutes my-shop\n         fairdozen minutes my-shop --by stage --month 2026-10")]
#[allow(clippy::struct_excessive_bools, reason = "each is a switch on the command line")]
pub struct Minutes {
    /// The shop's folder
    #[arg(default_value = ".")]
    pub shop: PathBuf,
    /// Minutes a piece, or hours as logged
    #[arg(long, value_enum, default_value = "design")]
    pub by: MinutesView,
    #[command(flatten)]
    pub period: PeriodArguments,
    /// Tell whether you grew faster, however short the logs [default: from 18 months of orders on]
    #[arg(long)]
    pub trend: bool,
    /// Write two charts (PNG) into this folder
    #[arg(long, value_name = "DIR")]
    pub out: Option<PathBuf>,
    /// Print JSON for programs
    #[arg(long, conflicts_with = "csv")]
    pub json: bool,
    /// Print CSV for programs
    #[arg(long)]
    pub csv: bool,
    /// Leave rows with errors out, and list them
    #[arg(long)]
    pub skip_bad_rows: bool,
    /// Print dates and numbers in place of order ids
    #[arg(long)]
    pub hide_orders: bool,
}

/// What `minutes` shows.
#[derive(Debug, Clone, Copy, ValueEnum, PartialEq, Eq)]
pub enum MinutesView {
    /// Minutes a piece by design, learned from all of the logs
    Design,
    /// Hours as logged: by stage, month and who
    Stage,
}

/// Work out next season's price list, what a raise would earn and what it puts at risk
///
/// Use it before a season. Fair prices come from present ingredient prices, the minutes your logs say a piece takes, and last
/// season's set-up and costs; the list is the one that pays your wage and moves your prices least. Nothing is written
/// unless you say --write. A season is the last twelve months of hand-overs, unless you choose another.
#[derive(Debug, Args)]
#[command(
    after_help = "Example: fairdozen tiers my-shop\n         fairdozen tiers my-shop --tiers 5 --max-rise 15% --if \"butter +20%\"\n         fairdozen tiers my-shop --write --starts 2027-02-01"
)]
#[allow(clippy::struct_excessive_bools, reason = "each is a switch on the command line")]
pub struct Tiers {
    /// The shop's folder
    #[arg(default_value = ".")]
    pub shop: PathBuf,
    /// How many tiers [default: as many as now]
    #[arg(long = "tiers", value_name = "COUNT", value_parser = clap::value_parser!(u8).range(1..=12), conflicts_with = "keep")]
    pub count: Option<u8>,
    /// Leave designs in their tiers and only price them
    #[arg(long)]
    pub keep: bool,
    /// The wage aimed at, per hour, in place of the shop's
    #[arg(long, value_name = "MONEY", value_parser = money)]
    pub target: Option<Money>,
    /// The most any one price may rise, as 15%
    #[arg(long, value_name = "PERCENT", value_parser = percent)]
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
    /// Print JSON for programs
    #[arg(long, conflicts_with = "csv")]
    pub json: bool,
    /// Print CSV for programs
    #[arg(long)]
    pub csv: bool,
}

/// Show what past orders would have paid at other prices, costs, minimums or volumes
///
/// Use it to try a price list on the orders you had, or to see what dearer butter or fewer orders would do. What happened stands
/// beside it. Each price you charged is changed as its list price is; discounts, delivery and the rest stay as they were.
#[derive(Debug, Args)]
#[command(
    after_help = "Example: fairdozen whatif my-shop --prices spring.csv\n         fairdozen whatif my-shop --fewer \"character 20%\" --if \"eggs x2\"\n         fairdozen whatif my-shop --minimum 24 --by order\n\nA price list is a CSV file with the headings tier,price (and from, where it changes by date). A design's name may stand in\nplace of a tier."
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
    #[arg(long, value_name = "PIECES", value_parser = clap::value_parser!(u32).range(1..=100_000))]
    pub minimum: Option<u32>,
    /// The wage aimed at, per hour, in place of the shop's
    #[arg(long, value_name = "MONEY", value_parser = money)]
    pub target: Option<Money>,
    /// What rows are of
    #[arg(long, value_enum, default_value = "tier")]
    pub by: WhatIfBy,
    #[command(flatten)]
    pub period: PeriodArguments,
    #[command(flatten)]
    pub costing: CostingArguments,
    /// Print JSON for programs
    #[arg(long, conflicts_with = "csv")]
    pub json: bool,
    /// Print CSV for programs
    #[arg(long)]
    pub csv: bool,
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
    #[arg(long, alias = "colors", value_parser = clap::value_parser!(u8).range(0..=60))]
    pub colours: Option<u8>,
    /// A rush charge: --rush=20%, or --rush alone for what you charged before (else 25%)
    #[arg(long, value_name = "PERCENT", value_parser = percent, num_args = 0..=1, require_equals = true)]
    #[allow(clippy::option_option, reason = "not asked for, asked for as usual, or asked for at so much")]
    pub rush: Option<Option<Percent>>,
    /// The day it is for: the price list in force then [default: your newest]
    #[arg(long, value_name = "DATE", value_parser = day)]
    pub date: Option<Day>,
    /// The wage aimed at, per hour, in place of the shop's
    #[arg(long, value_name = "MONEY", value_parser = money)]
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

/// Write the facts behind every figure as CSV, one row for each line of an order
///
/// Use it to make your own tables, or to send an accountant. Revenue, each cost and the minutes of each stage stand on
/// every line; sums over them, with what is unassigned, equal the logs.
#[derive(Debug, Args)]
#[command(after_help = "Example: fairdozen export my-shop --out facts.csv")]
pub struct Export {
    /// The shop's folder
    #[arg(default_value = ".")]
    pub shop: PathBuf,
    /// The file to write [default: the screen]
    #[arg(long, value_name = "FILE.csv")]
    pub out: Option<PathBuf>,
    #[command(flatten)]
    pub period: PeriodArguments,
    #[command(flatten)]
    pub costing: CostingArguments,
}

/// Which lines.
#[derive(Debug, Args, Default)]
pub struct PeriodArguments {
    /// One month, as 2026-10
    #[arg(long, value_parser = month, conflicts_with_all = ["season", "from", "to"])]
    pub month: Option<Month>,
    /// A season named in shop.toml
    #[arg(long, conflicts_with_all = ["from", "to"])]
    pub season: Option<String>,
    /// First day, as 2026-09-01
    #[arg(long, value_parser = day)]
    pub from: Option<Day>,
    /// Last day
    #[arg(long, value_parser = day)]
    pub to: Option<Day>,
}

/// How to cost.
#[derive(Debug, Args, Default)]
pub struct CostingArguments {
    /// Which purchases a use is costed at, in place of the shop's own choice
    #[arg(long, value_enum)]
    pub cost_flow: Option<FlowWord>,
    /// What whole-order minutes are split by
    #[arg(long, value_enum, default_value = "learned")]
    pub minutes: MinutesWord,
    /// Leave rows with errors out, and list them
    #[arg(long)]
    pub skip_bad_rows: bool,
    /// Print dates and numbers in place of order ids
    #[arg(long)]
    pub hide_orders: bool,
}

impl ValueEnum for By {
    fn value_variants<'a>() -> &'a [Self] {
        &Self::ALL
    }

    fn to_possible_value(&self) -> Option<PossibleValue> {
        let value = PossibleValue::new(self.word());
        Some(if *self == Self::Colours { value.alias("colors") } else { value })
    }
}

impl ValueEnum for Sort {
    fn value_variants<'a>() -> &'a [Self] {
        &Self::ALL
    }

    fn to_possible_value(&self) -> Option<PossibleValue> {
        let (word, meaning) = self.words();
        Some(PossibleValue::new(word).help(meaning))
    }
}

/// A cost flow.
#[derive(Debug, Clone, Copy, ValueEnum, PartialEq, Eq)]
pub enum FlowWord {
    /// The last purchase on or before the day
    Latest,
    /// Moving weighted average
    Average,
    /// First in, first out
    Fifo,
}

/// What whole-order minutes are split by.
#[derive(Debug, Clone, Copy, ValueEnum, PartialEq, Eq, Default)]
pub enum MinutesWord {
    /// Minutes a piece worked out from your logs; the card where they cannot be
    #[default]
    Learned,
    /// Your own guesses on the design card; equally where there are none
    Card,
    /// Every piece alike
    Equal,
}

fn month(text: &str) -> Result<Month, String> {
    Month::parse(text).ok_or_else(|| "write a month as 2026-10".to_owned())
}

fn money(text: &str) -> Result<Money, String> {
    let money = number::plain(text).filter(|amount| amount.is_sign_positive() && !amount.is_zero()).and_then(Money::from_decimal);
    money.filter(|money| money.0 <= 1_000_000_000_000).ok_or_else(|| "write an amount above nil as 20.00".to_owned())
}

fn day(text: &str) -> Result<Day, String> {
    Day::parse(text).ok_or_else(|| "write a day as 2026-09-01".to_owned())
}
