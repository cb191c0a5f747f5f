//! The bill of materials: how much of each purchased item a piece of each design, every order and every delivery use,
//! with nested recipes resolved; and what a piece weighs. Amounts only: prices come from [`stock`](super::stock).

use super::base_unit::{BaseUnits, Weigher};
use super::kinds::{MAKES_NOTHING, NO_WEIGHT, RECIPE_IN_ITSELF, YIELD_UNIT};
use super::wording::weight_of;
use crate::ids::{Design, Id, IdVec, Item};
use crate::quantity::unit::Dimension;
use crate::quantity::{Amount, Percent, TooLarge};
use crate::reading::{Place, Problem};
use crate::shop::Shop;
use crate::shop::recipes::{Part, Row, Taker};
use std::collections::BTreeMap;

/// Amounts by item, in each item's base unit.
pub(crate) type ItemAmounts = BTreeMap<Id<Item>, Amount>;

/// Amounts of each item used per piece, per order and per delivery.
#[derive(Debug, Default)]
pub struct Bill {
    /// For one piece, by design; empty for a design without rows.
    pub per_piece: IdVec<Design, ItemAmounts>,
    /// For each order.
    pub per_order: ItemAmounts,
    /// For each delivery line.
    pub per_delivery: ItemAmounts,
    /// Grams of one piece by the design's own rows, without packaging; `None` for a design without rows.
    pub grams: IdVec<Design, Option<Amount>>,
    /// Whether a design has recipe rows of its own.
    pub has_rows: IdVec<Design, bool>,
    /// The unit each item is kept in.
    pub base_units: BaseUnits,
}

/// The table that problems are reported in.
const FILE: &str = "recipes.csv";

impl Bill {
    /// Computes a shop's bill of materials. A recipe that contains itself, a unit that does not convert and a needed
    /// weight that is unknown become problems at their row.
    ///
    /// # Errors
    /// [`TooLarge`] where an amount does not fit.
    pub fn of(shop: &Shop, problems: &mut Vec<Problem>) -> Result<Self, TooLarge> {
        let mut weigher = Weigher::default();
        let base_units = BaseUnits::of(shop, &mut weigher, problems)?;
        let mut rows: BTreeMap<Taker, Vec<&Row>> = BTreeMap::new();
        for row in &shop.recipes.rows {
            rows.entry(row.taker).or_default().push(row);
        }
        let designs = shop.designs.names.len();
        let mut bill = Self {
            per_piece: IdVec::filled(ItemAmounts::new(), designs),
            grams: IdVec::filled(None, designs),
            has_rows: IdVec::filled(false, designs),
            base_units,
            ..Self::default()
        };
        let Some(order) = batches_parts_first(shop, &rows, problems) else { return Ok(bill) };
        let mut writer =
            Writer { shop, rows: &rows, base_units: &bill.base_units, weigher: &mut weigher, batches: BTreeMap::new(), problems };
        for batch in order {
            let written = writer.batch(batch)?;
            writer.batches.insert(batch, written);
        }
        let needs_weights = needs_weights(shop);
        for design in shop.designs.all() {
            let taker = Taker::Design(design);
            bill.has_rows[design] = rows.contains_key(&taker);
            bill.per_piece[design] = writer.takes(taker)?;
            if needs_weights && bill.has_rows[design] {
                bill.grams[design] = writer.grams(taker, "hours of a stage are shared by weight")?;
            }
        }
        bill.per_order = writer.takes(Taker::EveryOrder)?;
        bill.per_delivery = writer.takes(Taker::EveryDelivery)?;
        weigher.report(problems);
        Ok(bill)
    }
}

/// Whether any hours are shared by weight. If not, an unknown weight is no problem.
fn needs_weights(shop: &Shop) -> bool {
    use crate::shop::settings::SharedBy;
    let by_weight = |stage| shop.hours.shared_by(Some(stage)) == SharedBy::Weight;
    shop.hours.entries.iter().filter_map(|entry| entry.stage).any(by_weight)
}

/// One batch of a recipe, in purchased items.
struct Batch {
    takes: ItemAmounts,
    /// Its yield, in the base unit of `dimension`.
    yields: Amount,
    dimension: Dimension,
    /// Grams of the whole batch, if known.
    grams: Option<Amount>,
    extra: Percent,
}

struct Writer<'a> {
    shop: &'a Shop,
    rows: &'a BTreeMap<Taker, Vec<&'a Row>>,
    base_units: &'a BaseUnits,
    weigher: &'a mut Weigher,
    batches: BTreeMap<usize, Batch>,
    problems: &'a mut Vec<Problem>,
}

impl<'a> Writer<'a> {
    fn batch(&mut self, batch: usize) -> Result<Batch, TooLarge> {
        let head = &self.shop.recipes.batches[batch];
        let taker = Taker::Batch(batch);
        let takes = self.takes(taker)?;
        let (yields, dimension, grams) = match head.yields {
            Some((amount, unit)) => {
                let yields = Amount::from_decimal(amount.checked_mul(unit.factor()).ok_or(TooLarge)?)?;
                let grams = if unit.dimension() == Dimension::Mass { Some(yields) } else { self.quiet_grams(taker)? };
                (yields, unit.dimension(), grams)
            }
            None => {
                let grams = self.grams(taker, &format!("the yield of {} is blank", head.name))?;
                (grams.unwrap_or_default(), Dimension::Mass, grams)
            }
        };
        if head.yields.is_none() && grams == Some(Amount::ZERO) {
            let what = format!("{} makes nothing, because its parts weigh nothing", head.name);
            let problem = Problem::of_file(&MAKES_NOTHING, FILE, what).at(head.place);
            self.problems.push(problem.column("yields").instead("write how much it makes"));
        }
        Ok(Batch { takes, yields, dimension, grams, extra: head.extra })
    }

    /// Sums the amounts of each purchased item in a taker's rows.
    fn takes(&mut self, taker: Taker) -> Result<ItemAmounts, TooLarge> {
        let mut takes = ItemAmounts::new();
        for row in self.rows.get(&taker).into_iter().flatten() {
            match row.part {
                Part::Item(item) => {
                    let amount = self.base_units.amount(self.shop, item, row.amount, row.measure, self.weigher)?;
                    let sum = takes.entry(item).or_default();
                    *sum = sum.plus(amount.unwrap_or_default())?;
                }
                Part::Batch(part) => {
                    let Some((used, whole)) = self.share_of_batch(part, row)? else { continue };
                    let batch = &self.batches[&part];
                    let made = used.times(Percent::WHOLE + i128::from(batch.extra.0), Percent::WHOLE)?;
                    for (item, amount) in &batch.takes {
                        let sum = takes.entry(*item).or_default();
                        *sum = sum.plus(amount.times(made.0, whole.0)?)?;
                    }
                }
            }
        }
        Ok(takes)
    }

    /// Computes how much of a batch a row uses and how much the batch yields, both in one unit.
    fn share_of_batch(&mut self, part: usize, row: &Row) -> Result<Option<(Amount, Amount)>, TooLarge> {
        let Some(batch) = self.batches.get(&part) else { return Ok(None) };
        let (yields, dimension, grams) = (batch.yields, batch.dimension, batch.grams);
        let name = &self.shop.recipes.batches[part].name;
        let used = if row.measure.dimension() == dimension {
            Some((self.base_units.plain(row.amount, row.measure)?, yields))
        } else {
            let weight = self.weigher.grams(self.shop, name, row.amount, row.measure)?;
            weight.zip(grams)
        };
        match used {
            Some((_, whole)) if whole <= Amount::ZERO => Ok(None),
            Some(used) => Ok(Some(used)),
            None => {
                let what = format!("{name} is used in a unit that does not convert to its yield's");
                let problem = Problem::of_file(&YIELD_UNIT, FILE, what).at(row.place).column("unit");
                self.problems.push(problem.instead("use the unit of its yield"));
                Ok(None)
            }
        }
    }

    /// Sums the grams of a taker's rows, without packaging. A row of unknown weight becomes a problem that says why
    /// the weight is needed.
    fn grams(&mut self, taker: Taker, why: &str) -> Result<Option<Amount>, TooLarge> {
        let mut sum = Amount::ZERO;
        let mut whole = true;
        for row in self.rows.get(&taker).into_iter().flatten() {
            match self.row_grams(row)? {
                Some(grams) => sum = sum.plus(grams)?,
                None => {
                    whole = false;
                    let name = self.part_name(row).to_owned();
                    let what = format!("this amount of {name} cannot be turned into grams, but {why}");
                    let problem = Problem::of_file(&NO_WEIGHT, FILE, what).at(row.place).column("unit");
                    let weight = weight_of(&name, row.measure).map_or_else(String::new, |weight| format!("{weight} in items.csv, or "));
                    self.problems.push(problem.instead(format!("write it in grams, or {weight}class packaging there if it is packaging")));
                }
            }
        }
        Ok(whole.then_some(sum))
    }

    /// As `grams`, but an unknown weight is no problem.
    fn quiet_grams(&mut self, taker: Taker) -> Result<Option<Amount>, TooLarge> {
        let mut sum = Amount::ZERO;
        for row in self.rows.get(&taker).into_iter().flatten() {
            let Some(grams) = self.row_grams(row)? else { return Ok(None) };
            sum = sum.plus(grams)?;
        }
        Ok(Some(sum))
    }

    fn row_grams(&mut self, row: &Row) -> Result<Option<Amount>, TooLarge> {
        let name = self.part_name(row);
        if self.shop.items.is_packaging(name) {
            return Ok(Some(Amount::ZERO));
        }
        if let Some(grams) = self.weigher.grams(self.shop, name, row.amount, row.measure)? {
            return Ok(Some(grams));
        }
        let Part::Batch(part) = row.part else { return Ok(None) };
        let Some(batch) = self.batches.get(&part) else { return Ok(None) };
        match batch.grams {
            Some(grams) if row.measure.dimension() == batch.dimension && batch.yields > Amount::ZERO => {
                grams.times(self.base_units.plain(row.amount, row.measure)?.0, batch.yields.0).map(Some)
            }
            _ => Ok(None),
        }
    }

    fn part_name(&self, row: &Row) -> &'a str {
        let shop: &'a Shop = self.shop;
        match row.part {
            Part::Item(item) => shop.item_names.text(item),
            Part::Batch(batch) => &shop.recipes.batches[batch].name,
        }
    }
}

/// Sorts recipes so that each comes after its parts; `None` if one contains itself.
fn batches_parts_first(shop: &Shop, rows: &BTreeMap<Taker, Vec<&Row>>, problems: &mut Vec<Problem>) -> Option<Vec<usize>> {
    let mut walk = Walk { rows, state: vec![State::Unseen; shop.recipes.batches.len()], order: Vec::new(), cycle: None };
    for batch in 0..shop.recipes.batches.len() {
        walk.visit(batch);
    }
    let Some((batch, place)) = walk.cycle else { return Some(walk.order) };
    let name = &shop.recipes.batches[batch].name;
    let problem = Problem::of_file(&RECIPE_IN_ITSELF, FILE, format!("{name} contains itself, directly or through its parts"))
        .at(place)
        .column("item");
    problems.push(problem.instead("take this row out, or correct its item"));
    None
}

#[derive(Clone, Copy, PartialEq)]
enum State {
    Unseen,
    Open,
    Done,
}

struct Walk<'a> {
    rows: &'a BTreeMap<Taker, Vec<&'a Row>>,
    state: Vec<State>,
    order: Vec<usize>,
    cycle: Option<(usize, Place)>,
}

impl Walk<'_> {
    /// Depth-first search on a stack of its own: a long chain of recipes must not exhaust the program's.
    fn visit(&mut self, start: usize) {
        let mut stack = vec![(start, 0)];
        while let Some((batch, next)) = stack.pop() {
            if self.state[batch] == State::Done {
                continue;
            }
            self.state[batch] = State::Open;
            let rows = self.rows.get(&Taker::Batch(batch)).map_or(&[][..], Vec::as_slice);
            let inner = rows.iter().enumerate().skip(next).find_map(|(at, row)| match row.part {
                Part::Batch(part) if self.state[part] != State::Done => Some((at, part, row.place)),
                _ => None,
            });
            match inner {
                Some((_, part, place)) if self.state[part] == State::Open => {
                    self.cycle.get_or_insert((part, place));
                    return;
                }
                Some((at, part, _)) => stack.extend([(batch, at), (part, 0)]),
                None => {
                    self.state[batch] = State::Done;
                    self.order.push(batch);
                }
            }
        }
    }
}
