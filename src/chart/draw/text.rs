//! Makes any text fit to be drawn: cleaned to what the font holds, measured, wrapped, cut short.
//!
//! Widths are sums of letter advances. Kerning, which resvg adds, nearly always narrows, so a text takes the
//! room measured here or a little less.

use super::font::{self, Weight};

/// What stands for a letter the font lacks: the replacement character, a question mark in a diamond.
const MISSING: char = '\u{FFFD}';
const ELLIPSIS: char = '…';

/// Returns `text` with every letter drawable: runs of white space become one space, control characters and invisible
/// ones (joiners, direction marks, variation selectors) go, a letter the font lacks becomes `�`.
pub fn clean(text: &str) -> String {
    let mut cleaned = String::with_capacity(text.len());
    let mut marks = 0;
    for letter in text.chars() {
        if letter.is_whitespace() {
            if !cleaned.is_empty() && !cleaned.ends_with(' ') {
                cleaned.push(' ');
            }
        } else if is_combining(letter) {
            // More than two accents on a letter would climb into the line above.
            if marks < 2 && !cleaned.is_empty() && font::advance(letter, Weight::Regular).is_some() {
                cleaned.push(letter);
            }
            marks += 1;
            continue;
        } else if !is_invisible(letter) {
            let known = font::advance(letter, Weight::Regular).is_some();
            cleaned.push(if known { letter } else { MISSING });
        }
        marks = 0;
    }
    if cleaned.ends_with(' ') {
        cleaned.pop();
    }
    cleaned
}

fn is_combining(letter: char) -> bool {
    matches!(letter, '\u{300}'..='\u{36F}')
}

fn is_invisible(letter: char) -> bool {
    letter.is_control()
        || matches!(letter,
            '\u{AD}' | '\u{61C}' | '\u{200B}'..='\u{200F}' | '\u{202A}'..='\u{202E}' | '\u{2060}'..='\u{206F}'
            | '\u{FE00}'..='\u{FE0F}' | '\u{FEFF}' | '\u{1F3FB}'..='\u{1F3FF}' | '\u{E0000}'..='\u{E0FFF}')
}

/// Returns the width of `text` at `size`, in the unit of `size`.
pub fn width(text: &str, weight: Weight, size: f64) -> f64 {
    let ems: f64 = text.chars().map(|letter| font::advance(letter, weight).unwrap_or_else(|| f64::from(!is_invisible(letter)))).sum();
    ems * size
}

/// Returns `text`, cut at its end and closed with `…` if it is wider than `room`.
pub(crate) fn elide(text: &str, weight: Weight, size: f64, room: f64) -> String {
    if width(text, weight, size) <= room {
        return text.to_owned();
    }
    let head = head_within(text, weight, size, room - width("…", weight, size));
    let mut elided = head.trim_end().to_owned();
    elided.push(ELLIPSIS);
    elided
}

/// The longest beginning of `text` that is no wider than `room`.
fn head_within(text: &str, weight: Weight, size: f64, room: f64) -> &str {
    let mut used = 0.0;
    for (at, letter) in text.char_indices() {
        used += font::advance(letter, weight).unwrap_or(1.0) * size;
        if used > room {
            return &text[..at];
        }
    }
    text
}

/// Breaks `text` into at most `lines` lines no wider than `room`, broken at spaces, within a word only where the word alone
/// is too wide; the last line is cut short with `…` if more would follow. Empty for an empty text.
pub(crate) fn wrap(text: &str, weight: Weight, size: f64, room: f64, lines: usize) -> Vec<String> {
    let mut wrapped = Vec::new();
    let mut rest = text.trim();
    while !rest.is_empty() && wrapped.len() < lines {
        if wrapped.len() + 1 == lines || width(rest, weight, size) <= room {
            wrapped.push(elide(rest, weight, size, room));
            break;
        }
        let head = head_within(rest, weight, size, room);
        let end = if rest[head.len()..].starts_with(' ') && !is_before_unit(&rest[head.len() + 1..]) {
            head.len()
        } else {
            // A number and its unit stay together where another place to break is left.
            let apart = head.rmatch_indices(' ').map(|(at, _)| at).find(|at| !is_before_unit(&rest[at + 1..]));
            apart.or_else(|| head.rfind(' ')).unwrap_or_else(|| head.len().max(rest.chars().next().map_or(0, char::len_utf8)))
        };
        wrapped.push(rest[..end].trim_end().to_owned());
        rest = rest[end..].trim_start();
    }
    wrapped
}

/// Whether a text begins with the unit of a number before it.
fn is_before_unit(text: &str) -> bool {
    let word = text.split(' ').next().unwrap_or_default().trim_end_matches(|letter: char| !letter.is_alphanumeric() && letter != '%');
    matches!(word, "%" | "h" | "min")
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn cleaning_keeps_european_text_and_replaces_what_the_font_lacks() {
        assert_eq!(clean("  Éclair\tłódź \u{1}\r\n café "), "Éclair łódź café");
        assert_eq!(clean("cafe\u{301}"), "cafe\u{301}");
        assert_eq!(clean("花 cookie 🍪"), "� cookie �");
        // A cook: woman, skin tone, joiner, frying pan, variation selector; five code points, two of them seen.
        assert_eq!(clean("👩🏽\u{200D}🍳\u{FE0F}"), "��");
        assert_eq!(clean("abc\u{202E}cba"), "abccba");
        assert_eq!(clean("a\u{301}\u{301}\u{301}\u{301}b\u{301}"), "a\u{301}\u{301}b\u{301}");
        assert_eq!(clean("\u{301}\u{0}\n"), "");
    }

    #[test]
    fn widths_add_up_letter_by_letter() {
        // 572 of 1000 units a digit (fontTools).
        assert!((width("2026", Weight::Regular, 10.0) - 4.0 * 5.72).abs() < 1e-9);
        assert!(width("Dinosaur", Weight::SemiBold, 14.0) > width("Dinosaur", Weight::Regular, 14.0));
        assert!(width("", Weight::Regular, 14.0).abs() < 1e-9);
    }

    #[test]
    fn eliding_never_exceeds_the_room_and_leaves_short_text_alone() {
        assert_eq!(elide("Rocket", Weight::Regular, 14.0, 200.0), "Rocket");
        let name = "Éclair dressed as a łódź harbour at dusk";
        for room in 15..300 {
            let elided = elide(name, Weight::Regular, 14.0, f64::from(room));
            assert!(width(&elided, Weight::Regular, 14.0) <= f64::from(room), "{room}: {elided}");
            assert!(elided == name || elided.ends_with('…'), "{elided}");
        }
    }

    #[test]
    fn wrapping_loses_no_word_until_the_last_line() {
        let name = "A dragon in seven colours, wings spread, guarding a castle of gingerbread and its moat";
        let lines = wrap(name, Weight::Regular, 14.0, 200.0, 9);
        assert!(lines.len() > 2);
        assert_eq!(lines.join(" "), name);
        assert!(lines.iter().all(|line| width(line, Weight::Regular, 14.0) <= 200.0));

        let two = wrap(name, Weight::Regular, 14.0, 200.0, 2);
        assert_eq!(two.len(), 2);
        assert_eq!(two[0], lines[0]);
        assert!(two[1].ends_with('…'));
    }

    #[test]
    fn wrapping_breaks_a_word_that_has_no_spaces_and_always_ends() {
        let word = "w".repeat(100);
        let lines = wrap(&word, Weight::Regular, 14.0, 200.0, 50);
        assert_eq!(lines.concat(), word);
        assert_eq!(wrap("ab", Weight::Regular, 14.0, 0.0, 5).first().map(String::as_str), Some("a"));
        assert_eq!(wrap("", Weight::Regular, 14.0, 200.0, 2), Vec::<String>::new());
        assert_eq!(wrap("ab", Weight::Regular, 14.0, 200.0, 0), Vec::<String>::new());
    }
}
