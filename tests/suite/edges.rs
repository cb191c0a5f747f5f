//! Legal oddities of files: other line breaks, blank rows, tables without rows, tables that are not there, headings
//! of her own. The figures are the plain file's, worked out by hand.

use crate::harness::{Trial, figure, row};
use serde_json::Value;

type Files<'a> = Vec<(&'a str, &'a str)>;

const SETTINGS: &str =
    "currency = \"USD\"\n\n[wage]\ntarget = 20.00\n\n[fees]\npercent = \"3 %\"\nfixed = 0.30\n\n[helpers]\nrobin = 15.00\n";

/// A small shop with every table. By hand: revenue 96 + 78 + 48 = 222; flour at 0.002 a gram, 36 × 30 + 12 × 50 g, is
/// 3.36; two boxes at 0.50 are 1.00; fees 3 % of 222 and 2 × 0.30 are 7.26; robin's hour is 15.00; March's permit is
/// 31.00. 164.38 is left for 4 hours: 41.095 an hour.
fn whole_shop() -> Files<'static> {
    vec![
        ("shop.toml", SETTINGS),
        (
            "orders.csv",
            "order,date,kind,design,quantity,price,colours\nA1,2026-03-07,cookie,moon,24,4.00,5\nA1,,cookie,paper lantern,12,6.50,\nA2,2026-03-14,cookie,moon,12,4.00,3\n",
        ),
        ("purchases.csv", "date,item,size,unit,paid\n2026-03-01,flour,5,kg,10.00\n2026-03-01,box,10,each,5.00\n"),
        (
            "hours.csv",
            "date,minutes,stage,order,who\n2026-03-06,160,decorate,A1,\n2026-03-06,80,tint,A1+A2,\n2026-03-13,60,bake,A2,robin\n",
        ),
        ("overheads.csv", "from,to,what,paid\n2026-03-01,2026-03-31,permit,31.00\n"),
        ("counts.csv", "date,item,amount,unit\n2026-03-31,flour,3320,g\n"),
        ("designs.csv", "design,tier,minutes_each\nmoon,simple,3\npaper lantern,scene,6\n"),
        ("recipes.csv", "for,item,amount,unit\nmoon,flour,30,g\npaper lantern,flour,50,g\nevery order,box,1,each\n"),
        ("items.csv", "item,class\nbox,packaging\n"),
        ("tiers.csv", "tier,price\nsimple,4.00\nscene,6.50\n"),
    ]
}

fn without<'a>(files: &[(&'a str, &'a str)], name: &str) -> Files<'a> {
    files.iter().copied().filter(|(file, _)| *file != name).collect()
}

/// The figures alone: the problems name rows, which may differ.
fn figures(table: &Value) -> Value {
    let mut table = table.clone();
    table.as_object_mut().unwrap().remove("problems");
    table
}

#[test]
fn the_whole_shop_is_as_worked_out_by_hand() {
    let table = Trial::new(&whole_shop()).wage("design", &[]);
    let total = &table["total"];
    for (field, expected) in [
        ("revenue", "222.000000"),
        ("ingredients", "3.360000"),
        ("packaging", "1.000000"),
        ("fees", "7.260000"),
        ("helper_pay", "15.000000"),
        ("overhead", "31.000000"),
        ("owner_minutes", "240.000000"),
        ("owner_pay", "164.380000"),
        ("wage_per_hour", "41.095000"),
    ] {
        assert_eq!(figure(total, field), expected, "{field}");
    }
    assert_eq!(table["all_in"]["owner_pay"], total["owner_pay"]);
}

#[test]
fn line_breaks_byte_order_marks_and_blank_rows_change_no_figure() {
    let plain = figures(&Trial::new(&whole_shop()).wage("order", &[]));
    let dressed = |dress: &dyn Fn(&str, &str) -> String| {
        let files: Vec<(&str, String)> = whole_shop().into_iter().map(|(name, text)| (name, dress(name, text))).collect();
        let files: Files = files.iter().map(|(name, text)| (*name, text.as_str())).collect();
        figures(&Trial::new(&files).wage("order", &[]))
    };
    assert_eq!(dressed(&|_, text| text.replace('\n', "\r\n")), plain, "CRLF");
    assert_eq!(dressed(&|_, text| format!("\u{FEFF}{text}")), plain, "byte-order mark");
    assert_eq!(dressed(&|_, text| text.trim_end().to_owned()), plain, "no last line break");
    let blank_rows = |name: &str, text: &str| {
        let commas = ",".repeat(text.lines().next().unwrap_or_default().matches(',').count());
        if name == "shop.toml" { text.replace('\n', "\n\n") } else { text.replace('\n', &format!("\n\n{commas}\n  \n")) }
    };
    assert_eq!(dressed(&blank_rows), plain, "blank rows");
    assert_eq!(dressed(&|name, text| format!("\u{FEFF}{}", blank_rows(name, text).replace('\n', "\r\n").trim_end())), plain, "all at once");
    let spaced = |name: &str, text: &str| if name == "shop.toml" { text.to_owned() } else { text.replace(',', " ,\u{a0} ") };
    assert_eq!(dressed(&spaced), plain, "white space around cells");
    let quoted = |name: &str, text: &str| {
        let cells = |line: &str| line.split(',').map(|cell| format!("\"{cell}\"")).collect::<Vec<_>>().join(",");
        if name == "shop.toml" { text.to_owned() } else { text.lines().map(cells).collect::<Vec<_>>().join("\n") }
    };
    assert_eq!(dressed(&quoted), plain, "every cell between quotes");
}

#[test]
fn columns_in_another_order_and_rows_in_another_order_change_no_figure() {
    let plain = figures(&Trial::new(&whole_shop()).wage("order", &[]));
    let turned = |rows_too: bool| {
        let files: Vec<(&str, String)> = whole_shop()
            .into_iter()
            .map(|(name, text)| {
                if name == "shop.toml" {
                    return (name, text.to_owned());
                }
                let mut lines: Vec<String> = text.lines().map(|line| line.split(',').rev().collect::<Vec<_>>().join(",")).collect();
                if rows_too {
                    lines[1..].reverse();
                }
                (name, lines.join("\n"))
            })
            .collect();
        let files: Files = files.iter().map(|(name, text)| (*name, text.as_str())).collect();
        figures(&Trial::new(&files).wage("order", &[]))
    };
    assert_eq!(turned(false), plain);
    assert_eq!(turned(true), plain);
}

#[test]
fn each_optional_table_may_be_missing() {
    // Owner's pay and wage over 4 hours; without hours all of March's permit is unassigned and there is no wage.
    for (name, owner_pay, wage) in [
        ("purchases.csv", "168.740000", Some("42.185000")),
        ("hours.csv", "210.380000", None),
        ("overheads.csv", "195.380000", Some("48.845000")),
        ("counts.csv", "164.380000", Some("41.095000")),
        ("designs.csv", "164.380000", Some("41.095000")),
        ("recipes.csv", "168.740000", Some("42.185000")),
        ("items.csv", "164.380000", Some("41.095000")),
        ("tiers.csv", "164.380000", Some("41.095000")),
    ] {
        let table = Trial::new(&without(&whole_shop(), name)).wage("design", &[]);
        assert_eq!(figure(&table["total"], "owner_pay"), owner_pay, "without {name}");
        assert_eq!(table["total"]["wage_per_hour"].as_str(), wage, "without {name}");
        let unassigned = if name == "hours.csv" { "31.000000" } else { "0.000000" };
        assert_eq!(figure(&table["unassigned"], "overhead"), unassigned, "without {name}");
    }
}

#[test]
fn what_is_assumed_for_a_missing_table_is_listed() {
    for name in ["hours.csv", "overheads.csv"] {
        let table = Trial::new(&without(&whole_shop(), name)).wage("design", &[]);
        let assumed =
            table["problems"].as_array().unwrap().iter().any(|problem| problem["severity"] == "assumed" && problem["file"] == name);
        assert!(assumed, "{name}: {:#}", table["problems"]);
    }
}

#[test]
fn a_heading_without_rows_is_as_no_table() {
    for (name, text) in whole_shop() {
        if matches!(name, "shop.toml" | "orders.csv") {
            continue;
        }
        let mut files = without(&whole_shop(), name);
        let missing = Trial::new(&files).wage("design", &[]);
        files.push((name, text.lines().next().unwrap()));
        assert_eq!(Trial::new(&files).wage("design", &[]), missing, "{name}");
    }
}

#[test]
fn a_shop_without_orders_yet_has_an_empty_table() {
    let trial = Trial::new(&[("orders.csv", "order,date,price\n")]);
    let table = trial.wage("design", &[]);
    assert_eq!((table["rows"].as_array().unwrap().len(), &table["total"]["pieces"]), (0, &0.into()));
    assert_eq!(table["total"]["wage_per_hour"], Value::Null);
    for command in ["wage", "check"] {
        let outcome = trial.run(command, &[]);
        assert_eq!(outcome.code, 0, "{command}: {}", outcome.err);
    }
}

#[test]
fn colours_are_colors_too() {
    // 80 tinting minutes over A1 with 5 colours and A2 with 3: 50 and 30.
    for heading in ["colours", "colors", "COLOURS", " Col_ors "] {
        let mut files = without(&whole_shop(), "orders.csv");
        let orders = whole_shop()[1].1.replace("colours", heading);
        files.push(("orders.csv", &orders));
        let table = Trial::new(&files).wage("order", &[]);
        assert_eq!(figure(row(&table, "A1"), "owner_minutes"), "210.000000", "{heading}");
        assert_eq!(figure(row(&table, "A2"), "owner_minutes"), "30.000000", "{heading}");
    }
}

#[test]
fn headings_of_her_own_are_mapped() {
    let plain = figures(&Trial::new(&whole_shop()).wage("order", &[]));
    let mut files = without(&without(&whole_shop(), "orders.csv"), "shop.toml");
    let orders = whole_shop()[1].1.replace("date", "Pick-up day").replace("price", "each ($)").replace("order,", "Ref. ,");
    let settings = format!("{SETTINGS}\n[columns.orders]\n\"Pick-up day\" = \"date\"\n\"EACH ($)\" = \"price\"\n\"ref.\" = \"order\"\n");
    files.extend([("orders.csv", orders.as_str()), ("shop.toml", settings.as_str())]);
    assert_eq!(figures(&Trial::new(&files).wage("order", &[])), plain);
}

#[test]
fn file_names_are_matched_regardless_of_case_and_never_twice() {
    let plain = figures(&Trial::new(&whole_shop()).wage("order", &[]));
    let mut files = without(&whole_shop(), "hours.csv");
    let hours = whole_shop().iter().find(|(name, _)| *name == "hours.csv").unwrap().1;
    files.push(("Hours.CSV", hours));
    assert_eq!(figures(&Trial::new(&files).wage("order", &[])), plain);
    files.push(("hours.csv", hours));
    let outcome = Trial::new(&files).run("check", &[]);
    assert_eq!(outcome.code, 1);
    assert!(
        outcome.out.contains("hours.csv is in the folder twice, in capitals and small letters; keep one of the two"),
        "{}",
        outcome.out
    );
}

#[test]
fn a_file_that_is_no_table_is_named_and_not_read() {
    let mut files = whole_shop();
    files.extend([("order.csv", "x\n"), ("allergies.csv", "x\n"), ("notes.txt", "x\n")]);
    let outcome = Trial::new(&files).run("check", &["--all"]);
    assert_eq!(outcome.code, 0, "{}", outcome.out);
    for told in [
        "order.csv is not a table of a shop, so it was not read; did you mean orders.csv?",
        "allergies.csv is not a table of a shop, so it was not read\n",
    ] {
        assert!(outcome.out.contains(told), "{told}: {}", outcome.out);
    }
    assert!(!outcome.out.contains("notes.txt"), "{}", outcome.out);
}
