//! The unit each item is kept in: the one all its rows agree on, else grams.

use super::kinds::{PUBLISHED_WEIGHT, UNITS_DIFFER};
use super::wording::weight_of;
use crate::ids::{Id, IdVec, Item};
use crate::quantity::unit::Dimension;
use crate::quantity::{Amount, TooLarge};
use crate::reading::{Place, Problem};
use crate::shop::Shop;
use crate::shop::items::Measure;
use crate::shop::recipes::Part;
use rust_decimal::Decimal;
use std::collections::{BTreeMap, BTreeSet};

/// The dimension of each item's base unit, by item.
#[derive(Debug, Default)]
pub struct BaseUnits {
    dimension: IdVec<Item, Dimension>,
}

struct Mention {
    item: Id<Item>,
    amount: Decimal,
    measure: Measure,
    file: &'static str,
    place: Place,
}

impl BaseUnits {
    /// Chooses the units from purchases, counts and recipes. A row that cannot be converted becomes a problem.
    ///
    /// # Errors
    /// [`TooLarge`] where an amount does not fit.
    pub fn of(shop: &Shop, weigher: &mut Weigher, problems: &mut Vec<Problem>) -> Result<Self, TooLarge> {
        let mentions: Vec<Mention> = mentions(shop).collect();
        let mut met = IdVec::<Item, BTreeSet<u8>>::filled(BTreeSet::new(), shop.item_names.len());
        for mention in &mentions {
            met[mention.item].insert(mention.measure.dimension() as u8);
        }
        let mut dimension = IdVec::<Item, Dimension>::filled(Dimension::Mass, shop.item_names.len());
        for mention in &mentions {
            if met[mention.item].len() == 1 {
                dimension[mention.item] = mention.measure.dimension();
                continue;
            }
            let name = shop.item_names.text(mention.item);
            if weigher.grams(shop, name, mention.amount, mention.measure)?.is_none() {
                let what = format!("{name} is measured in units that do not convert into each other");
                let problem = Problem::of_file(&UNITS_DIFFER, mention.file, what).at(mention.place).column("unit");
                let or_weight =
                    weight_of(name, mention.measure).map_or_else(String::new, |weight| format!(", or write {weight} in items.csv"));
                problems.push(problem.instead(format!("use one kind of unit for it throughout{or_weight}")));
            }
        }
        Ok(Self { dimension })
    }

    /// Converts an amount to its item's base unit; `None` if it cannot be converted, which [`BaseUnits::of`] has
    /// reported.
    ///
    /// # Errors
    /// [`TooLarge`] where it does not fit.
    pub fn amount(
        &self,
        shop: &Shop,
        item: Id<Item>,
        amount: Decimal,
        measure: Measure,
        weigher: &mut Weigher,
    ) -> Result<Option<Amount>, TooLarge> {
        if self.dimension[item] == measure.dimension() && matches!(measure, Measure::Unit(_)) {
            return self.plain(amount, measure).map(Some);
        }
        weigher.grams(shop, shop.item_names.text(item), amount, measure)
    }

    /// Converts an amount to the base unit of its own measure.
    ///
    /// # Errors
    /// [`TooLarge`] where it does not fit.
    #[allow(clippy::unused_self, reason = "reads as the conversion beside `amount`")]
    pub fn plain(&self, amount: Decimal, measure: Measure) -> Result<Amount, TooLarge> {
        let factor = match measure {
            Measure::Unit(unit) => unit.factor(),
            Measure::Household(used) => used.grams,
        };
        Amount::from_decimal(amount.checked_mul(factor).ok_or(TooLarge)?)
    }

    /// Returns what an item's base unit measures.
    #[must_use]
    pub(crate) fn dimension(&self, item: Id<Item>) -> Dimension {
        self.dimension[item]
    }
}

fn mentions(shop: &Shop) -> impl Iterator<Item = Mention> {
    let bought = shop.purchases.rows.iter().map(|row| Mention {
        item: row.item,
        amount: row.amount,
        measure: row.measure,
        file: "purchases.csv",
        place: row.place,
    });
    let counted = shop.counts.iter().map(|row| Mention {
        item: row.item,
        amount: row.amount,
        measure: row.measure,
        file: "counts.csv",
        place: row.place,
    });
    let used = shop.recipes.rows.iter().filter_map(|row| match row.part {
        Part::Item(item) => Some(Mention { item, amount: row.amount, measure: row.measure, file: "recipes.csv", place: row.place }),
        Part::Batch(_) => None,
    });
    bought.chain(counted).chain(used)
}

/// Converts amounts to grams and remembers which built-in weights it used.
#[derive(Debug, Default)]
pub struct Weigher {
    used: BTreeMap<(String, &'static str), String>,
}

impl Weigher {
    /// Converts an amount of an item to grams; `None` if its weight is unknown.
    ///
    /// # Errors
    /// [`TooLarge`] where the weight does not fit.
    pub fn grams(&mut self, shop: &Shop, name: &str, amount: Decimal, measure: Measure) -> Result<Option<Amount>, TooLarge> {
        let Some(weighed) = shop.items.grams(name, amount, measure)? else { return Ok(None) };
        if let Some(used) = weighed.built_in {
            let derived = if used.derived { ", by its density" } else { "" };
            let note = format!(
                "is assumed to weigh {} g a {}{derived} (USDA SR28, NDB {}, {})",
                used.grams.normalize(),
                used.measure,
                used.ndb,
                used.description
            );
            self.used.entry((name.to_owned(), used.measure)).or_insert(note);
        }
        Ok(Some(weighed.grams))
    }

    /// Adds each built-in weight used to the assumptions.
    pub fn report(&self, problems: &mut Vec<Problem>) {
        for ((name, _), note) in &self.used {
            let problem = Problem::of_file(&PUBLISHED_WEIGHT, "items.csv", note.clone()).found(name);
            problems.push(problem.instead("write grams_per_cup or grams_each there if yours differs"));
        }
    }
}
