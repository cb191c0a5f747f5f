//! The review as a person reads it: the answer first, then what it rests on.

use super::bridge_text;
use super::figures::{Currency, UNKNOWN, counted, hours, period_in_words};
use super::layout::{aligned, wrapped};
use super::wage_text::{interval, known_hours, left_out_in_words, totals, unassigned_in_words};
use crate::costing::unassigned::Unassigned;
use crate::quantity::millionths::{MILLION, Minutes, Money};
use crate::quantity::{Month, Period, ratio};
use crate::reading::problem::printable;
use crate::review::needing::Needing;
use crate::review::{Review, Row, Verdict};
use std::fmt::Write;

/// The whole review.
#[must_use]
pub fn review_text(review: &Review, currency: &Currency, warnings: usize) -> String {
    let mut text = format!("{}\n\n", wrapped(&answer(review, currency), 0));
    section(&mut text, "By tier, set-up and all", &tiers(review, currency));
    section(&mut text, "Designs that do not pay, most short first", &designs(review, currency));
    section(&mut text, "Hours by stage of the orders handed over, yours and helpers'", &stages(review));
    if let Some(bridge) = &review.bridge {
        section(&mut text, &bridge_text::heading(bridge), &bridge_text::body(bridge, currency));
    }
    section(&mut text, "What ties this to your own sums", &ties(review, currency));
    section(&mut text, "What the records lack", &lacks(review, currency, warnings));
    text.push_str(&cautions());
    text
}

/// The answer in two sentences.
#[must_use]
pub fn answer(review: &Review, currency: &Currency) -> String {
    let headline = &review.headline;
    let period = name(review);
    if review.is_empty() {
        let when = if review.period == Period::default() { "yet".to_owned() } else { format!("in {period}") };
        return format!("Nothing was handed over {when}.");
    }
    let pay = currency.whole(headline.pay);
    let Some(wage) = headline.wage else {
        let earned = currency.whole(headline.pay_of_all);
        return format!(
            "{period} left you {earned} after everything but your time. No hours are known for it, so what it paid an hour cannot be told."
        );
    };
    let paid =
        format!("{pay} for {} hours, {} an hour{}", whole_hours(headline.minutes), currency.exact(wage), on_which_orders(review, currency));
    match (review.target, headline.missing) {
        (Some(target), Some(missing)) => {
            let target = short(currency, target);
            let verb = if missing > Money::ZERO { "did not cover" } else { "covered" };
            let rest = match missing {
                missing if missing > Money::ZERO => format!("{target} needed {} more", currency.whole(missing)),
                missing => format!("that is {} over what {target} needed", currency.whole(-missing)),
            };
            format!("{period} {verb} your time. It paid you {paid}; {rest}.")
        }
        _ => format!("{period} paid you {paid}. No wage is aimed at in shop.toml, so whether that covers your time is yours to say."),
    }
}

fn on_which_orders(review: &Review, currency: &Currency) -> String {
    let headline = &review.headline;
    if headline.orders_unknown == 0 {
        return String::new();
    }
    let count = |orders: usize| i64::try_from(orders).unwrap_or(i64::MAX);
    let (known, unknown) = (count(headline.orders_known), count(headline.orders_unknown));
    let have = if unknown == 1 { "one has none".to_owned() } else { format!("{} have none", in_letters(unknown)) };
    let usual = headline.wage_at_usual_time.map_or_else(String::new, |wage| {
        let such = if unknown == 1 { "such an order takes" } else { "such orders take" };
        format!("; at the time {such}, {}", currency.exact(wage))
    });
    format!(" on the {} with hours ({have}{usual})", counted(known, "order", "orders"))
}

fn name(review: &Review) -> String {
    match review.period.month() {
        Some(month) => Month::in_words(month),
        None if review.period == Period::default() => "All time".to_owned(),
        None => format!("The time {}", period_in_words(review.period)),
    }
}

pub(super) fn in_letters(count: i64) -> String {
    let words = ["no", "one", "two", "three", "four", "five", "six", "seven", "eight", "nine", "ten", "eleven", "twelve"];
    usize::try_from(count).ok().and_then(|count| words.get(count)).map_or_else(|| count.to_string(), |word| (*word).to_owned())
}

fn whole_hours(minutes: Minutes) -> String {
    let whole = ratio::divide(minutes.0, 60 * MILLION).unwrap_or_default();
    if whole < 10 { hours(minutes) } else { counted(i64::try_from(whole).unwrap_or_default(), "", "").trim().to_owned() }
}

/// `$20` where it is whole, else `$20.50`.
pub(super) fn short(currency: &Currency, money: Money) -> String {
    if money.0 % MILLION == 0 { currency.whole(money) } else { currency.exact(money) }
}

fn section(text: &mut String, heading: &str, body: &str) {
    if !body.is_empty() {
        let _ = writeln!(text, "{heading}\n\n{body}");
    }
}

fn tiers(review: &Review, currency: &Currency) -> String {
    let table = &review.tiers;
    let estimated = table.rows.iter().any(|row| row.interval.is_some());
    let mut headings = vec!["tier"];
    headings.extend((!estimated).then_some("orders"));
    headings.extend(["pieces", "brings\neach", "fair\nprice", "hours", "paid\nan hour"]);
    headings.extend(estimated.then_some("could\nbe"));
    headings.extend(["over or\nshort", "verdict"]);
    let cells = |row: &Row| {
        let mut cells = vec![printable(&row.key)];
        cells.extend((!estimated).then(|| row.orders.to_string()));
        cells.extend([
            if row.pieces == 0 { String::new() } else { row.pieces.to_string() },
            currency.known(row.known.price().or(row.price_per_piece)),
            currency.known(row.fair_price),
            known_hours(row),
            currency.known(row.wage_per_hour),
        ]);
        cells.extend(estimated.then(|| interval(row, currency)));
        cells.extend([currency.known(row.known.surplus()), row.verdict_in_words()]);
        cells
    };
    let totals = totals(table);
    let rows: Vec<Vec<String>> = table.rows.iter().chain(&totals).map(cells).collect();
    let mut text = aligned(&headings, &rows, totals.len());
    if estimated {
        let note = "Paid an hour is the best estimate; what it could be is what your logs fit, nine times in ten. Totals \
             are counted from your logs, not estimated.";
        let _ = writeln!(text, "\n{}", wrapped(note, 0));
    }
    text
}

fn designs(review: &Review, currency: &Currency) -> String {
    let mut text = String::new();
    let (told, close): (Vec<&Needing>, Vec<&Needing>) = review.needing.iter().partition(|design| design.row.is_told());
    let (set_up, own): (Vec<&Needing>, Vec<&Needing>) = told.into_iter().partition(|design| design.verdict == Verdict::SetUpTooDear);
    for design in own {
        let line = format!("{}: {}", printable(&design.row.key), reason(design, review, currency));
        let _ = writeln!(text, "  {}", wrapped(&line, 4));
    }
    if !set_up.is_empty() {
        let _ = writeln!(text, "  {}", wrapped(&set_up_too_dear(&set_up, review, currency), 4));
    }
    if !close.is_empty() {
        let _ = writeln!(text, "  {}", wrapped(&too_close(&close, currency), 4));
    }
    if text.is_empty() && review.designs.rows.iter().any(|row| row.verdict.is_some()) {
        text.push_str("  None: every design with known hours pays.\n");
    }
    text
}

/// Designs that come out short, but whose logs fit a wage that is not.
fn too_close(designs: &[&Needing], currency: &Currency) -> String {
    let named = designs.iter().map(|design| {
        let fit = interval(&design.row, currency);
        format!("{} {} (your logs fit {fit})", printable(&design.row.key), currency.known(design.row.wage_per_hour))
    });
    format!("too close to call: {}. More orders will tell, or a batch timed on its own.", named.collect::<Vec<_>>().join(", "))
}

/// Why a design does not pay, and what would mend it.
fn reason(design: &Needing, review: &Review, currency: &Currency) -> String {
    let row = &design.row;
    let few = if row.orders < 3 { format!(" ({} only)", counted(row.orders, "order", "orders")) } else { String::new() };
    let (price, fair) =
        (currency.known(row.known.price()), row.fair_price.map_or_else(|| UNKNOWN.to_owned(), |fair| currency.at_least(fair)));
    if design.verdict == Verdict::LosesMoney {
        let cost = currency.known(row.known.costs.into_iter().sum::<Money>().each_of(row.known.pieces));
        let mend = if row.fair_price.is_some() { format!(" {fair} a piece would be fair.") } else { String::new() };
        let sure = row.verdict_in_words();
        return format!("{sure}: it brings in {price} a piece, and {cost} spent on it before any time is paid{few}.{mend}");
    }
    let wage = currency.known(row.wage_per_hour);
    let floor = if design.below_floor { ", below your floor" } else { "" };
    let carried = if design.carried_by_its_sets { "; carried by its sets, which together reach your wage" } else { "" };
    let target = review.target.map_or_else(String::new, |target| short(currency, target));
    let saving = design.save_minutes.map_or_else(String::new, |minutes| {
        let minutes = (minutes.0 + MILLION - 1) / MILLION;
        format!(", or take {} less", counted(i64::try_from(minutes).unwrap_or(1), "minute", "minutes"))
    });
    let sure = row.verdict_in_words();
    let fit = row.interval.map_or_else(String::new, |_| format!(" (your logs fit {})", interval(row, currency)));
    format!(
        "{sure}: {wage} an hour{fit}{floor}{few}{carried}. A piece would have to bring in {fair} in place of {price} to pay {target}{saving}."
    )
}

/// The designs whose whole orders fall short while one more piece pays: one remedy for all of them.
fn set_up_too_dear(designs: &[&Needing], review: &Review, currency: &Currency) -> String {
    let named: Vec<String> = designs
        .iter()
        .map(|design| {
            let row = &design.row;
            format!("{} {} ({})", printable(&row.key), currency.known(row.wage_per_hour), currency.known(row.one_more_piece_wage))
        })
        .collect();
    let target = review.target.map_or_else(String::new, |target| format!(" {}", short(currency, target)));
    format!(
        "set-up too dear: these pay less than{target} an hour in whole orders, and more (in brackets) for one more piece in an order already running: {}. \
         A larger minimum or a set-up charge mends that, not the piece price.",
        named.join(", ")
    )
}

fn stages(review: &Review) -> String {
    let total: i128 = review.stages.iter().map(|(_, minutes)| minutes.0).sum();
    let mut rows: Vec<Vec<String>> = review
        .stages
        .iter()
        .map(|(stage, minutes)| {
            let name = if stage.is_empty() { "no stage written".to_owned() } else { printable(stage) };
            let share = ratio::multiply_divide(minutes.0, MILLION, total.max(1)).unwrap_or_default();
            vec![name, hours(*minutes), super::figures::percent(Money(share))]
        })
        .collect();
    if rows.is_empty() {
        return String::new();
    }
    rows.push(vec!["total".into(), hours(Minutes(total)), "100 %".into()]);
    let mut text = aligned(&["stage", "hours", "share"], &rows, 1);
    if review.rack_minutes != Minutes::ZERO {
        let _ = writeln!(text, "\n{} hours of rack time (waiting, never paid) are apart.", hours(review.rack_minutes));
    }
    text
}

/// Each line has its figure; lines that are nil are left out but for the sums.
fn ties(review: &Review, currency: &Currency) -> String {
    let (ties, all_in) = (&review.ties, &review.designs.all_in);
    let nil = Minutes::ZERO;
    let on_unknown = ties.counted - review.headline.minutes;
    let time = [
        ("hours you logged in this time", Some(ties.logged)),
        ("less: for orders handed over before or after it", ties.for_others.filter(|minutes| *minutes != nil).map(|minutes| -minutes)),
        ("plus: logged before or after it, for its orders", ties.from_others.filter(|minutes| *minutes != nil)),
        ("hours counted", Some(ties.counted)),
        ("  of these, hours no order explains", Some(review.designs.unassigned.owner_minutes).filter(|minutes| *minutes != nil)),
        ("  of these, on quoted and cancelled orders", Some(ties.on_orders_not_done).filter(|minutes| *minutes != nil)),
        ("  and shared time on orders without hours of their own", Some(on_unknown).filter(|minutes| *minutes != nil)),
        ("helpers' hours", Some(ties.helper_minutes).filter(|minutes| *minutes != nil)),
    ];
    let unless_nil = |money: Money| Some(money).filter(|money| *money != Money::ZERO);
    let money = [
        ("ingredients bought, with their shipping and tax", unless_nil(ties.ingredients_bought)),
        ("ingredients used", Some(ties.ingredients_used)),
        ("packaging bought, with its shipping and tax", unless_nil(ties.packaging_bought)),
        ("packaging used", unless_nil(ties.packaging_used)),
        ("stock left at the end of the logs, at cost", ties.stock_left.and_then(unless_nil)),
        ("card fees", unless_nil(all_in.fees)),
        ("paid to helpers", unless_nil(all_in.helper_pay)),
        ("overhead", unless_nil(all_in.overhead)),
        ("deposits kept of cancelled orders, in the revenue", unless_nil(ties.deposits_kept)),
        (if ties.tips_count { "tips, in the revenue" } else { "tips, not counted" }, unless_nil(ties.tips)),
        ("sales tax collected, never income", unless_nil(ties.sales_tax)),
        ("revenue", Some(review.designs.total.revenue)),
        ("left for your time", Some(all_in.owner_pay)),
    ];
    let time = time.into_iter().filter_map(|(label, minutes)| Some((label, hours(minutes?))));
    let money = money.into_iter().filter_map(|(label, money)| Some((label, currency.exact(money?))));
    let mut text = String::new();
    for (label, figure) in time.chain(money) {
        let _ = writeln!(text, "  {label:<58}{figure:>14}");
    }
    text
}

fn lacks(review: &Review, currency: &Currency, warnings: usize) -> String {
    let mut text = String::new();
    let mut line = |line: String| {
        let _ = writeln!(text, "  {}", wrapped(&line, 4));
    };
    let without = &review.orders_without_hours;
    if !without.is_empty() {
        let shown: Vec<String> = without.iter().take(8).map(|order| printable(order)).collect();
        let more = if without.len() > shown.len() { " …" } else { "" };
        let count = i64::try_from(without.len()).unwrap_or(i64::MAX);
        line(format!("{} without hours: {}{more}", counted(count, "order", "orders"), shown.join(", ")));
    }
    let unassigned = &review.designs.unassigned;
    if *unassigned != Unassigned::default() {
        line(format!("unassigned: {}, which no order explains", unassigned_in_words(unassigned, currency)));
    }
    let left = review.designs.left_out;
    if left.quoted + left.cancelled > 0 {
        line(format!("{}, left out", left_out_in_words(left)));
    }
    if review.designs.rows.iter().any(|row| row.incomplete) {
        line("some figures are incomplete: something they take was never bought, or has no recipe".to_owned());
    }
    if warnings > 0 {
        line(format!(
            "{} in all the logs: fairdozen check lists them",
            counted(i64::try_from(warnings).unwrap_or(i64::MAX), "thing worth a look", "things worth a look")
        ));
    }
    text
}

/// The usual short caution.
fn cautions() -> String {
    let text = "Past figures from your own logs, rounded minutes included: a few orders say little. The hourly wage is before your own taxes. \
         Not tax, legal or accounting advice; sales tax, helpers' minimum pay, home-kitchen rules and allergens are for your local authorities.";
    format!("{}\n", wrapped(text, 0))
}
