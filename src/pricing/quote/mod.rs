//! A new set priced from the tiers: its price, what would be fair, what an hour of it would pay, and what would make it pay.

mod mend;
mod ranges;
mod rush;

use crate::ids::{Design, Id, Tier};
use crate::pricing::fair::Season;
use crate::pricing::ladder::least;
use crate::pricing::order_size::{Mix, Smallest, smallest};
use crate::pricing::raise::Share;
use crate::pricing::set::{Asked, Part};
use crate::pricing::work::{Work, real};
use crate::quantity::millionths::{Minutes, Money, minor_decimals};
use crate::quantity::ratio::multiply_divide;
use crate::quantity::{Day, Percent, Price, TooLarge};
use crate::shop::Shop;
pub use rush::usual_rush;

/// What is asked for.
#[derive(Debug, Clone)]
pub struct Request {
    /// The set.
    pub parts: Vec<Part>,
    /// Icing colours; `None`: as many as usual.
    pub colours: Option<i64>,
    /// A rush charge on the list prices.
    pub rush: Option<Percent>,
    /// The day whose list prices it.
    pub day: Day,
    /// The wage aimed at.
    pub target: Money,
}

/// A part of the set, priced.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Line {
    /// Its name.
    pub key: String,
    /// The tier it is priced in.
    pub tier: Option<String>,
    /// Pieces.
    pub pieces: i64,
    /// List price of a piece.
    pub price: Money,
    /// Of all of them.
    pub comes_to: Money,
    /// The owner's minutes on a piece.
    pub minutes: Minutes,
    /// The day since which its price is on the list; `None` where it has none, or had it always.
    pub list_from: Option<Day>,
    /// Whether its materials are known to cost anything.
    pub has_materials: bool,
    /// Whether it is of no design sold before, and taken to be like its tier's others.
    pub is_new: bool,
}

/// The answer.
#[derive(Debug, Clone, PartialEq)]
pub struct Quote {
    /// The set.
    pub lines: Vec<Line>,
    /// Pieces in it.
    pub pieces: i64,
    /// Colours in it.
    pub colours: Share,
    /// Whether the colours are the usual ones, not asked for.
    pub usual_colours: bool,
    /// The rush charge.
    pub rush: Money,
    /// What it comes to.
    pub price: Money,
    /// What it would have to come to for the target.
    pub fair_price: Money,
    /// One draw in twenty asks for less, one for more.
    pub fair: Option<(Money, Money)>,
    /// The owner's time on it.
    pub minutes: Minutes,
    /// What the logs fit.
    pub minutes_range: Option<(Minutes, Minutes)>,
    /// What of the owner's time is set-up and colours.
    pub set_up_minutes: Minutes,
    /// What an hour pays, what no order explains taken into account.
    pub wage: Option<Money>,
    /// One draw in twenty pays less, one more.
    pub wage_range: Option<(Money, Money)>,
    /// The share of draws in which it reaches the target.
    pub chance: Option<Share>,
    /// The wage aimed at.
    pub target: Money,
    /// The smallest order of this mix worth its set-up.
    pub smallest: Smallest,
    /// What would make it pay; `None` where it does.
    pub mend: Option<Mend>,
    /// The rate of the rush charge.
    pub rush_rate: Option<Percent>,
}

/// What would make a set pay, each alone.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Mend {
    /// A charge beyond its price, to the minor unit, rounded up.
    pub charge: Money,
    /// More pieces of one of its parts: how many, of which.
    pub more: Option<(i64, String)>,
    /// Fewer colours.
    pub fewer_colours: Option<i64>,
}

/// Where a part's figures come from: designs with their weights.
type Like = Vec<(Id<Design>, i64)>;

/// Prices a set.
///
/// # Errors
/// What is wrong and what to do about it.
pub fn quote(shop: &Shop, season: &Season, request: &Request) -> Result<Quote, String> {
    let failed = |error: TooLarge| error.to_string();
    let mut lines = Vec::new();
    let mut likes = Vec::new();
    for part in &request.parts {
        let (line, like) = line(shop, season, part, request.day)?;
        lines.push(line);
        likes.push(like);
    }
    Sums { season, request, lines, likes }.quote(shop).map_err(failed)
}

/// One part: its list price, and the designs it is taken to be like.
fn line(shop: &Shop, season: &Season, part: &Part, day: Day) -> Result<(Line, Like), String> {
    let designs = &shop.designs;
    let of_tier = |tier: Id<Tier>| -> Like {
        let members: Vec<Id<Design>> = designs.all().filter(|design| designs.tier[*design] == Some(tier)).collect();
        let sold: Like = members.iter().copied().map(|design| (design, season.sold[design])).filter(|(_, sold)| *sold > 0).collect();
        if sold.is_empty() { members.into_iter().map(|design| (design, 1)).collect() } else { sold }
    };
    let (key, like, is_new) = match &part.asked {
        Asked::Design(design) => (designs.names.text(*design).to_owned(), vec![(*design, 1)], false),
        Asked::Tier(tier) => (designs.tiers.text(*tier).to_owned(), of_tier(*tier), false),
        Asked::New(name, tier) => (name.clone(), of_tier(*tier), true),
    };
    // A design is priced in the tier it sits in that day.
    let listed_in = match &part.asked {
        Asked::Design(design) => designs.tier_on(*design, day),
        Asked::Tier(tier) | Asked::New(_, tier) => Some(designs.tiers.text(*tier)),
    };
    let listed = listed_in.and_then(|tier| shop.prices.price(tier, day));
    if let (None, Some(first)) = (listed, listed_in.and_then(|tier| shop.prices.next_start(tier, day))) {
        return Err(format!("{key} has no list price on {day}; tiers.csv gives its first from {first}"));
    }
    let listed = match listed.filter(|price| price.amount > Money::ZERO) {
        Some(price) => price,
        None => mean_charged(shop, season, &like)
            .ok_or_else(|| format!("{key} has no list price and was not sold last season; add its tier's price to tiers.csv"))?,
    };
    let of = |pieces: i64| listed.times(pieces).map_err(|error| error.to_string());
    let (price, comes_to) = (of(1)?, of(part.pieces)?);
    let list_from = listed_in.and_then(|tier| shop.prices.since(tier, day));
    let mut minutes = 0;
    for (design, weight) in &like {
        minutes += season.own_piece(*design).map_err(|error| error.to_string())?.own_minutes.0 * i128::from(*weight);
    }
    let weights: i128 = like.iter().map(|(_, weight)| i128::from(*weight)).sum();
    let minutes = Minutes(multiply_divide(minutes, 1, weights).map_err(|error| error.to_string())?);
    let tier = listed_in.map(str::to_owned);
    let has_materials = like.iter().all(|(design, _)| season.has_materials(*design));
    Ok((Line { has_materials, list_from, key, tier, pieces: part.pieces, price, comes_to, minutes, is_new }, like))
}

/// What was charged on average, to the minor unit.
fn mean_charged(shop: &Shop, season: &Season, like: &Like) -> Option<Price> {
    let (sum, weights) = like
        .iter()
        .filter_map(|(design, weight)| Some((season.old_price[*design]?, i128::from(*weight))))
        .fold((0, 0), |(sum, weights), (price, weight)| (sum + price.0 * weight, weights + weight));
    let unit = minor_unit(shop);
    let units = multiply_divide(sum, 1, weights.checked_mul(unit)?).ok()?;
    Some(Price { amount: Money(units * unit), pieces: 1 })
}

/// What a price is said to: a cent, or what the currency has for it.
fn minor_unit(shop: &Shop) -> i128 {
    10_i128.pow(6 - minor_decimals(&shop.settings.currency))
}

struct Sums<'a> {
    season: &'a Season,
    request: &'a Request,
    lines: Vec<Line>,
    likes: Vec<Like>,
}

impl Sums<'_> {
    fn quote(self, shop: &Shop) -> Result<Quote, TooLarge> {
        let (season, target) = (self.season, self.request.target);
        let colours = self.request.colours.map_or(season.colours, |colours| real(colours.into()));
        let kept = season.after_fees();
        let order = season.whole_order(colours)?;
        let mut mix = Mix::default();
        let mut listed = 0;
        let mut own_minutes = 0;
        let mut margins = Vec::new();
        for (line, like) in self.lines.iter().zip(&self.likes) {
            let (cost, minutes, own) = self.piece(like)?;
            let pieces = i128::from(line.pieces);
            mix.pieces += line.pieces;
            mix.kept += Money(kept.of(line.comes_to.0)?);
            // A piece more brings its part of a rush, too.
            let with_rush = line.price + self.request.rush.map_or(Ok(Money::ZERO), |rush| rush.of(line.price))?;
            let brings = kept.of(with_rush.0)?;
            mix.cost += Money(cost.0 * pieces);
            mix.minutes += Minutes(minutes.0 * pieces);
            own_minutes += own.0 * pieces;
            listed += line.comes_to.0;
            margins.push((brings - cost.0 - target.per_hour_for(minutes)?.0, line.key.clone()));
        }
        // To the minor unit, as a price is said.
        let unit = minor_unit(shop);
        let rush = self.request.rush.map_or(Ok(Money::ZERO), |rush| rush.of(Money(listed)))?;
        // It is charged on the pieces, so more of them bring more of it.
        mix.kept += Money(kept.of(rush.0)?);
        let rush = Money(multiply_divide(rush.0, 1, unit)? * unit);
        let price = Money(listed) + rush;
        let (cost, minutes) = (order.cost + mix.cost, order.minutes + mix.minutes);
        let needs = cost + target.per_hour_for(minutes)?;
        let fair_price = least(needs.0, 1, kept)?;
        let left = Money(kept.of(price.0)?) - cost;
        let set_up = season.part(0.0, Work::of_set_up(&season.pace, colours))?;
        let mut quote = Quote {
            pieces: mix.pieces,
            colours: Money::from_estimate(colours).ok_or(TooLarge)?,
            usual_colours: self.request.colours.is_none(),
            rush,
            price,
            fair_price,
            fair: None,
            minutes: Minutes(own_minutes) + set_up.set_up_minutes,
            minutes_range: None,
            set_up_minutes: set_up.set_up_minutes,
            wage: left.an_hour(minutes),
            wage_range: None,
            chance: None,
            target,
            smallest: smallest(&order, &mix, target)?,
            mend: if fair_price > price {
                Some(mend::mend(shop, season, fair_price - price, (&margins, mix.pieces), colours, kept, target)?)
            } else {
                None
            },
            rush_rate: self.request.rush,
            lines: Vec::new(),
        };
        self.ranges(&mut quote, colours, kept);
        quote.lines = self.lines;
        Ok(quote)
    }

    /// A piece of a part, in an order already running: cost, the owner's minutes with what no order explains, and without.
    fn piece(&self, like: &Like) -> Result<(Money, Minutes, Minutes), TooLarge> {
        let weights: i128 = like.iter().map(|(_, weight)| i128::from(*weight)).sum();
        let (mut cost, mut minutes, mut own) = (0, 0, 0);
        for (design, weight) in like {
            let piece = self.season.own_piece(*design)?;
            cost += piece.cost().0 * i128::from(*weight);
            minutes += piece.minutes().0 * i128::from(*weight);
            own += piece.own_minutes.0 * i128::from(*weight);
        }
        let mean = |sum: i128| multiply_divide(sum, 1, weights);
        Ok((Money(mean(cost)?), Minutes(mean(minutes)?), Minutes(mean(own)?)))
    }
}
