//! A quote as a person reads it.

use super::layout::{aligned, wrapped};
use super::words::{Currency, UNKNOWN, chance_in_words, colours, counted, hours, tenths};
use crate::costing::minutes_each::MinutesFrom;
use crate::pricing::fair::Season;
use crate::pricing::order_size::Smallest;
use crate::pricing::quote::{Line, Mend, Quote};
use crate::quantity::millionths::Money;
use crate::quantity::ratio::multiply_divide;
use crate::reading::problem::printable;
use std::fmt::Write;

/// All of it.
#[must_use]
pub fn quote_text(quote: &Quote, season: &Season, currency: &Currency) -> String {
    let mut text = format!("{}\n\n", wrapped(&answer(quote, currency), 0));
    text.push_str(&table(quote, currency));
    text.push('\n');
    for line in notes(quote, season, currency) {
        let _ = writeln!(text, "{}", wrapped(&line, 0));
    }
    text
}

fn answer(quote: &Quote, currency: &Currency) -> String {
    let target = currency.short(quote.target);
    let price = currency.exact(quote.price);
    let time = match quote.minutes_range {
        Some((low, high)) => format!("{} hours ({}–{})", hours(quote.minutes), hours(low), hours(high)),
        None => format!("{} hours", hours(quote.minutes)),
    };
    let wage = quote.wage.map_or_else(
        || "what an hour pays cannot be told".to_owned(),
        |wage| {
            let fit = quote.wage_range.map_or_else(String::new, |(low, high)| format!(" (your logs fit {})", currency.range(low, high)));
            format!("{} an hour{fit}", currency.exact(wage))
        },
    );
    let fair = match quote.fair {
        Some((low, high)) => format!("{} would be fair (your logs fit {})", currency.at_least(quote.fair_price), currency.range(low, high)),
        None => format!("{} would be fair", currency.at_least(quote.fair_price)),
    };
    let mut text = format!("{price} for about {time} of your work: {wage}. For {target} an hour {fair}.");
    match &quote.mend {
        None => {
            let _ = write!(text, " It pays.");
        }
        Some(mend) => {
            let _ = write!(text, " {}", mend_in_words(quote, mend, currency));
        }
    }
    text
}

fn mend_in_words(quote: &Quote, mend: &Mend, currency: &Currency) -> String {
    let tenths = multiply_divide(mend.charge.0, 1000, quote.price.0).ok();
    let share = tenths.map_or_else(String::new, |tenths| format!(" ({}.{} % more)", tenths / 10, tenths % 10));
    let mut ways = vec![format!("charge {} more{share}", currency.exact(mend.charge))];
    if let Some(fewer) = mend.fewer_colours {
        let colours = if fewer == 1 { "colour" } else { "colours" };
        ways.push(format!("use {fewer} fewer {colours}"));
    }
    if let Some((pieces, key)) = &mend.more {
        ways.push(format!("add {} of {} alone", counted(*pieces, "piece", "pieces"), printable(key)));
    }
    format!("To make it pay: {}.", ways.join(", or "))
}

fn table(quote: &Quote, currency: &Currency) -> String {
    let headings = ["", "tier", "pieces", "price\neach", "comes\nto", "minutes\neach"];
    let cells = |line: &Line| {
        vec![
            format!("{}{}", printable(&line.key), if line.is_new { " (new)" } else { "" }),
            line.tier.as_deref().map_or_else(String::new, printable),
            line.pieces.to_string(),
            currency.exact(line.price),
            currency.exact(line.comes_to),
            tenths(line.minutes),
        ]
    };
    let mut rows: Vec<Vec<String>> = quote.lines.iter().map(cells).collect();
    let mut extra = |name: &str, comes_to: String, minutes: String| {
        rows.push(vec![name.to_owned(), String::new(), String::new(), String::new(), comes_to, minutes]);
    };
    let with = if quote.colours > Money::ZERO { format!(", {}", colours(quote.colours)) } else { String::new() };
    extra(&format!("set-up{with}"), String::new(), tenths(quote.set_up_minutes));
    if let Some(rate) = quote.rush_rate {
        extra(&format!("rush, {rate}"), currency.exact(quote.rush), String::new());
    }
    rows.push(vec![
        "total".to_owned(),
        String::new(),
        quote.pieces.to_string(),
        quote.price.each_of(quote.pieces).map_or_else(|| UNKNOWN.to_owned(), |each| currency.exact(each)),
        currency.exact(quote.price),
        String::new(),
    ]);
    aligned(&headings, &rows, 1)
}

fn notes(quote: &Quote, season: &Season, currency: &Currency) -> Vec<String> {
    let target = currency.short(quote.target);
    let mut notes = Vec::new();
    if let Some(chance) = quote.chance {
        notes.push(format!("It reaches {target} an hour with a chance of {}.", chance_in_words(chance)));
    }
    notes.push(match quote.smallest {
        Smallest::From { pieces, .. } if pieces > quote.pieces => {
            format!(
                "It is under the size worth its set-up: a set mixed like this pays {target} from {} on.",
                counted(pieces, "piece", "pieces")
            )
        }
        Smallest::From { pieces, .. } => {
            format!("A set mixed like this is worth its set-up from {} on.", counted(pieces, "piece", "pieces"))
        }
        Smallest::Never => {
            format!("More of the same would not help: mixed like this, a piece brings less than it takes at {target} an hour.")
        }
    });
    if quote.lines.iter().any(|line| !line.has_materials) {
        notes.push("No ingredients are counted for some of it, so its price is too low by what they cost: see check.".to_owned());
    }
    if quote.lines.iter().any(|line| line.is_new) {
        notes.push("A new design is taken to last as long and cost as much as its tier's others do on average.".to_owned());
    }
    if quote.usual_colours && quote.colours > Money::ZERO {
        notes.push("Colours are those of your usual order; --colours says how many there are.".to_owned());
    }
    if let Some(from) = quote.lines.iter().filter_map(|line| line.list_from).max() {
        notes.push(format!("Prices are those of your list from {from}."));
    }
    notes.push(match season.minutes_from {
        MinutesFrom::Learned => "Minutes are worked out from your logs; an hour carries last season's overhead and the hours no order explains, and card fees are taken off.".to_owned(),
        MinutesFrom::Card => "Minutes are your own guesses on the design card, so no range can be given; overhead and fees are counted.".to_owned(),
        MinutesFrom::Equal => "Every piece is taken to last as long as any other, so no range can be given; overhead and fees are counted.".to_owned(),
    });
    notes.push("Delivery and sales tax come on top. The hourly wage is before your own taxes.".to_owned());
    notes
}
