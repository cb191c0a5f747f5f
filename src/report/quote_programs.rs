//! A quote for programs: JSON (`fairdozen.quote/1`), stable.

use crate::pricing::quote::{Line, Quote};
use crate::quantity::millionths::{Minutes, Money};
use serde_json::{Value, json};

/// The JSON object, pretty-printed with a last line break.
#[must_use]
pub fn quote_json(quote: &Quote, currency: &str) -> String {
    let money = |money: Option<Money>| json!(money.map(Money::stored));
    let minutes = |minutes: Option<Minutes>| json!(minutes.map(Minutes::stored));
    let line = |line: &Line| {
        json!({
            "key": line.key,
            "tier": line.tier,
            "pieces": line.pieces,
            "price_per_piece": line.price.stored(),
            "minutes_per_piece": line.minutes.stored(),
            "new_design": line.is_new,
        })
    };
    let remedies = quote.remedies.as_ref();
    let object = json!({
        "schema": "fairdozen.quote/1",
        "currency": currency,
        "target": quote.target.stored(),
        "rows": quote.lines.iter().map(line).collect::<Vec<Value>>(),
        "pieces": quote.pieces,
        "colours": quote.colours.stored(),
        "rush": quote.rush.stored(),
        "price": quote.price.stored(),
        "fair_price": quote.fair_price.stored(),
        "fair_low": money(quote.fair.map(|(low, _)| low)),
        "fair_high": money(quote.fair.map(|(_, high)| high)),
        "owner_minutes": quote.minutes.stored(),
        "minutes_low": minutes(quote.minutes_range.map(|(low, _)| low)),
        "minutes_high": minutes(quote.minutes_range.map(|(_, high)| high)),
        "wage_per_hour": money(quote.wage),
        "wage_low": money(quote.wage_range.map(|(low, _)| low)),
        "wage_high": money(quote.wage_range.map(|(_, high)| high)),
        "chance_of_target": money(quote.chance),
        "smallest_order": quote.smallest.pieces(),
        "charge_more": money(remedies.map(|remedies| remedies.charge)),
        "more_pieces": remedies.and_then(|remedies| remedies.more.as_ref()).map(|(pieces, key)| json!({ "key": key, "pieces": pieces })),
        "fewer_colours": remedies.and_then(|remedies| remedies.fewer_colours),
    });
    format!("{object:#}\n")
}
