//! Designs that do not pay: why, and what would mend each, in words.

use super::worth::minutes_to_save;
use crate::quantity::millionths::Money;
use crate::reading::problem::printable;
use crate::report::words::{Currency, OPEN, and, counted, over, verdict_of};
use crate::review::advice::Advice;
use crate::review::below_target::BelowTarget;
use crate::review::certainty::Interval;
use crate::review::decisions::Decisions as Found;
use crate::review::{By, Review, Row, Verdict};

/// One design that does not pay by itself.
#[derive(Debug, Clone, PartialEq, Eq)]
pub(crate) struct Decision {
    /// The design.
    pub design: String,
    /// The verdict, with its certainty.
    pub verdict: String,
    /// Why.
    pub reason: String,
    /// What would mend it; blank where nothing is known that would.
    pub mend: String,
}

/// All that need a decision.
#[derive(Debug, Clone, Default, PartialEq, Eq)]
pub(crate) struct Decisions {
    /// Designs to be mended one by one, most short first.
    pub own: Vec<Decision>,
    /// Those that one remedy for all would mend.
    pub set_up_too_dear: Option<String>,
    /// Designs that the logs cannot judge yet.
    pub too_close: Option<String>,
    /// Whether any design was judged at all.
    pub judged: bool,
}

impl Decisions {
    /// Writes those of a review.
    #[must_use]
    pub fn of(review: &Review, currency: &Currency) -> Self {
        let Found { own, set_up_too_dear: set_up, open, judged } = Found::of(review);
        Self {
            own: own.into_iter().map(|design| decision(design, review, currency)).collect(),
            set_up_too_dear: (!set_up.is_empty()).then(|| set_up_too_dear(&set_up, review, currency)),
            too_close: (!open.is_empty()).then(|| too_close(&open, currency)),
            judged,
        }
    }
}

/// Why a design does not pay, and what would mend it.
fn decision(design: &BelowTarget, review: &Review, currency: &Currency) -> Decision {
    let row = &design.row;
    let few = if design.is_of_few_orders() { format!(" ({} only)", counted(row.known.orders, "order", "orders")) } else { String::new() };
    let got = currency.known(row.known.price());
    let is_raised = review.advice.iter().any(|advice| matches!(advice, Advice::Raise { design: raised } if raised.row.key == row.key));
    let (reason, mend) = if design.verdict == Verdict::LosesMoney {
        let cost = currency.known(row.known.costs.into_iter().sum::<Money>().each_of(row.known.pieces));
        let mend =
            design.list_price.map_or_else(String::new, |price| format!("{} would be a fair list price.", currency.exact(price.fair)));
        let spent = if row.known.revenue == Money::ZERO {
            format!("you gave it away: {got} a piece, {cost} spent")
        } else {
            format!("you got {got} a piece and spent {cost} on it, before any time is paid")
        };
        (format!("{spent}{few}"), mend)
    } else {
        let floor = if design.below_floor { ", below your floor" } else { "" };
        let carried = if design.carried_by_its_sets { "; the orders it was in reach your target together" } else { "" };
        // What is worth doing says the price to ask and the minutes to save.
        let too_long = minutes_to_save(design).filter(|_| !is_raised);
        let too_long = too_long.map_or_else(String::new, |minutes| format!(": each took {minutes} too long"));
        let mend = if is_raised { String::new() } else { remedy(design, review, currency) };
        (format!("{}{floor}{few}{carried}{too_long}", pay(row, currency)), mend)
    };
    Decision { design: printable(&row.key), verdict: verdict_of(row, By::Design), reason, mend }
}

/// The list price that pays over the year before; blank where none is known.
fn remedy(design: &BelowTarget, review: &Review, currency: &Currency) -> String {
    let target = review.target.map_or_else(|| "your target".to_owned(), |target| format!("{} an hour", currency.short(target)));
    let over = over(review.priced_over);
    design.list_price.map_or_else(String::new, |price| {
        let now = currency.exact(price.now);
        if price.is_raise {
            format!("To pay {target} {over} its list price must be {}, not {now}.", currency.exact(price.fair))
        } else {
            format!("Its list price of {now} pays {target} {over}.")
        }
    })
}

/// Hourly pay, with its range where that can be told from it: `$11.04 an hour ($11–12, 90 %)`.
fn pay(row: &Row, currency: &Currency) -> String {
    let wage = currency.known(row.wage_per_hour);
    let range = |(interval, about): (Interval, Money)| currency.range(interval.low, about, interval.high);
    match row.interval.zip(row.wage_per_hour).map(range).unwrap_or_default().as_str() {
        "" => format!("{wage} an hour"),
        range => format!("{wage} an hour ({range}, 90 %)"),
    }
}

/// The designs whose whole orders fall short while one more piece pays: one remedy for all of them.
fn set_up_too_dear(designs: &[&BelowTarget], review: &Review, currency: &Currency) -> String {
    let of = |BelowTarget { row, .. }: &BelowTarget| {
        format!("{} {} ({})", printable(&row.key), currency.known(row.wage_per_hour), currency.known(row.one_more_piece_wage))
    };
    let named: Vec<String> = designs.iter().map(|design| of(design)).collect();
    let they_pay = if designs.len() == 1 { "It pays" } else { "They pay" };
    let target = review.target.map_or_else(String::new, |target| format!(" {}", currency.short(target)));
    format!(
        "orders too small: set-up eats the pay of {}. {they_pay} less than{target} an hour in whole orders, and more (in brackets) for one more \
         piece in the same order. {} would fix that; a higher piece price would not.",
        and(&named),
        if review.can_minimum_cover_set_up() { "A larger minimum or a set-up charge" } else { "A set-up charge" }
    )
}

/// Designs that come out short or not, but may not.
fn too_close(designs: &[&Row], currency: &Currency) -> String {
    let named: Vec<String> = designs.iter().map(|row| format!("{} {}", printable(&row.key), pay(row, currency))).collect();
    format!("{OPEN}: {}. More orders will show it, or a batch timed on its own.", and(&named))
}
