//! A food with built-in weights, and what a unit of it weighs.

use crate::quantity::unit::{Dimension, Unit};
use rust_decimal::Decimal;

/// A food of the USDA table with its household measures.
#[derive(Debug, PartialEq, Eq)]
pub struct Household {
    /// The food's NDB number in the USDA table.
    pub ndb: &'static str,
    /// The food as the USDA table describes it.
    pub description: &'static str,
    pub(super) names: &'static [&'static str],
    pub(super) measures: &'static [Measure],
}

/// One measure of a food: the table's words for it and what it weighs.
#[derive(Debug, PartialEq, Eq)]
pub(super) struct Measure {
    pub(super) words: &'static str,
    pub(super) grams: Decimal,
    /// The unit it gives the weight of, where it is of the usual state.
    pub(super) unit: Option<Unit>,
}

/// A weight for one item and unit, kept as a ratio so that nothing is rounded, and where it is from.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct WeightUsed {
    /// What `per` weighs, in grams.
    pub grams: Decimal,
    /// How much weighs `grams`, in base units: mL for a unit of volume, pieces for a count. A measure
    /// known by its own words is itself what is counted, so 1 of it.
    pub per: Decimal,
    /// The food's NDB number in the USDA table.
    pub ndb: &'static str,
    /// The food as the USDA table describes it.
    pub description: &'static str,
    /// The measure the weight stands at, in the table's words.
    pub measure: &'static str,
    /// Whether the unit has no weight of its own, so that another measure's density was used.
    pub derived: bool,
}

/// The measures a density is taken from, the first that the food has. Large before small, since all
/// are printed to much the same digits: USDA's spoons stray from its cups by 2.5–7 %.
const DENSITY_FROM: [Unit; 5] = [Unit::US_CUP, Unit::US_TABLESPOON, Unit::US_TEASPOON, Unit::LITRE, Unit::US_FLUID_OUNCE];

impl Household {
    /// The weight of this food in `unit`, at the measure of that very unit where there is one, else
    /// for a volume by the density at another measure. `None` for a count of what comes uncounted
    /// (12 pieces of milk), for weights, which need none, and for lengths, which have none.
    #[must_use]
    pub fn weigh(&self, unit: &Unit) -> Option<WeightUsed> {
        match unit.dimension() {
            Dimension::Count => Some(self.used(self.measure_of(Unit::EACH)?, Unit::EACH.factor(), false)),
            Dimension::Volume => self.weigh_volume(unit),
            Dimension::Mass | Dimension::Length => None,
        }
    }

    fn weigh_volume(&self, unit: &Unit) -> Option<WeightUsed> {
        if let Some(measure) = self.measure_of(*unit) {
            return Some(self.used(measure, unit.factor(), false));
        }
        DENSITY_FROM.iter().find_map(|known| self.measure_of(*known).map(|measure| self.used(measure, known.factor(), true)))
    }

    /// The weight of one measure in the table's own words: "cup sifted", "extra large", "pat". Letter
    /// case, spaces, underscores, commas and hyphens do not count, nor how the leading unit is spelt
    /// ("cups packed"), nor the table's remarks in brackets. `None` where no measure is exactly that.
    #[must_use]
    pub(crate) fn weigh_measure(&self, text: &str) -> Option<WeightUsed> {
        let wanted = measure_key(text);
        let measure = self.measures.iter().find(|measure| measure_key(measure.words) == wanted)?;
        Some(self.used(measure, Decimal::ONE, false))
    }

    fn measure_of(&self, unit: Unit) -> Option<&'static Measure> {
        self.measures.iter().find(|measure| measure.unit == Some(unit))
    }

    fn used(&self, measure: &'static Measure, per: Decimal, derived: bool) -> WeightUsed {
        WeightUsed { grams: measure.grams, per, ndb: self.ndb, description: self.description, measure: measure.words, derived }
    }
}

/// An item's name without its letter case and spacing; a curly apostrophe is a straight one.
pub(super) fn folded(item: &str) -> String {
    let plain = item.replace('_', " ").replace('\u{2019}', "'").to_lowercase();
    plain.split_whitespace().collect::<Vec<_>>().join(" ")
}

/// What tells one measure from another.
pub(super) fn measure_key(words: &str) -> String {
    let remarkless = words.split('(').next().unwrap_or_default();
    let plain = folded(&remarkless.replace([',', '-'], " "));
    let (first, rest) = plain.split_once(' ').unwrap_or((&plain, ""));
    let first = Unit::parse(first).map_or(first, |unit| unit.name());
    format!("{first} {rest}")
}
