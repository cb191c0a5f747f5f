//! `minutes`: what a piece of each design takes, worked out from whole-order hours; or hours as logged, by stage.

use super::arguments::{CostingArguments, Minutes, MinutesView};
use super::error::Error;
use super::files::answers::{Answers, Mark, OUT};
use super::outcome::Outcome;
use super::screen::on_screen;
use super::shop::{costed, left_out_note, open, warnings_note};
use crate::chart::{self, Chart, Width};
use crate::costing::{MinutesBy, Options};
use crate::report::document::Content;
use crate::report::minutes_charts::{logged, minutes_each};
use crate::report::minutes_document::{minutes_document, stages_document};
use crate::report::minutes_records::{minutes_csv, minutes_json, stages_csv, stages_json};
use crate::report::words::Currency;
use crate::review::minutes::MinutesTable;
use crate::review::stage_hours::stage_hours;

pub fn run(arguments: &Minutes) -> Result<Outcome, Error> {
    match arguments.by {
        MinutesView::Design => learned(arguments),
        MinutesView::Stage => by_stage(arguments),
    }
}

fn learned(arguments: &Minutes) -> Result<Outcome, Error> {
    let mut opened = open(&arguments.shop, arguments.skip_bad_rows, arguments.hide_orders)?;
    if arguments.period.resolve(&opened.shop)? != crate::quantity::Period::default() {
        return Err(Error::usage("minutes are learned from all your logs; give a period only with --by stage"));
    }
    let names = || [EACH, LOGGED].map(|name| (name.to_owned(), Mark::Picture)).into();
    let answers = arguments.out.as_deref().map(|folder| Answers::in_folder(folder, names(), OUT)).transpose()?;
    let options = Options { minutes: MinutesBy::Learned { trend: arguments.trend }, ..CostingArguments::default().options() };
    let costed = costed(&mut opened, options)?;
    let table = MinutesTable::of(&opened.shop, &costed)?;
    let charts = answers.as_ref().map(|answers| -> Result<String, Error> {
        answers.write(&charts(&table)?)?;
        Ok(format!("Charts: {EACH} and {LOGGED} in {}", answers.folder().display()))
    });
    let charts = charts.transpose()?;
    let mut err = left_out_note(&opened.problems);
    let out = if arguments.programs.json || arguments.programs.csv {
        err.extend(charts.map(|charts| charts + "\n"));
        if arguments.programs.json { minutes_json(&table)? } else { minutes_csv(&table)? }
    } else {
        let mut document = minutes_document(&table, &Currency::of(&opened.shop.settings.currency));
        document.extend(warnings_note(&opened.problems, &arguments.shop));
        document.extend(charts.map(|charts| Content::Line(charts).into()));
        on_screen(&document, arguments.screen.screen())
    };
    Ok(Outcome { out, err, code: 0 })
}

const EACH: &str = "minutes-each.png";
const LOGGED: &str = "logged-minutes.png";

/// The two charts of learned minutes, as files.
fn charts(table: &MinutesTable) -> Result<[(String, Vec<u8>); 2], Error> {
    let picture = |chart: &dyn Chart| chart::png(&chart.svg(Width::Wide));
    Ok([(EACH.to_owned(), picture(&minutes_each(table))?), (LOGGED.to_owned(), picture(&logged(table))?)])
}

fn by_stage(arguments: &Minutes) -> Result<Outcome, Error> {
    if arguments.trend || arguments.out.is_some() {
        return Err(Error::usage("--by stage counts hours as logged, so --trend and --out do not go with it"));
    }
    let opened = open(&arguments.shop, arguments.skip_bad_rows, arguments.hide_orders)?;
    let period = arguments.period.resolve(&opened.shop)?;
    let worked = stage_hours(&opened.shop, period);
    let out = if arguments.programs.json {
        stages_json(&worked)?
    } else if arguments.programs.csv {
        stages_csv(&worked)?
    } else {
        on_screen(&stages_document(&worked, period), arguments.screen.screen())
    };
    Ok(Outcome { out, err: left_out_note(&opened.problems), code: 0 })
}
