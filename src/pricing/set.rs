//! A set asked for, as typed: `6 numeral, 1 dozen letter and 4 paper crane:character`.

use super::change::meant;
use super::error::{Nearest, TypedError};
use crate::ids::{Design, Id, Tier};
use crate::quantity::dozens;
use crate::shop::Shop;

/// What some pieces of a set are.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum Asked {
    /// A known design.
    Design(Id<Design>),
    /// Any of a tier.
    Tier(Id<Tier>),
    /// A new design, in a tier.
    New(String, Id<Tier>),
}

/// Some pieces of a set.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Part {
    /// How many.
    pub pieces: i64,
    /// What they are.
    pub asked: Asked,
}

/// The most pieces of a part: more is a slip of the keyboard.
const MOST: i64 = 100_000;

/// Reads a set: parts with commas, semicolons, `+`, `&` or `and` between them, each a number of pieces and a design or a tier; a
/// new design with its tier after a colon. A name the shop knows is never divided.
///
/// # Errors
/// [`TypedError`], which says what is wrong and what to write instead.
pub fn read(shop: &Shop, text: &str) -> Result<Vec<Part>, TypedError> {
    let texts: Vec<&str> = text.split([',', ';', '\n']).flat_map(|text| parts(shop, text.trim())).filter(|part| !part.is_empty()).collect();
    if texts.is_empty() {
        return Err(TypedError::EmptySet(example(shop)));
    }
    texts.into_iter().map(|part| read_part(shop, part)).collect()
}

/// A set of the shop's first tiers; of its designs, where it has no tiers.
fn example(shop: &Shop) -> String {
    let tiers: Vec<&str> = shop.prices.tiers().collect();
    let names = if tiers.is_empty() { shop.designs.all().map(|design| shop.designs.names.text(design)).collect() } else { tiers };
    let parts = [6, 12, 6].iter().zip(names).map(|(pieces, name)| format!("{pieces} {name}"));
    parts.collect::<Vec<_>>().join(", ")
}

/// Divides a text at each word that joins two parts: what follows begins with pieces. A known name that holds such a word stays whole,
/// the longest where several begin alike.
fn parts<'a>(shop: &Shop, text: &'a str) -> Vec<&'a str> {
    let text = text.strip_prefix("and ").unwrap_or(text).trim();
    let is_known = |text: &str| {
        let name = dozens::leading(text).map_or(text, |(_, name)| name);
        shop.designs.find(name).is_some() || shop.designs.tiers.find(name).is_some()
    };
    if is_known(text) {
        return vec![text];
    }
    let joints = [" and ", " & ", "+"]
        .iter()
        .flat_map(|joint| text.match_indices(joint).map(|(at, joint)| (text[..at].trim(), &text[at + joint.len()..])));
    let mut cuts: Vec<(&str, &str)> = joints.filter(|(_, rest)| dozens::leading(rest).is_some_and(|(_, name)| !name.is_empty())).collect();
    cuts.sort_by_key(|(part, _)| part.len());
    match cuts.iter().rfind(|(part, _)| is_known(part)).or(cuts.first()) {
        Some((part, rest)) => std::iter::once(*part).chain(parts(shop, rest)).collect(),
        None => vec![text],
    }
}

fn read_part(shop: &Shop, text: &str) -> Result<Part, TypedError> {
    let advice = || TypedError::Part(text.to_owned());
    let (pieces, name) = dozens::leading(text).filter(|(_, name)| !name.is_empty()).ok_or_else(advice)?;
    if !(1..=MOST).contains(&pieces) {
        return Err(TypedError::Pieces { text: text.to_owned(), pieces, most: MOST });
    }
    let designs = &shop.designs;
    if let Some(design) = designs.find(name) {
        return Ok(Part { pieces, asked: Asked::Design(design) });
    }
    if holds_two_parts(name) {
        let example: Vec<String> =
            [6, 12].iter().zip(designs.tiers.iter().chain(designs.names.iter())).map(|(count, name)| format!("{count} {name}")).collect();
        return Err(TypedError::TwoParts { text: text.to_owned(), example: example.join(", ") });
    }
    if let Some((new, tier)) = name.rsplit_once(':') {
        let (new, tier) = (new.trim(), tier.trim());
        if new.is_empty() {
            return Err(advice());
        }
        if designs.tiers.find(new).is_some() {
            return Err(TypedError::IsTier { tier: new.to_owned(), pieces });
        }
        if let Some(design) = designs.find(new) {
            let design = designs.names.text(design).to_owned();
            return Err(TypedError::IsKnown { typed: new.to_owned(), design, pieces });
        }
        let tier = meant(tier, designs.tiers.iter(), "no tier of designs.csv")?;
        return Ok(Part { pieces, asked: Asked::New(new.to_owned(), designs.tiers.find(tier).ok_or_else(advice)?) });
    }
    let known = designs.tiers.iter().chain(designs.names.iter());
    let name = meant(name, known, "neither a design nor a tier").map_err(|unknown| match designs.tiers.iter().next() {
        Some(tier) if !matches!(unknown.nearest, Nearest::Name(_)) => {
            TypedError::NewWithoutTier { unknown, example: format!("{pieces} {name}:{tier}") }
        }
        _ => unknown.into(),
    })?;
    // As above: a design first, where a tier has the same name.
    let design = designs.find(name).map(Asked::Design);
    let asked = design.or_else(|| designs.tiers.find(name).map(Asked::Tier)).ok_or_else(advice)?;
    Ok(Part { pieces, asked })
}

/// Whether a name goes on with another number of pieces: `letter 6 fox`.
fn holds_two_parts(name: &str) -> bool {
    let words: Vec<&str> = name.split_whitespace().collect();
    let is_number = |word: &&str| word.chars().all(|letter| letter.is_ascii_digit());
    (1..words.len().saturating_sub(1)).any(|at| is_number(&words[at]))
}
