//! What was planted in the demo's hours, purchases, counts and overheads is treated as it should be.

use crate::demo::{FACTS, Rows, SHOP, number, table, wage};
use crate::demo_orders::problems;
use crate::harness::{repository, row};
use fairdozen::costing::{Costed, Options, cost, landed};
use fairdozen::quantity::Day;
use fairdozen::quantity::millionths::Money;
use fairdozen::shop::load::{Folder, Shop, Skipped};
use fairdozen::shop::settings::CostFlow;
use rust_decimal::Decimal;
use std::collections::BTreeSet;

fn decimal(text: &str) -> Decimal {
    text.parse().unwrap()
}

/// Minutes of rows of the hours log, clocks included, as a maker would add them up.
fn minutes(rows: &Rows) -> Decimal {
    let clock =
        |text: &str| text.split_once(':').map(|(hours, minutes)| hours.parse::<i64>().unwrap() * 60 + minutes.parse::<i64>().unwrap());
    let clocks: i64 = rows
        .iter()
        .filter_map(|row| Some((clock(&row["start"])?, clock(&row["end"])?)))
        .map(|(start, end)| if end < start { end + 24 * 60 - start } else { end - start })
        .sum();
    rows.sum("minutes") + Decimal::from(clocks)
}

#[test]
fn every_minute_is_counted_drying_aside() {
    let hours = table("hours.csv");
    let view = wage("tier", &[]);
    let unassigned = decimal(view["unassigned"]["owner_minutes"].as_str().unwrap());
    assert_eq!(
        FACTS.sum("owner_minutes") + FACTS.sum("helper_minutes") + unassigned,
        minutes(&hours) - minutes(&hours.with("stage", "dry"))
    );
    assert!(minutes(&hours.with("stage", "dry")) > Decimal::from(1000));
    assert!(!FACTS.iter().next().unwrap().contains_key("minutes_dry"));
    // Stage by stage, where orders carry it all.
    for stage in ["mix", "roll", "bake", "icing", "tint", "pack", "deliver", "clean", "shopping"] {
        assert_eq!(FACTS.sum(&format!("minutes_{stage}")), minutes(&hours.with("stage", stage)), "{stage}");
    }
    // Some ran past midnight.
    assert!(hours.iter().any(|row| !row["end"].is_empty() && row["end"] < row["start"]));
}

#[test]
fn a_timer_left_on_overnight_is_the_only_one_told() {
    let told: Vec<_> = problems().into_iter().filter(|(file, ..)| file == "hours.csv").collect();
    assert_eq!(told, [("hours.csv".to_owned(), Some(271), "the timer ran for 12 h 40 min".to_owned())]);
    // From 19:50 to 08:30 is 760 minutes, and they stand until she mends them.
    assert_eq!(minutes(&Rows::of_one(table("hours.csv").at(271))), Decimal::from(760));
}

#[test]
fn whole_orders_and_sessions_for_several_are_shared_among_theirs() {
    let of = |orders: &[&str], column: &str| orders.iter().map(|order| FACTS.with("order", order).sum(column)).sum::<Decimal>();
    // Row 92: everything of an order in one note.
    assert_eq!(of(&["L009"], "minutes_no_stage"), Decimal::from(365));
    // Row 146 and its fellows: 80 + 40 + 105 + 55 + 105 + 170 minutes of decorating two orders together.
    let both = minutes(&table("hours.csv").with("stage", "decorate").with("order", "L014+L015"));
    assert_eq!((both, of(&["L014", "L015"], "minutes_decorate")), (Decimal::from(555), Decimal::from(555)));
    // Rows 307 and 317, 165 + 155 minutes: a day's two orders at once, under the hand-over date.
    assert_eq!(of(&["L032", "L033"], "minutes_decorate"), Decimal::from(320));
    for order in ["L014", "L015", "L032", "L033"] {
        assert!(of(&[order], "minutes_decorate") > Decimal::from(60), "{order}");
    }
}

#[test]
fn hours_that_name_no_order_go_to_orders_soon_after_or_to_their_month() {
    // Row 160: dough mixed on 7 October 2025 serves every cookie handed over that day or in the next seven.
    let october: Vec<_> = FACTS.iter().filter(|line| ("2025-10-07"..="2025-10-14").contains(&line["date"].as_str())).collect();
    assert!(!october.is_empty() && october.iter().all(|line| line["kind"] != "cookie" || decimal(&line["minutes_mix"]) > Decimal::ZERO));
    // October 2026 has a busy month's admin, rows 1049 and 1073, shared equally by order.
    let hours = table("hours.csv");
    let admin: Decimal =
        hours.with("stage", "admin").iter().filter(|row| row["date"].starts_with("2026-10")).map(|row| decimal(&row["minutes"])).sum();
    let orders: BTreeSet<&str> = FACTS.iter().filter(|line| line["month"] == "2026-10").map(|line| line["order"].as_str()).collect();
    assert_eq!(orders.len(), 11);
    let shares: Vec<Decimal> = orders.iter().map(|order| FACTS.with("order", order).sum("minutes_admin")).collect();
    assert_eq!(shares.iter().sum::<Decimal>(), admin);
    assert!(shares.iter().all(|share| (share - admin / Decimal::from(11)).abs() < decimal("0.00001")), "{shares:?}");
}

#[test]
fn a_month_without_orders_carries_nothing() {
    let view = wage("tier", &["--month", "2026-01"]);
    assert_eq!((&view["total"]["pieces"], view["rows"].as_array().unwrap().len()), (&0.into(), 0));
    // Rows 413 to 415, 120 + 90 + 75, and the books on the last day, 40.
    assert_eq!(view["unassigned"]["owner_minutes"], "325.000000");
    // January's 31 days of insurance, of 365, and of the permit, of 730; a month of the web page; the oven.
    let exact = decimal("276") * decimal("31") / decimal("365") + decimal("240") * decimal("31") / decimal("730") + decimal("22.90");
    assert!((decimal(view["unassigned"]["overhead"].as_str().unwrap()) - exact).abs() < decimal("0.000002"));
}

#[test]
fn practice_goes_to_the_months_lines_of_its_design_else_to_none() {
    // Row 495: 50 minutes over the twelve dunes of March, six in each of two orders.
    for line_row in ["220", "226"] {
        assert_eq!(FACTS.with("line_row", line_row).sum("minutes_naming_design"), Decimal::from(25), "{line_row}");
    }
    // Row 967: no heron was handed over in September.
    assert_eq!(FACTS.with("month", "2026-09").with("design", "lamplighter heron").len(), 0);
    assert_eq!(wage("tier", &["--month", "2026-09"])["unassigned"]["owner_minutes"], "120.000000");
}

#[test]
fn the_helper_is_paid_for_her_minutes() {
    let robin = minutes(&table("hours.csv").with("who", "robin"));
    assert_eq!(FACTS.sum("helper_minutes"), robin);
    // Each entry's pay is rounded to the millionth: 16.00 an hour.
    let pay = number(&wage("tier", &[])["total"], "helper_pay");
    assert_eq!(pay, robin * decimal("16") / decimal("60"));
    let months: BTreeSet<&str> =
        FACTS.iter().filter(|line| decimal(&line["helper_minutes"]) > Decimal::ZERO).map(|line| line["month"].as_str()).collect();
    assert_eq!(months, BTreeSet::from(["2025-10", "2025-12", "2026-10"]));
}

#[test]
fn a_delivery_made_by_a_relative_takes_no_time() {
    let line = FACTS.with("order", "L089").with("kind", "delivery");
    assert_eq!(
        (line.at(2)["line_row"].as_str(), line.sum("revenue"), line.sum("owner_minutes")),
        ("359", Decimal::from(12), Decimal::ZERO)
    );
    assert!(number(row(&wage("order", &[]), "L089"), "owner_minutes") > Decimal::from(60));
}

#[test]
fn overheads_reach_past_the_logs_and_none_is_lost() {
    let view = wage("tier", &[]);
    let prepaid = decimal(view["prepaid"]["overhead"].as_str().unwrap());
    // From November 2026: 273 of the permit's 730 days, 304 of the insurance's 365. A month's part is rounded to the millionth.
    let exact = decimal("240") * decimal("273") / decimal("730") + decimal("294") * decimal("304") / decimal("365");
    assert!((prepaid - exact).abs() < decimal("0.00001"), "{prepaid} {exact}");
    assert_eq!(number(&view["all_in"], "overhead") + prepaid, table("overheads.csv").sum("paid"));
}

fn costed(flow: CostFlow) -> (Shop, Costed) {
    let shop = Folder::open(&repository(SHOP)).load(&Skipped::new()).shop.unwrap();
    let costed = cost(&shop, Options { cost_flow: Some(flow), ..Options::default() }).unwrap();
    (shop, costed)
}

#[test]
fn all_that_was_bought_is_used_or_left() {
    let bought = ["paid", "shipping", "tax"].map(|column| table("purchases.csv").sum(column)).iter().sum::<Decimal>();
    for (flow, word) in [(CostFlow::Average, "average"), (CostFlow::Fifo, "fifo")] {
        let (_, costed) = costed(flow);
        let view = wage("tier", &["--cost-flow", word]);
        let used = number(&view["all_in"], "ingredients") + number(&view["all_in"], "packaging");
        let of_runs =
            |amount: &dyn Fn(&fairdozen::costing::stock::Run) -> i128| Money(costed.materials.runs.iter().map(amount).sum()).decimal();
        let short = of_runs(&|run| run.shortfalls.iter().map(|(_, short)| short.cost).sum());
        assert_eq!(used + of_runs(&|run| run.left.cost), bought + short + of_runs(&|run| run.opening), "{word}");
    }
}

#[test]
fn shipping_and_tax_cover_the_whole_receipt() {
    let (shop, _) = costed(CostFlow::Latest);
    let costs = landed::costs(&shop).unwrap();
    let purchases = table("purchases.csv");
    // The receipts that rows 10, 27, 45 … stand in: each row lands above what was paid, all together at the receipt's total.
    for first in [10, 27, 45, 55, 66, 80, 100, 115] {
        let receipt = &purchases.at(first)["receipt"];
        let rows = purchases.with("receipt", receipt);
        assert_eq!((rows.different("shipping").len(), rows.different("tax").len()), (1, 1), "{receipt}");
        let total = rows.sum("paid") + rows.sum("shipping") + rows.sum("tax");
        let members = purchases.iter().zip(&costs).filter(|(row, _)| row["receipt"] == *receipt);
        let landed = members.map(|(row, cost)| (decimal(&row["paid"]), Money(*cost).decimal())).collect::<Vec<_>>();
        assert!(landed.len() > 1 && landed.iter().all(|(paid, landed)| landed > paid), "{receipt}");
        assert_eq!(landed.iter().map(|(_, landed)| landed).sum::<Decimal>(), total, "{receipt}");
    }
}

#[test]
fn a_case_sets_the_price_and_goods_returned_leave_the_stock() {
    let (shop, costed) = costed(CostFlow::Latest);
    let movements = |item: &str| &costed.materials.movements[shop.item_names.find(item).unwrap()];
    let day = |text: &str| Day::parse(text).unwrap();
    // Row 44: 18 lb of butter for 62.10; a pound is 453.59237 g.
    let case = movements("butter").latest(day("2025-11-12"));
    assert_eq!((case.amount.decimal(), Money(case.cost).decimal()), (decimal("18") * decimal("453.59237"), decimal("62.10")));
    // Row 71: a pack of a hundred bags for 7.80.
    let returned = movements("bag").returned[&day("2026-04-08")];
    assert_eq!((returned.amount.decimal(), Money(returned.cost).decimal()), (Decimal::from(100), decimal("7.80")));
}

#[test]
fn counts_tell_how_far_the_logs_are_off() {
    let told: Vec<String> = problems().into_iter().filter(|(file, ..)| file == "counts.csv").map(|(_, _, what)| what).collect();
    assert_eq!(told.len(), table("counts.csv").len());
    // Rows 2 to 4 were planted short, row 5 over.
    for expected in [
        "the count on 2025-12-31 found 720 g less butter than the logs say",
        "the count on 2025-12-31 found 621 g less icing sugar than the logs say",
        "the count on 2026-06-30 found 14 fewer bags than the logs say",
        "the count on 2026-06-30 found 2 more boxes than the logs say",
    ] {
        assert_eq!(told.iter().filter(|what| *what == expected).count(), 1, "{expected}: {told:?}");
    }
}

#[test]
fn weights_taken_from_a_published_table_are_named() {
    let taken: Vec<String> = problems()
        .into_iter()
        .filter(|(file, _, what)| file == "items.csv" && what.starts_with("is assumed to weigh"))
        .map(|(_, _, what)| what)
        .collect();
    // USDA SR28, as in fixtures/published/densities_usda_sr28.csv: recipes ask for these by the cup or spoon.
    for says in [
        "125 g a cup (USDA SR28, NDB 20081, Wheat flour",
        "227 g a cup (USDA SR28, NDB 01145, Butter",
        "200 g a cup (USDA SR28, NDB 19335, Sugars, granulated",
        "6 g a tsp (USDA SR28, NDB 02047, Salt, table",
        "4.6 g a tsp (USDA SR28, NDB 18369, Leavening agents, baking powder",
    ] {
        assert_eq!(taken.iter().filter(|what| what.starts_with(&format!("is assumed to weigh {says}"))).count(), 1, "{says}");
    }
}
