//! `export`: the facts for other programs, one row per order line.

use super::arguments::Export;
use super::error::Error;
use super::files::single;
use super::outcome::Outcome;
use super::shop::{costed, left_out_note, open};
use crate::report::facts_csv::facts_csv;
use crate::report::words::counted;

pub fn run(arguments: &Export) -> Result<Outcome, Error> {
    if let Some(path) = &arguments.out {
        single::check(path, &arguments.shop)?;
    }
    let mut opened = open(&arguments.shop, arguments.costing.skip_bad_rows, arguments.costing.hide_orders)?;
    let period = arguments.period.resolve(&opened.shop)?;
    let costed = costed(&mut opened, arguments.costing.options())?;
    let facts = costed.facts.within(period)?;
    let text = facts_csv(&opened.shop, &facts, costed.minutes_from, &costed.minutes_from_of)?;
    let err = left_out_note(&opened.problems);
    let Some(path) = &arguments.out else { return Ok(Outcome { out: text, err, code: 0 }) };
    let written = counted(facts.lines(), "line is", "lines are");
    single::write(path, &arguments.shop, text.as_bytes())?;
    Ok(Outcome { out: format!("{written} in {}\n", path.display()), err, code: 0 })
}
