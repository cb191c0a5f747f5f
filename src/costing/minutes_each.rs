//! Minutes per piece that whole orders' hours are split by: learned from the logs, guessed on the design card, or
//! equal.

use crate::ids::{Design, Id, IdVec};
use crate::minutes::Learned;
use crate::minutes::learned::Shares;
use crate::shop::Shop;

/// Source of the minutes per piece.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum MinutesFrom {
    /// Learned from the shop's whole-order hours.
    Learned,
    /// The maker's own guess on the design card.
    Card,
    /// None: every piece is assumed to take the same time.
    Equal,
}

impl MinutesFrom {
    /// Returns its name in tables and JSON.
    #[must_use]
    pub fn word(self) -> &'static str {
        match self {
            Self::Learned => "learned",
            Self::Card => "card",
            Self::Equal => "equal",
        }
    }
}

/// Relative minutes of set-up, a colour and a piece, on one scale; only their proportions matter to a split.
#[derive(Debug, Clone)]
pub(crate) struct Proportions {
    /// Per order.
    pub set_up: i128,
    /// Per colour of an order.
    pub colour: i128,
    /// Per piece, by design.
    pub each: IdVec<Design, i128>,
}

/// Proportions to split minutes by.
#[derive(Debug, Clone)]
pub(crate) struct MinutesEach {
    /// For stages shared by minutes.
    pub decorating: Proportions,
    /// For work without a stage.
    pub whole: Proportions,
    /// Their source.
    pub from: MinutesFrom,
    /// The source by design: one in no order that was learned from rests on its card, or on its tier.
    pub of_design: IdVec<Design, MinutesFrom>,
}

impl MinutesEach {
    /// Takes learned minutes: the posterior means.
    #[must_use]
    pub(crate) fn of_learned(learned: &Learned, shop: &Shop) -> Self {
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

    /// Takes the card's guesses, if there are any. A design without one has the plain mean of its tier's guesses,
    /// else of the shop's.
    #[must_use]
    pub(crate) fn of_card(shop: &Shop) -> Self {
        let guesses: Vec<(Id<Design>, i64)> =
            shop.designs.all().filter_map(|design| Some((design, shop.designs.minutes_each[design]?))).collect();
        if guesses.is_empty() {
            return Self::equal(shop);
        }
        // A mean of guesses need not be a whole millionth; finer weights keep the rounding out of stored digits.
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

    /// Gives every piece the same minutes.
    #[must_use]
    pub fn equal(shop: &Shop) -> Self {
        Self::of_pieces(IdVec::filled(1, shop.designs.names.len()), MinutesFrom::Equal)
    }

    /// Proportions by pieces alone, without set-up or colours.
    fn of_pieces(each: IdVec<Design, i128>, from: MinutesFrom) -> Self {
        let of_design = IdVec::filled(from, each.len());
        let proportions = Proportions { set_up: 0, colour: 0, each };
        Self { decorating: proportions.clone(), whole: proportions, from, of_design }
    }
}

/// Weights per millionth of a minute: fine enough that rounding a mean never reaches a stored digit.
const SCALE: i128 = 1_000_000;

/// Converts minutes to billionths, at least 1: an order whose pieces all had weight zero could carry no minutes.
#[expect(clippy::cast_possible_truncation, reason = "rounded, and minutes of a piece are far below 128 bits")]
fn proportion(minutes: f64) -> i128 {
    ((minutes * 1e9).round() as i128).max(1)
}
