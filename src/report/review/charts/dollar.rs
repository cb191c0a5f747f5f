//! Where what came in went: from revenue, cost by cost, to what was left for her time, and whether that was enough.

use super::amounts;
use crate::chart::{DollarChart, DollarKind, DollarStep, Standing};
use crate::quantity::millionths::{MILLION, Money};
use crate::quantity::ratio;
use crate::report::words::{Currency, percent, period_in_words};
use crate::review::Review;
use crate::review::row::Known;

/// The costs, in the order of [`Known::costs`].
const COSTS: [&str; 5] = ["ingredients", "packaging", "card fees", "helpers", "overhead"];

/// Of the orders with hours, what no order explains counted in; of all orders where no hours are known.
#[must_use]
pub fn where_it_went(review: &Review, currency: &Currency) -> DollarChart {
    let row = &review.designs.all_in;
    let is_known = review.headline.wage.is_some();
    let known = if is_known {
        row.known
    } else {
        Known { revenue: row.revenue, costs: [row.ingredients, row.packaging, row.fees, row.helper_pay, row.overhead], ..Known::default() }
    };
    let left = known.owner_pay();
    let step = |name: &str, note: String, amount: Money, kind| DollarStep {
        name: name.to_owned(),
        note,
        amount: amount.decimal(),
        label: currency.exact(amount),
        share: share_of(Money(amount.0.abs()), known.revenue),
        kind,
    };
    let mut steps = vec![step("revenue", String::new(), known.revenue, DollarKind::Sum)];
    let costs = COSTS.iter().zip(known.costs).enumerate().filter(|(_, (_, cost))| *cost != Money::ZERO);
    steps.extend(costs.map(|(element, (name, cost))| step(name, String::new(), -cost, DollarKind::Cost(element))));
    steps.push(step("left for your time", String::new(), left, DollarKind::Sum));
    let (time, surplus) = (known.time.filter(|_| is_known), known.surplus().filter(|_| is_known));
    if let (Some(time), Some(surplus), Some(target)) = (time, surplus, review.target) {
        let note = format!("{} hours at {}", crate::report::words::hours(known.owner_minutes), currency.exact(target));
        steps.push(step("your time", note, -time, DollarKind::Cost(COSTS.len())));
        let (name, judged) =
            if surplus < Money::ZERO { ("below your target", Standing::Short) } else { ("above your target", Standing::Over) };
        steps.push(step(name, String::new(), surplus, DollarKind::Outcome(judged)));
    }
    let which = if is_known && review.headline.orders_unknown > 0 { ", orders with hours" } else { "" };
    DollarChart {
        title: finding(left, time, known.revenue),
        subtitle: format!("Where your revenue went, {}{which}", period_in_words(review.period)),
        axis: "from what came in to what was left".to_owned(),
        share_heading: "share".to_owned(),
        amounts: amounts(currency),
        steps,
    }
}

fn finding(left: Money, time: Option<Money>, revenue: Money) -> String {
    let left_share = share_of(left, revenue);
    if left_share.is_empty() {
        return "There was no revenue".to_owned();
    }
    match time {
        Some(time) if time > left => format!("{left_share} of what came in was left for your time; it needed {}", share_of(time, revenue)),
        Some(time) => format!("{left_share} of what came in was left for your time, and {} was enough", share_of(time, revenue)),
        None => format!("{left_share} of what came in was left for your time"),
    }
}

/// A part of the revenue; blank where there was none.
fn share_of(part: Money, revenue: Money) -> String {
    if revenue <= Money::ZERO {
        return String::new();
    }
    percent(Money(ratio::multiply_divide(part.0, MILLION, revenue.0).unwrap_or_default()))
}
