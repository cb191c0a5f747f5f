//! Decorating minutes of one piece of each design, and where they come from: what whole-order hours are
//! split by. They come from outside the split, so that another source can take the place of the card.

use crate::shop::Shop;
use crate::shop::designs::Design;

/// Where minutes a piece come from.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum MinutesFrom {
    /// The design card: the maker's own guess.
    Card,
    /// No source: each piece is taken to last as long as any other.
    Equal,
}

impl MinutesFrom {
    /// The word for it in tables and JSON.
    #[must_use]
    pub fn word(self) -> &'static str {
        match self {
            Self::Card => "card",
            Self::Equal => "equal",
        }
    }
}

/// Minutes a piece, by design, on one scale.
#[derive(Debug, Clone)]
pub struct MinutesEach {
    /// In parts of one scale; only their proportions matter to a split.
    pub weight: Vec<i128>,
    /// Where they come from.
    pub from: MinutesFrom,
}

impl MinutesEach {
    /// From the card where any design has a guess; a design without one takes the plain mean of its tier's,
    /// else of the shop's.
    #[must_use]
    pub fn of_card(shop: &Shop) -> Self {
        let guesses: Vec<(Design, i64)> =
            shop.designs.all().filter_map(|design| Some((design, shop.designs.minutes_each[design.0 as usize]?))).collect();
        if guesses.is_empty() {
            return Self::equal(shop);
        }
        // A mean of guesses need not end at the millionth: weights are finer, so that cutting it off never shows.
        let tier_of = |design: Design| shop.designs.tier[design.0 as usize];
        let in_tier = |tier| guesses.iter().filter(move |(design, _)| tier == tier_of(*design)).map(|(_, minutes)| i128::from(*minutes));
        let weight = shop.designs.all().map(|design| {
            if let Some(minutes) = shop.designs.minutes_each[design.0 as usize] {
                return i128::from(minutes) * SCALE;
            }
            let tier = tier_of(design);
            let (sum, count) = match tier {
                Some(_) if in_tier(tier).count() > 0 => (in_tier(tier).sum::<i128>(), in_tier(tier).count()),
                _ => (guesses.iter().map(|(_, minutes)| i128::from(*minutes)).sum(), guesses.len()),
            };
            sum * SCALE / i128::try_from(count).unwrap_or(1)
        });
        Self { weight: weight.collect(), from: MinutesFrom::Card }
    }

    /// Every piece alike.
    #[must_use]
    pub fn equal(shop: &Shop) -> Self {
        Self { weight: vec![1; shop.designs.names.len()], from: MinutesFrom::Equal }
    }
}

/// Parts of a millionth of a minute; fine enough that a mean's rounding never reaches a stored digit.
const SCALE: i128 = 1_000_000;
