//! A table in several files, headings of her own, and what `check --write` puts into `shop.toml`.

use crate::harness::Trial;
use serde_json::{Value, json};

const LAST_YEAR: &str =
    "Order #,Pick-up,Cookie,Qty,Price each,Customer\nA1,2025-11-03,moon,12,4.00,Mia Quill\nA2,2025-12-20,star,24,3.50,Bo Finch\n";
const THIS_YEAR: &str =
    "Order #,Pick-up,Cookie,Qty,Price each,Customer\nA2,2025-12-20,star,24,3.50,Bo Finch\nA3,2026-02-05,moon,24,4.00,Zed Ash\n";
/// The same orders under our headings, in one file.
const ONE_FILE: &str =
    "order,date,design,quantity,price\nA1,2025-11-03,moon,12,4.00\nA2,2025-12-20,star,24,3.50\nA3,2026-02-05,moon,24,4.00\n";

fn check_json(shop: &Trial) -> Value {
    serde_json::from_str(&shop.run("check", &["--json"]).out).unwrap()
}

#[test]
fn a_first_check_proposes_her_headings_and_write_puts_them_into_the_settings() {
    let settings = "# Ours\ncurrency = \"USD\" # dollars\n";
    let shop = Trial::new(&[("shop.toml", settings), ("orders-2025.csv", LAST_YEAR), ("Orders 2026.csv", THIS_YEAR)]);
    let first = shop.run("check", &[]);
    assert_eq!(first.code, 1, "{}", first.out);
    let block = "  [columns.orders]\n  \"Cookie\" = \"design\"\n  \"Order #\" = \"order\"\n  \"Pick-up\" = \"date\"\n  \"Price each\" = \"price\"\n  \"Qty\" = \"quantity\"\n";
    assert!(first.out.contains(block), "{}", first.out);
    assert!(!first.out.contains("Quill") && !first.out.contains("Finch"), "{}", first.out);
    assert!(first.out.lines().filter(|line| !line.trim().is_empty()).count() <= 30, "{}", first.out);

    let written = shop.run("check", &["--write"]);
    assert_eq!((written.code, written.err.as_str()), (0, ""), "{}", written.out);
    assert!(written.out.starts_with(&format!("Written into shop.toml:\n{block}")), "{}", written.out);
    let text = std::fs::read_to_string(shop.path().join("shop.toml")).unwrap();
    assert!(text.starts_with(settings) && text.contains("[columns.orders]\n") && text.contains("Pick-up = \"date\"\n"), "{text}");

    let again = shop.run("check", &["--write"]);
    assert!(again.out.starts_with("Nothing was written: shop.toml holds all that was understood already.\n"), "{}", again.out);
    assert_eq!(std::fs::read_to_string(shop.path().join("shop.toml")).unwrap(), text);
    let flat = again.out.replace("\n    ", " ");
    assert!(flat.contains("Orders 2026.csv and orders-2025.csv: 3 rows; 1 row that stands in several counts once"), "{flat}");
    assert!(flat.contains("orders-2025.csv: column not used and not kept: Customer"), "{flat}");
}

#[test]
fn several_files_give_the_figures_of_one() {
    let mapped = "currency = \"USD\"\n[columns.orders]\n\"Order #\" = \"order\"\nPick-up = \"date\"\nCookie = \"design\"\nQty = \"quantity\"\n\"Price each\" = \"price\"\n";
    let hours = ("hours.csv", "date,minutes,order\n2025-11-02,60,A1\n2025-12-19,90,A2\n2026-02-04,80,A3\n");
    let several = Trial::new(&[("shop.toml", mapped), ("orders-2025.csv", LAST_YEAR), ("Orders 2026.csv", THIS_YEAR), hours]);
    let one = Trial::new(&[("orders.csv", ONE_FILE), hours]);
    assert_eq!(several.wage("order", &[])["rows"], one.wage("order", &[])["rows"]);
    let table = &check_json(&several)["tables"][0];
    assert_eq!((&table["files"], &table["rows"]), (&json!(["Orders 2026.csv", "orders-2025.csv"]), &json!(3)));
    let date = table["columns"].as_array().unwrap().iter().find(|column| column["column"] == "date").unwrap();
    assert_eq!((&date["heading"], &date["cells"]), (&json!("Pick-up"), &json!(2)));
}

#[test]
fn a_new_shop_toml_needs_the_currency() {
    let shop = Trial::new(&[("orders-2025.csv", LAST_YEAR)]);
    std::fs::remove_file(shop.path().join("shop.toml")).unwrap();
    let asked = shop.run("check", &["--write"]);
    assert_eq!((asked.code, asked.out.as_str()), (2, ""));
    assert!(asked.err.contains("add --currency USD, or your own three-letter code"), "{}", asked.err);
    assert!(shop.run("check", &["--write", "--currency", "USB"]).err.contains("'USB' is not a currency"));
    let written = shop.run("check", &["--write", "--currency", "usd"]);
    assert_eq!(written.code, 0, "{}{}", written.out, written.err);
    let text = std::fs::read_to_string(shop.path().join("shop.toml")).unwrap();
    assert!(text.starts_with("currency = \"USD\"\n") && text.contains("Pick-up = \"date\"\n"), "{text}");
    assert_eq!(shop.run("check", &["--write", "--currency", "EUR"]).code, 2);
}

#[test]
fn a_problem_names_its_file_and_its_row_alone_is_left_out() {
    let bad = "order,date,design,quantity,price\nA8,2026-03-01,moon,12,4.00\nA9,2026-03-02,moon,many,4.00\n";
    let shop = Trial::new(&[("orders.csv", ONE_FILE), ("orders 2026-03.csv", bad)]);
    let refused = shop.run("wage", &["--by", "order"]);
    assert_eq!(refused.code, 1);
    assert!(refused.err.contains("orders 2026-03.csv, row 3, column quantity: 'many'"), "{}", refused.err);
    let skipped = shop.wage("order", &["--skip-bad-rows"]);
    let keys: Vec<&str> = skipped["rows"].as_array().unwrap().iter().map(|row| row["key"].as_str().unwrap()).collect();
    assert!(["A1", "A2", "A3", "A8"].iter().all(|order| keys.contains(order)) && !keys.contains(&"A9"), "{keys:?}");
}

#[test]
fn rows_of_files_with_different_columns_count_once_with_what_either_says() {
    let old = "order,date,design,quantity,price\nA1,2025-11-03,moon,12,4.00\nA2,2025-12-20,star,24,3.50\n";
    let new = "order,date,design,quantity,price,colours,theme\nA2,2025-12-20,star,24,3.50,4,\nA1,2025-11-03,moon,12,4.00,,\nA3,2026-02-05,moon,24,4.00,2,autumn\n";
    let shop = Trial::new(&[("orders-2025.csv", old), ("orders-2026.csv", new)]);
    let outcome = shop.run("check", &[]);
    let out = outcome.out.replace("\n    ", " ");
    let said = "orders-2025.csv and orders-2026.csv: 3 rows; 2 rows that stand in several count once (1 of them is fuller in one file, and counts as there)";
    assert!(outcome.code == 0 && out.contains(said), "{out}");
    assert_eq!(shop.wage("colours", &[])["rows"], Trial::new(&[("orders.csv", new)]).wage("colours", &[])["rows"]);
}

#[test]
fn an_order_that_differs_is_told_with_its_files() {
    let later = "order,date,design,quantity,price\nA3,2026-02-05,moon,36,4.00\nA4,2026-04-01,moon,12,4.00\n";
    let shop = Trial::new(&[("orders.csv", ONE_FILE), ("orders 2026-04.csv", later)]);
    let out = shop.run("check", &[]).out.replace("\n    ", " ");
    assert!(out.contains("'A3' has other rows in orders.csv; those in orders 2026-04.csv count, because its orders run later"), "{out}");
    let rows = shop.wage("order", &[])["rows"].clone();
    assert_eq!(rows.as_array().unwrap().iter().find(|row| row["key"] == "A3").unwrap()["pieces"], 36);
    shop.write("orders 2026-04.csv", b"order,date,design,quantity,price\nA3,2026-02-05,moon,36,4.00\n");
    let outcome = shop.run("check", &[]);
    let out = outcome.out.replace("\n    ", " ");
    assert_eq!(outcome.code, 1, "{out}");
    assert!(out.contains("'A3' has other rows in orders.csv, and both files end the same day; take it out of"), "{out}");
}

#[test]
fn a_mapped_heading_that_no_file_has_is_an_error_with_the_nearest() {
    let settings = "currency = \"USD\"\n[columns.orders]\n\"Pickup dya\" = \"date\"\n";
    let orders = "order,Pickup day,design,quantity,price\nA1,2025-11-03,moon,12,4.00\n";
    let shop = Trial::new(&[("shop.toml", settings), ("orders.csv", orders)]);
    let outcome = shop.run("check", &[]);
    let out = outcome.out.replace("\n    ", " ");
    assert!(
        outcome.code == 1 && out.contains("key columns.orders: 'Pickup dya' is not a heading of orders.csv; did you mean Pickup day?"),
        "{out}"
    );
    let other = "order,Pickup dya,design,quantity,price\nA2,2025-11-04,moon,12,4.00\n";
    let shop = Trial::new(&[("shop.toml", settings), ("orders.csv", ONE_FILE), ("orders-2.csv", other)]);
    assert_eq!(shop.run("check", &[]).code, 0);
}

#[test]
fn tables_in_several_files_are_not_written_into() {
    let card = "design,tier\nmoon,plain\nstar,plain\n";
    let shop = Trial::new(&[
        ("orders.csv", &ONE_FILE.replace("star", "sttar")),
        ("designs.csv", card),
        ("designs-2.csv", "design,tier\nfox,plain\n"),
        ("tiers.csv", "tier,price\nplain,4.00\n"),
    ]);
    let refused = shop.run("check", &["--names", "--write"]);
    assert_eq!(refused.code, 1, "{}", refused.out);
    assert_eq!(
        refused.err,
        "Nothing was written: designs stand in several files (designs-2.csv, designs.csv); put them together in designs.csv, then run this again\n"
    );
    assert_eq!(std::fs::read_to_string(shop.path().join("designs.csv")).unwrap(), card);
}

#[test]
fn files_that_a_program_keeps_open_are_passed_over() {
    let shop = Trial::new(&[("orders.csv", ONE_FILE), (".~lock.orders.csv", "x"), ("~$orders 2.csv", "x"), (".orders.csv", "x")]);
    let outcome = shop.run("check", &[]);
    assert_eq!((outcome.code, outcome.out.contains("lock")), (0, false), "{}", outcome.out);
}

/// A workbook with a sheet of settings, of orders and of hours, and a card that nothing is written in yet.
fn workbook() -> Vec<u8> {
    let mut workbook = rust_xlsxwriter::Workbook::new();
    let sheets: [(&str, &[&[&str]]); 4] = [
        ("Settings", &[&["setting", "value", "meaning"], &["currency", "USD", ""], &["wage.target", "20.00", ""]]),
        (
            "Orders 2026",
            &[
                &["order", "date", "design", "quantity", "price", "Customer"],
                &["A1", "2025-11-03", "moon", "12", "4.00", "Mia Quill"],
                &["A2", "2025-12-20", "star", "24", "3.50", "Bo Finch"],
                &["A3", "2026-02-05", "moon", "24", "4.00", "Zed Ash"],
            ],
        ),
        ("hours", &[&["date", "minutes", "order"], &["2025-11-02", "60", "A1"], &["2025-12-19", "90", "A2"], &["2026-02-04", "80", "A3"]]),
        ("designs", &[&["design", "tier"]]),
    ];
    for (name, rows) in sheets {
        let sheet = workbook.add_worksheet().set_name(name).unwrap();
        for (row, cells) in (0_u32..).zip(rows) {
            for (column, cell) in (0_u16..).zip(*cells) {
                sheet.write_string(row, column, *cell).unwrap();
            }
        }
    }
    workbook.save_to_buffer().unwrap()
}

#[test]
fn a_workbook_in_the_folder_or_in_its_place_gives_the_figures_of_its_files() {
    let hours = ("hours.csv", "date,minutes,order\n2025-11-02,60,A1\n2025-12-19,90,A2\n2026-02-04,80,A3\n");
    let files = Trial::new(&[("shop.toml", "currency = \"USD\"\n[wage]\ntarget = 20.00\n"), ("orders.csv", ONE_FILE), hours]);
    let shop = Trial::new(&[]);
    std::fs::remove_file(shop.path().join("shop.toml")).unwrap();
    shop.write("my shop.xlsx", &workbook());
    shop.write("~$my shop.xlsx", b"locked");
    let rows = files.wage("order", &[])["rows"].clone();
    assert_eq!(shop.wage("order", &[])["rows"], rows);
    let checked = shop.run("check", &[]);
    assert!(checked.out.contains("my shop.xlsx, sheet Orders 2026: 3 rows") && !checked.out.contains("Quill"), "{}", checked.out);
    let named = crate::harness::run_on(&shop.path().join("my shop.xlsx"), "wage", &["--by", "order", "--json"]);
    assert_eq!((named.code, named.err.as_str()), (0, ""));
    assert_eq!(serde_json::from_str::<Value>(&named.out).unwrap()["rows"], rows);
    // The same orders in a file beside it count once.
    shop.write("orders.csv", ONE_FILE.as_bytes());
    assert_eq!(shop.wage("order", &[])["rows"], rows);
    let refused =
        crate::harness::run_on(&shop.path().join("my shop.xlsx"), "export", &["--out", shop.path().join("my shop.xlsx").to_str().unwrap()]);
    assert_eq!(refused.code, 2, "{}", refused.err);
    shop.write("shop.toml", b"[wage]\ntarget = 25\n");
    let both = shop.run("check", &["--all"]);
    assert!(both.out.replace("\n    ", " ").contains("'wage.target' is set here and in shop.toml; shop.toml counts"), "{}", both.out);
}
