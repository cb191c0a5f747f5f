//! A quote for programs: JSON (`fairdozen.quote/1`), stable.

use super::record::json;
use crate::pricing::quote::{Line, Quote};
use crate::quantity::millionths::{Minutes, Money};
use serde::Serialize;

/// The JSON object, pretty-printed with a last line break.
#[must_use]
pub fn quote_json(quote: &Quote, currency: &str) -> String {
    let row = |line: &'_ Line| RowRecord {
        key: line.key.clone(),
        tier: line.tier.clone(),
        pieces: line.pieces,
        price_per_piece: line.price,
        minutes_per_piece: line.minutes,
        new_design: line.is_new,
    };
    let mend = quote.mend.as_ref();
    json(&QuoteRecord {
        schema: "fairdozen.quote/1",
        currency,
        target: quote.target,
        rows: quote.lines.iter().map(row).collect(),
        pieces: quote.pieces,
        colours: quote.colours,
        rush: quote.rush,
        price: quote.price,
        fair_price: quote.fair_price,
        fair_low: quote.fair.map(|(low, _)| low),
        fair_high: quote.fair.map(|(_, high)| high),
        owner_minutes: quote.minutes,
        minutes_low: quote.minutes_range.map(|(low, _)| low),
        minutes_high: quote.minutes_range.map(|(_, high)| high),
        wage_per_hour: quote.wage,
        wage_low: quote.wage_range.map(|(low, _)| low),
        wage_high: quote.wage_range.map(|(_, high)| high),
        chance_of_target: quote.chance,
        smallest_order: quote.smallest.pieces(),
        charge_more: mend.map(|mend| mend.charge),
        more_pieces: mend.and_then(|mend| mend.more.as_ref()).map(|(pieces, key)| MoreRecord { key, pieces: *pieces }),
        fewer_colours: mend.and_then(|mend| mend.fewer_colours),
    })
}

#[derive(Serialize)]
struct QuoteRecord<'a> {
    schema: &'static str,
    currency: &'a str,
    target: Money,
    rows: Vec<RowRecord>,
    pieces: i64,
    colours: Money,
    rush: Money,
    price: Money,
    fair_price: Money,
    fair_low: Option<Money>,
    fair_high: Option<Money>,
    owner_minutes: Minutes,
    minutes_low: Option<Minutes>,
    minutes_high: Option<Minutes>,
    wage_per_hour: Option<Money>,
    wage_low: Option<Money>,
    wage_high: Option<Money>,
    chance_of_target: Option<Money>,
    smallest_order: Option<i64>,
    charge_more: Option<Money>,
    more_pieces: Option<MoreRecord<'a>>,
    fewer_colours: Option<i64>,
}

#[derive(Serialize)]
struct RowRecord {
    key: String,
    tier: Option<String>,
    pieces: i64,
    price_per_piece: Money,
    minutes_per_piece: Minutes,
    new_design: bool,
}

#[derive(Serialize)]
struct MoreRecord<'a> {
    key: &'a str,
    pieces: i64,
}
