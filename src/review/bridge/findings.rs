//! What stands out in a bridge: what moved it most, design by design too, and what a reader may stumble over.

use super::{Bridge, BridgeNames, Effect, GroupVariance, Part, StandardFrom};
use crate::quantity::Period;
use crate::quantity::millionths::{MILLION, Money};
use crate::review::bridge::variances::ItemVariance;

/// Parts named as movers at the most.
const MOVERS: usize = 3;
/// Ingredients named for a part at the most.
const ITEMS: usize = 3;
/// Designs in rows of their own.
const DESIGNS: usize = 6;

/// A side of a change.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(crate) enum Way {
    /// More sold.
    More,
    /// Fewer sold.
    Fewer,
}

/// What several groups changed together.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub(crate) struct Together {
    /// Pieces then and now.
    pub pieces: (i64, i64),
    /// The change of the surplus.
    pub change: Money,
    /// Of this, by more pieces and a different mix.
    pub volume_and_mix: Money,
    /// By prices.
    pub prices: Money,
    /// By the owner's time.
    pub time: Money,
    /// By ingredients.
    pub ingredients: Money,
    /// By the rest.
    pub rest: Money,
}

impl Together {
    fn of(groups: &[&GroupVariance]) -> Self {
        let mut sum = Self::default();
        for group in groups {
            sum.pieces = (sum.pieces.0 + group.pieces.0, sum.pieces.1 + group.pieces.1);
            sum.change += group.change.surplus;
            for (part, effect) in &group.parts {
                *match part {
                    Part::Volume | Part::Mix => &mut sum.volume_and_mix,
                    Part::Prices => &mut sum.prices,
                    Part::PieceMinutes | Part::SetUpMinutes => &mut sum.time,
                    Part::IngredientPrices | Part::IngredientUse => &mut sum.ingredients,
                    _ => &mut sum.rest,
                } += effect.surplus;
            }
        }
        sum
    }
}

/// The change design by design.
#[derive(Debug, Clone, PartialEq, Eq)]
pub(crate) struct ByDesign<'a> {
    /// Designs that moved it most, the farthest first.
    pub shown: Vec<(&'a GroupVariance, Together)>,
    /// How many others there are, and what they changed.
    pub others: Option<(usize, Together)>,
    /// All designs.
    pub designs: Together,
    /// Deliveries and the rest, and everything together; `None` where they changed nothing.
    pub beside: Option<[Together; 2]>,
}

impl Bridge {
    /// Whether both periods have orders to compare.
    #[must_use]
    pub(crate) fn is_comparable(&self) -> bool {
        self.then.orders > 0 && self.now.orders > 0
    }

    /// At most three parts, each at least a quarter of the farthest one and one of the main unit.
    #[must_use]
    pub(crate) fn movers(&self) -> Vec<(Part, Effect)> {
        let mut moved = self.moved();
        let most = moved.first().map_or(0, |(_, effect)| effect.surplus.0.abs());
        moved.retain(|(_, effect)| is_much(effect.surplus) && effect.surplus.0.abs() * 4 >= most);
        moved.truncate(MOVERS);
        moved
    }

    /// The designs that moved it most, the others together; `None` where none was sold.
    #[must_use]
    pub(crate) fn by_design(&self) -> Option<ByDesign<'_>> {
        let designs = self.designs_moved();
        let shown = if designs.len() <= DESIGNS + 1 { designs.len() } else { DESIGNS };
        let others = &designs[shown..];
        let beside: Vec<&GroupVariance> = self.groups.iter().filter(|group| !group.is_design()).collect();
        let is_moved = beside.iter().any(|group| group.change.surplus != Money::ZERO);
        (!designs.is_empty()).then(|| ByDesign {
            shown: designs[..shown].iter().map(|design| (*design, Together::of(&[design]))).collect(),
            others: (!others.is_empty()).then(|| (others.len(), Together::of(others))),
            designs: Together::of(&designs),
            beside: is_moved.then(|| [Together::of(&beside), Together::of(&self.groups.iter().collect::<Vec<_>>())]),
        })
    }

    /// The ingredients behind a change of prices or of use, the farthest first, from a tenth of the main unit on; none where the
    /// part itself is less than one.
    #[must_use]
    pub(crate) fn items_behind(&self, part: Part) -> Vec<(&str, Money)> {
        let of: fn(&ItemVariance) -> Money = match part {
            Part::IngredientPrices => |item| item.price,
            Part::IngredientUse => |item| item.used,
            _ => return Vec::new(),
        };
        let mut items: Vec<(&str, Money)> = self.items.iter().map(|(item, effect)| (self.names.items.text(*item), of(effect))).collect();
        items.retain(|(_, change)| change.0.abs() * 10 >= MILLION && is_much(self.part(part).surplus));
        items.sort_by_key(|(_, change)| -change.0.abs());
        items.truncate(ITEMS);
        items
    }

    /// Whether one period is longer than the other by more than a fifth: no two months are.
    #[must_use]
    pub(crate) fn differs_in_length(&self) -> bool {
        let days = |period: Period| period.from.zip(period.to).map(|(from, to)| i64::from(to.0) - i64::from(from.0) + 1);
        match (days(self.then.period), days(self.now.period)) {
            (Some(then), Some(now)) => (then - now).abs() * 5 > then.min(now),
            _ => true,
        }
    }

    /// Whether a part lowers the surplus and raises the wage, or the other way round, by more than a trifle.
    #[must_use]
    pub(crate) fn has_opposite_part(&self) -> bool {
        let is_opposite = |effect: &Effect| {
            let Some(wage) = effect.wage else { return false };
            (effect.surplus < Money::ZERO) != (wage < Money::ZERO) && is_much(effect.surplus) && wage.0.abs() * 20 >= MILLION
        };
        self.parts.iter().any(|(_, effect)| is_opposite(effect))
    }

    /// Finds whether selling more widened the gap to the target, or selling less narrowed it; `None` where neither did.
    #[must_use]
    pub(crate) fn sold_at_a_loss(&self) -> Option<Way> {
        let (pieces, volume) = (self.now.pieces - self.then.pieces, self.part(Part::Volume).surplus);
        let turned = is_much(volume) && pieces != 0 && (volume < Money::ZERO) != (pieces < 0);
        (turned && self.target.is_some()).then_some(if pieces < 0 { Way::Fewer } else { Way::More })
    }

    /// Whether designs not sold in the base period were compared with an average of it.
    #[must_use]
    pub(crate) fn has_new_designs(&self) -> bool {
        self.groups.iter().any(|group| matches!(group.standard, Some(StandardFrom::Tier | StandardFrom::Shop)))
    }
}

/// Whether money is at least one of the main unit.
#[must_use]
pub(crate) fn is_much(money: Money) -> bool {
    money.0.abs() >= MILLION
}

impl GroupVariance {
    /// Whether it is a design.
    #[must_use]
    pub(crate) fn is_design(&self) -> bool {
        matches!(self.group, super::Group::Design(_))
    }
}

impl BridgeNames {
    /// Returns the name of a group's design.
    #[must_use]
    pub fn design(&self, group: &GroupVariance) -> Option<&str> {
        match group.group {
            super::Group::Design(design) => Some(self.designs.text(design)),
            _ => None,
        }
    }
}
