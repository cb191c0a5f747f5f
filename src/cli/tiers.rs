//! `tiers`: next season's price list, what a raise would earn and what it puts at risk.

use super::arguments::Tiers;
use super::error::Error;
use super::files::answers::{Answers, Mark, OUT};
use super::next_list_files::{Prepared, prepare};
use super::outcome::Outcome;
use super::screen::{on_screen, prose};
use super::shell::command;
use super::shop::{costed, left_out_note, open, rough_note, warnings_note};
use crate::chart::{self, Chart, Width};
use crate::ids::{Id, Item};
use crate::period::last_year;
use crate::pricing::change::{Change, meant};
use crate::pricing::error::PricingError;
use crate::pricing::next_list::{NextList, Wanted, next_list};
use crate::pricing::season::next_start;
use crate::quantity::Factor;
use crate::quantity::Period;
use crate::quantity::millionths::Money;
use crate::report::document::{Block, Content};
use crate::report::record::headings;
use crate::report::tiers_charts::{ladder, raise};
use crate::report::tiers_document::tiers_document;
use crate::report::tiers_records::{PriceRecord, next_list_csv, tiers_csv, tiers_json};
use crate::report::words::Currency;
use crate::shop::Shop;
use std::collections::BTreeMap;
use std::fmt::Write;
use std::path::Path;

pub fn run(arguments: &Tiers) -> Result<Outcome, Error> {
    if arguments.write && arguments.costing.skip_bad_rows {
        return Err(Error::usage(
            "--write changes your tables, so they must have no errors: correct the rows first, and give --write without --skip-bad-rows",
        ));
    }
    let mut opened = open(&arguments.shop, arguments.costing.skip_bad_rows, arguments.costing.hide_orders)?;
    let asked = arguments.period.resolve(&opened.shop)?;
    let target = target(&opened.shop, arguments.target)?;
    let costs = changes(&opened.shop, &arguments.changes)?;
    let answers = arguments.out.as_deref().map(|folder| Ok::<_, Error>(Answers::in_folder(folder, names()?, OUT)?)).transpose()?;
    let options = arguments.costing.options();
    let costed = costed(&mut opened, options)?;
    let season = if asked == Period::default() { last_year(&opened.shop) } else { asked };
    let wanted = Wanted {
        target,
        floor: opened.shop.settings.floor,
        tiers: arguments.count.and_then(|count| usize::try_from(count).ok()),
        keep: arguments.keep,
        max_rise: arguments.max_rise,
        unassigned: !arguments.without_unassigned,
        costs,
        season,
        starts: arguments.starts.or_else(|| next_start(&opened.shop)).ok_or(PricingError::NothingSold)?,
    };
    let list = next_list(&opened.shop, &costed, options, &wanted)?;
    let currency = Currency::of(&opened.shop.settings.currency);
    let prepared = if arguments.write { Some(prepare(&opened, &list, wanted.starts)?) } else { None };
    let mut notes = Vec::new();
    if let Some(answers) = &answers {
        answers.write(&written(&list, &currency)?)?;
        notes.push(in_folder(arguments, &list, answers.folder()));
    }
    let mut err = left_out_note(&opened.problems);
    let (json, csv) = (arguments.programs.json, arguments.programs.csv);
    // Slow work, and all that can fail, is done before her tables change.
    let is_written = prepared.is_some();
    match prepared.map(Prepared::write).transpose() {
        Ok(written) => notes.extend(written),
        Err(refused) => return Ok(but_answered(refused.into(), answers.as_ref())),
    }
    let out = if json || csv {
        err.extend(notes);
        if json { tiers_json(&list, &opened.shop.settings.currency)? } else { tiers_csv(&list)? }
    } else {
        let mut document = tiers_document(&list, &wanted, &arguments.changes, &currency);
        document.extend(rough_note(&costed).into_iter().chain(warnings_note(&opened.problems, &arguments.shop)));
        document.extend(notes.iter().map(|note| Content::Line(note.trim_end().to_owned()).into()));
        document.extend((!is_written).then(|| Block::note(not_written(&list, &wanted))));
        on_screen(&document, arguments.screen.screen())
    };
    Ok(Outcome { out, err, code: 0 })
}

fn not_written(list: &NextList, wanted: &Wanted) -> String {
    if list.is_todays() {
        "This is your list already: there is nothing to write.".to_owned()
    } else {
        format!("Your tables are unchanged: --write puts this list into tiers.csv, from {}.", wanted.starts)
    }
}

/// A refusal to change the tables, where the charts are written already.
fn but_answered(mut refused: Outcome, answers: Option<&Answers<'_>>) -> Outcome {
    if let Some(answers) = answers {
        let _ = writeln!(refused.err, "The charts and the list are in {}.", answers.folder().display());
    }
    refused
}

const LADDER: &str = "price-ladder.png";
const RAISE: &str = "raise.png";
const LIST: &str = "next-list.csv";

/// The files of the folder, and how each is known again.
fn names() -> Result<Vec<(String, Mark)>, Error> {
    let list = Mark::Table(headings::<PriceRecord>()?);
    Ok([(LADDER, Mark::Picture), (RAISE, Mark::Picture), (LIST, list)].map(|(name, mark)| (name.to_owned(), mark)).into())
}

/// The charts and the list itself, as files.
fn written(list: &NextList, currency: &Currency) -> Result<[(String, Vec<u8>); 3], Error> {
    let picture = |chart: &dyn Chart| chart::png(&chart.svg(Width::Wide));
    let files =
        [(LADDER, picture(&ladder(list, currency))?), (RAISE, picture(&raise(list, currency))?), (LIST, next_list_csv(list)?.into_bytes())];
    Ok(files.map(|(name, bytes)| (name.to_owned(), bytes)))
}

/// What stands in the folder, and how to try the list on the season's orders: a command on a line of its own.
fn in_folder(arguments: &Tiers, list: &NextList, folder: &Path) -> String {
    let what = format!("In {}: {LADDER}, {RAISE} and {LIST}. To try that list on the season's orders:", folder.display());
    let mut words: Vec<String> = vec!["whatif".to_owned(), arguments.shop.display().to_string()];
    words.extend(["--prices".to_owned(), folder.join(LIST).display().to_string()]);
    let Period { from, to } = list.season.period;
    for (option, day) in [("--from", from), ("--to", to)] {
        words.extend(day.into_iter().flat_map(|day| [option.to_owned(), day.to_string()]));
    }
    words.extend(arguments.target.into_iter().flat_map(|target| ["--target".to_owned(), target.decimal().normalize().to_string()]));
    words.extend(arguments.changes.iter().flat_map(|change| ["--if".to_owned(), change.to_string()]));
    words.extend(arguments.costing.words());
    format!("{}\n  {}\n", prose(&what), command(&words))
}

/// Returns the target as given, else the shop's; there must be one above 0.
pub fn target(shop: &Shop, given: Option<Money>) -> Result<Money, Error> {
    given.or(shop.settings.target).filter(|target| *target > Money::ZERO).ok_or_else(|| {
        Error::usage("no target is set, so no fair price can be worked out; set wage.target in your settings, or give --target 20")
    })
}

/// Reads changes of items' prices; an item must be one the shop buys.
pub fn changes(shop: &Shop, changes: &[Change]) -> Result<BTreeMap<Id<Item>, Factor>, Error> {
    let mut found = BTreeMap::new();
    let bought = || shop.purchases.rows.iter().map(|purchase| shop.item_names.text(purchase.item));
    for change in changes {
        let name = meant(&change.of, bought(), "nothing you bought")?;
        let item = shop.item_names.find(name).unwrap_or(Id::new(0));
        if found.insert(item, change.times).is_some() {
            return Err(Error::usage(format!("--if names {name} twice; give it one change")));
        }
    }
    Ok(found)
}
