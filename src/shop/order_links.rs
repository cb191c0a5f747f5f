//! The orders an hours entry names: an id, ids joined by `+`, `&` or a comma, or a hand-over date.

use super::orders::{Orders, Status};
use crate::ids::{Id, Names, Order, Text};
use crate::quantity::Day;
use crate::reading::Advice;
use crate::reading::folding;
use crate::reading::format::date::{self, DateStyle};
use crate::reading::format::{Evidence, weigh};
use crate::reading::nearest::nearest;
use std::collections::{BTreeMap, HashMap};

/// Turns order cells into numbered sets of orders; equal sets get one number.
pub(super) struct Linker<'a> {
    orders: &'a Orders,
    /// How hand-over dates are written.
    dates: DateStyle,
    /// By id, folded.
    by_folded: HashMap<String, Id<Order>>,
    handed_over: BTreeMap<Day, Vec<Id<Order>>>,
    numbers: HashMap<Vec<Id<Order>>, usize>,
    links: Vec<Vec<Id<Order>>>,
}

impl<'a> Linker<'a> {
    /// Looks orders up by id and by hand-over date. Dates are written as those of the orders, else as the cells themselves show; where
    /// neither tells day and month apart, only dates that say themselves are read.
    pub fn new(orders: &'a Orders, cells: &Names<Text>) -> Self {
        let unnamed: Vec<&str> = cells.iter().filter(|cell| orders.ids.find(cell).is_none()).collect();
        let parts = unnamed.iter().flat_map(|cell| cell.split('+').map(str::trim));
        let dates = orders.dates.unwrap_or_else(|| match weigh(&parts, date::read) {
            Evidence::Found { style, .. } => style,
            Evidence::None | Evidence::Open { .. } => DateStyle::YearMonthDay,
        });
        let mut handed_over: BTreeMap<Day, Vec<Id<Order>>> = BTreeMap::new();
        for (order, head) in orders.heads.pairs() {
            let that_day = handed_over.entry(head.day).or_default();
            if head.status == Status::Done {
                that_day.push(order);
            }
        }
        let by_folded = orders.ids.pairs().map(|(order, id)| (folding::name(id), order)).collect();
        Self { orders, by_folded, dates, handed_over, numbers: HashMap::new(), links: Vec::new() }
    }

    /// The order of an id, whatever its letter case and blanks.
    fn order(&self, id: &str) -> Option<Id<Order>> {
        self.orders.ids.find(id).or_else(|| self.by_folded.get(&folding::name(id)).copied())
    }

    /// Returns the number of the set that a cell names: an id as written; else ids and hand-over dates joined by `+`, `&` or commas.
    ///
    /// # Errors
    /// What to write instead, where a part of it names no order.
    pub fn link(&mut self, text: &str) -> Result<usize, Advice> {
        let mut set = Vec::new();
        if let Some(order) = self.order(text) {
            set.push(order);
        } else {
            for part in text.split(['+', '&', ',']).map(str::trim) {
                if let Some(order) = self.order(part) {
                    set.push(order);
                } else if let Some(day) = date::read(part, self.dates) {
                    match self.handed_over.get(&day) {
                        Some(orders) => set.extend(orders),
                        None => return Err(format!("no order was handed over on {day}: write its name, or leave the cell blank").into()),
                    }
                } else {
                    return Err(match nearest(part, self.orders.ids.iter()) {
                        Some(near) => Advice::DidYouMean(near.to_owned()),
                        None => "spell it as orders.csv does, or leave the cell blank".into(),
                    });
                }
            }
        }
        set.sort_unstable();
        set.dedup();
        let next = self.links.len();
        let number = *self.numbers.entry(set.clone()).or_insert(next);
        if number == next {
            self.links.push(set);
        }
        Ok(number)
    }
}

impl Linker<'_> {
    /// Returns the sets in sorted order, and for each earlier number its place among them.
    pub fn sorted(mut self) -> (Vec<Vec<Id<Order>>>, Vec<usize>) {
        let mut order: Vec<usize> = (0..self.links.len()).collect();
        order.sort_unstable_by(|one, other| self.links[*one].cmp(&self.links[*other]));
        let mut number = vec![0; order.len()];
        for (place, link) in order.iter().enumerate() {
            number[*link] = place;
        }
        (order.into_iter().map(|link| std::mem::take(&mut self.links[link])).collect(), number)
    }
}
