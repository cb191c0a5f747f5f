//! Built-in weights of household measures: what a cup of flour or one egg weighs.
//!
//! The weights are those of the USDA National Nutrient Database for Standard Reference, release 28,
//! for an exact list of item names; a name that is not on it has no weight here.
//! A shop's own `grams_per_cup` and `grams_each` come before these; that is the caller's to see to.
//!
//! Foods come in states (sifted, packed, whipped) that differ by up to a factor of two. Each food
//! has one usual state; a plain "cup" means that, and a density is only ever taken from it. The
//! other states answer to their own words alone.

mod food;
mod table;

use food::folded;
pub use food::{Household, WeightUsed};

/// The food that an item's name stands for; letter case, spaces and underscores do not count, and
/// there is no guessing: `None` where the list has no such name.
#[must_use]
pub(crate) fn food(item: &str) -> Option<&'static Household> {
    let name = folded(item);
    foods().find(|food| food.names.contains(&name.as_str()))
}

/// Whether an item that nobody buys costs nothing: tap water (NDB 14411).
#[must_use]
pub fn is_free(item: &str) -> bool {
    food(item).is_some_and(|food| food.ndb == "14411")
}

/// Every food with built-in weights.
fn foods() -> impl Iterator<Item = &'static Household> {
    table::FOODS.iter()
}

#[cfg(test)]
mod tests {
    use std::collections::{HashMap, HashSet};

    use super::food::measure_key;
    use super::*;
    use crate::quantity::exact::exact;
    use crate::quantity::unit::{Dimension, Unit};
    use rust_decimal::Decimal;

    const USDA: &str = include_str!(concat!(env!("CARGO_MANIFEST_DIR"), "/fixtures/published/densities_usda_sr28.csv"));

    /// A row of the published table, its weight brought to one of the measure.
    struct Published {
        description: String,
        grams: Decimal,
        unit: Option<Unit>,
        grams_per_millilitre: String,
    }

    /// The published rows by NDB number and measure, without those that are weights already
    /// ("oz", "stick") and without one measure named by a trade mark.
    fn published() -> HashMap<(String, String), Published> {
        let mut rows = HashMap::new();
        for row in csv::Reader::from_reader(USDA.as_bytes()).records().map(Result::unwrap) {
            let words = row[4].to_owned();
            let plain = words.split('(').next().unwrap_or_default();
            let weight = Unit::parse(plain).is_some_and(|unit| unit.dimension() == Dimension::Mass);
            if weight || words == "tsp brownulated" {
                continue;
            }
            let published = Published {
                description: row[2].to_owned(),
                grams: row[5].parse::<Decimal>().unwrap() / row[3].parse::<Decimal>().unwrap(),
                unit: Unit::parse(&row[6]),
                grams_per_millilitre: row[7].to_owned(),
            };
            if let Some(twice) = rows.insert((row[0].to_owned(), words), published) {
                let again = &rows[&(row[0].to_owned(), row[4].to_owned())];
                assert_eq!(again.grams, twice.grams, "{}, {}", &row[2], &row[4]);
            }
        }
        rows
    }

    fn weigh(item: &str, unit: &str) -> Option<WeightUsed> {
        food(item).unwrap().weigh(&Unit::parse(unit).unwrap())
    }

    fn grams(item: &str, measure: &str) -> Option<Decimal> {
        food(item).unwrap().weigh_measure(measure).map(|used| used.grams)
    }

    /// Source: USDA National Nutrient Database SR28, files `FOOD_DES` and `WEIGHT`.
    #[test]
    fn every_weight_equals_the_usda_row() {
        let published = published();
        let mut checked = 0;
        for food in foods() {
            for measure in food.measures {
                let place = (food.ndb.to_owned(), measure.words.to_owned());
                let row = published.get(&place).unwrap_or_else(|| panic!("{place:?} is not published"));
                assert_eq!(food.description, row.description);
                assert_eq!(measure.grams, row.grams, "{place:?}");
                checked += 1;
            }
            let theirs = published.keys().filter(|(ndb, _)| ndb == food.ndb).count();
            assert_eq!(food.measures.len(), theirs, "{} has rows left out", food.description);
        }
        assert!(checked > 80, "{checked}");
    }

    /// The same table's volumes, and the grams per mL worked out from them to four places.
    #[test]
    fn a_unit_is_weighed_at_its_own_measure() {
        let published = published();
        for food in foods() {
            for measure in food.measures {
                let Some(unit) = measure.unit else { continue };
                let used = food.weigh(&unit).unwrap();
                assert_eq!((used.measure, used.derived), (measure.words, false));
                assert_eq!((used.grams, used.per), (measure.grams, unit.factor()));
                if unit != Unit::EACH {
                    let row = &published[&(food.ndb.to_owned(), measure.words.to_owned())];
                    if let Some(volume) = row.unit {
                        assert_eq!(volume, unit, "{}, {}", food.description, measure.words);
                        let density = (used.grams / used.per).round_dp(4);
                        assert_eq!(density, row.grams_per_millilitre.parse::<Decimal>().unwrap());
                    }
                }
            }
        }
    }

    #[test]
    fn other_volumes_take_the_density_of_the_cup() {
        let metric_cup = weigh("flour", "metric cup").unwrap();
        assert_eq!((metric_cup.grams, metric_cup.per), (exact("125"), Unit::US_CUP.factor()));
        assert_eq!((metric_cup.measure, metric_cup.derived), ("cup", true));
        let spoon = weigh("baking powder", "tbsp").unwrap();
        assert_eq!((spoon.grams, spoon.per), (exact("4.6"), Unit::US_TEASPOON.factor()));
        assert_eq!((spoon.measure, spoon.derived), ("tsp", true));
        let water = weigh("water", "cup").unwrap();
        assert_eq!((water.grams, water.per, water.derived), (exact("1000"), exact("1000"), true));
        assert!(!weigh("milk", "quart").unwrap().derived);
    }

    #[test]
    fn a_density_never_crosses_states() {
        for (item, unit, measure) in [
            ("icing sugar", "cup", "cup unsifted"),
            ("icing sugar", "mL", "cup unsifted"),
            ("brown sugar", "cup", "cup packed"),
            ("brown sugar", "tbsp", "cup packed"),
            ("cream", "pint", "cup, fluid (yields 2 cups whipped)"),
            ("cream cheese", "tsp", "cup"),
            ("dried egg white", "tsp", "cup, sifted"),
            ("ground almonds", "tbsp", "cup, ground"),
        ] {
            assert_eq!(weigh(item, unit).map(|used| used.measure), Some(measure), "{item}, {unit}");
        }
        // Within a state USDA's measures differ by at most 7 %; between states by 28 % or more.
        for food in foods() {
            let densities: Vec<Decimal> = food
                .measures
                .iter()
                .filter_map(|measure| Some((measure.grams, measure.unit?)))
                .filter(|(_, unit)| unit.dimension() == Dimension::Volume)
                .map(|(grams, unit)| grams / unit.factor())
                .collect();
            if let (Some(low), Some(high)) = (densities.iter().min(), densities.iter().max()) {
                assert!(high / low < exact("1.08"), "{} mixes states", food.description);
            }
        }
    }

    #[test]
    fn a_measure_answers_to_its_own_words() {
        for (item, words, weight) in [
            ("icing sugar", "cup sifted", "100"),
            ("Icing Sugar", "Cups, sifted", "100"),
            ("icing sugar", "cup unsifted", "120"),
            ("brown sugar", "cup_packed", "220"),
            ("brown sugar", "cup unpacked", "145"),
            ("brown sugar", "teaspoon unpacked", "3"),
            ("eggs", "large", "50"),
            ("eggs", "Extra-large", "56"),
            ("butter", "pat", "5"),
            ("cream", "cup fluid", "238"),
            ("cream", "cup whipped", "120"),
            ("cake flour", "cup unsifted, dipped", "137"),
        ] {
            assert_eq!(grams(item, words), Some(exact(weight)), "{item}, {words}");
        }
        for (item, words) in [("flour", "cup sifted"), ("eggs", "enormous"), ("butter", ""), ("salt", "heaped tsp")] {
            assert_eq!(grams(item, words), None, "{item}, {words}");
        }
    }

    #[test]
    fn eggs_are_counted_and_milk_is_not() {
        let dozen = weigh("eggs", "dozen").unwrap();
        assert_eq!((dozen.grams, dozen.per, dozen.measure), (exact("50"), Decimal::ONE, "large"));
        assert!(!dozen.derived);
        assert_eq!(weigh("egg white", "each").map(|used| used.grams), Some(exact("33")));
        assert_eq!(weigh("egg yolks", "each").map(|used| used.grams), Some(exact("17")));
        assert_eq!(weigh("milk", "each"), None);
        assert_eq!(weigh("flour", "kg"), None);
        assert_eq!(weigh("flour", "cm"), None);
    }

    #[test]
    fn names_are_exact_and_stand_once() {
        let mut seen = HashSet::new();
        for name in foods().flat_map(|food| food.names.iter().copied()) {
            assert_eq!(folded(name), name, "a name is kept as it is compared");
            assert!(seen.insert(name), "{name} stands twice");
        }
        for name in ["  All-Purpose  FLOUR ", "granulated_sugar", "Confectioners\u{2019} sugar"] {
            assert!(food(name).is_some(), "{name}");
        }
        for name in ["", "flours", "flour (organic)", "meringue powder", "kosher salt", "almond flour", "fondant"] {
            assert!(food(name).is_none(), "{name}");
        }
    }

    #[test]
    fn a_food_has_no_two_measures_alike() {
        for food in foods() {
            let units: Vec<_> = food.measures.iter().filter_map(|measure| measure.unit).collect();
            assert_eq!(units.iter().collect::<HashSet<_>>().len(), units.len(), "{}", food.description);
            let keys: HashSet<_> = food.measures.iter().map(|measure| measure_key(measure.words)).collect();
            assert_eq!(keys.len(), food.measures.len(), "{}", food.description);
        }
    }
}
