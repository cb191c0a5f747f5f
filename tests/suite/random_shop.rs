//! Small legal shops made from a seed, with every feature a shop's tables may have.
//!
//! The tables stay lists of rows, so that a test can shuffle them, split a row, or work out for itself what they
//! say; [`RandomShop::trial`] writes them as files, so that they go through the whole program. Names are invented.

mod cards;
pub mod dice;
mod materials;
pub mod options;
mod orders;
mod work;

use crate::harness::Trial;
use chrono::{NaiveDate, TimeDelta};
use dice::Dice;
use options::Options;
use proptest::prelude::*;
use proptest::test_runner::{RngAlgorithm, TestCaseResult, TestRng, TestRunner};
use std::collections::BTreeMap;

/// Tries a property on so many shops: the same ones every time, others for another `salt`. A failure tells the
/// shop's seed; seeds are not shrunk, since a smaller one makes no smaller shop.
pub fn for_many_shops(cases: u32, salt: u8, property: impl Fn(RandomShop, Dice) -> TestCaseResult) {
    let config = ProptestConfig { cases, failure_persistence: None, max_shrink_iters: 0, ..ProptestConfig::default() };
    let mut runner = TestRunner::new_with_rng(config, TestRng::from_seed(RngAlgorithm::ChaCha, &[salt; 32]));
    let outcome = runner.run(&any::<u64>(), |seed| property(RandomShop::of(seed), Dice::new(!seed)));
    if let Err(failure) = outcome {
        panic!("{failure}");
    }
}

/// A row: its cells by column. A column without a cell is blank.
pub type Row = BTreeMap<&'static str, String>;

/// A row of these cells.
fn row<const N: usize>(cells: [(&'static str, String); N]) -> Row {
    Row::from(cells)
}

/// A cell; blank where the row has none.
pub fn cell<'a>(row: &'a Row, column: &str) -> &'a str {
    row.get(column).map_or("", String::as_str)
}

/// One table.
pub struct Table {
    columns: &'static [&'static str],
    pub rows: Vec<Row>,
}

impl Table {
    /// Its columns, in the order they are written.
    pub fn columns(&self) -> &'static [&'static str] {
        self.columns
    }
}

/// A shop.
pub struct RandomShop {
    pub options: Options,
    /// By name, without the files' ending. Tables the shop does not keep are not there.
    pub tables: BTreeMap<&'static str, Table>,
    /// Other names of designs, and the designs they mean.
    pub also_called: BTreeMap<String, String>,
}

impl RandomShop {
    pub fn of(seed: u64) -> Self {
        let mut maker = Maker::new(seed);
        maker.cards();
        maker.orders();
        maker.materials();
        maker.hours();
        maker.overheads();
        maker.shop
    }

    /// The rows of a table; none where the shop does not keep it.
    pub fn rows(&self, table: &str) -> &[Row] {
        self.tables.get(table).map_or(&[], |table| table.rows.as_slice())
    }

    /// Written as files.
    pub fn trial(&self) -> Trial {
        let trial = Trial::new(&[("shop.toml", &self.options.toml())]);
        for (name, table) in &self.tables {
            let renamed = if *name == "orders" { self.options.order_headings.as_slice() } else { &[] };
            let heading = |column: &&'static str| renamed.iter().find(|(ours, _)| ours == column).map_or(*column, |(_, hers)| *hers);
            let mut writer = csv::Writer::from_writer(Vec::new());
            writer.write_record(table.columns.iter().map(heading)).unwrap();
            for row in &table.rows {
                writer.write_record(table.columns.iter().map(|column| cell(row, column))).unwrap();
            }
            trial.write(&format!("{name}.csv"), &writer.into_inner().unwrap());
        }
        trial
    }
}

/// An order, as far as other tables need to know it.
struct Sold {
    id: String,
    day: NaiveDate,
    designs: Vec<String>,
}

/// A shop in the making.
struct Maker {
    dice: Dice,
    shop: RandomShop,
    start: NaiveDate,
    /// Days from the first hand-over that may be to the last.
    span: i64,
    designs: Vec<String>,
    /// The tier of each design on the card.
    tiers: BTreeMap<String, String>,
    channels: Vec<&'static str>,
    sold: Vec<Sold>,
}

const FIRST: [&str; 12] = ["tide", "moss", "reed", "ember", "dew", "frost", "clover", "amber", "harbour", "lantern", "willow", "pebble"];
const SECOND: [&str; 12] = ["bell", "drum", "leaf", "shell", "crown", "kite", "star", "lamp", "wheel", "boat", "fern", "moon"];
const THEMES: [&str; 3] = ["harvest", "wedding", "first snow"];

impl Maker {
    fn new(seed: u64) -> Self {
        let mut dice = Dice::new(seed);
        let many = dice.whole(0, 3);
        let channels = dice.some(&["web", "market stall", "friends"], many);
        let many = dice.whole(0, 2);
        let helpers = dice.some(&["robin", "wren"], many);
        let options = Options::roll(&mut dice, &channels, &helpers);
        let start = NaiveDate::from_ymd_opt(2026, 1, 5).unwrap() + TimeDelta::days(dice.whole(0, 200));
        let span = dice.one(&[20, 35, 60, 100]);
        let shop = RandomShop { options, tables: BTreeMap::new(), also_called: BTreeMap::new() };
        Self { dice, shop, start, span, designs: Vec::new(), tiers: BTreeMap::new(), channels, sold: Vec::new() }
    }

    fn chance(&mut self, percent: i64) -> bool {
        self.dice.chance(percent)
    }

    /// A day so many days from the start.
    fn day(&mut self, from: i64, to: i64) -> NaiveDate {
        self.start + TimeDelta::days(self.dice.whole(from, to))
    }

    /// Keeps a table, in some order of rows.
    fn keep(&mut self, name: &'static str, columns: &'static [&'static str], mut rows: Vec<Row>) {
        if self.chance(50) {
            self.dice.shuffle(&mut rows);
        }
        self.shop.tables.insert(name, Table { columns, rows });
    }

    fn has(&self, table: &str) -> bool {
        self.shop.tables.contains_key(table)
    }

    /// What the logs call a design.
    fn called(&mut self, design: &str) -> String {
        let names: Vec<String> = self.shop.also_called.iter().filter(|(_, meant)| *meant == design).map(|(name, _)| name.clone()).collect();
        if names.is_empty() || self.chance(60) { design.to_owned() } else { self.dice.one(&names) }
    }
}
