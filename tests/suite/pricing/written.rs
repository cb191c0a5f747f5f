//! The new list in the shop's own tables.

use super::{CARD, SEASON, by_hand, demo_copy, files, fine, flowing, json, number, rows};
use crate::harness::{Trial, figure, row, run_on};
use rust_decimal::Decimal;
use serde_json::Value;
use std::path::Path;

#[test]
fn writing_adds_rows_and_changes_nothing_else() {
    let shop = demo_copy();
    let before = files(shop.path());
    let facts = fine(shop.run("export", &[]));
    let said = fine(shop.run("tiers", &["--write"]));
    assert!(said.contains("The new list is in tiers.csv: 4 prices from 2026-11-01; the old rows are still there."), "{said}");
    let after = files(shop.path());
    for (name, bytes) in &after {
        match name.as_str() {
            "tiers.csv" => assert!(bytes.starts_with(&before[name]) && bytes.len() > before[name].len()),
            _ => assert!(bytes == &before[name], "{name}"),
        }
    }
    assert_eq!(after.len(), before.len());
    let added = String::from_utf8(after["tiers.csv"][before["tiers.csv"].len()..].to_vec()).unwrap();
    assert!(added.lines().count() == 4 && added.lines().all(|line| line.ends_with(",2026-11-01")), "{added}");
    assert_eq!(fine(shop.run("export", &[])), facts, "no past figure changed");
    // A second time there is nothing to write; another list from that day would be a second one.
    let again = fine(shop.run("tiers", &["--write"]));
    assert!(again.contains("\nNothing was written: this is your list already.\n"), "{again}");
    let other = shop.run("tiers", &["--write", "--target", "25"]);
    assert_eq!(other.code, 2);
    assert!(other.err.contains("already has a price for numeral from 2026-11-01") && other.err.contains("--starts"), "{}", other.err);
    assert_eq!(files(shop.path()), after);
    let quote = json(shop.path(), "quote", &["6 character"]);
    assert!(number(&quote["rows"][0], "price_per_piece") > Decimal::from(15), "quotes are at the newest list");
    let quote = json(shop.path(), "quote", &["6 character", "--date", "2026-10-31"]);
    assert_eq!(figure(&quote["rows"][0], "price_per_piece"), "11.000000");
}

/// A gate among acorns that takes ten times as long moves up; its past row has no price of its own, and keeps the one it had.
#[test]
fn a_design_moves_and_its_past_stays() {
    let shop = by_hand("20\nfloor = 15");
    shop.write("designs.csv", b"design,tier,minutes_each,mine\r\nacorn,small,2,x\r\ngate,small,30,\"y,z\"\r\ntower,large,32,\r\n");
    shop.write(
        "orders.csv",
        b"order,date,design,quantity,price,who\nA1,2026-03-10,acorn,12,,Ann\nA1,2026-03-10,gate,4,,\nA1,2026-03-10,tower,4,,\n",
    );
    shop.write("hours.csv", b"date,minutes,stage,order\n2026-03-09,272,decorate,A1\n");
    let before = files(shop.path());
    let facts = fine(shop.run("export", &CARD));
    let folder = tempfile::tempdir().unwrap();
    let out = folder.path().to_str().unwrap();
    let refused = shop.run("tiers", &["--write", "--minutes", "card", "--starts", "2026-03-10"]);
    assert_eq!((refused.code, refused.out.as_str()), (1, ""));
    assert!(refused.err.contains("2 rows of orders.csv (gate, tower) have no price of their own"), "{}", refused.err);
    assert_eq!(files(shop.path()), before, "nothing was written");
    let said = fine(shop.run("tiers", &["--write", "--minutes", "card", "--out", out]));
    assert!(said.contains("New tiers in designs.csv: gate to large."), "{said}");
    let after = files(shop.path());
    assert_eq!(
        String::from_utf8(after["designs.csv"].clone()).unwrap(),
        "design,tier,minutes_each,mine,earlier_tiers\r\nacorn,small,2,x,\r\ngate,large,30,\"y,z\",small until 2026-03-31\r\ntower,large,32,,\r\n"
    );
    assert_eq!(after["orders.csv"], before["orders.csv"]);
    assert!(String::from_utf8(after["tiers.csv"].clone()).unwrap().ends_with(",2026-04-01\n"));
    let money = |facts: &str| facts.lines().map(|line| line.split(',').skip(13).take(10).collect::<Vec<_>>().join(",")).collect::<Vec<_>>();
    assert_eq!(money(&fine(shop.run("export", &CARD))), money(&facts));
    // Its list price of that time is still 3.00; from the list's first day on it is that of its new tier, and the list stays.
    let quoted = |day: &str| {
        let quote = json(shop.path(), "quote", &[&["1 gate", "--date", day], &CARD[..]].concat());
        (quote["rows"][0]["tier"].as_str().unwrap().to_owned(), figure(&quote["rows"][0], "price_per_piece").to_owned())
    };
    assert_eq!(quoted("2026-03-31"), ("small".into(), "3.000000".into()));
    assert_eq!(quoted("2026-04-01"), ("large".into(), "10.500000".into()));
    let again = json(shop.path(), "tiers", &CARD);
    for design in rows(&again, "rows") {
        assert_eq!((&design["old_price"], &design["old_tier"]), (&design["new_price"], &design["new_tier"]), "{design}");
    }
    assert!(fine(shop.run("tiers", &CARD)).contains("\nThis is your list already: there is nothing to write.\n"));
}

/// What a list with moved designs and a new tier promises, `whatif` finds: from the list itself, before it is written and after.
#[test]
fn a_list_that_moves_designs_keeps_its_promise_when_it_is_written() {
    for tiers in ["3", "5"] {
        let shop = demo_copy();
        let folder = tempfile::tempdir().unwrap();
        let out = folder.path().to_str().unwrap();
        let file = folder.path().join("next-list.csv");
        let options = ["--tiers", tiers, "--minutes", "card"];
        let list = json(shop.path(), "tiers", &[&options[..], &["--out", out]].concat());
        let would = || json(shop.path(), "whatif", &[&["--prices", file.to_str().unwrap()], &SEASON[..], &CARD].concat());
        let before = would();
        for field in ["revenue", "owner_pay", "wage_per_hour"] {
            assert_eq!(list["season"]["after"][field], before["all_in"]["after"][field], "{tiers} {field}");
        }
        let (facts, tables) = (fine(shop.run("export", &CARD)), files(shop.path()));
        fine(shop.run("tiers", &[&options[..], &["--write"]].concat()));
        let changed: Vec<String> =
            files(shop.path()).into_iter().filter(|(name, bytes)| tables[name] != *bytes).map(|(name, _)| name).collect();
        assert_eq!(changed, ["designs.csv", "tiers.csv"]);
        assert_eq!(shop.run("check", &[]).code, 0);
        assert_eq!(would()["all_in"], before["all_in"], "{tiers}");
        // By design and day nothing else changed: only the tiers' own column.
        let without_tier = |facts: &str| -> Vec<String> {
            let at = facts.lines().next().unwrap().split(',').position(|name| name == "tier").unwrap();
            let cells =
                |line: &str| line.split(',').enumerate().filter(|(column, _)| *column != at).map(|(_, cell)| cell.to_owned()).collect();
            facts
                .lines()
                .map(|line| {
                    let cells: Vec<String> = cells(line);
                    cells.join(",")
                })
                .collect()
        };
        assert!(without_tier(&fine(shop.run("export", &CARD))) == without_tier(&facts), "{tiers}: no past figure changed");
        // Asked again, the list is the one there is.
        let again = json(shop.path(), "tiers", &options);
        for (one, other) in rows(&list, "rows").iter().zip(rows(&again, "rows")) {
            assert_eq!((&one["key"], &one["new_price"], &one["fair_price"]), (&other["key"], &other["old_price"], &other["fair_price"]));
            assert_eq!(other["old_price"], other["new_price"]);
        }
        // Its own list is no change, and the next list promises the same of the season that it began in.
        let own = shop.path().join("tiers.csv");
        let own = json(shop.path(), "whatif", &[&["--prices", own.to_str().unwrap()], &CARD[..]].concat());
        assert_eq!(own["all_in"]["before"], own["all_in"]["after"], "{tiers}");
        let next = json(shop.path(), "tiers", &["--tiers", "2", "--minutes", "card", "--out", out]);
        assert_eq!(next["season"]["after"]["revenue"], would()["all_in"]["after"]["revenue"], "{tiers}");
    }
}

/// A list from an earlier day takes the place of one that was to start later, for the designs that move too.
#[test]
fn a_list_written_from_an_earlier_day_holds_from_that_day() {
    let shop = Trial::new(&[
        ("shop.toml", "currency = \"USD\"\n[wage]\ntarget = 20\n"),
        ("tiers.csv", "tier,price\nshape,4.00\nscene,8.00\n"),
        ("designs.csv", "design,tier,minutes_each\nbell,shape,10\nstar,shape,11\nmoth,scene,20\nfox,shape,24\n"),
        (
            "orders.csv",
            "order,date,design,quantity,price\nA,2026-03-10,bell,12,\nA,2026-03-10,star,12,\nA,2026-03-10,moth,12,\nA,2026-03-10,fox,12,\n",
        ),
        ("hours.csv", "date,minutes,stage,order\n2026-03-09,780,decorate,A\n"),
    ]);
    fine(shop.run("tiers", &["--write", "--minutes", "card", "--starts", "2027-01-01"]));
    let card = || std::fs::read_to_string(shop.path().join("designs.csv")).unwrap();
    assert!(card().contains("fox,scene,24,shape until 2026-12-31"), "{}", card());
    let text = flowing(&fine(shop.run("tiers", &["--write", "--minutes", "card"])));
    assert!(text.contains("fox from shape to scene") && text.contains("New tiers in designs.csv: fox to scene."), "{text}");
    assert!(card().contains("fox,scene,24,shape until 2026-03-31"), "{}", card());
    let quote = |day: &str| json(shop.path(), "quote", &[&["12 fox", "--date", day], &CARD[..]].concat())["rows"][0]["tier"].clone();
    assert_eq!((quote("2026-03-31"), quote("2026-06-01")), ("shape".into(), "scene".into()));
    assert_eq!(shop.run("check", &[]).code, 0);
}

/// What the season did not sell is not on the list, and stays where it is.
#[test]
fn designs_out_of_season_stay_in_their_tier() {
    for options in [&[][..], &["--keep"]] {
        let shop = by_hand("20");
        shop.write("designs.csv", b"design,tier,minutes_each\nacorn,small,2\ngate,large,10\ncastle,wedding,60\n");
        shop.write("tiers.csv", b"tier,price\nsmall,3.00\nlarge,2.00\nwedding,40.00\n");
        let text = fine(shop.run("tiers", &[&["--write", "--details", "--minutes", "card"], options].concat()));
        assert!(text.contains("Not sold in this period, so not on the list: castle (wedding)."), "{text}");
        assert!(std::fs::read_to_string(shop.path().join("designs.csv")).unwrap().contains("castle,wedding,60\n"));
        let quote = json(shop.path(), "quote", &[&["1 castle"], &CARD[..]].concat());
        assert_eq!(figure(&quote, "price"), "40.000000");
    }
}

#[test]
fn keeping_tiers_asks_for_one_for_each_design_sold() {
    let shop = by_hand("20");
    shop.write("designs.csv", b"design,tier,minutes_each\nacorn,small,2\ngate,,10\n");
    shop.write("orders.csv", b"order,date,design,quantity,price\nA1,2026-03-10,acorn,12,\nA1,2026-03-10,gate,4,9\n");
    let told = shop.run("tiers", &["--keep", "--minutes", "card"]);
    assert!(told.code == 2 && told.err.contains("designs.csv has no tier for gate"), "{}", told.err);
    // Moved into a tier, it had no list price before: its own list stays no change.
    fine(shop.run("tiers", &["--tiers", "1", "--write", "--minutes", "card"]));
    assert!(std::fs::read_to_string(shop.path().join("designs.csv")).unwrap().contains("no tier until 2026-03-31"));
    let own = shop.path().join("tiers.csv");
    let own = json(shop.path(), "whatif", &[&["--prices", own.to_str().unwrap()], &CARD[..]].concat());
    assert_eq!(own["all_in"]["before"], own["all_in"]["after"]);
}

/// A design may be called as its tier is. Where it alone moves, the list still says what each design costs.
#[test]
fn a_design_named_as_its_tier_moves_by_itself() {
    let shop = by_hand("20\nfloor = 15");
    shop.write("designs.csv", b"design,tier,minutes_each\nacorn,small,2\nsmall,small,30\ntower,large,32\n");
    shop.write(
        "orders.csv",
        b"order,date,design,quantity,price\nA1,2026-03-10,acorn,12,\nA1,2026-03-10,small,4,\nA1,2026-03-10,tower,4,\n",
    );
    shop.write("hours.csv", b"date,minutes,stage,order\n2026-03-09,272,decorate,A1\n");
    let folder = tempfile::tempdir().unwrap();
    let list = json(shop.path(), "tiers", &[&CARD[..], &["--out", folder.path().to_str().unwrap()]].concat());
    assert_eq!((&row(&list, "small")["new_tier"], &row(&list, "acorn")["new_tier"]), (&"large".into(), &"small".into()));
    let file = folder.path().join("next-list.csv");
    let would = json(shop.path(), "whatif", &[&["--prices", file.to_str().unwrap(), "--by", "design"], &CARD[..]].concat());
    for design in rows(&list, "rows") {
        let name = design["key"].as_str().unwrap();
        let found = row(&would, name);
        assert_eq!(number(&found["after"], "revenue"), number(design, "new_price") * number(&found["after"], "pieces"), "{name}");
    }
}

/// The command that stands below the list finds what the list says, whatever the list was asked for, from a folder with a space too.
#[test]
fn the_command_printed_with_the_list_confirms_it() {
    let demo = demo_copy();
    let folder = tempfile::tempdir().unwrap();
    let shop = folder.path().join("my shop's tables");
    std::fs::create_dir(&shop).unwrap();
    for (name, bytes) in files(demo.path()) {
        std::fs::write(shop.join(name), bytes).unwrap();
    }
    let out = shop.join("next");
    let options = [
        "--tiers",
        "5",
        "--target",
        "22.5",
        "--if",
        "butter +20%",
        "--cost-flow",
        "fifo",
        "--minutes",
        "card",
        "--out",
        out.to_str().unwrap(),
    ];
    let list = json(&shop, "tiers", &options);
    let text = fine(run_on(&shop, "tiers", &options));
    let command = text.lines().find(|line| line.trim_start().starts_with("fairdozen whatif ")).unwrap().trim();
    let words = words_of(command);
    let would =
        run_on(Path::new(&words[2]), "whatif", &[words[3..].iter().map(String::as_str).collect::<Vec<_>>(), vec!["--json"]].concat());
    let would: Value = serde_json::from_str(&fine(would)).unwrap();
    assert_eq!(would["target"], "22.500000");
    for when in ["before", "after"] {
        for field in ["revenue", "owner_pay", "wage_per_hour"] {
            assert_eq!(list["season"][when][field], would["all_in"][when][field], "{when} {field}: {command}");
        }
    }
}

/// A command's words as a shell reads them: blanks part them, but within single quotes; a backslash keeps the next letter.
fn words_of(command: &str) -> Vec<String> {
    let (mut words, mut word, mut quoted) = (Vec::new(), String::new(), false);
    let mut letters = command.chars();
    while let Some(letter) = letters.next() {
        match letter {
            '\'' => quoted = !quoted,
            '\\' if !quoted => word.extend(letters.next()),
            ' ' if !quoted => words.push(std::mem::take(&mut word)),
            _ => word.push(letter),
        }
    }
    words.push(word);
    words
}
