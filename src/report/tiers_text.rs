//! The next price list as a person reads it: the list and what it would have paid first, then what it rests on.

use super::figures::{Currency, UNKNOWN, capitalised, counted, hours, percent, period_in_words};
use super::layout::{aligned, wrapped};
use crate::costing::minutes_each::MinutesFrom;
use crate::pricing::next_list::{DesignRow, NextList, TierRow, Wanted};
use crate::pricing::order_size::Smallest;
use crate::pricing::raise::Share;
use crate::quantity::millionths::{MILLION, Minutes, Money};
use crate::quantity::ratio::{divide, multiply_divide};
use crate::quantity::{Percent, Period};
use crate::reading::problem::printable;
use std::fmt::Write;

/// All of it.
#[must_use]
pub fn tiers_text(list: &NextList, wanted: &Wanted, currency: &Currency) -> String {
    let mut text = format!("{}\n\n", wrapped(&answer(list, wanted, currency), 0));
    section(&mut text, "The list", &tiers(list, currency));
    section(&mut text, "Design by design, cheapest to make first", &designs(list, currency));
    section(&mut text, "What a fair price is made of, a piece", &made_of(list, currency));
    section(&mut text, "What a raise puts at risk", &risk(list, currency));
    section(&mut text, "What would do instead, at today's prices", &instead(list, currency));
    section(&mut text, "What this rests on", &rests_on(list, wanted, currency));
    text.push_str(&caution());
    text
}

fn section(text: &mut String, heading: &str, body: &str) {
    if !body.is_empty() {
        let _ = writeln!(text, "{heading}\n\n{body}");
    }
}

/// The list in a sentence, and what it would have paid.
fn answer(list: &NextList, wanted: &Wanted, currency: &Currency) -> String {
    let target = short(currency, list.target);
    let prices: Vec<String> = list
        .tiers
        .iter()
        .map(|tier| {
            let (name, price) = (printable(&tier.tier), currency.exact(tier.price));
            match tier.old_price {
                Some(old) if old == tier.price => format!("{name} stays {price}"),
                Some(old) => format!("{name} {} to {price}", currency.exact(old)),
                None => format!("{name} {price}"),
            }
        })
        .collect();
    let short_tiers: Vec<&TierRow> = list.tiers.iter().filter(|tier| tier.short > Money::ZERO).collect();
    let reach = if short_tiers.is_empty() {
        format!("So that each tier pays {target} an hour")
    } else {
        let rise = wanted.max_rise.map_or_else(String::new, |rise| format!(" within a rise of {rise}"));
        format!("As near to {target} an hour as can be had{rise}")
    };
    let mut text = format!("{reach}: {}.", prices.join(", "));
    let season = orders_of(list.season.period);
    let (before, after) = (&list.all_in.before, &list.all_in.after);
    if let (Some(was), Some(would)) = (before.wage(), after.wage()) {
        let _ = write!(
            text,
            " The orders {season} would have paid you {} an hour in place of {}: {} in place of {}, all hours and costs counted.",
            currency.exact(would),
            currency.exact(was),
            currency.whole(after.owner_pay),
            currency.whole(before.owner_pay),
        );
    }
    for tier in short_tiers {
        let _ = write!(
            text,
            " {} still falls {} short of it over such a season: {} a piece.",
            capitalised(&printable(&tier.tier)),
            currency.whole(tier.short),
            currency.exact(tier.short.each_of(tier.pieces).unwrap_or_default()),
        );
    }
    let moved: Vec<String> = list
        .rows
        .iter()
        .filter(|row| row.moves())
        .map(|row| {
            format!(
                "{} from {} to {}",
                printable(&row.key),
                printable(row.old_tier.as_deref().unwrap_or_default()),
                printable(&row.new_tier)
            )
        })
        .collect();
    if !moved.is_empty() {
        let _ = write!(text, " Designs that move: {}.", moved.join(", "));
    }
    if !list.gone.is_empty() {
        let _ = write!(text, " No more needed: {}.", list.gone.iter().map(|name| printable(name)).collect::<Vec<_>>().join(", "));
    }
    text
}

fn tiers(list: &NextList, currency: &Currency) -> String {
    let estimated = list.tiers.iter().any(|tier| tier.range.is_some());
    let chance = format!("reaches\n{}", short(currency, list.target));
    let mut headings = vec!["tier", "pieces", "price\nnow", "next\nprice", "fair\nprice", "pays\nan hour"];
    headings.extend(estimated.then_some(["could\nbe", chance.as_str()]).into_iter().flatten());
    headings.extend(["may lose,\nfor pay", "may lose,\nfor wage"]);
    let cells = |tier: &TierRow| {
        let mut cells = vec![
            printable(&tier.tier),
            tier.pieces.to_string(),
            currency.known(tier.old_price),
            currency.exact(tier.price),
            currency.exact(tier.fair_price),
            currency.known(tier.wage),
        ];
        if estimated {
            cells.push(tier.range.map_or_else(String::new, |(low, high)| currency.range(low, high)));
            cells.push(tier.chance.map_or_else(String::new, chance_in_words));
        }
        cells.extend([lose(tier.may_lose.for_pay), lose(tier.may_lose.for_wage)]);
        cells
    };
    let mut rows: Vec<Vec<String>> = list.tiers.iter().map(cells).collect();
    let pieces: i64 = list.tiers.iter().map(|tier| tier.pieces).sum();
    let mut total = vec![String::new(); headings.len()];
    (total[0], total[1]) = ("total".to_owned(), pieces.to_string());
    rows.push(total);
    let mut text = aligned(&headings, &rows, 1);
    let note = if estimated {
        "Pays is the best estimate; what it could be is what your logs fit, nine times in ten. "
    } else {
        "Minutes a piece are your own guesses or equal ones, so no range can be given. "
    };
    let _ = writeln!(
        text,
        "\n{}",
        wrapped(
            &format!(
                "{note}May lose: the share of a tier's pieces that may go before its new price leaves you less money than today's would, or less an hour (what goes frees its hours)."
            ),
            0
        )
    );
    text
}

fn designs(list: &NextList, currency: &Currency) -> String {
    let estimated = list.rows.iter().any(|row| row.fair.is_some());
    let chance = format!("reaches\n{}", short(currency, list.target));
    let mut headings = vec!["design", "tier", "pieces", "price\nnow", "next\nprice", "fair\nprice"];
    headings.extend(estimated.then_some("your logs\nfit"));
    headings.push("pays\nan hour");
    headings.extend(estimated.then_some(chance.as_str()));
    let cells = |row: &DesignRow| {
        let tier = if row.moves() { format!("→ {}", printable(&row.new_tier)) } else { printable(&row.new_tier) };
        let mut cells = vec![
            printable(&row.key),
            tier,
            row.pieces.to_string(),
            currency.exact(row.old_price),
            currency.exact(row.new_price),
            currency.exact(row.fair_price),
        ];
        if estimated {
            cells.push(row.fair.map_or_else(String::new, |(low, high)| format!("{}–{}", currency.exact(low), bare(currency, high))));
        }
        cells.push(currency.known(row.wage));
        if estimated {
            cells.push(row.chance.map_or_else(String::new, chance_in_words));
        }
        cells
    };
    let rows: Vec<Vec<String>> = list.rows.iter().map(cells).collect();
    let mut text = aligned(&headings, &rows, 0);
    if !list.unsold.is_empty() {
        let named: Vec<String> = list
            .unsold
            .iter()
            .map(|design| match (&design.old_tier, &design.new_tier) {
                (old, Some(new)) if old.as_ref() != Some(new) => format!("{} (to {})", printable(&design.key), printable(new)),
                _ => printable(&design.key),
            })
            .collect();
        let _ = writeln!(text, "\n{}", wrapped(&format!("Not sold in this time, priced with their tier: {}.", named.join(", ")), 0));
    }
    text
}

/// Elements down, tiers across, so that a column adds up to the fair price.
fn made_of(list: &NextList, currency: &Currency) -> String {
    let time = |minutes: Minutes| list.target.per_hour_for(minutes).unwrap_or_default();
    let element = |of: &dyn Fn(&TierRow) -> Money| -> Vec<Money> { list.tiers.iter().map(of).collect() };
    let off_list = |tier: &TierRow| tier.fair_price - tier.piece.cost() - time(tier.piece.minutes());
    let elements: Vec<(String, Vec<Money>)> = vec![
        ("materials".into(), element(&|tier| tier.piece.materials)),
        ("box, fixed fees".into(), element(&|tier| tier.piece.of_order)),
        ("helper pay".into(), element(&|tier| tier.piece.helper_pay)),
        ("overhead".into(), element(&|tier| tier.piece.overhead)),
        ("your time on it".into(), element(&|tier| time(tier.piece.own_minutes))),
        ("set-up, colours".into(), element(&|tier| time(tier.piece.set_up_minutes))),
        ("unexplained".into(), element(&|tier| tier.piece.unassigned + time(tier.piece.unassigned_minutes))),
        ("discounts, fees".into(), element(&off_list)),
    ];
    let names: Vec<String> = list.tiers.iter().map(|tier| printable(&tier.tier)).collect();
    let headings: Vec<&str> = std::iter::once("").chain(names.iter().map(String::as_str)).collect();
    let line = |label: &str, amounts: Vec<Money>| {
        std::iter::once(label.to_owned()).chain(amounts.into_iter().map(|amount| currency.exact(amount))).collect::<Vec<String>>()
    };
    let mut rows: Vec<Vec<String>> = elements
        .into_iter()
        .filter(|(_, amounts)| amounts.iter().any(|amount| *amount != Money::ZERO))
        .map(|(label, amounts)| line(&label, amounts))
        .collect();
    rows.push(line("fair price", element(&|tier| tier.fair_price)));
    let minutes = list.tiers.iter().map(|tier| tenths(tier.piece.own_minutes + tier.piece.set_up_minutes));
    let mut text = aligned(&headings, &rows, 1);
    let minutes: Vec<String> = minutes.zip(&names).map(|(minutes, name)| format!("{name} {minutes}")).collect();
    let notes = format!(
        "Materials with their spares; your time, and that of set-up and colours, at {} an hour; unexplained are the hours and costs that no order \
         explains; discounts and percentage fees are what a price on the list must be above what is left of it. Your minutes a piece, set-up and \
         all: {}.",
        short(currency, list.target),
        minutes.join(", ")
    );
    let _ = writeln!(text, "\n{}", wrapped(&notes, 0));
    text
}

fn risk(list: &NextList, currency: &Currency) -> String {
    let orders = &list.orders;
    let Some(for_pay) = orders.may_lose.for_pay.filter(|_| orders.after != orders.before) else { return String::new() };
    let raise = orders.after - orders.before;
    let mut text = if raise < Money::ZERO {
        format!(
            "With as many orders the new prices leave you {} less than today's; {} more orders would make up for it.",
            currency.whole(-raise),
            percent(-for_pay)
        )
    } else {
        let wage = match orders.may_lose.for_wage {
            Some(share) if share >= Money(MILLION) => {
                " In what an hour pays you could lose nearly all of them, for lost orders free their hours.".to_owned()
            }
            Some(share) => format!(" In what an hour pays you could lose {}: lost orders free their hours.", percent(share)),
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
        let _ = write!(text, " With a tenth fewer hours for pieces, give up {}: they leave least for an hour.", fewer.join(", "));
    }
    if let Some(leverage) = orders.leverage {
        let tenth = divide(leverage.0 * 10, MILLION).unwrap_or_default();
        let _ = write!(text, " At the new prices each tenth of your orders is worth {tenth} % of your pay, since overhead stays.");
    }
    format!("{}\n", wrapped(&text, 0))
}

fn instead(list: &NextList, currency: &Currency) -> String {
    let instead = &list.instead;
    let mut text = String::new();
    let mut line = |line: String| {
        let _ = writeln!(text, "{}", indented(&line));
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
                // Past three times what it costs it is no charge for colours any more.
                let much = if charge.each.0 > 3 * instead.colour_cost.0 { ": more than customers would take for a colour" } else { "" };
                line(format!(
                    "a charge of {} for each colour beyond {}, all tiers together (a colour costs you {}){much}",
                    currency.at_least(charge.each),
                    charge.beyond,
                    currency.exact(instead.colour_cost)
                ));
            }
        }
    }
    line(match instead.smallest {
        Smallest::From { pieces, .. } => format!(
            "a minimum: at today's prices and mix an order pays {} from {} on",
            short(currency, list.target),
            counted(pieces, "piece", "pieces")
        ),
        Smallest::Never => {
            format!("a minimum: at today's prices no order, however large, pays {} on your usual mix", short(currency, list.target))
        }
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

fn mean_pieces(list: &NextList) -> String {
    divide(i128::from(list.season.pieces), i128::from(list.season.orders)).map_or_else(|_| UNKNOWN.to_owned(), |mean| mean.to_string())
}

fn rests_on(list: &NextList, wanted: &Wanted, currency: &Currency) -> String {
    let season = &list.season;
    let mut text = String::new();
    let mut line = |line: String| {
        let _ = writeln!(text, "{}", indented(&line));
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
        "a typical order: {} pieces; {} minutes of set-up{each}; {} for its box and fixed fees",
        mean_pieces(list),
        tenths(order),
        currency.exact(season.order_cost)
    ));
    let an_hour = |money: Money| money.an_hour(season.rates.hands_on).map_or_else(|| UNKNOWN.to_owned(), |rate| currency.exact(rate));
    line(format!("overhead: {} for each hour of work, as last season", an_hour(season.rates.overhead)));
    if season.rates.helper_pay > Money::ZERO {
        let helped = season.rates.hands_on - season.rates.owner;
        let share = multiply_divide(helped.0, MILLION, season.rates.hands_on.0).unwrap_or_default();
        line(format!("helpers: they do {} of the work, as last season, at their own rates", percent(Money(share))));
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
    let of_list = multiply_divide(season.comes_in.numerator, MILLION, season.comes_in.divisor).unwrap_or_default();
    let kept = multiply_divide(season.kept.numerator, MILLION, season.kept.divisor).unwrap_or_default();
    line(format!(
        "of what the list says {} came in (discounts, set prices, pieces given away, prices by hand), and {} were left after percentage fees",
        percent(Money(of_list)),
        percent(Money(kept))
    ));
    line("materials at the last prices you paid; deliveries are priced apart, and kept deposits are not counted on".to_owned());
    text
}

/// A line set in by two columns, its further lines by four.
fn indented(line: &str) -> String {
    wrapped(&format!("··{line}"), 4).replacen("··", "  ", 1)
}

/// A period in whole months where it is of such: `November 2025 to October 2026`.
#[must_use]
pub fn months_in_words(period: Period) -> String {
    match (period.from, period.to) {
        (Some(from), Some(to)) if from == from.month().first() && to == to.month().last() && from.month() != to.month() => {
            format!("{} to {}", from.month().in_words(), to.month().in_words())
        }
        (None, None) => "all of your logs".to_owned(),
        _ => period_in_words(period),
    }
}

/// Of orders: `of October 2026`, `in your logs`, `handed over from 2026-09-01`.
#[must_use]
pub fn orders_of(period: Period) -> String {
    match (period.from, period.to) {
        (None, None) => "in your logs".to_owned(),
        (Some(_), Some(_)) if period.month().is_some() || months_in_words(period) != period_in_words(period) => {
            format!("of {}", months_in_words(period))
        }
        (Some(from), Some(to)) => format!("handed over from {from} to {to}"),
        _ => format!("handed over {}", period_in_words(period)),
    }
}

/// The usual short caution.
#[must_use]
pub fn caution() -> String {
    let text = "Worked out from your own logs, for seasons like the last: how many customers a raise costs nobody knows. The hourly wage is before \
         your own taxes. Not tax, legal or accounting advice.";
    format!("{}\n", wrapped(text, 0))
}

/// A chance as a person reads it: never quite certain.
#[must_use]
pub fn chance_in_words(chance: Share) -> String {
    match divide(chance.0 * 100, MILLION).unwrap_or_default() {
        0 => "under 1 %".to_owned(),
        100 => "over 99 %".to_owned(),
        share => format!("{share} %"),
    }
}

/// What may be lost; where it is negative, what must be gained.
fn lose(share: Option<Share>) -> String {
    match share {
        None => UNKNOWN.to_owned(),
        Some(share) if share < Money::ZERO => format!("+{} needed", percent(-share)),
        Some(share) => percent(share),
    }
}

/// `$20` where it is whole, else `$20.50`.
#[must_use]
pub fn short(currency: &Currency, money: Money) -> String {
    if money.0 % MILLION == 0 { currency.whole(money) } else { currency.exact(money) }
}

/// An amount without its currency.
fn bare(currency: &Currency, money: Money) -> String {
    currency.exact(money).replacen(&currency.sign, "", 1)
}

/// Minutes with one decimal.
#[must_use]
pub fn tenths(minutes: Minutes) -> String {
    let tenths = divide(minutes.0, 100_000).unwrap_or_default();
    format!("{}{}.{}", if tenths < 0 { "−" } else { "" }, tenths.abs() / 10, tenths.abs() % 10)
}

/// The same, rounded up: so much and not a tenth less.
fn tenths_up(minutes: Minutes) -> String {
    tenths(Minutes((minutes.0 + 99_999).div_euclid(100_000) * 100_000))
}

/// Colours with a decimal where they are not whole: `5 colours`, `4.6 colours`, `1 colour`.
#[must_use]
pub fn colours(count: Money) -> String {
    match (count.0 % MILLION, count.0 / MILLION) {
        (0, 1) => "1 colour".to_owned(),
        (0, whole) => format!("{whole} colours"),
        _ => format!("{} colours", tenths(Minutes(count.0))),
    }
}

#[expect(clippy::cast_possible_truncation, reason = "a ratio near one")]
fn percent_of(scale: f64) -> i64 {
    (scale * 1000.0).round() as i64 * 100_000
}
