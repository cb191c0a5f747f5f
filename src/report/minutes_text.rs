//! Learned minutes as a person reads them.

use super::layout::{aligned, wrapped};
use super::words::{Currency, UNKNOWN, counted, estimate, hours, percent, spell, tenths};
use crate::minutes::Unlearned;
use crate::minutes::fit::Method;
use crate::minutes::learned::Estimate;
use crate::minutes::observations::Covers;
use crate::quantity::Month;
use crate::quantity::millionths::{MILLION, Minutes, Money};
use crate::quantity::ratio;
use crate::reading::problem::printable;
use crate::review::minutes::{Beside, MinutesTable};
use crate::review::stage_hours::Worked;
use std::collections::{BTreeMap, BTreeSet};
use std::fmt::Write;

/// What ranges are where sampling did not settle; a sentence without its end.
pub const ROUGH_RANGES: &str = "Treat the ranges as rough: sampling did not settle, so they are spread about the best fit";

/// The table, and what it rests on.
#[must_use]
pub fn minutes_text(table: &MinutesTable, currency: &Currency) -> String {
    let mut text = match (&table.beside, table.unlearned) {
        (Some(beside), _) => format!("{}\n\n", wrapped(&title(beside), 0)),
        (None, why) => format!("{}\n\n", wrapped(&why_not(why), 0)),
    };
    if table.rows.is_empty() {
        text.push_str("Nothing was handed over yet.\n");
        return text;
    }
    let headings = [
        "design",
        "tier",
        "orders",
        "pieces",
        "your own\nguess",
        "worked out,\nminutes a piece",
        "your logs\nfit",
        "told apart\nby your orders",
    ];
    let rows: Vec<Vec<String>> = table
        .rows
        .iter()
        .map(|row| {
            let told = match row.told_apart {
                None => "no hours of it",
                Some(true) => "yes",
                Some(false) => "no",
            };
            vec![
                printable(&row.key),
                row.tier.as_deref().map_or_else(String::new, printable),
                row.orders.to_string(),
                row.pieces.to_string(),
                row.card.map_or_else(|| UNKNOWN.to_owned(), tenths),
                row.learned.map_or_else(|| UNKNOWN.to_owned(), |learned| estimate(learned.median)),
                row.learned.map_or_else(|| UNKNOWN.to_owned(), |learned| range(&learned)),
                told.to_owned(),
            ]
        })
        .collect();
    text.push_str(&aligned(&headings, &rows, 0));
    text.push('\n');
    if let Some(beside) = &table.beside {
        text.push_str(&notes(table, beside, currency));
    }
    text
}

fn title(beside: &Beside) -> String {
    let orders = counted(i64::try_from(beside.orders).unwrap_or(i64::MAX), "order", "orders");
    let timed = match beside.timed {
        0 => String::new(),
        timed => {
            format!(" and {}", counted(i64::try_from(timed).unwrap_or(i64::MAX), "batch timed on its own", "batches timed on their own"))
        }
    };
    let what = match beside.covers {
        Covers::Decorating => "What a piece takes to decorate",
        Covers::Whole => "What a piece takes, all of its work",
    };
    format!("{what}, worked out from the hours of {orders}{timed}: the best estimate, and what your logs fit nine times in ten")
}

fn why_not(why: Option<Unlearned>) -> String {
    let card = "Until then whole orders are split by your own guesses on the design card, or equally.";
    match why {
        None | Some(Unlearned::NothingToLearnFrom) => {
            format!("Minutes a piece cannot be worked out yet: no decorating hours, or hours without a stage, name an order that was handed over. {card}")
        }
        Some(Unlearned::TooFew(seen)) => {
            format!("Minutes a piece cannot be worked out yet: hours tell of {seen} of the three orders or timed batches it takes. {card}")
        }
        Some(Unlearned::Failed(_)) => "Minutes a piece could not be worked out: what fits the logs did not settle, so no figure is given. \
             Whole orders are split by your own guesses on the design card, or equally. Look for orders logged twice or in hours for minutes."
            .to_owned(),
    }
}

fn notes(table: &MinutesTable, beside: &Beside, currency: &Currency) -> String {
    let mut text = String::new();
    let mut line = |line: &str| {
        let _ = writeln!(text, "{}", wrapped(line, 2));
    };
    let whole = if beside.covers == Covers::Whole { "Setting up an order" } else { "Setting up the decorating of an order" };
    line(&format!("{whole}: {} minutes ({}).", estimate(beside.set_up.median), range(&beside.set_up)));
    if let Some(colour) = &beside.colour {
        line(&format!("Each colour of an order: {} minutes ({}).", estimate(colour.median), range(colour)));
    }
    if let Some(trend) = &beside.trend {
        line(&in_words_of_trend(trend));
    }
    // Student's t with four degrees of freedom: half of it lies within 0.741 scales (any table).
    line(&format!(
        "Half of your orders come within {} of what their pieces add up to.",
        share(libm::exp(0.741 * beside.noise.median) - 1.0)
    ));
    if beside.leans {
        line(
            "These figures lean more on your tiers and guesses than on your orders: there are too few orders yet to tell most designs apart.",
        );
    }
    for group in not_told_apart(table) {
        line(&group);
    }
    let far: Vec<String> = table
        .far_off()
        .map(|(order, of)| format!("{} (logged {}, expected {})", printable(order), spell(of.logged), spell(of.expected)))
        .collect();
    if !far.is_empty() {
        line(&format!("Far from what was expected, often a logging mistake: {}.", far.join(", ")));
    }
    if let Some(next) = table.time_next.first().filter(|next| next.narrowing_minutes > 0.0) {
        let worth = next
            .narrowing
            .map_or_else(String::new, |money| format!(" That takes {} of doubt out of a year's prices.", currency.whole(money)));
        line(&format!(
            "Time next: {}. The minutes of {}, logged under its name, would narrow what is known of it from {} minutes wide to about {}.{worth}",
            printable(&next.key),
            counted(next.pieces, "piece", "pieces"),
            estimate(next.own.0),
            estimate(next.own.1),
        ));
    }
    let of = &beside.diagnostics;
    line(&match of.method {
        Method::Sampled => format!(
            "Checked: {} chains, {} draws, R-hat {:.3}, effective draws {:.0} (middle) and {:.0} (tails), {} lost.",
            of.chains, of.draws, of.r_hat, of.ess_bulk, of.ess_tail, of.divergences
        ),
        Method::Approximated => {
            format!("So many orders are not sampled but approximated: {} draws about the best fit.", of.draws)
        }
        Method::Unsettled => format!(
            "{ROUGH_RANGES} ({} draws). Designs always sold together do this, orders that are all alike, and minutes written by a rule of thumb. \
             Time a batch of one design on its own.",
            of.draws
        ),
    });
    text
}

fn in_words_of_trend(trend: &Estimate) -> String {
    let change = |log: f64| libm::exp(log) - 1.0;
    let way = if trend.median < 0.0 { "faster" } else { "slower" };
    let signed = |log: f64| {
        let change = change(log);
        format!("{} {}", share(change.abs()), if change < 0.0 { "faster" } else { "slower" })
    };
    let sure = if trend.low < 0.0 && trend.high > 0.0 { "; that may be chance" } else { "" };
    format!(
        "A year makes you {} {way} (your logs fit anything from {} to {}{sure}).",
        share(change(trend.median).abs()),
        signed(trend.low),
        signed(trend.high)
    )
}

/// One sentence for each set of designs that cannot be told apart.
fn not_told_apart(table: &MinutesTable) -> Vec<String> {
    let mut told: BTreeSet<Vec<String>> = BTreeSet::new();
    for row in table.rows.iter().filter(|row| row.told_apart == Some(false) && !row.company.is_empty()) {
        let mut names: Vec<String> = row.company.iter().chain([&row.key]).map(|name| printable(name)).collect();
        names.sort();
        told.insert(names);
    }
    let sentence =
        |names: &Vec<String>| format!("Not told apart, because they are sold together: {}. Time one of them.", names.join(" and "));
    told.iter().map(sentence).collect()
}

/// Hours as they were logged, by stage and by month.
#[must_use]
pub fn stages_text(worked: &[Worked], period: &str) -> String {
    if worked.is_empty() {
        return format!("No hours are logged, {period}.\n");
    }
    let work: Vec<&Worked> = worked.iter().filter(|of| !of.waiting).collect();
    let helpers: BTreeSet<&str> = work.iter().filter_map(|of| of.who.as_deref()).collect();
    let mut text = format!("Hours as you logged them, {period}\n\n");
    let stage = |of: &Worked| of.stage.as_deref().map_or_else(|| "no stage written".to_owned(), printable);
    text.push_str(&hours_by("stage", &work, &helpers, stage, true));
    let months: BTreeSet<Month> = work.iter().map(|of| of.month).collect();
    if months.len() > 1 {
        text.push('\n');
        text.push_str(&hours_by("month", &work, &helpers, |of: &Worked| of.month.to_string(), false));
    }
    let rack: Minutes = worked.iter().filter(|of| of.waiting).map(|of| of.minutes).sum();
    if rack != Minutes::ZERO {
        let _ = writeln!(text, "\n{} hours of rack time (waiting, never paid) are apart.", hours(rack));
    }
    text.push_str("\nThese are counted from your logs, not estimated.\n");
    text
}

fn hours_by(heading: &str, work: &[&Worked], helpers: &BTreeSet<&str>, key: impl Fn(&Worked) -> String, most_first: bool) -> String {
    let mut sums: BTreeMap<String, Vec<Minutes>> = BTreeMap::new();
    let mut all = vec![Minutes::ZERO; helpers.len() + 2];
    for of in work {
        let column = of.who.as_deref().and_then(|who| helpers.iter().position(|helper| *helper == who)).map_or(0, |at| at + 1);
        let row = sums.entry(key(of)).or_insert_with(|| vec![Minutes::ZERO; helpers.len() + 2]);
        for cells in [row, &mut all] {
            cells[column] += of.minutes;
            cells[helpers.len() + 1] += of.minutes;
        }
    }
    let mut rows: Vec<(String, Vec<Minutes>)> = sums.into_iter().collect();
    if most_first {
        rows.sort_by_key(|(name, minutes)| (-minutes[helpers.len() + 1], name.clone()));
    }
    rows.push(("total".to_owned(), all.clone()));
    let total = all[helpers.len() + 1];
    let names: Vec<String> = helpers.iter().map(|helper| printable(helper)).collect();
    let mut headings = vec![heading, "you"];
    headings.extend(names.iter().map(String::as_str));
    if !helpers.is_empty() {
        headings.push("all");
    }
    headings.push("share");
    let cells = |(name, minutes): (String, Vec<Minutes>)| {
        let whole = minutes[helpers.len() + 1];
        let shown = if helpers.is_empty() { &minutes[..1] } else { &minutes[..] };
        let share = Money(ratio::multiply_divide(whole.0, MILLION, total.0.max(1)).unwrap_or_default());
        std::iter::once(name).chain(shown.iter().map(|minutes| hours(*minutes))).chain([percent(share)]).collect()
    };
    aligned(&headings, &rows.into_iter().map(cells).collect::<Vec<Vec<String>>>(), 1)
}

fn range(of: &Estimate) -> String {
    format!("{}–{}", estimate(of.low), estimate(of.high))
}

fn share(of: f64) -> String {
    format!("{:.0} %", 100.0 * of)
}
