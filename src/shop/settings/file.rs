//! The file `shop.toml`: its text read as typed, then validated.
//!
//! Numbers are taken from their text and never pass through a binary float. Every problem is found in one
//! reading: an unknown key names the nearest known one.

use super::typed::Typed;
use super::validator::Validator;
use super::{FILE, Settings, shape};
use crate::reading::nearest::nearest;
use crate::reading::{Place, Problem};
use crate::shop::kinds::{NOT_TOML, SETTING_VALUE, UNKNOWN_SETTING};

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
                    Problem::of_file(&NOT_TOML, FILE, format!("cannot be read here: {}", error.message().replace('\n', ", "))).at(place),
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
                    problems.push(Problem::of_file(&SETTING_VALUE, FILE, message).instead("see README, 'shop.toml'"));
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
    let problem = Problem::of_file(&UNKNOWN_SETTING, FILE, "is not a setting").found(path);
    match nearest(key, keys.iter().copied()) {
        Some(near) => problem.instead(format!("did you mean {near}?")),
        None if keys.is_empty() => problem.instead("remove it"),
        None => problem.instead(format!("use one of: {}", keys.join(", "))),
    }
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
            "shop.toml: 'spare' is not a setting; did you mean spares?",
            "shop.toml: 'wage.targt' is not a setting; did you mean target?",
            "shop.toml, key currency: 'usd' is not a currency code of three capitals; write USD, EUR, GBP or another",
            "shop.toml, key stages.glaze: 'piece' is not a word this setting knows; did you mean pieces?",
            "shop.toml, key seasons.spring: '2026-05-01' is after the season's end; swap from and to",
            "shop.toml, key cost_flow: 'fifi' is not a word this setting knows; did you mean fifo?",
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
    fn broken_toml_names_its_line() {
        let (settings, problems) = read("currency = \"USD\"\n[wage\n");
        assert!(settings.is_none());
        assert!(problems[0].starts_with("shop.toml, line 2: cannot be read here"), "{problems:?}");
    }
}
