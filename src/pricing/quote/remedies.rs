//! What would make a set pay.

use super::answer::{Remedies, minor_unit};
use crate::pricing::cost::Season;
use crate::pricing::work::real;
use crate::quantity::TooLarge;
use crate::quantity::millionths::Money;
use crate::shop::Shop;

/// What one more piece of a part leaves beyond its cost and time at the target, and the part's name.
pub(super) type Margin = (i128, String);

/// What would make up for so much that is missing, of a set of so many pieces and colours.
pub(super) fn remedies(
    shop: &Shop,
    season: &Season,
    missing: Money,
    (margins, pieces, colours): (&[Margin], i64, f64),
    target: Money,
) -> Result<Remedies, TooLarge> {
    let unit = minor_unit(shop);
    let charge = Money((missing.0 + unit - 1).div_euclid(unit) * unit);
    let net = season.after_fees().of(missing.0)?;
    let enough = |each: i128| net / each + i128::from(net % each != 0);
    let more = margins.iter().filter(|(margin, _)| *margin > 0).map(|(margin, key)| (enough(*margin), key));
    let more = more.min_by_key(|(more, _)| *more).and_then(|(more, key)| Some((i64::try_from(more).ok()?, key.clone())));
    // Past as many again, or a dozen, it is another set.
    let more = more.filter(|(more, _)| *more <= pieces.max(12));
    let colour = season.colour()?.needs(target)?.0;
    let fewer = (colour > 0).then(|| enough(colour)).and_then(|fewer| i64::try_from(fewer).ok());
    let fewer_colours = fewer.filter(|fewer| real(i128::from(*fewer)) <= colours - 1.0);
    Ok(Remedies { charge, more, fewer_colours })
}
