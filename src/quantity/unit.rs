//! The units that recipes and receipts name, each with its exact factor to a base unit.
//!
//! A bare kitchen name (cup, tablespoon, pint) is the US customary one; other countries' measures
//! are named in full ("metric cup"). "oz" is always a weight and "fl oz" a volume. What a volume
//! of some food weighs is not known here but in [`super::household`].

use super::exact::exact;
use rust_decimal::Decimal;

/// What a unit measures. Units of one dimension convert into each other exactly.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum Dimension {
    /// Weight; the base unit is the gram.
    Mass,
    /// Volume; the base unit is the millilitre.
    Volume,
    /// Number of things; the base unit is one of them.
    Count,
    /// Length (ribbon); the base unit is the metre.
    Length,
}

impl Dimension {
    /// The base unit's name.
    #[must_use]
    pub fn base_unit(self) -> &'static str {
        match self {
            Self::Mass => "g",
            Self::Volume => "mL",
            Self::Count => "each",
            Self::Length => "m",
        }
    }
}

/// A unit of measure: its name, what it measures and its exact size.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub struct Unit {
    pub(super) name: &'static str,
    dimension: Dimension,
    factor: Decimal,
    pub(super) spellings: Spellings,
}

impl Unit {
    /// One of a thing.
    pub const EACH: Self = count("each", "1", &["ea", "piece", "pieces", "pc", "pcs", "ct", "count", "unit", "units"]);
    /// The US customary cup, half a US liquid pint.
    pub(crate) const US_CUP: Self = volume("US cup", "236.5882365", &["cup", "cups", "US cups", "cupful", "cupfuls"]);
    /// The US customary tablespoon, a sixteenth of a US cup.
    pub(crate) const US_TABLESPOON: Self = volume(
        "US tablespoon",
        "14.78676478125",
        &["tablespoon", "tablespoons", "tablespoonful", "tablespoonfuls", "tbsp", "tbsps", "tbs", "tblsp", "US tablespoons", "US tbsp"],
    );
    /// The US customary teaspoon, a third of a US tablespoon.
    pub(crate) const US_TEASPOON: Self = volume(
        "US teaspoon",
        "4.92892159375",
        &["teaspoon", "teaspoons", "teaspoonful", "teaspoonfuls", "tsp", "tsps", "US teaspoons", "US tsp"],
    );
    /// The US customary fluid ounce, an eighth of a US cup.
    pub(crate) const US_FLUID_OUNCE: Self = volume(
        "US fluid ounce",
        "29.5735295625",
        &["fluid ounce", "fluid ounces", "fl oz", "fl ozs", "fluid oz", "US fluid ounces", "US fl oz"],
    );
    /// The US liquid quart, a quarter of a US gallon.
    pub(crate) const US_QUART: Self =
        volume("US quart", "946.352946", &["quart", "quarts", "qt", "qts", "liquid quart", "US liquid quart", "US quarts", "US qt"]);
    /// The litre.
    pub(crate) const LITRE: Self = volume("L", "1000", &["litre", "litres", "liter", "liters", "ltr", "ltrs"]);

    /// The name to show: unmistakable, so "US cup" for a plain "cup".
    #[must_use]
    pub fn name(&self) -> &'static str {
        self.name
    }

    /// What the unit measures.
    #[must_use]
    pub(crate) fn dimension(&self) -> Dimension {
        self.dimension
    }

    /// How many base units (g, mL, each or m) one of this unit is, exactly.
    #[must_use]
    pub fn factor(&self) -> Decimal {
        self.factor
    }
}

pub(super) type Spellings = &'static [&'static str];

pub(super) const fn mass(name: &'static str, grams: &str, spellings: Spellings) -> Unit {
    Unit { name, dimension: Dimension::Mass, factor: exact(grams), spellings }
}

pub(super) const fn volume(name: &'static str, millilitres: &str, spellings: Spellings) -> Unit {
    Unit { name, dimension: Dimension::Volume, factor: exact(millilitres), spellings }
}

pub(super) const fn count(name: &'static str, each: &str, spellings: Spellings) -> Unit {
    Unit { name, dimension: Dimension::Count, factor: exact(each), spellings }
}

pub(super) const fn length(name: &'static str, metres: &str, spellings: Spellings) -> Unit {
    Unit { name, dimension: Dimension::Length, factor: exact(metres), spellings }
}
