//! What would make a set pay.

use super::{Mend, minor_unit};
use crate::pricing::change::Times;
use crate::pricing::fair::Season;
use crate::pricing::work::real;
use crate::quantity::TooLarge;
use crate::quantity::millionths::Money;
use crate::shop::Shop;

/// What would make up for so much that is missing.
pub(super) fn mend(
    shop: &Shop,
    season: &Season,
    missing: Money,
    (margins, set): (&[(i128, String)], i64),
    colours: f64,
    kept: Times,
    target: Money,
) -> Result<Mend, TooLarge> {
    let unit = minor_unit(shop);
    let charge = Money((missing.0 + unit - 1).div_euclid(unit) * unit);
    let net = kept.of(missing.0)?;
    let more = margins.iter().filter(|(margin, _)| *margin > 0).map(|(margin, key)| (net / margin + i128::from(net % margin != 0), key));
    let more = more.min_by_key(|(pieces, _)| *pieces).and_then(|(pieces, key)| Some((i64::try_from(pieces).ok()?, key.clone())));
    // Past as many again, or a dozen, it is another set.
    let more = more.filter(|(pieces, _)| *pieces <= set.max(12));
    let colour = season.part(0.0, season.pace.colour)?;
    let worth = colour.cost().0 + target.per_hour_for(colour.minutes())?.0;
    let fewer = (worth > 0).then(|| net / worth + i128::from(net % worth != 0)).and_then(|fewer| i64::try_from(fewer).ok());
    let fewer_colours = fewer.filter(|fewer| real(i128::from(*fewer)) <= colours - 1.0);
    Ok(Mend { charge, more, fewer_colours })
}
