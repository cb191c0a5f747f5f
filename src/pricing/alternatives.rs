//! What would help instead of a raise, at today's prices: minutes saved, fewer colours, a larger minimum, a set-up charge, a charge for
//! each colour beyond some. Each is solved exactly for what the season is short of the target.

use super::cost::{Piece, Season, Smallest};
use crate::quantity::millionths::{MILLION, Minutes, Money};
use crate::quantity::ratio::multiply_divide;
use crate::quantity::{Factor, TooLarge};
use std::collections::BTreeMap;

/// A tier that is short at its price.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct ShortTier {
    /// Its name.
    pub tier: String,
    /// What its season is short of.
    pub short: Money,
    /// Minutes to save on each piece; `None` where no saving is enough.
    pub save_minutes: Option<Minutes>,
}

/// What would help the whole shop.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Alternatives {
    /// Tiers that are short, the most short first.
    pub tiers: Vec<ShortTier>,
    /// What the season is short of over all tiers; 0 where it is not.
    pub short: Money,
    /// Colours to drop from each order, in millionths; `None` where dropping all would not do.
    pub drop_colours: Option<i128>,
    /// The owner's and helpers' minutes of one colour.
    pub colour_minutes: Minutes,
    /// What a colour costs at the target.
    pub colour_cost: Money,
    /// A charge for the set-up of each order; `None` where nothing is short.
    pub set_up_charge: Option<Money>,
    /// What a set-up costs at the target: its box, fixed fees and time.
    pub set_up_cost: Money,
    /// The smallest order to accept, of the season's mix and colours.
    pub smallest: Smallest,
    /// A charge for each colour beyond so many; `None` where it would be past [`MOST`] times what a colour costs, for then it is no
    /// charge for colours any more.
    pub charge: Option<ColourCharge>,
}

/// Factor what a colour costs that it may be charged.
pub const MOST: i128 = 3;

/// A charge for each colour beyond some.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct ColourCharge {
    /// Colours free of it.
    pub beyond: i64,
    /// What each further one is charged.
    pub each: Money,
    /// Colours it would have been charged for in the season, in millionths.
    pub colours: i128,
}

/// A design at today's price.
#[derive(Debug, Clone)]
pub struct AtToday {
    /// Its tier's name; its own where it has none.
    pub tier: String,
    /// Pieces sold.
    pub pieces: i64,
    /// Its price.
    pub price: Money,
    /// What a piece costs.
    pub piece: Piece,
}

/// What designs of a tier, or of all, are short of a target together.
#[derive(Debug, Clone, Copy, Default)]
struct Short {
    missing: i128,
    pieces: i128,
    own_minutes: i128,
}

/// At today's prices, of which so much is kept.
///
/// # Errors
/// [`TooLarge`] where a figure does not fit.
pub fn alternatives(season: &Season, kept: Factor, designs: &[AtToday], target: Money) -> Result<Alternatives, TooLarge> {
    let mut by_tier: BTreeMap<&str, Short> = BTreeMap::new();
    for AtToday { tier, pieces, price, piece } in designs {
        let (short, pieces) = (by_tier.entry(tier.as_str()).or_default(), i128::from(*pieces));
        short.missing += (piece.needs(target)?.0 - kept.of(price.0)?) * pieces;
        short.own_minutes += piece.own_minutes.0 * pieces;
        short.pieces += pieces;
    }
    let missing = by_tier.values().map(|short| short.missing).sum::<i128>().max(0);
    let short_tier = |(tier, short): (&str, Short)| {
        let save_minutes = save(season, short, target)?;
        Ok(ShortTier { tier: tier.to_owned(), short: Money(short.missing), save_minutes })
    };
    let mut tiers =
        by_tier.into_iter().filter(|(_, short)| short.missing > 0).map(short_tier).collect::<Result<Vec<ShortTier>, TooLarge>>()?;
    tiers.sort_by_key(|tier| -tier.short);
    let colour = season.colour()?;
    // Overhead and unassigned costs go on without the colour.
    let colour_cost = colour.helper_pay + target.per_hour_for(colour.set_up_minutes)?;
    let orders = i128::from(season.orders);
    // Colours are known of orders with hours: they are set against what those were short of.
    let sold: i64 = season.sold.iter().sum();
    let short_of_known = multiply_divide(missing, i128::from(season.pieces), i128::from(sold.max(1)))?;
    let drop_colours = match colour_cost.0.checked_mul(orders).filter(|each| *each > 0) {
        Some(each) => Some(multiply_divide(short_of_known, MILLION, each)?).filter(|drop| *drop <= millionths(season.colours)),
        None => None,
    };
    let after_fees = season.after_fees();
    let set_up_charge = if short_of_known > 0 && orders > 0 && after_fees.numerator > 0 {
        Some(Money(multiply_divide(after_fees.into(short_of_known)?, 1, orders)?))
    } else {
        None
    };
    let order = season.whole_order(season.colours)?;
    Ok(Alternatives {
        tiers,
        short: Money(missing),
        drop_colours,
        colour_minutes: Minutes::from_estimate(season.pace.colour).ok_or(TooLarge)?,
        colour_cost,
        set_up_charge,
        set_up_cost: order.cost + target.per_hour_for(order.minutes)?,
        smallest: season.smallest_order(|design| season.old_price[design], target)?.unwrap_or(Smallest::Never),
        charge: charge(season, short_of_known)?.filter(|charge| charge.each.0 <= MOST * colour_cost.0),
    })
}

/// The owner's minutes a piece, of those it takes itself. A minute saved saves its wage, and the helpers' part of the work with
/// their pay.
fn save(season: &Season, Short { missing, pieces, own_minutes }: Short, target: Money) -> Result<Option<Minutes>, TooLarge> {
    let (owner, helper_pay) = (season.rates.owner.0, season.rates.helper_pay.0);
    let hour = 60 * MILLION;
    let product = |one: i128, other: i128| one.checked_mul(other).ok_or(TooLarge);
    let of_all_hours = product(target.0, owner)?.checked_add(product(helper_pay, hour)?).ok_or(TooLarge)?;
    if of_all_hours <= 0 || pieces <= 0 {
        return Ok(None);
    }
    let all = multiply_divide(missing, product(owner, hour)?, of_all_hours)?;
    Ok(if all < own_minutes { Some(Minutes(multiply_divide(all, 1, pieces)?)) } else { None })
}

/// Beyond the mean order's colours.
fn charge(season: &Season, short: i128) -> Result<Option<ColourCharge>, TooLarge> {
    #[expect(clippy::cast_possible_truncation, reason = "a mean of colours")]
    let beyond = season.colours.floor() as i64;
    let free = i128::from(beyond) * MILLION;
    let colours: i128 = season.work.colours_each.iter().map(|colours| (millionths(*colours) - free).max(0)).sum();
    let kept = season.after_fees();
    if colours == 0 || kept.numerator <= 0 || beyond == 0 {
        return Ok(None);
    }
    let each = multiply_divide(kept.into(short)?, MILLION, colours)?;
    Ok(Some(ColourCharge { beyond, each: Money(each), colours }))
}

#[expect(clippy::cast_possible_truncation, reason = "a count of colours")]
fn millionths(count: f64) -> i128 {
    (count * 1e6).round() as i128
}
