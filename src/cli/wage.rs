//! `wage`: what each design, tier or order cost and paid per hour.

use super::arguments::Wage;
use super::error::Error;
use super::outcome::Outcome;
use super::screen::on_screen;
use super::shop::{costed, left_out_note, open, rough_note, warnings_note};
use crate::report::wage_document::{Style, wage_document};
use crate::report::wage_records::{wage_csv, wage_json};
use crate::report::words::Currency;
use crate::review::{By, Question, Sort, WageTable};

pub fn run(arguments: &Wage) -> Result<Outcome, Error> {
    let mut opened = open(&arguments.shop, arguments.costing.skip_bad_rows, arguments.costing.hide_orders)?;
    let period = arguments.period.resolve(&opened.shop)?;
    let costed = costed(&mut opened, arguments.costing.options())?;
    let by = arguments.by;
    let mut table = WageTable::of(&opened.shop, &costed, Question { by, period })?;
    table.sort(arguments.sort.unwrap_or_else(|| default_sort(by, arguments.programs.json || arguments.programs.csv)));
    let settings = &opened.shop.settings;
    let err = left_out_note(&opened.problems);
    let out = if arguments.programs.json {
        wage_json(&table, &settings.currency, costed.minutes_from, &opened.problems)?
    } else if arguments.programs.csv {
        wage_csv(&table)?
    } else {
        let style = Style { currency: &Currency::of(&settings.currency), target: settings.target, both: arguments.both };
        let mut document = wage_document(&table, style);
        document.extend(rough_note(&costed).into_iter().chain(warnings_note(&opened.problems, &arguments.shop)));
        on_screen(&document, arguments.screen.screen())
    };
    Ok(Outcome { out, err, code: 0 })
}

/// Lists the least paid first for a person; sequences such as months, and output for programs, stay in the order of keys.
fn default_sort(by: By, for_programs: bool) -> Sort {
    match by {
        By::Design | By::Tier | By::Theme | By::Channel if !for_programs => Sort::Wage,
        _ => Sort::Key,
    }
}
