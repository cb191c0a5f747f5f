//! One shop in text files of every encoding and separator, with what spreadsheets put around a table: the figures are the same.

use crate::harness::Trial;
use fairdozen::reading::separator::Separator;
use serde_json::Value;

const ORDERS: &str =
    "order,customer,date,design,quantity,price\nA1,Zoë Nobody,2026-03-10,crème brûlée,12,3\nA2,Zoë Nobody,2026-03-11,lune,4,9.5\n";
const HOURS: &str = "date,minutes,stage,order\n2026-03-09,96,decorate,A1\n2026-03-10,80,decorate,A2\n";
const DESIGNS: &str = "design,tier\ncrème brûlée,small\nlune,large\n";

fn written(text: &str, separator: Separator, encoding: &str) -> Vec<u8> {
    let text = text.replace(',', &char::from(separator.byte()).to_string());
    let utf16 = |text: &str, bytes: fn(u16) -> [u8; 2]| text.encode_utf16().flat_map(bytes).collect();
    match encoding {
        "UTF-8" => text.into_bytes(),
        "UTF-8 with a mark" => format!("\u{FEFF}{text}").into_bytes(),
        "UTF-16" => utf16(&format!("\u{FEFF}{text}"), u16::to_le_bytes),
        "UTF-16 without a mark" => utf16(&text, u16::to_be_bytes),
        // Windows-1252 is Latin-1 for these letters.
        _ => text.chars().map(|letter| u8::try_from(u32::from(letter)).unwrap()).collect(),
    }
}

fn shop(files: &[(&str, Vec<u8>)]) -> Trial {
    let shop = Trial::new(&[("shop.toml", "currency = \"USD\"\n[wage]\ntarget = 20\n")]);
    for (name, bytes) in files {
        shop.write(name, bytes);
    }
    shop
}

fn answer(shop: &Trial) -> Value {
    shop.wage("design", &[])
}

#[test]
fn every_encoding_and_separator_gives_the_same_figures() {
    let plain = shop(&[("orders.csv", ORDERS.into()), ("hours.csv", HOURS.into()), ("designs.csv", DESIGNS.into())]);
    let expected = answer(&plain);
    assert_eq!(expected["total"]["revenue"], "74.000000");
    assert!(expected["rows"].to_string().contains("crème brûlée"));
    for encoding in ["UTF-8", "UTF-8 with a mark", "UTF-16", "UTF-16 without a mark", "Windows-1252"] {
        for separator in [Separator::Comma, Separator::Semicolon, Separator::Tab] {
            let of = |text: &str| written(text, separator, encoding);
            let other = shop(&[("orders.csv", of(ORDERS)), ("hours.csv", of(HOURS)), ("designs.csv", of(DESIGNS))]);
            assert_eq!(answer(&other), expected, "{encoding} with a {separator}");
        }
    }
}

#[test]
fn titles_totals_and_blank_ends_change_no_figure_and_no_name_is_shown() {
    let expected = answer(&shop(&[("orders.csv", ORDERS.into()), ("hours.csv", HOURS.into())]));
    let dressed = format!("Our orders of spring,,,,,\n,,,,,\n{ORDERS}TOTAL,,,,16,\n,,,,,\n")
        .replace("12,3\n", "12,3,\n")
        .replace("4,9.5\n", "4,9.5,,\n");
    // A writer that leaves out blank cells at the end of a row.
    let short = "date,minutes,stage,order,design\n2026-03-09,96,decorate,A1\n2026-03-10,80,decorate,A2\n".to_owned();
    let other = shop(&[("orders.csv", dressed.into_bytes()), ("hours.csv", short.into_bytes())]);
    assert_eq!(answer(&other)["total"], expected["total"]);
    let said = [&["--all"][..], &["--json"]].map(|options| other.run("check", options).out).concat();
    assert!(!said.contains("Nobody"), "{said}");
    let ragged = shop(&[("orders.csv", format!("{ORDERS}A3,Zoë Nobody\nA4,Zoë Nobody,2026-03-12,lune,4,9,5,Elm Row\n").into_bytes())]);
    let outcome = ragged.run("check", &["--all"]);
    assert!(outcome.code == 1 && outcome.out.contains("row 4: the row has 2 cells") && outcome.out.contains("row 5: the row has 8 cells"));
    assert!(!outcome.out.contains("Nobody") && !outcome.out.contains("Elm"), "{}", outcome.out);
}

#[test]
fn a_table_that_is_not_utf8_with_commas_is_never_rewritten() {
    for (separator, encoding) in [(Separator::Semicolon, "UTF-8"), (Separator::Comma, "UTF-16"), (Separator::Comma, "Windows-1252")] {
        let designs = written(DESIGNS, separator, encoding);
        let orders = ORDERS.replace("lune", "lunne").into_bytes();
        let other = shop(&[("orders.csv", orders), ("designs.csv", designs.clone())]);
        let outcome = other.run("check", &["--names", "--write"]);
        assert_eq!(outcome.code, 1, "{}{}", outcome.out, outcome.err);
        assert!(outcome.err.contains("nothing was changed"), "{}{}", outcome.out, outcome.err);
        assert_eq!(std::fs::read(other.path().join("designs.csv")).unwrap(), designs);
    }
}
