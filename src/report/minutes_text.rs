//! Learned minutes as a person reads them.

use super::layout::{aligned, wrapped};
use super::screen::Screen;
use super::words::{Currency, UNKNOWN, and, counted, during, estimate, hours, month_in_short, percent, period_in_words, spell, tenths};
use crate::minutes::Unlearned;
use crate::minutes::fit::{Diagnostics, Method};
use crate::minutes::learned::Estimate;
use crate::minutes::observations::Covers;
use crate::quantity::millionths::{MILLION, Minutes, Money};
use crate::quantity::ratio;
use crate::quantity::{Month, Period};
use crate::reading::problem::printable;
use crate::review::minutes::{FitSummary, MinutesTable};
use crate::review::stage_hours::Worked;
use std::collections::{BTreeMap, BTreeSet};
use std::fmt::Write;

/// What ranges are where sampling did not settle; a sentence without its end.
pub const ROUGH_RANGES: &str = "Treat the ranges as rough: sampling did not settle, so they spread about the best fit";

/// What `--details` adds to minutes per piece.
pub const MORE: &str = "what the columns mean, how closely orders fit, and the sampler's checks";

/// What `--details` adds to hours by stage.
pub const MORE_OF_STAGES: &str = "the hours month by month";

/// The table, what to check and what to time next; the rest of what it rests on with `--details`.
#[must_use]
pub fn minutes_text(table: &MinutesTable, currency: &Currency, screen: Screen) -> String {
    let mut text = match (&table.fit, table.unlearned) {
        (Some(beside), _) => format!("{}\n\n", wrapped(&title(beside), 0)),
        (None, why) => format!("{}\n\n", wrapped(&why_not(why), 0)),
    };
    if table.rows.is_empty() {
        text.push_str("Nothing was handed over yet.\n");
        return text;
    }
    let headings = ["design", "tier", "orders", "pieces", "your\nguess", "from your logs,\nminutes each", "range\n(90 %)", "told\napart"];
    let rows: Vec<Vec<String>> = table
        .rows
        .iter()
        .map(|row| {
            let told = match row.told_apart {
                None => "no hours yet",
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
    if let Some(beside) = &table.fit {
        text.push_str(&notes(table, beside, currency, screen));
    }
    text
}

fn title(beside: &FitSummary) -> String {
    let orders = counted(i64::try_from(beside.orders).unwrap_or(i64::MAX), "order", "orders");
    let timed = match beside.timed {
        0 => String::new(),
        timed => {
            format!(" and {}", counted(i64::try_from(timed).unwrap_or(i64::MAX), "timed batch", "timed batches"))
        }
    };
    let what = match beside.covers {
        Covers::Decorating => "Minutes to decorate a piece",
        Covers::Whole => "Minutes of all work on a piece",
    };
    format!("{what}, from the hours of {orders}{timed}")
}

fn why_not(why: Option<Unlearned>) -> String {
    let card = "Until then whole orders are split by your guesses on the design card, or equally.";
    match why {
        None | Some(Unlearned::NothingToLearnFrom) => {
            format!("Minutes per piece are not known yet: no order handed over has decorating hours, or hours without a stage. {card}")
        }
        Some(Unlearned::TooFew(seen)) => {
            let orders = counted(i64::try_from(seen).unwrap_or(i64::MAX), "order or batch has", "orders or batches have");
            format!("Minutes per piece are not known yet: only {orders} hours; learning them needs 3. {card}")
        }
        Some(Unlearned::Failed(_)) => {
            "Minutes per piece could not be worked out: the estimate did not settle. Whole orders are split by your guesses on the design \
             card, or equally. Look for orders logged twice, or in hours instead of minutes."
                .to_owned()
        }
    }
}

fn notes(table: &MinutesTable, beside: &FitSummary, currency: &Currency, screen: Screen) -> String {
    let mut text = String::new();
    let mut line = |line: &str| {
        let _ = writeln!(text, "{}", wrapped(line, 2));
    };
    let whole = if beside.covers == Covers::Whole { "Set-up of an order" } else { "Set-up for decorating an order" };
    line(&format!("{whole}: {} minutes ({}).", estimate(beside.set_up.median), range(&beside.set_up)));
    if let Some(colour) = &beside.colour {
        line(&format!("Each colour of an order: {} minutes ({}).", estimate(colour.median), range(colour)));
    }
    if let Some(trend) = &beside.trend {
        line(&in_words_of_trend(trend));
    }
    if beside.leans {
        line("There are too few orders yet to tell most designs apart: these figures lean on your tiers and guesses.");
    }
    for group in not_told_apart(table) {
        line(&group);
    }
    let far: Vec<String> = table
        .far_off()
        .map(|(order, of)| format!("{} (logged {}, expected {})", printable(order), spell(of.logged), spell(of.expected)))
        .collect();
    if !far.is_empty() {
        line(&format!("Far from the expected hours, often a logging mistake: {}.", and(&far)));
    }
    if let Some(next) = table.time_next.first().filter(|next| next.narrowing_minutes > 0.0) {
        let worth = next.narrowing.map_or_else(String::new, |money| {
            format!(" Until then what you charge for it may be about {} a year off.", currency.whole(money))
        });
        let batch = counted(next.pieces, "piece", "pieces");
        let (wide, narrow) = (estimate(next.own.0), estimate(next.own.1));
        line(&format!(
            "Time next: {batch} of {}, logged under its name. Its range would shrink from {wide} minutes wide to about {narrow}.{worth}",
            printable(&next.key)
        ));
    }
    if screen.is_whole() {
        line("Range: the minutes lie in it with 90 % probability. Told apart: your orders differ enough in it to show its minutes.");
        // Student's t with four degrees of freedom: half of it lies within 0.741 scales (any table).
        line(&format!(
            "Half of your orders take within {} of what their pieces add up to.",
            share(libm::exp(0.741 * beside.noise.median) - 1.0)
        ));
    }
    if screen.is_whole() || beside.diagnostics.method == Method::Unsettled {
        line(&of_the_method(&beside.diagnostics));
    }
    text
}

/// How the estimate was made and checked.
fn of_the_method(of: &Diagnostics) -> String {
    match of.method {
        Method::Sampled => format!(
            "Checked: {} chains, {} draws, R-hat {:.3}, effective draws {:.0} (middle) and {:.0} (tails), {} lost.",
            of.chains, of.draws, of.r_hat, of.ess_bulk, of.ess_tail, of.divergences
        ),
        Method::Approximated => {
            format!("With so many orders the estimate is approximated, not sampled: {} draws about the best fit.", of.draws)
        }
        Method::Unsettled => format!(
            "{ROUGH_RANGES} ({} draws). This happens with designs always sold together, orders all alike, and minutes written by a rule of \
             thumb. Time a batch of one design on its own.",
            of.draws
        ),
    }
}

fn in_words_of_trend(trend: &Estimate) -> String {
    let change = |log: f64| libm::exp(log) - 1.0;
    let way = if trend.median < 0.0 { "faster" } else { "slower" };
    let signed = |log: f64| {
        let change = change(log);
        format!("{} {}", share(change.abs()), if change < 0.0 { "faster" } else { "slower" })
    };
    let sure = if trend.low < 0.0 && trend.high > 0.0 { "; it may be chance" } else { "" };
    format!(
        "After a year you are {} {way} (from {} to {}, 90 %{sure}).",
        share(change(trend.median).abs()),
        signed(trend.low),
        signed(trend.high)
    )
}

/// One sentence for each set of designs that cannot be told apart.
fn not_told_apart(table: &MinutesTable) -> Vec<String> {
    let mut told: BTreeSet<Vec<String>> = BTreeSet::new();
    for row in table.rows.iter().filter(|row| row.told_apart == Some(false) && !row.confounded_with.is_empty()) {
        let mut names: Vec<String> = row.confounded_with.iter().chain([&row.key]).map(|name| printable(name)).collect();
        names.sort();
        told.insert(names);
    }
    let sentence = |names: &Vec<String>| format!("Not told apart, because they are sold together: {}. Time one of them.", and(names));
    told.iter().map(sentence).collect()
}

/// Hours as they were logged, by stage and by month.
#[must_use]
pub fn stages_text(worked: &[Worked], period: Period, screen: Screen) -> String {
    if worked.is_empty() {
        return format!("No hours are logged {}.\n", during(period));
    }
    let work: Vec<&Worked> = worked.iter().filter(|of| !of.waiting).collect();
    let helpers: BTreeSet<&str> = work.iter().filter_map(|of| of.who.as_deref()).collect();
    let mut text = format!("Hours as you logged them, {}\n\n", period_in_words(period));
    let stage = |of: &Worked| of.stage.as_deref().map_or_else(|| "no stage written".to_owned(), printable);
    text.push_str(&hours_by("stage", &work, &helpers, stage, Clone::clone, true));
    let months: BTreeSet<Month> = work.iter().map(|of| of.month).collect();
    if months.len() > 1 && screen.is_whole() {
        text.push('\n');
        text.push_str(&hours_by("month", &work, &helpers, |of: &Worked| of.month, |month| month_in_short(*month), false));
    }
    let rack: Minutes = worked.iter().filter(|of| of.waiting).map(|of| of.minutes).sum();
    if rack != Minutes::ZERO {
        let _ = writeln!(text, "\nNot in the table: {} hours of rack time (waiting, never paid).", hours(rack));
    }
    text.push_str("\nThese hours are counted from your logs, not estimated.\n");
    text
}

fn hours_by<Key: Ord + Clone>(
    heading: &str,
    work: &[&Worked],
    helpers: &BTreeSet<&str>,
    key: impl Fn(&Worked) -> Key,
    name: impl Fn(&Key) -> String,
    most_first: bool,
) -> String {
    let mut sums: BTreeMap<Key, Vec<Minutes>> = BTreeMap::new();
    let mut all = vec![Minutes::ZERO; helpers.len() + 2];
    for of in work {
        let column = of.who.as_deref().and_then(|who| helpers.iter().position(|helper| *helper == who)).map_or(0, |at| at + 1);
        let row = sums.entry(key(of)).or_insert_with(|| vec![Minutes::ZERO; helpers.len() + 2]);
        for cells in [row, &mut all] {
            cells[column] += of.minutes;
            cells[helpers.len() + 1] += of.minutes;
        }
    }
    let mut sums: Vec<(Key, Vec<Minutes>)> = sums.into_iter().collect();
    if most_first {
        sums.sort_by_key(|(key, minutes)| (-minutes[helpers.len() + 1], key.clone()));
    }
    let mut rows: Vec<(String, Vec<Minutes>)> = sums.into_iter().map(|(key, minutes)| (name(&key), minutes)).collect();
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
