//! Charts of the next price list: figures with their labels, ready to be drawn.

use super::words::{Currency, capitalised, percent, period_in_words};
use crate::chart::{AmountStyle, LadderChart, LadderGroup, LadderRow, RaiseChart};
use crate::pricing::next_list::{DesignRow, NextList, TierRow};
use crate::quantity::millionths::{MILLION, Money};
use crate::quantity::ratio::divide;

fn amounts(currency: &Currency) -> AmountStyle {
    AmountStyle { prefix: currency.sign.clone(), suffix: String::new(), decimals: currency.decimals }
}

/// Each design's price now and next beside its fair price, by new tier, lowest first.
#[must_use]
pub fn ladder(list: &NextList, currency: &Currency) -> LadderChart {
    let row = |row: &DesignRow| LadderRow {
        name: row.key.clone(),
        note: String::new(),
        old: row.old_price.decimal(),
        old_label: currency.exact(row.old_price),
        new: row.new_price.decimal(),
        new_label: currency.exact(row.new_price),
        fair: row.fair_price.decimal(),
        interval: row.fair.map(|(low, high)| (low.decimal(), high.decimal())),
        moves: row.moves(),
    };
    let groups = list.tiers.iter().map(|tier| LadderGroup {
        name: tier.tier.clone(),
        rows: list.rows.iter().filter(|design| design.new_tier == tier.tier).map(row).collect(),
    });
    LadderChart {
        title: ladder_finding(list, currency),
        subtitle: format!(
            "List price now and next, and the price that pays {} an hour; the season is {}",
            currency.short(list.target),
            period_in_words(list.season.period)
        ),
        axis: "list price of a piece".to_owned(),
        amounts: amounts(currency),
        groups: groups.collect(),
    }
}

/// How many tiers change price, and which one most.
fn ladder_finding(list: &NextList, currency: &Currency) -> String {
    let change = |tier: &TierRow| tier.old_price.map_or(0, |old| tier.price.0 - old.0);
    let (rise, fall) =
        (list.tiers.iter().filter(|tier| change(tier) > 0).count(), list.tiers.iter().filter(|tier| change(tier) < 0).count());
    let most = list.tiers.iter().max_by_key(|tier| change(tier).abs());
    let from_to = |tier: &TierRow| format!("from {} to {}", currency.known(tier.old_price), currency.exact(tier.price));
    let most_to = |tier: &TierRow| format!("{} most, to {}", tier.tier, currency.exact(tier.price));
    let named = |tier: &TierRow| capitalised(&tier.tier);
    match (most, rise, fall) {
        (Some(tier), 1, 0) => format!("{} must rise {}", named(tier), from_to(tier)),
        (Some(tier), 0, 1) => format!("{} may fall {}", named(tier), from_to(tier)),
        (Some(tier), 1.., 0) => format!("{rise} of {} tiers must rise; {}", list.tiers.len(), most_to(tier)),
        (Some(tier), 0, 1..) => format!("{fall} of {} tiers may fall; {}", list.tiers.len(), most_to(tier)),
        (Some(tier), 1.., 1..) => format!("{rise} of {} tiers must rise, {fall} may fall; {}", list.tiers.len(), most_to(tier)),
        _ if list.tiers.iter().any(|tier| tier.old_price.is_none()) => {
            format!("{} prices would pay {} an hour", list.tiers.len(), currency.short(list.target))
        }
        _ => format!("Today's prices pay {} an hour", currency.short(list.target)),
    }
}

/// What the new prices earn over today's, against the share of orders lost.
#[must_use]
pub fn raise(list: &NextList, currency: &Currency) -> RaiseChart {
    let orders = &list.orders;
    let gain = orders.gain();
    let share = orders.may_lose.for_pay.filter(|share| *share > Money::ZERO);
    let title = match share {
        Some(share) if percent(share) == percent(Money::ZERO) => "The new prices leave you about as much as today's".to_owned(),
        Some(share) => format!("The raise still earns more if you lose up to {} of your orders", percent(share)),
        None if gain < Money::ZERO => format!("The new prices leave you {} less with as many orders", currency.whole(-gain)),
        None if gain > Money::ZERO => "Even at the new prices orders cost more than they bring in".to_owned(),
        None => "The new prices are today's: nothing to gain and nothing at risk".to_owned(),
    };
    // Half as far again as the break-even, in tens.
    let most = share.and_then(|share| u32::try_from(divide(share.0 * 15, MILLION).unwrap_or(10)).ok()).map_or(40, |tens| 10 * (tens + 1));
    RaiseChart {
        title,
        subtitle: format!(
            "What you earn beyond today's prices, on the orders of {}, overhead unchanged",
            period_in_words(list.season.period)
        ),
        across: "share of orders lost".to_owned(),
        up: "more or less than at today's prices, over the season".to_owned(),
        amounts: amounts(currency),
        gain: gain.decimal(),
        lost_all: -orders.before.decimal(),
        most: most.clamp(20, 100),
        break_even: share.map_or_else(String::new, |share| format!("{} lost: as much money as now", percent(share))),
    }
}
