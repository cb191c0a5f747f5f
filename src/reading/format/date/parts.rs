//! The parts of a written date: numbers and words, and what stands between them.

/// A number or a word of a date.
#[derive(Debug, Clone, PartialEq, Eq)]
pub(super) enum Part {
    /// Digits.
    Number {
        /// Its value.
        value: u32,
        /// How many digits it is written with.
        digits: usize,
        /// Whether it is a place in an order, as `3rd`.
        ordinal: bool,
    },
    /// Letters, in small ones.
    Word(String),
}

/// Splits a text into its parts, each with the marks before it (blanks dropped; one blank stands for blanks alone), and the marks
/// at the end. `None` where a mark does not occur in dates.
pub(super) fn split(text: &str) -> Option<(Vec<(String, Part)>, String)> {
    let (mut parts, mut rest) = (Vec::new(), text);
    loop {
        let start = rest.find(|c: char| c.is_ascii_digit() || c.is_alphabetic()).unwrap_or(rest.len());
        let gap = marks(&rest[..start])?;
        rest = &rest[start..];
        let Some(first) = rest.chars().next() else { return Some((parts, gap)) };
        let end = rest.find(|c: char| if first.is_ascii_digit() { !c.is_ascii_digit() } else { !c.is_alphabetic() }).unwrap_or(rest.len());
        let run = &rest[..end];
        rest = &rest[end..];
        let part = if first.is_ascii_digit() {
            let suffix = rest.find(|c: char| !c.is_alphabetic()).unwrap_or(rest.len());
            let ordinal = ["st", "nd", "rd", "th"].iter().any(|word| rest[..suffix].eq_ignore_ascii_case(word));
            rest = if ordinal { &rest[suffix..] } else { rest };
            Part::Number { value: run.parse().ok()?, digits: run.len(), ordinal }
        } else {
            Part::Word(run.to_lowercase())
        };
        parts.push((gap, part));
    }
}

fn marks(gap: &str) -> Option<String> {
    let bare: String = gap.chars().filter(|c| !c.is_whitespace()).collect();
    let known = ["", "-", "/", ".", ",", ".,", "'", "’", ",'", ",’", "‑", "–"].contains(&bare.as_str());
    let mark = match bare.as_str() {
        "" if !gap.is_empty() => " ".to_owned(),
        "‑" | "–" => "-".to_owned(),
        _ => bare,
    };
    known.then_some(mark)
}
