//! Putting a new price list into the shop's own tables: all of it or nothing, and never a past price changed.
//!
//! What a past order's row without a price of its own brought in, and what its list price was, hang on the list and on its
//! design's tier that day. So before anything is written the changed shop is read again: every row must have the price it has now,
//! and every day before the list starts its list prices.

use super::files;
use super::outcome::Outcome;
use crate::pricing::at_prices::own_list;
use crate::pricing::next_list::NextList;
use crate::pricing::season::last_day;
use crate::quantity::{Day, Price};
use crate::reading::{Problem, Severity, TableSpecification};
use crate::report::figures::counted;
use crate::report::layout::wrapped;
use crate::shop::Shop;
use crate::shop::card_edit::{Cell, Renamed, edited};
use crate::shop::designs::Design;
use crate::shop::earlier_tiers;
use crate::shop::load::{Folder, Skipped};
use crate::shop::orders::Status;
use crate::shop::settings;
use crate::shop::specification::{DESIGNS, ORDERS, TABLES, TIERS};
use std::collections::{BTreeMap, BTreeSet};
use std::fmt::Write;
use std::path::Path;

/// The files to write, by name, and what to say of them.
pub struct Prepared {
    files: Vec<(String, Vec<u8>)>,
    said: String,
}

/// A design that moves.
struct Move {
    design: Design,
    key: String,
    tier: String,
    /// What its earlier tiers become; `None` where they stay as they are.
    earlier: Option<String>,
}

/// Works out what the tables become.
pub fn prepare(path: &Path, shop: &Shop, list: &NextList, starts: Day) -> Result<Prepared, Outcome> {
    let folder = Folder::open(path);
    let mut files: BTreeMap<String, Vec<u8>> = BTreeMap::new();
    let moved = moves(shop, list, starts);
    if list.is_todays() {
        return Ok(Prepared { files: Vec::new(), said: "Nothing was written: your list is this one already.\n".to_owned() });
    }
    for tier in &list.tiers {
        if shop.prices.starts(&tier.tier, starts) {
            return Err(Outcome::wrong(format!(
                "tiers.csv has a price for {} from {starts} already, so nothing was written; take that row out, or name another day with --starts",
                tier.tier
            )));
        }
    }
    let last = last_day(shop).unwrap_or(starts);
    let overtaken = list.tiers.iter().find_map(|tier| Some((tier, shop.prices.next_start(&tier.tier, starts).filter(|day| *day <= last)?)));
    if let Some((tier, day)) = overtaken {
        return Err(Outcome::wrong(format!(
            "tiers.csv has a price for {} from {day}, so a list from {starts} is over already and nothing was written; name a later day with --starts",
            tier.tier
        )));
    }
    let rows: Vec<Vec<(&'static str, String)>> = list
        .tiers
        .iter()
        .map(|tier| {
            let price = Price { amount: tier.price, pieces: 1 }.to_string();
            vec![("tier", tier.tier.clone()), ("price", price), ("from", starts.to_string())]
        })
        .collect();
    let cannot_stand = |tier: &&str| tier.contains(';') || *tier == earlier_tiers::NONE;
    let eve = Day(starts.0 - 1);
    let hers = moved.iter().filter(|moved| moved.earlier.is_some()).filter_map(|moved| shop.designs.tier_on(moved.design, eve));
    if let Some(tier) = hers.into_iter().find(cannot_stand) {
        return Err(Outcome::wrong(format!(
            "designs leave the tier '{tier}', whose name cannot stand under earlier_tiers, so nothing was written; give that tier another name in \
             designs.csv and tiers.csv first"
        )));
    }
    files.insert(TIERS.file(), change(&folder, shop, &TIERS, &[], &rows)?);
    if !shop.designs.on_card {
        files.insert(DESIGNS.file(), new_card(shop, &moved));
    } else if !moved.is_empty() {
        files.insert(DESIGNS.file(), change(&folder, shop, &DESIGNS, &cells(shop, &moved), &[])?);
    }
    keeps_the_past(&folder, shop, &files, &moved, starts)?;
    // Added rows change nothing by themselves; a moved design needs its tier's price.
    let mut files: Vec<(String, Vec<u8>)> = files.into_iter().collect();
    files.sort_by_key(|(name, _)| *name != TIERS.file());
    Ok(Prepared { files, said: said_of(shop, list, &moved, starts) })
}

impl Prepared {
    /// Writes them, all or none.
    pub fn write(self, folder: &Path) -> Result<String, Outcome> {
        // Under the very name they have, which may be in capitals.
        let standing: Vec<String> =
            std::fs::read_dir(folder).into_iter().flatten().filter_map(|entry| entry.ok()?.file_name().into_string().ok()).collect();
        let named = |name: String| standing.iter().find(|found| found.eq_ignore_ascii_case(&name)).cloned().unwrap_or(name);
        let files: Vec<_> = self.files.into_iter().map(|(name, bytes)| (folder.join(named(name)), bytes)).collect();
        files::replace_all(&files)?;
        Ok(self.said)
    }
}

/// Designs whose place on the card changes: from the list's first day they sit in its tier, before it where they sat that day.
fn moves(shop: &Shop, list: &NextList, starts: Day) -> Vec<Move> {
    let designs = &shop.designs;
    let eve = Day(starts.0 - 1);
    let sold = list.rows.iter().map(|row| (row.design, &row.key, Some(&row.new_tier)));
    let unsold = list.unsold.iter().map(|row| (row.design, &row.key, row.new_tier.as_ref()));
    let moved = |(design, key, new): (Design, &String, Option<&String>)| {
        let tier = new?.clone();
        let had_a_price = |tier: &str| shop.prices.tiers().any(|known| known == tier);
        let (before, known) = (designs.tier_on(design, eve), &designs.earlier[design.0 as usize]);
        let hangs = before != Some(&tier) && (before.is_some_and(had_a_price) || had_a_price(&tier));
        let earlier = if hangs { known.clone().and(before, eve) } else { known.clone().before(starts) };
        let on_card = designs.tier[design.0 as usize].map(|tier| designs.tiers.text(tier));
        let is_new = on_card != Some(&tier) || earlier != *known;
        is_new.then(|| Move { design, key: key.clone(), earlier: (earlier != *known).then(|| earlier.to_string()), tier })
    };
    sold.chain(unsold).filter_map(moved).collect()
}

/// The designs card's cells that change.
fn cells(shop: &Shop, moved: &[Move]) -> Vec<Cell> {
    let of = |moved: &Move| -> Vec<Cell> {
        let Some(place) = shop.designs.place[moved.design.0 as usize] else { return Vec::new() };
        let tier = Cell { line: place.line, column: "tier", text: moved.tier.clone() };
        let earlier = moved.earlier.clone().map(|text| Cell { line: place.line, column: "earlier_tiers", text });
        std::iter::once(tier).chain(earlier).collect()
    };
    moved.iter().flat_map(of).collect()
}

/// A designs card for a shop that has none: every design its orders name.
fn new_card(shop: &Shop, moved: &[Move]) -> Vec<u8> {
    let of: BTreeMap<Design, &Move> = moved.iter().map(|moved| (moved.design, moved)).collect();
    let with_earlier = moved.iter().any(|moved| moved.earlier.is_some());
    let mut writer = csv::Writer::from_writer(Vec::new());
    let columns = ["design", "tier", "earlier_tiers"];
    let count = if with_earlier { 3 } else { 2 };
    // Into memory nothing can fail.
    drop(writer.write_record(&columns[..count]));
    for design in shop.designs.all() {
        let moved = of.get(&design);
        let tier = moved.map_or("", |moved| moved.tier.as_str());
        let earlier = moved.and_then(|moved| moved.earlier.as_deref()).unwrap_or_default();
        drop(writer.write_record(&[shop.designs.names.text(design), tier, earlier][..count]));
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

/// Reads the changed shop: it must be sound, and its orders must bring in what they do now.
fn keeps_the_past(folder: &Folder, shop: &Shop, files: &BTreeMap<String, Vec<u8>>, moved: &[Move], starts: Day) -> Result<(), Outcome> {
    let scratch = tempfile::tempdir().map_err(|error| Outcome::wrong(format!("no scratch folder can be made: {error}")))?;
    let unwritable = |error: std::io::Error| Outcome::wrong(format!("the scratch folder cannot be written: {error}"));
    for name in TABLES.iter().map(TableSpecification::file).chain([settings::FILE.to_owned()]) {
        if let Some(bytes) = files.get(&name).map(Vec::as_slice).or_else(|| folder.bytes(&name)) {
            std::fs::write(scratch.path().join(&name), bytes).map_err(unwritable)?;
        }
    }
    let loaded = Folder::open(scratch.path()).load(&Skipped::new());
    if let Some(problem) = loaded.problems.iter().find(|problem| problem.severity == Severity::Error) {
        return Err(Outcome::data(format!("The new list would not read well, so nothing was written: {problem}\n")));
    }
    let Some(changed) = loaded.shop.filter(|changed| changed.orders.rows() == shop.orders.rows()) else {
        return Err(Outcome::data("The new list would change the orders, so nothing was written.\n"));
    };
    let tier = |of: &Shop, name: &str| {
        of.designs.find(name).and_then(|design| of.designs.tier[design.0 as usize]).map(|tier| of.designs.tiers.text(tier).to_owned())
    };
    let meant: BTreeMap<&str, &str> = moved.iter().map(|moved| (moved.key.as_str(), moved.tier.as_str())).collect();
    if shop.designs.names.iter().any(|name| tier(&changed, name) != meant.get(name).map(|to| (*to).to_owned()).or_else(|| tier(shop, name)))
    {
        return Err(Outcome::data("Nothing was written: your tables changed while the list was worked out; ask again.\n"));
    }
    let rows = || 0..shop.orders.rows();
    let hanging: Vec<usize> = rows().filter(|row| shop.orders.price[*row] != changed.orders.price[*row]).collect();
    if !hanging.is_empty() {
        return Err(refused(shop, &hanging));
    }
    let (was, is) = (own_list(shop), own_list(&changed));
    let of_row = |row: usize| Some((shop.orders.design[row]?, shop.orders.head(shop.orders.order[row]).day));
    let differs = |(design, day): (Design, Day)| day < starts && was(design, day) != is(design, day);
    match rows().filter_map(of_row).find(|of| differs(*of)) {
        Some((design, day)) => Err(Outcome::data(format!(
            "Nothing was written: the list price of {} on {day} would not stay as it is.\n",
            shop.designs.names.text(design)
        ))),
        None => Ok(()),
    }
}

fn refused(shop: &Shop, hanging: &[usize]) -> Outcome {
    let designs: BTreeSet<&str> =
        hanging.iter().filter_map(|row| shop.orders.design[*row]).map(|design| shop.designs.names.text(design)).collect();
    let (rows, have) = match hanging.len() {
        1 => ("1 row".to_owned(), "has no price of its own and takes"),
        count => (counted(i64::try_from(count).unwrap_or(i64::MAX), "row", "rows"), "have no price of their own and take"),
    };
    let text = format!(
        "Nothing was written: {rows} of {} ({}) {have} the list's that day, so the new list would change what was charged or \
         quoted. Name a later day with --starts, or write the price into orders.csv.",
        ORDERS.file(),
        designs.into_iter().collect::<Vec<_>>().join(", ")
    );
    Outcome::data(wrapped(&text, 0) + "\n")
}

fn said_of(shop: &Shop, list: &NextList, moved: &[Move], starts: Day) -> String {
    let tiers = i64::try_from(list.tiers.len()).unwrap_or(i64::MAX);
    let old_rows = if shop.prices.is_empty() { "" } else { "; the old rows are still there" };
    let mut said = format!("The new list is in tiers.csv: {} from {starts}{old_rows}.\n", counted(tiers, "price", "prices"));
    if !shop.designs.on_card {
        said.push_str("Your designs and their tiers are in a new file, designs.csv.\n");
    } else if !moved.is_empty() {
        let named: Vec<String> = moved.iter().map(|moved| format!("{} to {}", moved.key, moved.tier)).collect();
        let text = format!(
            "In designs.csv moved: {}. Where each sat before stands beside it, so that its past prices stay; minutes are worked out among the \
             designs of a tier, so they may shift a little.",
            named.join(", ")
        );
        let _ = writeln!(said, "{}", wrapped(&text, 0));
    }
    let since = shop.orders.heads.iter().filter(|head| head.status == Status::Done && head.day >= starts).count();
    if since > 0 {
        let orders = counted(i64::try_from(since).unwrap_or(i64::MAX), "order", "orders");
        let _ = writeln!(said, "{orders} handed over since then keep what was charged; the list price of those days is the new one.");
    }
    let later = |design: &Design| shop.designs.earlier[design.0 as usize] != shop.designs.earlier[design.0 as usize].clone().before(starts);
    let given_up: Vec<&str> = shop.designs.all().filter(later).map(|design| shop.designs.names.text(design)).collect();
    if !given_up.is_empty() {
        let text = format!("Moves that were to come later are given up: {}. Look at designs.csv.", given_up.join(", "));
        let _ = writeln!(said, "{}", wrapped(&text, 0));
    }
    for tier in &list.tiers {
        if let Some(day) = shop.prices.next_start(&tier.tier, starts) {
            let _ = writeln!(said, "tiers.csv has another price for {} from {day}: it takes over that day.", tier.tier);
        }
    }
    said
}
