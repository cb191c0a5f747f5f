//! The result of learning: minutes per piece by design, set-up and minutes per colour, with what they rest on.

use super::diagnostics::sorted_quantile;
use super::fit::{Diagnostics, Posterior, fit};
use super::identifiability::{Identifiability, identifiability};
use super::model::{Model, count};
use super::observations::{Covers, Observations};
use super::observed::Observed;
use super::priors::{Parts, Prepared, prepare};
use crate::ids::{Design, Id, IdVec};
use crate::quantity::Day;
use crate::shop::Shop;

/// One posterior draw, in minutes.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Draw {
    /// Decorating: set-up and a colour.
    pub decorating: Shares,
    /// Whole orders: set-up, a colour, and handling a piece.
    pub whole: Shares,
    /// A piece, by design; zero for designs never sold.
    pub each: IdVec<Design, f64>,
    /// Noise: scale of log minutes.
    pub noise: f64,
    /// Trend: change of log minutes per year.
    pub trend: f64,
}

/// Minutes of an entry other than its pieces' own.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub struct Shares {
    /// Per order.
    pub set_up: f64,
    /// Per colour of an order.
    pub colour: f64,
    /// Per piece, of any design.
    pub handling: f64,
}

/// A median with its 90 % interval.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Estimate {
    /// Median of the draws.
    pub median: f64,
    /// Their 5 % quantile.
    pub low: f64,
    /// Their 95 % quantile.
    pub high: f64,
}

impl Estimate {
    /// Computes the estimate of some draws.
    #[must_use]
    pub fn of(mut draws: Vec<f64>) -> Self {
        draws.sort_unstable_by(f64::total_cmp);
        let at = |share| sorted_quantile(&draws, share);
        Self { median: at(0.5), low: at(0.05), high: at(0.95) }
    }
}

/// Minutes learned from a shop's logs.
#[derive(Debug, Clone)]
pub struct Learned {
    /// The observations.
    pub observed: Observed,
    /// Posterior draws.
    pub draws: Vec<Draw>,
    /// Posterior mean, which money uses.
    pub mean: Draw,
    /// Identifiability of each observed design.
    pub identifiability: Vec<Identifiability>,
    /// Whether each observed design is in an order or timing with hours.
    pub seen: Vec<bool>,
    /// Diagnostics of the draws.
    pub diagnostics: Diagnostics,
    /// Whether colours have minutes of their own.
    pub has_colours: bool,
    /// Whether a trend was fitted: it was asked for, or the logs are long enough.
    pub has_trend: bool,
    /// Number of orders learned from.
    pub orders: usize,
}

/// Reasons why nothing was learned.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Unlearned {
    /// No order handed over has hours of its own.
    NothingToLearnFrom,
    /// There are fewer observations than [`LEAST`].
    TooFew(usize),
    /// The draws did not pass their diagnostics.
    Failed(Option<Diagnostics>),
}

/// Fewest observations to learn from: below, there is little but the priors.
pub(crate) const LEAST: usize = 3;
/// Days of logs from which on a trend is fitted: 18 months.
const TREND_DAYS: i32 = 548;

/// Collects a shop's observations and builds their model: all of learning except the fit. A yearly trend is included
/// if it is asked for or the orders span eighteen months.
///
/// # Errors
/// [`Unlearned`] where there is too little to learn from.
pub fn learnable(shop: &Shop, trend: bool) -> Result<(Observed, Prepared), Unlearned> {
    let observed = Observed::of(shop);
    let observations = &observed.observations;
    let seen = observations.groups.len() + observations.timed.len();
    let trend = trend || observed.days.is_some_and(|(first, last): (Day, Day)| last.0 - first.0 >= TREND_DAYS);
    let prepared = prepare(observations, trend).ok_or(Unlearned::NothingToLearnFrom)?;
    if seen < LEAST { Err(Unlearned::TooFew(seen)) } else { Ok((observed, prepared)) }
}

/// Learns a shop's minutes, with a trend as in [`learnable`].
///
/// # Errors
/// [`Unlearned`] where there is too little to learn from or the draws cannot be trusted.
pub fn learn(shop: &Shop, trend: bool) -> Result<Learned, Unlearned> {
    let (observed, prepared) = learnable(shop, trend)?;
    let posterior = fit(&prepared.model).ok_or(Unlearned::Failed(None))?;
    if !posterior.diagnostics.passed {
        return Err(Unlearned::Failed(Some(posterior.diagnostics)));
    }
    Ok(Learned::of(observed, &prepared, &posterior, shop.designs.names.len()))
}

impl Learned {
    fn of(observed: Observed, prepared: &Prepared, posterior: &Posterior, designs: usize) -> Self {
        let draws: Vec<Draw> = posterior.draws.iter().map(|x| draw(prepared, x, &observed.designs, designs)).collect();
        let number = count(posterior.draws.len());
        let size = prepared.model.size();
        let mut seen = vec![false; observed.designs.len()];
        let Observations { groups, timed, .. } = &observed.observations;
        let places = groups.iter().flat_map(|group| &group.pieces).map(|(place, _)| *place);
        for place in places.chain(timed.iter().map(|timed| timed.design)) {
            seen[place] = true;
        }
        let middle: Vec<f64> = (0..size).map(|at| posterior.draws.iter().map(|x| x[at]).sum::<f64>() / number).collect();
        Self {
            mean: mean(&draws),
            identifiability: identifiability(&prepared.model, &middle),
            diagnostics: posterior.diagnostics,
            has_colours: prepared.parts.colour.is_some(),
            has_trend: prepared.model.trend.is_some(),
            orders: observed.observations.groups.iter().map(|group| group.named.len()).sum(),
            draws,
            seen,
            observed,
        }
    }

    /// Whether a design is in any order or timing with hours.
    #[must_use]
    pub fn saw(&self, design: Id<Design>) -> bool {
        self.observed.place(design).is_some_and(|place| self.seen[place])
    }

    /// Estimates the minutes of one piece.
    #[must_use]
    pub fn each(&self, design: Id<Design>) -> Estimate {
        Estimate::of(self.draws.iter().map(|draw| draw.each[design]).collect())
    }

    /// Estimates any figure of the draws.
    #[must_use]
    pub fn estimate(&self, of: impl Fn(&Draw) -> f64) -> Estimate {
        Estimate::of(self.draws.iter().map(of).collect())
    }

    /// Returns a draw's shares for one kind of work.
    #[must_use]
    pub fn shares(draw: &Draw, covers: Covers) -> Shares {
        match covers {
            Covers::Decorating => draw.decorating,
            Covers::Whole => draw.whole,
        }
    }
}

/// Converts a draw from natural coordinates to minutes by design.
fn draw(prepared: &Prepared, x: &[f64], places: &[Id<Design>], designs: usize) -> Draw {
    let Prepared { model, unit, parts } = prepared;
    let unknowns = model.unknowns(x);
    let minutes = |unknown: usize| unknowns[unknown].0 * unit;
    let mut each = IdVec::<Design, f64>::filled(0.0, designs);
    for (place, design) in places.iter().enumerate() {
        each[*design] = minutes(model.parts.len() + place);
    }
    let Parts { set_up, colour, whole } = parts;
    let decorating = Shares { set_up: minutes(*set_up), colour: colour.map_or(0.0, minutes), handling: 0.0 };
    let whole = whole.as_ref().map_or(decorating, |whole| Shares {
        set_up: minutes(whole.set_up),
        colour: whole.colour.map_or(0.0, minutes),
        handling: minutes(whole.handling),
    });
    let trend = model.trend_at().map_or(0.0, |at| x[at]);
    Draw { decorating, whole, each, noise: Model::noise(x), trend }
}

fn mean(draws: &[Draw]) -> Draw {
    let of = |figure: &dyn Fn(&Draw) -> f64| draws.iter().map(figure).sum::<f64>() / count(draws.len());
    let shares = |which: fn(&Draw) -> &Shares| Shares {
        set_up: of(&|draw| which(draw).set_up),
        colour: of(&|draw| which(draw).colour),
        handling: of(&|draw| which(draw).handling),
    };
    let designs = draws.first().map_or(0, |draw| draw.each.len());
    Draw {
        decorating: shares(|draw| &draw.decorating),
        whole: shares(|draw| &draw.whole),
        each: Id::first(designs).map(|design| of(&|draw| draw.each[design])).collect(),
        noise: of(&|draw| draw.noise),
        trend: of(&|draw| draw.trend),
    }
}
