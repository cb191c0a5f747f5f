//! Where what came in went: from revenue, cost by cost, to what was left for her time, and whether that was enough.

use super::{Standing, amounts};
use crate::chart::{Figure, Fill, Heading, Row, Step, Steps};
use crate::costing::figure::Figure as Cost;
use crate::quantity::millionths::{MILLION, Money};
use crate::quantity::ratio;
use crate::report::words::{Currency, percent, period_in_words};
use crate::review::Review;
use crate::review::row::Known;

/// Charts where the revenue went: of the orders with hours, what no order explains counted in; of all orders where no hours are known.
#[must_use]
pub(crate) fn where_it_went(review: &Review, currency: &Currency) -> Steps {
    let row = &review.designs.all_in;
    let is_known = review.headline.wage.is_some();
    let known = if is_known { row.known } else { Known { revenue: row.revenue, costs: row.figures.costs(), ..Known::default() } };
    let left = known.owner_pay();
    let step = |name: &str, amount: Money, fill: Fill| {
        let figures = vec![Figure::new(currency.exact(amount)), Figure::new(share_of(Money(amount.0.abs()), known.revenue))];
        Step {
            row: Row { name: name.to_owned(), figures, ..Row::default() },
            amount: amount.decimal(),
            is_sum: !matches!(fill, Fill::Part(_)),
            fill,
        }
    };
    let mut steps = vec![step("revenue", known.revenue, Fill::Sum)];
    let costs = Cost::COSTS.into_iter().zip(known.costs).enumerate().filter(|(_, (_, amount))| *amount != Money::ZERO);
    steps.extend(costs.map(|(element, (cost, amount))| step(&cost_in_words(cost), -amount, Fill::Part(element))));
    steps.push(step("left for your time", left, Fill::Sum));
    let (time, surplus) = (known.time.filter(|_| is_known), known.surplus().filter(|_| is_known));
    if let (Some(time), Some(surplus), Some(target)) = (time, surplus, review.target) {
        let mut needed = step("your time", -time, Fill::Part(Cost::COSTS.len()));
        needed.row.note = format!("{} hours at {}", crate::report::words::hours(known.owner_minutes), currency.exact(target));
        let standing = if surplus < Money::ZERO { Standing::Below } else { Standing::Above };
        let mut outcome = step(standing.in_key(review.target), surplus, standing.fill());
        outcome.row.figures[0].word = standing.word().map(|(word, tone)| (word.to_owned(), tone));
        steps.extend([needed, outcome]);
    }
    let which = if is_known && !review.headline.lacking.is_empty() { ", orders with hours" } else { "" };
    Steps {
        heading: Heading {
            title: finding(left, time, known.revenue),
            subtitle: format!("Where your revenue went, {}{which}", period_in_words(review.period)),
        },
        axis: "from what came in to what was left".to_owned(),
        amounts: amounts(currency),
        columns: ["amount", "share"].map(str::to_owned).into(),
        steps,
        ..Steps::default()
    }
}

fn cost_in_words(cost: Cost) -> String {
    match cost {
        Cost::Fees => "card fees".to_owned(),
        Cost::HelperPay => "helpers".to_owned(),
        _ => cost.in_words(),
    }
}

fn finding(left: Money, time: Option<Money>, revenue: Money) -> String {
    let left_share = share_of(left, revenue);
    if left_share.is_empty() {
        return "There was no revenue".to_owned();
    }
    match time {
        Some(time) if time > left => {
            format!("{left_share} of what came in was left for your time; your target needed {}", share_of(time, revenue))
        }
        Some(time) => format!("{left_share} of what came in was left for your time; your target needed only {}", share_of(time, revenue)),
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
