//! The arguments, as typed.

mod installing;
mod pricing;
mod shared;
mod start;
mod values;

use crate::review::{By, Sort};
use clap::{Args, Parser, Subcommand, ValueEnum};
pub use installing::{Completions, Man};
pub use pricing::{Quote, Tiers, WhatIf, WhatIfBy};
pub use shared::{CostingArguments, FlowWord, MinutesWord, PeriodArguments, ProgramArguments, ScreenArguments};
pub use start::Start;
use std::path::PathBuf;

/// Shows a maker of decorated cookies what each design cost and paid per hour, from her own logs
///
/// A shop is a folder with shop.toml and its tables, as CSV files or as the sheets of a workbook: orders, and if you keep them hours,
/// purchases, overheads, counts, designs, recipes, items and tiers. Without a command the shop is checked and its latest month
/// reviewed.
#[derive(Debug, Parser)]
#[command(name = "fairdozen", version, args_conflicts_with_subcommands = true, max_term_width = 100)]
#[command(
    after_help = "Example: fairdozen start my-shop\n         fairdozen my-shop --open\n\nHourly pay is before your own taxes. Not tax, legal or accounting advice."
)]
pub(crate) struct Arguments {
    /// What to do
    #[command(subcommand)]
    pub command: Option<Command>,
    /// The shop's folder, or its workbook
    #[arg(default_value = ".")]
    pub shop: PathBuf,
    /// Leave out rows with errors, and list them
    #[arg(long)]
    pub skip_bad_rows: bool,
    /// Print dates and numbers instead of order ids
    #[arg(long)]
    pub hide_orders: bool,
    /// Open the page in your browser
    #[arg(long)]
    pub open: bool,
    #[command(flatten)]
    pub screen: ScreenArguments,
}

/// The commands.
#[derive(Debug, Subcommand)]
pub enum Command {
    Start(Start),
    Check(Check),
    Review(Review),
    Wage(Wage),
    Minutes(Minutes),
    Tiers(Tiers),
    Whatif(WhatIf),
    Quote(Quote),
    Export(Export),
    Completions(Completions),
    Man(Man),
}

/// Read every table and list errors, warnings and assumptions
///
/// Run it whenever you have added rows. Each problem names the file, row and column, what is wrong and what to write
/// instead. The exit code is 1 if there are errors.
#[derive(Debug, Default, Args)]
#[command(
    after_help = "Example: fairdozen check my-shop\n         fairdozen check my-shop --write\n         fairdozen check my-shop --names --write"
)]
#[allow(clippy::struct_excessive_bools, reason = "each is a switch on the command line")]
pub struct Check {
    /// The shop's folder, or its workbook
    #[arg(default_value = ".")]
    pub shop: PathBuf,
    /// Show misspelt designs, each with the name you probably meant; without a designs.csv, the rows that would make one
    #[arg(long)]
    pub names: bool,
    /// Write what was understood (your headings, formats) into shop.toml; with --names, the misspellings into designs.csv, as
    /// other names of those designs
    #[arg(long)]
    pub write: bool,
    /// Your currency, such as USD, for a shop without a shop.toml
    #[arg(long, value_name = "CODE", requires = "write", conflicts_with = "names")]
    pub currency: Option<String>,
    /// Skip this misspelling; can be repeated
    #[arg(long, requires = "names", value_name = "NAME")]
    pub except: Vec<String>,
    /// List each problem, instead of grouping those of one kind
    #[arg(long, conflicts_with = "names")]
    pub all: bool,
    /// Which purchases ingredients are costed at [default: as shop.toml says]
    #[arg(long, value_enum)]
    pub cost_flow: Option<FlowWord>,
    /// Print dates and numbers instead of order ids
    #[arg(long)]
    pub hide_orders: bool,
    /// Print JSON for programs
    #[arg(long, conflicts_with_all = ["names", "write"])]
    pub json: bool,
}

/// See on one page whether a month or season covered your time, with charts and tables
///
/// Run it once a month. It says first whether your prices covered your time, then which tiers and
/// designs pay, what would help those that do not, what is worth doing, what changed since the month before, and sums to
/// check against your own books. The page (index.html), its charts (PNG), tables (CSV) and text go into a folder.
#[derive(Debug, Args)]
#[command(
    after_help = "Example: fairdozen review my-shop\n         fairdozen review my-shop --month 2026-10 --out october\n         fairdozen review my-shop --month october --against last-year"
)]
pub struct Review {
    /// The shop's folder, or its workbook
    #[arg(default_value = ".")]
    pub shop: PathBuf,
    #[command(flatten)]
    pub period: PeriodArguments,
    /// Period to compare with: previous, last-year, a month such as september or 2026-09, or a season from shop.toml [default: previous, the
    /// month before]
    #[arg(long, value_name = "WHEN")]
    pub against: Option<String>,
    /// Folder to write to [default: reviews/MONTH in the shop's folder]
    #[arg(long, value_name = "DIR")]
    pub out: Option<PathBuf>,
    /// Open the page in your browser
    #[arg(long)]
    pub open: bool,
    #[command(flatten)]
    pub screen: ScreenArguments,
    #[command(flatten)]
    pub costing: CostingArguments,
}

/// Show what each design, tier, order or month cost and paid per hour
///
/// Use it any time to see which designs lose money, and which only seem to pay because the set carried them. The last
/// row adds hours and costs not tied to an order.
#[derive(Debug, Args)]
#[command(
    after_help = "Example: fairdozen wage my-shop --by tier --both\n         fairdozen wage my-shop --by order --month 2026-10 --sort wage"
)]
pub struct Wage {
    /// The shop's folder, or its workbook
    #[arg(default_value = ".")]
    pub shop: PathBuf,
    /// Group rows by
    #[arg(long, value_enum, default_value = "design")]
    pub by: By,
    #[command(flatten)]
    pub period: PeriodArguments,
    #[command(flatten)]
    pub costing: CostingArguments,
    /// Also show what one more piece in the same order would pay
    #[arg(long)]
    pub both: bool,
    /// Sort rows by
    #[arg(long, value_enum)]
    pub sort: Option<Sort>,
    #[command(flatten)]
    pub screen: ScreenArguments,
    #[command(flatten)]
    pub programs: ProgramArguments,
}

/// Show the minutes per piece of each design, learned from the hours of whole orders
///
/// Use it to see which of your guesses are off and what to time next. Orders hold different designs in different
/// numbers, so comparing their hours reveals what a piece of each takes. A range shows how sure that is; orders far
/// from the expected hours are often logging mistakes.
#[derive(Debug, Args)]
#[command(after_help = "Example: fairdozen minutes my-shop\n         fairdozen minutes my-shop --by stage --month 2026-10")]
#[allow(clippy::struct_excessive_bools, reason = "each is a switch on the command line")]
pub struct Minutes {
    /// The shop's folder, or its workbook
    #[arg(default_value = ".")]
    pub shop: PathBuf,
    /// Show minutes per piece by design, or hours as logged by stage
    #[arg(long, value_enum, default_value = "design")]
    pub by: MinutesView,
    #[command(flatten)]
    pub period: PeriodArguments,
    /// Show whether you got faster, even with short logs [default: with 18 months of orders or more]
    #[arg(long)]
    pub trend: bool,
    /// Write two charts (PNG) to this folder
    #[arg(long, value_name = "DIR")]
    pub out: Option<PathBuf>,
    #[command(flatten)]
    pub screen: ScreenArguments,
    #[command(flatten)]
    pub programs: ProgramArguments,
    /// Leave out rows with errors, and list them
    #[arg(long)]
    pub skip_bad_rows: bool,
    /// Print dates and numbers instead of order ids
    #[arg(long)]
    pub hide_orders: bool,
}

/// What `minutes` shows.
#[derive(Debug, Clone, Copy, ValueEnum, PartialEq, Eq)]
pub(crate) enum MinutesView {
    /// Minutes per piece by design, learned from all your logs
    Design,
    /// Hours as logged, by stage, month and person
    Stage,
}

/// Write the facts behind every figure as CSV, one row for each line of an order
///
/// Use it to make your own tables, or for an accountant. Every row has its revenue, each cost and the minutes of each
/// stage; their sums, with hours and costs not tied to an order, equal your logs.
#[derive(Debug, Args)]
#[command(after_help = "Example: fairdozen export my-shop --out facts.csv")]
pub(crate) struct Export {
    /// The shop's folder, or its workbook
    #[arg(default_value = ".")]
    pub shop: PathBuf,
    /// File to write [default: the screen]
    #[arg(long, value_name = "FILE.csv")]
    pub out: Option<PathBuf>,
    #[command(flatten)]
    pub period: PeriodArguments,
    #[command(flatten)]
    pub costing: CostingArguments,
}
