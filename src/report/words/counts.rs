//! Counts with their nouns, in the singular and the plural, and lists of names.

use super::numbers::{grouped, tenths};
use crate::quantity::millionths::{MILLION, Minutes, Money};

/// A count with its noun: `1 order`, `12 orders`.
#[must_use]
pub fn counted(count: impl TryInto<i64>, one: &str, many: &str) -> String {
    let count = number(count);
    let noun = if count == "1" { one } else { many };
    format!("{count} {noun}")
}

/// A count with its thousands parted: `1,200`.
#[must_use]
pub fn number(count: impl TryInto<i64>) -> String {
    grouped(count.try_into().unwrap_or(i64::MAX).unsigned_abs().into(), 0)
}

/// A name at the head of a sentence.
#[must_use]
pub fn capitalised(name: &str) -> String {
    let mut letters = name.chars();
    letters.next().map_or_else(String::new, |first| first.to_uppercase().chain(letters).collect())
}

/// A small count as a word: `three`.
#[must_use]
pub fn in_letters(count: usize) -> String {
    let words = ["no", "one", "two", "three", "four", "five", "six", "seven", "eight", "nine", "ten", "eleven", "twelve"];
    words.get(count).map_or_else(|| count.to_string(), |word| (*word).to_owned())
}

/// Colours with a decimal where they are not whole: `5 colours`, `4.6 colours`, `1 colour`.
#[must_use]
pub fn colours(count: Money) -> String {
    match (count.0 % MILLION, count.0 / MILLION) {
        (0, 1) => "1 colour".to_owned(),
        (0, whole) => format!("{whole} colours"),
        _ => format!("{} colours", tenths(Minutes(count.0))),
    }
}

/// Some things in a row: `a`, `a and b`, `a, b and c`.
#[must_use]
pub fn and(things: &[String]) -> String {
    match things {
        [] => String::new(),
        [only] => only.clone(),
        [first @ .., last] => format!("{} and {last}", first.join(", ")),
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn one_is_singular_and_all_others_plural() {
        let orders = [0, 1, 2, 1200].map(|count| counted(count, "order", "orders"));
        assert_eq!(orders, ["0 orders", "1 order", "2 orders", "1,200 orders"]);
        assert_eq!([1_000_000, 5_000_000, 4_600_000].map(|count| colours(Money(count))), ["1 colour", "5 colours", "4.6 colours"]);
        assert_eq!([1, 12, 13].map(in_letters), ["one", "twelve", "13"]);
    }

    #[test]
    fn lists_have_commas_and_one_and() {
        let names = ["a", "b", "c"].map(str::to_owned);
        assert_eq!([0, 1, 2, 3].map(|count| and(&names[..count])), ["", "a", "a and b", "a, b and c"]);
    }
}
