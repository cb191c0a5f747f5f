//! The orders an hours entry names: an id, ids joined by `+`, or a hand-over date.

use super::orders::{Orders, Status};
use crate::ids::{Id, Order};
use crate::quantity::Day;
use crate::reading::Advice;
use crate::reading::nearest::nearest;
use std::collections::{BTreeMap, HashMap};

/// Turns order cells into numbered sets of orders; equal sets get one number.
pub(super) struct Linker<'a> {
    orders: &'a Orders,
    handed_over: BTreeMap<Day, Vec<Id<Order>>>,
    numbers: HashMap<Vec<Id<Order>>, usize>,
    links: Vec<Vec<Id<Order>>>,
}

impl<'a> Linker<'a> {
    /// Looks orders up by id and by hand-over date.
    pub fn new(orders: &'a Orders) -> Self {
        let mut handed_over: BTreeMap<Day, Vec<Id<Order>>> = BTreeMap::new();
        for (order, head) in orders.heads.pairs() {
            let Some(day) = head.day else { continue };
            let that_day = handed_over.entry(day).or_default();
            if head.status == Status::Done {
                that_day.push(order);
            }
        }
        Self { orders, handed_over, numbers: HashMap::new(), links: Vec::new() }
    }

    /// Returns the number of the set that a cell names: an id, ids joined by `+`, or a hand-over date.
    ///
    /// # Errors
    /// What to write instead, where a part of it names no order.
    pub fn link(&mut self, text: &str) -> Result<usize, Advice> {
        let mut set = Vec::new();
        if let Some(order) = self.orders.ids.find(text) {
            set.push(order);
        } else {
            for part in text.split('+').map(str::trim) {
                if let Some(order) = self.orders.ids.find(part) {
                    set.push(order);
                } else if let Some(day) = Day::parse(part) {
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
