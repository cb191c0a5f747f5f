//! `wage`: what each design, tier, order … cost and paid an hour.

use super::arguments::{CostingArguments, FlowWord, MinutesWord, PeriodArguments, Wage};
use super::outcome::Outcome;
use super::shop::{costed, left_out_note, open, warnings_note};
use crate::costing::Options;
use crate::quantity::Period;
use crate::reading::nearest::nearest;
use crate::report::figures::Currency;
use crate::report::wage_programs::{json, wage_csv};
use crate::report::wage_text::{Style, wage_text};
use crate::review::{By, Question, Sort, WageTable};
use crate::shop::settings::{CostFlow, Settings};

pub fn run(arguments: &Wage) -> Outcome {
    answer(arguments).unwrap_or_else(|outcome| outcome)
}

fn answer(arguments: &Wage) -> Result<Outcome, Outcome> {
    let mut opened = open(&arguments.shop, arguments.costing.skip_bad_rows, arguments.costing.hide_orders)?;
    let period = arguments.period.resolve(&opened.shop.settings)?;
    let costed = costed(&mut opened, arguments.costing.options())?;
    let by = By::from(arguments.by);
    let mut table = WageTable::of(&opened.shop, &costed, Question { by, period }).map_err(Outcome::wrong)?;
    table.sort(arguments.sort.map_or_else(|| default_sort(by, arguments.json || arguments.csv), Sort::from));
    let settings = &opened.shop.settings;
    let err = left_out_note(&opened.problems);
    let out = if arguments.json {
        json(&table, &settings.currency, costed.minutes_from, &opened.problems)
    } else if arguments.csv {
        wage_csv(&table)
    } else {
        let style = Style { currency: &Currency::of(&settings.currency), target: settings.target, both: arguments.both };
        wage_text(&table, style) + &warnings_note(&opened.problems, &arguments.shop)
    };
    Ok(Outcome { out, err, code: 0 })
}

/// People see the least paid design first; programs and sequences keep the order of keys.
fn default_sort(by: By, for_programs: bool) -> Sort {
    match by {
        By::Design | By::Tier | By::Theme | By::Channel if !for_programs => Sort::Wage,
        _ => Sort::Key,
    }
}

impl PeriodArguments {
    /// The period meant; a season must be one of the shop's.
    pub fn resolve(&self, settings: &Settings) -> Result<Period, Outcome> {
        if let Some(month) = self.month {
            return Ok(Period::of(month));
        }
        if let Some(name) = &self.season {
            return settings.seasons.get(name).copied().ok_or_else(|| unknown_season(name, settings));
        }
        if let (Some(from), Some(to)) = (self.from, self.to)
            && from > to
        {
            return Err(Outcome::wrong(format!("--from {from} is after --to {to}; swap them")));
        }
        Ok(Period { from: self.from, to: self.to })
    }
}

fn unknown_season(name: &str, settings: &Settings) -> Outcome {
    let known: Vec<&str> = settings.seasons.keys().map(String::as_str).collect();
    let advice = match (nearest(name, known.iter().copied()), known.is_empty()) {
        (Some(near), _) => format!("did you mean '{near}'?"),
        (None, true) => "shop.toml names none under [seasons]".to_owned(),
        (None, false) => format!("shop.toml names: {}", known.join(", ")),
    };
    Outcome::wrong(format!("there is no season '{name}'; {advice}"))
}

impl CostingArguments {
    /// What they mean to the costing.
    pub fn options(&self) -> Options {
        let cost_flow = self.cost_flow.map(|flow| match flow {
            FlowWord::Latest => CostFlow::Latest,
            FlowWord::Average => CostFlow::Average,
            FlowWord::Fifo => CostFlow::Fifo,
        });
        Options { cost_flow, equal_minutes: self.minutes == MinutesWord::Equal }
    }
}
