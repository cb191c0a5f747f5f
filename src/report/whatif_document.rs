//! A what-if as a person reads it: the answer first, then the rows, what happened beside what would have.

use super::document::{Block, Column, Document, Table, Tells};
use super::wage_document::WITH_ALL_COSTS;
use super::words::{
    Currency, UNKNOWN, and, beside_target, counted, hours, nothing_handed_over, orders_of, period_as_noun, pieces, price_change,
    volume_change,
};
use crate::pricing::change::Change;
use crate::pricing::cost::Smallest;
use crate::pricing::figures::{Both, Totals};
use crate::pricing::most_changed::most_changed;
use crate::pricing::what_if::{By, Row, WhatIf};
use crate::quantity::millionths::Minutes;
use crate::quantity::{Day, Period};
use crate::reading::problem::printable;
use std::fmt::Write;

/// What was changed, as typed.
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
    /// Whether orders are among that.
    pub fewer_orders: bool,
    /// Whether pieces of a tier or a design are.
    pub fewer_pieces: bool,
    /// The smallest order.
    pub minimum: Option<i64>,
}

/// Builds the answer, the rows and what to know of them; how it was worked out with `--details`.
#[must_use]
pub(crate) fn whatif_document(answer: &WhatIf, asked: &Asked<'_>, currency: &Currency) -> Document {
    let mut document = Document::new("every row, and what was changed and what was kept");
    if answer.rows.is_empty() {
        document.push(Block::paragraph(nothing_handed_over(answer.period)));
        return Document { details: "", ..document };
    }
    document.push(Block::paragraph(headline(answer, asked, currency)));
    let (first, all) = (most_changed(answer), answer.rows.iter().collect::<Vec<_>>());
    document.push(Block::from(table(answer, &first, currency)).on_first());
    document.push(Block::from(table(answer, &all, currency)).under_details());
    let hidden = all.len() - first.len();
    if hidden > 0 {
        let (one, many) = match answer.by {
            By::Tier => ("more tier", "more tiers"),
            By::Design => ("more design", "more designs"),
            By::Order => ("more order", "more orders"),
        };
        document.push(Block::note(format!("{} changed less than those above.", counted(hidden, one, many))).on_first());
    }
    notes(&mut document, answer, asked, currency);
    document
}

fn headline(answer: &WhatIf, asked: &Asked<'_>, currency: &Currency) -> String {
    let (before, after) = (&answer.all_in.before, &answer.all_in.after);
    let what = conditions(asked);
    let of = which_orders(answer, asked);
    let money = format!("{} instead of {}", currency.whole(after.owner_pay()), currency.whole(before.owner_pay()));
    if answer.total.after.pieces() == 0 && answer.total.before.pieces() > 0 {
        return format!(
            "{what}, no order {} would be left, and you would have {} instead of {}: overhead and costs not tied to an order go on.",
            orders_of(answer.period),
            currency.whole(after.owner_pay()),
            currency.whole(before.owner_pay())
        );
    }
    let mut text = match (before.wage(), after.wage()) {
        (Some(was), Some(would)) if was == would && before == after => format!(
            "{what}, {of} would have paid you the same: {} an hour, {} in all.",
            currency.exact(was),
            currency.whole(before.owner_pay())
        ),
        (Some(was), Some(would)) => {
            format!("{what}, {of} would have paid you {} an hour instead of {}: {money}.", currency.exact(would), currency.exact(was))
        }
        (Some(was), None) => {
            format!("{what}, {of} would have left no work to pay for, instead of {} an hour: {money}.", currency.exact(was))
        }
        _ => format!("{what}, {of} would have left you {money}. Log their hours to see your hourly pay."),
    };
    if let (Some(target), Some(over)) = (answer.target, after.surplus())
        && after.wage().is_some()
    {
        let _ = write!(text, " {}", beside_target(over, target, currency));
    }
    text
}

/// The orders that would have paid: all of them, those not turned away, or the logs with fewer of them.
fn which_orders(answer: &WhatIf, asked: &Asked<'_>) -> String {
    let orders = |count: usize| format!("{} {}", counted(count, "order", "orders"), orders_of(answer.period));
    match answer.turned_away {
        _ if asked.fewer_orders && answer.period == Period::default() => "your logs".to_owned(),
        _ if asked.fewer_orders => period_as_noun(answer.period),
        0 => format!("the {}", orders(answer.orders)),
        away => format!("the other {}", orders(answer.orders - away)),
    }
}

fn conditions(asked: &Asked<'_>) -> String {
    let mut said = Vec::new();
    if let Some(file) = &asked.prices {
        said.push(format!("the prices of {}", printable(file)));
    }
    said.extend(asked.changes.iter().map(price_change));
    said.extend(asked.fewer.iter().map(volume_change));
    if let Some(minimum) = asked.minimum {
        said.push(format!("no order under {}", counted(minimum, "piece", "pieces")));
    }
    format!("With {}", and(&said))
}

fn table(answer: &WhatIf, shown: &[&Row], currency: &Currency) -> Table {
    let heading = match answer.by {
        By::Tier => "tier",
        By::Design => "design",
        By::Order => "order",
    };
    let mut changes = vec![Column::figures("your\npay"), Column::figures("hours"), Column::of(Tells::HourlyPay)];
    changes.extend(answer.target.map(|_| Column::of(Tells::Surplus)));
    let changes = changes.into_iter().flat_map(|column| [column, Column::of(Tells::Becomes)]);
    let columns = [Column::name(heading), Column::figures("pieces")].into_iter().chain(changes).collect();
    let cells = |key: &str, both: &Both| {
        let of = |figures: &Totals| {
            let surplus = figures.surplus().filter(|_| figures.known_minutes() > Minutes::ZERO);
            (currency.known(figures.wage()), surplus.map_or_else(|| UNKNOWN.to_owned(), |surplus| currency.whole(surplus)))
        };
        let time =
            |figures: &Totals| if figures.known_minutes() == Minutes::ZERO { UNKNOWN.to_owned() } else { hours(figures.known_minutes()) };
        let ((was_paid, was_over), (would_pay, would_be)) = (of(&both.before), of(&both.after));
        let mut cells = vec![
            printable(key),
            changed_pieces(both),
            currency.whole(both.before.owner_pay()),
            currency.whole(both.after.owner_pay()),
            time(&both.before),
            time(&both.after),
            was_paid,
            would_pay,
        ];
        cells.extend(answer.target.map(|_| [was_over, would_be]).into_iter().flatten());
        cells
    };
    let mut rows: Vec<Vec<String>> = shown.iter().map(|row| cells(&row.key, &row.both)).collect();
    rows.push(cells("total", &answer.total));
    let has_untied = has_untied(answer);
    rows.extend(has_untied.then(|| cells(WITH_ALL_COSTS, &answer.all_in)));
    Table { columns, rows, totals: 1 + usize::from(has_untied) }
}

/// Whether any hours or costs are not tied to an order.
fn has_untied(answer: &WhatIf) -> bool {
    answer.all_in != answer.total
}

/// `1,206`, or `256 → 205` where there are fewer.
fn changed_pieces(both: &Both) -> String {
    match (both.before.pieces(), both.after.pieces()) {
        (0, 0) => String::new(),
        (before, after) if before == after => pieces(before),
        (before, after) => format!("{} → {}", pieces(before), pieces(after)),
    }
}

fn notes(document: &mut Document, answer: &WhatIf, asked: &Asked<'_>, currency: &Currency) {
    let detail = |text: &str| Block::note(text).under_details();
    if asked.prices.is_some() {
        document.push(detail(
            "Each price you charged changes as its list price of that day does. Discounts, delivery and other charges stay as they were; \
             discounts and set prices are shared by list value, so other tiers may shift a little.",
        ));
    }
    if !asked.unpriced.is_empty() {
        let named: Vec<String> = asked.unpriced.iter().map(|tier| printable(tier)).collect();
        let stays = if named.len() == 1 { "it stays as it was" } else { "they stay as they were" };
        document.note(format!("The file has no price for {}, so {stays}.", and(&named)));
    }
    if answer.turned_away > 0 {
        let count = counted(answer.turned_away, "order is", "orders are");
        let its = if answer.turned_away == 1 { "its" } else { "their" };
        document.note(format!("{count} turned away: {its} revenue, costs and hours go, and overhead stays."));
    } else if let Some(minimum) = asked.minimum {
        document.note(format!("No order has fewer than {}, so nothing changes.", counted(minimum, "piece", "pieces")));
    }
    if let Some((smallest, target)) = answer.smallest_order.zip(answer.target) {
        let pays = format!("pays {} an hour", currency.short(target));
        document.note(match smallest {
            Smallest::From { pieces, .. } => {
                format!("At these prices an order of your usual mix {pays} from {} up.", counted(pieces, "piece", "pieces"))
            }
            Smallest::Never => format!("At these prices no order of your usual mix {pays}, however large."),
        });
    }
    if let Some(first) = asked.starts {
        document.note(format!("This list starts on {first}, after all of these orders. To try it on them, remove its from column."));
    }
    if asked.fewer_orders {
        document.push(detail("A lost order takes its materials, fees and minutes with it, and overhead stays."));
    }
    if asked.fewer_pieces {
        document.push(detail(
            "A piece not sold takes its materials, fees and minutes with it; set-up stays if its order still runs, and overhead stays.",
        ));
    }
    if has_untied(answer) {
        document.note("The last row adds hours and costs not tied to an order.");
    }
    document.push(detail(
        "Hours, hourly pay and what is above or below the target cover the orders with known hours; your pay covers all orders.",
    ));
    document.note("Hourly pay is before your own taxes.");
}
