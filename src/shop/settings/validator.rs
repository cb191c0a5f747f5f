//! What was typed into `shop.toml`, validated into what the program means by it.

use super::typed::{Typed, TypedSeason};
use super::{COST_FLOWS, DEFAULT_STAGES, FILE, Fees, Settings, SharedBy};
use crate::quantity::millionths::Money;
use crate::quantity::{Day, Percent, Period, number};
use crate::reading::Problem;
use crate::reading::nearest::nearest;
use crate::shop::kinds::{FLOOR_ABOVE_TARGET, NO_CURRENCY, SETTING_VALUE};
use crate::shop::specification::TABLES;
use rust_decimal::Decimal;
use std::collections::BTreeMap;

const SHARED_BY: &[(&str, SharedBy)] = &[
    ("pieces", SharedBy::Pieces),
    ("weight", SharedBy::Weight),
    ("minutes", SharedBy::Minutes),
    ("orders", SharedBy::Orders),
    ("colours", SharedBy::Colours),
    ("colors", SharedBy::Colours),
    ("delivery", SharedBy::Delivery),
    ("unattended", SharedBy::Unattended),
];

/// Validates what was typed, and notes what is wrong with it.
pub(super) struct Validator<'a> {
    pub problems: &'a mut Vec<Problem>,
}

impl Validator<'_> {
    /// What the file means; `None` where it lacks its currency.
    pub fn settings(&mut self, typed: Typed) -> Option<Settings> {
        let Some(currency) = typed.currency else {
            let problem = Problem::of_file(&NO_CURRENCY, FILE, "the currency is missing");
            self.problems.push(problem.instead("write currency = \"USD\", or your own three-letter code, as its first line"));
            return None;
        };
        if currency.len() != 3 || !currency.bytes().all(|byte| byte.is_ascii_uppercase()) {
            self.wrong("currency", &currency, "is not a currency code of three capitals", "write USD, EUR, GBP or another");
        }
        let fees = Fees {
            percent: self.percent("fees.percent", typed.fees.percent).unwrap_or_default(),
            fixed: self.money("fees.fixed", typed.fees.fixed).unwrap_or_default(),
            payments: self.whole("fees.payments", typed.fees.payments).unwrap_or(1),
        };
        let mut channel_fees = BTreeMap::new();
        for (channel, typed) in typed.fees.channels {
            let key = |name: &str| format!("fees.{channel}.{name}");
            let own = Fees {
                percent: self.percent(&key("percent"), typed.percent).unwrap_or(fees.percent),
                fixed: self.money(&key("fixed"), typed.fixed).unwrap_or(fees.fixed),
                payments: self.whole(&key("payments"), typed.payments).unwrap_or(fees.payments),
            };
            channel_fees.insert(channel, own);
        }
        let mut stages: BTreeMap<String, SharedBy> = DEFAULT_STAGES.iter().map(|(stage, by)| ((*stage).to_owned(), *by)).collect();
        for (stage, by) in typed.stages {
            if let Some(by) = self.word(&format!("stages.{stage}"), &by, SHARED_BY) {
                stages.insert(stage, by);
            }
        }
        let helpers = typed
            .helpers
            .into_iter()
            .filter_map(|(who, rate)| Some((who.clone(), self.money(&format!("helpers.{who}"), Some(rate))?)))
            .collect();
        let seasons = typed.seasons.into_iter().filter_map(|(name, season)| Some((name.clone(), self.season(&name, season)?))).collect();
        let endings = typed.prices.endings.unwrap_or_else(|| ["0.00", "0.25", "0.50", "0.75"].map(String::from).into());
        let mut endings: Vec<Money> = endings.iter().filter_map(|ending| self.ending(ending)).collect();
        endings.sort_unstable();
        endings.dedup();
        let settings = Settings {
            spares: self.percent("spares", typed.spares).unwrap_or_default(),
            cost_flow: typed.cost_flow.and_then(|flow| self.word("cost_flow", &flow, COST_FLOWS)).unwrap_or_default(),
            tips_count: self.truth("tips_count", typed.tips_count.as_deref()),
            reclaim_purchase_tax: self.truth("reclaim_purchase_tax", typed.reclaim_purchase_tax.as_deref()),
            target: self.money("wage.target", typed.wage.target),
            floor: self.money("wage.floor", typed.wage.floor),
            fees,
            channel_fees,
            materials: [
                self.money("materials.mini", typed.materials.mini),
                self.money("materials.regular", typed.materials.regular),
                self.money("materials.large", typed.materials.large),
            ],
            helpers,
            reach: self.whole("hours.reach", typed.hours.reach).map_or(7, |days| i32::try_from(days).unwrap_or(7)),
            stages,
            endings,
            seasons,
            columns: self.columns(typed.columns),
            currency,
        };
        if settings.target.zip(settings.floor).is_some_and(|(target, floor)| floor > target) {
            let problem = Problem::of_file(&FLOOR_ABOVE_TARGET, FILE, "the floor is above wage.target, so it decides every price")
                .column("wage.floor");
            self.problems
                .push(problem.instead("the floor is the least you would work for: swap the two if you meant it the other way round"));
        }
        Some(settings)
    }

    fn wrong(&mut self, key: &str, found: &str, what: &str, instead: &str) {
        let problem = Problem::of_file(&SETTING_VALUE, FILE, what).column(key).found(found);
        self.problems.push(problem.instead(instead));
    }

    fn percent(&mut self, key: &str, text: Option<String>) -> Option<Percent> {
        let text = text?;
        let percent = Percent::parse(&text).filter(|percent| i128::from(percent.0) <= Percent::WHOLE);
        if percent.is_none() {
            self.wrong(key, &text, "is not a percentage", "write it as \"10 %\"");
        }
        percent
    }

    fn money(&mut self, key: &str, text: Option<String>) -> Option<Money> {
        let text = text?;
        let sound = |value: &Decimal| *value >= Decimal::ZERO && *value <= Decimal::from(1_000_000);
        let money = number::plain(&text).filter(sound).and_then(Money::from_decimal);
        if money.is_none() {
            self.wrong(key, &text, "is not an amount of money", "write it as 20.00");
        }
        money
    }

    fn whole(&mut self, key: &str, text: Option<String>) -> Option<i64> {
        let text = text?;
        let number = text.parse::<i64>().ok().filter(|number| (0..=366).contains(number));
        if number.is_none() {
            self.wrong(key, &text, "is not a whole number from 0 to 366", "write it as 7");
        }
        number
    }

    fn truth(&mut self, key: &str, text: Option<&str>) -> bool {
        match text {
            None | Some("false") => false,
            Some("true") => true,
            Some(other) => {
                self.wrong(key, other, "is neither true nor false", "write true or false");
                false
            }
        }
    }

    fn word<T: Copy>(&mut self, key: &str, text: &str, words: &[(&str, T)]) -> Option<T> {
        let found = words.iter().find(|(word, _)| *word == text).map(|(_, value)| *value);
        if found.is_none() {
            let known: Vec<&str> = words.iter().map(|(word, _)| *word).collect();
            let instead = match nearest(text, known.iter().copied()) {
                Some(near) => format!("did you mean {near}?"),
                None => format!("write one of: {}", known.join(", ")),
            };
            self.wrong(key, text, "is not a word this setting knows", &instead);
        }
        found
    }

    fn season(&mut self, name: &str, season: TypedSeason) -> Option<Period> {
        let mut day = |end: &str, text: Option<String>| {
            let key = format!("seasons.{name}.{end}");
            let Some(text) = text else {
                let problem = Problem::of_file(&SETTING_VALUE, FILE, "the date is missing").column(&key);
                self.problems.push(problem.instead(format!("write {end} = 2026-02-01, or your own")));
                return None;
            };
            let day = Day::parse(&text);
            if day.is_none() {
                self.wrong(&key, &text, "is not a date", "write a date as 2026-02-01");
            }
            day
        };
        let (from, to) = (day("from", season.from)?, day("to", season.to)?);
        if from > to {
            self.wrong(&format!("seasons.{name}"), &from.to_string(), "is after the season's end", "swap from and to");
            return None;
        }
        Some(Period { from: Some(from), to: Some(to) })
    }

    fn ending(&mut self, text: &str) -> Option<Money> {
        let ending = self.money("prices.endings", Some(text.to_owned()))?;
        if ending.decimal() >= Decimal::ONE {
            self.wrong("prices.endings", text, "is not below 1", "write endings as 0.00, 0.50");
            return None;
        }
        Some(ending)
    }

    fn columns(&mut self, typed: BTreeMap<String, BTreeMap<String, String>>) -> BTreeMap<String, BTreeMap<String, String>> {
        for (name, headings) in &typed {
            let Some(table) = TABLES.iter().find(|table| table.name == name) else {
                let tables: Vec<&str> = TABLES.iter().map(|table| table.name).collect();
                self.wrong("columns", name, "is not a table", &format!("write one of: {}", tables.join(", ")));
                continue;
            };
            for ours in headings.values().filter(|ours| table.column(ours).is_none()) {
                let known: Vec<&str> = table.columns.iter().map(|column| column.name).collect();
                self.wrong(
                    &format!("columns.{name}"),
                    ours,
                    "is not a column of this table",
                    &format!("write one of: {}", known.join(", ")),
                );
            }
        }
        typed
    }
}
