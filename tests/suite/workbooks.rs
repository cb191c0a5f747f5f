//! Workbooks as makers have them: sheets under names of their own, hidden rows, two books in a folder, one that is broken; and what is
//! said of them names what she sees.

use crate::harness::{Trial, run_on};
use crate::messy::book::{self, Cell, Sheet};
use serde_json::Value;

const SETTINGS: [&[&str]; 3] = [&["setting", "value", "meaning"], &["currency", "USD", ""], &["wage.target", "20.00", ""]];
const ORDERS: [&[&str]; 4] = [
    &["Order #", "Pick-up", "Cookie", "Qty", "Price each", "Customer"],
    &["A1", "2025-11-03", "moon", "12", "4.00", "someone"],
    &["A2", "2025-12-20", "star", "24", "3.50", "someone"],
    &["A3", "2026-02-05", "moon", "24", "4.00", "someone"],
];

fn sheet(name: &str, rows: &[&[&str]]) -> Sheet {
    Sheet::of_texts(name, &rows.iter().map(|row| row.to_vec()).collect::<Vec<_>>())
}

/// A folder with one workbook and nothing else.
fn shop(sheets: &[Sheet]) -> Trial {
    let trial = Trial::new(&[]);
    std::fs::remove_file(trial.path().join("shop.toml")).unwrap();
    trial.write("cookies.xlsx", &book::bytes(sheets, "xlsx"));
    trial
}

/// What a command prints, its lines joined.
fn said(trial: &Trial, command: &str, options: &[&str]) -> String {
    let outcome = trial.run(command, options);
    (outcome.out + &outcome.err).split_whitespace().collect::<Vec<_>>().join(" ")
}

#[test]
fn a_sheet_of_another_name_is_proposed_and_written() {
    let hours = sheet("Time log", &[&["Day", "Mins", "Task", "Order #"], &["2025-11-02", "60", "bake", "A1"]]);
    let trial = shop(&[sheet("Sales 2026", &ORDERS), hours, sheet("Notes", &[&["to do"]]), sheet("settings", &SETTINGS)]);
    let check = said(&trial, "check", &["--all"]);
    for expected in [
        "cookies.xlsx, sheet Sales 2026: looks like orders: it has columns for order, date, design, quantity, price; \
         write sheets.Sales 2026 = orders on the settings sheet, or let check --write do it",
        "cookies.xlsx, sheet Time log: looks like hours",
        "[sheets] \"Sales 2026\" = \"orders\" \"Time log\" = \"hours\"",
    ] {
        assert!(check.contains(expected), "{expected}\n{check}");
    }
    assert!(!check.contains("Notes") && !check.contains("someone"), "{check}");
    assert_eq!(trial.run("check", &["--write"]).code, 0, "{}", said(&trial, "check", &[]));
    let written = std::fs::read_to_string(trial.path().join("shop.toml")).unwrap();
    assert!(written.contains("[sheets]\n\"Sales 2026\" = \"orders\"\n\"Time log\" = \"hours\"\n"), "{written}");
    let wage = trial.wage("order", &[]);
    assert_eq!(wage["total"]["revenue"], "228.000000");
    // The settings sheet says it as well, in place of the file.
    let answered = [&SETTINGS[..], &[&["sheets.Sales 2026", "orders", ""], &["columns.orders.Order #", "order", ""]]].concat();
    let renamed = sheet("Sales 2026", &[&["Order #", "date", "design", "quantity", "price"], &["A1", "2025-11-03", "moon", "12", "4.00"]]);
    let trial = shop(&[renamed, sheet("settings", &answered)]);
    assert_eq!(trial.wage("order", &[])["total"]["revenue"], "48.000000");
}

#[test]
fn a_new_designs_file_is_written_beside_a_workbook() {
    let orders: [&[&str]; 3] = [
        &["order", "date", "design", "quantity", "price"],
        &["A1", "2025-11-03", "fire truck", "12", "4.00"],
        &["A2", "2025-12-20", "firetruck", "24", "3.50"],
    ];
    let trial = shop(&[sheet("orders", &orders), sheet("settings", &SETTINGS)]);
    let written = trial.run("check", &["--names", "--write"]);
    assert_eq!(written.code, 0, "{}", written.err);
    let card = std::fs::read_to_string(trial.path().join("designs.csv")).unwrap();
    assert_eq!(card, "design,tier,size,also_called\nfire truck,,,firetruck\n");
    assert_eq!(trial.wage("design", &[])["rows"].as_array().unwrap().len(), 1);
}

#[test]
fn a_sheet_that_could_be_several_tables_is_asked_about_and_may_be_none() {
    let stock = sheet("Stock", &[&["date", "item", "size", "paid"], &["2025-11-02", "butter", "1", "4.00"]]);
    let orders = sheet("orders", &[&["order", "date", "design", "quantity", "price"], &["A1", "2025-11-03", "moon", "12", "4.00"]]);
    let copy = Sheet { name: "2025".to_owned(), ..orders.clone() };
    let trial = shop(&[orders, stock, copy, sheet("settings", &SETTINGS)]);
    let check = said(&trial, "check", &["--all"]);
    for expected in [
        "sheet Stock: could be purchases or counts; write what it is on the settings sheet: sheets.Stock = purchases or \
         sheets.Stock = counts, or sheets.Stock = none if it is no table",
        "sheet 2025: could be more orders: it has columns for order, date, design, quantity, price",
    ] {
        assert!(check.contains(expected), "{expected}\n{check}");
    }
    trial.write("shop.toml", b"[sheets]\nstock = \"none\"\n\"2025\" = \"none\"\n");
    let check = said(&trial, "check", &["--all"]);
    assert!(!check.contains("Stock") && !check.contains("sheet 2025"), "{check}");
}

#[test]
fn a_setting_of_sheets_names_a_sheet_and_a_table_that_are_there() {
    let trial = shop(&[sheet("Sales", &ORDERS), sheet("settings", &SETTINGS)]);
    trial.write("shop.toml", b"[sheets]\nSales = \"ordrs\"\nSalse = \"orders\"\n");
    let check = said(&trial, "check", &["--all"]);
    assert!(check.contains("shop.toml, key sheets: 'ordrs' is not a table; did you mean orders?"), "{check}");
    assert!(check.contains("shop.toml, key sheets: 'Salse' is not a sheet of cookies.xlsx; did you mean Sales?"), "{check}");
}

#[test]
fn what_a_sheet_hides_or_merges_is_told_with_counts() {
    let text = |text: &str| Cell::Text(text.to_owned());
    let row =
        |order: &str, price: f64| vec![text(order), text("2025-11-03"), text("moon"), Cell::Number(12.0, ""), Cell::Number(price, "0.00")];
    let headings = ["order", "date", "design", "quantity", "price"].map(text).to_vec();
    let example = [text("EXAMPLE: A104"), text("2026-09-03"), text("gate"), text("2"), text("4.50")].to_vec();
    let rows = vec![headings, example, row("A1", 4.125), row("A2", 4.1), row("A3", 4.1)];
    let orders = Sheet { name: "orders".to_owned(), rows, hidden: vec![3, 4] };
    let trial = shop(&[orders, sheet("settings", &SETTINGS)]);
    let check = said(&trial, "check", &[]);
    for expected in
        ["orders: 2 hidden rows read like the others", "orders: 1 EXAMPLE row left out", "1 number has more digits than its cell shows"]
    {
        assert!(check.contains(expected), "{expected}\n{check}");
    }
    let json: Value = serde_json::from_str(&trial.run("check", &["--json"]).out).unwrap();
    let orders = &json["tables"][0];
    assert_eq!((&orders["hidden_rows"], &orders["example_rows"], &orders["shortened_cells"]), (&2.into(), &1.into(), &1.into()));
}

#[test]
fn a_workbook_that_cannot_be_opened_is_named_and_the_rest_is_checked() {
    let orders = "order,date,design,quantity,price\nA1,2025-11-03,moon,some,4.00\n";
    let trial = Trial::new(&[("orders.csv", orders)]);
    trial.write("stock.xlsx", b"no workbook");
    let outcome = trial.run("check", &["--all"]);
    let check = said(&trial, "check", &["--all"]);
    assert_eq!(outcome.code, 1);
    assert!(
        check.contains(
            "stock.xlsx: cannot be read as a workbook; open it in your spreadsheet and save it again as .xlsx, or take it out of the \
             folder if it is not part of your shop"
        ),
        "{check}"
    );
    assert!(check.contains("row 2, column quantity: 'some'") && check.contains("orders.csv: 1 row"), "{check}");
    assert_eq!(trial.run("", &[]).code, 1);
    // Nothing is said to be missing that it may hold.
    let alone = Trial::new(&[]);
    std::fs::remove_file(alone.path().join("shop.toml")).unwrap();
    alone.write("stock.ods", b"no workbook");
    let check = said(&alone, "check", &["--all"]);
    assert!(check.starts_with("1 error:") && check.contains("stock.ods: cannot be read"), "{check}");
}

#[test]
fn two_workbooks_with_one_table_ask_which_it_is() {
    let orders = [&["order", "date", "design", "quantity", "price"][..], &["A1", "2025-11-03", "moon", "12", "4.00"]];
    let trial = shop(&[sheet("orders", &orders), sheet("settings", &SETTINGS)]);
    trial.write("a copy.ods", &book::bytes(&[sheet("hours", &[&["date", "minutes"], &["2025-11-02", "60"]])], "ods"));
    assert_eq!(trial.run("check", &[]).code, 0, "each has tables of its own: {}", said(&trial, "check", &[]));
    trial.write("a copy.ods", &book::bytes(&[sheet("Orders", &orders)], "ods"));
    let check = said(&trial, "check", &[]);
    let path = trial.path().join("a copy.ods");
    assert!(
        check.contains("a copy.ods: has orders, and so has cookies.xlsx; take the one that is out of date out of the folder"),
        "{check}"
    );
    assert!(check.contains(&path.display().to_string()), "{check}");
    assert_eq!(run_on(&trial.path().join("cookies.xlsx"), "check", &[]).code, 0);
}

/// A maker who has one workbook never reads of files that she does not have.
#[test]
fn what_is_said_of_a_workbook_names_its_sheets() {
    let place = tempfile::tempdir().unwrap();
    let folder = place.path().join("my-shop");
    assert_eq!(fairdozen::cli::run(["fairdozen", "start", folder.to_str().unwrap()]).code, 0);
    let mut all = vec![run_on(&folder, "check", &["--all"]), run_on(&folder, "", &[]), run_on(&folder, "wage", &[])];
    let broken = shop(&[
        sheet(
            "orders",
            &[
                &["order", "date", "kind", "design", "quantity", "price", "status"],
                &["A1", "2025-11-03", "cooky", "moon", "12", "4.00", "dun"],
                &["A2", "13/13/2025", "", "star", "-24", "x", ""],
            ],
        ),
        sheet("hours", &[&["date", "minutes", "stage", "order", "who"], &["2025-11-02", "60", "sweep", "A9", "wren"]]),
        sheet("designs", &[&["design", "tier", "size"], &["moon", "round", "tiny"]]),
        sheet("items", &[&["item", "class"], &["butter", "ingredents"]]),
        sheet("settings", &[&SETTINGS[..], &[&["wage.flor", "10", ""], &["spares", "lots", ""]]].concat()),
    ]);
    for options in [&["--all"][..], &[], &["--names"]] {
        all.push(broken.run("check", options));
    }
    all.push(broken.run("wage", &[]));
    let sound = shop(&[
        sheet(
            "orders",
            &[&["order", "date", "design", "quantity", "price", "channel"], &["A1", "2025-11-03", "moon", "12", "4.00", "porch"]],
        ),
        sheet("designs", &[&["design", "tier"], &["moon", "round"], &["star", "round"]]),
        sheet("settings", &[&SETTINGS[..1], &[&["currency", "USD", ""], &["fees.market.percent", "2", ""]]].concat()),
    ]);
    for (command, options) in [("check", &["--all"][..]), ("check", &[]), ("", &[]), ("wage", &[]), ("tiers", &[]), ("minutes", &[])] {
        all.push(sound.run(command, options));
    }
    for outcome in all {
        let text = (outcome.out + &outcome.err).replace("by-design.csv", "");
        for name in [
            "orders.csv",
            "hours.csv",
            "designs.csv",
            "tiers.csv",
            "items.csv",
            "purchases.csv",
            "recipes.csv",
            "counts.csv",
            "overheads.csv",
            "in shop.toml",
        ] {
            assert!(!text.contains(name), "{name} in:\n{text}");
        }
    }
}
