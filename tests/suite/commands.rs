//! The commands: their words, their exit codes, and the shape of what programs read.

use crate::harness::{Trial, figure, repository, row, run_on};
use serde_json::{Value, json};

const ORDERS: &str = "order,date,kind,design,quantity,price,theme,channel,status\n\
    A1,2026-03-04,cookie,moth,12,3.00,spring,porch,\n\
    A1,2026-03-04,cookie,tent,6,8.00,spring,porch,\n\
    A2,2026-04-20,cookie,moth,24,3.00,,market,\n\
    A3,2026-04-25,cookie,tent,6,8.00,,market,quoted\n";
const HOURS: &str = "date,minutes,stage,order\n2026-03-03,120,decorate,A1\n2026-04-19,90,decorate,A2\n";
const SETTINGS: &str = "currency = \"USD\"\n[wage]\ntarget = 20\n[seasons]\n\"spring 2026\" = { from = 2026-03-01, to = 2026-03-31 }\n";

fn shop() -> Trial {
    Trial::new(&[("orders.csv", ORDERS), ("hours.csv", HOURS), ("shop.toml", SETTINGS)])
}

#[test]
fn every_help_says_what_for_and_gives_an_example() {
    for command in [
        &["--help"][..],
        &["check", "--help"],
        &["review", "--help"],
        &["wage", "--help"],
        &["export", "--help"],
        &["start", "--help"],
        &["man", "--help"],
    ] {
        let outcome = fairdozen::cli::run(std::iter::once("fairdozen").chain(command.iter().copied()));
        assert_eq!(outcome.code, 0);
        assert!(outcome.out.contains("Example: fairdozen"), "{}", outcome.out);
        assert!(outcome.out.lines().all(|line| line.chars().count() <= 120), "{}", outcome.out);
    }
}

#[test]
fn wrong_usage_exits_with_two_and_says_what_is_right() {
    let shop = shop();
    for (options, says) in [
        (&["--month", "Octobr"][..], "did you mean october? Else write a month as october, \"october 2026\" or 2026-10"),
        (&["--from", "2026-05-01", "--to", "2026-04-01"], "swap them"),
        (&["--season", "sprng 2026"], "did you mean 'spring 2026'?"),
        (&["--month", "2026-03", "--from", "2026-03-01"], "cannot be used with"),
        (&["--by", "colour-of-the-sky"], "possible values"),
        (&["--json", "--csv"], "cannot be used with"),
    ] {
        let outcome = shop.run("wage", options);
        assert_eq!((outcome.code, outcome.out.as_str()), (2, ""), "{options:?}");
        assert!(outcome.err.contains(says), "{options:?}: {}", outcome.err);
    }
}

#[test]
fn a_mistyped_command_is_told_from_a_folder() {
    let shop = shop();
    let outcome = fairdozen::cli::run(["fairdozen", "chek", shop.path().to_str().unwrap()]);
    assert_eq!((outcome.code, outcome.err.as_str()), (2, "there is no command 'chek' and no such folder; did you mean check?\n"));
}

#[test]
fn the_shops_own_tables_are_never_written_over() {
    let shop = shop();
    for name in ["orders.csv", "Hours.csv", "shop.toml"] {
        let outcome = shop.run("export", &["--out", shop.path().join(name).to_str().unwrap()]);
        assert_eq!(outcome.code, 2, "{name}: {}", outcome.out);
        assert!(outcome.err.contains("it is one of the shop's own tables"), "{}", outcome.err);
    }
    let before = std::fs::read(shop.path().join("orders.csv")).unwrap();
    assert_eq!(shop.run("review", &["--month", "2026-03", "--out", shop.path().to_str().unwrap()]).code, 0);
    assert_eq!(std::fs::read(shop.path().join("orders.csv")).unwrap(), before);
    assert_eq!(shop.run("check", &[]).code, 0);
}

#[test]
fn data_with_errors_exits_with_one() {
    let outcome = run_on(&repository("no-such-folder"), "wage", &[]);
    assert_eq!((outcome.code, outcome.out.as_str()), (1, ""));
    assert!(outcome.err.contains("there is no such folder"), "{}", outcome.err);
    let outcome = run_on(&repository("Cargo.toml"), "check", &[]);
    assert_eq!(outcome.code, 1);
    assert!(outcome.out.contains("is a file, and a shop is a folder"), "{}", outcome.out);
}

#[test]
fn the_wage_object_has_just_the_fields_programs_read() {
    let table = shop().wage("design", &["--month", "2026-03"]);
    let keys = |value: &Value| value.as_object().unwrap().keys().cloned().collect::<Vec<_>>();
    let whole = [
        "schema",
        "currency",
        "from",
        "to",
        "by",
        "minutes_from",
        "rows",
        "total",
        "all_in",
        "unassigned",
        "prepaid",
        "earlier",
        "left_out",
        "problems",
    ];
    assert_eq!(keys(&table), whole);
    let of_row = "key tier orders pieces list_value revenue ingredients packaging fees helper_pay overhead owner_minutes owner_pay hours_known \
        minutes_from wage_per_hour wage_low wage_high one_more_piece_wage set_priced_share price_per_piece full_cost_per_piece fair_price surplus verdict certainty";
    for row in [&table["rows"][0], &table["total"], &table["all_in"]] {
        assert_eq!(keys(row), of_row.split_whitespace().collect::<Vec<_>>());
    }
    assert_eq!(keys(&table["unassigned"]), ["owner_minutes", "helper_minutes", "helper_pay", "ingredients", "packaging", "overhead"]);
    assert_eq!((&table["schema"], &table["from"], &table["to"]), (&"fairdozen.wage/1".into(), &"2026-03-01".into(), &"2026-03-31".into()));
    // 120 minutes over 18 pieces alike: 80 on the moths; 36 ÷ (80 ÷ 60) = 27 an hour. Worked by hand.
    let moth = row(&table, "moth");
    assert_eq!(
        (figure(moth, "owner_minutes"), figure(moth, "wage_per_hour"), &moth["verdict"]),
        ("80.000000", "27.000000", &"pays".into())
    );
    assert_eq!(moth["wage_low"], Value::Null);
}

#[test]
fn periods_choose_lines_by_hand_over_day() {
    let shop = shop();
    for (options, pieces, quoted) in [
        (&[][..], 42, 1),
        (&["--season", "spring 2026"], 18, 0),
        (&["--month", "2026-04"], 24, 1),
        (&["--from", "2026-04-20"], 24, 1),
        (&["--to", "2026-04-19"], 18, 0),
        (&["--month", "2020-01"], 0, 0),
    ] {
        let table = shop.wage("month", options);
        assert_eq!((&table["total"]["pieces"], &table["left_out"]["quoted"]), (&pieces.into(), &quoted.into()), "{options:?}");
    }
}

#[test]
fn csv_says_what_json_says_and_leaves_unknown_cells_empty() {
    let outcome = shop().run("wage", &["--by", "theme", "--csv"]);
    let mut lines = outcome.out.lines();
    assert!(lines.next().unwrap().starts_with("part,key,tier,orders,pieces,list_value"));
    let parts: Vec<&str> = outcome.out.lines().skip(1).map(|line| line.split(',').next().unwrap()).collect();
    assert_eq!(parts, ["row", "row", "total", "all_in"]);
    assert!(outcome.out.lines().nth(1).unwrap().starts_with("row,no theme,,1,24,72.000000,"), "{}", outcome.out);
    assert!(!outcome.out.contains("null"));
}

#[test]
fn rows_are_sorted_as_asked() {
    let shop = shop();
    let keys = |sort: &str| -> Vec<String> {
        let table = shop.wage("order", &["--sort", sort]);
        table["rows"].as_array().unwrap().iter().map(|row| row["key"].as_str().unwrap().to_owned()).collect()
    };
    // A1: 84 in two hours; A2: 72 in an hour and a half.
    assert_eq!(
        (keys("key"), keys("wage"), keys("pieces"), keys("revenue")),
        (list(["A1", "A2"]), list(["A1", "A2"]), list(["A2", "A1"]), list(["A1", "A2"]))
    );
}

fn list(keys: [&str; 2]) -> Vec<String> {
    keys.map(String::from).into()
}

#[test]
fn order_ids_can_be_hidden_everywhere() {
    let orders = ORDERS.replace("A1,", "for Somebody,").replace("A2,", "for Nobody,");
    let shop =
        Trial::new(&[("orders.csv", &orders), ("hours.csv", "date,minutes,order\n2026-03-03,60,for Somebody\n"), ("shop.toml", SETTINGS)]);
    for (command, options) in [
        ("wage", &["--by", "order", "--hide-orders"][..]),
        ("wage", &["--by", "order", "--hide-orders", "--json"]),
        ("check", &["--hide-orders"]),
        ("check", &["--hide-orders", "--json"]),
        ("export", &["--hide-orders"]),
        ("review", &["--hide-orders", "--month", "2026-04", "--details"]),
    ] {
        let outcome = shop.run(command, options);
        assert_eq!(outcome.code, 0, "{}", outcome.err);
        assert!(!outcome.out.contains("body") && !outcome.err.contains("body"), "{command} {options:?}: {}", outcome.out);
        assert!(outcome.out.contains("2026-04-20 no. 1"), "{command} {options:?}: {}", outcome.out);
    }
}

#[test]
fn export_writes_one_row_a_line_with_minutes_by_stage() {
    let shop = shop();
    let file = shop.path().join("facts.csv");
    let outcome = shop.run("export", &["--out", file.to_str().unwrap()]);
    assert_eq!(outcome.code, 0, "{}", outcome.err);
    assert!(outcome.out.starts_with("3 lines are in "), "{}", outcome.out);
    let text = std::fs::read_to_string(&file).unwrap();
    assert_eq!(shop.run("export", &[]).out, text);
    let mut reader = csv::Reader::from_reader(text.as_bytes());
    let headings = reader.headers().unwrap().clone();
    let at = |name: &str| headings.iter().position(|heading| heading == name).unwrap_or_else(|| panic!("no column {name}"));
    let rows: Vec<csv::StringRecord> = reader.records().map(Result::unwrap).collect();
    let cells = |row: usize, names: &[&str]| names.iter().map(|name| rows[row][at(name)].to_owned()).collect::<Vec<_>>();
    let names = ["order", "date", "line_row", "design", "pieces", "revenue", "owner_minutes", "minutes_decorate", "minutes_naming_order"];
    assert_eq!(cells(0, &names), ["A1", "2026-03-04", "2", "moth", "12", "36.000000", "80.000000", "80.000000", "80.000000"]);
    assert_eq!(cells(2, &names), ["A2", "2026-04-20", "4", "moth", "24", "72.000000", "90.000000", "90.000000", "90.000000"]);
}

#[test]
fn misspelt_designs_are_added_to_the_card_when_accepted() {
    let orders = "order,date,design,quantity,price\nA1,2026-03-04,moht,12,3\nA1,2026-03-04,tnet,6,8\n";
    let shop = Trial::new(&[("orders.csv", orders), ("designs.csv", "design,tier\nmoth,small\ntent,large\n")]);
    let outcome = shop.run("check", &["--names"]);
    assert_eq!(
        outcome.out,
        "'moht' is probably moth\n'tnet' is probably tent\n--write adds them under also_called in designs.csv; --except NAME leaves one out.\n"
    );
    assert_eq!(shop.run("check", &["--names", "--write", "--except", "tnet"]).code, 0);
    assert_eq!(
        std::fs::read_to_string(shop.path().join("designs.csv")).unwrap(),
        "design,tier,also_called\nmoth,small,moht\ntent,large,\n"
    );
    assert_eq!(shop.run("check", &[]).code, 1);
    assert_eq!(shop.run("check", &["--names", "--write"]).code, 0);
    assert_eq!(shop.run("check", &[]).code, 0);
    assert_eq!(shop.run("check", &["--names"]).out, "No unknown name is close to a design's name.\n");
}

#[test]
fn a_review_of_a_time_with_nothing_in_it_says_so() {
    let shop = shop();
    let outcome = shop.run("review", &["--month", "2020-01"]);
    assert_eq!(outcome.code, 0, "{}", outcome.err);
    assert!(outcome.out.starts_with("Nothing was handed over in January 2020."), "{}", outcome.out);
}

#[test]
fn the_latest_month_is_the_one_whose_25th_the_logs_have_reached() {
    // The logs end on 20 April: March is the latest whole month.
    let outcome = shop().run("review", &[]);
    assert!(outcome.out.starts_with("March 2026 covered your time."), "{}", outcome.out);
    let orders = format!("{ORDERS}A4,2026-04-25,cookie,moth,12,3.00,,,\n");
    let later = Trial::new(&[("orders.csv", &orders), ("hours.csv", HOURS), ("shop.toml", SETTINGS)]);
    assert!(later.run("review", &[]).out.starts_with("April 2026 covered your time."), "{}", later.run("review", &[]).out);
}

#[test]
fn without_a_command_the_shop_is_checked_and_reviewed() {
    let outcome = shop().run("", &[]);
    assert_eq!(outcome.code, 0, "{}", outcome.err);
    let said = outcome.out.split_whitespace().collect::<Vec<_>>().join(" ");
    let answer = "No errors. 2 warnings in 1 group. March 2026 covered your time. \
        You earned $42.00 an hour ($84 for 2.0 hours). That is $44 more in all than $20 an hour would have paid. \
        Hourly pay by tier";
    assert!(said.starts_with(answer), "{said}");
    assert!(outcome.out.contains("\nThe page, with 8 charts beside it:\n  "), "{}", outcome.out);
    assert!(outcome.out.contains("reviews/2026-03/index.html\n--details shows "), "{}", outcome.out);
}

/// Wage, full cost, fair price, surplus and verdict rest on the orders whose hours are known, in every output: B2 has none.
#[test]
fn surplus_and_full_cost_rest_on_orders_with_known_hours() {
    let shop = Trial::new(&[
        ("shop.toml", "currency = \"USD\"\n[wage]\ntarget = 20\n"),
        ("orders.csv", "order,date,design,quantity,price\nB1,2026-03-10,acorn,10,4.00\nB2,2026-03-11,acorn,30,5.00\n"),
        ("hours.csv", "date,minutes,stage,order\n2026-03-09,90,decorate,B1\n"),
    ]);
    let acorn = &shop.wage("design", &[])["rows"][0].clone();
    let found = ["revenue", "price_per_piece", "full_cost_per_piece", "fair_price", "surplus"].map(|field| figure(acorn, field));
    // 10 pieces brought 40.00 and took 90 minutes, 30.00 at the target; revenue counts every line.
    assert_eq!(found, ["190.000000", "4.750000", "3.000000", "3.000000", "10.000000"]);
    let csv = shop.run("wage", &["--csv"]).out;
    assert!(csv.lines().next().unwrap().ends_with("surplus,verdict,certainty") && csv.contains(",10.000000,pays,"), "{csv}");
}

/// How sure a verdict is stands beside it where it rests on learned minutes, and is null where it is counted.
#[test]
fn certainty_is_a_word_for_estimates_and_null_for_what_is_counted() {
    let demo = |by: &str| -> Value {
        serde_json::from_str(&run_on(&repository("fixtures/ninebell-quay"), "wage", &["--by", by, "--month", "2026-10", "--json"]).out)
            .unwrap()
    };
    let tiers = demo("tier");
    let certainty = |key: &str| row(&tiers, key)["certainty"].clone();
    assert_eq!(["character", "numeral", "shape", "delivery"].map(certainty), [json!("sure"), json!("likely"), json!("open"), Value::Null]);
    assert!(tiers["total"]["certainty"].is_null());
    assert!(demo("order")["rows"].as_array().unwrap().iter().all(|row| row["certainty"].is_null()));
}
