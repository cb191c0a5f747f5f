//! The file `shop.toml`: each of its keys looked up in the specification and its value read.
//!
//! Numbers are taken from their text and never pass through a binary float. Every problem is found in one reading, in the order
//! of the file: an unknown key names the nearest known one.

use super::specification::{Kind, SETTINGS, Section, Setting};
use super::{DEFAULT_STAGES, FILE, NO_TABLE, Settings};
use crate::quantity::Period;
use crate::reading::nearest::nearest;
use crate::reading::{Place, Problem};
use crate::shop::kinds::{FLOOR_ABOVE_TARGET, NO_CURRENCY, NOT_TOML, SETTING_SHAPE, SETTING_VALUE, UNKNOWN_SETTING};
use crate::shop::specification::TABLES;
use toml_edit::{Item, TableLike, Value};

/// Why a text is no TOML, by the line (from 1) that stops it.
fn not_toml(text: &str, line: usize, message: &str) -> Problem {
    let key = |line: &str| line.split('=').next().unwrap_or_default().trim().to_owned();
    let lines: Vec<String> = text.lines().map(key).collect();
    let at = u32::try_from(line).unwrap_or(1);
    let of = |what: String| Problem::of_file(&NOT_TOML, FILE, what).at(Place::of_row(at, at));
    let here = lines.get(line - 1);
    match here.and_then(|here| lines[..line - 1].iter().rposition(|other| other == here)) {
        Some(first) if message.contains("duplicate key") => {
            let (what, first) = (here.map_or("", String::as_str), first + 1);
            of(format!("{what} stands here for the second time, first in line {first}"))
                .instead("write all its lines where it stands first")
        }
        _ => of(format!("cannot be read here: {}", message.replace('\n', ", "))),
    }
}

impl Settings {
    /// Reads the text of `shop.toml`. `None` where it is no TOML at all or lacks its currency; a wrong value is
    /// a problem and stands as if it were not written, so that the tables can be checked all the same.
    pub fn read(text: &str, problems: &mut Vec<Problem>) -> Option<Self> {
        let document = match text.parse::<toml_edit::DocumentMut>() {
            Ok(document) => document,
            Err(error) => {
                let line = error.span().map_or(1, |span| 1 + text[..span.start.min(text.len())].matches('\n').count());
                problems.push(not_toml(text, line, error.message()));
                return None;
            }
        };
        let mut reader = Reader { settings: Self::before_reading(), problems };
        reader.section(document.as_table(), &Section::whole(), &[]);
        reader.check_seasons();
        reader.check_sheets();
        reader.check_columns();
        reader.check_floor();
        let Reader { settings, .. } = reader;
        (!settings.currency.is_empty()).then_some(settings)
    }

    /// What holds where nothing is written.
    fn before_reading() -> Self {
        let stages = DEFAULT_STAGES.iter().map(|(stage, by)| ((*stage).to_owned(), *by)).collect();
        let mut settings = Self { stages, ..Self::default() };
        for setting in SETTINGS.iter().filter(|setting| !setting.default.is_empty()) {
            let texts: Vec<&str> = setting.default.split(", ").collect();
            let wrong = setting.kind.keep(&mut settings, &[], &texts);
            debug_assert!(wrong.is_empty(), "the default of {} can be read", setting.key);
        }
        settings
    }
}

struct Reader<'a> {
    settings: Settings,
    problems: &'a mut Vec<Problem>,
}

impl Reader<'_> {
    /// Reads a section's keys. `path` leads to it, and the names among it are the maker's own.
    fn section(&mut self, table: &dyn TableLike, section: &Section, path: &[Part<'_>]) {
        // A channel's section says that it has fees, even if it changes none.
        if let [Part { key: "fees", .. }, Part { key: channel, is_own: true }] = path {
            self.settings.fees_of_channel(&[(*channel).to_owned()]);
        }
        for (key, item) in table.iter() {
            let is_own = !section.keys().contains(&key);
            let path = [path, &[Part { key, is_own }]].concat();
            match section.at(key) {
                Some(below) => self.item(item, section, &below, &path),
                None => self.problems.push(unknown_key(&dotted(&path), key, &section.keys())),
            }
        }
        for (key, setting) in section.required().filter(|(key, _)| !table.contains_key(key)) {
            self.problems.push(missing(&dotted(&[path, &[Part { key, is_own: false }]].concat()), key, setting));
        }
    }

    fn item(&mut self, item: &Item, section: &Section, below: &Section, path: &[Part<'_>]) {
        let Some(Part { key, is_own }) = path.last() else { return };
        let instead = match (below.setting(), item.as_table_like()) {
            (None, Some(table)) => return self.section(table, below, path),
            (None, None) => {
                ("this is a section, not a value", format!("write [{}] on a line of its own, and its settings below", dotted(path)))
            }
            (Some(setting), _) => match (texts(item, setting.kind.is_list()), setting.kind.is_list()) {
                (Some(texts), _) => return self.value(setting, &texts, path),
                (None, true) => ("this takes a list", format!("write {key} = {}", setting.example)),
                (None, false) => ("this takes one value", format!("write {key} = and the value after it")),
            },
        };
        let known = section.keys();
        if *is_own && nearest(key, known.iter().copied()).is_some() {
            self.problems.push(unknown_key(&dotted(path), key, &known));
        } else {
            let (what, instead) = instead;
            self.problems.push(Problem::of_file(&SETTING_SHAPE, FILE, what).column(&dotted(path)).instead(instead));
        }
    }

    fn value(&mut self, setting: &Setting, texts: &[String], path: &[Part<'_>]) {
        let names: Vec<String> = path.iter().filter(|part| part.is_own).map(|part| part.key.to_owned()).collect();
        let texts: Vec<&str> = texts.iter().map(String::as_str).collect();
        for (text, (what, instead)) in setting.kind.keep(&mut self.settings, &names, &texts) {
            self.problems.push(Problem::of_file(&SETTING_VALUE, FILE, what).column(&dotted(path)).found(text).instead(instead));
        }
    }

    /// Leaves out seasons without a first or last day, and those that end before they begin.
    fn check_seasons(&mut self) {
        let Self { settings, problems } = self;
        settings.seasons.retain(|name, Period { from, to }| {
            let (Some(from), Some(to)) = (from, to) else { return false };
            if from > to {
                let problem = Problem::of_file(&SETTING_VALUE, FILE, "is after the season's end").column(&format!("seasons.{name}"));
                problems.push(problem.found(&from.to_string()).instead("swap from and to"));
            }
            from <= to
        });
    }

    /// A sheet of another name holds a table, or none.
    fn check_sheets(&mut self) {
        let tables = || TABLES.iter().map(|table| table.name).chain([NO_TABLE]);
        for table in self.settings.sheets.values().filter(|table| tables().all(|known| known != *table)) {
            let problem = Problem::of_file(&SETTING_VALUE, FILE, "is not a table").column("sheets").found(table);
            self.problems.push(match nearest(table, tables()) {
                Some(near) => problem.did_you_mean(near),
                None => problem.instead(format!("write one of: {}", tables().collect::<Vec<_>>().join(", "))),
            });
        }
    }

    /// A heading of her own stands for a column of a table.
    fn check_columns(&mut self) {
        for (name, headings) in &self.settings.columns {
            let wrong = |key: &str, found: &str, what: &str, known: Vec<&str>| {
                let problem = Problem::of_file(&SETTING_VALUE, FILE, what).column(key).found(found);
                problem.instead(format!("write one of: {}", known.join(", ")))
            };
            let Some(table) = TABLES.iter().find(|table| table.name == name) else {
                let tables = TABLES.iter().map(|table| table.name).collect();
                self.problems.push(wrong("columns", name, "is not a table", tables));
                continue;
            };
            for column in headings.values().filter(|column| table.column(column).is_none()) {
                let columns = table.columns.iter().map(|column| column.name).collect();
                self.problems.push(wrong(&format!("columns.{name}"), column, "is not a column of this table", columns));
            }
        }
    }

    fn check_floor(&mut self) {
        if self.settings.target.zip(self.settings.floor).is_some_and(|(target, floor)| floor > target) {
            let problem = Problem::of_file(&FLOOR_ABOVE_TARGET, FILE, "the floor is above wage.target, so it decides every price");
            let instead = "the floor is the least you would work for: swap the two if you meant it the other way round";
            self.problems.push(problem.column("wage.floor").instead(instead));
        }
    }
}

/// A part of a key's path, and whether the maker chose its name.
#[derive(Clone, Copy)]
struct Part<'a> {
    key: &'a str,
    is_own: bool,
}

fn dotted(path: &[Part<'_>]) -> String {
    path.iter().map(|part| part.key).collect::<Vec<_>>().join(".")
}

/// The text of a value, or of each value of a list; `None` where the other stands there.
fn texts(item: &Item, is_list: bool) -> Option<Vec<String>> {
    if is_list { item.as_array()?.iter().map(text).collect() } else { Some(vec![text(item.as_value()?)?]) }
}

fn text(value: &Value) -> Option<String> {
    Some(match value {
        Value::String(text) => text.value().clone(),
        Value::Integer(number) => number.display_repr().into_owned(),
        Value::Float(number) => number.display_repr().into_owned(),
        Value::Boolean(truth) => truth.value().to_string(),
        Value::Datetime(day) => day.value().to_string(),
        Value::Array(_) | Value::InlineTable(_) => return None,
    })
}

/// That a key is unknown, and the nearest of those its section knows.
fn unknown_key(path: &str, key: &str, known: &[&str]) -> Problem {
    let problem = Problem::of_file(&UNKNOWN_SETTING, FILE, "is not a setting").found(path);
    match nearest(key, known.iter().copied()) {
        Some(near) => problem.did_you_mean(near),
        None => problem.instead(format!("use one of: {}", known.join(", "))),
    }
}

fn missing(path: &str, key: &str, setting: &Setting) -> Problem {
    if matches!(setting.kind, Kind::Currency(_)) {
        let problem = Problem::of_file(&NO_CURRENCY, FILE, "the currency is missing");
        return problem.instead("write currency = \"USD\", or your own three-letter code, as its first line");
    }
    let problem = Problem::of_file(&SETTING_VALUE, FILE, "the date is missing").column(path);
    problem.instead(format!("write {key} = 2026-02-01, or your own"))
}

#[cfg(test)]
mod tests {
    use super::super::{Fees, SharedBy};
    use super::*;
    use crate::quantity::Percent;
    use crate::quantity::millionths::Money;

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
            "shop.toml, key currency: 'usd' is not a currency code of three capitals; write USD, EUR, GBP or another",
            "shop.toml: 'spare' is not a setting; did you mean spares?",
            "shop.toml, key cost_flow: 'fifi' is not a word this setting knows; did you mean fifo?",
            "shop.toml: 'wage.targt' is not a setting; did you mean target?",
            "shop.toml, key stages.glaze: 'piece' is not a word this setting knows; did you mean pieces?",
            "shop.toml, key seasons.spring: '2026-05-01' is after the season's end; swap from and to",
            "shop.toml, key columns: 'order' is not a table; write one of: orders, purchases, hours, overheads, counts, designs, recipes, items, tiers",
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
            "shop.toml, key wage: this is a section, not a value; write [wage] on a line of its own, and its settings below",
            "shop.toml, key spares: this takes one value; write spares = and the value after it",
            "shop.toml, key fees.market: this is a section, not a value; write [fees.market] on a line of its own, and its settings below",
            "shop.toml, key fees.percent: this takes one value; write percent = and the value after it",
            "shop.toml, key prices.endings: this takes a list; write endings = [0.00, 0.50]",
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
    fn a_section_that_stands_twice_is_named_with_both_lines() {
        let (settings, problems) = read("currency = \"USD\"\n[payments]\ncash = 0\n[words]\n[payments]\ntap = 1\n");
        assert!(settings.is_none());
        let expected =
            "shop.toml, line 5: [payments] stands here for the second time, first in line 2; write all its lines where it stands first";
        assert_eq!(problems, [expected]);
        let (_, problems) = read("currency = \"USD\"\nspares = \"5 %\"\nspares = \"10 %\"\n");
        assert!(problems[0].starts_with("shop.toml, line 3: spares stands here for the second time, first in line 2"), "{problems:?}");
    }

    #[test]
    fn broken_toml_names_its_line() {
        let (settings, problems) = read("currency = \"USD\"\n[wage\n");
        assert!(settings.is_none());
        assert!(problems[0].starts_with("shop.toml, line 2: cannot be read here"), "{problems:?}");
    }
}
