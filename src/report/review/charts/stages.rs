//! Where the hours went.

use super::in_hours;
use crate::chart::{StageBar, StagesChart, WaitingBar};
use crate::quantity::millionths::Minutes;
use crate::report::review::stages::{share, stage_name};
use crate::report::words::{capitalised, hours, percent, period_in_words};
use crate::review::Review;
use rust_decimal::Decimal;

/// Hours by stage of the orders handed over, most first; waiting apart.
#[must_use]
pub fn hours_by_stage(review: &Review) -> StagesChart {
    let total = Minutes(review.stages.iter().map(|(_, minutes)| minutes.0).sum());
    let bar = |(stage, minutes): &(String, Minutes)| StageBar {
        name: stage_name(stage),
        note: String::new(),
        own: in_hours(*minutes),
        helpers: Decimal::ZERO,
        label: format!("{} h", hours(*minutes)),
        share: percent(share(*minutes, total)),
    };
    let waiting = (review.rack_minutes != Minutes::ZERO).then(|| WaitingBar {
        name: "rack time".to_owned(),
        note: "waiting, never paid".to_owned(),
        hours: in_hours(review.rack_minutes),
        label: format!("{} h", hours(review.rack_minutes)),
    });
    StagesChart {
        title: finding(review, total),
        subtitle: format!("Hours for the orders handed over, yours and helpers', {}", period_in_words(review.period)),
        axis: "hours of work".to_owned(),
        stages: review.stages.iter().map(bar).collect(),
        waiting: waiting.into_iter().collect(),
    }
}

fn finding(review: &Review, total: Minutes) -> String {
    match review.stages.iter().find(|(stage, _)| !stage.is_empty()) {
        Some((stage, minutes)) => {
            let share = percent(share(*minutes, total));
            format!("{} took {share} of the {} hours of work", capitalised(&stage_name(stage)), hours(total))
        }
        None if total != Minutes::ZERO => format!("{} hours of work, no stage written", hours(total)),
        None => "No hours are known".to_owned(),
    }
}
