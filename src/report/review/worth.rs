//! What is worth doing this month, in words.

use super::lacks::amount;
use crate::quantity::millionths::{MILLION, Money};
use crate::reading::problem::printable;
use crate::report::figures::{Currency, counted};
use crate::review::Review;
use crate::review::worth_doing::Worth;

/// A sentence or two for each, what to do first.
#[must_use]
pub fn worth_doing(review: &Review, currency: &Currency) -> Vec<String> {
    review.worth_doing.iter().map(|worth| sentence(worth, currency)).collect()
}

fn sentence(worth: &Worth, currency: &Currency) -> String {
    match worth {
        Worth::Raise { design } => {
            let (row, name) = (&design.row, printable(&design.row.key));
            let fair = row.fair_price.map_or_else(String::new, |fair| currency.at_least(fair));
            let pieces = counted(row.known.pieces, "piece", "pieces");
            let short = row
                .known
                .surplus()
                .map_or_else(String::new, |surplus| format!("; it was {} short over {pieces}", currency.whole(-surplus)));
            let save = design.save_minutes.map_or_else(String::new, |minutes| {
                let minutes = i64::try_from((minutes.0 + MILLION - 1) / MILLION).unwrap_or(1);
                format!(" (or find {} a piece to save)", counted(minutes, "minute", "minutes"))
            });
            format!("Ask {fair} for {name} in place of {}{save}{short}.", currency.known(row.known.price()))
        }
        Worth::ChargeSetUp { designs, short, an_order, orders } => {
            let together = if *designs == 1 { "It was" } else { "Together they were" };
            let designs = counted(i64::try_from(*designs).unwrap_or(i64::MAX), "design pays", "designs pay");
            format!(
                "Charge for setting an order up, or raise the smallest order: {designs} too little only because of what an order takes whatever \
                 is in it. {together} {} short, {} for each of the {} that held one.",
                currency.whole(*short),
                currency.at_least(*an_order),
                counted(*orders, "order", "orders")
            )
        }
        Worth::LogHours { orders, revenue } => {
            let shown: Vec<String> = orders.iter().take(8).map(|order| printable(order)).collect();
            let more = if orders.len() > shown.len() { " and others" } else { "" };
            let money = if *revenue > Money::ZERO {
                format!(": what the {} they brought in paid an hour is not known", currency.whole(*revenue))
            } else {
                String::new()
            };
            format!("Log the hours of {}{more}{money}.", in_a_list(&shown))
        }
        Worth::LookAtHours { order, rows, logged, expected } => {
            let rows: Vec<String> = rows.iter().take(8).map(u32::to_string).collect();
            format!(
                "Look at {} of hours.csv: {:.1} hours are logged for {}, and such an order takes {:.1}. Was a timer left on, or another order meant?",
                if rows.len() == 1 { format!("row {}", rows[0]) } else { format!("rows {}", in_a_list(&rows)) },
                logged / 60.0,
                printable(order),
                expected / 60.0
            )
        }
        Worth::LogPurchase { short } => {
            let cost = currency.exact(Money(short.quantity.cost));
            format!(
                "Log a purchase of {}, or count it: {} more was used than bought, costed at {cost}.",
                printable(&short.item),
                amount(short)
            )
        }
        Worth::Time { design, pieces, narrowing } => format!(
            "Time {} of {} on their own: of all designs that would narrow most what its prices must be, by about {} over a year's pieces.",
            counted(*pieces, "piece", "pieces"),
            printable(design),
            currency.whole(*narrowing)
        ),
    }
}

/// `A1`, `A1 and A2`, `A1, A2 and A3`.
fn in_a_list(words: &[String]) -> String {
    match words {
        [first @ .., last] if !first.is_empty() => format!("{} and {last}", first.join(", ")),
        words => words.concat(),
    }
}
