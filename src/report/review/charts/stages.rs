//! Where the hours went.

use super::in_hours;
use crate::chart::{AmountStyle, BarRow, Bars, Figure, Fill, Heading, Row, Series, Sign};
use crate::quantity::millionths::Minutes;
use crate::report::review::stages::stage_name;
use crate::report::words::{capitalised, hours, percent, period_in_words};
use crate::review::Review;
use crate::review::hours_by::share;

/// Charts the hours by stage of the orders handed over, most first; waiting apart.
#[must_use]
pub(crate) fn hours_by_stage(review: &Review) -> Bars {
    let total = Minutes(review.stages.iter().map(|(_, minutes)| minutes.0).sum());
    let label = |minutes: Minutes| Figure::new(format!("{} h", hours(minutes)));
    let stage = |(stage, minutes): &(Option<String>, Minutes)| BarRow {
        row: Row {
            name: stage_name(stage.as_deref()),
            figures: vec![label(*minutes), Figure::new(percent(share(*minutes, total)))],
            ..Row::default()
        },
        parts: vec![(0, in_hours(*minutes))],
        ..BarRow::default()
    };
    let waiting = (review.rack_minutes != Minutes::ZERO).then(|| BarRow {
        row: Row {
            group: Some("waiting, not work".to_owned()),
            name: "rack time".to_owned(),
            note: "waiting, never paid".to_owned(),
            figures: vec![label(review.rack_minutes)],
        },
        parts: vec![(1, in_hours(review.rack_minutes))],
        ..BarRow::default()
    });
    Bars {
        heading: Heading {
            title: finding(review, total),
            subtitle: format!("Hours for the orders handed over, yours and helpers', {}", period_in_words(review.period)),
        },
        axis: "hours of work".to_owned(),
        amounts: AmountStyle::counted(" h", 0),
        series: [Fill::Plain, Fill::Waiting].map(|fill| Series::new(Sign::Bar(fill), "")).into(),
        columns: ["hours", "share"].map(str::to_owned).into(),
        rows: review.stages.iter().map(stage).chain(waiting).collect(),
        ..Bars::default()
    }
}

/// A stage as what is done in it: `decorating`; one that is no verb as it is.
fn doing(stage: &str) -> String {
    const DOING: [(&str, &str); 10] = [
        ("plan", "planning"),
        ("mix", "mixing"),
        ("roll", "rolling"),
        ("bake", "baking"),
        ("tint", "tinting"),
        ("decorate", "decorating"),
        ("dry", "drying"),
        ("pack", "packing"),
        ("deliver", "delivering"),
        ("clean", "cleaning"),
    ];
    DOING.iter().find(|(verb, _)| *verb == stage).map_or(stage, |(_, doing)| doing).to_owned()
}

fn finding(review: &Review, total: Minutes) -> String {
    match review.stages.iter().find(|(stage, _)| stage.is_some()) {
        Some((stage, minutes)) => {
            let share = percent(share(*minutes, total));
            format!("{} took {share} of the {} hours of work", capitalised(&doing(&stage_name(stage.as_deref()))), hours(total))
        }
        None if total != Minutes::ZERO => format!("{} hours of work, no stage written", hours(total)),
        None => "No hours are known".to_owned(),
    }
}
