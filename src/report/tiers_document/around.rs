//! What stands around the next list: what a raise puts at risk, what would help instead, what it is all based on.

use crate::costing::minutes_each::MinutesFrom;
use crate::pricing::change::Change;
use crate::pricing::cost::Smallest;
use crate::pricing::next_list::{NextList, Wanted};
use crate::quantity::Factor;
use crate::quantity::Percent;
use crate::quantity::millionths::{MILLION, Minutes, Money};
use crate::quantity::ratio::divide;
use crate::reading::problem::printable;
use crate::report::document::Block;
use crate::report::words::{Currency, UNKNOWN, and, colours, counted, hours, percent, period_in_words, price_change, tenths};
use std::fmt::Write;

pub(super) fn risk(list: &NextList, currency: &Currency) -> Vec<Block> {
    let orders = &list.orders;
    let Some(for_pay) = orders.may_lose.for_pay.filter(|_| orders.after != orders.before) else { return Vec::new() };
    let raise = orders.gain();
    let text = if percent(for_pay) == percent(Money::ZERO) || percent(-for_pay) == percent(Money::ZERO) {
        "With as many orders the new prices leave you about as much as today's.".to_owned()
    } else if raise < Money::ZERO {
        format!(
            "With as many orders the new prices leave you {} less than today's; {} more orders would make up for it.",
            currency.whole(-raise),
            percent(-for_pay)
        )
    } else {
        let wage = match orders.may_lose.for_wage {
            Some(share) if share >= Money(MILLION) => {
                " However many you lost, your hour would pay no less than today, because lost orders free their hours.".to_owned()
            }
            Some(share) => {
                format!(" Your hour pays less than today only from {} lost, because lost orders free their hours.", percent(share))
            }
            None => String::new(),
        };
        format!(
            "With as many orders the new prices leave you {} more than today's. You can lose {} of your orders before you earn less than \
             today.{wage}",
            currency.whole(raise),
            percent(for_pay)
        )
    };
    let dropped = list.dropped_first().map(|(tier, pieces)| format!("{} of {}", counted(pieces, "piece", "pieces"), printable(&tier.tier)));
    let dropped: Vec<String> = dropped.collect();
    let mut whole = text.clone();
    if !dropped.is_empty() {
        let _ = write!(whole, " If you had a tenth fewer hours for pieces, drop {} first: they leave least per hour.", and(&dropped));
    }
    if let Some(leverage) = orders.leverage {
        let tenth = divide(leverage.0 * 10, MILLION).unwrap_or_default();
        let _ = write!(whole, " At the new prices a tenth more or fewer orders moves your pay by {tenth} %, because overhead stays.");
    }
    vec![Block::paragraph(text).on_first(), Block::paragraph(whole).under_details()]
}

pub(super) fn instead(list: &NextList, currency: &Currency) -> Vec<String> {
    let instead = &list.alternatives;
    let mut lines = Vec::new();
    let mut line = |line: String| lines.push(line);
    for tier in &instead.tiers {
        let saving = match tier.save_minutes {
            Some(minutes) => format!("{} minutes less on each piece would close it", tenths_up(minutes)),
            None => "no saving of minutes would be enough".to_owned(),
        };
        line(format!("{}: {} short over the season; {saving}", printable(&tier.tier), currency.whole(tier.short)));
    }
    if instead.short > Money::ZERO {
        let usual = Money::from_estimate(list.season.colours).map_or_else(String::new, colours);
        if instead.colour_minutes > Minutes::ZERO {
            line(match instead.drop_colours {
                Some(drop) => format!(
                    "fewer colours: {} less in each order of about {usual} would close it for all tiers together",
                    colours(Money(drop))
                ),
                None => format!(
                    "fewer colours: even one-colour orders would not be enough (you use about {usual}; each takes {} minutes)",
                    tenths(instead.colour_minutes)
                ),
            });
            if let Some(charge) = instead.charge {
                line(format!(
                    "a charge of {} for each colour beyond {} would close it for all tiers together (a colour costs you {})",
                    currency.at_least(charge.each),
                    charge.beyond,
                    currency.exact(instead.colour_cost)
                ));
            }
        }
    }
    if let Some(charge) = instead.set_up_charge {
        line(format!(
            "a set-up charge of {} on each order would close it for all tiers together (a set-up costs you {})",
            currency.at_least(charge),
            currency.exact(instead.set_up_cost)
        ));
    }
    let target = currency.short(list.target);
    line(match instead.smallest {
        Smallest::From { pieces, .. } if list.needs_too_large_orders() => {
            format!(
                "a minimum order would not be enough: at today's prices and mix an order pays {target} an hour only from {} up",
                counted(pieces, "piece", "pieces")
            )
        }
        Smallest::From { pieces, .. } => {
            format!(
                "a minimum order: at today's prices and mix an order pays {target} an hour from {} up",
                counted(pieces, "piece", "pieces")
            )
        }
        Smallest::Never => format!(
            "a minimum order would not be enough: at today's prices no order of your usual mix pays {target} an hour, however large"
        ),
    });
    if let Smallest::From { pieces, .. } = list.smallest {
        line(format!(
            "at the new prices an order pays it from {} up; yours have {} on average",
            counted(pieces, "piece", "pieces"),
            mean_pieces(list)
        ));
    }
    lines
}

/// Pieces of a mean order, to a whole one: `27 pieces`.
fn mean_pieces(list: &NextList) -> String {
    let mean = list.season.mean_pieces().and_then(|mean| divide(mean, MILLION).ok()).and_then(|mean| i64::try_from(mean).ok());
    mean.map_or_else(|| UNKNOWN.to_owned(), |mean| counted(mean, "piece", "pieces"))
}

pub(super) fn based_on(list: &NextList, wanted: &Wanted, changes: &[Change], currency: &Currency) -> Vec<String> {
    let season = &list.season;
    let mut lines = Vec::new();
    let mut line = |line: String| lines.push(line);
    line(format!(
        "the season: {}; {} with known hours, with {} and {} hours of your own work",
        period_in_words(season.period),
        counted(season.orders, "order", "orders"),
        counted(season.pieces, "piece", "pieces"),
        hours(season.rates.owner),
    ));
    line(match season.minutes_from {
        MinutesFrom::Learned => {
            let scale = Percent(percent_of(season.pace.scale));
            format!("minutes per piece: from your logs, times {scale}, because the season's orders took that much of the estimate")
        }
        MinutesFrom::Card => "minutes per piece: your own guesses (minutes_each), scaled to the season's logged minutes".to_owned(),
        MinutesFrom::Equal if season.timed_apart => {
            "minutes per piece: as logged for designs you timed by themselves, their average for the others".to_owned()
        }
        MinutesFrom::Equal => "minutes per piece: the same for every design, because no log tells them apart".to_owned(),
    });
    let order = Minutes::from_estimate(season.pace.order).unwrap_or_default();
    let colour = Minutes::from_estimate(season.pace.colour).unwrap_or_default();
    let each = if colour > Minutes::ZERO {
        format!(" and {} for each of about {}", tenths(colour), Money::from_estimate(season.colours).map_or_else(String::new, colours))
    } else {
        String::new()
    };
    line(format!(
        "a typical order: {}; {} minutes of set-up{each}; {} for its box and fixed fees. Every piece carries an equal share of them; wage and \
         whatif give each order its own",
        mean_pieces(list),
        tenths(order),
        currency.exact(season.order_cost)
    ));
    let before = &list.all_in.before;
    let in_money_only =
        if before.known_pay() == before.owner_pay() { "" } else { "; orders without hours count in the money, not in the hourly pay" };
    // Over a season that began with another list, what was paid is not what today's would have paid.
    let paid = before.wage().map_or_else(String::new, |wage| {
        format!(
            "the orders paid {} an hour, {} in all, at the prices of their days; ",
            currency.exact(wage),
            currency.whole(before.owner_pay())
        )
    });
    line(format!("{paid}that and what they would have paid is with hours and costs not tied to an order{in_money_only}"));
    line(format!("overhead: {} for each hour of work, as last season", currency.known(season.overhead_an_hour())));
    if let Some(helped) = season.helped().filter(|_| season.rates.helper_pay > Money::ZERO) {
        line(format!("helpers: they do {} of the work, as last season, at their own rates", percent(helped)));
    }
    let unassigned = &season.rates.unassigned;
    line(match (wanted.unassigned, unassigned.owner_minutes > Minutes::ZERO || unassigned.cost() > Money::ZERO) {
        (false, _) => "hours and costs not tied to an order are left out; with them your hour pays less than this says".to_owned(),
        (true, true) => format!(
            "not tied to an order: {} hours and {} of costs; prices carry them in proportion to minutes (--without-unassigned leaves them out)",
            hours(unassigned.owner_minutes),
            currency.exact(unassigned.cost())
        ),
        (true, false) => "every hour and cost is tied to an order".to_owned(),
    });
    let share = |of: Option<Factor>| of.and_then(|of| of.share().ok());
    let shown = |of: Option<Factor>| share(of).map_or_else(|| UNKNOWN.to_owned(), percent);
    let is_less = share(season.comes_in()).is_some_and(|share| share < Money(MILLION));
    let rest = if is_less { " (discounts, set prices, gifts and prices by hand took the rest)" } else { "" };
    line(format!("you collected {} of list value{rest} and kept {} after card fees", shown(season.comes_in()), shown(season.kept())));
    let changed: Vec<String> = changes.iter().map(price_change).collect();
    let but = if changed.is_empty() { String::new() } else { format!(", with {}", and(&changed)) };
    line(format!("materials: at the last prices you paid{but}; deliveries are priced separately, and kept deposits are not counted on"));
    lines
}

/// The same, rounded up: so much and not a tenth less.
fn tenths_up(minutes: Minutes) -> String {
    tenths(Minutes((minutes.0 + 99_999).div_euclid(100_000) * 100_000))
}

#[expect(clippy::cast_possible_truncation, reason = "a ratio near one")]
fn percent_of(scale: f64) -> i64 {
    (scale * 1000.0).round() as i64 * 100_000
}
