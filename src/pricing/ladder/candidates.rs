//! The prices among which a best ladder lies.

use super::rules::{LadderDesign, NEAR, Rules, most};
use crate::pricing::cost::least_price;
use crate::quantity::TooLarge;
use crate::quantity::millionths::Money;
use std::collections::BTreeSet;

/// Prices that are all tried: a row up to $250 by quarters.
pub(super) const WHOLE_ROW: i128 = 1000;

/// Prices to choose from.
pub(super) struct Candidates {
    /// Their places in the row of prices, rising.
    pub(super) places: Vec<i128>,
    /// Whether prices were left out among which a better ladder may lie.
    pub(super) thinned: bool,
}

/// Places of the prices that a best ladder may need. `order` names the designs by their places among `all`.
///
/// A tier's score is, on the row of prices, convex with corners at its designs' old prices and caps and at the least
/// prices that meet target and floors. With tier k's price moved down by k places the ladder need only not fall, and of
/// convex functions so tied together (isotonic regression) a best solution lies at corners: each corner, and up to `tiers` − 1
/// places above and below it, are enough. That designs stand at a near price ties two neighbours' prices together by a
/// fair or old price, so a corner may also lie mirrored in one, and that mirrored again: a row that is not very long is therefore taken
/// whole, and only in a longer one are corners, once mirrored, all there is to choose from: with two tiers or more the search is then
/// thinned.
pub(super) fn candidates(
    all: &[LadderDesign],
    order: &[usize],
    tiers: usize,
    rules: &Rules,
    whole_row: i128,
) -> Result<Candidates, TooLarge> {
    let mut corners: BTreeSet<i128> = BTreeSet::new();
    let mut corner = |price: Money| {
        corners.insert(rules.endings.at_most(price));
        corners.insert(rules.endings.at_least(price));
    };
    for (from, at) in order.iter().enumerate() {
        let design = &all[*at];
        let (lesser, greater) = between(design, rules)?;
        [design.old, lesser, greater].into_iter().for_each(&mut corner);
        if let Some(most) = most(design, rules) {
            corner(most);
        }
        if let Some(needs) = design.floor_needs {
            corner(least_price(needs.0, 1, rules.kept)?);
        }
        let (mut needs, mut pieces) = (0_i128, 0_i128);
        for at in &order[from..] {
            let design = &all[*at];
            pieces += i128::from(design.pieces);
            needs += design.needs.0.checked_mul(design.pieces.into()).ok_or(TooLarge)?;
            corner(least_price(needs, pieces, rules.kept)?);
        }
    }
    let reach = i128::try_from(tiers).unwrap_or(1) - 1;
    let lowest = rules.endings.at_least(Money(1));
    let between = order.iter().map(|at| between(&all[*at], rules)).collect::<Result<Vec<(Money, Money)>, _>>()?;
    let in_one = |end: Money, corner: i128| {
        let (price, whole) = (rules.endings.price(corner).0, (NEAR.0 + NEAR.1) * end.0);
        [(whole - NEAR.0 * price).div_euclid(NEAR.1), (whole - NEAR.1 * price).div_euclid(NEAR.0)]
    };
    let mirrored: BTreeSet<i128> = between
        .into_iter()
        .flat_map(|(lesser, greater)| [lesser, greater])
        .flat_map(|end| corners.iter().flat_map(move |corner| in_one(end, *corner)))
        .flat_map(|price| [rules.endings.at_most(Money(price)), rules.endings.at_least(Money(price + 1))])
        .collect();
    corners.extend(mirrored);
    let highest = corners.last().copied().unwrap_or(lowest) + reach;
    if highest - lowest < whole_row {
        return Ok(Candidates { places: (lowest..=highest).collect(), thinned: false });
    }
    let places: BTreeSet<i128> =
        corners.into_iter().flat_map(|corner| corner - reach..=corner + reach).map(|place| place.max(lowest)).collect();
    // Where corners crowd at the bottom, strictly rising prices still need room.
    let places = places.into_iter().chain(lowest..=lowest + reach).collect::<BTreeSet<_>>().into_iter().collect();
    Ok(Candidates { places, thinned: tiers > 1 })
}

/// The lesser and the greater of a design's fair and old price.
pub(super) fn between(design: &LadderDesign, rules: &Rules) -> Result<(Money, Money), TooLarge> {
    let fair = least_price(design.needs.0, 1, rules.kept)?;
    Ok((fair.min(design.old), fair.max(design.old)))
}
