//! Charts of the next price list: figures with their labels, ready to be drawn.

use super::words::{Currency, capitalised, percent, period_in_words};
use crate::chart::{
    AmountStyle, BarRow, Bars, Corner, Dimension, Figure, Heading, Line, LineLook, Measure, Point, Row, Scatter, Series, Sign, Tone,
};
use crate::pricing::next_list::{DesignRow, NextList, TierRow};
use crate::quantity::millionths::{MILLION, Money};
use crate::quantity::ratio::divide;
use rust_decimal::Decimal;

fn amounts(currency: &Currency) -> AmountStyle {
    AmountStyle { prefix: currency.sign.clone(), suffix: String::new(), decimals: currency.decimals }
}

/// Charts each design's price now and next beside its fair price, by new tier, lowest first.
#[must_use]
pub fn ladder(list: &NextList, currency: &Currency) -> Bars {
    let row = |row: &DesignRow, group: Option<String>| {
        let next = Figure::new(currency.exact(row.new_price));
        let next = if row.moves() { next.with("moves", Tone::Bad) } else { next };
        BarRow {
            row: Row { group, name: row.key.clone(), figures: vec![Figure::new(currency.exact(row.old_price)), next], ..Row::default() },
            points: [row.old_price, row.new_price, row.fair_price].map(Money::decimal).into_iter().enumerate().collect(),
            range: row.fair.map(|(low, high)| (low.decimal(), high.decimal())),
            ..BarRow::default()
        }
    };
    let in_tier = |tier: &TierRow| {
        let designs = list.rows.iter().filter(|design| design.new_tier == tier.tier).enumerate();
        designs.map(|(at, design)| row(design, (at == 0).then(|| tier.tier.clone()))).collect::<Vec<_>>()
    };
    Bars {
        heading: Heading {
            title: ladder_finding(list, currency),
            subtitle: format!(
                "List price now and next, and the price that pays {} an hour; the season is {}",
                currency.short(list.target),
                period_in_words(list.season.period)
            ),
        },
        axis: "list price of a piece".to_owned(),
        amounts: amounts(currency),
        series: vec![Series::new(Sign::Guess, "price now"), Series::new(Sign::Pin, "next price"), Series::said(Sign::Dot, "fair price")],
        range: "range (90 %)".to_owned(),
        columns: ["now", "next"].map(str::to_owned).into(),
        rows: list.tiers.iter().flat_map(in_tier).collect(),
        ..Bars::default()
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

/// Charts what the new prices earn over today's, against the share of orders lost.
#[must_use]
pub fn raise(list: &NextList, currency: &Currency) -> Scatter {
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
    let across = Dimension {
        title: "share of orders lost".to_owned(),
        measure: Measure::Amounts(AmountStyle::counted(" %", 0)),
        reach: Some(Decimal::from(most.clamp(20, 100))),
    };
    let lost_all = -orders.before;
    let break_even = share.map(|share| format!("{} lost: as much money as now", percent(share)));
    let sentence = if gain == Money::ZERO {
        "No order lost or won makes these prices better or worse than now."
    } else {
        "Fewer orders would leave more: each costs more than it brings in."
    };
    let (none, all) = (format!("none lost: {}", currency.exact(gain)), format!("all lost: {}", currency.exact(lost_all)));
    Scatter {
        heading: Heading {
            title,
            subtitle: format!(
                "What you earn beyond today's prices, on the orders of {}, overhead unchanged",
                period_in_words(list.season.period)
            ),
        },
        across,
        up: Dimension {
            title: "more or less than at today's prices, over the season".to_owned(),
            measure: Measure::Amounts(amounts(currency)),
            reach: None,
        },
        corners: vec![
            (Corner::TopRight, "more than now".to_owned(), Tone::Good),
            (Corner::BottomLeft, "less than now".to_owned(), Tone::Bad),
        ],
        sentence: sentence.to_owned(),
        said: [none].into_iter().chain(break_even.clone()).chain([all]).collect(),
        ..falling(gain.decimal(), lost_all.decimal(), break_even)
    }
}

/// The line from what the raise earns with no order lost to what is earned less with all of them lost, and where it
/// crosses zero; nothing where no order lost makes it worse.
fn falling(gain: Decimal, lost_all: Decimal, break_even: Option<String>) -> Scatter {
    if gain.is_zero() || lost_all >= gain {
        return Scatter::default();
    }
    let slope = (lost_all - gain) / Decimal::ONE_HUNDRED;
    let even = -gain / slope;
    Scatter {
        series: vec![Series::new(Sign::Dot, "")],
        points: break_even.iter().map(|_| Point { across: even, ..Point::default() }).collect(),
        uprights: break_even.into_iter().map(|words| (even, words)).collect(),
        lines: vec![Line { base: gain, slope, words: String::new(), look: LineLook::Main }],
        ..Scatter::default()
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_line_crosses_zero_at_the_break_even() {
        let of = |gain: i64, lost_all: i64| falling(gain.into(), lost_all.into(), Some("even".to_owned()));
        let chart = of(2000, -8000);
        let at = |share: i64| chart.lines[0].base + chart.lines[0].slope * Decimal::from(share);
        assert_eq!((at(0), at(20), at(100)), (Decimal::from(2000), Decimal::ZERO, Decimal::from(-8000)));
        assert_eq!((chart.points[0].across, chart.uprights[0].0), (Decimal::from(20), Decimal::from(20)));
        assert!(of(0, -10).lines.is_empty() && of(-50, -10).lines.is_empty(), "no order lost makes it worse");
        let unmarked = falling(Decimal::from(-5), Decimal::from(-10), None);
        assert!(unmarked.points.is_empty() && unmarked.lines.len() == 1);
    }
}
