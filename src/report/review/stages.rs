//! Hours by stage of the orders handed over.

use crate::quantity::millionths::{MILLION, Minutes, Money};
use crate::reading::problem::printable;
use crate::report::document::{Column, Table};
use crate::report::words::{hours, percent, waiting_in_words};
use crate::review::Review;
use crate::review::hours_by::share;

/// Builds the table of stages, most hours first, with their total; `None` where there are no hours.
#[must_use]
pub fn stages(review: &Review) -> Option<Table> {
    let total: i128 = review.stages.iter().map(|(_, minutes)| minutes.0).sum();
    let mut rows: Vec<Vec<String>> = review
        .stages
        .iter()
        .map(|(stage, minutes)| vec![stage_name(stage.as_deref()), hours(*minutes), percent(share(*minutes, Minutes(total)))])
        .collect();
    if rows.is_empty() {
        return None;
    }
    rows.push(vec!["total".into(), hours(Minutes(total)), percent(Money(MILLION))]);
    Some(Table { columns: vec![Column::name("stage"), Column::figures("hours"), Column::figures("share")], rows, totals: 1 })
}

/// Returns a stage's name, or what stands for none.
#[must_use]
pub(crate) fn stage_name(stage: Option<&str>) -> String {
    stage.map_or_else(|| "no stage written".to_owned(), printable)
}

/// Says how long was waited, beside the table; `None` where there was none.
#[must_use]
pub fn waiting(review: &Review) -> Option<String> {
    (review.rack_minutes != Minutes::ZERO).then(|| waiting_in_words(review.rack_minutes))
}
