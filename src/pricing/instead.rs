//! What would do instead of a raise, at the prices there are: minutes saved, colours dropped, a larger minimum, a charge
//! for each colour beyond some. Each is solved exactly for what is short of the target over the season.

use super::fair::Season;
use super::order_size::{Mix, Smallest, smallest};
use crate::ids::{Design, Id};
use crate::quantity::millionths::{MILLION, Minutes, Money};
use crate::quantity::ratio::multiply_divide;
use crate::quantity::{Percent, TooLarge};

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

/// What would do for the whole shop.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Instead {
    /// Tiers that are short, the most short first.
    pub tiers: Vec<ShortTier>,
    /// What the season is short of over all tiers; nil where it is not.
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

/// Times what a colour costs that it may be charged.
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

/// A design as it is priced now.
#[derive(Debug, Clone)]
pub struct Priced {
    /// The design.
    pub design: Id<Design>,
    /// Its tier's name.
    pub tier: String,
    /// Pieces sold.
    pub pieces: i64,
    /// Its price.
    pub price: Money,
}

/// At the prices given.
///
/// # Errors
/// [`TooLarge`] where a figure does not fit.
pub fn instead(season: &Season, designs: &[Priced], target: Money) -> Result<Instead, TooLarge> {
    let mut tiers: Vec<ShortTier> = Vec::new();
    let mut names: Vec<&str> = designs.iter().map(|design| design.tier.as_str()).collect();
    names.sort_unstable();
    names.dedup();
    let mut short = 0;
    for name in names {
        let members = designs.iter().filter(|design| design.tier == name);
        let (mut missing, mut pieces, mut minutes) = (0, 0, 0);
        for member in members {
            let of = i128::from(member.pieces);
            let piece = season.piece(member.design)?;
            missing += (piece.needs(target)?.0 - season.kept.of(member.price.0)?) * of;
            minutes += piece.own_minutes.0 * of;
            pieces += of;
        }
        short += missing;
        if missing > 0 {
            tiers.push(ShortTier {
                tier: name.to_owned(),
                short: Money(missing),
                save_minutes: save(season, missing, pieces, minutes, target)?,
            });
        }
    }
    tiers.sort_by_key(|tier| -tier.short);
    let colour = season.part(0.0, season.pace.colour)?;
    // Overhead and what no order explains go on without the colour.
    let colour_cost = colour.helper_pay + target.per_hour_for(colour.set_up_minutes)?;
    let orders = i128::from(season.orders);
    // Colours are known of orders with hours: they are set against what those were short of.
    let sold: i64 = season.sold.iter().sum();
    let short_of_known = multiply_divide(short.max(0), i128::from(season.pieces), i128::from(sold.max(1)))?;
    let drop_colours = match colour_cost.0.checked_mul(orders).filter(|each| *each > 0) {
        Some(each) => Some(multiply_divide(short_of_known, MILLION, each)?).filter(|drop| *drop <= millionths(season.colours)),
        None => None,
    };
    let order = season.whole_order(season.colours)?;
    let after_fees = season.after_fees();
    let set_up_charge = if short_of_known > 0 && orders > 0 && after_fees.numerator > 0 {
        Some(Money(multiply_divide(after_fees.into(short_of_known)?, 1, orders)?))
    } else {
        None
    };
    Ok(Instead {
        tiers,
        short: Money(short.max(0)),
        drop_colours,
        colour_minutes: Minutes::from_estimate(season.pace.colour).ok_or(TooLarge)?,
        colour_cost,
        set_up_charge,
        set_up_cost: order.cost + target.per_hour_for(order.minutes)?,
        smallest: smallest(&order, &mix(season, designs)?, target)?,
        charge: charge(season, short_of_known)?.filter(|charge| charge.each.0 <= MOST * colour_cost.0),
    })
}

/// All pieces of the season at their prices, as one mix.
///
/// # Errors
/// [`TooLarge`] where a figure does not fit.
pub fn mix(season: &Season, designs: &[Priced]) -> Result<Mix, TooLarge> {
    let mut mix = Mix::default();
    for design in designs {
        let (own, pieces) = (season.own_piece(design.design)?, i128::from(design.pieces));
        mix.pieces += design.pieces;
        mix.kept += Money(season.kept.of(design.price.0)? * pieces);
        mix.cost += Money(own.cost().0 * pieces);
        mix.minutes += Minutes(own.minutes().0 * pieces);
    }
    Ok(mix)
}

/// The owner's minutes a piece, of those it takes itself. A minute saved saves its wage, and the helpers' part of the work with
/// their pay.
fn save(season: &Season, missing: i128, pieces: i128, minutes: i128, target: Money) -> Result<Option<Minutes>, TooLarge> {
    let (owner, helper_pay) = (season.rates.owner.0, season.rates.helper_pay.0);
    let hour = 60 * MILLION;
    let product = |one: i128, other: i128| one.checked_mul(other).ok_or(TooLarge);
    let of_all_hours = product(target.0, owner)?.checked_add(product(helper_pay, hour)?).ok_or(TooLarge)?;
    if of_all_hours <= 0 || pieces <= 0 {
        return Ok(None);
    }
    let all = multiply_divide(missing, product(owner, hour)?, of_all_hours)?;
    Ok(if all < minutes { Some(Minutes(multiply_divide(all, 1, pieces)?)) } else { None })
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

/// What an extra colour must be charged to pay for itself.
///
/// # Errors
/// [`TooLarge`] where it does not fit.
pub fn fair_colour(season: &Season, colour_cost: Money) -> Result<Money, TooLarge> {
    season.after_fees().into(colour_cost.0).map(Money)
}

/// A share of what is charged, of the whole in millionths of a per cent.
#[must_use]
pub fn percent_of(part: Money, whole: Money) -> Option<Percent> {
    let share = multiply_divide(part.0, Percent::WHOLE, whole.0).ok()?;
    i64::try_from(share).ok().map(Percent)
}

#[expect(clippy::cast_possible_truncation, reason = "a count of colours")]
fn millionths(count: f64) -> i128 {
    (count * 1e6).round() as i128
}
