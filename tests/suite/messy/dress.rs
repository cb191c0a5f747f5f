//! Writes a random shop as messily as makers do.

use super::look::Look;
use crate::harness::Trial;
use crate::random_shop::dice::Dice;
use crate::random_shop::{RandomShop, Row, cell};
use fairdozen::shop::specification::TABLES;
use std::collections::{BTreeMap, BTreeSet};

/// Everyday headings by table and column.
const HEADINGS: &[(&str, &str, &[&str])] = &[
    ("orders", "order", &["Order #", "Order No.", "order id"]),
    ("orders", "date", &["Pick-up date", "Pickup", "Due date"]),
    ("orders", "design", &["Cookie", "Item"]),
    ("orders", "quantity", &["Qty", "Qty."]),
    ("orders", "price", &["Price each", "Unit price"]),
    ("orders", "colours", &["Colors"]),
    ("hours", "stage", &["Task", "Work"]),
    ("hours", "minutes", &["Mins", "Min."]),
    ("purchases", "item", &["Ingredient"]),
    ("purchases", "paid", &["Total paid", "Amount paid"]),
    ("purchases", "supplier", &["Store", "Shop"]),
];

/// Everyday words for ours, by column.
const WORDS: &[(&str, &[(&str, &str)])] = &[
    ("kind", &[("cookie", "Cookies"), ("delivery", "Delivery fee"), ("rush", "RUSH"), ("tax", "Sales tax"), ("discount", "Discount")]),
    ("stage", &[("bake", "Baking"), ("pack", "packing"), ("mix", "Mixing"), ("decorate", "Decorating"), ("clean", "cleaning")]),
    ("status", &[("cancelled", "Canceled"), ("quoted", "Quote"), ("done", "DONE")]),
    ("payments", &[("0", "cash"), ("1", "Card")]),
];

/// Charges as they stand among the cookies.
const CHARGES: &[(&str, &str)] = &[
    ("delivery", "Delivery"),
    ("rush", "Rush fee"),
    ("discount", "Discount"),
    ("refund", "Refund"),
    ("tip", "Tip"),
    ("tax", "Sales tax"),
    ("set", "Set price"),
];

/// The shop as a folder, every table written in ways of its own.
pub fn messy(shop: &RandomShop, dice: &mut Dice) -> Trial {
    let trial = Trial::new(&[("shop.toml", &shop.options.toml())]);
    let day_first = dice.chance(33);
    let designs: BTreeSet<&str> = shop.rows("designs").iter().map(|row| cell(row, "design")).collect();
    for (name, table) in &shop.tables {
        let mut rows = table.rows.clone();
        let mut columns = table.columns().to_vec();
        if *name == "orders" {
            among_the_cookies(&mut rows, &designs, dice);
            written_once(&mut rows, dice);
        }
        let mut looks: BTreeMap<&str, Look> = BTreeMap::new();
        let specification = TABLES.iter().find(|table| table.name == *name).unwrap();
        for column in specification.columns {
            let is_plain = dice.chance(30) || (*name == "hours" && column.name == "order");
            looks.insert(column.name, if is_plain { Look::plain(column.kind) } else { Look::roll(column.kind, day_first, dice) });
        }
        for row in &mut rows {
            for (column, text) in row.iter_mut() {
                if let Some(look) = looks.get(column) {
                    *text = look.cell(text);
                }
            }
        }
        for (column, words) in WORDS.iter().filter(|_| dice.chance(60)) {
            for row in &mut rows {
                if let Some(text) = row.get_mut(column)
                    && let Some((_, hers)) = words.iter().find(|(ours, _)| ours == text && looks.contains_key(column))
                {
                    *text = (*hers).to_owned();
                }
            }
        }
        if dice.chance(30) {
            dice.shuffle(&mut columns);
        }
        // Where a file may be cut: an order is never in two parts.
        let id = |at: usize| cell(&rows[at], "order");
        let begins = |at: &usize| *name != "orders" || (!id(*at).is_empty() && (*at == 0 || id(*at) != id(*at - 1)));
        let mut starts: Vec<usize> = (0..rows.len()).filter(begins).collect();
        if *name == "orders" && starts.iter().map(|at| id(*at)).collect::<BTreeSet<_>>().len() < starts.len() {
            starts.clear();
        }
        let headings: Vec<String> = columns.iter().map(|column| heading(shop, name, column, dice)).collect();
        let lines: Vec<Vec<String>> = rows.iter().map(|row| columns.iter().map(|column| cell(row, column).to_owned()).collect()).collect();
        let total = (*name == "orders" && dice.chance(40))
            .then(|| columns.iter().map(|column| if *column == "order" { "TOTAL" } else { "" }.to_owned()).collect());
        write(&trial, name, &headings, &lines, &starts, total.as_ref(), dice);
    }
    trial
}

/// A heading as she writes it.
fn heading(shop: &RandomShop, table: &str, column: &str, dice: &mut Dice) -> String {
    if let Some((_, hers)) = shop.options.order_headings.iter().find(|(ours, _)| table == "orders" && *ours == column) {
        return (*hers).to_owned();
    }
    let everyday = HEADINGS.iter().find(|(of, ours, _)| *of == table && *ours == column).filter(|_| dice.chance(40));
    match everyday {
        Some((_, _, hers)) => dice.one(hers).to_owned(),
        None if dice.chance(30) => column.to_uppercase().replace('_', " "),
        None => column.to_owned(),
    }
}

/// Writes charges where the cookies' designs stand, and discounts below nil, as invoices do.
fn among_the_cookies(rows: &mut [Row], designs: &BTreeSet<&str>, dice: &mut Dice) {
    let (named, negative) = (dice.chance(40), dice.chance(40));
    for row in rows {
        let charge =
            CHARGES.iter().find(|(kind, name)| *kind == cell(row, "kind") && !designs.contains(name) && cell(row, "design").is_empty());
        if let Some((kind, name)) = charge {
            if named {
                row.insert("kind", String::new());
                row.insert("design", (*name).to_owned());
            }
            if negative && ["discount", "refund"].contains(kind) && !cell(row, "price").is_empty() {
                let price = format!("-{}", cell(row, "price"));
                row.insert("price", price);
            }
        }
    }
}

/// Writes order and date on the first row of each order alone.
fn written_once(rows: &mut [Row], dice: &mut Dice) {
    if !dice.chance(40) {
        return;
    }
    let mut last = String::new();
    let mut dates: BTreeMap<String, String> = BTreeMap::new();
    for row in rows.iter() {
        let date = cell(row, "date").to_owned();
        let known = dates.entry(cell(row, "order").to_owned()).or_default();
        if known.is_empty() {
            *known = date;
        }
    }
    for row in rows {
        let id = cell(row, "order").to_owned();
        if id == last {
            row.insert("order", String::new());
            row.insert("date", String::new());
        } else {
            row.insert("date", dates[&id].clone());
        }
        last = id;
    }
}

/// Writes one table in one file, or in two that overlap.
fn write(
    trial: &Trial,
    name: &str,
    headings: &[String],
    lines: &[Vec<String>],
    starts: &[usize],
    total: Option<&Vec<String>>,
    dice: &mut Dice,
) {
    let is_distinct = lines.iter().collect::<BTreeSet<_>>().len() == lines.len();
    let specification = TABLES.iter().find(|table| table.name == name).unwrap();
    if !(specification.is_log && is_distinct && starts.len() > 3 && dice.chance(40)) {
        let rows: Vec<&Vec<String>> = lines.iter().chain(total).collect();
        return trial.write(&format!("{name}.csv"), &file(name, headings, &rows, dice));
    }
    let middle = starts.len() / 2;
    let (end_of_first, start_of_second) = (starts[middle + 1], starts[middle - 1]);
    let first: Vec<&Vec<String>> = lines[..end_of_first].iter().collect();
    let second: Vec<&Vec<String>> = lines[start_of_second..].iter().chain(total).collect();
    trial.write(&format!("{name} 2026-01.csv"), &file(name, headings, &first, dice));
    trial.write(&format!("{name}-2026-02.csv"), &file(name, headings, &second, dice));
}

/// One file's bytes, in some encoding and with some separator.
fn file(name: &str, headings: &[String], rows: &[&Vec<String>], dice: &mut Dice) -> Vec<u8> {
    let ending = if dice.chance(50) { csv::Terminator::CRLF } else { csv::Terminator::Any(b'\n') };
    let mut writer = csv::WriterBuilder::new().delimiter(dice.one(b",,;\t")).terminator(ending).from_writer(Vec::new());
    if dice.chance(25) {
        let mut title = vec![format!("My {name} 2026")];
        title.resize(headings.len(), String::new());
        writer.write_record(title).unwrap();
    }
    writer.write_record(headings).unwrap();
    for row in rows {
        writer.write_record(*row).unwrap();
    }
    let text = String::from_utf8(writer.into_inner().unwrap()).unwrap();
    match dice.one(&["utf-8", "utf-8", "mark", "utf-16", "windows-1252"]) {
        "mark" => [b"\xEF\xBB\xBF", text.as_bytes()].concat(),
        "utf-16" => [0xFEFF].into_iter().chain(text.encode_utf16()).flat_map(u16::to_le_bytes).collect(),
        // Every letter used here has its Unicode number in Windows-1252.
        "windows-1252" => text.chars().map(|letter| u8::try_from(u32::from(letter)).unwrap()).collect(),
        _ => text.into_bytes(),
    }
}
