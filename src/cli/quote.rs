//! `quote`: a new set, priced from the tiers.

use super::arguments::Quote as Arguments;
use super::outcome::Outcome;
use super::shop::{costed, left_out_note, open};
use super::tiers::target;
use crate::costing::{Options, cost_by};
use crate::pricing::at_prices::{Landed, with_purchases};
use crate::pricing::fair::Season;
use crate::pricing::quote::{Request, quote, usual_rush};
use crate::pricing::season::last_twelve_months;
use crate::pricing::set;
use crate::quantity::{Day, Percent};
use crate::report::quote_programs::quote_json;
use crate::report::quote_text::{MORE, quote_text};
use crate::report::words::Currency;
use crate::shop::settings::CostFlow;
use std::collections::BTreeMap;

/// Common practice, no source: 20 to 30 per cent.
const COMMON_RUSH: Percent = Percent(25_000_000);

pub fn run(arguments: &Arguments) -> Outcome {
    answer(arguments).unwrap_or_else(|outcome| outcome)
}

fn answer(arguments: &Arguments) -> Result<Outcome, Outcome> {
    let mut opened = open(&arguments.shop, arguments.costing.skip_bad_rows, arguments.costing.hide_orders)?;
    let target = target(&opened.shop, arguments.target)?;
    let parts = set::read(&opened.shop, &arguments.set).map_err(Outcome::wrong)?;
    let options = Options { cost_flow: Some(CostFlow::Latest), ..arguments.costing.options() };
    let own = costed(&mut opened, options)?;
    let shop = &opened.shop;
    let too_large = |error: crate::quantity::TooLarge| Outcome::data(format!("{error}\n"));
    let present = with_purchases(shop, Landed::Present, &BTreeMap::new()).map_err(too_large)?;
    let day = arguments.date.unwrap_or(Day(i32::MAX));
    let period = last_twelve_months(&own).map_err(Outcome::wrong)?;
    let present = cost_by(&present, options, own.learned).map_err(too_large)?;
    let season = Season::of(shop, &present, period, true, day).map_err(Outcome::wrong)?;
    if !season.has_hours() {
        return Err(Outcome::wrong(
            "no hours are known for last season's orders, so what the set takes cannot be told; log them by order in hours.csv",
        ));
    }
    let usual = usual_rush(shop);
    let rush = arguments.rush.map(|rush| rush.or(usual).unwrap_or(COMMON_RUSH));
    let request = Request { parts, colours: arguments.colours, rush, day, target };
    let quote = quote(shop, &season, &request).map_err(Outcome::wrong)?;
    let out = if arguments.json {
        quote_json(&quote, &shop.settings.currency)
    } else {
        let screen = arguments.screen.screen();
        quote_text(&quote, &season, &Currency::of(&shop.settings.currency), screen) + &screen.more(MORE)
    };
    Ok(Outcome { out, err: left_out_note(&opened.problems), code: 0 })
}
