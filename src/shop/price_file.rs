//! A price list to try on past orders: rows for tiers, and for designs by themselves.

use super::Shop;
use super::kinds::{PRICE_OF_NOTHING, PRICE_TWICE, TIER_AND_DESIGN};
use super::specification::PRICE_FILE;
use super::tiers::PriceList;
use crate::ids::{Design, Id};
use crate::quantity::{Day, Price};
use crate::reading::{Cells, Known, Problem, Table};
use std::collections::{BTreeMap, BTreeSet};

/// A price list that is not the shop's own.
#[derive(Debug, Clone, Default)]
pub struct PriceFile {
    tiers: PriceList,
    designs: PriceList,
    /// Names in it that are neither tiers nor designs of the shop.
    pub unknown: BTreeSet<String>,
}

impl PriceFile {
    /// Reads a CSV file with the headings `price`, `tier` or `design`, and optionally `from`. A design may also stand under `tier` if no
    /// tier has its name. `None` if the headings are missing.
    pub fn read(shop: &Shop, bytes: &[u8], problems: &mut Vec<Problem>) -> Option<Self> {
        let reading = shop.settings.reading("tiers");
        let cells = Cells::of_csv(&PRICE_FILE.file(), bytes, Known { specification: &PRICE_FILE, columns: &reading.columns });
        let mut table = Table::read(&PRICE_FILE, &cells, &reading, &BTreeSet::new(), problems);
        if table.lacks("price") || (table.lacks("tier") && table.lacks("design")) {
            return None;
        }
        let [(tiers, tier_names), (designs, design_names)] = ["tier", "design"].map(|column| table.text(column));
        let (prices, from) = (table.prices("price"), table.days("from"));
        let mut list = Self::default();
        for row in 0..table.rows() {
            let tier = tiers[row].map(|name| tier_names.text(name));
            let (name, of_design) = match (tier, designs[row].map(|name| design_names.text(name))) {
                (Some(tier), None) if is_tier(shop, tier) => (tier, false),
                (Some(name), None) | (None, Some(name)) => match shop.designs.find(name) {
                    Some(design) => (shop.designs.names.text(design), true),
                    None => {
                        list.unknown.insert(name.to_owned());
                        continue;
                    }
                },
                (Some(_), Some(design)) => {
                    let problem = table.problem(&TIER_AND_DESIGN, row, "design", "is on the same row as a tier").found(design);
                    problems.push(problem.instead("leave one of the two blank"));
                    continue;
                }
                (None, None) => {
                    let problem = table.problem(&PRICE_OF_NOTHING, row, "tier", "the cell is blank");
                    problems.push(problem.instead("write a tier, or a design under design"));
                    continue;
                }
            };
            let Some(price) = prices[row] else { continue };
            let of = if of_design { &mut list.designs } else { &mut list.tiers };
            if !of.add(name, from[row], price) {
                problems
                    .push(table.problem(&PRICE_TWICE, row, "from", "has two prices from this day").found(name).instead("keep one of them"));
            }
        }
        Some(list)
    }

    /// Whether it has no price.
    #[must_use]
    pub fn is_empty(&self) -> bool {
        self.tiers.is_empty() && self.designs.is_empty()
    }

    /// The day the first of its prices starts; `None` where one always holds.
    #[must_use]
    pub(crate) fn first_start(&self) -> Option<Day> {
        let starts = [&self.tiers, &self.designs].into_iter().filter(|list| !list.is_empty()).map(PriceList::first_start);
        starts.collect::<Option<Vec<Day>>>()?.into_iter().min()
    }

    /// The price of a design on a day: from its own row, else from the tier it sat in that day, else, if the list no longer has that
    /// tier, from the tier it sits in now. `None` if the list has none of these.
    #[must_use]
    pub fn price(&self, shop: &Shop, design: Id<Design>, day: Day) -> Option<Price> {
        let designs = &shop.designs;
        self.designs.price(designs.names.text(design), day).or_else(|| {
            let then = designs.tier_on(design, day)?;
            if self.tiers.tiers().any(|tier| tier == then) {
                return self.tiers.price(then, day);
            }
            designs.tier[design].and_then(|tier| self.tiers.price(designs.tiers.text(tier), day))
        })
    }

    /// Names what was sold without a price in this list: a tier where all its designs lack one, else the single designs.
    #[must_use]
    pub(crate) fn unpriced(&self, shop: &Shop, sold: impl Iterator<Item = (Id<Design>, Day)>) -> Vec<String> {
        let mut has_one: BTreeMap<Id<Design>, bool> = BTreeMap::new();
        for (design, day) in sold {
            *has_one.entry(design).or_default() |= self.price(shop, design, day).is_some();
        }
        let designs = &shop.designs;
        let tier_of = |design: Id<Design>| designs.tier[design];
        let is_whole = |design: Id<Design>| {
            tier_of(design).is_some() && has_one.iter().all(|(other, has_one)| tier_of(*other) != tier_of(design) || !has_one)
        };
        let mut names: Vec<String> = Vec::new();
        for design in has_one.iter().filter(|(_, has_one)| !**has_one).map(|(design, _)| *design) {
            let name = match tier_of(design).filter(|_| is_whole(design)) {
                Some(tier) => designs.tiers.text(tier),
                None => designs.names.text(design),
            };
            if !names.iter().any(|known| known == name) {
                names.push(name.to_owned());
            }
        }
        names
    }
}

/// Whether a name is a tier's.
#[must_use]
pub(crate) fn is_tier(shop: &Shop, name: &str) -> bool {
    shop.designs.tiers.find(name).is_some() || shop.prices.tiers().any(|tier| tier == name)
}
