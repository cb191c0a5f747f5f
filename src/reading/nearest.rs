//! The nearest known name to a mistyped one.

use std::collections::BTreeSet;

/// The known name fewest slips away from `text`, where one is near enough to be a likely slip: at most a
/// third of its letters inserted, dropped, changed or swapped (Damerau 1964; a third, at most three, and one in short names: common practice, no source).
/// Case and a plural `s` weigh nothing. Ties go to the first in alphabetical order.
pub fn nearest<'a>(text: &str, known: impl IntoIterator<Item = &'a str>) -> Option<&'a str> {
    let wanted = folded(text);
    let most = (wanted.chars().count() / 3).clamp(1, 3);
    let known: BTreeSet<&str> = known.into_iter().filter(|name| *name != text).collect();
    known
        .into_iter()
        .map(|name| (strsim::damerau_levenshtein(&wanted, &folded(name)), name))
        .filter(|(slips, name)| *slips <= most && *slips < folded(name).chars().count())
        .min()
        .map(|(_, name)| name)
}

/// A name without what near-duplicates differ in.
#[must_use]
pub fn bare(text: &str) -> String {
    folded(text).chars().filter(|c| c.is_alphanumeric()).collect()
}

fn folded(text: &str) -> String {
    let lower = text.trim().to_lowercase();
    match lower.strip_suffix('s') {
        Some(singular) if singular.chars().count() > 2 => singular.to_owned(),
        _ => lower,
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_slip_finds_its_name() {
        let known = ["butter", "flour", "icing sugar", "egg", "box"];
        for (typed, meant) in [("buter", "butter"), ("Flour", "flour"), ("icng suger", "icing sugar"), ("eggs", "egg"), ("bxo", "box")] {
            assert_eq!(nearest(typed, known), Some(meant), "{typed}");
        }
        for unknown in ["ribbon", "salt", "x", ""] {
            assert_eq!(nearest(unknown, known), None, "{unknown}");
        }
    }

    #[test]
    fn near_duplicates_differ_only_in_dress() {
        assert_eq!(bare("Number 5"), bare("number-5s"));
        assert_ne!(bare("number 5"), bare("number 6"));
    }
}
