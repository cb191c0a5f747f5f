//! What whole-order minutes are split by, and where it comes from: learned from the logs, the design card's guesses, or
//! every piece alike.

use crate::ids::{Design, Id, IdVec};
use crate::minutes::Learned;
use crate::minutes::learned::Shares;
use crate::shop::Shop;

/// Where minutes a piece come from.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum MinutesFrom {
    /// The shop's own whole-order hours.
    Learned,
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
            Self::Learned => "learned",
            Self::Card => "card",
            Self::Equal => "equal",
        }
    }
}

/// What an entry's minutes are made of, on one scale; only the proportions matter to a split.
#[derive(Debug, Clone)]
pub struct Proportions {
    /// Of an order.
    pub set_up: i128,
    /// Of a colour of an order.
    pub colour: i128,
    /// Of a piece, by design.
    pub each: IdVec<Design, i128>,
}

/// Minutes a piece, by design.
#[derive(Debug, Clone)]
pub struct MinutesEach {
    /// Of stages shared by minutes.
    pub decorating: Proportions,
    /// Of work without a stage.
    pub whole: Proportions,
    /// Where they come from.
    pub from: MinutesFrom,
    /// The same by design: one that no learned order holds leans on its card, or on its tier.
    pub of_design: IdVec<Design, MinutesFrom>,
}

impl MinutesEach {
    /// As learned: posterior means, which money uses.
    #[must_use]
    pub fn of_learned(learned: &Learned, shop: &Shop) -> Self {
        let of = |shares: Shares| Proportions {
            set_up: proportion(shares.set_up),
            colour: proportion(shares.colour),
            each: learned.mean.each.iter().map(|minutes| proportion(minutes + shares.handling)).collect(),
        };
        let source = |design: Id<Design>| match shop.designs.minutes_each[design] {
            Some(_) if !learned.saw(design) => MinutesFrom::Card,
            _ => MinutesFrom::Learned,
        };
        Self {
            decorating: of(learned.mean.decorating),
            whole: of(learned.mean.whole),
            from: MinutesFrom::Learned,
            of_design: shop.designs.all().map(source).collect(),
        }
    }

    /// From the card where any design has a guess; a design without one takes the plain mean of its tier's,
    /// else of the shop's.
    #[must_use]
    pub fn of_card(shop: &Shop) -> Self {
        let guesses: Vec<(Id<Design>, i64)> =
            shop.designs.all().filter_map(|design| Some((design, shop.designs.minutes_each[design]?))).collect();
        if guesses.is_empty() {
            return Self::equal(shop);
        }
        // A mean of guesses need not end at the millionth: weights are finer, so that cutting it off never shows.
        let tier_of = |design: Id<Design>| shop.designs.tier[design];
        let in_tier = |tier| guesses.iter().filter(move |(design, _)| tier == tier_of(*design)).map(|(_, minutes)| i128::from(*minutes));
        let weight = shop.designs.all().map(|design| {
            if let Some(minutes) = shop.designs.minutes_each[design] {
                return i128::from(minutes) * SCALE;
            }
            let tier = tier_of(design);
            let (sum, count) = match tier {
                Some(_) if in_tier(tier).count() > 0 => (in_tier(tier).sum::<i128>(), in_tier(tier).count()),
                _ => (guesses.iter().map(|(_, minutes)| i128::from(*minutes)).sum(), guesses.len()),
            };
            sum * SCALE / i128::try_from(count).unwrap_or(1)
        });
        Self::of_pieces(weight.collect(), MinutesFrom::Card)
    }

    /// Every piece alike.
    #[must_use]
    pub fn equal(shop: &Shop) -> Self {
        Self::of_pieces(IdVec::filled(1, shop.designs.names.len()), MinutesFrom::Equal)
    }

    /// Nothing but pieces.
    fn of_pieces(each: IdVec<Design, i128>, from: MinutesFrom) -> Self {
        let of_design = IdVec::filled(from, each.len());
        let proportions = Proportions { set_up: 0, colour: 0, each };
        Self { decorating: proportions.clone(), whole: proportions, from, of_design }
    }
}

/// Parts of a millionth of a minute; fine enough that a mean's rounding never reaches a stored digit.
const SCALE: i128 = 1_000_000;

/// Billionths of a minute. A piece is never nothing, or nothing could carry an order of such pieces.
#[expect(clippy::cast_possible_truncation, reason = "rounded, and minutes of a piece are far below 128 bits")]
fn proportion(minutes: f64) -> i128 {
    ((minutes * 1e9).round() as i128).max(1)
}
