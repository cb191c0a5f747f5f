//! `tiers`, `whatif` and `quote`, as a maker and as a program sees them.

mod list;
mod quote;
mod same_answer;
mod what_if;
mod written;

use crate::demo::SHOP;
use crate::harness::{Trial, figure, repository, run_on};
use fairdozen::cli::Outcome;
use rust_decimal::Decimal;
use serde_json::Value;
use std::collections::BTreeMap;
use std::path::Path;

/// The season that `tiers` sets prices by on the demo.
const SEASON: [&str; 4] = ["--from", "2025-11-01", "--to", "2026-10-31"];
/// Today's prices on the demo, for any day.
const TODAY: &str = "tier,price\nnumeral,3.25\nshape,4.75\nscene,6.50\ncharacter,11.00\n";

fn fine(outcome: Outcome) -> String {
    assert_eq!(outcome.code, 0, "{}{}", outcome.out, outcome.err);
    outcome.out
}

fn json(shop: &Path, command: &str, options: &[&str]) -> Value {
    serde_json::from_str(&fine(run_on(shop, command, &[options, &["--json"]].concat()))).unwrap()
}

fn number(value: &Value, field: &str) -> Decimal {
    figure(value, field).parse().unwrap()
}

fn rows<'a>(table: &'a Value, of: &str) -> &'a Vec<Value> {
    table[of].as_array().unwrap()
}

fn keys(value: &Value) -> String {
    value.as_object().unwrap().keys().cloned().collect::<Vec<_>>().join(" ")
}

/// A text without its line breaks.
fn flowing(text: &str) -> String {
    text.split_whitespace().collect::<Vec<_>>().join(" ")
}

/// A copy of the demo that may be written to; reviews that lie in it are left out.
fn demo_copy() -> Trial {
    let trial = Trial::new(&[]);
    for entry in std::fs::read_dir(repository(SHOP)).unwrap().map(Result::unwrap).filter(|entry| entry.path().is_file()) {
        trial.write(entry.file_name().to_str().unwrap(), &std::fs::read(entry.path()).unwrap());
    }
    trial
}

fn files(folder: &Path) -> BTreeMap<String, Vec<u8>> {
    let entries = std::fs::read_dir(folder).unwrap().map(|entry| entry.unwrap());
    entries.map(|entry| (entry.file_name().into_string().unwrap(), std::fs::read(entry.path()).unwrap())).collect()
}

/// Minutes that can be added up by hand: 2 a piece to bake, 2 and 10 to decorate as the card says, 20 to plan.
fn by_hand(target: &str) -> Trial {
    let settings = format!("currency = \"USD\"\n[wage]\ntarget = {target}\n");
    Trial::new(&[
        ("shop.toml", &settings),
        ("orders.csv", "order,date,design,quantity,price\nA1,2026-03-10,acorn,12,\nA1,2026-03-10,gate,4,\n"),
        ("designs.csv", "design,tier,minutes_each\nacorn,small,2\ngate,large,10\n"),
        ("tiers.csv", "tier,price\nsmall,3.00\nlarge,9.00\n"),
        ("hours.csv", "date,minutes,stage,order\n2026-03-09,20,plan,A1\n2026-03-09,32,bake,A1\n2026-03-09,64,decorate,A1\n"),
    ])
}

const CARD: [&str; 2] = ["--minutes", "card"];
/// All of the answer, by the card's minutes.
const DETAILS: [&str; 3] = ["--minutes", "card", "--details"];
