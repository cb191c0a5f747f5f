//! Putting a new price list into the shop's own tables: all of it or nothing, and never a past price changed.
//!
//! What a past order's row without a price of its own brought in, and what its list price was, hang on the list and on its
//! design's tier that day. So before anything is written the changed shop is read again, in memory: every row must have the price it
//! has now, and every day before the list starts its list prices.

use super::error::Error;
use super::files::tables::Change;
use super::screen::prose;
use super::shop::Opened;
use crate::ids::{Design, Id};
use crate::pricing::at_prices::own_list;
use crate::pricing::next_list::NextList;
use crate::pricing::season::last_day;
use crate::quantity::{Day, Price};
use crate::reading::{Problem, Severity, TableSpecification};
use crate::report::words::counted;
use crate::shop::Shop;
use crate::shop::earlier_tiers;
use crate::shop::kinds::CANNOT_CHANGE;
use crate::shop::load::Skipped;
use crate::shop::orders::Status;
use crate::shop::specification::{DESIGNS, ORDERS, TIERS};
use crate::shop::table_edit::{Renamed, TableEdit};
use std::collections::{BTreeMap, BTreeSet};
use std::fmt::Write;

/// The tables to change, and what to say once they are.
pub(crate) struct Prepared<'a> {
    /// `None` where the list is today's.
    change: Option<Change<'a>>,
    said: String,
}

/// A design that moves.
struct Move {
    design: Id<Design>,
    key: String,
    tier: String,
    /// What its earlier tiers become; `None` where they stay as they are.
    earlier: Option<String>,
}

/// Works out what the tables become.
pub fn prepare<'a>(opened: &'a Opened, list: &NextList, starts: Day) -> Result<Prepared<'a>, Error> {
    let Opened { folder, shop, .. } = opened;
    let moved = moves(shop, list, starts);
    if list.is_todays() {
        return Ok(Prepared { change: None, said: "Nothing was written: this is your list already.\n".to_owned() });
    }
    for tier in &list.tiers {
        if shop.prices.starts(&tier.tier, starts) {
            return Err(Error::usage(format!(
                "tiers.csv already has a price for {} from {starts}, so nothing was written; remove that row, or name another day with --starts",
                tier.tier
            )));
        }
    }
    let last = last_day(shop).unwrap_or(starts);
    let overtaken = list.tiers.iter().find_map(|tier| Some((tier, shop.prices.next_start(&tier.tier, starts).filter(|day| *day <= last)?)));
    if let Some((tier, day)) = overtaken {
        return Err(Error::usage(format!(
            "tiers.csv has a price for {} from {day}, so a list from {starts} would be out of date already; nothing was written; name a later day with --starts",
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
        return Err(Error::usage(format!(
            "designs leave the tier '{tier}', but its name cannot be written under earlier_tiers, so nothing was written; rename that tier in \
             designs.csv and tiers.csv first"
        )));
    }
    // Added rows change nothing by themselves; a moved design needs its tier's price.
    let mut files = vec![edited(opened, &TIERS, "tier,price,from\n", |list| rows.iter().try_for_each(|row| list.push(row)))?];
    if !shop.designs.on_card {
        files.push(edited(opened, &DESIGNS, "design,tier\n", |card| new_card(card, shop, &moved))?);
    } else if !moved.is_empty() {
        files.push(edited(opened, &DESIGNS, "", |card| move_on(card, shop, &moved))?);
    }
    let change = Change::new(folder, files);
    keeps_the_past(&change, shop, &moved, starts)?;
    Ok(Prepared { change: Some(change), said: said_of(opened, list, &moved, starts) })
}

impl Prepared<'_> {
    /// Writes them, all or none.
    pub fn write(self) -> Result<String, Error> {
        self.change.map_or(Ok(()), |change| change.commit())?;
        Ok(self.said)
    }
}

/// Designs whose place on the card changes: from the list's first day they sit in its tier, before it where they sat that day.
fn moves(shop: &Shop, list: &NextList, starts: Day) -> Vec<Move> {
    let designs = &shop.designs;
    let eve = Day(starts.0 - 1);
    let sold = list.rows.iter().map(|row| (row.design, &row.key, Some(&row.new_tier)));
    let unsold = list.unsold.iter().map(|row| (row.design, &row.key, row.new_tier.as_ref()));
    let moved = |(design, key, new): (Id<Design>, &String, Option<&String>)| {
        let tier = new?.clone();
        let had_a_price = |tier: &str| shop.prices.tiers().any(|known| known == tier);
        let (before, known) = (designs.tier_on(design, eve), &designs.earlier[design]);
        let hangs = before != Some(&tier) && (before.is_some_and(had_a_price) || had_a_price(&tier));
        let earlier = if hangs { known.clone().and(before, eve) } else { known.clone().before(starts) };
        let on_card = designs.tier[design].map(|tier| designs.tiers.text(tier));
        let is_new = on_card != Some(&tier) || earlier != *known;
        is_new.then(|| Move { design, key: key.clone(), earlier: (earlier != *known).then(|| earlier.to_string()), tier })
    };
    sold.chain(unsold).filter_map(moved).collect()
}

/// Puts designs that move into their tiers.
fn move_on(card: &mut TableEdit<'_>, shop: &Shop, moved: &[Move]) -> Option<()> {
    for Move { design, tier, earlier, .. } in moved {
        let line = shop.designs.place[*design]?.line;
        card.set(line, "tier", tier)?;
        earlier.as_ref().map_or(Some(()), |earlier| card.set(line, "earlier_tiers", earlier))?;
    }
    Some(())
}

/// A designs card for a shop that has none: every design its orders name.
fn new_card(card: &mut TableEdit<'_>, shop: &Shop, moved: &[Move]) -> Option<()> {
    let of: BTreeMap<Id<Design>, &Move> = moved.iter().map(|moved| (moved.design, moved)).collect();
    shop.designs.all().try_for_each(|design| {
        let moved = of.get(&design);
        let tier = moved.map_or_else(String::new, |moved| moved.tier.clone());
        let mut row = vec![("design", shop.designs.names.text(design).to_owned()), ("tier", tier)];
        row.extend(moved.and_then(|moved| moved.earlier.clone()).map(|earlier| ("earlier_tiers", earlier)));
        card.push(&row)
    })
}

/// A table's file and its bytes after an edit; a table the shop lacks begins with the headings given.
fn edited(
    opened: &Opened,
    table: &'static TableSpecification,
    headings: &str,
    edit: impl FnOnce(&mut TableEdit<'_>) -> Option<()>,
) -> Result<(String, Vec<u8>), Error> {
    let (folder, none) = (&opened.folder, Renamed::new());
    let file = folder.writable(table)?;
    let renamed = opened.shop.settings.columns.get(table.name).unwrap_or(&none);
    let bytes = folder.bytes(&file).unwrap_or(headings.as_bytes());
    let changed = TableEdit::of(bytes, table, renamed).and_then(|mut table| edit(&mut table).map(|()| table.finish()));
    let name = folder.name(&file).to_owned();
    changed.map(|bytes| (file, bytes)).ok_or_else(|| {
        let what = "its rows could not be changed, so nothing was written";
        Error::data(Problem::of_file(&CANNOT_CHANGE, &name, what).to_string())
    })
}

/// Reads the changed shop: it must be sound, and its orders must bring in what they do now.
fn keeps_the_past(change: &Change<'_>, shop: &Shop, moved: &[Move], starts: Day) -> Result<(), Error> {
    let loaded = change.changed().load(&Skipped::new());
    if let Some(problem) = loaded.problems.iter().find(|problem| problem.severity == Severity::Error) {
        return Err(Error::data(format!("Nothing was written, because with the new list your tables would have an error: {problem}")));
    }
    let Some(changed) = loaded.shop.filter(|changed| changed.orders.rows() == shop.orders.rows()) else {
        return Err(Error::data("Nothing was written, because the new list would change your orders."));
    };
    let tier = |of: &Shop, name: &str| {
        of.designs.find(name).and_then(|design| of.designs.tier[design]).map(|tier| of.designs.tiers.text(tier).to_owned())
    };
    let meant: BTreeMap<&str, &str> = moved.iter().map(|moved| (moved.key.as_str(), moved.tier.as_str())).collect();
    if shop.designs.names.iter().any(|name| tier(&changed, name) != meant.get(name).map(|to| (*to).to_owned()).or_else(|| tier(shop, name)))
    {
        return Err(Error::data("Nothing was written, because the new list would change the tiers of other designs."));
    }
    let rows = || 0..shop.orders.rows();
    let hanging: Vec<usize> = rows().filter(|row| shop.orders.price[*row] != changed.orders.price[*row]).collect();
    if !hanging.is_empty() {
        return Err(refused(shop, &hanging));
    }
    let (was, is) = (own_list(shop), own_list(&changed));
    let of_row = |row: usize| Some((shop.orders.design[row]?, shop.orders.head(shop.orders.order[row]).day?));
    let differs = |(design, day): (Id<Design>, Day)| day < starts && was(design, day) != is(design, day);
    match rows().filter_map(of_row).find(|of| differs(*of)) {
        Some((design, day)) => Err(Error::data(format!(
            "Nothing was written, because it would change the list price of {} on {day}.",
            shop.designs.names.text(design)
        ))),
        None => Ok(()),
    }
}

fn refused(shop: &Shop, hanging: &[usize]) -> Error {
    let designs: BTreeSet<&str> =
        hanging.iter().filter_map(|row| shop.orders.design[*row]).map(|design| shop.designs.names.text(design)).collect();
    let (rows, have) = match hanging.len() {
        1 => ("1 row".to_owned(), "has no price of its own and takes"),
        count => (counted(count, "row", "rows"), "have no price of their own and take"),
    };
    let text = format!(
        "Nothing was written: {rows} of {} ({}) {have} the list price of that day, so the new list would change what was charged or \
         quoted. Name a later day with --starts, or write the price into the orders.",
        ORDERS.file(),
        designs.into_iter().collect::<Vec<_>>().join(", ")
    );
    Error::data(prose(&text))
}

/// Why fair prices differ after a list with new tiers was written.
const SHIFT: &str = "Minutes per piece, and with them fair prices, may shift a little, because designs of one tier are estimated together.";

fn said_of(opened: &Opened, list: &NextList, moved: &[Move], starts: Day) -> String {
    let Opened { folder, shop, .. } = opened;
    let (tiers_file, designs_file) = (TIERS.file(), DESIGNS.file());
    let (tiers_file, designs_file) = (folder.name(&tiers_file), folder.name(&designs_file));
    let old_rows = if shop.prices.is_empty() { "" } else { "; the old rows are still there" };
    let first = format!("The new list is in {tiers_file}: {} from {starts}{old_rows}.", counted(list.tiers.len(), "price", "prices"));
    let mut said = prose(&first) + "\n";
    if !shop.designs.on_card {
        let new_file = if folder.bytes(&DESIGNS.file()).is_none() { "a new file, " } else { "" };
        let text = format!("Your designs and their tiers are in {new_file}{designs_file}. {SHIFT}");
        let _ = writeln!(said, "{}", prose(&text));
    } else if !moved.is_empty() {
        let named: Vec<String> = moved.iter().map(|moved| format!("{} to {}", moved.key, moved.tier)).collect();
        let text = format!(
            "New tiers in {designs_file}: {}. The old ones are kept there, so past prices stay the same. {SHIFT}",
            named.join(", ")
        );
        let _ = writeln!(said, "{}", prose(&text));
    }
    let since = shop.orders.heads.iter().filter(|head| head.status == Status::Done && head.day >= Some(starts)).count();
    if since > 0 {
        let orders = counted(since, "order", "orders");
        let text = format!("What you charged for {orders} handed over since then stays; their list prices are the new ones.");
        let _ = writeln!(said, "{}", prose(&text));
    }
    let later = |design: &Id<Design>| shop.designs.earlier[*design] != shop.designs.earlier[*design].clone().before(starts);
    let given_up: Vec<&str> = shop.designs.all().filter(later).map(|design| shop.designs.names.text(design)).collect();
    if !given_up.is_empty() {
        let text = format!("Later moves are cancelled: {}. Check {designs_file}.", given_up.join(", "));
        let _ = writeln!(said, "{}", prose(&text));
    }
    for tier in &list.tiers {
        if let Some(day) = shop.prices.next_start(&tier.tier, starts) {
            let text = format!("{tiers_file} has another price for {} from {day}: it replaces this one that day.", tier.tier);
            let _ = writeln!(said, "{}", prose(&text));
        }
    }
    said
}
