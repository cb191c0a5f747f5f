//! The orders an hours entry names: an id, ids joined by `+`, `&` or a comma, or a hand-over date.

use super::orders::{Orders, Status};
use crate::ids::{Id, Names, Order, Text};
use crate::quantity::Day;
use crate::reading::Advice;
use crate::reading::folding;
use crate::reading::format::Evidence;
use crate::reading::format::date::{self, DateStyle};
use crate::reading::nearest::nearest;
use std::collections::{BTreeMap, HashMap};

/// Why a cell names no order.
pub(super) enum NoLink {
    /// It is none; what to write instead.
    Unknown(Advice),
    /// A part of it is a date, and some order has none that can be read, which is a problem already.
    Undated,
    /// A part of it is a date, and nothing tells which of several.
    OneOfSeveral(String, Vec<(DateStyle, Day)>),
}

/// Turns order cells into numbered sets of orders; equal sets get one number.
pub(super) struct Linker<'a> {
    orders: &'a Orders,
    /// How hand-over dates are written; several styles where nothing tells which.
    dates: Vec<DateStyle>,
    /// By id, folded.
    by_folded: HashMap<String, Id<Order>>,
    handed_over: BTreeMap<Day, Vec<Id<Order>>>,
    numbers: HashMap<Vec<Id<Order>>, usize>,
    links: Vec<Vec<Id<Order>>>,
}

impl<'a> Linker<'a> {
    /// Looks orders up by id and by hand-over date. Dates are written as `shop.toml` fixes for the column, else as those of the orders,
    /// else as the cells themselves show: in the one style that reads them, or that makes each of them a hand-over date.
    pub fn new(orders: &'a Orders, cells: &Names<Text>, fixed: Option<DateStyle>) -> Self {
        let mut handed_over: BTreeMap<Day, Vec<Id<Order>>> = BTreeMap::new();
        for (order, head) in orders.heads.pairs() {
            let Some(day) = head.day else { continue };
            let that_day = handed_over.entry(day).or_default();
            if head.status == Status::Done {
                that_day.push(order);
            }
        }
        let by_folded = orders.ids.pairs().map(|(order, id)| (folding::name(id), order)).collect();
        let mut linker = Self { orders, by_folded, dates: Vec::new(), handed_over, numbers: HashMap::new(), links: Vec::new() };
        linker.dates = match fixed.or(orders.dates) {
            Some(style) => vec![style],
            None => linker.styles(cells),
        };
        linker
    }

    /// The styles that the dates among cells may be written in.
    fn styles(&self, cells: &Names<Text>) -> Vec<DateStyle> {
        let parts: Vec<&str> = cells.iter().flat_map(|cell| self.parts(cell)).filter(|part| self.order(part).is_none()).collect();
        match date::evidence(&parts.iter().copied()) {
            Evidence::None => vec![DateStyle::YearMonthDay],
            Evidence::Found { style, .. } => vec![style],
            Evidence::Open { styles, .. } => {
                let is_date = |part: &&&str| styles.iter().any(|style| date::read(part, *style).is_some());
                let are_handed_over = |style: &DateStyle| {
                    let is_one = |part: &&str| date::read(part, *style).is_some_and(|day| self.handed_over.contains_key(&day));
                    parts.iter().filter(is_date).all(is_one)
                };
                let fitting: Vec<DateStyle> = styles.iter().copied().filter(are_handed_over).collect();
                if fitting.len() == 1 { fitting } else { styles }
            }
        }
    }

    /// What a cell names: one id, or several joined.
    fn parts<'t>(&self, cell: &'t str) -> Vec<&'t str> {
        if self.order(cell).is_some() { vec![cell] } else { cell.split(['+', '&', ',']).map(str::trim).collect() }
    }

    /// The order of an id, whatever its letter case and blanks.
    fn order(&self, id: &str) -> Option<Id<Order>> {
        self.orders.ids.find(id).or_else(|| self.by_folded.get(&folding::name(id)).copied())
    }

    /// Returns the number of the set that a cell names: an id as written; else ids and hand-over dates joined by `+`, `&` or commas.
    ///
    /// # Errors
    /// What to write instead, where a part of it names no order; or that a date in it may be one of several.
    pub fn link(&mut self, text: &str) -> Result<usize, NoLink> {
        let mut set = Vec::new();
        for part in self.parts(text) {
            if let Some(order) = self.order(part) {
                set.push(order);
                continue;
            }
            let days: Vec<(DateStyle, Option<Day>)> = self.dates.iter().map(|style| (*style, date::read(part, *style))).collect();
            if days.iter().any(|(_, day)| *day != days[0].1) {
                let days = days.into_iter().filter_map(|(style, day)| Some((style, day?))).collect();
                return Err(NoLink::OneOfSeveral(part.to_owned(), days));
            }
            if let Some(day) = days[0].1 {
                let unknown = || {
                    let advice = format!("no order was handed over on {day}: write its name, or leave the cell blank");
                    if self.handed_over.contains_key(&Day(0)) { NoLink::Undated } else { NoLink::Unknown(advice.into()) }
                };
                set.extend(self.handed_over.get(&day).ok_or_else(unknown)?);
            } else {
                return Err(NoLink::Unknown(match nearest(part, self.orders.ids.iter()) {
                    Some(near) => Advice::DidYouMean(near.to_owned()),
                    None => "spell it as orders.csv does, or leave the cell blank".into(),
                }));
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
