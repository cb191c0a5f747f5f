//! `minutes`: what a piece of each design takes, worked out from whole-order hours; or hours as logged, by stage.

use super::arguments::{CostingArguments, Minutes, MinutesView};
use super::error::Error;
use super::files::answers::{Answers, Mark, OUT};
use super::outcome::Outcome;
use super::shop::{costed, left_out_note, open, warnings_note};
use crate::chart::{self, Chart, Width};
use crate::costing::{MinutesBy, Options};
use crate::report::minutes_charts::{logged, minutes_each};
use crate::report::minutes_programs::{json, minutes_csv, stages_csv, stages_json};
use crate::report::minutes_text::{MORE, MORE_OF_STAGES, minutes_text, stages_text};
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
    if arguments.period.resolve(&opened.shop.settings)? != crate::quantity::Period::default() {
        return Err(Error::usage("minutes are learned from all your logs; give a period only with --by stage"));
    }
    let names = || [EACH, LOGGED].map(|name| (name.to_owned(), Mark::Picture)).into();
    let answers = arguments.out.as_deref().map(|folder| Answers::in_folder(folder, names(), OUT)).transpose()?;
    let options = Options { minutes: MinutesBy::Learned { trend: arguments.trend }, ..CostingArguments::default().options() };
    let costed = costed(&mut opened, options)?;
    let table = MinutesTable::of(&opened.shop, &costed)?;
    let screen = arguments.screen.screen();
    let for_programs = arguments.programs.json || arguments.programs.csv;
    let mut out = if arguments.programs.json {
        json(&table)
    } else if arguments.programs.csv {
        minutes_csv(&table)
    } else {
        minutes_text(&table, &Currency::of(&opened.shop.settings.currency), screen) + &warnings_note(&opened.problems, &arguments.shop)
    };
    let mut err = left_out_note(&opened.problems);
    if let Some(answers) = &answers {
        answers.write(&charts(&table)?)?;
        let note = format!("Charts: {EACH} and {LOGGED} in {}\n", answers.folder().display());
        if for_programs { err.push_str(&note) } else { out.push_str(&note) }
    }
    if !for_programs {
        out.push_str(&screen.more(MORE));
    }
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
    let period = arguments.period.resolve(&opened.shop.settings)?;
    let worked = stage_hours(&opened.shop, period);
    let out = if arguments.programs.json {
        stages_json(&worked)
    } else if arguments.programs.csv {
        stages_csv(&worked)
    } else {
        stages_text(&worked, period, arguments.screen.screen()) + &arguments.screen.screen().more(MORE_OF_STAGES)
    };
    Ok(Outcome { out, err: left_out_note(&opened.problems), code: 0 })
}
