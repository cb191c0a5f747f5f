//! The review as a person reads it on a terminal: the answer first, then what it rests on.

use super::answer::answer;
use super::cautions::{CAUTIONS, WHEN_COUNTED};
use super::decisions::Decisions;
use super::lacks::lacks;
use super::stages::{stages, waiting};
use super::tiers::{few_orders, of_the_range, tiers};
use super::ties::ties;
use super::worth::worth_doing;
use crate::report::bridge_text;
use crate::report::layout::{item, wrapped};
use crate::report::words::Currency;
use crate::review::Review;
use std::fmt::Write;

/// The whole review.
#[must_use]
pub fn review_text(review: &Review, currency: &Currency, warnings: usize) -> String {
    let mut text = format!("{}\n\n", wrapped(&answer(review, currency), 0));
    section(&mut text, "By tier, set-up and all", &tiers_in_text(review, currency));
    section(&mut text, "Designs that do not pay, most short first", &designs(&Decisions::of(review, currency)));
    section(&mut text, "Worth doing", &listed(worth_doing(review, currency)));
    section(&mut text, "Hours by stage of the orders handed over, yours and helpers'", &stages_in_text(review));
    if let Some(bridge) = &review.bridge {
        section(&mut text, &bridge_text::heading(bridge), &bridge_text::body(bridge, currency));
    }
    section(&mut text, "What ties this to your own sums", &ties_in_text(review, currency));
    section(&mut text, "What the records lack", &listed(lacks(review, currency, warnings)));
    let _ = writeln!(text, "{}", wrapped(CAUTIONS, 0));
    text
}

/// The last line of a review that is kept as a file.
pub const LAST_LINE: &str = "Written by fairdozen. The next review in this folder replaces this file.\n";

fn section(text: &mut String, heading: &str, body: &str) {
    if !body.is_empty() {
        let _ = writeln!(text, "{heading}\n\n{body}");
    }
}

fn listed(sentences: impl IntoIterator<Item = String>) -> String {
    sentences.into_iter().map(|sentence| item(&sentence) + "\n").collect()
}

fn tiers_in_text(review: &Review, currency: &Currency) -> String {
    let mut text = tiers(review, currency).text();
    let notes = of_the_range(review).into_iter().chain(few_orders(review));
    for note in notes {
        let _ = writeln!(text, "\n{}", wrapped(&note, 0));
    }
    text
}

fn designs(decisions: &Decisions) -> String {
    let own = decisions.own.iter().map(|decision| {
        let mend = if decision.mend.is_empty() { String::new() } else { format!(" {}", decision.mend) };
        format!("{}: {}: {}.{mend}", decision.design, decision.verdict, decision.reason)
    });
    let text = listed(own.chain(decisions.set_up_too_dear.clone()).chain(decisions.too_close.clone()));
    if text.is_empty() && decisions.judged { "  None: every design with known hours pays.\n".to_owned() } else { text }
}

fn stages_in_text(review: &Review) -> String {
    let Some(stages) = stages(review) else { return String::new() };
    let mut text = stages.text();
    if let Some(waiting) = waiting(review) {
        let _ = writeln!(text, "\n{waiting}");
    }
    text
}

fn ties_in_text(review: &Review, currency: &Currency) -> String {
    let mut text = String::new();
    for (label, figure) in ties(review, currency).concat() {
        let _ = writeln!(text, "  {label:<58}{figure:>14}");
    }
    let _ = writeln!(text, "\n{}", wrapped(WHEN_COUNTED, 0));
    text
}
