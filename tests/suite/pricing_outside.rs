//! Break-even, mixes, margin of safety, leverage and scarce hours: textbook examples run through the sums that `tiers` and
//! `quote` are made of.
//!
//! `OpenStax`, *Principles of Accounting 2: Managerial Accounting*, ch. 3 and 10.6; figures in `fixtures/published`, where
//! `README.md` names edition and licence.

use crate::published::{decimal, table};
use fairdozen::pricing::allocation::{Product, allocate};
use fairdozen::pricing::cost::{Mix, Smallest, WholeOrder, smallest};
use fairdozen::pricing::raise::{leverage, margin_of_safety};
use fairdozen::quantity::millionths::{MILLION, Minutes, Money};
use rust_decimal::Decimal;
use std::collections::BTreeMap;

fn money(text: &str) -> Money {
    Money::from_decimal(decimal(text)).unwrap()
}

fn one(row: &BTreeMap<String, String>) -> Mix {
    Mix { pieces: 1, kept: money(&row["price"]), cost: money(&row["variable_cost"]), minutes: Minutes(0) }
}

/// Fixed cost is an order's, a unit a piece. A profit aimed at is set-up time: an hour of it at that wage.
#[test]
fn break_even_and_target_profit_are_the_published_units() {
    let mut checked = (0, 0);
    for row in table("cvp_single.csv") {
        let id = &row["case_id"];
        let order = WholeOrder { cost: money(&row["fixed_cost"]), minutes: Minutes(0) };
        let units = smallest(&order, &one(&row), Money::ZERO).unwrap().pieces().unwrap();
        if !row["pub_be_units"].is_empty() {
            assert_eq!(units.to_string(), row["pub_be_units"], "{id}");
            checked.0 += 1;
        }
        if !row["pub_be_dollars"].is_empty() {
            assert_eq!(decimal(&row["price"]) * Decimal::from(units), decimal(&row["pub_be_dollars"]), "{id}");
        }
        // The one case aimed at after tax is left out: this program knows no taxes.
        if !row["pub_target_units"].is_empty() && row["tax_rate"].is_empty() {
            let hour = WholeOrder { minutes: Minutes(60 * MILLION), ..order };
            let units = smallest(&hour, &one(&row), money(&row["target_profit"])).unwrap().pieces().unwrap();
            assert_eq!(units.to_string(), row["pub_target_units"], "{id}");
            assert_eq!(decimal(&row["price"]) * Decimal::from(units), decimal(&row["pub_target_dollars"]), "{id}");
            checked.1 += 1;
        }
    }
    assert_eq!(checked, (15, 3));
}

/// A mix of products is one mix of pieces; so many times of it break even.
#[test]
fn a_mix_breaks_even_at_the_published_composite_units() {
    let mut cases: BTreeMap<String, Vec<BTreeMap<String, String>>> = BTreeMap::new();
    for row in table("cvp_multi.csv") {
        cases.entry(row["case_id"].clone()).or_default().push(row);
    }
    for (id, rows) in cases {
        let mut mix = Mix::default();
        for row in &rows {
            let count: i64 = row["mix"].parse().unwrap();
            mix.pieces += count;
            mix.kept += Money(money(&row["price"]).0 * i128::from(count));
            mix.cost += Money(money(&row["variable_cost"]).0 * i128::from(count));
        }
        assert_eq!(mix.kept - mix.cost, money(&rows[0]["pub_composite_cm"]), "{id}");
        if rows[0]["fixed_cost"].is_empty() {
            continue;
        }
        let order = WholeOrder { cost: money(&rows[0]["fixed_cost"]), minutes: Minutes(0) };
        let Smallest::From { pieces, mixes } = smallest(&order, &mix, Money::ZERO).unwrap() else { panic!("{id}") };
        let composites = Money(mixes).decimal();
        assert_eq!(composites.round_dp(2), decimal(&rows[0]["pub_composite_be"]), "{id}");
        for row in &rows {
            let units = composites * decimal(&row["mix"]);
            assert_eq!(units.round().to_string(), row["pub_product_units"], "{id} {}", row["product"]);
        }
        assert_eq!(Decimal::from(pieces), (composites * Decimal::from(mix.pieces)).ceil(), "{id}");
    }
}

/// Manteo: 2,500 units at 90 less 40, fixed cost 85,000: 72,000 of 225,000 in sales are safe, 32 per cent.
#[test]
fn the_margin_of_safety_is_the_published_share() {
    let row = table("cvp_single.csv").into_iter().find(|row| row["case_id"] == "manteo").unwrap();
    let units = decimal(&row["units_sold"]);
    let contribution = Money::from_decimal((decimal(&row["price"]) - decimal(&row["variable_cost"])) * units).unwrap();
    let share = margin_of_safety(contribution, money(&row["fixed_cost"])).unwrap().unwrap();
    assert_eq!(share, Money(320_000));
    assert_eq!(share.decimal() * decimal(&row["price"]) * units, Decimal::from(72_000));
}

#[test]
fn leverage_is_contribution_over_income() {
    let rows = table("operating_leverage.csv");
    assert_eq!(rows.len(), 4);
    for row in rows {
        let contribution = money(&row["sales"]) - money(&row["variable_cost"]);
        let income = contribution - money(&row["fixed_cost"]);
        assert_eq!(income, money(&row["pub_net_income"]), "{}", row["case_id"]);
        assert_eq!(leverage(contribution, income).unwrap().unwrap().decimal().round_dp(2), decimal(&row["pub_dol"]), "{}", row["case_id"]);
    }
}

/// 80,000 hours: all bookcases and desks wanted, and chairs for the rest.
#[test]
fn scarce_hours_go_where_the_book_sends_them() {
    let rows = table("constraint_case.csv");
    let products: Vec<Product> = rows
        .iter()
        .map(|row| {
            let costs = ["direct_material", "direct_labor", "variable_overhead_in_solution"].map(|cost| decimal(&row[cost]));
            let each = decimal(&row["price"]) - costs.iter().sum::<Decimal>();
            let hours = decimal(&row["hours_each"]);
            assert_eq!(each / hours, decimal(&row["pub_cm_per_hour"]), "{}", row["product"]);
            let minutes = Minutes::from_decimal(hours * Decimal::from(60)).unwrap();
            Product { each: Money::from_decimal(each).unwrap(), minutes, wanted: row["demand"].parse().unwrap() }
        })
        .collect();
    let made = allocate(&products, Minutes(80_000 * 60 * MILLION));
    let expected: Vec<i64> = rows.iter().map(|row| row["pub_units"].parse().unwrap()).collect();
    assert_eq!((made, expected.len()), (expected, 3));
}
