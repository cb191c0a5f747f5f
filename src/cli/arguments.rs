//! The arguments, as typed.

use crate::quantity::{Day, Month};
use crate::review::By;
use clap::{Args, Parser, Subcommand, ValueEnum};
use std::path::PathBuf;

/// What each cookie design cost you, what it paid you an hour, and whether your prices cover your time.
#[derive(Debug, Parser)]
#[command(name = "fairdozen", version, args_conflicts_with_subcommands = true, max_term_width = 100)]
pub struct Arguments {
    /// What to do; without it the shop is checked and its latest month reviewed
    #[command(subcommand)]
    pub command: Option<Command>,
    /// The shop's folder
    #[arg(default_value = ".")]
    pub shop: PathBuf,
}

/// The commands.
#[derive(Debug, Subcommand)]
pub enum Command {
    Check(Check),
    Wage(Wage),
}

/// Read every table and list what to mend, what is worth a look, and what was taken to be so
#[derive(Debug, Args)]
pub struct Check {
    /// The shop's folder
    #[arg(default_value = ".")]
    pub shop: PathBuf,
}

/// Show what each design, tier, order or month cost and paid an hour
#[derive(Debug, Args)]
pub struct Wage {
    /// The shop's folder
    #[arg(default_value = ".")]
    pub shop: PathBuf,
    /// What rows are of
    #[arg(long, value_enum, default_value = "design")]
    pub by: ByWord,
    #[command(flatten)]
    pub period: PeriodArguments,
    #[command(flatten)]
    pub costing: CostingArguments,
    /// Show what one more piece would pay, too
    #[arg(long)]
    pub both: bool,
    /// Order the rows
    #[arg(long, value_enum)]
    pub sort: Option<Sort>,
    /// Print JSON for programs
    #[arg(long, conflicts_with = "csv")]
    pub json: bool,
    /// Print CSV for programs
    #[arg(long)]
    pub csv: bool,
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
    #[arg(long, value_enum, default_value = "card")]
    pub minutes: MinutesWord,
    /// Leave rows with errors out, and list them
    #[arg(long)]
    pub skip_bad_rows: bool,
}

/// What rows are of.
#[derive(Debug, Clone, Copy, ValueEnum, PartialEq, Eq)]
pub enum ByWord {
    Design,
    Tier,
    Order,
    Month,
    Theme,
    Channel,
    OrderSize,
    #[value(alias = "colors")]
    Colours,
}

impl From<ByWord> for By {
    fn from(word: ByWord) -> Self {
        match word {
            ByWord::Design => Self::Design,
            ByWord::Tier => Self::Tier,
            ByWord::Order => Self::Order,
            ByWord::Month => Self::Month,
            ByWord::Theme => Self::Theme,
            ByWord::Channel => Self::Channel,
            ByWord::OrderSize => Self::OrderSize,
            ByWord::Colours => Self::Colours,
        }
    }
}

/// How rows are ordered.
#[derive(Debug, Clone, Copy, ValueEnum, PartialEq, Eq)]
pub enum Sort {
    /// By name, size or date
    Key,
    /// Least paid first
    Wage,
    /// Most short first
    Surplus,
    /// Most sold first
    Pieces,
    /// Most brought in first
    Revenue,
    /// Most hours first
    Hours,
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
    /// Your own guesses on the design card; equally where there are none
    #[default]
    Card,
    /// Every piece alike
    Equal,
}

fn month(text: &str) -> Result<Month, String> {
    Month::parse(text).ok_or_else(|| "write a month as 2026-10".to_owned())
}

fn day(text: &str) -> Result<Day, String> {
    Day::parse(text).ok_or_else(|| "write a day as 2026-09-01".to_owned())
}
