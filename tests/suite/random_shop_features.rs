//! The random shops together have every feature of DESIGN §3, and reach every corner the properties speak of: else
//! the properties would hold of nothing.

use crate::random_shop::{RandomShop, cell};
use fairdozen::costing::{Options, column, cost};
use fairdozen::quantity::Period;
use fairdozen::shop::load::{Folder, Skipped};
use fairdozen::shop::settings::CostFlow;
use std::collections::BTreeSet;

/// Cells whose every value must be met, as `table column value`.
const VALUES: &[(&str, &str, &str)] = &[
    ("orders", "kind", "|cookie|set|delivery|rush|discount|refund|tip|tax|deposit kept"),
    ("orders", "status", "|done|quoted|cancelled"),
    ("orders", "colours", "|0|5"),
    ("orders", "payments", "|0|2"),
    ("orders", "channel", "|web|market stall|friends"),
    ("designs", "size", "|mini|regular|large"),
    ("items", "class", "|ingredient|packaging"),
    ("hours", "who", "|robin|wren"),
    ("hours", "stage", "|plan|shopping|mix|roll|bake|icing|tint|decorate|dry|pack|deliver|clean|admin|paint|photos|porch|cool"),
    ("overheads", "shared_by", "|hours|pieces|orders|revenue"),
];

/// Cells that hold a certain text somewhere.
const TEXTS: &[(&str, &str, &str)] = &[
    ("orders", "quantity", " dozen"),
    ("orders", "price", "/dozen"),
    ("tiers", "price", "/dozen"),
    ("orders", "made", "1"),
    ("orders", "theme", "w"),
    ("designs", "theme", "w"),
    ("designs", "also_called", "; "),
    ("hours", "order", "+"),
    ("hours", "order", "2026-"),
    ("hours", "start", ":"),
    ("hours", "pieces", "1"),
    ("hours", "minutes", ".333333"),
    ("purchases", "packs", "-"),
    ("purchases", "receipt", "R"),
    ("purchases", "shipping", "."),
    ("purchases", "tax", "."),
    ("recipes", "for", "every order"),
    ("recipes", "for", "every delivery"),
    ("recipes", "item", "royal icing"),
    ("recipes", "yields", "."),
    ("recipes", "extra", "%"),
    ("overheads", "to", "2026-"),
    ("counts", "amount", "."),
];

fn of_tables(shop: &RandomShop, seen: &mut BTreeSet<String>) {
    for (table, column, values) in VALUES {
        for row in shop.rows(table) {
            let value = cell(row, column);
            seen.extend(values.split('|').any(|known| known == value).then(|| format!("{table} {column} '{value}'")));
        }
    }
    for (table, column, text) in TEXTS {
        let met = shop.rows(table).iter().any(|row| cell(row, column).contains(text));
        seen.extend(met.then(|| format!("{table} {column} with '{text}'")));
    }
    for row in shop.rows("orders").iter().filter(|row| matches!(cell(row, "kind"), "" | "cookie")) {
        seen.extend(matches!(cell(row, "price"), "" | "0").then(|| format!("a cookie at '{}'", cell(row, "price"))));
    }
}

/// What costing came to.
const CORNERS: &[&str] = &[
    "unassigned owner minutes",
    "unassigned helper pay",
    "unassigned materials",
    "unassigned overhead",
    "prepaid overhead",
    "earlier overhead",
    "shortfall",
    "stock missing",
    "stock found",
    "opening stock",
    "stock left",
    "unknown hours",
    "minutes_naming_design",
    "minutes_naming_order",
    "minutes_naming_neither",
];

fn of_costing(shop: &RandomShop, flow: CostFlow, seen: &mut BTreeSet<String>) {
    let trial = shop.trial();
    let read = Folder::open(trial.path()).load(&Skipped::new()).shop.unwrap();
    let costed = cost(&read, Options { cost_flow: Some(flow), ..Options::default() }).unwrap();
    let unassigned = costed.unassigned.within(Period::default());
    let runs = &costed.materials.runs;
    let gaps = || runs.iter().flat_map(|run| &run.gaps);
    let known = costed.facts.values(&column::KNOWN).unwrap().into_iter().all(|known| known);
    let mut met = vec![
        unassigned.owner_minutes.0 != 0,
        unassigned.helper_pay.0 != 0,
        unassigned.ingredients.0 != 0 && unassigned.packaging.0 != 0,
        unassigned.overhead.0 != 0,
        !costed.prepaid.is_empty(),
        !costed.earlier.is_empty(),
        runs.iter().any(|run| !run.shortfalls.is_empty()),
        gaps().any(|gap| gap.missing.0 > 0),
        gaps().any(|gap| gap.missing.0 < 0),
        runs.iter().any(|run| run.opening != 0),
        runs.iter().any(|run| run.left.cost != 0),
        costed.hours_known.any && !known,
    ];
    met.extend(column::LEVELS.map(|level| costed.facts.values(&level).unwrap().into_iter().any(|minutes| minutes != 0)));
    seen.extend(CORNERS.iter().zip(met).filter(|(_, met)| *met).map(|(corner, _)| (*corner).to_owned()));
}

#[test]
fn random_shops_have_every_feature() {
    let mut wanted: BTreeSet<String> = CORNERS.iter().map(|corner| (*corner).to_owned()).collect();
    wanted.extend(["a cookie at ''".to_owned(), "a cookie at '0'".to_owned()]);
    for (table, column, values) in VALUES {
        wanted.extend(values.split('|').map(|value| format!("{table} {column} '{value}'")));
    }
    wanted.extend(TEXTS.iter().map(|(table, column, text)| format!("{table} {column} with '{text}'")));
    let mut seen = BTreeSet::new();
    for seed in 0..60 {
        let shop = RandomShop::of(seed);
        of_tables(&shop, &mut seen);
        of_costing(&shop, if seed % 2 == 0 { CostFlow::Fifo } else { CostFlow::Average }, &mut seen);
    }
    let missing: Vec<&String> = wanted.difference(&seen).collect();
    assert!(missing.is_empty(), "no shop has: {missing:?}");
    // The same seed makes the same shop.
    assert!(RandomShop::of(7).rows("orders") == RandomShop::of(7).rows("orders"));
}
