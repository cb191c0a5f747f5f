//! A quote for programs: JSON (`fairdozen.quote/1`), stable.

use super::record::{WriteError, json, record};
use crate::pricing::quote::{Line, Quote};
use crate::quantity::millionths::{Minutes, Money};

/// Writes the JSON object, pretty-printed with a last line break.
///
/// # Errors
/// Where a record cannot be written.
pub(crate) fn quote_json(quote: &Quote, currency: &str) -> Result<String, WriteError> {
    json(&QuoteRecord::of(quote, currency))
}

record! {
    QuoteRecord(quote: &Quote, currency: &str) {
        schema: &'static str = "fairdozen.quote/1",
        currency: String = currency.to_owned(),
        target: Money = quote.target,
        rows: Vec<LineRecord> = quote.lines.iter().map(LineRecord::of).collect(),
        pieces: i64 = quote.pieces,
        colours: Money = quote.colours,
        rush: Money = quote.rush,
        price: Money = quote.price,
        fair_price: Money = quote.fair_price,
        fair_low: Option<Money> = quote.fair.map(|(low, _)| low),
        fair_high: Option<Money> = quote.fair.map(|(_, high)| high),
        owner_minutes: Minutes = quote.minutes,
        minutes_low: Option<Minutes> = quote.minutes_range.map(|(low, _)| low),
        minutes_high: Option<Minutes> = quote.minutes_range.map(|(_, high)| high),
        wage_per_hour: Option<Money> = quote.wage,
        wage_low: Option<Money> = quote.wage_range.map(|(low, _)| low),
        wage_high: Option<Money> = quote.wage_range.map(|(_, high)| high),
        chance_of_target: Option<Money> = quote.chance,
        smallest_order: Option<i64> = quote.smallest.pieces(),
        charge_more: Option<Money> = quote.remedies.as_ref().map(|remedies| remedies.charge),
        more_pieces: Option<MoreRecord> = quote.remedies.as_ref().and_then(|remedies| remedies.more.as_ref()).map(MoreRecord::of),
        fewer_colours: Option<i64> = quote.remedies.as_ref().and_then(|remedies| remedies.fewer_colours),
    }
}

record! {
    LineRecord(line: &Line) {
        key: String = line.key.clone(),
        tier: Option<String> = line.tier.clone(),
        pieces: i64 = line.pieces,
        price_per_piece: Money = line.price,
        minutes_per_piece: Minutes = line.minutes,
        new_design: bool = line.is_new,
    }
}

record! { MoreRecord(more: &(i64, String)) { key: String = more.1.clone(), pieces: i64 = more.0, } }
