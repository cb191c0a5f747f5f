//! Rows that stand twice in one file, entries that overlap by the clock, and cells that swallowed rows: what is planted is found, and
//! nothing is found in sound logs.

use crate::demo::SHOP;
use crate::harness::{Trial, repository, run_on};
use crate::random_shop::{RandomShop, Row, cell, dice::Dice, for_many_shops};
use fairdozen::reading::{Problem, Severity};
use fairdozen::shop::Folder;
use fairdozen::shop::load::Skipped;
use proptest::prelude::*;
use std::fmt::Write as _;
use std::path::Path;

/// The problems of these groups, of a shop as it is read.
fn found(shop: &Path, groups: &[&str]) -> Vec<Problem> {
    let loaded = Folder::open(shop).load(&Skipped::new());
    loaded.problems.into_iter().filter(|problem| groups.contains(&problem.kind.key)).collect()
}

const ERRORS: [&str; 2] = ["rows-twice", "order-twice"];

const HOURS: &str = "date,minutes,order\n2026-03-05,20,A1\n2026-03-05,95,A1\n2026-03-06,90,A1\n";
const ORDERS: &str = "order,date,design,quantity,price\nA1,2026-03-07,moon,24,4.00\n";

/// The file's rows without its headings.
fn rows(text: &str) -> &str {
    text.split_once('\n').unwrap().1
}

#[test]
fn the_demo_and_plum_lane_repeat_nothing() {
    for shop in [SHOP, "fixtures/plum-lane/plain", "fixtures/plum-lane/export", "fixtures/tiny-shop", "fixtures/awkward-names"] {
        let groups = ["rows-twice", "order-twice", "row-twice", "overlapping-hours", "swallowed-rows", "cell-of-many-lines", "unused-keep"];
        assert_eq!(found(&repository(shop), &groups), [], "{shop}");
    }
}

#[test]
fn what_check_advises_to_keep_passes_the_next_check_and_stays_kept_when_rows_are_added() {
    let two_days = HOURS.replace("2026-03-06,90,A1", "2026-03-05,90,A1");
    for (file, text) in [
        ("hours.csv", format!("{HOURS}{}", rows(HOURS))),
        // Twice on one day, as two batches alike are.
        ("hours.csv", format!("{two_days}{}", rows(&two_days))),
        ("orders.csv", format!("{ORDERS}A1,2026-03-07,star,6,3\nA2,2026-03-08,star,6,3\nA1,2026-03-07,star,6,3\n{}", rows(ORDERS))),
        ("recipes.csv", {
            let dough = "for,item,amount,unit\n\"dough, plain\",flour,400,g\n\"dough, plain\",butter,200,g\n\"dough, plain\",egg,1,each\n";
            format!("{dough}{}", rows(dough))
        }),
        ("purchases.csv", {
            let receipt =
                "date,item,size,unit,paid\n2026-03-01,butter,1,lb,4.50\n2026-03-01,flour,5,lb,4.00\n2026-03-02,egg,1,dozen,3.00\n";
            format!("{receipt}{}", rows(receipt))
        }),
    ] {
        let shop = Trial::new(&[("orders.csv", ORDERS), ("hours.csv", HOURS)]);
        shop.write(file, text.as_bytes());
        let problems = found(shop.path(), &ERRORS);
        let [problem] = problems.as_slice() else { panic!("{file}: {problems:?}") };
        let advice = problem.instead.as_ref().unwrap().to_string();
        let line = &advice[advice.find("keep = [").unwrap()..];
        let settings = format!("currency = \"USD\"\n[repeats]\n{line}\n");
        shop.write("shop.toml", settings.as_bytes());
        let kept = shop.run("check", &["--json"]);
        let groups = ["rows-twice", "order-twice", "row-twice", "unused-keep", "setting-value", "unknown-setting"];
        assert_eq!(found(shop.path(), &groups), [], "{settings}{}", kept.out);
        assert_eq!(kept.code, 0, "{settings}{}", kept.out);

        // A sheet of settings parts a list at commas, so no name has one.
        assert!(!line.trim_start_matches("keep = [").contains(','), "{line}");

        // Earlier and later rows change nothing.
        let (headings, below) = text.split_once('\n').unwrap();
        let other = below.lines().next().unwrap().replace("2026-03", "2025-02").replace("dough", "glaze").replace("A1", "A0");
        shop.write("orders.csv", format!("{ORDERS}A0,2025-02-07,star,6,3\n").as_bytes());
        shop.write(file, format!("{headings}\n{other}\n{below}{}\n", other.replace("2025", "2027").replace("glaze", "filling")).as_bytes());
        assert_eq!(found(shop.path(), &groups), [], "{settings}");

        // Pasted once more, it is an error again: one name keeps one repeat.
        shop.write(
            file,
            format!("{text}{}", below.lines().take(below.lines().count() / 2).fold(String::new(), |all, row| all + row + "\n")).as_bytes(),
        );
        assert!(!found(shop.path(), &["rows-twice", "order-twice"]).is_empty(), "{file}");
    }
}

#[test]
fn several_repeats_are_kept_by_one_list() {
    let more = "date,minutes,order\n2026-04-05,20,A1\n2026-04-06,30,A1\n2026-04-07,40,A1\n";
    let hours = format!("{HOURS}{}2026-05-01,10,A1\n{}{}", rows(more), rows(HOURS), "2026-05-02,10,A1\n".to_owned() + rows(more));
    let shop = Trial::new(&[("orders.csv", ORDERS), ("hours.csv", &hours)]);
    let mut settings = String::new();
    for errors in [2, 1] {
        let problems = found(shop.path(), &ERRORS);
        assert_eq!(problems.len(), errors);
        let advice = problems[0].instead.as_ref().unwrap().to_string();
        settings = format!("currency = \"USD\"\n[repeats]\n{}\n", &advice[advice.find("keep = [").unwrap()..]);
        shop.write("shop.toml", settings.as_bytes());
    }
    assert_eq!((found(shop.path(), &ERRORS).len(), shop.run("check", &[]).code), (0, 0), "{settings}");
}

#[test]
fn check_writes_no_repeat_into_the_settings() {
    let hours = format!("{}{}", HOURS.replace("date,", "Day,"), rows(HOURS));
    let shop = Trial::new(&[("orders.csv", ORDERS), ("hours.csv", &hours)]);
    let written = shop.run("check", &["--write"]);
    assert_eq!(written.code, 1, "{}", written.out);
    let text = std::fs::read_to_string(shop.path().join("shop.toml")).unwrap();
    assert!(text.contains("Day = \"date\"") && !text.contains("repeats"), "{text}");
}

#[test]
fn a_name_that_keeps_nothing_is_warned_of_and_one_of_no_table_is_an_error() {
    let shop = Trial::new(&[("orders.csv", ORDERS), ("hours.csv", HOURS)]);
    shop.write("shop.toml", b"currency = \"USD\"\n[repeats]\nkeep = [\"hours 2026-03-05 (3 rows)\"]\n");
    let warned = shop.run("check", &[]);
    assert!(
        warned.out.contains("key repeats.keep: 'hours 2026-03-05 (3 rows)' names no rows that stand twice; remove it"),
        "{}",
        warned.out
    );
    shop.write("shop.toml", b"currency = \"USD\"\n[repeats]\nkeep = [\"row 12\"]\n");
    let refused = shop.run("check", &[]);
    assert!(refused.code == 1 && refused.out.contains("'row 12' does not begin with a table's name"), "{}", refused.out);
    shop.write("shop.toml", b"currency = \"USD\"\n[repeats]\nkeep = \"hours 2026-03-05 (3 rows)\"\n");
    let refused = shop.run("check", &[]);
    assert!(refused.code == 1 && refused.out.contains("this takes a list; write keep = [\"hours"), "{}", refused.out);
}

#[test]
fn rows_in_two_files_are_no_repeat_and_those_of_one_file_are_found_before_the_merge() {
    let shop = Trial::new(&[("orders.csv", ORDERS), ("hours.csv", HOURS), ("hours-2026.csv", HOURS)]);
    assert_eq!(found(shop.path(), &["rows-twice", "row-twice"]), []);
    shop.write("hours-2026.csv", format!("{HOURS}{}", rows(HOURS)).as_bytes());
    let problems = found(shop.path(), &ERRORS);
    assert!(problems.len() == 1 && problems[0].file == "hours-2026.csv", "{problems:?}");
}

#[test]
fn orders_whose_ids_stand_once_are_found_when_pasted_twice() {
    let orders = "order,date,design,quantity,price\nA1,2026-03-07,moon,24,4.00\n,,star,6,3\nA2,2026-03-08,star,6,3\n,,kite,6,3\n";
    let shop = Trial::new(&[("orders.csv", &format!("{orders}{}", rows(orders)))]);
    let text = shop.run("check", &[]).out.replace("\n    ", " ");
    assert!(text.contains("1 error:\n  orders.csv, row 6: rows 6 to 9 repeat rows 2 to 5;"), "{text}");
}

#[test]
fn a_counted_item_and_a_name_on_a_card_are_reported_once_each() {
    let counts = "date,item,amount,unit\n2026-03-31,butter,1,lb\n2026-03-31,flour,2,lb\n2026-03-31,sugar,2,lb\n";
    let designs = "design,tier\nmoon,simple\nstar,simple\nkite,simple\n";
    let shop = Trial::new(&[
        ("orders.csv", ORDERS),
        ("counts.csv", &format!("{counts}{}", rows(counts))),
        ("designs.csv", &format!("{designs}{}", rows(designs))),
    ]);
    let check = shop.run("check", &["--all"]);
    assert!(check.out.starts_with("6 errors:\n"), "{}", check.out);
}

#[test]
fn the_hours_log_of_the_demo_pasted_twice_is_one_error_that_skipping_mends() {
    let shop = Trial::new(&[]);
    // Reviews of it may stand beside its tables.
    for entry in std::fs::read_dir(repository(SHOP)).unwrap().flatten().filter(|entry| entry.path().is_file()) {
        shop.write(entry.file_name().to_str().unwrap(), &std::fs::read(entry.path()).unwrap());
    }
    let hours = std::fs::read_to_string(repository(SHOP).join("hours.csv")).unwrap();
    let wage = shop.wage("month", &[]);
    shop.write("hours.csv", format!("{hours}{}", rows(&hours)).as_bytes());
    let refused = shop.run("wage", &[]);
    let count = hours.lines().count();
    let expected =
        format!("1 error:\n  hours.csv, row {}: rows {} to {} repeat rows 2 to {count}; delete one", count + 1, count + 1, 2 * count - 1);
    assert!(refused.code == 1 && refused.err.replace("\n    ", " ").starts_with(&expected), "{}", refused.err);
    let skipped = shop.wage("month", &["--skip-bad-rows"]);
    assert_eq!((&skipped["rows"], &skipped["all_in"]), (&wage["rows"], &wage["all_in"]));
}

#[test]
fn hidden_orders_are_in_no_text_of_a_repeat() {
    let orders = "order,date,design,quantity,price\nQuill,2026-03-07,moon,24,4.00\nQuill,2026-03-07,star,6,3\n";
    let shop = Trial::new(&[("orders.csv", &format!("{orders}{}", rows(orders)))]);
    assert_eq!(found(shop.path(), &ERRORS).len(), 1);
    for options in [&["--hide-orders", "--all"][..], &["--hide-orders", "--json"]] {
        let text = shop.run("check", options).out;
        assert!(text.contains("is written twice") && !text.contains("Quill"), "{text}");
    }
}

/// The warnings of overlaps in an hours log, as sentences.
fn overlaps(entries: &str) -> Vec<String> {
    let shop = Trial::new(&[("orders.csv", ORDERS), ("hours.csv", &format!("date,minutes,start,end,stage,who\n{entries}"))]);
    shop.write("shop.toml", b"currency = \"USD\"\n[wage]\ntarget = 20\n[helpers]\nrobin = 16\n");
    found(shop.path(), &["overlapping-hours"]).iter().map(ToString::to_string).collect()
}

#[test]
fn entries_of_one_person_that_overlap_by_the_clock_are_warned_of() {
    let said = |row: u32, who: &str, other: u32, minutes: &str| {
        format!(
            "hours.csv, row {row}, column start: {who} entry overlaps row {other} by {minutes}; correct the times, or write who did the work"
        )
    };
    assert_eq!(overlaps("2026-03-05,,18:30,20:05,bake,\n2026-03-05,,19:30,21:00,mix,\n"), [said(3, "the", 2, "35 minutes")]);
    // Past midnight, and the later row may begin earlier.
    assert_eq!(overlaps("2026-03-06,,00:29,01:00,mix,\n2026-03-05,,23:00,00:30,bake,\n"), [said(2, "the", 3, "1 minute")]);
    // One left on covers all that follow.
    let left_on = "2026-03-05,,08:00,20:00,bake,robin\n2026-03-05,,09:00,10:00,mix,robin\n2026-03-05,,11:00,11:30,pack,robin\n";
    assert_eq!(overlaps(left_on), [said(3, "robin's", 2, "60 minutes"), said(4, "robin's", 2, "30 minutes")]);
}

#[test]
fn work_of_two_people_drying_breaks_and_touching_ends_are_no_overlap() {
    for entries in [
        "2026-03-05,,18:30,20:05,bake,\n2026-03-05,,19:30,21:00,mix,robin\n",
        "2026-03-05,,18:30,20:05,dry,\n2026-03-05,,19:30,21:00,mix,\n",
        "2026-03-05,,18:30,20:05,bake,\n2026-03-05,,20:05,21:00,mix,\n",
        "2026-03-05,,18:30,20:05,bake,\n2026-03-06,,18:30,20:05,bake,\n",
        // An hour's work in a break of the other.
        "2026-03-05,120,18:00,21:00,bake,\n2026-03-05,,19:00,20:00,mix,\n",
    ] {
        assert_eq!(overlaps(entries), [""; 0], "{entries}");
    }
    // The break is half as long: half is counted twice.
    let half = overlaps("2026-03-05,150,18:00,21:00,bake,\n2026-03-05,,19:00,20:00,mix,\n");
    assert!(half.len() == 1 && half[0].contains("by 30 minutes"), "{half:?}");
}

#[test]
fn one_row_that_stands_twice_is_a_warning() {
    let shop = Trial::new(&[
        ("orders.csv", &format!("{ORDERS}{}", rows(ORDERS))),
        (
            "purchases.csv",
            "date,item,size,unit,paid\n2026-03-01,butter,1,lb,4.50\n2026-03-01,butter,1,lb,4.50\n2026-03-08,butter,1,lb,4.50\n",
        ),
        ("hours.csv", "date,start,end,order\n2026-03-05,18:30,20:05,A1\n2026-03-05,18:30,20:05,A1\n"),
    ]);
    let check = shop.run("check", &["--all"]);
    assert_eq!(check.code, 0, "{}", check.out);
    for file in ["orders.csv", "purchases.csv", "hours.csv"] {
        let line = format!("  {file}, row 3: the row is the same as row 2; delete it if it was written twice by mistake\n");
        assert!(check.out.contains(&line), "{}", check.out);
    }
    assert!(!check.out.contains("overlaps"), "an entry written twice is told once: {}", check.out);
    let grouped = shop.run("check", &[]).out.replace("\n    ", " ");
    assert!(
        grouped.contains(
            "3 rows are the same as an earlier row of the same file: orders.csv, row 3, purchases.csv, row 3 and hours.csv, row 3."
        ),
        "{grouped}"
    );
}

#[test]
fn a_pair_of_stray_quotes_stops_every_command_and_says_nothing_of_what_is_inside() {
    let mut orders = "order,date,design,quantity,price,Customer\n".to_owned();
    for row in 2..800 {
        let customer = if row == 20 {
            "\"Mia Quill"
        } else if row == 768 {
            "Bo \"Finch\""
        } else {
            "Mia Quill"
        };
        let _ = writeln!(orders, "A{row},2026-03-07,moon,12,4.00,{customer}");
    }
    let orders = orders.replace("Bo \"Finch\"", "\"");
    let shop = Trial::new(&[("orders.csv", &orders), ("hours.csv", HOURS)]);
    for (command, options) in [("check", &["--all"][..]), ("wage", &[]), ("wage", &["--skip-bad-rows"])] {
        let outcome = shop.run(command, options);
        let text = format!("{}{}", outcome.out, outcome.err).replace("\n    ", " ");
        assert_eq!(outcome.code, 1, "{text}");
        assert!(
            text.contains(
                "orders.csv, column Customer: a cell that begins in row 20 spans 749 lines (20 to 768), and 748 of them look like rows of the \
                 table; remove the stray quote in line 20 that opens it, and the one in line 768 that closes it"
            ),
            "{text}"
        );
        assert!(!text.contains("Quill") && !text.contains("Mia"), "{text}");
    }
}

#[test]
fn check_says_how_many_orders_bear_card_fees_and_why() {
    let orders = "order,date,design,quantity,price,payments\nA1,2026-03-07,moon,24,4.00,cash\nA2,2026-03-08,moon,24,4.00,2\n\
                  A3,2026-03-09,moon,24,4.00,card\nA4,2026-03-10,moon,24,4.00,\n";
    let shop = Trial::new(&[("orders.csv", orders)]);
    shop.write("shop.toml", b"currency = \"USD\"\n[fees]\npercent = \"2.9 %\"\nfixed = 0.30\n");
    let text = shop.run("check", &[]).out.replace("\n    ", " ");
    let said = "orders.csv, column payments: 3 of 4 orders bear card fees: 2 say so, and 1 does not say, so [fees] payments counts;";
    assert!(text.contains(said), "{text}");
    shop.write("shop.toml", b"currency = \"USD\"\n");
    assert!(!shop.run("check", &[]).out.contains("bear card fees"));
}

/// The tables that are searched for repeats.
const SEARCHED: [&str; 5] = ["orders", "purchases", "hours", "overheads", "recipes"];

#[test]
fn sound_shops_repeat_no_block_and_no_order() {
    for_many_shops(150, 31, |shop, _| {
        prop_assert_eq!(found(shop.trial().path(), &ERRORS), []);
        Ok(())
    });
}

/// Whether the rows differ anywhere.
fn differ(rows: &[Row]) -> bool {
    rows.iter().any(|row| *row != rows[0])
}

#[test]
fn a_block_planted_anywhere_is_found_with_both_its_places() {
    for_many_shops(150, 32, |mut shop, mut dice| {
        let tables: Vec<&str> =
            SEARCHED.into_iter().filter(|table| shop.rows(table).len() >= 3 && differ(&shop.rows(table)[..3])).collect();
        let Some(table) = (!tables.is_empty()).then(|| dice.one(&tables)) else { return Ok(()) };
        let rows = &mut shop.tables.get_mut(table).unwrap().rows;
        let at = |dice: &mut Dice, least: usize, most: usize| {
            usize::try_from(dice.whole(i64::try_from(least).unwrap(), i64::try_from(most).unwrap())).unwrap()
        };
        let length = at(&mut dice, 3, rows.len());
        let first = at(&mut dice, 0, rows.len() - length);
        let block = rows[first..first + length].to_vec();
        if !differ(&block) {
            return Ok(());
        }
        let again = at(&mut dice, first + length, rows.len());
        rows.splice(again..again, block);
        let file = format!("{table}.csv");
        let problems = found(shop.trial().path(), &ERRORS);
        let said = format!("rows {} to {} repeat rows {} to {}", again + 2, again + length + 1, first + 2, first + length + 1);
        // Rows around it may be alike by chance: then it is found, and a row longer or elsewhere.
        let exactly = problems.iter().filter(|problem| problem.file == file && problem.what == said).count();
        let covers = |problem: &&Problem| {
            let rows: Vec<u32> = problem.place.iter().chain(&problem.other_rows).map(|place| place.row).collect();
            let planted = u32::try_from(again).unwrap() + 2..u32::try_from(again + length).unwrap() + 2;
            problem.file == file && planted.clone().filter(|row| rows.contains(row)).count() + 1 >= planted.len()
        };
        prop_assert!(exactly == 1 || problems.iter().any(|problem| covers(&problem)), "{}: {:?}", said, problems);
        prop_assert_eq!(problems.iter().filter(|problem| problem.severity == Severity::Error).count(), 1);
        Ok(())
    });
}

#[test]
fn an_order_planted_among_others_is_found() {
    let mut planted = std::sync::atomic::AtomicUsize::new(0);
    for_many_shops(150, 33, |mut shop: RandomShop, mut dice| {
        let rows = &mut shop.tables.get_mut("orders").unwrap().rows;
        let ids: Vec<String> = rows.iter().map(|row| cell(row, "order").to_owned()).collect();
        let id = dice.one(&ids);
        let order: Vec<Row> = rows.iter().filter(|row| cell(row, "order") == id).cloned().collect();
        if order.len() < 2 || !differ(&order) {
            return Ok(());
        }
        for row in order {
            let at = usize::try_from(dice.whole(0, i64::try_from(rows.len()).unwrap())).unwrap();
            rows.insert(at, row);
        }
        let problems = found(shop.trial().path(), &ERRORS);
        let is_it = |problem: &Problem| problem.found.as_deref() == Some(&id) || problem.kind.key == "rows-twice";
        prop_assert!(problems.len() == 1 && is_it(&problems[0]), "{}: {:?}", id, problems);
        planted.fetch_add(1, std::sync::atomic::Ordering::Relaxed);
        Ok(())
    });
    assert!(*planted.get_mut() > 40);
}

#[test]
fn a_row_planted_twice_and_an_overlap_are_warned_of() {
    for_many_shops(100, 34, |mut shop: RandomShop, mut dice| {
        let tables: Vec<&str> = SEARCHED.into_iter().filter(|table| !shop.rows(table).is_empty()).collect();
        let table = dice.one(&tables);
        let before = found(shop.trial().path(), &["row-twice"]).len();
        let rows = &mut shop.tables.get_mut(table).unwrap().rows;
        let row = dice.one(rows);
        let at = usize::try_from(dice.whole(0, i64::try_from(rows.len()).unwrap())).unwrap();
        rows.insert(at, row);
        prop_assert_eq!(found(shop.trial().path(), &["row-twice"]).len(), before + 1, "row {} of {}", at + 2, table);

        if shop.rows("hours").is_empty() {
            return Ok(());
        }
        let before = found(shop.trial().path(), &["overlapping-hours"]).len();
        let rows = &mut shop.tables.get_mut("hours").unwrap().rows;
        let day = "2031-02-03".to_owned();
        for (start, end) in [("21:10", "00:40"), ("23:30", "01:15")] {
            let at = usize::try_from(dice.whole(0, i64::try_from(rows.len()).unwrap())).unwrap();
            rows.insert(at, Row::from([("date", day.clone()), ("start", start.to_owned()), ("end", end.to_owned())]));
        }
        let overlaps = found(shop.trial().path(), &["overlapping-hours"]);
        let planted = overlaps.iter().filter(|problem| problem.what.ends_with("by 70 minutes")).count();
        prop_assert!(overlaps.len() == before + 1 && planted >= 1, "{:?}", overlaps);
        Ok(())
    });
}

#[test]
fn a_hundred_thousand_rows_pasted_twice_take_no_time() {
    let mut hours = "date,minutes,stage\n".to_owned();
    for row in 0..100_000_u32 {
        let _ = writeln!(hours, "{}-{:02}-{:02},{},bake", 2000 + row / 4000, 1 + row / 300 % 12, 1 + row % 28, 1 + row % 239);
    }
    let shop = Trial::new(&[("orders.csv", ORDERS), ("hours.csv", &format!("{hours}{}", rows(&hours)))]);
    let problems = found(shop.path(), &ERRORS);
    assert!(problems.iter().any(|problem| problem.other_rows.len() > 99_000), "{} problems", problems.len());
    let run = run_on(shop.path(), "check", &[]);
    assert_eq!(run.code, 1);
}
