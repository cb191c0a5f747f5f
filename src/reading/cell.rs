//! Reads one cell as its column's type, or says what is wrong with it and what to write instead.

use super::format::Wrong;
use super::format::number::{SLIP, bounded};
use super::nearest::nearest;
use super::problem_kind::{
    NOT_A_PERCENTAGE, NOT_A_PRICE, NOT_MINUTES, NOT_MONEY, NOT_PIECES, NOT_WHOLE, TOO_LARGE, TOO_MANY_DECIMALS, TOO_SMALL, UNKNOWN_WORD,
};
use super::specification::Least;
use crate::quantity::millionths::Money;
use crate::quantity::{Percent, Price, number, ratio};
use rust_decimal::Decimal;

/// Most pieces in one line.
const MOST_PIECES: i64 = 1_000_000;
/// Advice on a number with more decimals than are kept.
const ROUND: &str = "round it to six decimals or fewer";

/// Reads a time of day as minutes after midnight.
pub(super) fn time(text: &str) -> Option<i64> {
    let (hours, minutes) = text.split_once(':')?;
    let part = |text: &str, most: i64| {
        let shaped = (1..=2).contains(&text.len()) && text.bytes().all(|byte| byte.is_ascii_digit());
        shaped.then(|| text.parse::<i64>().ok()).flatten().filter(|value| *value < most)
    };
    (minutes.len() == 2).then_some(())?;
    Some(part(hours, 24)? * 60 + part(minutes, 60)?)
}

/// Reads a small whole number.
pub(super) fn whole(text: &str) -> Result<i64, Wrong> {
    let not = || (&NOT_WHOLE, "is not a whole number".into(), "write a whole number, as 5".into());
    let value = bounded(number::plain(text).filter(|value| value.fract().is_zero()).ok_or_else(not)?, Least::Nil)?;
    value
        .normalize()
        .to_string()
        .parse()
        .ok()
        .filter(|value| *value <= MOST_PIECES)
        .ok_or_else(|| (&TOO_LARGE, "is more than a million".into(), SLIP.into()))
}

/// The plain number that a text with signs or separators probably stands for.
fn without_dress(text: &str) -> Option<String> {
    let bare: String = text.chars().filter(|c| c.is_ascii_digit() || matches!(c, '.' | '-')).collect();
    let dressed = text.chars().all(|c| c.is_ascii_digit() || matches!(c, '.' | '-' | ',' | ' ' | '$' | '£' | '€'));
    // "1,50" may be one and a half.
    let decimal_comma = text.rsplit_once(',').is_some_and(|(_, after)| after.split('.').next().map(str::len) != Some(3));
    (dressed && !decimal_comma && number::plain(&bare).is_some()).then_some(bare)
}

fn number_advice(text: &str) -> String {
    match without_dress(text) {
        Some(bare) => format!("write {bare}"),
        None => "write digits alone, with a point for decimals, as 1234.50".into(),
    }
}

/// Reads money, in millionths.
pub(super) fn money(text: &str, least: Least) -> Result<i64, Wrong> {
    millionths(text, least, || (&NOT_MONEY, "is not an amount of money".into(), number_advice(text)))
}

/// Reads minutes, in millionths.
pub(super) fn minutes(text: &str) -> Result<i64, Wrong> {
    let advice = || without_dress(text).map_or_else(|| "write minutes in digits alone, as 95".into(), |bare| format!("write {bare}"));
    millionths(text, Least::Nil, || (&NOT_MINUTES, "is not a number of minutes".into(), advice()))
}

fn millionths(text: &str, least: Least, not: impl FnOnce() -> Wrong) -> Result<i64, Wrong> {
    let value = bounded(number::plain(text).ok_or_else(not)?, least)?;
    let stored = Money::from_decimal(value).and_then(|money| ratio::narrow(money.0).ok());
    stored.ok_or_else(|| (&TOO_MANY_DECIMALS, "has more than six decimals".into(), ROUND.into()))
}

/// Reads a price per piece or per dozen.
pub(super) fn price(text: &str) -> Result<Price, Wrong> {
    let price = Price::parse(text).ok_or_else(|| {
        if number::plain(text.split('/').next().unwrap_or_default().trim_end()).is_some_and(|number| Money::from_decimal(number).is_none())
        {
            return (&TOO_MANY_DECIMALS, "has more than six decimals".into(), ROUND.into());
        }
        let advice = without_dress(text).map_or_else(|| "write 4.50 for one piece, or 54/dozen".into(), |bare| format!("write {bare}"));
        (&NOT_A_PRICE, "is not a price".into(), advice)
    })?;
    if price.amount < Money::ZERO {
        return Err((&TOO_SMALL, "is less than 0".into(), "write it without a minus".into()));
    }
    bounded(price.amount.decimal(), Least::Nil).map(|_| price)
}

/// Reads whole pieces, or dozens.
pub(super) fn pieces(text: &str, least: Least) -> Result<i64, Wrong> {
    let count = number::pieces(text)
        .ok_or_else(|| (&NOT_PIECES, "is not a whole number of pieces".into(), "write pieces as 24, or dozens as 2 dozen".into()))?;
    bounded(Decimal::from(count), least)?;
    if count > MOST_PIECES {
        return Err((&TOO_LARGE, "is more than a million pieces".into(), SLIP.into()));
    }
    Ok(count)
}

/// Reads a percentage.
pub(super) fn percent(text: &str) -> Result<Percent, Wrong> {
    let advice = if text.starts_with('-') { "write it without a minus" } else { "write it with its sign, as 10 %" };
    Percent::parse(text).ok_or_else(|| (&NOT_A_PERCENTAGE, "is not a percentage".into(), advice.into()))
}

/// Reads one of a list of words, as its place in the list.
pub(super) fn choice(text: &str, words: &'static [&'static str]) -> Result<i64, Wrong> {
    let found = words.iter().position(|word| *word == text).and_then(|at| i64::try_from(at).ok());
    found.ok_or_else(|| {
        let advice = match nearest(text, words.iter().copied()) {
            Some(word) => format!("write {word}"),
            None => format!("write one of: {}", words.join(", ")),
        };
        (&UNKNOWN_WORD, "is not a word this column knows".into(), advice)
    })
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn times_of_day_are_read() {
        assert_eq!((time("18:30"), time("9:05"), time("00:00")), (Some(1110), Some(545), Some(0)));
        for wrong in ["24:00", "9:5", "18.30", "6pm", ":30", "1:60"] {
            assert_eq!(time(wrong), None, "{wrong}");
        }
    }
}
