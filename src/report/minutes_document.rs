//! Learned minutes as a person reads them.

use super::document::{Block, Column, Content, Document, Table};
use super::words::{
    Currency, ORDERS_NAMED, UNKNOWN, and, counted, during, estimate, estimate_range, estimated_percent, first_of, hours, month_in_short,
    nothing_handed_over, number, percent, period_in_words, spell, tenths, waiting_in_words,
};
use crate::minutes::Unlearned;
use crate::minutes::fit::{Diagnostics, Method};
use crate::minutes::learned::Estimate;
use crate::minutes::observations::Covers;
use crate::quantity::Period;
use crate::quantity::millionths::{Minutes, Money};
use crate::reading::problem::printable;
use crate::review::hours_by::{HoursBy, by_month, by_stage, share, waiting};
use crate::review::minutes::{FitSummary, MinutesRow, MinutesTable};
use crate::review::sold_together::sold_together;
use crate::review::stage_hours::Worked;

/// What ranges are where sampling did not settle; a sentence without its end.
pub(crate) const ROUGH_RANGES: &str = "Treat the ranges as rough: the estimate did not settle, so they spread about the best fit";

/// Builds the table, what to check and what to time next; the rest of what it rests on with `--details`.
#[must_use]
pub fn minutes_document(table: &MinutesTable, currency: &Currency) -> Document {
    let mut document = Document::default();
    if table.rows.is_empty() {
        document.push(Block::paragraph(nothing_handed_over(Period::default())));
        return document;
    }
    document.push(Block::paragraph(match (&table.fit, table.unlearned) {
        (Some(beside), _) => title(beside),
        (None, why) => why_not(why),
    }));
    let figures = ["orders", "pieces", "your\nguess"].map(Column::figures);
    let mut columns: Vec<Column> = [Column::name("design"), Column::words("tier")].into_iter().chain(figures).collect();
    if table.fit.is_some() {
        columns.extend(["from your logs,\nminutes each", "range\n(90 %)"].map(Column::figures));
        columns.extend(names_untold(table).then(|| Column::words("told\napart")));
    }
    let has = columns.len();
    document.push(Table { rows: table.rows.iter().map(|row| cells(row).into_iter().take(has).collect()).collect(), columns, totals: 0 });
    if let Some(beside) = &table.fit {
        document.details = "what the columns mean, how closely orders fit, and how the estimate was checked";
        findings(&mut document, table, beside, currency);
    }
    document
}

fn cells(row: &MinutesRow) -> [String; 8] {
    let told = match row.told_apart {
        None => "no hours yet",
        Some(true) => "yes",
        Some(false) => "no",
    };
    [
        printable(&row.key),
        row.tier.as_deref().map_or_else(String::new, printable),
        number(row.orders),
        number(row.pieces),
        row.card.map_or_else(|| UNKNOWN.to_owned(), tenths),
        row.learned.map_or_else(|| UNKNOWN.to_owned(), |learned| estimate(learned.median)),
        row.learned.map_or_else(|| UNKNOWN.to_owned(), |learned| range(&learned)),
        told.to_owned(),
    ]
}

/// Whether the hours do not tell some design from the others, so that a column says which.
fn names_untold(table: &MinutesTable) -> bool {
    table.rows.iter().any(|row| row.told_apart != Some(true))
}

fn title(beside: &FitSummary) -> String {
    let orders = counted(beside.orders, "order", "orders");
    let timed = match beside.timed {
        0 => String::new(),
        timed => format!(" and {}", counted(timed, "timed batch", "timed batches")),
    };
    let what = match beside.covers {
        Covers::Decorating => "Minutes to decorate a piece",
        Covers::Whole => "Minutes of all work on a piece",
    };
    format!("{what}, from the hours of {orders}{timed}")
}

fn why_not(why: Option<Unlearned>) -> String {
    let card = "Until then whole orders are split by your guesses (minutes_each), or equally.";
    match why {
        None | Some(Unlearned::NothingToLearnFrom) => {
            format!("Minutes per piece are not known yet: log decorating minutes by order. {card}")
        }
        Some(Unlearned::TooFew(seen)) => {
            let orders = counted(seen, "order or batch has", "orders or batches have");
            format!("Minutes per piece are not known yet: only {orders} hours; learning them needs 3. {card}")
        }
        Some(Unlearned::Failed(_)) => {
            "Minutes per piece could not be worked out: the estimate did not settle. Whole orders are split by your guesses (minutes_each), \
             or equally. Look for orders logged twice, or in hours instead of minutes."
                .to_owned()
        }
    }
}

fn findings(document: &mut Document, table: &MinutesTable, beside: &FitSummary, currency: &Currency) {
    let finding = |text: String| Block::from(Content::Finding(text));
    let whole = if beside.covers == Covers::Whole { "Set-up of an order" } else { "Set-up for decorating an order" };
    document.push(finding(format!("{whole}: {} minutes ({}).", estimate(beside.set_up.median), range(&beside.set_up))));
    if let Some(colour) = &beside.colour {
        document.push(finding(format!("Each colour of an order: {} minutes ({}).", estimate(colour.median), range(colour))));
    }
    document.extend(beside.trend.as_ref().map(in_words_of_trend).map(finding));
    if beside.leans {
        let leans = "There are too few orders yet to tell most designs apart: these figures lean on your tiers and guesses.";
        document.push(finding(leans.to_owned()));
    }
    document.extend(sold_together(table).into_iter().map(|names| {
        let names: Vec<String> = names.iter().map(|name| printable(name)).collect();
        finding(format!("Not told apart, because they are sold together: {}. Time one of them.", and(&names)))
    }));
    let far: Vec<String> = table
        .far_off()
        .map(|(order, of)| format!("{} (logged {}, expected {})", printable(order), spell(of.logged), spell(of.expected)))
        .collect();
    if !far.is_empty() {
        document.push(finding(format!("Far from the expected hours, often a logging mistake: {}.", first_of(&far, ORDERS_NAMED))));
    }
    document.extend(time_next(table, currency).map(finding));
    let told = if names_untold(table) { " Told apart: your orders differ enough in it to show its minutes." } else { "" };
    document.push(finding(format!("Range: the minutes lie in it with 90 % probability.{told}")).under_details());
    // Student's t with four degrees of freedom: half of it lies within 0.741 scales (any table).
    let half = estimated_percent(libm::exp(0.741 * beside.noise.median) - 1.0);
    document.push(finding(format!("Half of your orders take within {half} of what their pieces add up to.")).under_details());
    let method = finding(of_the_method(&beside.diagnostics));
    document.push(if beside.diagnostics.method == Method::Unsettled { method } else { method.under_details() });
}

fn time_next(table: &MinutesTable, currency: &Currency) -> Option<String> {
    let batches = table.batches();
    if batches.is_empty() {
        return None;
    }
    let named: Vec<String> = batches
        .iter()
        .map(|next| {
            let (batch, (wide, narrow)) = (counted(next.pieces, "piece", "pieces"), next.own);
            format!("{batch} of {} (range from {} minutes wide to about {})", printable(&next.key), estimate(wide), estimate(narrow))
        })
        .collect();
    let what = if batches.len() == 1 {
        "in a batch of their own, logged under its name"
    } else {
        "each in a batch of its own, logged under its name"
    };
    let worth = batches.iter().map(|next| next.narrowing).sum::<Option<Money>>();
    let subject = if batches.len() == 1 { "That" } else { "Together they" };
    let worth = worth.map_or_else(String::new, |money| {
        format!(" {subject} should take about {} a year of error out of your prices.", currency.whole(money))
    });
    Some(format!("Time next, {what}: {}.{worth}", and(&named)))
}

/// How the estimate was made and checked.
fn of_the_method(of: &Diagnostics) -> String {
    match of.method {
        Method::Sampled => format!(
            "How the estimate was checked: it was worked out {} times from different starts, and the answers agree (R-hat {:.3}; 1 is perfect). \
             Its {} draws are worth {} independent ones for the best estimates and {} for the ends of the ranges; {} diverged.",
            of.chains,
            of.r_hat,
            number(of.draws),
            estimate(of.ess_bulk),
            estimate(of.ess_tail),
            if of.divergences == 0 { "none".to_owned() } else { number(of.divergences) }
        ),
        Method::Approximated => {
            format!("With so many orders the estimate is approximated, not sampled: {} draws about the best fit.", number(of.draws))
        }
        Method::Unsettled => format!(
            "{ROUGH_RANGES} ({} draws). This happens with designs always sold together, orders all alike, and minutes written by a rule of \
             thumb. Time a batch of one design on its own.",
            number(of.draws)
        ),
    }
}

fn in_words_of_trend(trend: &Estimate) -> String {
    let change = |log: f64| libm::exp(log) - 1.0;
    let way = if trend.median < 0.0 { "faster" } else { "slower" };
    let signed = |log: f64| {
        let change = change(log);
        format!("{} {}", estimated_percent(change.abs()), if change < 0.0 { "faster" } else { "slower" })
    };
    let sure = if trend.low < 0.0 && trend.high > 0.0 { ", which may be chance" } else { "" };
    format!(
        "You are about {} {way} than a year ago{sure} ({} to {}, 90 %).",
        estimated_percent(change(trend.median).abs()),
        signed(trend.low),
        signed(trend.high)
    )
}

/// Builds the hours as they were logged, by stage and by month.
#[must_use]
pub(crate) fn stages_document(worked: &[Worked], period: Period) -> Document {
    let mut document = Document::new("the hours month by month");
    if worked.is_empty() {
        let when = if period == Period::default() { "yet".to_owned() } else { during(period) };
        document.push(Block::paragraph(format!("No hours are logged {when}.")));
        return Document { details: "", ..document };
    }
    document.push(Block::paragraph(format!("Hours as you logged them, {}", period_in_words(period))));
    let stage = |stage: &Option<String>| stage.as_deref().map_or_else(|| "no stage written".to_owned(), printable);
    document.push(hours_table("stage", &by_stage(worked), stage));
    let months = by_month(worked);
    if months.rows.len() > 1 {
        document.push(Block::from(hours_table("month", &months, |month| month_in_short(*month))).under_details());
    }
    let rack = waiting(worked);
    if rack != Minutes::ZERO {
        document.push(Block::paragraph(waiting_in_words(rack)));
    }
    document.push(Block::paragraph("These hours are counted from your logs, not estimated."));
    document
}

fn hours_table<Key>(heading: &'static str, by: &HoursBy<Key>, name: impl Fn(&Key) -> String) -> Table {
    let alone = by.helpers.is_empty();
    let helpers = by.helpers.iter().map(|helper| Column::figures(printable(helper)));
    let columns = [Column::name(heading), Column::figures("you")].into_iter().chain(helpers);
    let columns = columns.chain((!alone).then(|| Column::figures("all"))).chain([Column::figures("share")]);
    let whole = |minutes: &[Minutes]| minutes.last().copied().unwrap_or_default();
    let cells = |name: String, minutes: &[Minutes]| {
        let shown = if alone { &minutes[..1] } else { minutes };
        let share = percent(share(whole(minutes), whole(&by.total)));
        std::iter::once(name).chain(shown.iter().map(|minutes| hours(*minutes))).chain([share]).collect()
    };
    let rows = by.rows.iter().map(|(key, minutes)| cells(name(key), minutes));
    Table { columns: columns.collect(), rows: rows.chain([cells("total".to_owned(), &by.total)]).collect(), totals: 1 }
}

fn range(of: &Estimate) -> String {
    estimate_range(of.low, of.high)
}
