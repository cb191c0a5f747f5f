//! Minutes per piece of each design: learned from the logs, with the card's guess; how well they predict each order,
//! and what to time next.

use super::key::{By, Key};
use super::sums::{self, Sums};
use crate::costing::Costed;
use crate::costing::facts::Figure;
use crate::ids::{Design, Id};
use crate::minutes::fit::{Diagnostics, Method};
use crate::minutes::learned::Estimate;
use crate::minutes::observations::Covers;
use crate::minutes::observed::whole;
use crate::minutes::predicted::{Prediction, predictions};
use crate::minutes::timed_noise::timed_noise;
use crate::minutes::timing::{Candidate, Timing, timings};
use crate::minutes::{Learned, Unlearned};
use crate::period::last_year;
use crate::quantity::Day;
use crate::quantity::millionths::{Minutes, Money};
use crate::shop::Shop;
use polars::prelude::PolarsResult;
use std::collections::BTreeMap;

/// Most batches to time next that are named.
const TOGETHER: usize = 3;

/// The minutes of one design.
#[derive(Debug, Clone, PartialEq)]
pub struct MinutesRow {
    /// The design.
    pub key: String,
    /// Its tier.
    pub tier: Option<String>,
    /// Orders handed over that hold it.
    pub orders: i64,
    /// Pieces sold.
    pub pieces: i64,
    /// The maker's own guess.
    pub card: Option<Minutes>,
    /// Learned minutes per piece; `None` if no hours of it were logged.
    pub learned: Option<Estimate>,
    /// Whether the orders alone determine its minutes, without its tier and card.
    pub told_apart: Option<bool>,
    /// Designs it is confounded with.
    pub confounded_with: Vec<String>,
}

/// A design to time next, given that those before it are timed.
#[derive(Debug, Clone, PartialEq)]
pub struct TimeNext {
    /// The design.
    pub key: String,
    /// Pieces to time: as in a usual order.
    pub pieces: i64,
    /// Expected fall of Σ pieces × |minutes' error| × target over all designs, with the pieces sold in the last twelve
    /// months, once this batch is timed after those before it: the gains of several add up. `None` without a target.
    pub narrowing: Option<Money>,
    /// The same, in minutes.
    pub narrowing_minutes: f64,
    /// Width of its own minutes' 90 % interval, now and as expected once it and those before it are timed.
    pub own: (f64, f64),
}

/// The learned minutes, or why there are none.
#[derive(Debug, Clone, PartialEq)]
pub struct MinutesTable {
    /// Designs sold, by tier, the quickest first.
    pub rows: Vec<MinutesRow>,
    /// Why nothing was learned.
    pub unlearned: Option<Unlearned>,
    /// The fit besides minutes per piece.
    pub fit: Option<FitSummary>,
    /// Logged and expected minutes of each order, the farthest off first.
    pub predictions: Vec<(String, Prediction)>,
    /// What to time next: the most useful, then the most useful given that it is timed, and so on.
    pub time_next: Vec<TimeNext>,
}

/// The fit besides minutes per piece.
#[derive(Debug, Clone, PartialEq)]
pub struct FitSummary {
    /// Set-up of decorating an order, or of the whole order if nothing is logged by stage.
    pub set_up: Estimate,
    /// Minutes per colour, if colours are logged with it.
    pub colour: Option<Estimate>,
    /// Scale of the noise of log minutes.
    pub noise: Estimate,
    /// Change of log minutes per year.
    pub trend: Option<Estimate>,
    /// Diagnostics of the draws.
    pub diagnostics: Diagnostics,
    /// Number of orders learned from.
    pub orders: usize,
    /// Number of timings of a design on its own.
    pub timed: usize,
    /// Whether most designs rest on their tier or card rather than on the orders.
    pub leans: bool,
    /// The work the minutes are of.
    pub covers: Covers,
    /// First and last day of the orders.
    pub days: Option<(Day, Day)>,
}

impl MinutesTable {
    /// Builds the table of a costed shop that asked for learned minutes.
    ///
    /// # Errors
    /// Where polars fails.
    pub fn of(shop: &Shop, costed: &Costed) -> PolarsResult<Self> {
        let learned = costed.learned.as_ref().and_then(|learned| learned.as_ref().ok());
        let all = sums::by_key(&costed.facts, By::Design)?;
        let sold = |design: Id<Design>| all.get(&Key::Design(design)).filter(|sums| sums.all[Figure::Pieces] > 0);
        let mut rows: Vec<MinutesRow> = shop
            .designs
            .all()
            .filter_map(|design| {
                let sums = sold(design)?;
                Some(row(shop, learned, design, sums.orders, i64::try_from(sums.all[Figure::Pieces]).unwrap_or(i64::MAX)))
            })
            .collect();
        sort(&mut rows);
        let id = |prediction: Prediction| {
            let ids: Vec<&str> = prediction.orders.iter().map(|order| shop.orders.ids.text(*order)).collect();
            (ids.join("+"), prediction)
        };
        Ok(Self {
            rows,
            unlearned: costed.learned.as_ref().and_then(|learned| learned.as_ref().err()).copied(),
            fit: learned.map(fit_summary),
            predictions: learned.map(predictions).into_iter().flatten().map(id).collect(),
            time_next: learned.map_or(Ok(Vec::new()), |learned| time_next(shop, costed, learned))?,
        })
    }

    /// Whether ranges rest on the approximation alone, because sampling did not converge.
    #[must_use]
    pub(crate) fn has_rough_ranges(&self) -> bool {
        self.fit.as_ref().is_some_and(|fit| fit.diagnostics.method == Method::Unsettled)
    }

    /// Returns the batches to time next, chosen together: at most three, each with a gain.
    #[must_use]
    pub fn batches(&self) -> &[TimeNext] {
        let useful = self.time_next.iter().take(TOGETHER).take_while(|next| next.narrowing_minutes > 0.0).count();
        &self.time_next[..useful]
    }

    /// Lists the orders so far off that a logging mistake is likelier than chance.
    pub fn far_off(&self) -> impl Iterator<Item = &(String, Prediction)> {
        self.predictions.iter().filter(|(_, prediction)| prediction.far_off)
    }
}

fn row(shop: &Shop, learned: Option<&Learned>, design: Id<Design>, orders: i64, pieces: i64) -> MinutesRow {
    let seen = learned.filter(|learned| learned.saw(design));
    let found = seen.and_then(|learned| Some((learned, &learned.identifiability[learned.observed.place(design)?])));
    let name = |design: Id<Design>| shop.designs.names.text(design).to_owned();
    MinutesRow {
        key: name(design),
        tier: shop.designs.tier[design].map(|tier| shop.designs.tiers.text(tier).to_owned()),
        orders,
        pieces,
        card: shop.designs.minutes_each[design].map(|minutes| Minutes(minutes.into())),
        learned: seen.map(|learned| learned.each(design)),
        told_apart: found.map(|(_, found)| found.is_identified),
        confounded_with: found.map_or(Vec::new(), |(learned, found)| {
            found.confounded_with.iter().map(|place| name(learned.observed.designs[*place])).collect()
        }),
    }
}

/// Sorts by tier, the quickest tier and design first.
fn sort(rows: &mut [MinutesRow]) {
    let minutes = |row: &MinutesRow| {
        row.learned.map(|learned| learned.median).or(row.card.map(|card| card.decimal().to_string().parse().unwrap_or(0.0)))
    };
    let mut tiers: BTreeMap<Option<String>, (f64, f64)> = BTreeMap::new();
    for row in rows.iter() {
        if let Some(minutes) = minutes(row) {
            let (sum, count) = tiers.entry(row.tier.clone()).or_default();
            (*sum, *count) = (*sum + minutes, *count + 1.0);
        }
    }
    let of_tier = |row: &MinutesRow| tiers.get(&row.tier).map_or(f64::INFINITY, |(sum, count)| sum / count);
    let own = |row: &MinutesRow| minutes(row).unwrap_or(f64::INFINITY);
    rows.sort_by(|one, other| {
        of_tier(one)
            .total_cmp(&of_tier(other))
            .then_with(|| one.tier.cmp(&other.tier))
            .then_with(|| own(one).total_cmp(&own(other)))
            .then_with(|| one.key.cmp(&other.key))
    });
}

fn fit_summary(learned: &Learned) -> FitSummary {
    let observations = &learned.observed.observations;
    let told = learned.identifiability.iter().filter(|found| found.is_identified).count();
    let has_stages = observations.groups.iter().any(|group| group.covers == Covers::Decorating);
    FitSummary {
        set_up: learned.estimate(|draw| draw.decorating.set_up),
        colour: learned.has_colours.then(|| learned.estimate(|draw| draw.decorating.colour)),
        noise: learned.estimate(|draw| draw.noise),
        trend: learned.has_trend.then(|| learned.estimate(|draw| draw.trend)),
        diagnostics: learned.diagnostics,
        orders: learned.orders,
        timed: observations.timed.len(),
        leans: 2 * told < learned.identifiability.len(),
        covers: if has_stages { Covers::Decorating } else { Covers::Whole },
        days: learned.observed.days,
    }
}

fn time_next(shop: &Shop, costed: &Costed, learned: &Learned) -> PolarsResult<Vec<TimeNext>> {
    let season = costed.facts.within(last_year(shop))?;
    let candidate = |(key, sums): (Key, Sums)| {
        let Key::Design(design) = key else { return None };
        let (sold, orders) = (whole(i64::try_from(sums.all[Figure::Pieces]).unwrap_or(i64::MAX)), whole(sums.orders));
        (sold > 0.0).then(|| Candidate { design, batch: (sold / orders).round().max(1.0), sold })
    };
    let candidates: Vec<Candidate> = sums::by_key(&season, By::Design)?.into_iter().filter_map(candidate).collect();
    let target = shop.settings.target.and_then(|target| target.decimal().to_string().parse::<f64>().ok());
    let named = |timing: Timing| TimeNext {
        key: shop.designs.names.text(timing.design).to_owned(),
        #[expect(clippy::cast_possible_truncation, reason = "whole, and pieces of an order")]
        pieces: timing.pieces as i64,
        narrowing: target.and_then(|target| Money::from_estimate(timing.narrowing.max(0.0) * target / 60.0)),
        narrowing_minutes: timing.narrowing.max(0.0),
        own: timing.own,
    };
    Ok(timings(&learned.draws, timed_noise(&learned.observed.observations.timed), &candidates).into_iter().map(named).collect())
}
