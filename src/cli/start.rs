//! `start`: a new shop.

use super::arguments::{Check, Start};
use super::error::Error;
use super::files::new_folder;
use super::outcome::Outcome;
use super::shell::quoted;
use crate::reading::file;
use crate::shop::settings;
use crate::start::{SAMPLE, WORKBOOK, csv_files, settings_file, workbook};
use std::fmt::Write;
use std::path::{Path, PathBuf};

pub fn run(arguments: &Start) -> Result<Outcome, Error> {
    let folder = &arguments.folder;
    new_folder::check(folder)?;
    let currency = arguments.currency.as_deref().unwrap_or(DEFAULT_CURRENCY);
    let settings = (settings::FILE.to_owned(), settings_file(currency).into_bytes());
    let assumed = if arguments.currency.is_some() { String::new() } else { format!(" Prices are in {currency}: another is --currency EUR.") };
    let shop = quoted(&folder.display().to_string());
    if !arguments.from.is_empty() {
        let mut files = vec![settings];
        for path in &arguments.from {
            files.push(copied(path, &files)?);
        }
        new_folder::create(folder, &files)?;
        let made = format!("Your files are copied to {}, with {} beside them.{assumed}\n", folder.display(), settings::FILE);
        return checked(folder, made);
    }
    let (what, next) = if arguments.sample {
        let files: Vec<(String, Vec<u8>)> = SAMPLE.iter().map(|(name, bytes)| ((*name).to_owned(), bytes.to_vec())).collect();
        new_folder::create(folder, &files)?;
        let next = [
            format!("fairdozen {shop} reviews its latest month."),
            format!("fairdozen tiers {shop} works out its next price list."),
            "fairdozen start my-shop starts your own.".to_owned(),
        ];
        (format!("The demo shop is in {}. Everything in it is invented.", folder.display()), next)
    } else {
        let (files, place, where_settings) = if arguments.csv {
            let mut files = csv_files()?;
            files.push(settings);
            (files, "a CSV file for each table".to_owned(), format!("in {}", settings::FILE))
        } else {
            let file = (WORKBOOK.to_owned(), workbook(currency)?);
            (vec![file], format!("{WORKBOOK}, with a sheet for each table"), format!("on the sheet {}", settings::SHEET))
        };
        new_folder::create(folder, &files)?;
        let next = [
            format!("Set wage.target {where_settings}: what an hour of yours should pay.").replace("wage.target", if arguments.csv { "target under [wage]" } else { "wage.target" }),
            "Type your orders, and your hours if you keep them, over the example rows. The other tables can wait.".to_owned(),
            format!("fairdozen check {shop} says what is amiss; fairdozen {shop} reviews your month."),
        ];
        (format!("Your shop is in {}: {place}. Rows marked EXAMPLE are never counted.{assumed}", folder.display()), next)
    };
    let mut out = format!("{what}\n");
    for (number, step) in (1..).zip(next) {
        let _ = writeln!(out, "  {number}. {step}");
    }
    Ok(Outcome::of(out))
}

/// The currency of a shop that names none.
const DEFAULT_CURRENCY: &str = "USD";

/// One of her files, to be copied under its own name.
fn copied(path: &Path, others: &[(String, Vec<u8>)]) -> Result<(String, Vec<u8>), Error> {
    let bytes = file::read(path).map_err(|error| Error::usage(format!("{} {error}; nothing was written", path.display())))?;
    let name = path.file_name().and_then(|name| name.to_str()).ok_or_else(|| {
        Error::usage(format!("{} has a name that is not text, so nothing was written; rename it first", path.display()))
    })?;
    if others.iter().any(|(other, _)| other.to_lowercase() == name.to_lowercase()) {
        return Err(Error::usage(format!("two files would be called {name} in the new shop, so nothing was written; rename one of them first")));
    }
    Ok((name.to_owned(), bytes))
}

/// What was made, and what the check says of it.
fn checked(folder: &Path, made: String) -> Result<Outcome, Error> {
    let check = Check { shop: PathBuf::from(folder), ..Check::default() };
    let outcome = super::check::run(&check)?;
    let mut out = made;
    let shop = quoted(&folder.display().to_string());
    let steps = [
        "Correct what the check lists below, in the copies or in shop.toml.".to_owned(),
        format!("fairdozen check {shop} checks again."),
        format!("fairdozen {shop} reviews your latest month."),
    ];
    for (number, step) in (1..).zip(steps) {
        let _ = writeln!(out, "  {number}. {step}");
    }
    Ok(Outcome { out: format!("{out}\n{}", outcome.out), ..outcome })
}
