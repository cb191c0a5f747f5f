//! A shop whose orders and hours stand in several files that overlap, each exported in ways of its own: the figures are those of the plain
//! shop, or she is asked.

use super::dress::{among_the_cookies, file, heading, in_ways_of_its_own, written_once};
use super::{QUESTIONS, answers, groups_of_errors};
use crate::harness::Trial;
use crate::random_shop::dice::Dice;
use crate::random_shop::{RandomShop, Row, cell, for_many_shops};
use proptest::prelude::*;
use std::cell::Cell;
use std::collections::{BTreeMap, BTreeSet};

/// Columns that an older export may lack.
const MAY_LACK: [&str; 4] = ["colours", "payments", "theme", "made"];

/// The shop's other tables as they are; its orders and hours in two or three files each.
fn in_several_files(shop: &RandomShop, dice: &mut Dice) -> Trial {
    let trial = shop.trial();
    let designs: BTreeSet<&str> = shop.rows("designs").iter().map(|row| cell(row, "design")).collect();
    for (name, table) in shop.tables.iter().filter(|(name, _)| ["orders", "hours"].contains(*name)) {
        std::fs::remove_file(trial.path().join(format!("{name}.csv"))).unwrap();
        let mut rows = table.rows.clone();
        if *name == "orders" {
            among_the_cookies(&mut rows, &designs, dice);
        }
        // What stands in the same files: the rows of an order, and equal rows.
        let all = |row: &Row| table.columns().iter().map(|column| cell(row, column).to_owned() + "|").collect::<String>();
        let key = |row: &Row| if *name == "orders" { cell(row, "order").to_owned() } else { all(row) };
        let lacks = dice.one(&MAY_LACK);
        let files = dice.one(&[2, 3]);
        let mut standing: BTreeMap<String, i64> = BTreeMap::new();
        for row in &rows {
            let in_files = standing.entry(key(row)).or_insert_with(|| dice.whole(1, (1 << files) - 1));
            // What the first file has no column for stands in the second, too.
            *in_files |= i64::from(!cell(row, lacks).is_empty()) << 1;
        }
        for at in 0..files {
            let of_file = rows.iter().filter(|row| standing[&key(row)] >> at & 1 == 1);
            let mut of_file: Vec<Row> = of_file.cloned().collect();
            if of_file.is_empty() {
                continue;
            }
            if *name == "orders" {
                written_once(&mut of_file, dice);
            }
            in_ways_of_its_own(name, &mut of_file, 60, dice);
            let mut columns = table.columns().to_vec();
            columns.retain(|column| *name != "orders" || at > 0 || *column != lacks);
            if dice.chance(30) {
                dice.shuffle(&mut columns);
            }
            let headings: Vec<String> = columns.iter().map(|column| heading(shop, name, column, dice)).collect();
            let lines: Vec<Vec<String>> =
                of_file.iter().map(|row| columns.iter().map(|column| cell(row, column).to_owned()).collect()).collect();
            trial.write(&format!("{name}-{at}.csv"), &file(name, &headings, &lines.iter().collect::<Vec<_>>(), dice));
        }
    }
    trial
}

#[test]
fn a_shop_in_several_files_each_written_its_own_way_gives_the_same_figures_or_asks() {
    let (read, asked) = (Cell::new(0), Cell::new(0));
    for_many_shops(60, 71, |shop, mut dice| {
        let several = in_several_files(&shop, &mut dice);
        let written = several.run("check", &["--write"]);
        let errors = groups_of_errors(&several);
        if errors.is_empty() {
            prop_assert_eq!(answers(&several), answers(&shop.trial()), "{}", written.out);
            let again = std::fs::read(several.path().join("shop.toml")).unwrap();
            several.run("check", &["--write"]);
            prop_assert_eq!(std::fs::read(several.path().join("shop.toml")).unwrap(), again);
            read.set(read.get() + 1);
        } else {
            let unasked: Vec<&String> = errors.iter().filter(|group| !QUESTIONS.contains(&group.as_str())).collect();
            prop_assert!(unasked.is_empty(), "{:?}\n{}", unasked, several.run("check", &["--all"]).out);
            asked.set(asked.get() + 1);
        }
        Ok(())
    });
    assert!(read.get() >= 15, "only {} shops were read, {} asked", read.get(), asked.get());
}
