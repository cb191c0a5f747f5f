//! The answer of a review: did the period cover her time, what an hour earned, how far that is from the target.

use super::worth::doubt;
use crate::quantity::millionths::{MILLION, Minutes, Money};
use crate::quantity::ratio;
use crate::reading::problem::printable;
use crate::report::words::{
    Currency, beside_target, capitalised, counted, hours, lacking_in_numbers, nothing_handed_over, number, period_as_noun,
};
use crate::review::Review;
use crate::review::lacking::Lacking;

/// Writes the answer in three sentences; in further ones, which orders it stands on and what makes it doubtful.
#[must_use]
pub fn answer(review: &Review, currency: &Currency) -> String {
    let headline = &review.headline;
    let period = name(review);
    if review.is_empty() {
        return nothing_handed_over(review.period);
    }
    let Some(wage) = headline.wage else {
        let earned = currency.whole(headline.pay_of_all);
        return format!("{period} left you {earned} for your time. Log your hours to see your hourly pay.");
    };
    let hours = whole_hours(headline.minutes);
    let earned = format!("{} an hour ({} for {hours} hours)", currency.exact(wage), currency.whole(headline.pay));
    let mut answer = match (review.target, headline.missing) {
        (Some(target), Some(missing)) => {
            let verb = if missing > Money::ZERO { "did not cover" } else { "covered" };
            format!("{period} {verb} your time. You earned {earned}. {}", beside_target(-missing, target, currency))
        }
        _ => format!("{period} paid you {earned}. Your settings have no target, so whether that covers your time is yours to say."),
    };
    answer.extend(on_which_orders(review, currency).map(|which| format!(" {which}")));
    answer.extend(review.advice.first().and_then(doubt).map(|doubt| format!(" Check first: {doubt}.")));
    answer
}

/// Which orders hourly pay stands on, where some lack hours or a usual stage.
fn on_which_orders(review: &Review, currency: &Currency) -> Option<String> {
    let headline = &review.headline;
    let lacking: Vec<Lacking> = headline.lacking.iter().filter(|of| !of.is_delivery).cloned().collect();
    let their = if lacking.len() == 1 { "its" } else { "their" };
    let usual = headline
        .at_usual_time
        .and_then(|usual| usual.wage)
        .map_or_else(String::new, |wage| format!(" (at {their} usual time it would be {} an hour)", currency.exact(wage)));
    (!lacking.is_empty()).then(|| {
        let orders = counted(headline.orders_known, "order", "orders");
        format!("This is for the {orders} with hours; {}{usual}.", lacking_in_numbers(&lacking))
    })
}

/// Writes the period as it stands at the head of a sentence.
#[must_use]
pub fn name(review: &Review) -> String {
    match (&review.season, review.period.month()) {
        (Some(season), None) => capitalised(&printable(season)),
        _ => capitalised(&period_as_noun(review.period)),
    }
}

fn whole_hours(minutes: Minutes) -> String {
    let whole = ratio::divide(minutes.0, 60 * MILLION).unwrap_or_default();
    if whole < 10 { hours(minutes) } else { number(whole) }
}
