//! Ways in which exact figures quietly go wrong in data frames, decimal types and settings files, each tried
//! through the facts or the program. All sums here are whole-number arithmetic, worked by hand.

use crate::harness::{Trial, figure, repository, row};
use fairdozen::costing::column::Column;
use polars::prelude::*;
use std::path::Path;
use std::process::Command;

const MONEY: Column<i64> = Column::named("money");

const ORDERS: &str = "order,date,kind,design,quantity,price,payments\n";

fn one_order(rows: &str) -> Trial {
    Trial::new(&[("orders.csv", &format!("{ORDERS}{rows}"))])
}

fn wide(frame: &DataFrame, name: &str) -> Vec<i128> {
    frame.column(name).unwrap().i128().unwrap().iter().flatten().collect()
}

/// A sum of a 64-bit column wraps without a word in a frame, in select and in group-by alike.
#[test]
fn sums_past_64_bits_do_not_wrap() {
    let frame = df!("money" => [i64::MAX, i64::MAX, 1, i64::MIN, i64::MIN], "of" => [1, 1, 1, 2, 2]).unwrap();
    let most = i128::from(i64::MAX);
    let all = frame.clone().lazy().select([MONEY.sum()]).collect().unwrap();
    assert_eq!(wide(&all, "money"), [-1]);
    let groups = frame.lazy().group_by([col("of")]).agg([MONEY.sum()]).sort(["of"], SortMultipleOptions::default()).collect().unwrap();
    assert_eq!(wide(&groups, "money"), [2 * most + 1, -2 * most - 2]);
}

/// Enough rows that a frame is split over threads: partial sums must be wide too.
#[test]
fn partial_sums_past_64_bits_do_not_wrap() {
    let rows = 100_000_i32;
    let money = vec![i64::MAX / 2; 100_000];
    let of: Vec<i32> = (0..rows).map(|row| row % 7).collect();
    let frame = df!("money" => money, "of" => of).unwrap();
    let groups = frame.clone().lazy().group_by([col("of")]).agg([MONEY.sum()]).collect().unwrap();
    let all = frame.lazy().select([MONEY.sum()]).collect().unwrap();
    let expected = i128::from(i64::MAX / 2) * i128::from(rows);
    assert_eq!((wide(&all, "money"), wide(&groups, "money").iter().sum::<i128>()), (vec![expected], expected));
}

/// Pieces × price is a product of two 64-bit columns; three such lines go past what one column could hold.
#[test]
fn large_lines_are_multiplied_and_summed_exactly() {
    let rows: Vec<String> = (1..=3).map(|number| format!("Z{number},2026-03-0{number},cookie,moth,1000000,9000000.000001,\n")).collect();
    let table = one_order(&rows.concat()).wage("design", &[]);
    // 1,000,000 × 9,000,000.000001 = 9,000,000,000,001: 97 % of 64 bits in millionths. Three of them do not fit.
    for row in [row(&table, "moth"), &table["total"], &table["all_in"]] {
        assert_eq!((figure(row, "list_value"), figure(row, "owner_pay")), ("27000000000003.000000", "27000000000003.000000"));
        assert_eq!(figure(row, "price_per_piece"), "9000000.000001");
    }
}

/// Discounts and refunds are summed as exactly on the way down.
#[test]
fn large_losses_do_not_wrap_into_gains() {
    let rows: Vec<String> = (0..12)
        .map(|number| format!("Z{number},2026-03-01,cookie,moth,1,1.00,\nZ{number},2026-03-01,refund,,,1000000000,\nZ{number},2026-03-01,discount,,,999999999.99,\n"))
        .collect();
    let table = one_order(&rows.concat()).wage("order", &[]);
    // 12 × (1 − 1,000,000,000 − 999,999,999.99)
    assert_eq!(figure(&table["total"], "revenue"), "-23999999987.880000");
}

/// A decimal type multiplies 1.99 by 1.99 into 3.96, at the scale of its parts.
#[test]
fn products_keep_their_decimals() {
    let settings = "currency = \"USD\"\n[fees]\npercent = \"1.99 %\"\n";
    let shop = Trial::new(&[("orders.csv", &format!("{ORDERS}A,2026-03-01,cookie,moth,1,1.99,\n")), ("shop.toml", settings)]);
    // 1.99 × 1.99 = 3.9601; a hundredth of that.
    assert_eq!(figure(&shop.wage("design", &[])["total"], "fees"), "0.039601");
}

/// Columns of two and of three decimals, put together, round the finer ones to the coarser.
#[test]
fn prices_of_different_scales_stand_in_one_column() {
    let rows = "A,2026-03-01,cookie,a,3,1.25,\nA,2026-03-01,cookie,b,3,1.255,\nA,2026-03-01,cookie,c,1,0.000001,\n\
        A,2026-03-01,cookie,d,12,10.01/dozen,\nA,2026-03-01,cookie,e,7,10/dozen,\nA,2026-03-01,cookie,f,1,0.01/dozen,\nA,2026-03-01,cookie,g,3 dozen,54.321/dozen,\n";
    let table = one_order(rows).wage("design", &[]);
    let expected = [
        ("a", "3.750000", "1.250000"),
        ("b", "3.765000", "1.255000"),
        ("c", "0.000001", "0.000001"),
        ("d", "10.010000", "0.834167"),
        // 7 × 10 ÷ 12 = 5.8333…, and not 7 × 0.83.
        ("e", "5.833333", "0.833333"),
        ("f", "0.000833", "0.000833"),
        ("g", "162.963000", "4.526750"),
    ];
    for (design, revenue, each) in expected {
        let row = row(&table, design);
        assert_eq!((figure(row, "revenue"), figure(row, "price_per_piece")), (revenue, each), "{design}");
    }
    assert_eq!(figure(&table["total"], "revenue"), "186.322167");
}

/// 1.005 read at two decimals is 1.00, and read as binary is a little less than itself.
#[test]
fn a_purchase_of_one_and_a_half_cents_keeps_them() {
    let shop = Trial::new(&[
        ("orders.csv", "order,date,design,quantity,price,made\nA,2026-03-01,moth,3,1.00,3\n"),
        ("purchases.csv", "date,item,size,unit,paid,shipping\n2026-02-01,flour,3,g,1.005,\n2026-02-01,sugar,3,g,0.1,0.2\n"),
        ("recipes.csv", "for,item,amount,unit\nmoth,flour,1,g\nmoth,sugar,1,g\n"),
    ]);
    for flow in ["latest", "average", "fifo"] {
        let table = shop.wage("design", &["--cost-flow", flow]);
        // 1.005 + 0.1 + 0.2, all of it used.
        assert_eq!(figure(&table["total"], "ingredients"), "1.305000", "{flow}");
    }
}

/// A settings file's bare number is read from its text, and one that cannot be kept exactly is refused.
#[test]
fn settings_keep_the_text_of_their_numbers() {
    let shop = |fixed: &str, target: &str| {
        let settings = format!("currency = \"USD\"\nspares = 0\n[wage]\ntarget = {target}\n[fees]\nfixed = {fixed}\n");
        let shop = Trial::new(&[
            ("orders.csv", &format!("{ORDERS}A,2026-03-01,cookie,moth,1,5.00,3\n")),
            ("hours.csv", "date,minutes,order\n2026-03-01,60,A\n"),
        ]);
        shop.write("shop.toml", settings.as_bytes());
        shop
    };
    // Three times 0.1 in binary is 0.30000000000000004.
    for (fixed, target, fees, fair) in [
        ("0.1", "20.10", "0.300000", "20.400000"),
        ("0.000001", "999999.999999", "0.000003", "1000000.000002"),
        ("0.70", "1.10", "2.100000", "3.200000"),
    ] {
        let table = shop(fixed, target).wage("design", &[]);
        assert_eq!((figure(&table["total"], "fees"), figure(&table["total"], "fair_price")), (fees, fair));
    }
    for (fixed, target, key) in [
        ("0.30000000000000004", "20", "fees.fixed"),
        ("0.3", "20.1000001", "wage.target"),
        ("0.3", "nan", "wage.target"),
        ("inf", "20", "fees.fixed"),
    ] {
        let outcome = shop(fixed, target).run("wage", &[]);
        assert_eq!(outcome.code, 1);
        assert!(outcome.err.contains(&format!("shop.toml, key {key}: ")), "{}", outcome.err);
    }
}

/// Parts of a total that no count of pieces divides still add up to it.
#[test]
fn shared_totals_add_up_to_the_last_digit() {
    let rows = ["a", "b", "c", "d", "e", "f", "g"].map(|design| format!("A,2026-03-01,cookie,{design},1,1.00,\n")).concat();
    let table = one_order(&format!("{rows}A,2026-03-01,rush,,,0.01,\nA,2026-03-01,discount,,,0.000001,\n")).wage("design", &[]);
    // A cent over seven: 0.001429 four times and 0.001428 three times; the millionth falls on the first.
    let revenue: Vec<&str> = table["rows"].as_array().unwrap().iter().map(|row| figure(row, "revenue")).collect();
    assert_eq!(revenue, ["1.001428", "1.001429", "1.001429", "1.001429", "1.001428", "1.001428", "1.001428"]);
    assert_eq!(figure(&table["total"], "revenue"), "7.009999");
}

fn program(shop: &Path, words: &[&str], threads: Option<&str>) -> (Option<i32>, Vec<u8>, String) {
    let mut command = Command::new(env!("CARGO_BIN_EXE_fairdozen"));
    command.arg(words[0]).arg(shop).args(&words[1..]).env_remove("POLARS_MAX_THREADS");
    if let Some(threads) = threads {
        command.env("POLARS_MAX_THREADS", threads);
    }
    let output = command.output().unwrap();
    (output.status.code(), output.stdout, String::from_utf8(output.stderr).unwrap())
}

/// Binary sums differ from run to run with the order in which threads finish, and groups come out in any order.
#[test]
fn the_same_bytes_come_out_every_time_on_one_thread_or_two() {
    let demo = repository("fixtures/ninebell-quay");
    for words in [&["wage", "--by", "order", "--json"][..], &["wage", "--by", "design", "--csv"], &["export"], &["check", "--json"]] {
        let first = program(&demo, words, Some("1"));
        assert_eq!((first.0, first.2.as_str()), (Some(0), ""));
        assert!(first.1.len() > 1000);
        for threads in [Some("1"), Some("2"), None, Some("2"), Some("1")] {
            assert!(program(&demo, words, threads) == first, "{words:?} on {threads:?} threads");
        }
    }
}

/// What no column can hold is told, in words, with exit code 1: no panic, no figure.
#[test]
fn totals_too_large_are_told_and_never_wrap() {
    let base = |rows: &str| [("orders.csv", format!("{ORDERS}{rows}"))].to_vec();
    let recipe = |rows: &str, amount: &str| {
        let mut files = base(rows);
        files.push(("purchases.csv", "date,item,size,unit,paid\n2026-02-01,flour,0.000000000001,g,1000000000\n".into()));
        files.push(("recipes.csv", format!("for,item,amount,unit\nmoth,flour,{amount},kg\n")));
        files
    };
    let cases = [
        // Two lines that fit, until each has its share of the rush charges.
        base(
            "A,2026-03-01,cookie,moth,1000000,9223372,\nA,2026-03-01,cookie,tent,1000000,9223372,\nA,2026-03-01,rush,,,1000000000,\nA,2026-03-01,rush,,,1000000000,\n",
        ),
        recipe("A,2026-03-01,cookie,moth,1000000,1.00,\n", "1000000000"),
        recipe("A,2026-03-01,cookie,moth,12,1.00,\n", "1000"),
    ];
    for (number, files) in cases.iter().enumerate() {
        let files: Vec<(&str, &str)> = files.iter().map(|(name, text)| (*name, text.as_str())).collect();
        let shop = Trial::new(&files);
        for words in [&["wage"][..], &["wage", "--json"], &["wage", "--cost-flow", "fifo"], &["export"]] {
            let (code, out, err) = program(shop.path(), words, None);
            assert_eq!((code, out), (Some(1), Vec::new()), "case {number}, {words:?}: {err}");
            assert_eq!(err, "a total in this shop is too large to be held exactly; look for a mistyped number\n", "case {number}");
        }
    }
}

/// Numbers past what a shop could mean are refused where they stand, with the row and the column.
#[test]
fn numbers_out_of_range_are_refused_at_their_row() {
    let shop = one_order(
        "A,2026-03-01,cookie,moth,1000001,1.00,\nA,2026-03-01,cookie,tent,1,9223372036854775808,\nA,2026-03-01,cookie,star,1,1e3,\nA,2026-03-01,cookie,bell,1000000,1000000000,\n",
    );
    let (code, out, err) = program(shop.path(), &["wage", "--json"], None);
    assert_eq!((code, out), (Some(1), Vec::new()));
    assert!(err.contains("2 prices cannot be read: orders.csv, row 3 ('9223372036854775808') and row 4 ('1e3')."), "{err}");
    let (code, out, _) = program(shop.path(), &["check", "--all"], None);
    let out = String::from_utf8(out).unwrap().replace("\n    ", " ");
    assert_eq!(code, Some(1));
    for says in [
        "row 2, column quantity: '1000001' is more than a million pieces",
        "row 3, column price: '9223372036854775808' is",
        "row 4, column price: '1e3' is not a price",
        "row 5, column price: price × quantity is more money than can be worked with",
    ] {
        assert!(out.contains(says), "{out}");
    }
}
