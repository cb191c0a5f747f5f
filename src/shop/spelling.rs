//! One spelling for each name: texts that differ only in letter case or in blanks name one thing.
//!
//! The spelling of a card counts; without one, the most frequent, of equals the first in alphabetical order, so that the order of rows
//! changes nothing. Every cell read so is counted in the table's account of its columns.

use super::recipes::{EVERY_DELIVERY, EVERY_ORDER};
use super::settings::Settings;
use crate::reading::Table;
use crate::reading::folding;
use std::cmp::Reverse;
use std::collections::BTreeMap;

/// The columns in which the same things are named. Designs, recipes and items are named in one column of the recipes, so they
/// are spelt together.
struct Namespace {
    /// Table and column; those of cards first.
    columns: &'static [(&'static str, &'static str)],
    /// How many of them are of cards, whose spelling counts.
    cards: usize,
}

const NAMESPACES: &[Namespace] = &[
    Namespace {
        columns: &[
            ("designs", "design"),
            ("items", "item"),
            ("recipes", "for"),
            ("recipes", "item"),
            ("orders", "design"),
            ("hours", "design"),
            ("purchases", "item"),
            ("counts", "item"),
        ],
        cards: 2,
    },
    Namespace { columns: &[("tiers", "tier"), ("designs", "tier")], cards: 1 },
    Namespace { columns: &[("designs", "theme"), ("orders", "theme")], cards: 1 },
    Namespace { columns: &[("orders", "order")], cards: 0 },
    Namespace { columns: &[("orders", "channel")], cards: 0 },
    Namespace { columns: &[("hours", "who")], cards: 0 },
];

/// Gives the names in the tables one spelling each.
pub(crate) fn unify(tables: &mut BTreeMap<&str, Option<Table>>, settings: &Settings) {
    for namespace in NAMESPACES {
        let spelt = spellings(namespace, tables, settings);
        for (table, column) in namespace.columns {
            if let Some(Some(table)) = tables.get_mut(table) {
                table.respell(column, |text| spelt.get(&folding::name(text)).map(String::as_str));
            }
        }
    }
}

/// The spelling of each name of a namespace, by the name folded.
fn spellings(namespace: &Namespace, tables: &BTreeMap<&str, Option<Table>>, settings: &Settings) -> BTreeMap<String, String> {
    // The best of a name: of a setting or a card before others, then the most frequent, then the first by alphabet.
    let mut best: BTreeMap<String, (Reverse<(bool, usize)>, String)> = BTreeMap::new();
    let mut offer = |text: &str, counts: bool, times: usize| {
        let offered = (Reverse((counts, times)), text.to_owned());
        let best = best.entry(folding::name(text)).or_insert_with(|| offered.clone());
        if offered < *best {
            *best = offered;
        }
    };
    let mut times: BTreeMap<(String, bool), usize> = BTreeMap::new();
    for (at, (table, column)) in namespace.columns.iter().enumerate() {
        let Some(Some(table)) = tables.get(table) else { continue };
        for (text, count) in table.tally(column) {
            *times.entry((text.to_owned(), at < namespace.cards)).or_default() += count;
        }
        if (namespace.columns[at], at < namespace.cards) == (("designs", "design"), true) {
            let others = table.tally("also_called");
            for other in others.keys().flat_map(|others| others.split(';')).map(str::trim).filter(|other| !other.is_empty()) {
                *times.entry((other.to_owned(), true)).or_default() += 1;
            }
        }
    }
    for ((text, counts), times) in times {
        offer(&text, counts, times);
    }
    for fixed in fixed(namespace.columns[0], settings) {
        offer(fixed, true, usize::MAX);
    }
    best.into_iter().map(|(folded, (_, text))| (folded, text)).collect()
}

/// Names whose spelling stands in the settings or in this program.
fn fixed<'a>(column: (&str, &str), settings: &'a Settings) -> Vec<&'a str> {
    match column {
        ("designs", "design") => vec![EVERY_ORDER, EVERY_DELIVERY],
        ("orders", "channel") => settings.channel_fees.keys().map(String::as_str).collect(),
        ("hours", "who") => settings.helpers.keys().map(String::as_str).collect(),
        _ => Vec::new(),
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::reading::table::Reading;
    use crate::reading::{Cells, Known, TableSpecification};
    use crate::shop::specification::{DESIGNS, HOURS, ORDERS};
    use std::collections::BTreeSet;

    fn table(specification: &TableSpecification, text: &str) -> Table {
        let cells = Cells::of_csv(&specification.file(), text.as_bytes(), Known { specification, columns: &BTreeMap::new() });
        Table::read(specification, &cells, &Reading::default(), &BTreeSet::new(), &mut Vec::new())
    }

    fn designs_of(tables: &[(&'static str, Table)], wanted: &str) -> (Vec<String>, Vec<(String, String, usize)>) {
        let mut tables: BTreeMap<&str, Option<Table>> = tables.iter().map(|(name, table)| (*name, Some(table.clone()))).collect();
        unify(&mut tables, &Settings::default());
        let mut table = tables.remove(wanted).flatten().unwrap();
        let words = table.understood.iter().flat_map(|column| &column.words);
        let words = words.map(|word| (word.found.clone(), word.read_as.clone(), word.cells)).collect();
        let (values, names) = table.text("design");
        (values.into_iter().flatten().map(|id| names.text(id).to_owned()).collect(), words)
    }

    #[test]
    fn names_that_differ_in_case_or_blanks_are_one_as_the_card_spells_it() {
        let orders =
            table(&ORDERS, "order,date,design,quantity,price\n1,2026-09-01,Leaf,1,1\n2,2026-09-01,Leaf,1,1\n3,2026-09-01,paper  Owl,1,1\n");
        let hours = table(&HOURS, "date,minutes,design\n2026-09-01,5,leaf\n");
        let (designs, words) = designs_of(&[("orders", orders.clone()), ("hours", hours.clone())], "hours");
        assert_eq!((designs, words), (vec!["Leaf".to_owned()], vec![("leaf".to_owned(), "Leaf".to_owned(), 1)]));
        let card = table(&DESIGNS, "design,also_called\nleaf,\nowl,Paper owl; tawny\n");
        let (designs, words) = designs_of(&[("orders", orders), ("hours", hours), ("designs", card)], "orders");
        assert_eq!(designs, ["leaf", "leaf", "Paper owl"]);
        assert_eq!(words, [("Leaf".to_owned(), "leaf".to_owned(), 2), ("paper  Owl".to_owned(), "Paper owl".to_owned(), 1)]);
    }

    #[test]
    fn equally_frequent_spellings_are_settled_by_the_alphabet() {
        for rows in [["bell", "Bell"], ["Bell", "bell"]] {
            let text = format!("order,date,design,quantity,price\n1,2026-09-01,{},1,1\n1,2026-09-01,{},1,1\n", rows[0], rows[1]);
            assert_eq!(designs_of(&[("orders", table(&ORDERS, &text))], "orders").0, ["Bell", "Bell"]);
        }
    }
}
