//! What a row of the orders log charges, and the everyday names of charges that are no cookies.

use super::everyday_forms::KIND_FORMS;
use super::specification::KINDS as WORDS;
use crate::reading::format::word::Vocabulary;
use std::collections::{BTreeMap, BTreeSet};

/// What a row charges.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum Kind {
    /// Pieces of a design.
    Cookie,
    /// What was charged for all the order's cookies together.
    Set,
    /// Delivery.
    Delivery,
    /// A rush charge.
    Rush,
    /// A discount.
    Discount,
    /// A refund.
    Refund,
    /// A tip.
    Tip,
    /// Sales tax, which is never revenue.
    Tax,
    /// A deposit kept from a cancelled order.
    DepositKept,
}

/// Every kind, in the order of its words under `kind`.
pub(super) const KINDS: [Kind; 9] =
    [Kind::Cookie, Kind::Set, Kind::Delivery, Kind::Rush, Kind::Discount, Kind::Refund, Kind::Tip, Kind::Tax, Kind::DepositKept];

impl Kind {
    /// Its word under `kind`.
    pub(super) fn word(self) -> &'static str {
        KINDS.iter().zip(WORDS).find(|(kind, _)| **kind == self).map_or("", |(_, word)| word)
    }
}

/// Everyday names of charges, folded. Common practice, no source.
const NAMED: &[(Kind, &[&str])] = &[
    (Kind::Set, &["set", "set price", "cookie set", "price of the set"]),
    (
        Kind::Delivery,
        &[
            "delivery",
            "delivery fee",
            "delivery charge",
            "deliveries",
            "local delivery",
            "porch delivery",
            "drop off",
            "drop off fee",
            "dropoff",
            "shipping",
            "shipping fee",
            "postage",
        ],
    ),
    (Kind::Rush, &["rush", "rush fee", "rush charge", "rush order", "rush order fee", "express fee"]),
    (
        Kind::Discount,
        &["discount", "discounts", "friends discount", "family discount", "friends and family discount", "coupon", "promo code"],
    ),
    (Kind::Refund, &["refund", "refunds", "partial refund", "refunded"]),
    (Kind::Tip, &["tip", "tips", "gratuity"]),
    (Kind::Tax, &["tax", "sales tax", "vat", "gst", "hst"]),
    (Kind::DepositKept, &["deposit kept", "kept deposit", "deposit forfeited", "forfeited deposit"]),
];

/// Names of payments, which may be of what the cookies' rows charge already.
const UNCLEAR: &[&str] = &["deposit", "deposit paid", "balance", "balance due", "balance paid", "payment", "paid"];

/// Letters of a name from which on one slip leaves it recognisable: `tip` is one slip from `tin`.
const LONG: usize = 6;
/// Signs that join two things rather than set a remark apart.
const JOINS: [char; 6] = ['+', '&', '/', '\'', '’', '_'];

/// What a text in the design column stands for, where it names no design.
#[derive(Debug, Clone, PartialEq, Eq)]
pub(super) enum Named {
    /// A charge, by its name.
    Charge(Kind),
    /// A charge, by its name and a remark set apart from it: `Delivery (20 mi)`.
    Remarked(Kind),
    /// It has the name of a charge, or of several, among other words: `Delivery truck`.
    Contains(BTreeSet<Kind>),
    /// It is one slip from the name of a charge: `Delivry`.
    Slip(Kind),
    /// A payment or a charge: only the maker knows.
    Unclear,
}

impl Named {
    /// What a text stands for, by the shop's own words first, which may say that it is a cookie; `None` where it is a design's name.
    pub fn of(text: &str, own: &BTreeMap<String, String>) -> Option<Self> {
        if let Some(at) = (Vocabulary { words: WORDS, forms: KIND_FORMS, own }).own(text) {
            return Some(Self::Charge(KINDS[at]));
        }
        let words = Words::of(text);
        if words.len() == 0 {
            return None;
        }
        if let Some(kind) = words.charge(0, words.len()) {
            return Some(Self::Charge(kind));
        }
        let kinds: BTreeSet<Kind> = words.charges();
        let apart = words.apart();
        match (kinds.len(), words.charge(0, apart)) {
            (1, Some(kind)) if apart < words.len() => return Some(Self::Remarked(kind)),
            (0, _) => {}
            _ => return Some(Self::Contains(kinds)),
        }
        if UNCLEAR.iter().any(|name| words.is(name, 0, apart)) {
            return Some(Self::Unclear);
        }
        words.slip(apart).map(Self::Slip)
    }
}

/// The words of a text, in small letters, `and` left out, with what stands between them.
struct Words<'t> {
    text: &'t str,
    /// Each word, with where it begins and ends.
    words: Vec<(String, usize, usize)>,
}

impl<'t> Words<'t> {
    fn of(text: &'t str) -> Self {
        let mut words = Vec::new();
        let mut begin = None;
        for (at, c) in text.char_indices().chain([(text.len(), ' ')]) {
            match (c.is_alphanumeric(), begin) {
                (true, None) => begin = Some(at),
                (false, Some(from)) => {
                    words.push((text[from..at].to_lowercase(), from, at));
                    begin = None;
                }
                _ => {}
            }
        }
        words.retain(|(word, ..)| word != "and");
        Self { text, words }
    }

    fn len(&self) -> usize {
        self.words.len()
    }

    /// Whether a name is exactly so many words from the given one on.
    fn is(&self, name: &str, at: usize, length: usize) -> bool {
        let words = self.words[at..at + length].iter().map(|(word, ..)| word.as_str());
        words.eq(name.split(' ').filter(|word| *word != "and"))
    }

    /// The charge whose name is exactly so many words from the given one on.
    fn charge(&self, at: usize, length: usize) -> Option<Kind> {
        NAMED.iter().find(|(_, names)| names.iter().any(|name| self.is(name, at, length))).map(|(kind, _)| *kind)
    }

    /// The charges whose names stand in it. `set` alone is an everyday word, as in `tea set`.
    fn charges(&self) -> BTreeSet<Kind> {
        let mut kinds = BTreeSet::new();
        let mut at = 0;
        while at < self.len() {
            let longest = (1..=self.len() - at).rev().find_map(|length| Some((length, self.charge(at, length)?)));
            let found = longest.filter(|(length, kind)| *kind != Kind::Set || *length > 1);
            kinds.extend(found.map(|(_, kind)| kind));
            at += found.map_or(1, |(length, _)| length);
        }
        kinds
    }

    /// How many words stand before the first remark: a bracket, a dash, a colon, a picture or a number sets it apart.
    fn apart(&self) -> usize {
        let is_apart = |pair: &[(String, usize, usize)]| {
            let between = &self.text[pair[0].2..pair[1].1];
            let signs: Vec<char> = between.chars().filter(|c| !c.is_whitespace() && *c != '\u{FE0F}').collect();
            // An "and" is left out of the words.
            if signs.iter().any(|c| JOINS.contains(c) || c.is_alphanumeric()) {
                return false;
            }
            // "Rush-hour" is one word.
            let is_hyphen = ["-", "‑"].contains(&between);
            pair[1].0.starts_with(|c: char| c.is_ascii_digit()) || (!signs.is_empty() && !is_hyphen)
        };
        self.words.windows(2).position(is_apart).map_or(self.len(), |at| at + 1)
    }

    /// The charge whose name the first words, or the first one, are one slip from.
    fn slip(&self, apart: usize) -> Option<Kind> {
        let joined = |words: &[(String, usize, usize)]| words.iter().map(|(word, ..)| word.as_str()).collect::<Vec<_>>().join(" ");
        let heads = [joined(&self.words[..apart]), joined(&self.words[..1])];
        let is_near = |name: &str| name.len() >= LONG && heads.iter().any(|head| strsim::damerau_levenshtein(head, name) == 1);
        NAMED.iter().find(|(_, names)| names.iter().any(|name| is_near(name))).map(|(kind, _)| *kind)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn named(text: &str) -> Option<Named> {
        Named::of(text, &BTreeMap::new())
    }

    #[test]
    fn a_charge_is_known_by_its_name_and_with_a_remark_set_apart() {
        for (text, kind) in [
            ("Sales Tax:", Kind::Tax),
            ("Drop-off", Kind::Delivery),
            ("Friends & family discount", Kind::Discount),
            ("tip 💜", Kind::Tip),
            ("Set", Kind::Set),
        ] {
            assert_eq!(named(text), Some(Named::Charge(kind)), "{text}");
        }
        for (text, kind) in [
            ("Delivery (20 mi)", Kind::Delivery),
            ("delivery 20 mi", Kind::Delivery),
            ("Refund - broke", Kind::Refund),
            ("Discount - friends & family", Kind::Discount),
            ("Discount 10%", Kind::Discount),
            ("Rush fee: 2 days", Kind::Rush),
            ("Tip 💜 thanks", Kind::Tip),
            ("Deposit kept - flu", Kind::DepositKept),
            ("Drop-off (porch)", Kind::Delivery),
        ] {
            assert_eq!(named(text), Some(Named::Remarked(kind)), "{text}");
        }
        for text in ["Deposit", "Deposit - half", "balance due (cash)"] {
            assert_eq!(named(text), Some(Named::Unclear), "{text}");
        }
    }

    #[test]
    fn other_words_beside_a_charge_and_a_slip_in_it_are_seen() {
        let of = |kinds: &[Kind]| Some(Named::Contains(kinds.iter().copied().collect()));
        for (text, kinds) in [
            ("Delivery truck", &[Kind::Delivery][..]),
            ("Rush-hour car", &[Kind::Rush]),
            ("Late refund", &[Kind::Refund]),
            ("Delivery and gas", &[Kind::Delivery]),
            ("Delivery + tip", &[Kind::Delivery, Kind::Tip]),
            ("Refund - delivery late", &[Kind::Delivery, Kind::Refund]),
        ] {
            assert_eq!(named(text), of(kinds), "{text}");
        }
        for (text, kind) in
            [("Delivry", Kind::Delivery), ("Dscount - school", Kind::Discount), ("Delivry truck", Kind::Delivery), ("refnud", Kind::Refund)]
        {
            assert_eq!(named(text), Some(Named::Slip(kind)), "{text}");
        }
        for text in ["tin", "tux", "brush", "cat", "tea set", "set of 12", "ghost", "💜", "", "delicacy"] {
            assert_eq!(named(text), None, "{text}");
        }
    }

    #[test]
    fn the_shops_own_word_comes_first() {
        let own = [("Porch drop", "delivery"), ("Delivery truck", "cookie"), ("Postage", "Sales tax"), ("tip", "no such")];
        let own: BTreeMap<String, String> = own.iter().map(|(hers, ours)| ((*hers).to_owned(), (*ours).to_owned())).collect();
        assert_eq!(Named::of("porch drop", &own), Some(Named::Charge(Kind::Delivery)));
        assert_eq!(Named::of("delivery truck", &own), Some(Named::Charge(Kind::Cookie)));
        assert_eq!(Named::of("postage", &own), Some(Named::Charge(Kind::Tax)));
        assert_eq!(Named::of("Tip", &own), Some(Named::Charge(Kind::Tip)));
    }

    #[test]
    fn every_name_is_of_one_kind() {
        let names: Vec<Vec<String>> = NAMED
            .iter()
            .flat_map(|(_, names)| *names)
            .chain(UNCLEAR)
            .map(|name| Words::of(name).words.into_iter().map(|(word, ..)| word).collect())
            .collect();
        assert_eq!(names.iter().collect::<BTreeSet<_>>().len(), names.len());
    }
}
