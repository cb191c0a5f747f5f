//! Names that a spreadsheet would run as a formula: guarded in every CSV file written, and read back as they are.

use crate::harness::{Trial, figure, row};
use serde_json::Value;

const NAMES: [&str; 6] = ["=HYPERLINK(\"http://x\",\"y\")", "@SUM(A1)", "+1", "-moth", "＝1+1", "＠fox"];

fn quoted(name: &str) -> String {
    format!("\"{}\"", name.replace('"', "\"\""))
}

/// Two designs a tier, the second of which takes much longer; every name of a tier and a design is one of those.
fn shop(card: bool) -> Trial {
    let [small, large, one, slow, tall, wide] = NAMES.map(quoted);
    let settings = "currency = \"USD\"\n[wage]\ntarget = 20\nfloor = 15\n";
    let orders = format!(
        "order,date,design,quantity,price\n=A1,2026-03-10,{one},12,3\n=A1,2026-03-10,{slow},4,3\n=A1,2026-03-10,{tall},4,9\n=A1,2026-03-10,{wide},4,9\n"
    );
    let hours = "date,minutes,stage,order\n2026-03-09,400,decorate,=A1\n";
    let list = format!("tier,price\n{small},3.00\n{large},9.00\n");
    let trial = Trial::new(&[("shop.toml", settings), ("orders.csv", &orders), ("hours.csv", hours), ("tiers.csv", &list)]);
    if card {
        let card = format!("design,tier,minutes_each\n{one},{small},2\n{slow},{small},30\n{tall},{large},32\n{wide},{large},32\n");
        trial.write("designs.csv", card.as_bytes());
    }
    trial
}

/// No cell of a CSV text begins as a formula does, but figures.
fn harmless(csv: &str) {
    for record in csv::ReaderBuilder::new().has_headers(false).flexible(true).from_reader(csv.as_bytes()).records() {
        for cell in record.unwrap().iter().filter(|cell| cell.parse::<f64>().is_err() || *cell == "+1") {
            assert!(!cell.starts_with(['=', '+', '-', '@', '＝', '＋', '－', '＠']), "{cell} in {csv}");
        }
    }
}

#[test]
fn every_csv_text_is_harmless() {
    let shop = shop(true);
    for (command, options) in [
        ("wage", &["--csv"][..]),
        ("wage", &["--csv", "--by", "order"]),
        ("wage", &["--csv", "--by", "tier"]),
        ("minutes", &["--csv"]),
        ("minutes", &["--csv", "--by", "stage"]),
        ("tiers", &["--csv"]),
        ("whatif", &["--csv", "--minimum", "24", "--by", "design"]),
        ("export", &[]),
    ] {
        let outcome = shop.run(command, options);
        assert_eq!(outcome.code, 0, "{command} {options:?}: {}", outcome.err);
        harmless(&outcome.out);
    }
}

#[test]
fn a_list_that_is_written_is_harmless_and_whatif_reads_it() {
    let shop = shop(true);
    let folder = tempfile::tempdir().unwrap();
    let options = ["--minutes", "card", "--json", "--out", folder.path().to_str().unwrap()];
    let list: Value = serde_json::from_str(&shop.run("tiers", &options).out).unwrap();
    let file = folder.path().join("next-list.csv");
    let text = std::fs::read_to_string(&file).unwrap();
    harmless(&text);
    assert!(text.contains("'@SUM(A1)") && text.contains("'-moth"), "{text}");
    let would = shop.run("whatif", &["--prices", file.to_str().unwrap(), "--by", "design", "--minutes", "card", "--json"]);
    assert_eq!(would.code, 0, "{}", would.err);
    let would: Value = serde_json::from_str(&would.out).unwrap();
    assert_eq!(list["season"]["after"]["revenue"], would["all_in"]["after"]["revenue"]);
    for name in &NAMES[2..] {
        assert_eq!(figure(row(&list, name), "new_price").is_empty(), row(&would, name)["after"].is_null());
    }
}

#[test]
fn tables_that_are_written_are_harmless_and_read_as_before() {
    for card in [true, false] {
        let shop = shop(card);
        let designs = |shop: &Trial| {
            let table = shop.wage("design", &["--minutes", "equal"]);
            let rows = table["rows"].as_array().unwrap();
            rows.iter().map(|row| (row["key"].clone(), row["revenue"].clone())).collect::<Vec<_>>()
        };
        let before = designs(&shop);
        let outcome = shop.run("tiers", &["--write", "--minutes", if card { "card" } else { "equal" }]);
        assert_eq!(outcome.code, 0, "{}{}", outcome.out, outcome.err);
        let read = |name: &str| std::fs::read_to_string(shop.path().join(name)).unwrap();
        let (list, card_text) = (read("tiers.csv"), read("designs.csv"));
        // Her own rows stay as she wrote them.
        let added = list.lines().skip(3).collect::<Vec<_>>().join("\n");
        assert!(added.contains("2026-04-01") && (!card || added.contains("'@SUM(A1),")), "{list}");
        harmless(&added);
        if card {
            assert!(card_text.contains("-moth\",'@SUM(A1),30,\"'=HYPERLINK"), "{card_text}");
        } else {
            harmless(&card_text);
            assert!(card_text.contains("'＝1+1") || card_text.contains("'＠fox"), "{card_text}");
        }
        let check = shop.run("check", &[]);
        assert_eq!(check.code, 0, "{}", check.out);
        assert_eq!(designs(&shop), before);
        let again = shop.run("tiers", &["--write", "--minutes", if card { "card" } else { "equal" }]);
        assert!(again.out.contains("\nNothing was written: this is your list already.\n"), "{}", again.out);
    }
}

#[test]
fn a_guarded_cell_of_hers_is_the_name_it_guards() {
    let shop = Trial::new(&[("orders.csv", "order,date,design,quantity,price\nA1,2026-03-10,'=moth,12,3\nA2,2026-03-10,=moth,4,3\n")]);
    let table = shop.wage("design", &[]);
    assert_eq!(row(&table, "=moth")["pieces"], 16);
}
