//! How long a piece takes: minutes a piece learned from the logs, and all other minutes of the season spread over its
//! pieces, grams, colours and orders, so that they add up to the season's.
//!
//! Estimates, in floats: what money is made of is rounded to the millionth of a minute where it leaves this file.

use super::lines::{Line, Stages};
use crate::costing::Costed;
use crate::costing::lines::LineKind;
use crate::costing::minutes_each::{MinutesEach, MinutesFrom};
use crate::ids::{Design, Id, IdVec, Order};
use crate::minutes::Draw;
use crate::minutes::learned::Shares;
use crate::minutes::model::count;
use crate::minutes::observed::{Observed, usual_colours, whole};
use crate::shop::Shop;
use std::collections::BTreeMap;

/// Orders whose decorating, or all of whose work, was logged: what is expected of them.
#[derive(Debug, Clone, Default)]
struct Logged {
    orders: f64,
    colours: f64,
    pieces: IdVec<Design, f64>,
    all_pieces: f64,
}

/// The season's work, and what splits it.
#[derive(Debug, Clone, Default)]
pub struct Work {
    /// Orders whose hours are known.
    pub orders: f64,
    /// Their colours.
    pub colours: f64,
    /// Their pieces.
    pub pieces: f64,
    /// Colours of each; the shop's mean where an order does not say.
    pub colours_each: Vec<f64>,
    /// Minutes of stages shared by orders, colours, pieces and weight.
    by_orders: f64,
    by_colours: f64,
    by_pieces: f64,
    by_weight: f64,
    grams: f64,
    grams_each: IdVec<Design, f64>,
    decorated: Logged,
    noted: Logged,
    logged: f64,
    stand_in: IdVec<Design, StandIn>,
}

/// Whose minutes a design has that was never sold.
#[derive(Debug, Clone)]
enum StandIn {
    /// Its own.
    Itself,
    /// Its card's, as those of the others are to theirs.
    Card(f64),
    /// The mean of these.
    Others(Vec<Id<Design>>),
}

/// What a season's work comes to under one set of learned minutes.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Pace {
    /// Minutes logged ÷ minutes expected.
    pub scale: f64,
    /// Minutes of an order: planning, messages, setting up.
    pub order: f64,
    /// Minutes of a colour.
    pub colour: f64,
    /// Minutes of a piece whatever its design: rolling, baking, packing.
    pub piece: f64,
    /// Minutes of a gram: mixing, icing.
    pub gram: f64,
}

impl Work {
    /// Of a season's cookie lines with known hours.
    #[must_use]
    pub fn of(shop: &Shop, costed: &Costed, lines: &[(Line, Stages)]) -> Self {
        let usual = usual_colours(shop);
        let mut orders: BTreeMap<Id<Order>, Vec<&(Line, Stages)>> = BTreeMap::new();
        for line in lines.iter().filter(|(line, _)| line.kind == LineKind::Cookie && line.known) {
            orders.entry(line.0.order).or_default().push(line);
        }
        let designs = shop.designs.names.len();
        let empty = Logged { pieces: IdVec::filled(0.0, designs), ..Logged::default() };
        let mut work = Self {
            orders: count(orders.len()),
            grams_each: grams_each(costed),
            decorated: empty.clone(),
            noted: empty,
            stand_in: stand_ins(shop, costed),
            ..Self::default()
        };
        for (order, lines) in orders {
            let colours = shop.orders.head(order).colours.map_or(usual, whole);
            work.colours += colours;
            work.colours_each.push(colours);
            let sum = |of: fn(&Stages) -> i128| lines.iter().map(|(_, stages)| minutes(of(stages))).sum::<f64>();
            let (decorating, noted) = (sum(|stages| stages.minutes), sum(|stages| stages.whole));
            work.by_orders += sum(|stages| stages.orders);
            work.by_colours += sum(|stages| stages.colours);
            work.by_pieces += sum(|stages| stages.pieces);
            work.by_weight += sum(|stages| stages.weight);
            // A note on an order whose decorating is logged is other work on the pieces.
            let kind = if decorating > 0.0 {
                work.by_pieces += noted;
                work.logged += decorating;
                Some(&mut work.decorated)
            } else {
                work.logged += noted;
                (noted > 0.0).then_some(&mut work.noted)
            };
            let mut pieces = 0.0;
            if let Some(kind) = kind {
                kind.orders += 1.0;
                kind.colours += colours;
                for (line, _) in &lines {
                    if let Some(design) = line.design {
                        kind.pieces[design] += minutes(line.pieces);
                        kind.all_pieces += minutes(line.pieces);
                    }
                }
            }
            for (line, _) in lines {
                pieces += minutes(line.pieces);
                work.grams += line.design.map_or(0.0, |design| work.grams_each[design]) * minutes(line.pieces);
            }
            work.pieces += pieces;
        }
        work
    }

    /// Under one set of learned minutes.
    #[must_use]
    pub(crate) fn pace(&self, draw: &Draw) -> Pace {
        let expected = |logged: &Logged, shares: Shares| {
            let own: f64 = logged.pieces.pairs().map(|(design, pieces)| pieces * self.own(draw, design)).sum();
            shares.set_up * logged.orders + shares.colour * logged.colours + shares.handling * logged.all_pieces + own
        };
        let fitted = expected(&self.decorated, draw.decorating) + expected(&self.noted, draw.whole);
        let scale = if fitted > 0.0 { self.logged / fitted } else { 0.0 };
        let share =
            |decorating: f64, noted: f64, logged: f64, by: f64| if by > 0.0 { (scale * (decorating + noted) + logged) / by } else { 0.0 };
        let of = |of: fn(&Shares) -> f64, by: fn(&Logged) -> f64| {
            (of(&draw.decorating) * by(&self.decorated), of(&draw.whole) * by(&self.noted))
        };
        let (set_up, colour) = (of(|of| of.set_up, |by| by.orders), of(|of| of.colour, |by| by.colours));
        let handling = of(|of| of.handling, |by| by.all_pieces);
        Pace {
            scale,
            order: share(set_up.0, set_up.1, self.by_orders, self.orders),
            // Without any colours logged their minutes are the order's, below.
            colour: share(colour.0, colour.1, self.by_colours, self.colours),
            piece: share(handling.0, handling.1, self.by_pieces, self.pieces) + self.without_base(),
            gram: share(0.0, 0.0, self.by_weight, self.grams),
        }
    }

    /// Minutes a piece of what has no colours or no weights to be spread by.
    fn without_base(&self) -> f64 {
        let colours = if self.colours > 0.0 { 0.0 } else { self.by_colours };
        let weight = if self.grams > 0.0 { 0.0 } else { self.by_weight };
        if self.pieces > 0.0 { (colours + weight) / self.pieces } else { 0.0 }
    }

    /// Minutes of a piece itself, without its part of the order.
    #[must_use]
    pub(crate) fn of_piece(&self, pace: &Pace, draw: &Draw, design: Id<Design>) -> f64 {
        pace.scale * self.own(draw, design) + pace.piece + pace.gram * self.grams_each[design]
    }

    /// Minutes of a typical order's set-up and colours, a piece.
    #[must_use]
    pub fn of_order(&self, pace: &Pace) -> f64 {
        if self.pieces > 0.0 { (pace.order * self.orders + pace.colour * self.colours) / self.pieces } else { 0.0 }
    }

    /// Minutes of an order whatever its pieces are, with so many colours.
    #[must_use]
    pub(crate) fn of_set_up(pace: &Pace, colours: f64) -> f64 {
        pace.order + pace.colour * colours
    }

    /// Learned minutes of a piece, or those that stand in where it was never sold.
    fn own(&self, draw: &Draw, design: Id<Design>) -> f64 {
        match &self.stand_in[design] {
            StandIn::Itself => draw.each[design],
            StandIn::Card(times) => {
                let (learned, card) = self.stand_in.pairs().fold((0.0, 0.0), |(learned, card), (other, stand_in)| match stand_in {
                    StandIn::Itself => (learned + draw.each[other], card + 1.0),
                    _ => (learned, card),
                });
                if card > 0.0 { times * learned / card } else { 0.0 }
            }
            StandIn::Others(others) => others.iter().map(|other| draw.each[*other]).sum::<f64>() / count(others.len().max(1)),
        }
    }
}

/// Minutes a piece of designs that were timed on their own.
#[must_use]
pub fn timed(shop: &Shop) -> BTreeMap<Id<Design>, f64> {
    let observed = Observed::of(shop);
    let mut sums: BTreeMap<Id<Design>, (f64, f64)> = BTreeMap::new();
    for timed in &observed.observations.timed {
        let sum = sums.entry(observed.designs[timed.design]).or_default();
        *sum = (sum.0 + timed.minutes, sum.1 + timed.pieces);
    }
    sums.into_iter().filter(|(_, (_, pieces))| *pieces > 0.0).map(|(design, (minutes, pieces))| (design, minutes / pieces)).collect()
}

/// The draws of learned minutes, and their mean; where nothing was learned, the card's as the only ones, else those of designs timed
/// on their own and their mean for the others, else equal ones.
#[must_use]
pub fn draws(shop: &Shop, costed: &Costed) -> (Draw, Vec<Draw>) {
    if let Some(Ok(learned)) = &costed.learned {
        return (learned.mean.clone(), learned.draws.clone());
    }
    let each = if costed.minutes_from == MinutesFrom::Equal {
        let timed = timed(shop);
        let mean = if timed.is_empty() { 1.0 } else { timed.values().sum::<f64>() / count(timed.len()) };
        shop.designs.all().map(|design| timed.get(&design).copied().unwrap_or(mean)).collect()
    } else {
        MinutesEach::of_card(shop).decorating.each.iter().map(|minutes| real(*minutes)).collect()
    };
    (Draw { each, ..Draw::default() }, Vec::new())
}

/// Designs sold have minutes of their own; another leans on its card, as far as all have one, else on its tier, else on all.
fn stand_ins(shop: &Shop, costed: &Costed) -> IdVec<Design, StandIn> {
    let Some(Ok(learned)) = &costed.learned else { return IdVec::filled(StandIn::Itself, shop.designs.names.len()) };
    let sold: Vec<Id<Design>> = learned.observed.designs.clone();
    let card = |design: Id<Design>| shop.designs.minutes_each[design].filter(|card| *card > 0).map(|card| real(card.into()));
    let cards: Option<Vec<f64>> = sold.iter().map(|design| card(*design)).collect();
    let mean = cards.filter(|cards| !cards.is_empty()).map(|cards| cards.iter().sum::<f64>() / count(cards.len()));
    let of = |design: Id<Design>| {
        if sold.binary_search(&design).is_ok() {
            return StandIn::Itself;
        }
        if let (Some(card), Some(mean)) = (card(design), mean) {
            return StandIn::Card(card / mean);
        }
        let tier = shop.designs.tier[design];
        let same_tier: Vec<Id<Design>> = sold.iter().copied().filter(|other| tier.is_some() && shop.designs.tier[*other] == tier).collect();
        StandIn::Others(if same_tier.is_empty() { sold.clone() } else { same_tier })
    };
    shop.designs.all().map(of).collect()
}

/// Grams of a piece; a design without rows has the plain mean of the others.
fn grams_each(costed: &Costed) -> IdVec<Design, f64> {
    let known: Vec<f64> = costed.bill.grams.iter().flatten().map(|grams| real(grams.0)).collect();
    let mean = known.iter().sum::<f64>() / count(known.len().max(1));
    costed.bill.grams.iter().map(|grams| grams.map_or(mean, |grams| real(grams.0))).collect()
}

/// Millionths as a real.
fn minutes(millionths: i128) -> f64 {
    real(millionths) / 1e6
}

/// A whole number as a real.
#[expect(clippy::cast_precision_loss, reason = "an estimate needs no more than 53 bits")]
pub(super) fn real(number: i128) -> f64 {
    number as f64
}
