//! Items: everything bought, counted or taken by a recipe, and what the card says of each.

use super::kinds::{ITEM_TWICE, UNKNOWN_UNIT};
use crate::ids::{Id, Names, Text};
use crate::quantity::household::{self, WeightUsed};
use crate::quantity::unit::{Dimension, Unit};
use crate::quantity::{Amount, TooLarge};
use crate::reading::nearest::nearest;
use crate::reading::{Place, Problem, Table};
use rust_decimal::Decimal;
use std::collections::BTreeMap;

/// What the `items` card says of one item.
#[derive(Debug, Clone, Copy)]
pub struct Known {
    /// Whether it is packaging rather than an ingredient.
    pub packaging: bool,
    /// What a US cup of it weighs.
    pub grams_per_cup: Option<Decimal>,
    /// What one weighs.
    pub grams_each: Option<Decimal>,
    /// Where it stands on the card.
    pub place: Place,
}

/// The `items` card, by name.
#[derive(Debug, Clone, Default)]
pub struct ItemCard {
    known: BTreeMap<String, Known>,
}

impl ItemCard {
    /// Reads the `items` card; of an item listed twice the last row counts, with a problem.
    pub fn read(mut table: Table, problems: &mut Vec<Problem>) -> Self {
        let (items, names) = table.text("item");
        let class = table.wholes("class");
        let per_cup = table.numbers("grams_per_cup");
        let each = table.numbers("grams_each");
        let mut known: BTreeMap<String, Known> = BTreeMap::new();
        for row in 0..table.rows() {
            let Some(name) = items[row].map(|name| names.text(name)) else { continue };
            let place = table.places[row];
            let entry = Known { packaging: class[row] == Some(1), grams_per_cup: per_cup[row], grams_each: each[row], place };
            if let Some(first) = known.insert(name.to_owned(), entry) {
                let what = format!("is in items.csv twice, first in row {}", first.place.row);
                problems.push(table.problem(&ITEM_TWICE, row, "item", what).found(name).instead("keep one of the rows"));
            }
        }
        Self { known }
    }

    /// The names on the card.
    pub fn names(&self) -> impl Iterator<Item = &str> {
        self.known.keys().map(String::as_str)
    }

    /// An item's row, if it has one.
    #[must_use]
    pub fn of(&self, item: &str) -> Option<&Known> {
        self.known.get(item)
    }

    /// Whether an item is packaging.
    #[must_use]
    pub(crate) fn is_packaging(&self, item: &str) -> bool {
        self.of(item).is_some_and(|known| known.packaging)
    }

    /// Weighs an amount of an item; `None` where neither the card nor the built-in weights have one.
    ///
    /// The card's weights come ahead of the built-in ones.
    ///
    /// # Errors
    /// [`TooLarge`] where the weight does not fit.
    pub fn grams(&self, item: &str, amount: Decimal, measure: Measure) -> Result<Option<Weighed>, TooLarge> {
        let (unit, built_in) = match measure {
            Measure::Household(used) => (None, Some(used)),
            Measure::Unit(unit) => (Some(unit), None),
        };
        let own = unit.and_then(|unit| match unit.dimension() {
            Dimension::Mass => Some((Decimal::ONE, Decimal::ONE)),
            Dimension::Volume => Some((self.of(item)?.grams_per_cup?, Unit::US_CUP.factor())),
            Dimension::Count => Some((self.of(item)?.grams_each?, Decimal::ONE)),
            Dimension::Length => None,
        });
        let factor = unit.map_or(Decimal::ONE, |unit| unit.factor());
        let built_in = built_in.or_else(|| household::food(item)?.weigh(&unit?)).filter(|_| own.is_none());
        let Some((grams, per)) = own.or(built_in.map(|used| (used.grams, used.per))) else { return Ok(None) };
        let product = amount.checked_mul(factor).and_then(|base| base.checked_mul(grams)).ok_or(TooLarge)?;
        let weight = product.checked_div(per).ok_or(TooLarge)?;
        Ok(Some(Weighed { grams: Amount::from_decimal(weight)?, built_in }))
    }
}

/// A weight, with the built-in figure it was worked out from, if any.
#[derive(Debug, Clone, Copy)]
pub struct Weighed {
    /// Grams.
    pub grams: Amount,
    /// The built-in weight used.
    pub built_in: Option<WeightUsed>,
}

/// The unit of an amount: a general one, or a household measure of one item.
#[derive(Debug, Clone, Copy)]
pub enum Measure {
    /// A unit of any item.
    Unit(Unit),
    /// A measure named in the government table for this item, as `cup sifted`.
    Household(WeightUsed),
}

impl Measure {
    /// Reads a unit cell for an item.
    #[must_use]
    pub fn read(item: &str, text: &str) -> Option<Self> {
        Unit::parse(text).map(Self::Unit).or_else(|| household::food(item)?.weigh_measure(text).map(Self::Household))
    }

    /// Advice on an unknown unit.
    #[must_use]
    pub fn advice(text: &str) -> String {
        match nearest(&text.to_lowercase(), Unit::known_names()) {
            Some(near) => format!("did you mean {near}?"),
            None => "write g, kg, oz, lb, mL, tsp, tbsp, cup, each or m".to_owned(),
        }
    }

    /// What the amount is measured in.
    #[must_use]
    pub(crate) fn dimension(self) -> Dimension {
        match self {
            Self::Unit(unit) => unit.dimension(),
            Self::Household(_) => Dimension::Mass,
        }
    }
}

/// Reads a unit column together with the items of its rows; an unknown unit is a problem.
pub fn measures(
    table: &Table,
    (items, item_names): (&[Option<Id<Text>>], &Names<Text>),
    (units, unit_names): (&[Option<Id<Text>>], &Names<Text>),
    problems: &mut Vec<Problem>,
) -> Vec<Option<Measure>> {
    let cells = items.iter().zip(units).enumerate();
    cells
        .map(|(row, (item, unit))| {
            let text = unit_names.text((*unit)?);
            let measure = Measure::read(item.map_or("", |item| item_names.text(item)), text);
            if measure.is_none() {
                problems.push(table.problem(&UNKNOWN_UNIT, row, "unit", "is not a known unit").found(text).instead(Measure::advice(text)));
            }
            measure
        })
        .collect()
}
