//! The answer of a review in two sentences: did the period cover her time, what it paid an hour, what the target needed.

use super::worth::doubt;
use crate::quantity::millionths::{MILLION, Minutes, Money};
use crate::quantity::{Month, Period, ratio};
use crate::reading::problem::printable;
use crate::report::words::{Currency, capitalised, counted, hours, in_letters, period_in_words};
use crate::review::Review;

/// The answer in two sentences; in a third, what makes it doubtful.
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
    let answer = match (review.target, headline.missing) {
        (Some(target), Some(missing)) => {
            let target = currency.short(target);
            let verb = if missing > Money::ZERO { "did not cover" } else { "covered" };
            let rest = match missing {
                missing if missing > Money::ZERO => format!("{target} needed {} more", currency.whole(missing)),
                missing => format!("that is {} over what {target} needed", currency.whole(-missing)),
            };
            format!("{period} {verb} your time. It paid you {paid}; {rest}.")
        }
        _ => format!("{period} paid you {paid}. No wage is aimed at in shop.toml, so whether that covers your time is yours to say."),
    };
    match review.worth_doing.first().and_then(doubt) {
        Some(doubt) => format!("{answer} Take care: {doubt}."),
        None => answer,
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

/// The period at the head of a sentence.
#[must_use]
pub fn name(review: &Review) -> String {
    match (review.period.month(), &review.season) {
        (Some(month), _) => Month::in_words(month),
        (None, Some(season)) => capitalised(&printable(season)),
        (None, None) if review.period == Period::default() => "All time".to_owned(),
        (None, None) => format!("The time {}", period_in_words(review.period)),
    }
}

fn whole_hours(minutes: Minutes) -> String {
    let whole = ratio::divide(minutes.0, 60 * MILLION).unwrap_or_default();
    if whole < 10 { hours(minutes) } else { counted(i64::try_from(whole).unwrap_or_default(), "", "").trim().to_owned() }
}
