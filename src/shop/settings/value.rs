//! One value of `shop.toml`: its text read as its setting's kind says.

use super::specification::Kind;
use super::{COST_FLOWS, SHARED_BY, Settings};
use crate::quantity::millionths::Money;
use crate::quantity::{Day, Percent, number};
use crate::reading::Advice;
use crate::reading::nearest::nearest;
use crate::shop::sources::table_named;
use rust_decimal::Decimal;

/// What is wrong with a text, and what to write instead.
pub(super) type Wrong = (&'static str, Advice);

impl Kind {
    /// Whether it is a list of values.
    pub(crate) fn is_list(self) -> bool {
        matches!(self, Self::Endings(_) | Self::Rows(_))
    }

    /// Keeps a value, or the values of a list, as far as they can be read; each text that cannot be read comes back with why.
    pub fn keep<'t>(self, settings: &mut Settings, names: &[String], texts: &[&'t str]) -> Vec<(&'t str, Wrong)> {
        if let Self::Endings(keep) = self {
            return keep_endings(texts, |endings| keep(settings, names, endings));
        }
        if let Self::Rows(keep) = self {
            return keep_rows(texts, |rows| keep(settings, names, rows));
        }
        let text = texts.first().copied().unwrap_or_default();
        let kept = match self {
            Self::Currency(keep) => {
                // Kept all the same: what the tables' problems come to is then written with it.
                keep(settings, names, text.to_owned());
                currency(text)
            }
            Self::Percent(keep) => percent(text).map(|percent| keep(settings, names, percent)),
            Self::Money(keep) => money(text).map(|money| keep(settings, names, money)),
            Self::Whole(keep) => whole(text).map(|number| keep(settings, names, number)),
            Self::Truth(keep) => truth(text).map(|truth| keep(settings, names, truth)),
            Self::CostFlow(keep) => word(text, COST_FLOWS).map(|flow| keep(settings, names, flow)),
            Self::SharedBy(keep) => word(text, SHARED_BY).map(|by| keep(settings, names, by)),
            Self::Day(keep) => day(text).map(|day| keep(settings, names, day)),
            Self::Text(keep) => {
                keep(settings, names, text.to_owned());
                Ok(())
            }
            Self::Endings(_) | Self::Rows(_) => Ok(()),
        };
        kept.err().map(|wrong| (text, wrong)).into_iter().collect()
    }
}

fn currency(text: &str) -> Result<(), Wrong> {
    let is_code = text.len() == 3 && text.bytes().all(|byte| byte.is_ascii_uppercase());
    is_code.then_some(()).ok_or_else(|| ("is not a currency code of three capitals", "write USD, EUR, GBP or another".into()))
}

fn percent(text: &str) -> Result<Percent, Wrong> {
    let percent = Percent::parse(text).filter(|percent| i128::from(percent.0) <= Percent::WHOLE);
    percent.ok_or_else(|| ("is not a percentage", "write it as \"10 %\"".into()))
}

fn money(text: &str) -> Result<Money, Wrong> {
    let sound = |value: &Decimal| *value >= Decimal::ZERO && *value <= Decimal::from(1_000_000);
    let money = number::plain(text).filter(sound).and_then(Money::from_decimal);
    money.ok_or_else(|| ("is not an amount of money", "write it as 20.00".into()))
}

fn keep_endings<'t>(texts: &[&'t str], keep: impl FnOnce(Vec<Money>)) -> Vec<(&'t str, Wrong)> {
    let (mut endings, mut wrong) = (Vec::new(), Vec::new());
    for text in texts {
        match money(text) {
            Ok(ending) if ending.decimal() < Decimal::ONE => endings.push(ending),
            Ok(_) => wrong.push((*text, ("is not below 1", "write endings as 0.00, 0.50".into()))),
            Err(why) => wrong.push((*text, why)),
        }
    }
    endings.sort_unstable();
    endings.dedup();
    keep(endings);
    wrong
}

fn keep_rows<'t>(texts: &[&'t str], keep: impl FnOnce(Vec<String>)) -> Vec<(&'t str, Wrong)> {
    let is_of_table = |text: &&&str| table_named(text).is_some();
    let (rows, wrong): (Vec<&str>, Vec<&str>) = texts.iter().partition(is_of_table);
    keep(rows.into_iter().map(str::to_owned).collect());
    let instead = || "write it as check names the rows: \"hours 2026-09-01 (3 rows)\"".into();
    wrong.into_iter().map(|text| (text, ("does not begin with a table's name", instead()))).collect()
}

fn whole(text: &str) -> Result<i32, Wrong> {
    let number = text.parse().ok().filter(|number| (0..=366).contains(number));
    number.ok_or_else(|| ("is not a whole number from 0 to 366", "write it as 7".into()))
}

fn truth(text: &str) -> Result<bool, Wrong> {
    text.parse().map_err(|_| ("is neither true nor false", "write true or false".into()))
}

fn day(text: &str) -> Result<Day, Wrong> {
    Day::parse(text).ok_or_else(|| ("is not a date", "write a date as 2026-02-01".into()))
}

fn word<T: Copy>(text: &str, words: &[(&str, T)]) -> Result<T, Wrong> {
    let found = words.iter().find(|(word, _)| *word == text).map(|(_, value)| *value);
    found.ok_or_else(|| {
        let known: Vec<&str> = words.iter().map(|(word, _)| *word).collect();
        let instead = match nearest(text, known.iter().copied()) {
            Some(near) => Advice::DidYouMean(near.to_owned()),
            None => format!("write one of: {}", known.join(", ")).into(),
        };
        ("is not a word this setting knows", instead)
    })
}
