//! The arguments, as typed.

mod pricing;
mod shared;
mod values;

use crate::review::{By, Sort};
use clap::{Args, Parser, Subcommand, ValueEnum};
pub use pricing::{Quote, Tiers, WhatIf, WhatIfBy};
pub use shared::{CostingArguments, FlowWord, MinutesWord, PeriodArguments, ProgramArguments};
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
    /// List each problem, where those of one kind are shown together otherwise
    #[arg(long, conflicts_with = "names")]
    pub all: bool,
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
    #[command(flatten)]
    pub programs: ProgramArguments,
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
    #[command(flatten)]
    pub programs: ProgramArguments,
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
