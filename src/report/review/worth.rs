//! What is worth doing this month, in words.

use crate::minutes::observations::Covers;
use crate::quantity::millionths::{MILLION, Money};
use crate::reading::problem::printable;
use crate::report::words::{Currency, amount, and, capitalised, counted, during, lacking_by_name, number, over, spell};
use crate::review::Review;
use crate::review::advice::Advice;
use crate::review::below_target::BelowTarget;
use crate::review::list_prices::ListPrice;

/// Writes a sentence or two for each thing worth doing, what to do first.
#[must_use]
pub fn worth_doing(review: &Review, currency: &Currency) -> Vec<String> {
    review.advice.iter().map(|advice| sentence(advice, review, currency)).collect()
}

fn sentence(advice: &Advice, review: &Review, currency: &Currency) -> String {
    match advice {
        Advice::Raise { design } => {
            let (known, name) = (&design.row.known, printable(&design.row.key));
            let price = |of: fn(ListPrice) -> Money| currency.known(design.list_price.map(of));
            let target = review.target.map_or_else(|| "your target".to_owned(), |target| format!("{} an hour", currency.short(target)));
            let pieces = counted(known.pieces, "piece", "pieces");
            let with_hours = if known.pieces == design.row.pieces { "" } else { " with hours" };
            let save = minutes_to_save(design).map_or_else(String::new, |minutes| format!(", or save {minutes} a piece"));
            let when = capitalised(&during(review.period));
            let short = known
                .surplus()
                .map_or_else(String::new, |surplus| format!(" {when} its {pieces}{with_hours} fell {} short.", currency.size(surplus)));
            format!(
                "Ask {} for {name} instead of {} to earn {target} {}{save}.{short}",
                price(|price| price.fair),
                price(|price| price.now),
                over(review.priced_over)
            )
        }
        Advice::ChargeSetUp { designs, short, an_order, orders } => {
            let (designs, they) = match designs {
                1 => ("one design".to_owned(), "It"),
                many => (format!("{} designs", number(*many)), "Together they"),
            };
            let or_minimum = if review.can_minimum_cover_set_up() { ", or raise your smallest order" } else { "" };
            format!(
                "Charge for set-up{or_minimum}: in {} only the set-up{} keeps pay too low. \
                 {they} fell {} short; {} more on {} would have covered it.",
                designs,
                set_up_stages(review),
                currency.size(*short),
                currency.at_least(*an_order),
                if *orders == 1 {
                    "the order that held it".to_owned()
                } else {
                    format!("each of the {} orders with any of them", number(*orders))
                }
            )
        }
        Advice::LogAnyHours => {
            "Log your hours by order: without any, hourly pay is not known. Five minutes after each session is enough.".to_owned()
        }
        Advice::LogHours { lacking } => {
            let revenue = &lacking.iter().map(|of| of.revenue).sum::<Money>();
            let their = if lacking.len() == 1 { "its" } else { "their" };
            let money = if *revenue > Money::ZERO {
                format!(": without them {their} {} has no hourly pay", currency.whole(*revenue))
            } else {
                String::new()
            };
            format!("Log {}{money}.", and(&lacking_by_name(lacking)))
        }
        Advice::LookAtHours { order, rows, .. } => {
            let row = rows.first().map_or_else(|| "your hours".to_owned(), |row| format!("row {} of your hours", number(*row)));
            let doubt = doubt(advice).unwrap_or_default();
            format!("Check {row} first: {doubt}. Was a timer left on, or is another order meant than {}?", printable(order))
        }
        Advice::LogPurchase { short } => {
            let cost = currency.exact(Money(short.quantity.cost));
            format!(
                "Log a purchase of {}, or count it: you used {} more than you bought, costed at {cost}.",
                printable(&short.item),
                amount(short)
            )
        }
        Advice::Time { design, pieces, narrowing } => format!(
            "Time {} of {} in a batch of their own: that should take about {} a year of error out of your prices.",
            counted(*pieces, "piece", "pieces"),
            printable(design),
            currency.whole(*narrowing)
        ),
    }
}

/// The stages of set-up that she logs, in brackets.
fn set_up_stages(review: &Review) -> String {
    const STAGES: [(&str, &str); 3] = [("plan", "planning"), ("tint", "tinting"), ("pack", "packing")];
    let is_logged = |stage: &str| review.stages.iter().any(|(logged, _)| logged.as_deref() == Some(stage));
    let named: Vec<&str> = STAGES.into_iter().filter(|(stage, _)| is_logged(stage)).map(|(_, said)| said).collect();
    if named.is_empty() { String::new() } else { format!(" ({})", named.join(", ")) }
}

/// Writes the whole minutes a piece that would have to be saved in place of a raise.
#[must_use]
pub(crate) fn minutes_to_save(design: &BelowTarget) -> Option<String> {
    let minutes = i64::try_from((design.save_minutes?.0 + MILLION - 1) / MILLION).ok()?;
    Some(counted(minutes, "minute", "minutes"))
}

/// Says why an order's hours are doubted: `15 h 42 min of decorating are logged for B25, where 3 h 06 min are usual`.
#[must_use]
pub fn doubt(worth: &Advice) -> Option<String> {
    let Advice::LookAtHours { order, covers, logged, expected, .. } = worth else { return None };
    let of = if *covers == Covers::Decorating { " of decorating" } else { "" };
    Some(format!("{}{of} are logged for {}, where {} are usual", spell(*logged), printable(order), spell(*expected)))
}
