//! Options that several commands share, checked and put into the terms of the sums.

use super::arguments::{CostingArguments, FlowWord, MinutesWord, PeriodArguments};
use super::error::Error;
use crate::costing::{MinutesBy, Options};
use crate::period::month_meant;
use crate::quantity::Period;
use crate::reading::nearest::nearest;
use crate::shop::Shop;
use crate::shop::settings::{CostFlow, Settings};
use clap::ValueEnum;

impl PeriodArguments {
    /// Returns the period asked for.
    ///
    /// # Errors
    /// Wrong usage where the shop has no such season, its logs no month of that name, or the first day is after the last.
    pub(crate) fn resolve(&self, shop: &Shop) -> Result<Period, Error> {
        if let Some(month) = self.month {
            return Ok(Period::of(month_meant(month, shop)?));
        }
        if let Some(name) = &self.season {
            let seasons = &shop.settings.seasons;
            return seasons.get(name).copied().ok_or_else(|| Error::usage(unknown_season(name, &shop.settings, &[])));
        }
        if let (Some(from), Some(to)) = (self.from, self.to)
            && from > to
        {
            return Err(Error::usage(format!("--from {from} is after --to {to}; swap them")));
        }
        Ok(Period { from: self.from, to: self.to })
    }
}

/// The message for a season that the shop does not have, with those it has; `others` are words that could be meant as well.
pub(super) fn unknown_season(name: &str, settings: &Settings, others: &[&str]) -> String {
    let known: Vec<&str> = settings.seasons.keys().map(String::as_str).collect();
    let advice = match (nearest(name, known.iter().chain(others).copied()), known.is_empty()) {
        (Some(near), _) => format!("did you mean '{near}'?"),
        (None, true) => "your settings have none".to_owned(),
        (None, false) => format!("your settings have: {}", known.join(", ")),
    };
    format!("there is no season '{name}'; {advice}")
}

impl CostingArguments {
    /// Lists the options that change figures, as words of a command line.
    pub fn words(&self) -> Vec<String> {
        let word = |value: &dyn Fn() -> Option<clap::builder::PossibleValue>| value().map(|value| value.get_name().to_owned());
        let flow = self.cost_flow.and_then(|flow| word(&|| flow.to_possible_value()));
        let minutes =
            Some(self.minutes).filter(|minutes| *minutes != MinutesWord::default()).and_then(|by| word(&|| by.to_possible_value()));
        let of = |option: &str, word: Option<String>| word.into_iter().flat_map(|word| [option.to_owned(), word]).collect::<Vec<_>>();
        let skipping = self.skip_bad_rows.then(|| "--skip-bad-rows".to_owned());
        [of("--cost-flow", flow), of("--minutes", minutes), skipping.into_iter().collect()].concat()
    }

    /// Returns the costing's options.
    pub fn options(&self) -> Options {
        let cost_flow = self.cost_flow.map(|flow| match flow {
            FlowWord::Latest => CostFlow::Latest,
            FlowWord::Average => CostFlow::Average,
            FlowWord::Fifo => CostFlow::Fifo,
        });
        let minutes = match self.minutes {
            MinutesWord::Learned => MinutesBy::Learned { trend: false },
            MinutesWord::Card => MinutesBy::Card,
            MinutesWord::Equal => MinutesBy::Equal,
        };
        Options { cost_flow, minutes }
    }
}
