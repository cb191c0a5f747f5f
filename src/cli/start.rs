//! `start`: a new shop.

use super::arguments::{Check, Start};
use super::check;
use super::error::Error;
use super::files::new_folder;
use super::outcome::Outcome;
use super::screen::{listed, prose};
use super::shell::quoted;
use crate::reading::file;
use crate::report::words::counted;
use crate::shop::settings;
use crate::shop::sheets::table_of_export;
use crate::shop::sources::table_named;
use crate::start::{SAMPLE, WORKBOOK, csv_files, settings_file, workbook};
use std::path::{Path, PathBuf};

pub fn run(arguments: &Start) -> Result<Outcome, Error> {
    let folder = &arguments.folder;
    new_folder::check(folder)?;
    let currency = arguments.currency.as_deref().unwrap_or(DEFAULT_CURRENCY);
    let in_currency = if arguments.currency.is_some() {
        format!("Prices are in {currency}.")
    } else {
        format!("Prices are in {currency} (--currency EUR would make it euros).")
    };
    if arguments.sample {
        sample(folder)
    } else if arguments.from.is_empty() {
        empty(folder, arguments.csv, currency, &in_currency)
    } else {
        of_exports(folder, &arguments.from, currency, &in_currency)
    }
}

/// The demo shop.
fn sample(folder: &Path) -> Result<Outcome, Error> {
    let files: Vec<(String, Vec<u8>)> = SAMPLE.iter().map(|(name, bytes)| ((*name).to_owned(), bytes.to_vec())).collect();
    new_folder::create(folder, &files)?;
    let shop = typed(folder);
    let next = [
        format!("fairdozen {shop} reviews its latest month."),
        format!("fairdozen tiers {shop} works out its next price list."),
        "fairdozen start my-shop starts your own.".to_owned(),
    ];
    Ok(Outcome::of(format!("The demo shop is in {}. Everything in it is invented.\n{}", folder.display(), steps(&next))))
}

/// A shop to type into.
fn empty(folder: &Path, as_csv: bool, currency: &str, in_currency: &str) -> Result<Outcome, Error> {
    let (files, what, target) = if as_csv {
        let mut files = csv_files()?;
        files.push(settings(currency));
        (files, "a CSV file for each table".to_owned(), format!("target under [wage] in {}", settings::FILE))
    } else {
        let file = (WORKBOOK.to_owned(), workbook(currency)?);
        (vec![file], format!("{WORKBOOK}, with a sheet for each table"), format!("wage.target on the sheet {}", settings::SHEET))
    };
    new_folder::create(folder, &files)?;
    let shop = typed(folder);
    let next = [
        "Type your orders over the example row, and your hours if you keep them. The other tables can wait.".to_owned(),
        format!("Set {target}: what an hour of yours should pay."),
        format!("fairdozen check {shop} lists what to correct; fairdozen {shop} reviews your latest month."),
    ];
    let made = format!("Your shop is in {}: {what}. {in_currency} Rows marked EXAMPLE are never counted.", folder.display());
    Ok(Outcome::of(format!("{}\n{}", prose(&made), steps(&next))))
}

/// A shop of her own exports, and what the check says of it.
fn of_exports(folder: &Path, exports: &[PathBuf], currency: &str, in_currency: &str) -> Result<Outcome, Error> {
    let mut files = vec![settings(currency)];
    let mut placed = Vec::new();
    for path in exports {
        let (name, bytes) = copied(path, &files)?;
        let copy = placed_name(&name, &bytes);
        if copy != name {
            placed.push(format!(" {name} looks like {}, so its copy is called {copy}.", copy.split(' ').next().unwrap_or_default()));
        }
        if files.iter().any(|(other, _)| other.to_lowercase() == copy.to_lowercase()) {
            return Err(two_files_called(&copy));
        }
        files.push((copy, bytes));
    }
    new_folder::create(folder, &files)?;
    let check = check::run(&Check { shop: folder.to_owned(), ..Check::default() })?;
    let shop = typed(folder);
    let next = [
        if check.code == 0 {
            "Look over what the check below assumes: it found no errors.".to_owned()
        } else {
            format!("Do what the check below advises, in the copies or in {}.", settings::FILE)
        },
        format!("fairdozen check {shop} checks again."),
        format!("fairdozen {shop} reviews your latest month."),
    ];
    let count = counted(exports.len(), "file of yours is copied", "files of yours are copied");
    let placed = placed.concat();
    let made =
        format!("{count} to {}, with a {} beside.{placed} {in_currency} Your originals are unchanged.", folder.display(), settings::FILE);
    Ok(Outcome { out: format!("{}\n{}\n{}", prose(&made), steps(&next), check.out), ..check })
}

/// The next steps, numbered.
fn steps(next: &[String]) -> String {
    let numbered: Vec<String> = (1..).zip(next).map(|(number, step)| format!("{number}. {step}")).collect();
    listed(&numbered)
}

/// A path as it is typed in a command.
fn typed(path: &Path) -> String {
    quoted(&path.display().to_string())
}

fn settings(currency: &str) -> (String, Vec<u8>) {
    (settings::FILE.to_owned(), settings_file(currency).into_bytes())
}

/// The currency of a shop that names none.
const DEFAULT_CURRENCY: &str = "USD";

/// One of her files, to be copied under its own name.
fn copied(path: &Path, others: &[(String, Vec<u8>)]) -> Result<(String, Vec<u8>), Error> {
    let bytes = file::read(path).map_err(|error| Error::usage(format!("{} {error}; nothing was written", path.display())))?;
    let name = path
        .file_name()
        .and_then(|name| name.to_str())
        .ok_or_else(|| Error::usage(format!("{} has a name that is not text, so nothing was written; rename it first", path.display())))?;
    if others.iter().any(|(other, _)| other.to_lowercase() == name.to_lowercase()) {
        return Err(two_files_called(name));
    }
    Ok((name.to_owned(), bytes))
}

fn two_files_called(name: &str) -> Error {
    Error::usage(format!("two files would be called {name} in the new shop, so nothing was written; rename one of them first"))
}

/// The name of a copy: that of its table before its own, where it surely holds one and its name does not say so.
fn placed_name(name: &str, bytes: &[u8]) -> String {
    let Some((stem, "csv" | "CSV")) = name.rsplit_once('.') else { return name.to_owned() };
    match table_of_export(stem, bytes).filter(|_| table_named(stem).is_none()) {
        Some(table) => format!("{} {name}", table.name),
        None => name.to_owned(),
    }
}
