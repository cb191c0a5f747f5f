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
    pub(crate) const NONE: Self = Self { read: &[], proposed: &[] };
}

/// The words of a column and what stands for them.
#[derive(Debug, Clone, Copy)]
pub(crate) struct Vocabulary<'a> {
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
        let form = |at| Found { at, is_plain: folding::word(self.words[at]) == folding::word(text) };
        self.own(text).map(form).or_else(|| self.named(text).map(plain)).or_else(|| self.form(text).map(form))
    }

    /// The word that a text stands for by the shop's own words alone.
    #[must_use]
    pub fn own(&self, text: &str) -> Option<usize> {
        let folded = folding::word(text);
        let mut own = self.own.iter().filter(|(theirs, _)| folding::word(theirs) == folded);
        own.find_map(|(_, ours)| self.named(ours).or_else(|| self.form(ours)))
    }

    /// The word that a text is.
    fn named(&self, text: &str) -> Option<usize> {
        self.place(|known| known == text).or_else(|| self.place(|known| folding::word(known) == folding::word(text)))
    }

    /// The word that a text is an everyday form of.
    fn form(&self, text: &str) -> Option<usize> {
        let folded = folding::word(text);
        self.forms.read.iter().filter(|(form, _)| folding::word(form) == folded).find_map(|(_, word)| self.named(word))
    }

    fn place(&self, is_meant: impl Fn(&str) -> bool) -> Option<usize> {
        self.words.iter().position(|word| is_meant(word))
    }

    /// The word that a text most likely stands for, where it is none: it is proposed for it, nearly spelt so, or among its words.
    #[must_use]
    pub fn likely(&self, text: &str) -> Option<&str> {
        let folded = folding::word(text);
        let proposed = self.forms.proposed.iter().filter(|(form, _)| folding::word(form) == folded).map(|(_, word)| *word);
        let near_form = nearest(text, self.forms.read.iter().map(|(form, _)| *form));
        let of_near_form = self.forms.read.iter().filter(|(form, _)| Some(*form) == near_form).map(|(_, word)| *word);
        let likely = proposed.chain(nearest(text, self.words.iter().copied())).chain(of_near_form);
        likely.chain(self.contained(text)).find(|word| self.words.contains(word))
    }

    /// The one word whose forms stand among the words of a text; `None` where there are several, or where it says that something is not.
    fn contained(&self, text: &str) -> Option<&str> {
        let words: Vec<String> = split(text).map(str::to_lowercase).collect();
        if words.iter().any(|word| ["no", "not", "never", "un"].contains(&word.as_str())) {
            return None;
        }
        let itself = self.words.iter().map(|word| (*word, *word));
        let forms: Vec<(&str, &str)> = itself.chain(self.forms.read.iter().chain(self.forms.proposed).copied()).collect();
        let is_at = |at: usize, form: &str| {
            let length = split(form).count();
            words.get(at..at + length).filter(|words| words.iter().map(String::as_str).eq(split(form))).map(|_| length)
        };
        let (mut at, mut found) = (0, None);
        while at < words.len() {
            // The longest form: "mixing icing" is no mixing.
            let longest = forms.iter().filter_map(|(form, word)| Some((is_at(at, form)?, *word))).max_by_key(|(length, _)| *length);
            if let Some((_, word)) = longest
                && found.replace(word).is_some_and(|other| other != word)
            {
                return None;
            }
            at += longest.map_or(1, |(length, _)| length);
        }
        found
    }

    /// What to write in place of a text that stands for none of the words: the likely one, in the cell or under `[words]`; else all.
    #[must_use]
    pub fn advice(&self, text: &str) -> String {
        match (self.likely(text), self.line(text)) {
            (Some(word), Some(line)) => format!("write {word}, or {line} under [words] in shop.toml"),
            _ => {
                let words = self.words.join(", ");
                format!("write one of: {words}; or say under [words] in shop.toml which of them it is: {} = \"…\"", key(text))
            }
        }
    }

    /// The line under `[words]` that says what a text most likely stands for.
    #[must_use]
    pub fn line(&self, text: &str) -> Option<String> {
        self.likely(text).map(|word| format!("{} = \"{word}\"", key(text)))
    }
}

/// Card charges of an order by how it was paid.
const PAYMENTS: &[(&str, i64)] = &[
    ("cash", 0),
    ("check", 0),
    ("cheque", 0),
    ("transfer", 0),
    ("bank transfer", 0),
    ("wire transfer", 0),
    ("direct deposit", 0),
    ("e-transfer", 0),
    ("money order", 0),
    ("gift card", 0),
    ("gift certificate", 0),
    ("store credit", 0),
    ("card", 1),
    ("debit", 1),
    ("credit card", 1),
    ("debit card", 1),
    ("card reader", 1),
    ("chip", 1),
    ("chip card", 1),
    ("tap", 1),
    ("tap to pay", 1),
    ("contactless", 1),
    ("swipe", 1),
];

/// The card charges that a way of paying makes: the shop's own words first, then cash, check, transfer and card, a number of cards, and
/// several ways joined.
#[must_use]
pub fn payments(text: &str, own: &BTreeMap<String, i64>) -> Option<i64> {
    let of_one = |text: &str| {
        let folded = folding::word(text);
        let theirs = own.iter().find(|(word, _)| folding::word(word) == folded).map(|(_, charges)| *charges);
        let known = || PAYMENTS.iter().find(|(word, _)| folding::word(word) == folded).map(|(_, charges)| *charges);
        theirs.or_else(known).or_else(|| cards(text))
    };
    of_one(text).or_else(|| {
        let mut ways = text.split(['+', '&', '/', ',']).flat_map(|way| way.split(" and "));
        ways.try_fold(0_i64, |sum, way| sum.checked_add(of_one(way.trim())?))
    })
}

/// `2 cards`: a number of card charges.
fn cards(text: &str) -> Option<i64> {
    let (count, word) = text.trim().split_once(' ')?;
    let is_cards = ["card", "cards", "card charges"].contains(&word.trim().to_lowercase().as_str());
    count.parse().ok().filter(|count| is_cards && (1..=99).contains(count))
}

/// The line of `shop.toml` that says how many card charges a way of paying makes.
#[must_use]
pub(crate) fn payments_line(text: &str) -> String {
    format!("{} = 1", key(text))
}

/// What to write for a way of paying that is not known.
#[must_use]
pub(crate) fn payments_advice(text: &str) -> String {
    format!("write how many card charges it made, or {} (0 for none) under [payments] in shop.toml", payments_line(text))
}

/// The words of a text.
fn split(text: &str) -> impl Iterator<Item = &str> {
    text.split(|c: char| !c.is_alphanumeric()).filter(|word| !word.is_empty())
}

/// A text as a key of `shop.toml`, in quotes where it needs them.
#[must_use]
pub fn key(text: &str) -> String {
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
        let by_form = self::own(&[("tray", "Baking")]);
        assert_eq!(found("Tray", &by_form), Some(("bake", false)), "what it stands for may be a form, too");
    }

    #[test]
    fn a_near_miss_is_proposed_with_the_line_to_paste() {
        let own = own(&[]);
        let advice = |text| Vocabulary { words: STAGES, forms: FORMS, own: &own }.advice(text);
        assert_eq!(advice("piping"), "write decorate, or piping = \"decorate\" under [words] in shop.toml");
        assert_eq!(advice("decorat e"), "write decorate, or \"decorat e\" = \"decorate\" under [words] in shop.toml");
        assert_eq!(advice("bakng"), "write bake, or bakng = \"bake\" under [words] in shop.toml");
        let all = "write one of: bake, decorate, pack, clean up; or say under [words] in shop.toml which of them it is:";
        assert_eq!(advice("zzz"), format!("{all} zzz = \"…\""));
        assert_eq!(advice("Piping - roses"), "write decorate, or \"Piping - roses\" = \"decorate\" under [words] in shop.toml");
        for open in ["not baked, no baking", "bake and pack"] {
            assert_eq!(advice(open), format!("{all} \"{open}\" = \"…\""));
        }
    }

    #[test]
    fn ways_of_paying_make_card_charges() {
        let own = BTreeMap::from([("Phone pay".to_owned(), 2), ("card".to_owned(), 0)]);
        for (text, expected) in [
            ("Cash", Some(0)),
            ("cheque", Some(0)),
            ("Bank-Transfer", Some(0)),
            ("credit card", Some(1)),
            ("2 cards", Some(2)),
            ("1 card", Some(1)),
            ("cash + card", Some(1)),
            ("card/card", Some(2)),
            ("barter", None),
            ("card + barter", None),
            ("2 barters", None),
            ("0 cards", None),
        ] {
            assert_eq!(payments(text, &BTreeMap::new()), expected, "{text}");
        }
        assert_eq!((payments("phone pay", &own), payments("Card", &own)), (Some(2), Some(0)));
        assert_eq!(
            payments_advice("barter"),
            "write how many card charges it made, or barter = 1 (0 for none) under [payments] in shop.toml"
        );
    }
}
