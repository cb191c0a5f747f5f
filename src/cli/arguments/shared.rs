//! Arguments that several commands share.

use super::values::{day, month};
use crate::quantity::Day;
use crate::quantity::month_words::MonthWords;
use crate::report::screen::Screen;
use crate::review::{By, Sort};
use clap::builder::PossibleValue;
use clap::{Args, ValueEnum};

/// Which period.
#[derive(Debug, Args, Default)]
pub struct PeriodArguments {
    /// One month, such as october (the latest in your logs), "october 2026" or 2026-10
    #[arg(long, value_parser = month, conflicts_with_all = ["season", "from", "to"])]
    pub month: Option<MonthWords>,
    /// A season named in shop.toml
    #[arg(long, conflicts_with_all = ["from", "to"])]
    pub season: Option<String>,
    /// First day, such as 2026-09-01
    #[arg(long, value_parser = day)]
    pub from: Option<Day>,
    /// Last day, such as 2026-09-30
    #[arg(long, value_parser = day)]
    pub to: Option<Day>,
}

/// Output for programs.
#[derive(Debug, Args, Default)]
pub struct ProgramArguments {
    /// Print JSON for programs
    #[arg(long, conflicts_with = "csv")]
    pub json: bool,
    /// Print CSV for programs
    #[arg(long)]
    pub csv: bool,
}

/// How much to print for a person.
#[derive(Debug, Args, Default)]
pub struct ScreenArguments {
    /// Print everything: how it was worked out, diagnostics and small rows too
    #[arg(long)]
    pub details: bool,
}

impl ScreenArguments {
    /// Returns how much of an answer is asked for.
    pub fn screen(&self) -> Screen {
        Screen::asked(self.details)
    }
}

/// How to cost.
#[derive(Debug, Args, Default)]
pub struct CostingArguments {
    /// Which purchases ingredients are costed at [default: as shop.toml says]
    #[arg(long, value_enum)]
    pub cost_flow: Option<FlowWord>,
    /// How to split the minutes of whole orders
    #[arg(long, value_enum, default_value = "learned")]
    pub minutes: MinutesWord,
    /// Leave out rows with errors, and list them
    #[arg(long)]
    pub skip_bad_rows: bool,
    /// Print dates and numbers instead of order ids
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

/// How the minutes of whole orders are split.
#[derive(Debug, Clone, Copy, ValueEnum, PartialEq, Eq, Default)]
pub enum MinutesWord {
    /// By minutes per piece learned from your logs; as card if there is too little to learn from
    #[default]
    Learned,
    /// By your own guesses in designs.csv; equally without any
    Card,
    /// Equally over all pieces
    Equal,
}
