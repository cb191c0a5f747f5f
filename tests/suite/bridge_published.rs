//! Variances of cost and of sales from textbooks, run through the bridge itself.
//!
//! The figures stand in `fixtures/published`, where `README.md` names editions. Where books differ, the bridge's conventions
//! are: price on what was used, not on what was bought; mix at each design's own unit, not against the average's.

use crate::bridge::figures;
use crate::published::{decimal, table};
use fairdozen::costing::figure::Figure;
use fairdozen::costing::stock::Quantity;
use fairdozen::ids::Id;
use fairdozen::quantity::Amount;
use fairdozen::quantity::millionths::{Minutes, Money};
use fairdozen::review::Bridge;
use fairdozen::review::bridge::{Effect, Group, Part, Side, Sums};
use rust_decimal::{Decimal, RoundingStrategy};
use std::collections::{BTreeMap, BTreeSet};

type Row = BTreeMap<String, String>;

fn money(value: Decimal) -> Money {
    // One case holds its price rounded at the 15th decimal.
    Money::from_decimal(value.round_dp_with_strategy(6, RoundingStrategy::MidpointAwayFromZero)).unwrap()
}

/// A side of one design with these sums.
fn one(sums: Sums, target: Decimal) -> Side {
    Side { groups: [(Group::Design(Id::new(0)), sums)].into(), target: money(target) }
}

fn number(row: &Row, column: &str) -> Decimal {
    decimal(&row[column])
}

/// Materials and variable overhead: so much of one item, at a price.
fn of_item(row: &Row) -> (Part, Part, Bridge) {
    let side = |which: &str| {
        let (amount, price) = (number(row, &format!("{which}_qty")), number(row, &format!("{which}_price")));
        let used = Quantity { amount: Amount(money(amount).0), cost: money(amount * price).0 };
        let figures = figures(&[(Figure::Pieces, 1), (Figure::Ingredients, used.cost)]);
        one(Sums { figures, items: [(Id::new(0), used)].into(), ..Sums::default() }, Decimal::ZERO)
    };
    (Part::IngredientPrices, Part::IngredientUse, Bridge::between(&side("std"), &side("actual")).unwrap())
}

/// Labour: hours at the wage aimed at.
fn of_labour(row: &Row) -> (Part, Part, Bridge) {
    let side = |which: &str| {
        let hours = number(row, &format!("{which}_qty"));
        let minutes = Minutes::from_decimal(hours * Decimal::from(60)).unwrap().0;
        let figures = figures(&[(Figure::Pieces, 1), (Figure::PieceMinutes, minutes), (Figure::OwnerMinutes, minutes)]);
        one(Sums { figures, ..Sums::default() }, number(row, &format!("{which}_price")))
    };
    (Part::Target, Part::PieceMinutes, Bridge::between(&side("std"), &side("actual")).unwrap())
}

/// `OpenStax`, *Principles of Accounting 2*, ch. 8: what is unfavourable there lowers the surplus here.
#[test]
fn cost_variances_are_as_published() {
    let rows = table("variance_cases.csv");
    for row in &rows {
        let case = row["case_id"].as_str();
        let (price, quantity, bridge) = if row["kind"].starts_with("labor") { of_labour(row) } else { of_item(row) };
        let published = ["pub_price_variance", "pub_qty_variance", "pub_total"].map(|column| money(-number(row, column)));
        // The book rounds 3,500 ÷ 1,800 to 1.94 on the way; its note holds the exact figures, −100 and −500.
        let expected = if case == "connie_voh_1800" { [100, 400, 500].map(|sum| money(Decimal::from(sum))) } else { published };
        let found = [bridge.part(price).surplus, bridge.part(quantity).surplus, bridge.change.surplus];
        assert_eq!(found, expected, "{case}");
        let others = bridge.moved().into_iter().filter(|(part, _)| *part != price && *part != quantity);
        assert_eq!(others.count(), 0, "{case}");
    }
    assert_eq!(rows.len(), 14);
}

/// The design that stands for a product: numbered by the place of its name among all.
fn design(product: &str) -> Group {
    let cases = table("sales_variance_cases.csv");
    let products: BTreeSet<&str> = cases.iter().map(|row| row["product"].as_str()).collect();
    Group::Design(Id::new(products.iter().position(|name| *name == product).unwrap().try_into().unwrap()))
}

/// The two sides of a sales case, valued at price, or at the budget's contribution where nothing else is given.
fn sales(rows: &[Row], case: &str, basis: &str) -> Bridge {
    let side = |which: &str| {
        let of = rows.iter().filter(|row| row["case_id"] == case).map(|row| {
            let pieces = number(row, &format!("{which}_qty"));
            let unit = if basis == "price" { format!("{which}_price") } else { "budget_unit_contribution".to_owned() };
            let charged = money(pieces * number(row, &unit)).0;
            let figures = figures(&[(Figure::Pieces, i128::try_from(pieces).unwrap()), (Figure::ListValue, charged)]);
            (design(&row["product"]), Sums { figures, ..Sums::default() })
        });
        Side { groups: of.collect(), target: Money::ZERO }
    };
    Bridge::between(&side("budget"), &side("actual")).unwrap()
}

fn of(bridge: &Bridge, product: &str, parts: &[Part]) -> Money {
    if product == "TOTAL" {
        return parts.iter().map(|part| bridge.part(*part).pay).sum();
    }
    let group = bridge.groups.iter().find(|group| group.group == design(product)).unwrap();
    group.parts.iter().filter(|(part, _)| parts.contains(part)).map(|(_, effect): &(Part, Effect)| effect.pay).sum()
}

/// LPU, Kaplan, Horngren and Drury, as named in the tables.
#[test]
fn sales_variances_are_as_published() {
    let cases = table("sales_variance_cases.csv");
    let mut checked = 0;
    for expected in table("sales_variance_expected.csv") {
        let (case, measure, product) = (expected["case_id"].as_str(), expected["measure"].as_str(), expected["product"].as_str());
        let bridge = sales(&cases, case, &expected["basis"]);
        let parts: &[Part] = match measure {
            "value" => &Part::ALL,
            "price" => &[Part::Prices],
            "volume" => &[Part::Volume, Part::Mix],
            "quantity" => &[Part::Volume],
            "mix" => &[Part::Mix],
            // Kaplan's other way, against the average contribution: other lines, the same total. It is not ours.
            "mix_vs_average" => {
                assert_ne!(of(&bridge, product, &[Part::Mix]), money(number(&expected, "published")), "{case} {product}");
                continue;
            }
            other => panic!("{other}"),
        };
        if !expected["published"].is_empty() {
            assert_eq!(of(&bridge, product, parts), money(number(&expected, "published")), "{case} {measure} {product}");
            checked += 1;
        }
    }
    assert_eq!(checked, 37);
}

/// The question's data only is published; the answers were worked out apart, in exact fractions.
#[test]
fn a_case_without_published_parts_agrees_with_exact_fractions() {
    let bridge = sales(&table("sales_variance_cases.csv"), "lpu_vision", "price");
    for (parts, expected) in
        [(&[Part::Prices][..], -2_640), (&[Part::Volume, Part::Mix], 22_400), (&[Part::Mix], 11_000), (&[Part::Volume], 11_400)]
    {
        assert_eq!(of(&bridge, "TOTAL", parts), money(Decimal::from(expected)), "{parts:?}");
    }
}

/// Both of Kaplan's ways to value the mix come to one total.
#[test]
fn either_way_to_value_the_mix_has_the_same_total() {
    let other = table("sales_variance_expected.csv");
    let other: Decimal = other.iter().filter(|row| row["measure"] == "mix_vs_average").map(|row| number(row, "published")).sum();
    assert_eq!(of(&sales(&table("sales_variance_cases.csv"), "kaplan_pm", "contribution"), "TOTAL", &[Part::Mix]), money(other));
}
