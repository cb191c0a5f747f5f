//! Putting a new price list into the shop's own tables: all of it or nothing, and never a past price changed.
//!
//! A past order's row without a price of its own takes its tier's that day. So before anything is written the changed shop is
//! read again, and every row must have the price it has now.

use super::files;
use super::outcome::Outcome;
use crate::pricing::next_list::NextList;
use crate::quantity::{Day, Price};
use crate::reading::{Problem, Severity, TableSpecification};
use crate::report::figures::counted;
use crate::shop::Shop;
use crate::shop::card_edit::{Cell, Renamed, edited};
use crate::shop::load::{Folder, Skipped};
use crate::shop::settings;
use crate::shop::specification::{DESIGNS, ORDERS, TABLES, TIERS};
use std::collections::BTreeMap;
use std::fmt::Write;
use std::path::Path;

/// The files to write, by name, and what to say of them.
pub struct Prepared {
    files: Vec<(String, Vec<u8>)>,
    said: String,
}

/// Works out what the tables become. `fill_prices` lets rows of orders.csv that hang on a price list be given their price.
pub fn prepare(path: &Path, shop: &Shop, list: &NextList, starts: Day, fill_prices: bool) -> Result<Prepared, Outcome> {
    let folder = Folder::open(path);
    let mut files: BTreeMap<String, Vec<u8>> = BTreeMap::new();
    for tier in &list.tiers {
        if shop.prices.starts(&tier.tier, starts) {
            return Err(Outcome::wrong(format!(
                "tiers.csv has a price for {} from {starts} already, so nothing was written; take that row out, or name another day with --starts",
                tier.tier
            )));
        }
    }
    let rows: Vec<Vec<(&'static str, String)>> = list
        .tiers
        .iter()
        .map(|tier| {
            let price = Price { amount: tier.price, pieces: 1 }.to_string();
            vec![("tier", tier.tier.clone()), ("price", price), ("from", starts.to_string())]
        })
        .collect();
    files.insert(TIERS.file(), change(&folder, shop, &TIERS, &[], &rows)?);
    let moved = moves(shop, list);
    if shop.designs.on_card {
        let cells: Vec<Cell> =
            moved.iter().filter_map(|(line, _, tier)| Some(Cell { line: (*line)?, column: "tier", text: tier.clone() })).collect();
        if !cells.is_empty() {
            files.insert(DESIGNS.file(), change(&folder, shop, &DESIGNS, &cells, &[])?);
        }
    } else {
        files.insert(DESIGNS.file(), new_card(shop, &moved));
    }
    let hanging = hanging(&folder, shop, &files)?;
    let mut said = said_of(list, &moved, starts, shop.designs.on_card);
    if !hanging.is_empty() {
        if !fill_prices {
            return Err(refused(shop, &hanging));
        }
        files.insert(ORDERS.file(), change(&folder, shop, &ORDERS, &hanging, &[])?);
        if !self::hanging(&folder, shop, &files)?.is_empty() {
            return Err(Outcome::data("The prices of past orders would not stay as they are, so nothing was written.\n"));
        }
        let rows = counted(i64::try_from(hanging.len()).unwrap_or(i64::MAX), "row", "rows");
        let _ = writeln!(said, "Without a price of their own, {rows} of orders.csv were given the one they had: no past price changes.");
    }
    // Filled prices and added rows change nothing by themselves; a moved design needs its tier's price. So that where a later
    // file cannot take its place, what was written before it still makes a shop.
    let order = |name: &String| [ORDERS.file(), TIERS.file(), DESIGNS.file()].iter().position(|file| file == name);
    let mut files: Vec<(String, Vec<u8>)> = files.into_iter().collect();
    files.sort_by_key(|(name, _)| order(name));
    Ok(Prepared { files, said })
}

impl Prepared {
    /// Writes them; all are ready before the first takes its place.
    pub fn write(self, folder: &Path) -> Result<String, Outcome> {
        // Under the very name they have, which may be in capitals.
        let standing: Vec<String> =
            std::fs::read_dir(folder).into_iter().flatten().filter_map(|entry| entry.ok()?.file_name().into_string().ok()).collect();
        let named = |name: &String| standing.iter().find(|found| found.eq_ignore_ascii_case(name)).unwrap_or(name).clone();
        let files: Vec<(String, Vec<u8>)> = self.files.into_iter().map(|(name, bytes)| (named(&name), bytes)).collect();
        let files: Vec<(&str, Vec<u8>)> = files.iter().map(|(name, bytes)| (name.as_str(), bytes.clone())).collect();
        files::write_all(folder, &files)?;
        Ok(self.said)
    }
}

/// Designs whose tier on the card changes: the line they stand on, their name, their new tier.
fn moves(shop: &Shop, list: &NextList) -> Vec<(Option<u32>, String, String)> {
    let line = |design: crate::shop::designs::Design| shop.designs.place[design.0 as usize].map(|place| place.line);
    let sold = list.rows.iter().map(|row| (row.design, &row.key, row.old_tier.as_ref(), Some(&row.new_tier)));
    let unsold = list.unsold.iter().map(|row| (row.design, &row.key, row.old_tier.as_ref(), row.new_tier.as_ref()));
    sold.chain(unsold)
        .filter_map(|(design, key, old, new)| {
            let new = new.filter(|new| old != Some(new))?;
            Some((line(design), key.clone(), new.clone()))
        })
        .collect()
}

/// A designs card for a shop that has none: every design its orders name.
fn new_card(shop: &Shop, moved: &[(Option<u32>, String, String)]) -> Vec<u8> {
    let tier: BTreeMap<&str, &str> = moved.iter().map(|(_, name, tier)| (name.as_str(), tier.as_str())).collect();
    let mut writer = csv::Writer::from_writer(Vec::new());
    // Into memory nothing can fail.
    drop(writer.write_record(["design", "tier"]));
    for name in shop.designs.names.iter() {
        drop(writer.write_record([name, tier.get(name).copied().unwrap_or_default()]));
    }
    writer.into_inner().unwrap_or_default()
}

fn change(
    folder: &Folder,
    shop: &Shop,
    table: &TableSpecification,
    cells: &[Cell],
    rows: &[Vec<(&'static str, String)>],
) -> Result<Vec<u8>, Outcome> {
    let file = table.file();
    let none = Renamed::new();
    let renamed = shop.settings.columns.get(table.name).unwrap_or(&none);
    let bytes = folder.bytes(&file).map_or_else(|| new_headings(table), <[u8]>::to_vec);
    edited(&bytes, table, renamed, cells, rows).ok_or_else(|| {
        Outcome::data(format!("{}\n", Problem::of_file(Severity::Error, &file, "cannot be changed, so nothing was written")))
    })
}

fn new_headings(table: &TableSpecification) -> Vec<u8> {
    (table.columns.iter().map(|column| column.name).collect::<Vec<_>>().join(",") + "\n").into_bytes()
}

/// Cells that would have to be filled in for every past row to keep its price; the changed shop must be sound.
fn hanging(folder: &Folder, shop: &Shop, files: &BTreeMap<String, Vec<u8>>) -> Result<Vec<Cell>, Outcome> {
    let scratch = tempfile::tempdir().map_err(|error| Outcome::wrong(format!("no scratch folder can be made: {error}")))?;
    let unwritable = |error: std::io::Error| Outcome::wrong(format!("the scratch folder cannot be written: {error}"));
    for name in TABLES.iter().map(TableSpecification::file).chain([settings::FILE.to_owned()]) {
        if let Some(bytes) = files.get(&name).map(Vec::as_slice).or_else(|| folder.bytes(&name)) {
            std::fs::write(scratch.path().join(&name), bytes).map_err(unwritable)?;
        }
    }
    let loaded = Folder::open(scratch.path()).load(&Skipped::new());
    // A row that would be left without any price hangs on its list as much as one whose price would change.
    let hangs = |problem: &Problem| problem.file == ORDERS.file() && problem.column.as_deref() == Some("price");
    if let Some(problem) = loaded.problems.iter().find(|problem| problem.severity == Severity::Error && !hangs(problem)) {
        return Err(Outcome::data(format!("The new list would not read well, so nothing was written: {problem}\n")));
    }
    let Some(changed) = loaded.shop.filter(|changed| changed.orders.rows() == shop.orders.rows()) else {
        return Err(Outcome::data("The new list would change the orders, so nothing was written.\n"));
    };
    let differs = (0..shop.orders.rows()).filter(|row| shop.orders.price[*row] != changed.orders.price[*row]);
    Ok(differs.map(|row| Cell { line: shop.orders.place[row].line, column: "price", text: shop.orders.price[row].to_string() }).collect())
}

fn refused(shop: &Shop, hanging: &[Cell]) -> Outcome {
    let rows: Vec<usize> =
        (0..shop.orders.rows()).filter(|row| hanging.iter().any(|cell| cell.line == shop.orders.place[*row].line)).collect();
    let mut designs: Vec<&str> =
        rows.iter().filter_map(|row| shop.orders.design[*row]).map(|design| shop.designs.names.text(design)).collect();
    designs.sort_unstable();
    designs.dedup();
    Outcome::data(format!(
        "Nothing was written: {} of orders.csv ({}) have no price of their own and take their tier's that day, so the new list would change \
         what they brought in. Three ways on: --fill-prices writes into them the price they have now; --keep leaves designs in their tiers; or \
         name a later day with --starts, where it lies before an order.\n",
        counted(i64::try_from(rows.len()).unwrap_or(i64::MAX), "row", "rows"),
        designs.join(", ")
    ))
}

fn said_of(list: &NextList, moved: &[(Option<u32>, String, String)], starts: Day, on_card: bool) -> String {
    let tiers = i64::try_from(list.tiers.len()).unwrap_or(i64::MAX);
    let mut said =
        format!("The new list is in tiers.csv: {} from {starts}; the old rows are still there.\n", counted(tiers, "price", "prices"));
    if !on_card {
        said.push_str("Your designs and their tiers are in a new file, designs.csv.\n");
    } else if !moved.is_empty() {
        let named: Vec<String> = moved.iter().map(|(_, name, tier)| format!("{name} to {tier}")).collect();
        let _ = writeln!(said, "In designs.csv moved: {}.", named.join(", "));
    }
    said
}
