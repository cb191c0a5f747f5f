//! Next season's price list: the ladder for a season's fair prices, what it pays, and what it puts at risk.

use super::at_prices::own_list;
use super::change::Times;
use super::endings::Endings;
use super::fair::{Piece, Season};
use super::instead::{Instead, Priced, instead, mix};
use super::ladder::{self, Ladder, NoLadder, Rules, Rung, Step};
use super::lines::{Kind, Line};
use super::naming::names;
use super::order_size::{Smallest, smallest};
use super::raise::{Share, leverage, margin_in_wage, margin_of_safety};
use super::scarce::{Product, fill};
use super::season::list_day;
use super::what_if::{Both, Compared, Figures, Other, compare_lists, old_list};
use crate::costing::{Costed, Options, cost_by};
use crate::minutes::learned::Estimate;
use crate::minutes::model::count;
use crate::quantity::millionths::{MILLION, Minutes, Money};
use crate::quantity::ratio::multiply_divide;
use crate::quantity::{Day, Percent, Period, Price, TooLarge};
use crate::shop::Shop;
use crate::shop::designs::Design;
use crate::shop::items::Item;
use crate::shop::settings::CostFlow;
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
    /// Whether prices carry what no order explains.
    pub unassigned: bool,
    /// Landed prices that change, by item.
    pub costs: BTreeMap<Item, Times>,
    /// The season that prices are set by.
    pub season: Period,
}

/// Tiers of a shop that has none yet, where it does not say how many.
const TIERS: usize = 4;

/// Why there is no list.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum NoList {
    /// Nothing was sold in the season.
    NothingSold,
    /// No hours are known for it.
    NoHours,
    /// Designs have no tiers to stay in.
    NoTiers,
    /// Nothing is left of a price.
    NothingKept,
    /// The cap leaves no rising prices.
    Capped,
    /// Something else.
    Failed(String),
}

/// A design on the new list.
#[derive(Debug, Clone, PartialEq)]
pub struct DesignRow {
    /// The design.
    pub design: Design,
    /// Its name.
    pub key: String,
    /// Pieces sold in the season.
    pub pieces: i64,
    /// Its tier now.
    pub old_tier: Option<String>,
    /// Its tier then.
    pub new_tier: String,
    /// Its list price now, or the mean charged.
    pub old_price: Money,
    /// Its list price then.
    pub new_price: Money,
    /// What a piece takes.
    pub piece: Piece,
    /// The list price that pays the target.
    pub fair_price: Money,
    /// One draw in twenty asks for less, one for more.
    pub fair: Option<(Money, Money)>,
    /// What an hour pays at the new price.
    pub wage: Option<Money>,
    /// The share of draws in which it reaches the target.
    pub chance: Option<Share>,
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
    /// What the mean of its pieces takes.
    pub piece: Piece,
    /// The list price that pays the target over its season.
    pub fair_price: Money,
    /// What an hour pays.
    pub wage: Option<Money>,
    /// What the logs fit.
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

/// How much may be lost before a raise earns less than before. Negative: so much more must be sold. `None` without a raise.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub struct MayLose {
    /// In money.
    pub for_pay: Option<Share>,
    /// In what an hour pays: what is lost frees its hours.
    pub for_wage: Option<Share>,
}

/// What the season's orders earned and would have earned.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Orders {
    /// Contribution at today's prices: all but overhead taken off.
    pub before: Money,
    /// Contribution after.
    pub after: Money,
    /// The share of orders that may be lost.
    pub may_lose: MayLose,
    /// Per cent of pay that one per cent of orders makes, after.
    pub leverage: Option<Share>,
}

/// A design on the card that was not sold in the season.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Unsold {
    /// The design.
    pub design: Design,
    /// Its name.
    pub key: String,
    /// Its tier now.
    pub old_tier: Option<String>,
    /// Its tier then.
    pub new_tier: Option<String>,
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
    /// The season's orders, with what no order explains: as they were, and at the new prices.
    pub all_in: Both,
    /// The season's orders at today's prices, with what no order explains.
    pub today: Figures,
    /// What is at risk over all orders, beside today's prices.
    pub orders: Orders,
    /// The smallest order worth its set-up at the new prices.
    pub smallest: Smallest,
    /// What would do at the old ones.
    pub instead: Instead,
}

/// Makes the list. `costed` is the shop as it was, costed with `options`.
///
/// # Errors
/// [`NoList`], which says why there is none.
pub fn next_list(shop: &Shop, costed: &Costed, options: Options, wanted: &Wanted) -> Result<NextList, NoList> {
    let failed = |error: TooLarge| NoList::Failed(error.to_string());
    let present = super::at_prices::with_purchases(shop, super::at_prices::Landed::Present, &wanted.costs).map_err(failed)?;
    let latest = Options { cost_flow: Some(CostFlow::Latest), ..options };
    let present = cost_by(&present, latest, costed.learned.clone()).map_err(failed)?;
    let season = Season::of(shop, &present, wanted.season, wanted.unassigned).map_err(NoList::Failed)?;
    let maker = Maker { shop, wanted, day: list_day(shop, wanted.season) };
    let sold: Vec<(Design, Money)> = shop
        .designs
        .all()
        .filter(|design| season.sold[design.0 as usize] > 0)
        .filter_map(|design| Some((design, season.old_price[design.0 as usize]?)))
        .collect();
    if sold.is_empty() {
        return Err(NoList::NothingSold);
    }
    if !season.has_hours() {
        return Err(NoList::NoHours);
    }
    let pieces = sold.iter().map(|(design, _)| season.piece(*design)).collect::<Result<Vec<Piece>, _>>().map_err(failed)?;
    let rungs = maker.rungs(&season, &sold, &pieces).map_err(failed)?;
    let (ladder, tier_names) = maker.ladder(&rungs, season.kept)?;
    let mut rows = Vec::new();
    for (step, name) in ladder.steps.iter().zip(&tier_names) {
        for at in &step.designs {
            rows.push(maker.row(&season, sold[*at], pieces[*at], &rungs[*at], (name, step.price)).map_err(failed)?);
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
        tiers.push(maker.tier(&season, &members, step, &compared, wage_before).map_err(failed)?);
    }
    fill_fewer_hours(&season, &mut tiers).map_err(failed)?;
    let priced = |price: fn(&DesignRow) -> Money, tier: fn(&DesignRow) -> String| -> Vec<Priced> {
        rows.iter().map(|row| Priced { design: row.design, tier: tier(row), pieces: row.pieces, price: price(row) }).collect()
    };
    let now = priced(|row| row.old_price, |row| row.old_tier.clone().unwrap_or_else(|| row.key.clone()));
    let then = priced(|row| row.new_price, |row| row.new_tier.clone());
    let order = season.whole_order(season.colours).map_err(failed)?;
    let smallest = mix(&season, &then).and_then(|mix| smallest(&order, &mix, wanted.target)).map_err(failed)?;
    let old_names: BTreeSet<String> = rows.iter().filter_map(|row| row.old_tier.clone()).collect();
    Ok(NextList {
        target: wanted.target,
        floor: wanted.floor,
        unsold: maker.unsold(&season, &tiers),
        gone: old_names.into_iter().filter(|name| !tier_names.contains(name)).collect(),
        orders: orders(&compared, wage_before, &all_in).map_err(failed)?,
        smallest,
        instead: instead(&season, &now, wanted.target).map_err(failed)?,
        season,
        rows,
        tiers,
        all_in,
        today: today_all_in,
    })
}

struct Maker<'a> {
    shop: &'a Shop,
    wanted: &'a Wanted,
    /// The day whose list is today's.
    day: Day,
}

impl Maker<'_> {
    fn rungs(&self, season: &Season, sold: &[(Design, Money)], pieces: &[Piece]) -> Result<Vec<Rung>, TooLarge> {
        let rung = |((design, old), piece): (&(Design, Money), &Piece)| {
            Ok(Rung {
                name: self.shop.designs.names.text(*design).to_owned(),
                pieces: season.sold[design.0 as usize],
                old: *old,
                tier: self.shop.designs.tier[design.0 as usize].map(|tier| tier.0 as usize),
                needs: piece.needs(self.wanted.target)?,
                floor_needs: self.wanted.floor.map(|floor| piece.needs(floor)).transpose()?,
            })
        };
        sold.iter().zip(pieces).map(rung).collect()
    }

    /// The ladder and its tiers' names.
    fn ladder(&self, rungs: &[Rung], kept: Times) -> Result<(Ladder, Vec<String>), NoList> {
        let settings = &self.shop.settings;
        let old: Vec<Money> = rungs.iter().map(|rung| rung.old).collect();
        let endings = Endings::of(&settings.endings, &settings.currency, &old);
        let rules = Rules { kept, endings, max_rise: self.wanted.max_rise };
        let known: BTreeSet<usize> = rungs.iter().filter_map(|rung| rung.tier).collect();
        let none = |why: NoLadder| match why {
            NoLadder::NothingKept => NoList::NothingKept,
            NoLadder::Capped => NoList::Capped,
            NoLadder::TooLarge => NoList::Failed(TooLarge.to_string()),
        };
        let all: Vec<String> = self.shop.designs.tiers.iter().map(str::to_owned).collect();
        if self.wanted.keep {
            if known.is_empty() {
                return Err(NoList::NoTiers);
            }
            return kept_tiers(rungs, &known, &all, &rules).map_err(none);
        }
        let tiers = self.wanted.tiers.unwrap_or(if known.is_empty() { TIERS } else { known.len() });
        let ladder = ladder::best(rungs, tiers, &rules).map_err(none)?;
        let members: Vec<Vec<(Option<usize>, i64)>> =
            ladder.steps.iter().map(|step| step.designs.iter().map(|at| (rungs[*at].tier, rungs[*at].pieces)).collect()).collect();
        let tier_names = names(&members, &all);
        Ok((ladder, tier_names))
    }

    fn row(
        &self,
        season: &Season,
        (design, old_price): (Design, Money),
        piece: Piece,
        rung: &Rung,
        (tier, new_price): (&str, Money),
    ) -> Result<DesignRow, TooLarge> {
        let draws = season.in_each_draw(design, &piece);
        let target = super::work::real(self.wanted.target.0) / 1e6;
        let kept = super::work::real(season.kept.numerator) / super::work::real(season.kept.divisor);
        let fair = (!draws.is_empty())
            .then(|| Estimate::of(draws.iter().map(|(cost, minutes)| (cost + target * minutes / 60.0) / kept).collect()))
            .and_then(|fair| Some((Money::from_estimate(fair.low)?, Money::from_estimate(fair.high)?)));
        let brought = season.kept_of(new_price);
        Ok(DesignRow {
            design,
            key: rung.name.clone(),
            pieces: rung.pieces,
            old_tier: self.shop.designs.tier[design.0 as usize].map(|tier| self.shop.designs.tiers.text(tier).to_owned()),
            new_tier: tier.to_owned(),
            old_price,
            new_price,
            fair_price: ladder::least(rung.needs.0, 1, season.kept)?,
            fair,
            wage: piece.wage(new_price, season.kept),
            chance: chance(draws.iter().map(|(cost, minutes)| (brought - cost, *minutes)), target),
            piece,
        })
    }

    /// The season's orders as they were, and at one price for each design all through it.
    fn compared(&self, costed: &Costed, options: Options, price: fn(&DesignRow) -> Money, rows: &[DesignRow]) -> Result<Compared, NoList> {
        let new: BTreeMap<Design, Money> = rows.iter().map(|row| (row.design, price(row))).collect();
        let old = old_list(self.shop, costed, self.wanted.season).map_err(NoList::Failed)?;
        let list = |design: Design, day: Day| match new.get(&design) {
            Some(price) => Some(Price { amount: *price, pieces: 1 }),
            None => old(design, day),
        };
        let other = Other { costs: self.wanted.costs.clone(), ..Other::default() };
        compare_lists(self.shop, costed, options, self.wanted.season, &other, &old, &list).map_err(NoList::Failed)
    }

    fn tier(
        &self,
        season: &Season,
        members: &[&DesignRow],
        step: &Step,
        compared: &Compared,
        wage_before: Option<Money>,
    ) -> Result<TierRow, TooLarge> {
        let name = members.first().map_or("", |row| row.new_tier.as_str());
        let (mut pay, mut minutes, mut needs, mut pieces) = (0_i128, 0_i128, 0_i128, 0_i64);
        let mut draws = vec![(0.0, 0.0); season.draws.len()];
        let brought = season.kept_of(step.price);
        for row in members {
            let of = i128::from(row.pieces);
            pieces += row.pieces;
            pay += (season.kept.of(step.price.0)? - row.piece.cost().0) * of;
            minutes += row.piece.minutes().0 * of;
            needs += row.piece.needs(self.wanted.target)?.0 * of;
            let times = super::work::real(of);
            for (sum, (cost, time)) in draws.iter_mut().zip(season.in_each_draw(row.design, &row.piece)) {
                *sum = (sum.0 + times * (brought - cost), sum.1 + times * time);
            }
        }
        let wages: Vec<f64> = draws.iter().filter(|(_, minutes)| *minutes > 0.0).map(|(pay, minutes)| pay / minutes * 60.0).collect();
        let range = (!wages.is_empty())
            .then(|| Estimate::of(wages))
            .and_then(|wage| Some((Money::from_estimate(wage.low)?, Money::from_estimate(wage.high)?)));
        let old = self.shop.prices.price(name, self.day).and_then(|price| price.times(1).ok());
        let designs: BTreeSet<Design> = members.iter().map(|row| row.design).collect();
        let of_tier = |line: &Line| line.design.is_some_and(|design| designs.contains(&design));
        Ok(TierRow {
            tier: name.to_owned(),
            old_price: old,
            price: step.price,
            pieces,
            fair_price: ladder::least(needs, i128::from(pieces), season.kept)?,
            piece: mean(members, pieces)?,
            wage: Money(pay).an_hour(Minutes(minutes)),
            range,
            chance: chance(draws.into_iter(), super::work::real(self.wanted.target.0) / 1e6),
            in_fewer_hours: pieces,
            short: step.short,
            may_lose: if members.iter().all(|row| row.new_price == row.old_price) {
                MayLose::default()
            } else {
                may_lose(compared, wage_before, of_tier, Loss::Pieces)?
            },
        })
    }

    /// Designs on the card that the season did not sell: they keep their tier, or take the one nearest in price.
    fn unsold(&self, season: &Season, tiers: &[TierRow]) -> Vec<Unsold> {
        let designs = &self.shop.designs;
        let list = own_list(self.shop);
        let of = |design: Design| {
            let old_tier = designs.tier[design.0 as usize].map(|tier| designs.tiers.text(tier).to_owned());
            let stays = old_tier.as_ref().filter(|name| tiers.iter().any(|tier| tier.tier == **name)).cloned();
            let price = list(design, self.day).and_then(|price| price.times(1).ok());
            let near = || {
                let price = price?;
                tiers.iter().min_by_key(|tier| (tier.price.0 - price.0).abs()).map(|tier| tier.tier.clone())
            };
            Unsold { design, key: designs.names.text(design).to_owned(), new_tier: stays.or_else(near), old_tier }
        };
        let unsold = designs.all().filter(|design| season.sold[design.0 as usize] == 0 || season.old_price[design.0 as usize].is_none());
        if designs.on_card { unsold.map(of).collect() } else { Vec::new() }
    }
}

/// What a tenth fewer hours for pieces would leave of each tier.
fn fill_fewer_hours(season: &Season, tiers: &mut [TierRow]) -> Result<(), TooLarge> {
    let product = |tier: &TierRow| {
        // Overhead and what no order explains go on without the piece.
        let gone = tier.piece.materials + tier.piece.helper_pay;
        Ok(Product { each: Money(season.kept.of(tier.price.0)?) - gone, minutes: tier.piece.own_minutes, wanted: tier.pieces })
    };
    let products = tiers.iter().map(product).collect::<Result<Vec<Product>, TooLarge>>()?;
    let all: i128 = products.iter().map(|product| product.minutes.0 * i128::from(product.wanted)).sum();
    let kept = fill(&products, Minutes(multiply_divide(all, 9, 10)?));
    for (tier, pieces) in tiers.iter_mut().zip(kept) {
        tier.in_fewer_hours = pieces;
    }
    Ok(())
}

/// Tiers as they are, each at the price it needs.
fn kept_tiers(rungs: &[Rung], known: &BTreeSet<usize>, all: &[String], rules: &Rules) -> Result<(Ladder, Vec<String>), NoLadder> {
    let mut steps = Vec::new();
    for tier in known {
        let designs: Vec<usize> = ladder::by_fair_price(rungs).into_iter().filter(|at| rungs[*at].tier == Some(*tier)).collect();
        steps.push((ladder::price_together(rungs, &designs, rules)?, all[*tier].clone()));
    }
    steps.sort_by(|(one, a), (other, b)| (one.price, a).cmp(&(other.price, b)));
    let (steps, names) = steps.into_iter().unzip();
    Ok((Ladder { steps, score: ladder::Score::default() }, names))
}

/// What the mean of a tier's pieces takes.
fn mean(members: &[&DesignRow], pieces: i64) -> Result<Piece, TooLarge> {
    let money = |of: fn(&Piece) -> Money| mean_of(members, pieces, |piece| of(piece).0).map(Money);
    let minutes = |of: fn(&Piece) -> Minutes| mean_of(members, pieces, |piece| of(piece).0).map(Minutes);
    Ok(Piece {
        materials: money(|piece| piece.materials)?,
        of_order: money(|piece| piece.of_order)?,
        helper_pay: money(|piece| piece.helper_pay)?,
        overhead: money(|piece| piece.overhead)?,
        unassigned: money(|piece| piece.unassigned)?,
        own_minutes: minutes(|piece| piece.own_minutes)?,
        set_up_minutes: minutes(|piece| piece.set_up_minutes)?,
        unassigned_minutes: minutes(|piece| piece.unassigned_minutes)?,
    })
}

fn mean_of(members: &[&DesignRow], pieces: i64, of: impl Fn(&Piece) -> i128) -> Result<i128, TooLarge> {
    multiply_divide(members.iter().map(|row| of(&row.piece) * i128::from(row.pieces)).sum(), 1, i128::from(pieces))
}

/// The share of draws in which pay ÷ minutes reaches a wage.
fn chance(draws: impl Iterator<Item = (f64, f64)>, target: f64) -> Option<Share> {
    let reached: Vec<bool> = draws.map(|(pay, minutes)| pay >= target * minutes / 60.0).collect();
    let share = count(reached.iter().filter(|reached| **reached).count()) / count(reached.len());
    (!reached.is_empty()).then(|| Money::from_estimate(share)).flatten()
}

/// The sums of both, with what no order explains.
fn both_all_in(compared: &Compared) -> Both {
    let sum = |lines: &[Line]| Figures::of(lines.iter());
    Both { before: sum(&compared.before).all_in(&compared.unassigned.0), after: sum(&compared.after).all_in(&compared.unassigned.1) }
}

/// What goes when sales are lost.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
enum Loss {
    /// Pieces, of orders that still run.
    Pieces,
    /// Whole orders.
    Orders,
}

impl Loss {
    /// What a line contributes that would be lost with it.
    fn contribution(self, line: &Line) -> Money {
        let of_pieces = Money(line.revenue.0 - (line.materials - line.order_materials).0 - line.percent_fees.0 - line.piece_helper_pay.0);
        match self {
            Self::Pieces => of_pieces,
            Self::Orders => line.owner_pay() + line.overhead,
        }
    }

    fn freed(self, line: &Line) -> Minutes {
        match self {
            Self::Pieces => line.piece_minutes,
            Self::Orders => line.owner_minutes,
        }
    }
}

fn may_lose(compared: &Compared, wage_before: Option<Money>, which: impl Fn(&Line) -> bool, loss: Loss) -> Result<MayLose, TooLarge> {
    let sum = |lines: &[Line], known: bool| -> Money {
        lines
            .iter()
            .filter(|line| line.kind != Kind::DepositKept && which(line) && (line.known || !known))
            .map(|line| loss.contribution(line))
            .sum()
    };
    let (before, after) = (sum(&compared.before, false), sum(&compared.after, false));
    if before == after {
        return Ok(MayLose::default());
    }
    let freed = compared.after.iter().filter(|line| line.known && which(line)).map(|line| loss.freed(line)).sum();
    let known = (sum(&compared.before, true), sum(&compared.after, true));
    let for_wage = wage_before.map(|wage| margin_in_wage(known.1, known.0, freed, wage)).transpose()?;
    Ok(MayLose { for_pay: margin_of_safety(after, before)?, for_wage })
}

fn orders(compared: &Compared, wage_before: Option<Money>, all_in: &Both) -> Result<Orders, TooLarge> {
    let sum = |lines: &[Line]| {
        lines.iter().filter(|line| line.kind != Kind::DepositKept).map(|line| Loss::Orders.contribution(line)).sum::<Money>()
    };
    let (before, after) = (sum(&compared.before), sum(&compared.after));
    Ok(Orders {
        before,
        after,
        may_lose: may_lose(compared, wage_before, |_| true, Loss::Orders)?,
        leverage: leverage(after, all_in.after.owner_pay)?,
    })
}

impl DesignRow {
    /// Whether it leaves its tier.
    #[must_use]
    pub fn moves(&self) -> bool {
        self.old_tier.as_ref().is_some_and(|old| *old != self.new_tier)
    }
}

/// A share as so many millionths of one.
pub const WHOLE: i128 = MILLION;
