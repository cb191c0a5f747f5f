//! The file `shop.toml`: as typed, then validated into what the program means by it.
//!
//! Numbers are taken from their text and never pass through a binary float. Every problem is found in one
//! reading: an unknown key names the nearest known one.

use super::{COST_FLOWS, DEFAULT_STAGES, FILE, Fees, Settings, SharedBy, shape};
use crate::quantity::millionths::Money;
use crate::quantity::{Day, Percent, Period, number};
use crate::reading::nearest::nearest;
use crate::reading::{Place, Problem, Severity};
use crate::shop::specification::TABLES;
use rust_decimal::Decimal;
use serde::Deserialize;
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

/// As typed: every value still its text.
#[derive(Debug, Default, Deserialize)]
#[serde(default)]
struct Typed {
    currency: Option<String>,
    spares: Option<String>,
    cost_flow: Option<String>,
    tips_count: Option<String>,
    reclaim_purchase_tax: Option<String>,
    wage: TypedWage,
    fees: TypedFees,
    materials: TypedMaterials,
    helpers: BTreeMap<String, String>,
    hours: TypedHours,
    stages: BTreeMap<String, String>,
    prices: TypedPrices,
    seasons: BTreeMap<String, TypedSeason>,
    columns: BTreeMap<String, BTreeMap<String, String>>,
}

#[derive(Debug, Default, Deserialize)]
#[serde(default)]
struct TypedWage {
    target: Option<String>,
    floor: Option<String>,
}

#[derive(Debug, Default, Deserialize)]
#[serde(default)]
struct TypedFees {
    percent: Option<String>,
    fixed: Option<String>,
    payments: Option<String>,
    #[serde(flatten)]
    channels: BTreeMap<String, TypedChannel>,
}

#[derive(Debug, Default, Deserialize)]
#[serde(default)]
struct TypedChannel {
    percent: Option<String>,
    fixed: Option<String>,
    payments: Option<String>,
}

#[derive(Debug, Default, Deserialize)]
#[serde(default)]
struct TypedMaterials {
    mini: Option<String>,
    regular: Option<String>,
    large: Option<String>,
}

#[derive(Debug, Default, Deserialize)]
#[serde(default)]
struct TypedHours {
    reach: Option<String>,
}

#[derive(Debug, Default, Deserialize)]
#[serde(default)]
struct TypedPrices {
    endings: Option<Vec<String>>,
}

#[derive(Debug, Default, Deserialize)]
#[serde(default)]
struct TypedSeason {
    from: Option<String>,
    to: Option<String>,
}

/// Known keys by section, for advice on an unknown one.
const KNOWN: &[(&str, &[&str])] = &[
    (
        "",
        &[
            "currency",
            "spares",
            "cost_flow",
            "tips_count",
            "reclaim_purchase_tax",
            "wage",
            "fees",
            "materials",
            "helpers",
            "hours",
            "stages",
            "prices",
            "seasons",
            "columns",
        ],
    ),
    ("wage", &["target", "floor"]),
    ("fees", &["percent", "fixed", "payments"]),
    ("materials", &["mini", "regular", "large"]),
    ("hours", &["reach"]),
    ("prices", &["endings"]),
    ("seasons", &["from", "to"]),
];

impl Settings {
    /// Reads the text of `shop.toml`. `None` where it is no TOML at all or lacks its currency; a wrong value is
    /// a problem and stands as if it were not written, so that the tables can be checked all the same.
    pub fn read(text: &str, problems: &mut Vec<Problem>) -> Option<Self> {
        let mut document = match text.parse::<toml_edit::DocumentMut>() {
            Ok(document) => document,
            Err(error) => {
                let line = error.span().map_or(1, |span| 1 + text[..span.start.min(text.len())].matches('\n').count());
                let place = Place { row: u32::try_from(line).unwrap_or(1), line: u32::try_from(line).unwrap_or(1) };
                problems.push(
                    Problem::of_file(Severity::Error, FILE, format!("cannot be read here: {}", error.message().replace('\n', ", ")))
                        .at(place),
                );
                return None;
            }
        };
        shape::mend(document.as_table_mut(), problems);
        as_text(document.as_table_mut());
        let mut unknown = Vec::new();
        let typed: Typed =
            match serde_ignored::deserialize(toml_edit::de::Deserializer::from(document), |path| unknown.push(path.to_string())) {
                Ok(typed) => typed,
                Err(error) => {
                    let message = error.message().replace('\n', " ");
                    problems.push(Problem::of_file(Severity::Error, FILE, message).instead("see README, 'shop.toml'"));
                    return None;
                }
            };
        for path in unknown {
            problems.push(unknown_key(&path));
        }
        Validator { problems }.settings(typed)
    }
}

/// Replaces numbers, dates and truth values by their text, so that serde never sees a float.
fn as_text(table: &mut dyn toml_edit::TableLike) {
    for (_, item) in table.iter_mut() {
        if let Some(value) = item.as_value_mut() {
            value_as_text(value);
        } else if let Some(inner) = item.as_table_like_mut() {
            as_text(inner);
        }
    }
}

fn value_as_text(value: &mut toml_edit::Value) {
    use toml_edit::Value;
    let text = match value {
        Value::Integer(number) => number.display_repr().into_owned(),
        Value::Float(number) => number.display_repr().into_owned(),
        Value::Boolean(truth) => truth.value().to_string(),
        Value::Datetime(day) => day.value().to_string(),
        Value::Array(list) => {
            list.iter_mut().for_each(value_as_text);
            return;
        }
        Value::InlineTable(inner) => {
            as_text(inner);
            return;
        }
        Value::String(_) => return,
    };
    *value = Value::from(text);
}

/// An unknown key, and the nearest known one.
pub(super) fn unknown_key(path: &str) -> Problem {
    let (section, key) = path.rsplit_once('.').unwrap_or(("", path));
    let head = section.split('.').next().unwrap_or("");
    let keys = KNOWN.iter().find(|(name, _)| *name == head).map_or(&[][..], |(_, keys)| keys);
    let problem = Problem::of_file(Severity::Error, FILE, "is not a setting").found(path);
    match nearest(key, keys.iter().copied()) {
        Some(near) => problem.instead(format!("did you mean {near}?")),
        None if keys.is_empty() => problem.instead("remove it"),
        None => problem.instead(format!("known here: {}", keys.join(", "))),
    }
}

struct Validator<'a> {
    problems: &'a mut Vec<Problem>,
}

impl Validator<'_> {
    fn settings(&mut self, typed: Typed) -> Option<Settings> {
        let Some(currency) = typed.currency else {
            let problem = Problem::of_file(Severity::Error, FILE, "the currency is missing");
            self.problems.push(problem.instead("write currency = \"USD\", or your own three-letter code"));
            return None;
        };
        if currency.len() != 3 || !currency.bytes().all(|byte| byte.is_ascii_uppercase()) {
            self.wrong("currency", &currency, "is not a currency code of three capitals", "write USD, EUR, GBP …");
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
        Some(Settings {
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
        })
    }

    fn wrong(&mut self, key: &str, found: &str, what: &str, instead: &str) {
        let problem = Problem::of_file(Severity::Error, FILE, what).column(key).found(found);
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
            self.wrong(key, text, "is not known here", &instead);
        }
        found
    }

    fn season(&mut self, name: &str, season: TypedSeason) -> Option<Period> {
        let mut day = |end: &str, text: Option<String>| {
            let text = text.unwrap_or_default();
            let day = Day::parse(&text);
            if day.is_none() {
                self.wrong(&format!("seasons.{name}.{end}"), &text, "is not a date", "write it as 2026-02-01");
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
                self.wrong("columns", name, "is not a table", &format!("tables are: {}", tables.join(", ")));
                continue;
            };
            for ours in headings.values().filter(|ours| table.column(ours).is_none()) {
                let known: Vec<&str> = table.columns.iter().map(|column| column.name).collect();
                self.wrong(
                    &format!("columns.{name}"),
                    ours,
                    "is not a column of this table",
                    &format!("columns are: {}", known.join(", ")),
                );
            }
        }
        typed
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn read(text: &str) -> (Option<Settings>, Vec<String>) {
        let mut problems = Vec::new();
        let settings = Settings::read(text, &mut problems);
        (settings, problems.iter().map(ToString::to_string).collect())
    }

    #[test]
    fn only_the_currency_is_needed() {
        let (settings, problems) = read("currency = \"USD\"");
        let settings = settings.unwrap();
        assert_eq!(problems, [""; 0]);
        assert_eq!((settings.reach, settings.spares, settings.target, settings.fees.payments), (7, Percent(0), None, 1));
        assert_eq!(settings.stages["dry"], SharedBy::Unattended);
    }

    #[test]
    fn numbers_keep_their_text() {
        // 0.1 and 2.9 have no exact binary form; 1234567.654321 would lose digits in a 32-bit float.
        let (settings, _) = read(
            "currency = \"USD\"\nspares = 10\n[wage]\ntarget = 1234567.65\nfloor = 0.1\n[fees]\npercent = \"2.9 %\"\nfixed = 0.30\n[fees.market]\nfixed = 0\n",
        );
        assert_eq!(settings.unwrap().target, None, "a target over a million is refused");
        let (settings, problems) = read(
            "currency = \"USD\"\nspares = 10\n[wage]\ntarget = 20.123456\nfloor = 0.1\n[fees]\npercent = \"2.9 %\"\nfixed = 0.30\n[fees.market]\nfixed = 0\n",
        );
        let settings = settings.unwrap_or_else(|| panic!("{problems:?}"));
        assert_eq!((settings.target, settings.floor), (Some(Money(20_123_456)), Some(Money(100_000))));
        assert_eq!(settings.fees_of(Some("market")), Fees { percent: Percent(2_900_000), fixed: Money(0), payments: 1 });
        assert_eq!(settings.fees_of(Some("porch")).fixed, Money(300_000));
    }

    #[test]
    fn every_wrong_setting_is_told_at_once() {
        let (settings, problems) = read(
            "currency = \"usd\"\nspare = \"10 %\"\ncost_flow = \"fifi\"\n[wage]\ntargt = 20\n[stages]\nglaze = \"piece\"\n[columns.order]\nA = \"date\"\n[seasons]\nspring = { from = 2026-05-01, to = 2026-02-01 }\n",
        );
        assert!(settings.is_some(), "the tables are still checked");
        let expected = [
            "shop.toml: 'spare' is not a setting; did you mean spares?",
            "shop.toml: 'wage.targt' is not a setting; did you mean target?",
            "shop.toml, key currency: 'usd' is not a currency code of three capitals; write USD, EUR, GBP …",
            "shop.toml, key stages.glaze: 'piece' is not known here; did you mean pieces?",
            "shop.toml, key seasons.spring: '2026-05-01' is after the season's end; swap from and to",
            "shop.toml, key cost_flow: 'fifi' is not known here; did you mean fifo?",
            "shop.toml, key columns: 'order' is not a table; tables are: orders, purchases, hours, overheads, counts, designs, recipes, items, tiers",
        ];
        assert_eq!(problems, expected);
    }

    #[test]
    fn a_key_of_the_wrong_shape_is_told_and_the_rest_is_read() {
        let (settings, problems) = read(
            "currency = \"USD\"\nwage = 20\nspares = [10]\n[fees]\nmarket = 3\npercent = { market = 2 }\n[prices]\nendings = 0.50\n[hours]\nreach = 5\n",
        );
        assert_eq!(settings.map(|settings| settings.reach), Some(5));
        let expected = [
            "shop.toml, key wage: is a section, not a value; write [wage] on a line of its own, and its settings below",
            "shop.toml, key spares: takes one value; write spares = and the value after it",
            "shop.toml, key fees.market: is a section, not a value; write [fees.market] on a line of its own, and its settings below",
            "shop.toml, key fees.percent: takes one value; write percent = and the value after it",
            "shop.toml, key prices.endings: takes a list; write endings = [0.00, 0.50]",
        ];
        assert_eq!(problems, expected);
    }

    #[test]
    fn a_slip_in_a_channels_fees_is_told() {
        let (_, problems) = read("currency = \"USD\"\n[fees]\npayment = 2\n[fees.market]\npercnt = \"1 %\"\n");
        let expected = [
            "shop.toml: 'fees.payment' is not a setting; did you mean payments?",
            "shop.toml: 'fees.market.percnt' is not a setting; did you mean percent?",
        ];
        assert_eq!(problems, expected);
    }

    #[test]
    fn broken_toml_names_its_line() {
        let (settings, problems) = read("currency = \"USD\"\n[wage\n");
        assert!(settings.is_none());
        assert!(problems[0].starts_with("shop.toml, line 2: cannot be read here"), "{problems:?}");
    }
}
