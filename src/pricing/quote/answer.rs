//! What is asked of a quote, and what it answers.

use crate::ids::{Design, Id};
use crate::pricing::cost::Smallest;
use crate::pricing::set::Part;
use crate::quantity::millionths::{Minutes, Money, Share, minor_decimals};
use crate::quantity::{Day, Percent};
use crate::shop::Shop;

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
    /// Whether it is of no design sold before, and assumed to cost what its tier's others do.
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
    /// One draw in twenty takes less, one more.
    pub minutes_range: Option<(Minutes, Minutes)>,
    /// What of the owner's time is set-up and colours.
    pub set_up_minutes: Minutes,
    /// What an hour pays, unassigned hours and costs included.
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
    pub remedies: Option<Remedies>,
    /// The rate of the rush charge.
    pub rush_rate: Option<Percent>,
}

/// What would make a set pay, each alone.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Remedies {
    /// A charge beyond its price, to the minor unit, rounded up.
    pub charge: Money,
    /// More pieces of one of its parts: how many, of which.
    pub more: Option<(i64, String)>,
    /// Fewer colours.
    pub fewer_colours: Option<i64>,
}

/// The designs that a part's figures are the mean of, with their weights.
pub(super) type Weighted = Vec<(Id<Design>, i64)>;

/// The smallest step of a quoted price: a cent, or the currency's own minor unit.
pub(super) fn minor_unit(shop: &Shop) -> i128 {
    10_i128.pow(6 - minor_decimals(&shop.settings.currency))
}
