//! A quote as a person reads it.

use super::document::{Block, Column, Document, Table};
use super::words::{Currency, UNKNOWN, chance_in_words, colours, counted, hours, number, percent_to_tenths, tenths};
use crate::costing::minutes_each::MinutesFrom;
use crate::pricing::cost::Season;
use crate::pricing::cost::Smallest;
use crate::pricing::quote::{Line, Quote, Remedies};
use crate::quantity::millionths::{MILLION, Money};
use crate::quantity::ratio::multiply_divide;
use crate::reading::problem::printable;
use std::fmt::Write;

/// Builds the price and what it pays, the lines, and what to know of them; how it was worked out with `--details`.
#[must_use]
pub(crate) fn quote_document(quote: &Quote, season: &Season, currency: &Currency) -> Document {
    let mut document = Document::new("the chance that it pays, from which size it does, and what is counted");
    document.push(Block::paragraph(answer(quote, currency)));
    document.push(table(quote, currency));
    notes(&mut document, quote, season, currency);
    document
}

fn answer(quote: &Quote, currency: &Currency) -> String {
    let target = currency.short(quote.target);
    let price = currency.exact(quote.price);
    let time = match quote.minutes_range {
        Some((low, high)) => format!("{} hours ({}–{})", hours(quote.minutes), hours(low), hours(high)),
        None => format!("{} hours", hours(quote.minutes)),
    };
    let pay = quote.wage.map_or_else(
        || "; its hourly pay is not known".to_owned(),
        |wage| {
            let range = quote.wage_range.map_or_else(String::new, |(low, high)| in_brackets(&currency.range(low, wage, high)));
            format!(": {} an hour{range}", currency.exact(wage))
        },
    );
    let range = quote.fair.map_or_else(String::new, |(low, high)| in_brackets(&currency.range(low, quote.fair_price, high)));
    let ranges = if quote.fair.is_some() || quote.minutes_range.is_some() { " Ranges in brackets hold with 90 % probability." } else { "" };
    let at = if quote.rush_rate.is_some() { "At list price with its rush charge" } else { "At list price" };
    let mut text = format!(
        "{at} this set is {price} for about {time} of your work{pay}. A fair price for {target} an hour is {}{range}.{ranges}",
        currency.at_least(quote.fair_price)
    );
    match &quote.remedies {
        None => {
            let _ = write!(text, " It pays.");
        }
        Some(remedies) => {
            let _ = write!(text, " {}", remedies_in_words(quote, remedies, currency));
        }
    }
    text
}

/// A range after its figure; nothing where there is none.
fn in_brackets(range: &str) -> String {
    if range.is_empty() { String::new() } else { format!(" ({range})") }
}

fn remedies_in_words(quote: &Quote, remedies: &Remedies, currency: &Currency) -> String {
    let share = multiply_divide(remedies.charge.0, MILLION, quote.price.0).ok();
    let share = share.map_or_else(String::new, |share| format!(" ({})", percent_to_tenths(Money(share))));
    let mut ways = vec![format!("charge {}{share} more", currency.exact(remedies.charge))];
    if let Some(fewer) = remedies.fewer_colours {
        ways.push(format!("use {}", counted(fewer, "fewer colour", "fewer colours")));
    }
    if let Some((pieces, key)) = &remedies.more {
        ways.push(format!("add {} of {}", counted(*pieces, "piece", "pieces"), printable(key)));
    }
    format!("To make it pay: {}.", ways.join("; or "))
}

fn table(quote: &Quote, currency: &Currency) -> Table {
    let figures = ["pieces", "price\neach", "price\nin all", "minutes\neach"].map(Column::figures);
    let cells = |line: &Line| {
        vec![
            format!("{}{}", printable(&line.key), if line.is_new { " (new)" } else { "" }),
            line.tier.as_deref().map_or_else(String::new, printable),
            number(line.pieces),
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
        number(quote.pieces),
        quote.price.each_of(quote.pieces).map_or_else(|| UNKNOWN.to_owned(), |each| currency.exact(each)),
        currency.exact(quote.price),
        String::new(),
    ]);
    Table { columns: [Column::name(""), Column::words("tier")].into_iter().chain(figures).collect(), rows, totals: 1 }
}

fn notes(document: &mut Document, quote: &Quote, season: &Season, currency: &Currency) {
    let target = currency.short(quote.target);
    if let Some(chance) = quote.chance {
        let chance = chance_in_words(chance);
        document.push(Block::note(format!("The chance that it pays {target} an hour is {chance}.")).under_details());
    }
    document.push(match quote.smallest {
        Smallest::From { pieces, .. } if pieces > quote.pieces => {
            let pieces = counted(pieces, "piece", "pieces");
            Block::note(format!("This set is too small: mixed like this, one pays {target} an hour from {pieces} up."))
        }
        Smallest::From { pieces, .. } => {
            let pieces = counted(pieces, "piece", "pieces");
            Block::note(format!("A set mixed like this pays {target} an hour from {pieces} up.")).under_details()
        }
        Smallest::Never => {
            Block::note(format!("A larger set would not help: mixed like this, a piece brings in less than it takes at {target} an hour."))
                .under_details()
        }
    });
    if quote.lines.iter().any(|line| !line.has_materials) {
        document.note("Some of its ingredients are not counted, so the fair price is too low by their cost: fairdozen check says which.");
    }
    if quote.lines.iter().any(|line| line.is_new) {
        document.note("A new design is assumed to take the time and cost of its tier's average.");
    }
    if quote.usual_colours && quote.colours > Money::ZERO {
        document.note("It is priced with the colours of your usual order; give --colours for another number.");
    }
    if let Some(from) = quote.lines.iter().filter_map(|line| line.list_from).max() {
        document.note(format!("Prices are from your list of {from}."));
    }
    let minutes = match season.minutes_from {
        MinutesFrom::Learned => "Minutes come from your logs.",
        MinutesFrom::Card => "Minutes are your own guesses (minutes_each), so there is no range.",
        MinutesFrom::Equal => "Every piece is assumed to take the same time, so there is no range.",
    };
    let counted = "Last season's overhead, the hours and costs not tied to an order, and card fees are counted.";
    document.push(Block::note(format!("{minutes} {counted}")).under_details());
    document.note("Delivery and sales tax come on top. Hourly pay is before your own taxes.");
}
