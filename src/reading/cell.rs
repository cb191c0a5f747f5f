//! Reads one cell as its column's type, or says what is wrong with it and what to write instead.

use super::nearest::nearest;
use super::problem_kind::{
    NOT_A_NUMBER, NOT_A_PRICE, NOT_MINUTES, NOT_MONEY, NOT_PIECES, NOT_WHOLE, ProblemKind, TOO_LARGE, TOO_MANY_DECIMALS, TOO_SMALL,
    UNKNOWN_WORD,
};
use super::specification::Least;
use crate::quantity::millionths::Money;
use crate::quantity::{Price, number, ratio};
use rust_decimal::Decimal;

/// Largest money, minutes and numbers a cell may hold; larger is a slip of the keyboard.
const MOST: i64 = 1_000_000_000;
/// Most pieces in one line.
const MOST_PIECES: i64 = 1_000_000;
/// Advice on a number with more decimals than are kept.
const ROUND: &str = "round it to six decimals or fewer";
/// Advice on a number too large to be meant.
const SLIP: &str = "check it for a typing slip";

/// What is wrong with a cell: its kind, in words, and what to write instead.
pub(super) type Wrong = (&'static ProblemKind, &'static str, String);

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
    let not = || (&NOT_WHOLE, "is not a whole number", "write a whole number, as 5".into());
    let value = bounded(number::plain(text).filter(|value| value.fract().is_zero()).ok_or_else(not)?, Least::Nil)?;
    value
        .normalize()
        .to_string()
        .parse()
        .ok()
        .filter(|value| *value <= MOST_PIECES)
        .ok_or_else(|| (&TOO_LARGE, "is more than a million", SLIP.into()))
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

fn bounded(value: Decimal, least: Least) -> Result<Decimal, Wrong> {
    let low = match least {
        Least::Any => false,
        Least::Nil => value < Decimal::ZERO,
        Least::AboveNil => value <= Decimal::ZERO,
        Least::NotNil => value.is_zero(),
    };
    if low {
        return Err(match least {
            Least::NotNil => (&TOO_SMALL, "is zero", "write a number other than 0".into()),
            Least::AboveNil => (&TOO_SMALL, "is not more than 0", "write a number above 0".into()),
            _ => (&TOO_SMALL, "is less than 0", "write it without a minus".into()),
        });
    }
    if value.abs() > Decimal::from(MOST) {
        return Err((&TOO_LARGE, "is more than a billion", SLIP.into()));
    }
    Ok(value)
}

/// Reads a plain decimal number.
pub(super) fn number_cell(text: &str, least: Least) -> Result<Decimal, Wrong> {
    bounded(number::plain(text).ok_or_else(|| (&NOT_A_NUMBER, "is not a number", number_advice(text)))?, least)
}

/// Reads money, in millionths.
pub(super) fn money(text: &str, least: Least) -> Result<i64, Wrong> {
    millionths(text, least, || (&NOT_MONEY, "is not an amount of money", number_advice(text)))
}

/// Reads minutes, in millionths.
pub(super) fn minutes(text: &str) -> Result<i64, Wrong> {
    let advice = || without_dress(text).map_or_else(|| "write minutes in digits alone, as 95".into(), |bare| format!("write {bare}"));
    millionths(text, Least::Nil, || (&NOT_MINUTES, "is not a number of minutes", advice()))
}

fn millionths(text: &str, least: Least, not: impl FnOnce() -> Wrong) -> Result<i64, Wrong> {
    let value = bounded(number::plain(text).ok_or_else(not)?, least)?;
    let stored = Money::from_decimal(value).and_then(|money| ratio::narrow(money.0).ok());
    stored.ok_or_else(|| (&TOO_MANY_DECIMALS, "has more than six decimals", ROUND.into()))
}

/// Reads a price per piece or per dozen.
pub(super) fn price(text: &str) -> Result<Price, Wrong> {
    let price = Price::parse(text).ok_or_else(|| {
        if number::plain(text.split('/').next().unwrap_or_default().trim_end()).is_some_and(|number| Money::from_decimal(number).is_none())
        {
            return (&TOO_MANY_DECIMALS, "has more than six decimals", ROUND.into());
        }
        let advice = without_dress(text).map_or_else(|| "write 4.50 for one piece, or 54/dozen".into(), |bare| format!("write {bare}"));
        (&NOT_A_PRICE, "is not a price", advice)
    })?;
    if price.amount < Money::ZERO {
        return Err((&TOO_SMALL, "is less than 0", "write it without a minus".into()));
    }
    bounded(price.amount.decimal(), Least::Nil).map(|_| price)
}

/// Reads whole pieces, or dozens.
pub(super) fn pieces(text: &str, least: Least) -> Result<i64, Wrong> {
    let count = number::pieces(text)
        .ok_or_else(|| (&NOT_PIECES, "is not a whole number of pieces", "write pieces as 24, or dozens as 2 dozen".into()))?;
    bounded(Decimal::from(count), least)?;
    if count > MOST_PIECES {
        return Err((&TOO_LARGE, "is more than a million pieces", SLIP.into()));
    }
    Ok(count)
}

/// Reads one of a list of words, as its place in the list.
pub(super) fn choice(text: &str, words: &'static [&'static str]) -> Result<i64, Wrong> {
    let found = words.iter().position(|word| *word == text).and_then(|at| i64::try_from(at).ok());
    found.ok_or_else(|| {
        let advice = match nearest(text, words.iter().copied()) {
            Some(word) => format!("write {word}"),
            None => format!("write one of: {}", words.join(", ")),
        };
        (&UNKNOWN_WORD, "is not a word this column knows", advice)
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
