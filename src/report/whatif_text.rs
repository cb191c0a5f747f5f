//! What would have been as a person reads it: the answer first, then the rows, what happened beside what would have.

use super::layout::{aligned, wrapped};
use super::words::{Currency, UNKNOWN, and, change, counted, hours, orders_of, period_in_words};
use crate::pricing::change::Change;
use crate::pricing::what_if::{Both, By, Figures, WhatIf};
use crate::quantity::Day;
use crate::quantity::millionths::{MILLION, Minutes, Money};
use crate::quantity::ratio::divide;
use crate::reading::problem::printable;
use std::fmt::Write;

/// What was to be other than it was, as typed.
#[derive(Debug)]
pub struct Asked<'a> {
    /// The file of another price list.
    pub prices: Option<String>,
    /// Tiers it says nothing of.
    pub unpriced: Vec<String>,
    /// The day it starts, where that is after all of the orders.
    pub starts: Option<Day>,
    /// Changes of items' prices.
    pub changes: &'a [Change],
    /// What there is fewer of.
    pub fewer: &'a [Change],
    /// The smallest order.
    pub minimum: Option<i64>,
}

/// All of it.
#[must_use]
pub fn whatif_text(answer: &WhatIf, asked: &Asked<'_>, currency: &Currency) -> String {
    if answer.rows.is_empty() {
        return format!("Nothing was handed over in this time ({}).\n", period_in_words(answer.period));
    }
    let mut text = format!("{}\n\n", wrapped(&headline(answer, asked, currency), 0));
    text.push_str(&table(answer, currency));
    text.push('\n');
    text.push_str(&notes(answer, asked));
    text
}

fn headline(answer: &WhatIf, asked: &Asked<'_>, currency: &Currency) -> String {
    let (before, after) = (&answer.all_in.before, &answer.all_in.after);
    let what = conditions(asked);
    let orders = counted(i64::try_from(answer.orders).unwrap_or(i64::MAX), "order", "orders");
    let of = format!("the {orders} {}", orders_of(answer.period));
    let money = format!("{} in place of {}", currency.whole(after.owner_pay), currency.whole(before.owner_pay));
    if answer.total.after.pieces == 0 && answer.total.before.pieces > 0 {
        return format!(
            "{what}, nothing of {of} would be left, and you would have {} in place of {}: overhead and what no order explains go on.",
            currency.whole(after.owner_pay),
            currency.whole(before.owner_pay)
        );
    }
    let mut text = match (before.wage(), after.wage()) {
        (Some(was), Some(would)) if was == would && before == after => format!(
            "{what}, {of} would have paid you just what they did: {} an hour, {}.",
            currency.exact(was),
            currency.whole(before.owner_pay)
        ),
        (Some(was), Some(would)) => {
            format!("{what}, {of} would have paid you {} an hour in place of {}: {money}.", currency.exact(would), currency.exact(was))
        }
        (Some(was), None) => {
            format!("{what}, {of} would have left no work to pay for, in place of {} an hour: {money}.", currency.exact(was))
        }
        _ => format!("{what}, {of} would have left you {money}. No hours are known for them, so what an hour paid cannot be told."),
    };
    if let (Some(target), Some(over)) = (answer.target, after.surplus(answer.target))
        && after.wage().is_some()
    {
        let target = currency.short(target);
        let _ = match over {
            over if over < Money::ZERO => write!(text, " {target} an hour needs {} more.", currency.whole(-over)),
            over => write!(text, " That is {} over what {target} an hour needs.", currency.whole(over)),
        };
    }
    text
}

fn conditions(asked: &Asked<'_>) -> String {
    let mut said = Vec::new();
    if let Some(file) = &asked.prices {
        said.push(format!("at the prices of {}", printable(file)));
    }
    said.extend(asked.changes.iter().map(|item| format!("with {}", change(item))));
    said.extend(asked.fewer.iter().map(|fewer| format!("with {}", change(fewer))));
    if let Some(minimum) = asked.minimum {
        said.push(format!("with no order under {}", counted(minimum, "piece", "pieces")));
    }
    super::words::capitalised(&said.join(", "))
}

fn table(answer: &WhatIf, currency: &Currency) -> String {
    let heading = match answer.by {
        By::Tier => "tier",
        By::Design => "design",
        By::Order => "order",
    };
    let headings = [
        heading,
        "pieces",
        "left\nyou",
        "would\nleave",
        "hours",
        "would\ntake",
        "paid\nan hour",
        "would\npay",
        "over or\nshort",
        "would\nbe",
    ];
    let cells = |key: &str, both: &Both| {
        let of = |figures: &Figures| {
            let surplus = figures.surplus(answer.target).filter(|_| figures.known_minutes > Minutes::ZERO);
            (currency.known(figures.wage()), surplus.map_or_else(|| UNKNOWN.to_owned(), |surplus| currency.whole(surplus)))
        };
        let time =
            |figures: &Figures| if figures.known_minutes == Minutes::ZERO { UNKNOWN.to_owned() } else { hours(figures.known_minutes) };
        let ((was_paid, was_over), (would_pay, would_be)) = (of(&both.before), of(&both.after));
        vec![
            printable(key),
            pieces(both),
            currency.whole(both.before.owner_pay),
            currency.whole(both.after.owner_pay),
            time(&both.before),
            time(&both.after),
            was_paid,
            would_pay,
            was_over,
            would_be,
        ]
    };
    let mut rows: Vec<Vec<String>> = answer.rows.iter().map(|row| cells(&row.key, &row.both)).collect();
    rows.push(cells("total", &answer.total));
    rows.push(cells("all in", &answer.all_in));
    aligned(&headings, &rows, 2)
}

/// `1,206`, or `256 → 204.8` where there are fewer.
fn pieces(both: &Both) -> String {
    let shown = |pieces: i128| {
        let tenths = divide(pieces, MILLION / 10).unwrap_or_default();
        if tenths % 10 == 0 { (tenths / 10).to_string() } else { format!("{}.{}", tenths / 10, tenths % 10) }
    };
    match (both.before.pieces, both.after.pieces) {
        (0, 0) => String::new(),
        (before, after) if before == after => shown(before),
        (before, after) => format!("{} → {}", shown(before), shown(after)),
    }
}

fn notes(answer: &WhatIf, asked: &Asked<'_>) -> String {
    let mut text = String::new();
    let mut line = |line: &str| {
        let _ = writeln!(text, "{}", wrapped(line, 0));
    };
    if asked.prices.is_some() {
        line(
            "Each price charged is changed as its list price of that day is; discounts, delivery and what else was charged stay as they were, \
             but discounts and set prices are shared by list value, so that other tiers may shift a little.",
        );
    }
    if !asked.unpriced.is_empty() {
        let named: Vec<String> = asked.unpriced.iter().map(|tier| printable(tier)).collect();
        line(&format!("The file has no price for {}: as it was.", and(&named)));
    }
    if answer.turned_away > 0 {
        let count = counted(i64::try_from(answer.turned_away).unwrap_or(i64::MAX), "order is", "orders are");
        line(&format!("{count} turned away: what they brought and cost is gone, and their hours are free; overhead stays."));
    } else if let Some(minimum) = asked.minimum {
        line(&format!("No order was under {}.", counted(minimum, "piece", "pieces")));
    }
    if let Some(first) = asked.starts {
        line(&format!("This list starts on {first}, after all of these orders: leave its from out to try it on them."));
    }
    if asked.fewer.iter().any(|fewer| fewer.of == "orders") {
        line("An order that is not had takes its materials, fees and minutes with it; overhead stays.");
    }
    if asked.fewer.iter().any(|fewer| fewer.of != "orders") {
        line(
            "What is not sold takes its own materials, fees and minutes with it; set-up stays where its order still runs, and overhead stays.",
        );
    }
    line(
        "\"All in\" counts the hours and costs that no order explains. Hours, wages and what is over or short rest on the orders with known hours; the \
         money left counts the others, too. Wages are before your own taxes.",
    );
    text
}
