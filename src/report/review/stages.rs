//! Hours by stage of the orders handed over.

use crate::quantity::millionths::{MILLION, Minutes, Money};
use crate::quantity::ratio;
use crate::reading::problem::printable;
use crate::report::layout::Table;
use crate::report::words::{hours, percent};
use crate::review::Review;

/// Stages, most hours first, with their total; `None` where there are no hours.
#[must_use]
pub fn stages(review: &Review) -> Option<Table> {
    let total: i128 = review.stages.iter().map(|(_, minutes)| minutes.0).sum();
    let mut rows: Vec<Vec<String>> = review
        .stages
        .iter()
        .map(|(stage, minutes)| vec![stage_name(stage), hours(*minutes), percent(share(*minutes, Minutes(total)))])
        .collect();
    if rows.is_empty() {
        return None;
    }
    rows.push(vec!["total".into(), hours(Minutes(total)), "100 %".into()]);
    Some(Table { headings: vec!["stage", "hours", "share"], rows, totals: 1 })
}

/// A stage's name; what stands for none.
#[must_use]
pub fn stage_name(stage: &str) -> String {
    if stage.is_empty() { "no stage written".to_owned() } else { printable(stage) }
}

/// A part of a whole, in millionths.
#[must_use]
pub fn share(part: Minutes, whole: Minutes) -> Money {
    Money(ratio::multiply_divide(part.0, MILLION, whole.0.max(1)).unwrap_or_default())
}

/// Waiting, beside the table; `None` where there was none.
#[must_use]
pub fn waiting(review: &Review) -> Option<String> {
    (review.rack_minutes != Minutes::ZERO)
        .then(|| format!("Not in the table: {} hours of waiting, which are never paid.", hours(review.rack_minutes)))
}
