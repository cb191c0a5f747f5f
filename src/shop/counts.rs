//! Stock counts.

use super::items::{Measure, measures};
use super::kinds::COUNTED_TWICE;
use crate::ids::{Id, Item, Names, Text};
use crate::quantity::Day;
use crate::reading::{Place, Problem, Table};
use rust_decimal::Decimal;
use std::collections::BTreeMap;

/// How much of an item was left at the end of a day.
#[derive(Debug, Clone)]
pub struct Count {
    /// The day.
    pub day: Day,
    /// The item, by its number in the shop's list.
    pub item: Id<Item>,
    /// How much, in `measure`.
    pub amount: Decimal,
    /// The unit.
    pub measure: Measure,
    /// Where it stands.
    pub place: Place,
}

/// Reads the `counts` log; a second count of an item on one day is a problem.
pub fn read(
    mut table: Table,
    (items, item_names): (Vec<Option<Id<Text>>>, Names<Text>),
    all_items: &Names<Item>,
    problems: &mut Vec<Problem>,
) -> Vec<Count> {
    let days = table.days("date");
    let amounts = table.numbers("amount");
    let (units, unit_names) = table.text("unit");
    let measures = measures(&table, (&items, &item_names), (&units, &unit_names), problems);
    let mut counts = Vec::with_capacity(table.rows());
    let mut first: BTreeMap<(Id<Item>, Day), Place> = BTreeMap::new();
    for row in 0..table.rows() {
        let (Some(day), Some(text), Some(amount), Some(measure)) = (days[row], items[row], amounts[row], measures[row]) else { continue };
        let Some(item) = all_items.find(item_names.text(text)) else { continue };
        let place = table.places[row];
        if let Some(first) = first.insert((item, day), place) {
            let what = format!("was counted twice that day, first in row {}", first.row);
            problems.push(
                table
                    .problem(&COUNTED_TWICE, row, "item", what)
                    .found(item_names.text(text))
                    .instead("write one row with the whole amount"),
            );
            continue;
        }
        counts.push(Count { day, item, amount, measure, place });
    }
    counts
}
