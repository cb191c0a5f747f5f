//! The table of units, and the unit that a text names.

use super::unit::{Unit, count, length, mass, volume};

impl Unit {
    /// The unit that `text` names; letter case, spaces, underscores and full stops do not count
    /// ("Fl. Oz." is "fl oz"). `None` where no spelling in the table is exactly that.
    #[must_use]
    pub fn parse(text: &str) -> Option<Self> {
        UNITS.iter().find(|unit| unit.spelt().any(|known| folded(known).eq(folded(text)))).copied()
    }

    /// Every spelling that [`Unit::parse`] knows, for suggesting one to a maker who mistyped.
    pub(crate) fn known_names() -> impl Iterator<Item = &'static str> {
        UNITS.iter().flat_map(Self::spelt)
    }

    fn spelt(&self) -> impl Iterator<Item = &'static str> + use<> {
        std::iter::once(self.name).chain(self.spellings.iter().copied())
    }
}

/// One row a unit: the name, the exact factor to the base unit, the other spellings.
///
/// The pound is 0.453 592 37 kg, the inch 2.54 cm and the US gallon 231 cubic inches by definition;
/// the imperial gallon is 4.546 09 L; the rest are whole parts or multiples of those or of the litre.
/// One-letter spoons and cups are left out: "T" and "t" differ only in their letter case.
const UNITS: &[Unit] = &[
    mass("mg", "0.001", &["milligram", "milligrams"]),
    mass("g", "1", &["gram", "grams", "gramme", "grammes", "gm", "gms"]),
    mass("kg", "1000", &["kilogram", "kilograms", "kilogramme", "kilogrammes", "kilo", "kilos", "kgs"]),
    mass("grain", "0.06479891", &["grains"]),
    mass("oz", "28.349523125", &["ounce", "ounces", "ozs"]),
    mass("lb", "453.59237", &["lbs", "pound", "pounds"]),
    mass("stick of butter", "113.3980925", &["stick", "sticks", "sticks of butter", "butter stick", "butter sticks"]),
    volume("mL", "1", &["millilitre", "millilitres", "milliliter", "milliliters", "mLs"]),
    volume("cL", "10", &["centilitre", "centilitres", "centiliter", "centiliters"]),
    volume("dL", "100", &["decilitre", "decilitres", "deciliter", "deciliters"]),
    Unit::LITRE,
    Unit::US_TEASPOON,
    Unit::US_TABLESPOON,
    Unit::US_FLUID_OUNCE,
    volume("US gill", "118.29411825", &["gill", "gills", "US gills"]),
    Unit::US_CUP,
    volume("US pint", "473.176473", &["pint", "pints", "pt", "pts", "liquid pint", "US liquid pint", "US pints", "US pt"]),
    Unit::US_QUART,
    volume("US gallon", "3785.411784", &["gallon", "gallons", "gal", "gals", "US gallons", "US gal"]),
    volume("US legal cup", "240", &["US legal cups", "legal cup", "legal cups"]),
    volume("US legal tablespoon", "15", &["US legal tablespoons", "legal tablespoon", "legal tablespoons", "legal tbsp"]),
    volume("metric cup", "250", &["metric cups"]),
    volume("Australian tablespoon", "20", &["Australian tablespoons", "Australian tbsp"]),
    volume("Australian teaspoon", "5", &["Australian teaspoons", "Australian tsp"]),
    volume("UK tablespoon", "15", &["UK tablespoons", "UK tbsp", "British tablespoon", "British tablespoons"]),
    volume("Japanese cup", "200", &["Japanese cups"]),
    volume(
        "imperial fluid ounce",
        "28.4130625",
        &["imperial fluid ounces", "imperial fl oz", "UK fluid ounce", "UK fluid ounces", "UK fl oz"],
    ),
    volume("imperial cup", "284.130625", &["imperial cups"]),
    volume("imperial pint", "568.26125", &["imperial pints", "UK pint", "UK pints"]),
    volume("imperial gallon", "4546.09", &["imperial gallons", "UK gallon", "UK gallons"]),
    Unit::EACH,
    count("dozen", "12", &["dozens", "doz", "dz", "dzn"]),
    length("mm", "0.001", &["millimetre", "millimetres", "millimeter", "millimeters"]),
    length("cm", "0.01", &["centimetre", "centimetres", "centimeter", "centimeters"]),
    length("m", "1", &["metre", "metres", "meter", "meters"]),
    length("in", "0.0254", &["inch", "inches"]),
    length("ft", "0.3048", &["foot", "feet"]),
    length("yd", "0.9144", &["yard", "yards", "yds"]),
];

/// The letters that tell one spelling from another.
fn folded(text: &str) -> impl Iterator<Item = char> {
    text.chars().filter(|letter| !letter.is_whitespace() && !matches!(letter, '_' | '.')).flat_map(char::to_lowercase)
}

#[cfg(test)]
mod tests {
    use std::collections::HashSet;

    use rust_decimal::RoundingStrategy::MidpointAwayFromZero;

    use super::*;
    use crate::quantity::exact::exact;
    use rust_decimal::Decimal;

    const EXACT: &str = include_str!(concat!(env!("CARGO_MANIFEST_DIR"), "/fixtures/published/units.csv"));
    const APPROXIMATE: &str = include_str!(concat!(env!("CARGO_MANIFEST_DIR"), "/fixtures/published/units_nist_approximate.csv"));

    fn rows(table: &str) -> Vec<csv::StringRecord> {
        csv::Reader::from_reader(table.as_bytes()).records().map(Result::unwrap).collect()
    }

    fn unit(text: &str) -> Unit {
        Unit::parse(text).unwrap_or_else(|| panic!("{text} is not a unit"))
    }

    /// Source: definitions of GNU units 2.22 (facts only), and NIST SP 811, appendix B.8, whose
    /// factors are printed to seven digits.
    #[test]
    fn factors_equal_the_published_definitions() {
        let rows = rows(EXACT);
        assert_eq!(rows.len(), 24);
        for row in &rows {
            let name = row[0].split(" (").next().unwrap_or_default();
            let unit = unit(name);
            assert_eq!(unit.dimension().base_unit(), &row[1], "{name}");
            assert_eq!(unit.factor(), row[2].parse::<Decimal>().unwrap(), "{name}");
            if !row[5].is_empty() {
                let printed: Decimal = row[5].parse().unwrap();
                let rounded = unit.factor().round_dp_with_strategy(printed.scale(), MidpointAwayFromZero);
                assert_eq!(rounded, printed, "{name} in NIST SP 811");
            }
        }
    }

    /// Source: two kitchen tables of NIST (SP 430 and the cooking equivalencies), rounded for use.
    #[test]
    fn kitchen_tables_agree_within_two_percent() {
        for row in rows(APPROXIMATE) {
            let printed: Decimal = row[2].parse().unwrap();
            let name = row[0].split(" (").next().unwrap_or_default();
            let (amount, name) = match name.split_once(' ') {
                Some((part, rest)) if part.contains('/') => {
                    let (over, under) = part.split_once('/').unwrap();
                    (over.parse::<Decimal>().unwrap() / under.parse::<Decimal>().unwrap(), rest)
                }
                _ => (Decimal::ONE, name),
            };
            let unit = unit(name);
            let off = (printed / (unit.factor() * amount) - Decimal::ONE).abs();
            // The half gallon is printed as 1,950 mL, against 2 × 950 for its own quarts.
            let allowed = if &row[0] == "1/2 gallon" { exact("0.031") } else { exact("0.02") };
            assert_eq!(unit.dimension().base_unit(), &row[1], "{}", &row[0]);
            assert!(off <= allowed, "{} is off by {off}", &row[0]);
        }
    }

    /// Each unit as a whole multiple of another, by definition; metric prefixes from the SI.
    #[test]
    fn units_are_whole_multiples_of_each_other() {
        for (large, times, small) in [
            ("kg", 1000, "g"),
            ("g", 1000, "mg"),
            ("lb", 16, "oz"),
            ("lb", 7000, "grain"),
            ("lb", 4, "stick"),
            ("US gallon", 4, "quart"),
            ("quart", 2, "pint"),
            ("pint", 2, "cup"),
            ("cup", 2, "gill"),
            ("cup", 8, "fl oz"),
            ("cup", 16, "tbsp"),
            ("tbsp", 3, "tsp"),
            ("imperial gallon", 8, "imperial pint"),
            ("imperial pint", 20, "imperial fluid ounce"),
            ("imperial pint", 2, "imperial cup"),
            ("litre", 10, "dL"),
            ("dL", 10, "cL"),
            ("cL", 10, "mL"),
            ("dozen", 12, "each"),
            ("m", 100, "cm"),
            ("cm", 10, "mm"),
            ("yd", 3, "ft"),
            ("ft", 12, "in"),
        ] {
            assert_eq!(unit(large).dimension(), unit(small).dimension(), "{large}");
            assert_eq!(unit(large).factor(), unit(small).factor() * Decimal::from(times), "{large}");
        }
        // 2.54 cm, the inch of the US gallon's 231 cubic inches.
        let inch_in_cm = unit("inch").factor() / unit("cm").factor();
        assert_eq!(unit("gallon").factor(), inch_in_cm * inch_in_cm * inch_in_cm * exact("231"));
    }

    #[test]
    fn spelling_does_not_matter_within_reason() {
        for (text, name) in [
            ("Cups", "US cup"),
            (" tbsp. ", "US tablespoon"),
            ("TABLESPOONS", "US tablespoon"),
            ("Fl. Oz.", "US fluid ounce"),
            ("fluid_ounces", "US fluid ounce"),
            ("floz", "US fluid ounce"),
            ("LBS", "lb"),
            ("Pounds", "lb"),
            ("ounces", "oz"),
            ("ml", "mL"),
            ("millilitres", "mL"),
            ("Liters", "L"),
            ("l", "L"),
            ("metric  cup", "metric cup"),
            ("Pieces", "each"),
            ("pcs.", "each"),
            ("Dozen", "dozen"),
            ("feet", "ft"),
        ] {
            assert_eq!(Unit::parse(text).map(|unit| unit.name()), Some(name), "{text}");
        }
    }

    #[test]
    fn what_is_not_a_unit_is_refused() {
        for text in ["", " . ", "T", "t", "c", "cup packed", "2 cups", "cupp", "handful", "box", "gr"] {
            assert_eq!(Unit::parse(text), None, "{text}");
        }
    }

    #[test]
    fn every_spelling_names_one_unit() {
        let mut seen = HashSet::new();
        for row in UNITS {
            for spelling in row.spelt() {
                assert!(seen.insert(folded(spelling).collect::<String>()), "{spelling} stands twice");
                assert_eq!(unit(spelling), *row);
            }
        }
        assert_eq!(Unit::known_names().count(), seen.len());
    }
}
