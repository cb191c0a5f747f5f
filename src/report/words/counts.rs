//! Counts with their nouns, in the singular and the plural.

use super::numbers::{grouped, tenths};
use crate::quantity::millionths::{MILLION, Minutes, Money};

/// Writes a count with its noun: `1 order`, `12 orders`.
#[must_use]
pub fn counted(count: impl TryInto<i64>, one: &str, many: &str) -> String {
    let count = whole(count);
    format!("{} {}", number(count), if count == 1 { one } else { many })
}

/// Writes a count with its thousands parted: `1,200`.
#[must_use]
pub fn number(count: impl TryInto<i64>) -> String {
    let count = whole(count);
    format!("{}{}", if count < 0 { "−" } else { "" }, grouped(count.unsigned_abs().into(), 0))
}

/// Writes a count as a table shows it: blank where there are none.
#[must_use]
pub fn number_unless_zero(count: i64) -> String {
    if count == 0 { String::new() } else { number(count) }
}

/// A count that fits no `i64` is shown as the largest one.
fn whole(count: impl TryInto<i64>) -> i64 {
    count.try_into().unwrap_or(i64::MAX)
}

/// Writes a name as it stands at the head of a sentence.
#[must_use]
pub fn capitalised(name: &str) -> String {
    let mut letters = name.chars();
    letters.next().map_or_else(String::new, |first| first.to_uppercase().chain(letters).collect())
}

/// Writes a small count as a word: `three`; from thirteen on in digits.
#[must_use]
pub fn in_letters(count: usize) -> String {
    let words = ["no", "one", "two", "three", "four", "five", "six", "seven", "eight", "nine", "ten", "eleven", "twelve"];
    words.get(count).map_or_else(|| number(count), |word| (*word).to_owned())
}

/// Writes a count of colours, in millionths, with a decimal where it is not whole: `5 colours`, `4.6 colours`, `1 colour`.
#[must_use]
pub fn colours(count: Money) -> String {
    match (count.0 % MILLION, count.0 / MILLION) {
        (0, 1) => "1 colour".to_owned(),
        (0, whole) => format!("{whole} colours"),
        _ => format!("{} colours", tenths(Minutes(count.0))),
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
        assert_eq!([1, 12, 13, 1300].map(in_letters), ["one", "twelve", "13", "1,300"]);
        assert_eq!([0, 1206, -1206].map(number), ["0", "1,206", "−1,206"]);
        assert_eq!([0, 1206].map(number_unless_zero), ["", "1,206"]);
    }
}
