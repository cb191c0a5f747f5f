//! What stands around the next list: what a raise puts at risk, what would do instead, what it all rests on.

use crate::costing::minutes_each::MinutesFrom;
use crate::pricing::change::{Change, Times};
use crate::pricing::next_list::{NextList, Wanted};
use crate::pricing::order_size::Smallest;
use crate::quantity::Percent;
use crate::quantity::millionths::{MILLION, Minutes, Money};
use crate::quantity::ratio::divide;
use crate::reading::problem::printable;
use crate::report::layout::{item, wrapped};
use crate::report::words::{Currency, UNKNOWN, and, change, colours, counted, hours, months_in_words, percent, tenths};
use std::fmt::Write;

pub(super) fn risk(list: &NextList, currency: &Currency) -> String {
    let orders = &list.orders;
    let Some(for_pay) = orders.may_lose.for_pay.filter(|_| orders.after != orders.before) else { return String::new() };
    let raise = orders.gain();
    let mut text = if percent(for_pay) == percent(Money::ZERO) || percent(-for_pay) == percent(Money::ZERO) {
        "With as many orders the new prices leave you about what today's do.".to_owned()
    } else if raise < Money::ZERO {
        format!(
            "With as many orders the new prices leave you {} less than today's; {} more orders would make up for it.",
            currency.whole(-raise),
            percent(-for_pay)
        )
    } else {
        let wage = match orders.may_lose.for_wage {
            Some(share) if share >= Money(MILLION) => {
                " However many you lost, an hour would pay no less than today: lost orders free their hours.".to_owned()
            }
            Some(share) => {
                format!(" An hour would pay no less than today until you lose {}: lost orders free their hours.", percent(share))
            }
            None => String::new(),
        };
        format!(
            "With as many orders the new prices leave you {} more than today's. You could lose {} of all orders, whole ones, before you have less \
             money than at today's prices.{wage}",
            currency.whole(raise),
            percent(for_pay)
        )
    };
    let fewer: Vec<String> = list
        .tiers
        .iter()
        .filter(|tier| tier.in_fewer_hours < tier.pieces)
        .map(|tier| format!("{} of {}", counted(tier.pieces - tier.in_fewer_hours, "piece", "pieces"), printable(&tier.tier)))
        .collect();
    if !fewer.is_empty() {
        let _ = write!(
            text,
            " If you had a tenth fewer hours for pieces, {} would be the first to give up: that leaves least for an hour.",
            and(&fewer)
        );
    }
    if let Some(leverage) = orders.leverage {
        let tenth = divide(leverage.0 * 10, MILLION).unwrap_or_default();
        let _ = write!(text, " At the new prices each tenth of your orders is worth {tenth} % of your pay, since overhead stays.");
    }
    format!("{}\n", wrapped(&text, 0))
}

pub(super) fn instead(list: &NextList, currency: &Currency) -> String {
    let instead = &list.instead;
    let mut text = String::new();
    let mut line = |line: String| {
        let _ = writeln!(text, "{}", item(&line));
    };
    for tier in &instead.tiers {
        let saving = match tier.save_minutes {
            Some(minutes) => format!("{} minutes less on each piece would do", tenths_up(minutes)),
            None => "no saving of minutes would be enough".to_owned(),
        };
        line(format!("{}: {} short over the season; {saving}", printable(&tier.tier), currency.whole(tier.short)));
    }
    if instead.short > Money::ZERO {
        let usual = Money::from_estimate(list.season.colours).map_or_else(String::new, colours);
        if instead.colour_minutes > Minutes::ZERO {
            line(match instead.drop_colours {
                Some(drop) => format!("fewer colours: {} less in each order of about {usual}, all tiers together", colours(Money(drop))),
                None => format!(
                    "fewer colours: not even an order in one would be enough (you use about {usual}; one takes {} minutes)",
                    tenths(instead.colour_minutes)
                ),
            });
            if let Some(charge) = instead.charge {
                line(format!(
                    "a charge of {} for each colour beyond {}, all tiers together (a colour costs you {})",
                    currency.at_least(charge.each),
                    charge.beyond,
                    currency.exact(instead.colour_cost)
                ));
            }
        }
    }
    if let Some(charge) = instead.set_up_charge {
        line(format!(
            "a charge of {} for the set-up of each order, all tiers together (a set-up costs you {})",
            currency.at_least(charge),
            currency.exact(instead.set_up_cost)
        ));
    }
    let target = currency.short(list.target);
    line(match instead.smallest {
        Smallest::From { pieces, .. } if i128::from(pieces) * MILLION > MOST_MEANS * list.season.mean_pieces() => {
            format!(
                "a minimum would not do: at today's prices and mix an order pays {target} only from {} on",
                counted(pieces, "piece", "pieces")
            )
        }
        Smallest::From { pieces, .. } => {
            format!("a minimum: at today's prices and mix an order pays {target} from {} on", counted(pieces, "piece", "pieces"))
        }
        Smallest::Never => format!("a minimum would not do: at today's prices no order, however large, pays {target} on your usual mix"),
    });
    if let Smallest::From { pieces, .. } = list.smallest {
        line(format!(
            "at the new prices an order pays it from {} on; yours have {} on average",
            counted(pieces, "piece", "pieces"),
            mean_pieces(list)
        ));
    }
    text
}

/// Times the mean order that a minimum may be, to be one.
const MOST_MEANS: i128 = 3;

fn mean_pieces(list: &NextList) -> String {
    divide(list.season.mean_pieces(), MILLION).map_or_else(|_| UNKNOWN.to_owned(), |mean| mean.to_string())
}

pub(super) fn rests_on(list: &NextList, wanted: &Wanted, changes: &[Change], currency: &Currency) -> String {
    let season = &list.season;
    let mut text = String::new();
    let mut line = |line: String| {
        let _ = writeln!(text, "{}", item(&line));
    };
    line(format!(
        "the season: {}; {} with known hours, {} in them, {} hours of your own work on them",
        months_in_words(season.period),
        counted(season.orders, "order", "orders"),
        counted(season.pieces, "piece", "pieces"),
        hours(season.rates.owner),
    ));
    line(match season.minutes_from {
        MinutesFrom::Learned => {
            let scale = Percent(percent_of(season.pace.scale));
            format!(
                "minutes a piece: worked out from your logs, then × {scale}, since that is how the season's logged minutes compare with those worked out"
            )
        }
        MinutesFrom::Card => "minutes a piece: your own guesses on the design card, scaled to the season's logged minutes".to_owned(),
        MinutesFrom::Equal if season.timed_apart => {
            "minutes a piece: of designs you timed by themselves what they took, of the others the mean of those".to_owned()
        }
        MinutesFrom::Equal => "minutes a piece: every design alike, for nothing tells them apart".to_owned(),
    });
    let order = Minutes::from_estimate(season.pace.order).unwrap_or_default();
    let colour = Minutes::from_estimate(season.pace.colour).unwrap_or_default();
    let each = if colour > Minutes::ZERO {
        format!(" and {} for each of about {}", tenths(colour), Money::from_estimate(season.colours).map_or_else(String::new, colours))
    } else {
        String::new()
    };
    line(format!(
        "a typical order: {} pieces; {} minutes of set-up{each}; {} for its box and fixed fees; spread over all pieces alike, and unexplained hours \
         with them, where wage and whatif leave each order its own",
        mean_pieces(list),
        tenths(order),
        currency.exact(season.order_cost)
    ));
    line(format!("overhead: {} for each hour of work, as last season", currency.known(season.overhead_an_hour())));
    if season.rates.helper_pay > Money::ZERO {
        line(format!("helpers: they do {} of the work, as last season, at their own rates", percent(season.helped())));
    }
    let unassigned = &season.rates.unassigned;
    line(match (wanted.unassigned, unassigned.owner_minutes > Minutes::ZERO || unassigned.cost() > Money::ZERO) {
        (false, _) => "hours and costs no order explains are left out: with them an hour pays less than said".to_owned(),
        (true, true) => format!(
            "no order explains {} hours and {} of cost; prices carry them in proportion to minutes (--without-unassigned leaves them out)",
            hours(unassigned.owner_minutes),
            currency.exact(unassigned.cost())
        ),
        (true, false) => "every hour and cost is explained by an order".to_owned(),
    });
    let shown = |times: Times| times.share().map_or_else(|| UNKNOWN.to_owned(), percent);
    line(format!(
        "of what the list says {} came in (discounts, set prices, pieces given away, prices by hand), and {} were left after percentage fees",
        shown(season.comes_in),
        shown(season.kept)
    ));
    let changed: Vec<String> = changes.iter().map(change).collect();
    let but = if changed.is_empty() { String::new() } else { format!(", with {}", and(&changed)) };
    line(format!("materials at the last prices you paid{but}; deliveries are priced apart, and kept deposits are not counted on"));
    text
}

/// The same, rounded up: so much and not a tenth less.
fn tenths_up(minutes: Minutes) -> String {
    tenths(Minutes((minutes.0 + 99_999).div_euclid(100_000) * 100_000))
}

#[expect(clippy::cast_possible_truncation, reason = "a ratio near one")]
fn percent_of(scale: f64) -> i64 {
    (scale * 1000.0).round() as i64 * 100_000
}
