//! Units and household weights against published tables, as purchases and recipes of a shop.

use crate::harness::{Trial, row};
use crate::published::{decimal, money, table};
use rust_decimal::Decimal;
use rust_decimal::RoundingStrategy::MidpointAwayFromZero;
use std::collections::BTreeMap;
use std::fmt::Write;

/// Units of `units.csv` and how a maker writes them.
const UNITS: &[(&str, &str)] = &[
    ("pound (avoirdupois)", "lb"),
    ("ounce (avoirdupois)", "oz"),
    ("grain", "grain"),
    ("US gallon", "gallon"),
    ("US liquid quart", "qt"),
    ("US liquid pint", "pint"),
    ("US cup", "cup"),
    ("US fluid ounce", "fl oz"),
    ("US tablespoon", "tbsp"),
    ("US teaspoon", "tsp"),
    ("US gill", "gill"),
    ("stick of butter (US, 1/4 lb)", "stick"),
    ("US legal cup (nutrition label)", "legal cup"),
    ("US legal tablespoon (1/16 legal cup)", "legal tbsp"),
    ("metric cup", "metric cup"),
    ("Australian tablespoon", "Australian tbsp"),
    ("Australian teaspoon", "Australian tsp"),
    ("UK tablespoon (15 mL)", "UK tbsp"),
    ("imperial gallon", "imperial gallon"),
    ("imperial pint", "imperial pint"),
    ("imperial fluid ounce", "imperial fl oz"),
    ("imperial cup (1/2 pint)", "imperial cup"),
    ("Japanese cup", "Japanese cup"),
    ("dozen", "dozen"),
];

/// What one piece costs that takes so much of an item bought as one `unit` for `paid`.
fn cost_of(unit: &str, paid: &str, takes: &[(&str, &str, &str)]) -> BTreeMap<String, Decimal> {
    let mut orders = "order,date,design,quantity,price\n".to_owned();
    let mut recipes = "for,item,amount,unit\n".to_owned();
    for (name, amount, used_in) in takes {
        let _ = writeln!(orders, "{name},2026-01-20,{name},1,0");
        let _ = writeln!(recipes, "{name},stuff,{amount},{used_in}");
    }
    let purchases = format!("date,item,size,unit,paid\n2026-01-02,stuff,1,{unit},{paid}\n");
    let trial = Trial::new(&[("orders.csv", &orders), ("recipes.csv", &recipes), ("purchases.csv", &purchases)]);
    let wage = trial.wage("design", &[]);
    takes.iter().map(|(name, ..)| ((*name).to_owned(), money(row(&wage, name), "ingredients"))).collect()
}

/// Definitions as in GNU units 2.22 (`fixtures/published/units.csv`).
#[test]
fn a_unit_bought_and_used_in_the_base_unit_costs_its_exact_share() {
    let rows = table("units.csv");
    assert_eq!(rows.len(), UNITS.len(), "every unit of the table has a spelling here");
    for row in rows {
        let (_, unit) = UNITS.iter().find(|(published, _)| *published == row["unit"]).unwrap_or_else(|| panic!("{}", row["unit"]));
        let (factor, base) = (&row["value"], &row["to"]);
        let cost = cost_of(unit, "7.00", &[("whole", factor, base), ("one", "1", base), ("own", "1", unit)]);
        assert_eq!(cost["whole"], decimal("7"), "{unit}: {factor} {base} is all of it");
        assert_eq!(cost["own"], decimal("7"), "{unit}");
        let share = (decimal("7") / decimal(factor)).round_dp_with_strategy(6, MidpointAwayFromZero);
        assert_eq!(cost["one"], share, "{unit}: 1 {base}");
    }
}

/// NIST Special Publication 811, appendix B.8, as carried by the R package `NISTunits` 1.0.1: seven digits.
#[test]
fn units_agree_with_nist_to_its_last_digit() {
    let mut checked = 0;
    for row in table("units.csv") {
        let nist = &row["NIST_SP811_B8_factor_read_in_CRAN_NISTunits"];
        let Some((_, unit)) = UNITS.iter().find(|(published, _)| *published == row["unit"]).filter(|_| !nist.is_empty()) else { continue };
        let cost = cost_of(unit, "1000000.00", &[("whole", nist, &row["to"])])["whole"];
        // Half a unit of the last digit, of the factor itself.
        let slack = decimal("500000") * Decimal::new(1, decimal(nist).scale()) / decimal(nist);
        assert!((cost - decimal("1000000")).abs() <= slack, "{unit}: {nist} {} cost {cost}", row["to"]);
        checked += 1;
    }
    assert_eq!(checked, 11);
}

/// US Department of Agriculture, SR28, `WEIGHT` file: NDB number and measure, and how a recipe says it.
const WEIGHTS: &[(&str, &str, &str, &str)] = &[
    ("20081", "cup", "flour", "cup"),
    ("20581", "cup", "unbleached flour", "cups"),
    ("20084", "cup unsifted, dipped", "cake flour", "cup"),
    ("20083", "cup", "bread flour", "cup"),
    ("20082", "cup", "self-rising flour", "cup"),
    ("20027", "cup", "cornstarch", "cup"),
    ("19335", "cup", "sugar", "cup"),
    ("19335", "tsp", "granulated sugar", "tsp"),
    ("19336", "cup unsifted", "icing sugar", "cup"),
    ("19336", "cup sifted", "powdered sugar", "cup sifted"),
    ("19336", "tbsp unsifted", "icing sugar", "tbsp"),
    ("19334", "cup packed", "brown sugar", "cup"),
    ("19334", "cup unpacked", "light brown sugar", "cup unpacked"),
    ("01145", "cup", "butter", "cup"),
    ("01145", "tbsp", "unsalted butter", "tbsp"),
    ("01001", "cup", "salted butter", "cup"),
    ("01124", "large", "egg white", "each"),
    ("01125", "large", "egg yolks", "each"),
    ("01077", "cup", "milk", "cup"),
    ("02050", "tsp", "vanilla", "tsp"),
    ("19296", "cup", "honey", "cup"),
    ("19165", "cup", "cocoa", "cup"),
    ("02047", "tsp", "salt", "tsp"),
    ("18372", "tsp", "baking soda", "tsp"),
    ("12071", "cup, firmly packed", "almond paste", "cup"),
];

/// Bought by the pound at a cent a gram, used by the cup: what the cup weighs is what it costs.
#[test]
fn a_cup_of_what_was_bought_by_the_pound_costs_what_it_weighs() {
    let rows = table("densities_usda_sr28.csv");
    for (ndb, measure, item, unit) in WEIGHTS {
        let published = rows.iter().find(|row| row["ndb_no"] == *ndb && row["measure"] == *measure);
        let grams = decimal(&published.unwrap_or_else(|| panic!("{ndb} has no '{measure}'"))["grams"]);
        let trial = Trial::new(&[
            ("orders.csv", "order,date,design,quantity,price\nA1,2026-01-20,piece,1,0\n"),
            ("purchases.csv", &format!("date,item,packs,size,unit,paid\n2026-01-02,{item},100,1,lb,453.59237\n")),
            ("recipes.csv", &format!("for,item,amount,unit\npiece,{item},3,{unit}\n")),
        ]);
        let wage = trial.wage("design", &[]);
        assert_eq!(money(&wage["total"], "ingredients"), grams * decimal("0.03"), "3 {unit} of {item}, {grams} g each");
        let told = wage["problems"].as_array().unwrap().iter().any(|problem| {
            problem["severity"] == "assumed" && problem["what"].as_str().is_some_and(|what| what.contains(&format!("NDB {ndb}")))
        });
        assert!(told, "the weight of {item} is not listed as assumed: {:#}", wage["problems"]);
    }
}

/// A weight of her own comes ahead of the table's, for all of an item's volumes: a tablespoon is a sixteenth of a cup.
#[test]
fn the_items_card_comes_ahead_of_the_published_weight() {
    let trial = Trial::new(&[
        ("orders.csv", "order,date,design,quantity,price\nA1,2026-01-20,piece,1,0\nA2,2026-01-20,spoon,1,0\n"),
        ("items.csv", "item,grams_per_cup\nicing sugar,112\n"),
        ("purchases.csv", "date,item,packs,size,unit,paid\n2026-01-02,icing sugar,100,1,lb,453.59237\n"),
        ("recipes.csv", "for,item,amount,unit\npiece,icing sugar,1,cup\nspoon,icing sugar,1,tbsp\n"),
    ]);
    let wage = trial.wage("design", &[]);
    assert_eq!((money(row(&wage, "piece"), "ingredients"), money(row(&wage, "spoon"), "ingredients")), (decimal("1.12"), decimal("0.07")));
}
