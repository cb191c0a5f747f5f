//! Words of a short list, with the everyday forms of each and the shop's own.

use crate::reading::folding;
use crate::reading::nearest::nearest;
use std::collections::BTreeMap;

/// Everyday forms of a list's words; capitals, blanks and hyphens weigh nothing in them.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Forms {
    /// Forms with one possible meaning, each with its word: they are read.
    pub read: &'static [(&'static str, &'static str)],
    /// Forms with a likely meaning: it is proposed.
    pub proposed: &'static [(&'static str, &'static str)],
}

impl Forms {
    /// A list without other forms.
    pub const NONE: Self = Self { read: &[], proposed: &[] };
}

/// The words of a column and what stands for them.
#[derive(Debug, Clone, Copy)]
pub struct Vocabulary<'a> {
    /// The words themselves.
    pub words: &'a [&'a str],
    /// Their everyday forms.
    pub forms: Forms,
    /// The shop's own words, each with the word it stands for; they come first.
    pub own: &'a BTreeMap<String, String>,
}

/// A word that was found.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Found {
    /// Its place in the list.
    pub at: usize,
    /// Whether the cell has the word itself, but for capitals, blanks and hyphens.
    pub is_plain: bool,
}

impl Vocabulary<'_> {
    /// The word a text stands for.
    #[must_use]
    pub fn find(&self, text: &str) -> Option<Found> {
        let plain = |at| Found { at, is_plain: true };
        if self.own.is_empty()
            && let Some(at) = self.place(|word| word == text)
        {
            return Some(plain(at));
        }
        let folded = folding::word(text);
        let read =
            |word: &str| self.place(|known| known == word).or_else(|| self.place(|known| folding::word(known) == folding::word(word)));
        let form = |at| Found { at, is_plain: folding::word(self.words[at]) == folded };
        let own = self.own.iter().filter(|(theirs, _)| folding::word(theirs) == folded).find_map(|(_, ours)| read(ours));
        let known = || self.forms.read.iter().filter(|(form, _)| folding::word(form) == folded).find_map(|(_, word)| read(word));
        own.map(form).or_else(|| read(text).map(plain)).or_else(|| known().map(form))
    }

    fn place(&self, is_meant: impl Fn(&str) -> bool) -> Option<usize> {
        self.words.iter().position(|word| is_meant(word))
    }

    /// The word that a text most likely stands for, where it is none: it is proposed for it, or nearly spelt so.
    #[must_use]
    pub fn likely(&self, text: &str) -> Option<&str> {
        let folded = folding::word(text);
        let proposed = self.forms.proposed.iter().filter(|(form, _)| folding::word(form) == folded).map(|(_, word)| *word);
        let near_form = nearest(text, self.forms.read.iter().map(|(form, _)| *form));
        let of_near_form = self.forms.read.iter().filter(|(form, _)| Some(*form) == near_form).map(|(_, word)| *word);
        let mut likely = proposed.chain(nearest(text, self.words.iter().copied())).chain(of_near_form);
        likely.find(|word| self.words.contains(word))
    }

    /// What to write in place of a text that stands for none of the words: the likely one, in the cell or under `[words]`; else all.
    #[must_use]
    pub fn advice(&self, text: &str) -> String {
        let key = key(text);
        match self.likely(text) {
            Some(word) => format!("write {word}, or {key} = \"{word}\" under [words] in shop.toml"),
            None => {
                let (words, first) = (self.words.join(", "), self.words.first().unwrap_or(&"…"));
                format!("write one of: {words}; or say which it is under [words] in shop.toml, as {key} = \"{first}\"")
            }
        }
    }
}

/// Card charges of an order by how it was paid.
const PAYMENTS: &[(&str, i64)] = &[
    ("cash", 0),
    ("check", 0),
    ("cheque", 0),
    ("transfer", 0),
    ("bank transfer", 0),
    ("gift card", 0),
    ("card", 1),
    ("credit card", 1),
    ("debit card", 1),
];

/// The card charges that a way of paying makes: the shop's own words first, then cash, check, transfer and card.
#[must_use]
pub fn payments(text: &str, own: &BTreeMap<String, i64>) -> Option<i64> {
    let folded = folding::word(text);
    let theirs = own.iter().find(|(word, _)| folding::word(word) == folded).map(|(_, charges)| *charges);
    theirs.or_else(|| PAYMENTS.iter().find(|(word, _)| folding::word(word) == folded).map(|(_, charges)| *charges))
}

/// The line of `shop.toml` that says how many card charges a way of paying makes.
#[must_use]
pub fn payments_advice(text: &str) -> String {
    format!("write how many card charges it made, or {} = 1 (0 for none) under [payments] in shop.toml", key(text))
}

/// A text as a key of `shop.toml`, in quotes where it needs them.
fn key(text: &str) -> String {
    let bare = !text.is_empty() && text.bytes().all(|byte| byte.is_ascii_alphanumeric() || matches!(byte, b'-' | b'_'));
    if bare { text.to_owned() } else { toml_edit::Value::from(text).to_string() }
}

#[cfg(test)]
mod tests {
    use super::*;

    const STAGES: &[&str] = &["bake", "decorate", "pack", "clean up"];
    const FORMS: Forms =
        Forms { read: &[("baking", "bake"), ("boxing", "pack"), ("rolling", "roll")], proposed: &[("piping", "decorate")] };

    fn own(words: &[(&str, &str)]) -> BTreeMap<String, String> {
        words.iter().map(|(theirs, ours)| ((*theirs).to_owned(), (*ours).to_owned())).collect()
    }

    fn found(text: &str, own: &BTreeMap<String, String>) -> Option<(&'static str, bool)> {
        Vocabulary { words: STAGES, forms: FORMS, own }.find(text).map(|found| (STAGES[found.at], found.is_plain))
    }

    #[test]
    fn a_word_is_found_by_itself_by_its_forms_and_by_the_shops_own() {
        let none = own(&[]);
        for (text, expected) in [
            ("bake", Some(("bake", true))),
            (" BAKE ", Some(("bake", true))),
            ("Clean-up", Some(("clean up", true))),
            ("Baking", Some(("bake", false))),
            ("rolling", None),
            ("piping", None),
            ("bakes", None),
        ] {
            assert_eq!(found(text, &none), expected, "{text}");
        }
        let own = own(&[("piping", "decorate"), ("bake", "pack"), ("boxing", "no such")]);
        assert_eq!((found("Piping", &own), found("bake", &own)), (Some(("decorate", false)), Some(("pack", false))));
        assert_eq!(found("boxing", &own), Some(("pack", false)));
    }

    #[test]
    fn a_near_miss_is_proposed_with_the_line_to_paste() {
        let own = own(&[]);
        let advice = |text| Vocabulary { words: STAGES, forms: FORMS, own: &own }.advice(text);
        assert_eq!(advice("piping"), "write decorate, or piping = \"decorate\" under [words] in shop.toml");
        assert_eq!(advice("decorat e"), "write decorate, or \"decorat e\" = \"decorate\" under [words] in shop.toml");
        assert_eq!(advice("bakng"), "write bake, or bakng = \"bake\" under [words] in shop.toml");
        assert_eq!(
            advice("zzz"),
            "write one of: bake, decorate, pack, clean up; or say which it is under [words] in shop.toml, as zzz = \"bake\""
        );
    }

    #[test]
    fn ways_of_paying_make_card_charges() {
        let own = BTreeMap::from([("Phone pay".to_owned(), 2), ("card".to_owned(), 0)]);
        for (text, expected) in
            [("Cash", Some(0)), ("cheque", Some(0)), ("Bank-Transfer", Some(0)), ("credit card", Some(1)), ("barter", None)]
        {
            assert_eq!(payments(text, &BTreeMap::new()), expected, "{text}");
        }
        assert_eq!((payments("phone pay", &own), payments("Card", &own)), (Some(2), Some(0)));
        assert_eq!(payments_advice("tap"), "write how many card charges it made, or tap = 1 (0 for none) under [payments] in shop.toml");
    }
}
