//! Purchases: what was bought or returned, for how much.

use super::items::{Measure, measures};
use super::kinds::MIXED_SIGNS;
use crate::ids::{Id, Item, Names, Receipt, Text};
use crate::quantity::Day;
use crate::reading::{Place, Problem, Table};
use rust_decimal::Decimal;

/// One item on a receipt: bought, or returned.
#[derive(Debug, Clone)]
pub struct Purchase {
    /// The day.
    pub day: Day,
    /// The item, by its number in the shop's list.
    pub item: Id<Item>,
    /// Packs × size, in `measure`; negative when returned.
    pub amount: Decimal,
    /// The unit.
    pub measure: Measure,
    /// Paid, in millionths of the main unit; negative when returned.
    pub paid: i64,
    /// Shipping written on the row, for its whole receipt.
    pub shipping: i64,
    /// Tax written on the row, for its whole receipt.
    pub tax: i64,
    /// The receipt it belongs to.
    pub receipt: Option<Id<Receipt>>,
    /// Where it stands.
    pub place: Place,
}

/// The purchases log.
#[derive(Debug, Clone, Default)]
pub struct Purchases {
    /// Its rows.
    pub rows: Vec<Purchase>,
}

impl Purchases {
    /// Reads the `purchases` log. Its item column comes apart, because all items are numbered before; a row that lacks what a purchase
    /// needs is left out, with a problem.
    pub fn read(
        mut table: Table,
        (items, item_names): (Vec<Option<Id<Text>>>, Names<Text>),
        all_items: &Names<Item>,
        problems: &mut Vec<Problem>,
    ) -> Self {
        let days = table.days("date");
        let packs = table.numbers("packs");
        let sizes = table.numbers("size");
        let (units, unit_names) = table.text("unit");
        let paid = table.millionths("paid");
        let shipping = table.millionths("shipping");
        let tax = table.millionths("tax");
        let (receipt, _) = table.names("receipt");
        let measures = measures(&table, (&items, &item_names), (&units, &unit_names), problems);
        let mut rows = Vec::with_capacity(table.rows());
        for row in 0..table.rows() {
            let packs = packs[row].unwrap_or(Decimal::ONE);
            if let Some(paid) = paid[row]
                && ((packs.is_sign_negative() && paid > 0) || (packs.is_sign_positive() && paid < 0))
            {
                let problem = table.problem(&MIXED_SIGNS, row, "paid", "packs and paid do not have the same sign");
                problems.push(problem.instead("make both negative for goods returned, both positive for goods bought"));
                continue;
            }
            let (Some(day), Some(item), Some(size), Some(measure), Some(paid)) =
                (days[row], items[row], sizes[row], measures[row], paid[row])
            else {
                continue;
            };
            let (Some(item), Some(amount)) = (all_items.find(item_names.text(item)), packs.checked_mul(size)) else { continue };
            rows.push(Purchase {
                day,
                item,
                amount,
                measure,
                paid,
                shipping: shipping[row].unwrap_or(0),
                tax: tax[row].unwrap_or(0),
                receipt: receipt[row],
                place: table.places[row],
            });
        }
        Self { rows }
    }
}
