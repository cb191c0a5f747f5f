//! Priors: builds the model of a shop's observations.
//!
//! Nothing here has a unit: scales are shares of the median order's minutes. They were chosen by simulation. With
//! set-up logged separately, 0.05 of the median order biased the smallest tier down by up to a tenth, 0.025 by a
//! twentieth. With half the guesses on the card 30 % low, one level per tier (the bias of its guesses) cut the error
//! at 30 orders from 25 % to 21 %.

use super::model::{Centre, Model, Normal, count};
use super::observations::{Covers, Observations};
use std::collections::BTreeMap;

/// Indices of the parts among the unknowns.
#[derive(Debug, Clone, Default, PartialEq)]
pub struct Parts {
    /// Set-up of decorating an order (of the whole order if nothing is logged by stage).
    pub set_up: usize,
    /// Minutes per colour, if colours are logged with decorating.
    pub colour: Option<usize>,
    /// Parts of orders logged whole, if others are logged by stage.
    pub whole: Option<Whole>,
}

/// Parts of orders logged whole.
#[derive(Debug, Clone, Default, PartialEq)]
pub struct Whole {
    /// Set-up.
    pub set_up: usize,
    /// Minutes per colour.
    pub colour: Option<usize>,
    /// Minutes per piece of all work except decorating.
    pub handling: usize,
}

/// A model with its unit and its parts.
#[derive(Debug)]
pub struct Prepared {
    /// The model.
    pub model: Model,
    /// Minutes of one unit of the model: the median observation.
    pub unit: f64,
    /// Its parts.
    pub parts: Parts,
}

/// Builds the model of observations; `None` if there are none.
#[must_use]
pub fn prepare(observations: &Observations, trend: bool) -> Option<Prepared> {
    let has = |covers: Covers| observations.groups.iter().any(|group| group.covers == covers);
    let both = has(Covers::Decorating) && has(Covers::Whole);
    // If nothing is logged by stage, only whole orders are left, and a piece's minutes are all of its time.
    let first = if has(Covers::Decorating) { Covers::Decorating } else { Covers::Whole };
    let of = |covers: Covers| Sizes::of(observations, covers);
    let sizes = of(first).or_else(|| Sizes::of_timed(observations))?;
    // Minutes are divided by the unit first, so that five times the minutes are the same numbers to the bit.
    let unit = sizes.median;
    let mut model = Model {
        spread: Some(design_spread(observations)),
        noise: Some(Normal { mean: libm::log(0.25), spread: 0.4 }),
        trend: trend.then_some(Normal { mean: 0.0, spread: 0.3 }),
        ..Model::default()
    };
    let mut part = |scale: f64| {
        model.parts.push(scale);
        model.parts.len() - 1
    };
    let mut parts = Parts { set_up: part(if observations.set_up_separate { 0.025 } else { 0.15 }), ..Parts::default() };
    if sizes.colours > 0.0 && !observations.colours_separate {
        parts.colour = Some(part(0.15 / sizes.colours));
    }
    if let Some(sizes) = of(Covers::Whole).filter(|_| both) {
        parts.whole = Some(Whole {
            set_up: part(0.3 * (sizes.median / unit)),
            colour: (sizes.colours > 0.0).then(|| part(0.15 * (sizes.median / unit) / sizes.colours)),
            handling: part(0.3 * (sizes.minutes / unit) / sizes.pieces),
        });
    }
    let typical = libm::log(0.8 * (sizes.minutes / unit) / sizes.pieces);
    levels(observations, typical, unit, &mut model);
    observe(observations, &parts, first, unit, &mut model);
    Some(Prepared { model, unit, parts })
}

/// Chooses the prior spread of designs within a level. Without tiers all designs share one level, and a factor of
/// five lies between quick and slow: with 0.3 the error of twelve designs at 15 orders was 53 %, with 0.8 it is 40 %.
fn design_spread(observations: &Observations) -> Normal {
    let has_tiers = observations.designs.iter().any(|design| design.tier.is_some());
    if has_tiers { Normal { mean: libm::log(0.3), spread: 0.4 } } else { Normal { mean: libm::log(0.8), spread: 0.5 } }
}

/// Adds the levels, one per tier. If any design of the tier has a guess, the level is the bias of its guesses, and a
/// design without one is centred on the mean of the others' logs; otherwise it is the tier's own log minutes.
fn levels(observations: &Observations, typical: f64, unit: f64, model: &mut Model) {
    let mut guesses: BTreeMap<Option<usize>, Vec<f64>> = BTreeMap::new();
    for design in &observations.designs {
        guesses.entry(design.tier).or_default().extend(design.card.map(|card| libm::log(card / unit)));
    }
    let mut levels = BTreeMap::new();
    for (level, (tier, guesses)) in guesses.iter().enumerate() {
        let mean = guesses.iter().sum::<f64>() / count(guesses.len().max(1));
        levels.insert(*tier, (level, mean));
        let own = Normal { mean: typical, spread: 1.25 };
        model.levels.push(if guesses.is_empty() { own } else { Normal { mean: 0.0, spread: 0.4 } });
    }
    for design in &observations.designs {
        let (level, mean) = levels[&design.tier];
        model.designs.push(Centre { level, offset: design.card.map_or(mean, |card| libm::log(card / unit)) });
    }
}

fn observe(observations: &Observations, parts: &Parts, first: Covers, unit: f64, model: &mut Model) {
    let middle = observations.middle();
    let designs_from = model.parts.len();
    for group in &observations.groups {
        let pieces: f64 = group.pieces.iter().map(|(_, pieces)| pieces).sum();
        let mut terms = match &parts.whole {
            Some(whole) if group.covers != first => {
                let mut terms = vec![(whole.set_up, group.orders), (whole.handling, pieces)];
                terms.extend(whole.colour.map(|colour| (colour, group.colours)));
                terms
            }
            _ => std::iter::once((parts.set_up, group.orders)).chain(parts.colour.map(|colour| (colour, group.colours))).collect(),
        };
        terms.extend(group.pieces.iter().map(|(design, pieces)| (designs_from + design, *pieces)));
        model.observe(group.minutes / unit, group.years - middle, terms);
    }
    for timed in &observations.timed {
        model.observe(timed.minutes / unit, timed.years - middle, [(designs_from + timed.design, timed.pieces)]);
    }
}

/// Typical sizes of orders.
struct Sizes {
    /// Median minutes per order.
    median: f64,
    /// Minutes of all orders.
    minutes: f64,
    /// Pieces of all orders.
    pieces: f64,
    /// Mean colours per order.
    colours: f64,
}

impl Sizes {
    fn of(observations: &Observations, covers: Covers) -> Option<Self> {
        let groups = || observations.groups.iter().filter(|group| group.covers == covers);
        let mut each: Vec<f64> = groups().map(|group| group.minutes / group.orders).collect();
        let orders: f64 = groups().map(|group| group.orders).sum();
        (!each.is_empty()).then(|| Self {
            median: super::diagnostics::quantile(&mut each, 0.5),
            minutes: groups().map(|group| group.minutes).sum(),
            pieces: groups().flat_map(|group| &group.pieces).map(|(_, pieces)| pieces).sum(),
            colours: groups().map(|group| group.colours).sum::<f64>() / orders,
        })
    }

    /// Sizes of timed designs, if nothing else was observed.
    fn of_timed(observations: &Observations) -> Option<Self> {
        let mut each: Vec<f64> = observations.timed.iter().map(|timed| timed.minutes).collect();
        (!each.is_empty()).then(|| Self {
            median: super::diagnostics::quantile(&mut each, 0.5),
            minutes: observations.timed.iter().map(|timed| timed.minutes).sum(),
            pieces: observations.timed.iter().map(|timed| timed.pieces).sum(),
            colours: 0.0,
        })
    }
}
