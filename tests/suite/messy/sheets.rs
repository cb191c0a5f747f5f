//! The random shops as workbooks: each column typed, worked out by a formula or written as text, by choice; sheets under other names,
//! titles, totals and hidden rows.

use super::book::{self, Cell, Sheet};
use super::dress::{among_the_cookies, heading, written_once};
use super::look::Look;
use super::{QUESTIONS, answers, groups_of};
use crate::harness::Trial;
use crate::random_shop::dice::Dice;
use crate::random_shop::{RandomShop, cell, for_many_shops};
use chrono::NaiveDate;
use fairdozen::reading::Kind;
use fairdozen::shop::specification::TABLES;
use proptest::prelude::*;
use std::collections::BTreeSet;

/// What sheets may be called that hold a table.
const NAMES: &[(&str, &[&str])] = &[
    ("orders", &["Sales 2026", "Orders", "Sheet1"]),
    ("purchases", &["Shopping", "purchases (2)"]),
    ("hours", &["Time log", "HOURS"]),
    ("overheads", &["Bills"]),
    ("counts", &["Stock", "counts"]),
    ("designs", &["Cookies"]),
    ("recipes", &["My recipe book"]),
    ("tiers", &["Price list"]),
];

/// How a column's cells are held.
enum Form {
    Text(Look),
    Typed,
    Formula,
}

impl Form {
    fn roll(kind: Kind, dice: &mut Dice) -> Self {
        match dice.whole(0, 9) {
            0 | 1 => Self::Text(Look::plain(kind)),
            2 => Self::Text(Look::roll(kind, dice)),
            3 | 4 => Self::Formula,
            _ => Self::Typed,
        }
    }

    /// A cell as this column holds it; `plain` is how ours writes it.
    fn cell(&self, kind: Kind, plain: &str, format: &'static str, is_span: bool) -> Cell {
        let text = || Cell::Text(plain.to_owned());
        if plain.is_empty() {
            return Cell::Blank;
        }
        let number = || plain.parse::<f64>().ok();
        match (self, kind) {
            (Self::Text(look), _) => Cell::Text(look.cell(plain)),
            (_, Kind::Day) => NaiveDate::parse_from_str(plain, "%Y-%m-%d").map_or_else(|_| text(), Cell::Date),
            (_, Kind::Time | Kind::TimeOrSpan) => {
                let parts = plain.split_once(':').and_then(|(hour, minute)| Some((hour.parse::<u32>().ok()?, minute.parse::<u32>().ok()?)));
                parts.map_or_else(text, |(hour, minute)| Cell::Time(60 * hour + minute))
            }
            (_, Kind::Minutes) if is_span => {
                // A bare number that is no whole minute is odd beside durations, and says what it is.
                plain.parse().map_or_else(|_| number().map_or_else(text, |_| Cell::Text(format!("{plain} min"))), Cell::Span)
            }
            (_, Kind::Percent) => {
                let percent = plain.trim_end_matches('%').trim().parse::<f64>().ok();
                percent.map_or_else(text, |percent| Cell::Percent(percent / 100.0))
            }
            // 0 is what a program writes that does not work its formulas out.
            (Self::Formula, Kind::Money(_) | Kind::Price(_) | Kind::Minutes | Kind::Number(_) | Kind::Pieces(_)) => {
                number().map_or_else(text, |number| if number == 0.0 { Cell::Number(number, "") } else { Cell::Formula(number) })
            }
            (_, Kind::Money(_) | Kind::Price(_)) => number().map_or_else(text, |number| Cell::Number(number, format)),
            (_, Kind::Minutes | Kind::Number(_) | Kind::Size(_) | Kind::Pieces(_) | Kind::Whole | Kind::Payments) => {
                number().map_or_else(text, |number| Cell::Number(number, ""))
            }
            _ => text(),
        }
    }
}

/// The shop as one workbook, beside its settings.
fn workbook(shop: &RandomShop, dice: &mut Dice) -> Trial {
    let trial = Trial::new(&[("shop.toml", &shop.options.toml())]);
    let designs: BTreeSet<&str> = shop.rows("designs").iter().map(|row| cell(row, "design")).collect();
    let mut sheets = Vec::new();
    for (name, table) in &shop.tables {
        let mut rows = table.rows.clone();
        if *name == "orders" {
            among_the_cookies(&mut rows, &designs, dice);
            written_once(&mut rows, dice);
        }
        let specification = TABLES.iter().find(|table| table.name == *name).unwrap();
        let kind = |column: &str| specification.column(column).map_or(Kind::Text, |at| specification.columns[at].kind);
        let columns = table.columns();
        let titled = dice.chance(20);
        let mut cells: Vec<Vec<Cell>> = titled.then(|| vec![Cell::Text(format!("My {name}"))]).into_iter().collect();
        cells.push(columns.iter().map(|column| Cell::Text(heading(shop, name, column, dice))).collect());
        let forms: Vec<(Form, &str, bool)> = columns
            .iter()
            .map(|column| (Form::roll(kind(column), dice), dice.one(&["", "0", "0.00", "$#,##0.00"]), dice.chance(50)))
            .collect();
        for row in &rows {
            let held = columns.iter().zip(&forms);
            cells
                .push(held.map(|(column, (form, format, is_span))| form.cell(kind(column), cell(row, column), format, *is_span)).collect());
        }
        if *name == "orders" && dice.chance(40) {
            cells.push(vec![Cell::Text("TOTAL".to_owned())]);
        }
        let hidden = if dice.chance(30) { vec![cells.len() - 1] } else { Vec::new() };
        let others = NAMES.iter().find(|(of, _)| of == name).map(|(_, names)| *names).unwrap_or_default();
        let called = if !others.is_empty() && dice.chance(35) { dice.one(others) } else { name };
        sheets.push(Sheet { name: called.to_owned(), rows: cells, hidden });
    }
    if dice.chance(50) {
        sheets.push(Sheet::of_texts("Notes", &[vec!["to do"], vec!["buy ribbon"]]));
    }
    let ending = dice.one(&["xlsx", "ods"]);
    trial.write(&format!("cookies.{ending}"), &book::bytes(&sheets, ending));
    trial
}

#[test]
fn a_shop_in_a_workbook_reads_as_it_was_meant_or_asks() {
    let (read, asked) = (std::cell::Cell::new(0), std::cell::Cell::new(0));
    for_many_shops(24, 71, |shop, mut dice| {
        let sheets = workbook(&shop, &mut dice);
        let written = sheets.run("check", &["--write"]);
        let errors = groups_of(&sheets, "error");
        let warnings = groups_of(&sheets, "warning");
        if errors.is_empty() && !warnings.iter().any(|group| group == "sheet-unclear" || group == "sheet-unread") {
            prop_assert_eq!(answers(&sheets), answers(&shop.trial()), "{}", written.out);
            read.set(read.get() + 1);
        } else {
            let is_question = |group: &String| QUESTIONS.contains(&group.as_str()) || (group == "missing-file" && !warnings.is_empty());
            let unasked: Vec<&String> = errors.iter().filter(|group| !is_question(group)).collect();
            let is_unread = warnings.iter().any(|group| group == "sheet-unclear");
            prop_assert!(unasked.is_empty() || is_unread, "{:?}\n{}", unasked, sheets.run("check", &["--all"]).out);
            asked.set(asked.get() + 1);
        }
        Ok(())
    });
    assert!(read.get() >= 12, "only {} shops were read, {} asked", read.get(), asked.get());
}
