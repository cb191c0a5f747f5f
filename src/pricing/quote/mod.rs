//! A new set priced from the tiers: its price, what would be fair, what an hour of it would pay, and what would make it pay.

mod answer;
mod ranges;
mod remedies;
mod rush;

use crate::pricing::cost::{Mix, Piece, Season, least_price, smallest};
use crate::pricing::error::PricingError;
use crate::pricing::set::{Asked, Part};
use crate::pricing::work::real;
use crate::quantity::millionths::{Minutes, Money};
use crate::quantity::ratio::multiply_divide;
use crate::quantity::{Day, Price, TooLarge};
use crate::shop::Shop;
pub use answer::{Line, Quote, Remedies, Request};
use answer::{Weighted, minor_unit};
use ranges::fill_ranges;
use remedies::{Margin, remedies};
pub use rush::usual_rush;

/// Prices a set.
///
/// # Errors
/// [`PricingError`]: a part without a list price, or a figure that does not fit.
pub fn quote(shop: &Shop, season: &Season, request: &Request) -> Result<Quote, PricingError> {
    let (mut lines, mut designs) = (Vec::new(), Vec::new());
    for part in &request.parts {
        let weighted = designs_of(shop, season, &part.asked);
        lines.push(line(shop, season, part, &weighted, request.day)?);
        designs.push(weighted);
    }
    Ok(Pricing { season, request, lines, designs }.quote(shop)?)
}

/// The designs that stand for a part: itself, or those of its tier as often as they were sold.
fn designs_of(shop: &Shop, season: &Season, asked: &Asked) -> Weighted {
    let tier = match asked {
        Asked::Design(design) => return vec![(*design, 1)],
        Asked::Tier(tier) | Asked::New(_, tier) => *tier,
    };
    let members = || shop.designs.all().filter(|design| shop.designs.tier[*design] == Some(tier));
    let sold: Weighted = members().map(|design| (design, season.sold[design])).filter(|(_, sold)| *sold > 0).collect();
    if sold.is_empty() { members().map(|design| (design, 1)).collect() } else { sold }
}

/// One part at its list price.
fn line(shop: &Shop, season: &Season, part: &Part, weighted: &Weighted, day: Day) -> Result<Line, PricingError> {
    let designs = &shop.designs;
    // A design is priced in the tier it sits in that day.
    let (key, tier, is_new) = match &part.asked {
        Asked::Design(design) => (designs.names.text(*design), designs.tier_on(*design, day), false),
        Asked::Tier(tier) => (designs.tiers.text(*tier), Some(designs.tiers.text(*tier)), false),
        Asked::New(name, tier) => (name.as_str(), Some(designs.tiers.text(*tier)), true),
    };
    let listed = tier.and_then(|tier| shop.prices.price(tier, day));
    if let (None, Some(first)) = (listed, tier.and_then(|tier| shop.prices.next_start(tier, day))) {
        return Err(PricingError::NotYetListed { key: key.to_owned(), day, first });
    }
    let listed = match listed.filter(|price| price.amount > Money::ZERO) {
        Some(price) => price,
        None => mean_charged(shop, season, weighted)?.ok_or_else(|| PricingError::NeverPriced(key.to_owned()))?,
    };
    let (own, weights) = own_pieces(season, weighted)?;
    Ok(Line {
        key: key.to_owned(),
        tier: tier.map(str::to_owned),
        pieces: part.pieces,
        price: listed.times(1)?,
        comes_to: listed.times(part.pieces)?,
        minutes: Minutes(multiply_divide(own.own_minutes.0, 1, weights.into())?),
        list_from: tier.and_then(|tier| shop.prices.since(tier, day)),
        has_materials: weighted.iter().all(|(design, _)| season.has_materials(*design)),
        is_new,
    })
}

/// The sum of pieces in an order already running, and how many.
fn own_pieces(season: &Season, weighted: &Weighted) -> Result<(Piece, i64), TooLarge> {
    let pieces = weighted.iter().map(|(design, weight)| Ok((season.own_piece(*design)?, *weight)));
    let pieces = pieces.collect::<Result<Vec<(Piece, i64)>, TooLarge>>()?;
    Ok((Piece::sum(pieces.into_iter())?, weighted.iter().map(|(_, weight)| weight).sum()))
}

/// What was charged on average, to the minor unit; `None` where nothing was sold at a price.
fn mean_charged(shop: &Shop, season: &Season, weighted: &Weighted) -> Result<Option<Price>, TooLarge> {
    let (sum, weights) = weighted
        .iter()
        .filter_map(|(design, weight)| Some((season.old_price[*design]?, i128::from(*weight))))
        .fold((0, 0), |(sum, weights), (price, weight)| (sum + price.0 * weight, weights + weight));
    if weights == 0 {
        return Ok(None);
    }
    let unit = minor_unit(shop);
    let units = multiply_divide(sum, 1, weights.checked_mul(unit).ok_or(TooLarge)?)?;
    Ok(Some(Price { amount: Money(units * unit), pieces: 1 }))
}

/// A set being priced.
struct Pricing<'a> {
    season: &'a Season,
    request: &'a Request,
    lines: Vec<Line>,
    designs: Vec<Weighted>,
}

impl Pricing<'_> {
    fn quote(self, shop: &Shop) -> Result<Quote, TooLarge> {
        let (season, target) = (self.season, self.request.target);
        let colours = self.request.colours.map_or(season.colours, |colours| real(colours.into()));
        let kept = season.after_fees();
        let rush_on = |listed: Money| self.request.rush.map_or(Ok(Money::ZERO), |rush| rush.of(listed));
        let (mut mix, mut listed, mut own_minutes) = (Mix::default(), Money::ZERO, Minutes::ZERO);
        let mut margins: Vec<Margin> = Vec::new();
        for (line, weighted) in self.lines.iter().zip(&self.designs) {
            let (own, weights) = own_pieces(season, weighted)?;
            let mean = |sum: i128| multiply_divide(sum, 1, weights.into());
            let (cost, minutes, pieces) = (mean(own.cost().0)?, Minutes(mean(own.minutes().0)?), i128::from(line.pieces));
            mix.pieces += line.pieces;
            mix.kept += Money(kept.of(line.comes_to.0)?);
            mix.cost += Money(cost * pieces);
            mix.minutes += Minutes(minutes.0 * pieces);
            own_minutes += Minutes(line.minutes.0 * pieces);
            listed += line.comes_to;
            // A piece more brings its part of a rush, too.
            let brings = kept.of((line.price + rush_on(line.price)?).0)?;
            margins.push((brings - cost - target.per_hour_for(minutes)?.0, line.key.clone()));
        }
        // A rush is charged on the pieces, so more of them bring more of it; it is said to the minor unit, as a price is.
        let rush = rush_on(listed)?;
        mix.kept += Money(kept.of(rush.0)?);
        let unit = minor_unit(shop);
        let rush = Money(multiply_divide(rush.0, 1, unit)? * unit);
        let price = listed + rush;
        let (order, set_up) = (season.whole_order(colours)?, season.set_up(colours)?);
        let (cost, minutes) = (order.cost + mix.cost, order.minutes + mix.minutes);
        let fair_price = least_price((cost + target.per_hour_for(minutes)?).0, 1, kept)?;
        let missing = Some(fair_price - price).filter(|missing| *missing > Money::ZERO);
        let mut quote = Quote {
            pieces: mix.pieces,
            colours: Money::from_estimate(colours).ok_or(TooLarge)?,
            usual_colours: self.request.colours.is_none(),
            rush,
            price,
            fair_price,
            fair: None,
            minutes: own_minutes + set_up.set_up_minutes,
            minutes_range: None,
            set_up_minutes: set_up.set_up_minutes,
            wage: (Money(kept.of(price.0)?) - cost).an_hour(minutes),
            wage_range: None,
            chance: None,
            target,
            smallest: smallest(&order, &mix, target)?,
            remedies: missing.map(|missing| remedies(shop, season, missing, (&margins, mix.pieces, colours), target)).transpose()?,
            rush_rate: self.request.rush,
            lines: Vec::new(),
        };
        quote.lines = self.lines;
        fill_ranges(&mut quote, season, &self.designs, colours);
        Ok(quote)
    }
}
