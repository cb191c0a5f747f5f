//! Pieces as a person says them: `24`, `2 dozen`, `2 dz`, `half a dozen`, `1/2 doz`, `24 pcs`.

use super::number;
use rust_decimal::Decimal;

/// Words for twelve.
const DOZEN: [&str; 6] = ["dozen", "dozens", "doz", "dz", "dzn", "doz."];
/// Words for one.
const PIECES: [&str; 11] = ["piece", "pieces", "pc", "pcs", "pc.", "pcs.", "ct", "ct.", "count", "x", "×"];
/// Numbers in words.
const NUMBERS: [(&str, i64); 15] = [
    ("a", 1),
    ("an", 1),
    ("one", 1),
    ("two", 2),
    ("three", 3),
    ("four", 4),
    ("five", 5),
    ("six", 6),
    ("seven", 7),
    ("eight", 8),
    ("nine", 9),
    ("ten", 10),
    ("eleven", 11),
    ("twelve", 12),
    ("dozen", 12),
];

/// Reads pieces at the beginning of a text, and gives them with the rest. `None` where it begins with none, or they are not
/// whole.
#[must_use]
pub fn leading(text: &str) -> Option<(i64, &str)> {
    let (first, rest) = word(text)?;
    let (count, rest) = if first.eq_ignore_ascii_case("half") {
        let rest = after(rest, &["a", "of a"]).unwrap_or(rest);
        // Half a dozen; half a cookie is not sold.
        (Decimal::new(5, 1), after(rest, &DOZEN).map(|_| rest)?)
    } else {
        let (count, unit) = number_with_unit(first)?;
        if let Some(times) = unit {
            return whole(count * Decimal::from(times)).map(|pieces| (pieces, rest));
        }
        match with_half(rest) {
            Some((half, rest)) => (count + half, rest),
            None => (count, rest),
        }
    };
    let (times, rest) = match (after(rest, &DOZEN), after(rest, &PIECES)) {
        (Some(rest), _) => (12, rest),
        (None, Some(rest)) => (1, rest),
        (None, None) => (1, rest),
    };
    whole(count.checked_mul(Decimal::from(times))?)
        .map(|pieces| (pieces, after(rest, &["of"]).filter(|rest| !rest.is_empty()).unwrap_or(rest)))
}

/// Reads a text that is pieces and nothing else.
#[must_use]
pub fn pieces(text: &str) -> Option<i64> {
    leading(text).filter(|(_, rest)| rest.is_empty()).map(|(pieces, _)| pieces)
}

/// A number that is one word, with the pieces of a unit that sticks to it: `24`, `1/2`, `two`, `2dz`, `24pcs`, `6x`.
fn number_with_unit(text: &str) -> Option<(Decimal, Option<i64>)> {
    let folded = text.to_lowercase();
    if let Some((_, number)) = NUMBERS.iter().find(|(word, _)| *word == folded) {
        return Some((Decimal::from(*number), None));
    }
    let end = folded.find(|c: char| !(c.is_ascii_digit() || ".,/-½".contains(c))).unwrap_or(folded.len());
    let (number, unit) = folded.split_at(end);
    let count = match number.split_once('/') {
        Some((part, of)) => number::plain(part)?.checked_div(number::plain(of)?)?,
        None => match number.strip_suffix('½') {
            Some("") => Decimal::new(5, 1),
            Some(number) => number::plain(number)? + Decimal::new(5, 1),
            None => number::plain(number)?,
        },
    };
    let times = match unit {
        "" => None,
        unit if DOZEN.contains(&unit) => Some(12),
        unit if PIECES.contains(&unit) => Some(1),
        _ => return None,
    };
    Some((count, times))
}

/// A half after a number: `1 1/2 dozen`, `one and a half dozen`.
fn with_half(text: &str) -> Option<(Decimal, &str)> {
    let rest = after(text, &["1/2", "½", "and a half"])?;
    after(rest, &DOZEN).map(|_| (Decimal::new(5, 1), rest))
}

/// The rest after one of some words, or runs of words.
fn after<'a>(text: &'a str, words: &[&str]) -> Option<&'a str> {
    words.iter().find_map(|known| {
        known.split(' ').try_fold(text, |text, known| word(text).filter(|(word, _)| word.eq_ignore_ascii_case(known)).map(|(_, rest)| rest))
    })
}

/// The first word of a text, and the rest.
fn word(text: &str) -> Option<(&str, &str)> {
    let text = text.trim();
    (!text.is_empty()).then(|| text.split_once(char::is_whitespace).map_or((text, ""), |(word, rest)| (word, rest.trim_start())))
}

fn whole(count: Decimal) -> Option<i64> {
    count.fract().is_zero().then(|| i64::try_from(count.trunc().mantissa() / 10_i128.pow(count.trunc().scale())).ok()).flatten()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn pieces_are_read_as_people_say_them() {
        for (text, said) in [
            ("24", 24),
            ("2 dozen", 24),
            ("2 dz", 24),
            ("2dz", 24),
            ("2 Doz", 24),
            ("two dozen", 24),
            ("a dozen", 12),
            ("dozen", 12),
            ("half dozen", 6),
            ("half a dozen", 6),
            ("1/2 doz", 6),
            ("½ dozen", 6),
            ("1 1/2 dozen", 18),
            ("1½ dozen", 18),
            ("one and a half dozen", 18),
            ("1.5 dozen", 18),
            ("24 pcs", 24),
            ("24pcs", 24),
            ("24 ct", 24),
            ("6x", 6),
            ("6 ×", 6),
            ("a", 1),
            ("-3", -3),
        ] {
            assert_eq!(pieces(text), Some(said), "{text}");
        }
        for wrong in
            ["", "half", "half a", "1/2", "2.5", "1/0 dozen", "1/3", "dozenfold", "2 dozens of", "x", "99999999999999999999 dozen", "1/2/3"]
        {
            assert_eq!(pieces(wrong), None, "{wrong}");
        }
    }

    #[test]
    fn what_follows_the_pieces_is_left() {
        for (text, pieces, rest) in [
            ("2 dz numeral", 24, "numeral"),
            ("half dozen shape", 6, "shape"),
            ("a dozen of the letter", 12, "the letter"),
            ("12 number 5", 12, "number 5"),
            ("6 half moon", 6, "half moon"),
            ("4 a b", 4, "a b"),
        ] {
            assert_eq!(leading(text), Some((pieces, rest)), "{text}");
        }
        assert_eq!(leading("half moon"), None);
        assert_eq!(leading("numeral 6"), None);
    }
}
