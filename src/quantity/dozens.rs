//! Pieces as a person says them: `24`, `2 dozen`, `2 dz`, `half a dozen`, `1/2 doz`, `two dozen`, `24 pcs`. The one grammar of pieces, in a
//! cell as on the command line; who reads a cell says how its numbers are written.

use super::fraction::Fraction;
use super::number;
use rust_decimal::Decimal;

/// Words for twelve.
const DOZEN: [&str; 5] = ["dozen", "dozens", "doz", "dz", "dzn"];
/// Words for one.
const PIECES: [&str; 13] = ["piece", "pieces", "pc", "pcs", "ct", "count", "cookie", "cookies", "each", "ea", "unit", "units", "x"];
/// Numbers in words.
const NUMBERS: [(&str, u32); 14] = [
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
];
/// Half of a dozen, in words; half a cookie is not sold.
const HALF: [&str; 5] = ["half", "half a", "a half", "half of a", "half-"];
/// A half after a number of dozens, in words.
const AND_A_HALF: &str = " and a half";

/// Whether a word says twelve; a point may stand after it.
#[must_use]
pub(crate) fn is_dozen(word: &str) -> bool {
    is_one_of(&DOZEN, word)
}

/// Whether a word says one piece; a point may stand after it.
#[must_use]
pub(crate) fn is_piece(word: &str) -> bool {
    word == "×" || is_one_of(&PIECES, word)
}

fn is_one_of(words: &[&str], text: &str) -> bool {
    let text = text.strip_suffix('.').unwrap_or(text);
    words.iter().any(|word| word.eq_ignore_ascii_case(text))
}

/// Reads a text that is pieces and nothing else, its number as `number` reads one. `None` where it is not, or the pieces are not whole.
#[must_use]
pub fn pieces(text: &str, number: impl Fn(&str) -> Option<Decimal>) -> Option<i64> {
    let text = text.trim();
    let ends = text.trim_end_matches(['.', '×']);
    let head = ends.trim_end_matches(|c: char| c.is_ascii_alphabetic());
    let unit = &ends[head.len()..];
    let count = if is_dozen(unit) {
        dozens(head.trim_end(), number)?
    } else if unit.is_empty() || is_piece(unit) {
        count(head.trim_end(), number)?
    } else {
        count(ends, number)?
    };
    number::whole(count.decimal()?)
}

/// Reads pieces at the beginning of a text with plain numbers, and gives them with the rest: as many words as are pieces, but for a last one
/// that may be a name. `None` where it begins with none, or they are not whole.
#[must_use]
pub(crate) fn leading(text: &str) -> Option<(i64, &str)> {
    let text = text.trim();
    let ends = text.char_indices().filter(|(_, c)| c.is_whitespace()).map(|(at, _)| at).chain([text.len()]);
    let may_end = |end: &usize| *end < text.len() || !text.split_whitespace().next_back().is_some_and(is_piece);
    let mut ends: Vec<usize> = ends.filter(may_end).collect();
    ends.reverse();
    ends.into_iter().find_map(|end| {
        let rest = text[end..].trim_start();
        let of =
            rest.split_once(char::is_whitespace).filter(|(word, _)| word.eq_ignore_ascii_case("of")).map(|(_, rest)| rest.trim_start());
        pieces(&text[..end], number::plain).map(|pieces| (pieces, of.filter(|rest| !rest.is_empty()).unwrap_or(rest)))
    })
}

/// So many dozens, in pieces: none written is one.
fn dozens(text: &str, number: impl Fn(&str) -> Option<Decimal>) -> Option<Fraction> {
    let is = |words: &[&str]| words.iter().any(|word| word.eq_ignore_ascii_case(text));
    let count = if text.is_empty() {
        Fraction { above: Decimal::ONE, below: 1 }
    } else if is(&HALF) {
        Fraction { above: Decimal::ONE, below: 2 }
    } else {
        let text = text.strip_suffix('-').unwrap_or(text);
        let (text, has_half) = match text.len().checked_sub(AND_A_HALF.len()).and_then(|at| text.split_at_checked(at)) {
            Some((count, half)) if half.eq_ignore_ascii_case(AND_A_HALF) => (count, true),
            _ => (text, false),
        };
        let count = count(text, number)?;
        let half = Decimal::from(count.below) / Decimal::TWO;
        Fraction { above: count.above.checked_add(if has_half { half } else { Decimal::ZERO })?, ..count }
    };
    Some(Fraction { above: count.above.checked_mul(Decimal::from(12))?, ..count })
}

/// A number, in digits or in words.
fn count(text: &str, number: impl Fn(&str) -> Option<Decimal>) -> Option<Fraction> {
    let in_words = NUMBERS.iter().find(|(word, _)| word.eq_ignore_ascii_case(text));
    in_words.map(|(_, number)| Fraction { above: Decimal::from(*number), below: 1 }).or_else(|| Fraction::read(text, number))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn pieces_are_read_as_people_say_them() {
        for (text, said) in [
            ("24", 24),
            ("-3", -3),
            ("2 dozen", 24),
            ("2 Dozens", 24),
            ("2 dz", 24),
            ("2dz", 24),
            ("2doz.", 24),
            ("two dozen", 24),
            ("Two-dozen", 24),
            ("2-dozen", 24),
            ("a dozen", 12),
            ("dozen", 12),
            ("half dozen", 6),
            ("half a dozen", 6),
            ("Half-dozen", 6),
            ("half of a dozen", 6),
            ("1/2 doz", 6),
            ("½ dozen", 6),
            ("1 1/2 dozen", 18),
            ("1½ dozen", 18),
            ("2 ½ dozen", 30),
            ("one and a half dozen", 18),
            ("1.5 dozen", 18),
            ("1/3 dozen", 4),
            ("1/12 dozen", 1),
            ("24 pcs", 24),
            ("24pcs.", 24),
            ("24 ct", 24),
            ("twelve cookies", 12),
            ("6x", 6),
            ("6 ×", 6),
            ("a", 1),
        ] {
            assert_eq!(pieces(text, number::plain), Some(said), "{text}");
        }
        for wrong in [
            "",
            "half",
            "half a",
            "1/2",
            "2.5",
            "1.3 dozen",
            "1/0 dozen",
            "1/8 dozen",
            "1/3",
            "24/2",
            "dozenfold",
            "2 dozens of",
            "x",
            "pcs",
            "24 boxes",
            "99999999999999999999 dozen",
            "1/2/3",
            "two and a half",
            "--2 dozen",
            "- dozen",
        ] {
            assert_eq!(pieces(wrong, number::plain), None, "{wrong}");
        }
    }

    #[test]
    fn what_follows_the_pieces_is_left() {
        for (text, pieces, rest) in [
            ("2 dz numeral", 24, "numeral"),
            ("half dozen shape", 6, "shape"),
            ("half a dozen shape", 6, "shape"),
            ("a dozen of the letter", 12, "the letter"),
            ("one and a half dozen letter", 18, "letter"),
            ("12 number 5", 12, "number 5"),
            ("6 half moon", 6, "half moon"),
            ("4 a b", 4, "a b"),
            ("12 cookie", 12, "cookie"),
            ("12 pcs cookie", 12, "cookie"),
            ("2 dozen", 24, ""),
        ] {
            assert_eq!(leading(text), Some((pieces, rest)), "{text}");
        }
        assert_eq!(leading("half moon"), None);
        assert_eq!(leading("numeral 6"), None);
    }
}
