//! Next season's price list: the ladder for a season's fair prices, what it pays, and what it puts at risk.

mod at_risk;
mod ladder;
mod rows;

use super::alternatives::{Alternatives, AtToday, alternatives};
use crate::quantity::Factor;
use super::cost::{Piece, Season, Smallest};
use super::error::PricingError;
use super::lines::Line;
use crate::quantity::millionths::Share;
use super::season::Reference;
use super::what_if::{Both, Compared, Scenario, Totals, compare_lists, old_list};
use crate::costing::{Costed, Options};
use crate::ids::{Design, Id, Item};
use crate::quantity::millionths::Money;
use crate::quantity::{Day, Percent, Period, Price};
use crate::shop::Shop;
pub use at_risk::{MayLose, Orders};
pub use rows::FairParts;
use std::collections::{BTreeMap, BTreeSet};

/// What the list is to reach, and how it may be made.
#[derive(Debug, Clone)]
pub struct Wanted {
    /// The wage aimed at.
    pub target: Money,
    /// The least wage of any design.
    pub floor: Option<Money>,
    /// How many tiers; `None`: as many as now.
    pub tiers: Option<usize>,
    /// Whether designs stay in their tiers.
    pub keep: bool,
    /// The most any price may rise.
    pub max_rise: Option<Percent>,
    /// Whether prices carry unassigned hours and costs.
    pub unassigned: bool,
    /// Landed prices that change, by item.
    pub costs: BTreeMap<Id<Item>, Factor>,
    /// The season that prices are set by.
    pub season: Period,
    /// The day the list is to start: today's list is the one that is in force then.
    pub starts: Day,
}

/// A design on the new list.
#[derive(Debug, Clone, PartialEq)]
pub struct DesignRow {
    /// The design.
    pub design: Id<Design>,
    /// Its name.
    pub key: String,
    /// Pieces sold in the season.
    pub pieces: i64,
    /// Its tier when the list starts.
    pub old_tier: Option<String>,
    /// Whether it sat in another tier before.
    pub has_moved_before: bool,
    /// Its tier then.
    pub new_tier: String,
    /// Its list price now, or the mean charged.
    pub old_price: Money,
    /// Its list price then.
    pub new_price: Money,
    /// What a piece costs.
    pub piece: Piece,
    /// The list price that pays the target.
    pub fair_price: Money,
    /// One draw in twenty asks for less, one for more.
    pub fair: Option<(Money, Money)>,
    /// What an hour pays at the new price.
    pub wage: Option<Money>,
    /// The share of draws in which it reaches the target.
    pub chance: Option<Share>,
    /// Whether a cap keeps it under the floor.
    pub under_floor: bool,
}

/// A tier of the new list.
#[derive(Debug, Clone, PartialEq)]
pub struct TierRow {
    /// Its name.
    pub tier: String,
    /// Its price now, where it has one.
    pub old_price: Option<Money>,
    /// Its price then.
    pub price: Money,
    /// Pieces its designs sold in the season.
    pub pieces: i64,
    /// What the mean of its pieces costs.
    pub piece: Piece,
    /// The list price that pays the target over its season.
    pub fair_price: Money,
    /// What an hour pays.
    pub wage: Option<Money>,
    /// One draw in twenty pays less an hour, one more.
    pub range: Option<(Money, Money)>,
    /// The share of draws in which it reaches the target.
    pub chance: Option<Share>,
    /// Of its pieces, those that a tenth fewer hours would leave room for, where hours go first to what leaves most for them.
    pub in_fewer_hours: i64,
    /// What its season falls short of the target, where a cap keeps it from it.
    pub short: Money,
    /// The share of its pieces that may be lost.
    pub may_lose: MayLose,
}

/// A design without a place on the ladder: not sold in the season, or never at a price.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Unsold {
    /// The design.
    pub design: Id<Design>,
    /// Its name.
    pub key: String,
    /// Its tier now.
    pub old_tier: Option<String>,
    /// Its tier then.
    pub new_tier: Option<String>,
    /// Whether it was sold, but at no price.
    pub was_sold: bool,
}

/// The new list.
#[derive(Debug, Clone)]
pub struct NextList {
    /// The season it is set by.
    pub season: Season,
    /// The wage aimed at.
    pub target: Money,
    /// The least wage.
    pub floor: Option<Money>,
    /// Designs, by their place on the ladder.
    pub rows: Vec<DesignRow>,
    /// Designs that were not sold.
    pub unsold: Vec<Unsold>,
    /// Tiers, lowest first.
    pub tiers: Vec<TierRow>,
    /// Tiers there are no more.
    pub gone: Vec<String>,
    /// The season's orders, with what is unassigned: as they were, and at the new prices.
    pub all_in: Both,
    /// The season's orders at today's prices, with what is unassigned.
    pub today: Totals,
    /// What is at risk over all orders, compared with today's prices.
    pub orders: Orders,
    /// The smallest order worth its set-up at the new prices.
    pub smallest: Smallest,
    /// What would help at today's prices instead.
    pub alternatives: Alternatives,
    /// Whether the row of prices was too long to try all of it, so that a slightly better list may exist.
    pub search_thinned: bool,
}

/// A design sold in the season at a price.
#[derive(Debug, Clone, Copy)]
struct Sold {
    design: Id<Design>,
    pieces: i64,
    /// Its list price today, or the mean charged.
    old_price: Money,
    piece: Piece,
}

/// Makes the list. `costed` is the shop as it was, costed with `options`.
///
/// # Errors
/// [`PricingError`], which says why there is none.
pub fn next_list(shop: &Shop, costed: &Costed, options: Options, wanted: &Wanted) -> Result<NextList, PricingError> {
    let reference = Reference { period: wanted.season, day: wanted.starts, unassigned: wanted.unassigned, costs: &wanted.costs };
    let season = Season::at_present(shop, costed, reference)?;
    let mut sold = Vec::new();
    for (design, pieces) in season.sold.pairs().filter(|(_, pieces)| **pieces > 0) {
        if let Some(old_price) = season.old_price[design] {
            sold.push(Sold { design, pieces: *pieces, old_price, piece: season.piece(design)? });
        }
    }
    if sold.is_empty() {
        return Err(PricingError::NothingSold);
    }
    if !season.has_hours() {
        return Err(PricingError::NoHours);
    }
    let kept = season.kept().ok_or(PricingError::NothingKept)?;
    let maker = Maker { shop, wanted, season: &season, kept, day: wanted.starts };
    let (ladder, tier_names) = maker.ladder(&sold)?;
    let mut rows = Vec::new();
    for (step, name) in ladder.steps.iter().zip(&tier_names) {
        for at in &step.designs {
            let row = maker.row(&sold[*at], name, step.price)?;
            rows.push(DesignRow { under_floor: step.under_floor.contains(at), ..row });
        }
    }
    let compared = maker.compared(costed, options, |row| row.new_price, &rows)?;
    let all_in = both_all_in(&compared);
    // A raise is a raise over today's list, not over what the season began with.
    let today = maker.compared(costed, options, |row| row.old_price, &rows)?;
    let today_all_in = both_all_in(&today).after;
    let compared = Compared { before: today.after, unassigned: (today.unassigned.1, compared.unassigned.1), ..compared };
    let wage_before = today_all_in.wage();
    let mut tiers = Vec::new();
    for (step, name) in ladder.steps.iter().zip(&tier_names) {
        let members: Vec<&DesignRow> = rows.iter().filter(|row| row.new_tier == *name).collect();
        tiers.push(maker.tier(&members, step, &compared, wage_before)?);
    }
    at_risk::fill_fewer_hours(kept, &mut tiers)?;
    let today = rows.iter().map(|row| AtToday {
        tier: row.old_tier.clone().unwrap_or_else(|| row.key.clone()),
        pieces: row.pieces,
        price: row.old_price,
        piece: row.piece,
    });
    let new_prices: BTreeMap<Id<Design>, Money> = rows.iter().map(|row| (row.design, row.new_price)).collect();
    let old_names: BTreeSet<String> = rows.iter().filter_map(|row| row.old_tier.clone()).collect();
    Ok(NextList {
        target: wanted.target,
        floor: wanted.floor,
        unsold: maker.unsold(&rows, &tiers),
        gone: old_names.into_iter().filter(|name| !tier_names.contains(name)).collect(),
        orders: at_risk::orders(&compared, wage_before, &all_in)?,
        smallest: season.smallest_order(|design| new_prices.get(&design).copied(), wanted.target)?.unwrap_or(Smallest::Never),
        alternatives: alternatives(&season, kept, &today.collect::<Vec<AtToday>>(), wanted.target)?,
        search_thinned: ladder.thinned,
        season,
        rows,
        tiers,
        all_in,
        today: today_all_in,
    })
}

/// The shop, its season and what is wanted of its new list.
struct Maker<'a> {
    shop: &'a Shop,
    wanted: &'a Wanted,
    season: &'a Season,
    /// What of a list price is left.
    kept: Factor,
    /// The day whose list is today's.
    day: Day,
}

impl Maker<'_> {
    /// The season's orders as they were, and at one price for each design all through it.
    fn compared(
        &self,
        costed: &Costed,
        options: Options,
        price: fn(&DesignRow) -> Money,
        rows: &[DesignRow],
    ) -> Result<Compared, PricingError> {
        let new: BTreeMap<Id<Design>, Money> = rows.iter().map(|row| (row.design, price(row))).collect();
        let old = old_list(self.shop, costed, self.wanted.season)?;
        let list = |design: Id<Design>, day: Day| match new.get(&design) {
            Some(price) => Some(Price { amount: *price, pieces: 1 }),
            None => old(design, day),
        };
        let scenario = Scenario { costs: self.wanted.costs.clone(), ..Scenario::default() };
        compare_lists(self.shop, costed, options, self.wanted.season, &scenario, &old, &list)
    }
}

/// The sums of both, with what is unassigned.
fn both_all_in(compared: &Compared) -> Both {
    let sum = |lines: &[Line]| Totals::of(lines.iter());
    Both { before: sum(&compared.before).all_in(&compared.unassigned.0), after: sum(&compared.after).all_in(&compared.unassigned.1) }
}

impl NextList {
    /// Whether it is the list there is: no price and no design moves.
    #[must_use]
    pub fn is_todays(&self) -> bool {
        let same = |tier: &TierRow| tier.old_price == Some(tier.price);
        let moved = |design: &Unsold| design.new_tier.is_some() && design.new_tier != design.old_tier;
        self.tiers.iter().all(same)
            && !self.rows.iter().any(|row| row.old_tier.as_ref() != Some(&row.new_tier))
            && !self.unsold.iter().any(moved)
    }
}

impl DesignRow {
    /// Whether it leaves its tier.
    #[must_use]
    pub fn moves(&self) -> bool {
        self.old_tier.as_ref().is_some_and(|old| *old != self.new_tier)
    }
}
