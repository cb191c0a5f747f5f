//! The arguments of `start`.

use super::values::currency;
use clap::Args;
use std::path::PathBuf;

/// Start a shop: a workbook to type into, CSV files, the demo shop, or your own exports
///
/// Use it once. A workbook has a sheet for each table; only orders are needed. Each table shows an example row, which is never
/// counted: type over it. Nothing is ever written over: the folder must be new or empty.
#[derive(Debug, Args)]
#[command(
    after_help = "Example: fairdozen start my-shop\n         fairdozen start try-out --sample\n         fairdozen start my-shop --currency EUR --from orders.csv timer.csv"
)]
pub struct Start {
    /// The new shop's folder
    #[arg(value_name = "DIR")]
    pub folder: PathBuf,
    /// CSV files and a shop.toml, instead of a workbook
    #[arg(long, conflicts_with_all = ["sample", "from"])]
    pub csv: bool,
    /// The demo shop, with a year of invented orders to try things on
    #[arg(long, conflicts_with_all = ["from", "currency"])]
    pub sample: bool,
    /// Copies of your own exports, and a shop.toml
    #[arg(long, value_name = "FILE", num_args = 1..)]
    pub from: Vec<PathBuf>,
    /// Your currency, such as EUR [default: USD]
    #[arg(long, value_name = "CODE", value_parser = currency)]
    pub currency: Option<String>,
}
