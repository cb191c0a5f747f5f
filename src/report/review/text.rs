//! The review as a person reads it on a terminal: the answer first, then what it rests on.

use super::answer::answer;
use super::cautions::{CAUTION, CAUTIONS, WHEN_COUNTED};
use super::decisions::Decisions;
use super::lacks::lacks;
use super::stages::{stages, waiting};
use super::tiers::{few_orders, of_the_range, tiers};
use super::ties::ties;
use super::worth::worth_doing;
use crate::report::bridge_text;
use crate::report::layout::{item, wrapped};
use crate::report::screen::Screen;
use crate::report::words::{Currency, capitalised, counted};
use crate::review::Review;
use std::fmt::Write;

/// The review: its first screen, or all of it.
#[must_use]
pub fn review_text(review: &Review, currency: &Currency, warnings: usize, screen: Screen) -> String {
    let mut text = format!("{}\n\n", wrapped(&answer(review, currency), 0));
    section(&mut text, "Hourly pay by tier, set-up included", &tiers_in_text(review, currency, screen));
    section(&mut text, "Designs that do not pay, largest shortfall first", &designs(&Decisions::of(review, currency), screen));
    section(&mut text, "Worth doing", &listed(worth_doing(review, currency)));
    if screen.is_whole() {
        section(&mut text, "Hours by stage, yours and helpers', for the orders handed over", &stages_in_text(review));
        if let Some(bridge) = &review.bridge {
            section(&mut text, &bridge_text::heading(bridge), &bridge_text::body(bridge, currency));
        }
        section(&mut text, "Check it against your own books", &ties_in_text(review, currency));
        section(&mut text, "What your logs lack", &listed(lacks(review, currency, warnings)));
        let _ = writeln!(text, "{}", wrapped(CAUTIONS, 0));
    } else {
        if let Some(bridge) = &review.bridge {
            let _ = writeln!(text, "{}\n", wrapped(&capitalised(&bridge_text::finding(bridge, currency)), 0));
        }
        let _ = writeln!(text, "{CAUTION}");
    }
    text
}

/// What `--details` adds to the first screen.
pub const MORE: &str = "hours by stage, what changed and why, sums to check, and what your logs lack";

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

fn tiers_in_text(review: &Review, currency: &Currency, screen: Screen) -> String {
    let mut text = tiers(review, currency).text();
    let notes = of_the_range(review, screen).into_iter().chain(few_orders(review));
    for note in notes {
        let _ = writeln!(text, "\n{}", wrapped(&note, 0));
    }
    text
}

/// Designs named one by one on a first screen.
const FIRST_DESIGNS: usize = 3;

fn designs(decisions: &Decisions, screen: Screen) -> String {
    let shown = if screen.is_whole() { decisions.own.len() } else { decisions.own.len().min(FIRST_DESIGNS) };
    let own = decisions.own[..shown].iter().map(|decision| {
        let mend = if decision.mend.is_empty() { String::new() } else { format!(" {}", decision.mend) };
        format!("{}: {}, {}.{mend}", decision.design, decision.verdict, decision.reason)
    });
    let hidden = i64::try_from(decisions.own.len() - shown).unwrap_or(i64::MAX);
    let others = (hidden > 0).then(|| format!("{} under --details.", counted(hidden, "more design", "more designs")));
    let text = listed(own.chain(others).chain(decisions.set_up_too_dear.clone()).chain(decisions.too_close.clone()));
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
