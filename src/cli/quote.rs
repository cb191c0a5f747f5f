//! `quote`: a new set, priced from the tiers.

use super::arguments::Quote as Arguments;
use super::error::Error;
use super::outcome::Outcome;
use super::screen::on_screen;
use super::shop::{costed, left_out_note, open, rough_note};
use super::tiers::target;
use crate::period::last_year;
use crate::pricing::cost::Season;
use crate::pricing::quote::{Request, quote, usual_rush};
use crate::pricing::season::{Reference, newest_list};
use crate::pricing::set;
use crate::quantity::Percent;
use crate::report::quote_document::quote_document;
use crate::report::quote_records::quote_json;
use crate::report::words::Currency;
use std::collections::BTreeMap;

/// Common practice, no source: 20 to 30 per cent.
const COMMON_RUSH: Percent = Percent(25_000_000);

pub fn run(arguments: &Arguments) -> Result<Outcome, Error> {
    let mut opened = open(&arguments.shop, arguments.costing.skip_bad_rows, arguments.costing.hide_orders)?;
    let target = target(&opened.shop, arguments.target)?;
    let parts = set::read(&opened.shop, &arguments.set)?;
    let own = costed(&mut opened, arguments.costing.options())?;
    let shop = &opened.shop;
    let no_hours = || {
        Error::usage("no order of the last 12 months has hours, so the time this set takes is unknown; log minutes by order in hours.csv")
    };
    let day = arguments.date.or_else(|| newest_list(shop)).ok_or_else(no_hours)?;
    let reference = Reference { period: last_year(shop), day, unassigned: true, costs: &BTreeMap::new() };
    let season = Season::at_present(shop, &own, reference)?;
    if !season.has_hours() {
        return Err(no_hours());
    }
    let usual = usual_rush(shop);
    let rush = arguments.rush.map(|rush| rush.or(usual).unwrap_or(COMMON_RUSH));
    let request = Request { parts, colours: arguments.colours, rush, day, target };
    let quote = quote(shop, &season, &request)?;
    let out = if arguments.json {
        quote_json(&quote, &shop.settings.currency)?
    } else {
        let mut document = quote_document(&quote, &season, &Currency::of(&shop.settings.currency));
        document.extend(rough_note(&own));
        on_screen(&document, arguments.screen.screen())
    };
    Ok(Outcome { out, err: left_out_note(&opened.problems), code: 0 })
}
