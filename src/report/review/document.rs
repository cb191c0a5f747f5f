//! The review as a person reads it: the answer first, then what it rests on.

use super::answer::answer;
use super::cautions::{CAUTION, CAUTIONS, WHEN_COUNTED};
use super::decisions::Decisions;
use super::lacks::lacks;
use super::stages::{stages, waiting};
use super::tiers::tiers_with_notes;
use super::ties::ties;
use super::worth::worth_doing;
use crate::report::bridge_document::change;
use crate::report::bridge_text;
use crate::report::document::{Block, Content, Document};
use crate::report::words::{Currency, capitalised, counted};
use crate::review::Review;
use crate::review::decisions::NAMED_FIRST;

/// The last line of a review that is kept as a file.
pub(crate) const LAST_LINE: &str = "Written by fairdozen. The next review in this folder replaces this file.\n";

/// Builds the review; `warnings` is how many there are in all logs.
#[must_use]
pub fn review_document(review: &Review, currency: &Currency, warnings: usize) -> Document {
    let mut document = Document::new("hours by stage, what changed and why, sums to check, and what your logs lack");
    document.push(Block::paragraph(answer(review, currency)));
    document.section("Hourly pay by tier, set-up included");
    document.extend(tiers_with_notes(review, currency));
    document.section("Designs that most need a decision, largest shortfall first");
    document.extend(designs(&Decisions::of(review, currency)));
    document.section("Worth doing");
    document.push(Block::list(worth_doing(review, currency)));

    document.section("Hours by stage, yours and helpers', for the orders handed over");
    if let Some(stages) = stages(review) {
        document.push(Block::from(stages).under_details());
        document.extend(waiting(review).map(|waiting| Block::paragraph(waiting).under_details()));
    }
    if let Some(bridge) = &review.bridge {
        document.section(bridge_text::heading(bridge));
        document.extend(change(bridge, currency).into_iter().map(Block::under_details));
        document.section("");
        document.push(Block::paragraph(capitalised(&bridge_text::finding(bridge, currency))).on_first());
    }
    document.section("");
    document.extend(bridge_text::nothing_before(review).map(Block::paragraph));
    document.section("Check it against your own books");
    document.push(Block::from(Content::Figures(ties(review, currency).concat())).under_details());
    document.push(Block::paragraph(WHEN_COUNTED).under_details());
    document.section("What your logs lack");
    document.push(Block::list(lacks(review, currency, warnings)).under_details());
    document.section("");
    document.push(Block::paragraph(CAUTION).on_first());
    document.push(Block::paragraph(CAUTIONS).under_details());
    document
}

fn designs(decisions: &Decisions) -> Vec<Block> {
    let own = decisions.own.iter().map(|decision| {
        let mend = if decision.mend.is_empty() { String::new() } else { format!(" {}", decision.mend) };
        format!("{}: {}, {}.{mend}", decision.design, decision.verdict, decision.reason)
    });
    let own: Vec<String> = own.collect();
    let shown = own.len().min(NAMED_FIRST);
    let hidden = own.len() - shown;
    let others = (hidden > 0).then(|| format!("{} under --details.", counted(hidden, "more design", "more designs")));
    let together = || [&decisions.set_up_too_dear, &decisions.too_close].into_iter().flatten().cloned();
    let first: Vec<String> = own[..shown].iter().cloned().chain(others).chain(together()).collect();
    let whole: Vec<String> = own.into_iter().chain(together()).collect();
    if whole.is_empty() && decisions.judged {
        return vec![Block::list(vec!["None: every design with known hours pays.".to_owned()])];
    }
    vec![Block::list(first).on_first(), Block::list(whole).under_details()]
}
