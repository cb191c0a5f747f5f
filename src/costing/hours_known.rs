//! Which orders' hours are known (DESIGN §4, "Hours known"): those that entries name and that lack no usual stage.
//!
//! An order whose decorating was never logged would seem to pay well. So what most orders have, and a good part of
//! the time goes into, every order must have before its hourly pay is told.

use super::lines::{LineKind, Lines, Span};
use super::splitter::{EntryKey, Splitter};
use crate::ids::{Design, Id, IdVec, Order, Stage};
use crate::shop::Shop;
use crate::shop::hours::Entry;
use crate::shop::settings::SharedBy;
use std::collections::HashSet;

/// Orders from which on a stage can be judged usual.
const LEAST_ORDERS: usize = 12;
/// A usual stage is had by at least this percentage of the orders …
const MOST_HAVE_IT: usize = 80;
/// … and takes at least this percentage of all minutes.
const GOOD_PART: i128 = 10;

/// What the hours log lacks of one order.
#[derive(Debug, Clone, Default, PartialEq, Eq)]
pub struct Lacks {
    /// Whether no entry names it.
    pub hours: bool,
    /// Usual stages it does not have.
    pub stages: Vec<Id<Stage>>,
    /// Usual stages of deliveries it does not have, though it was delivered.
    pub of_delivery: Vec<Id<Stage>>,
}

impl Lacks {
    /// Whether the order's own hours are known; those of its delivery may not be.
    #[must_use]
    pub fn nothing(&self) -> bool {
        !self.hours && self.stages.is_empty()
    }
}

/// What the hours log tells of each order.
#[derive(Debug, Default)]
pub struct HoursKnown {
    /// What each order lacks; nothing where it was not handed over.
    pub lacks: IdVec<Order, Lacks>,
    /// Whether any hours of work are logged.
    pub any: bool,
    logged: Logged,
}

impl HoursKnown {
    /// Judges the orders of `lines` by the entries of the hours log, and the stages by what most orders have.
    #[must_use]
    pub(super) fn of(shop: &Shop, lines: &Lines, splitter: &Splitter<'_>) -> Self {
        let logged = Logged::of(shop, lines, splitter);
        let any = shop.hours.worked().next().is_some();
        let mut known = Self { lacks: IdVec::filled(Lacks::default(), shop.orders.ids.len()), any, logged };
        let logged = &known.logged;
        let done: Vec<&Span> = lines.spans.iter().filter(|span| span.is_done()).collect();
        let named = done.iter().filter(|span| logged.named[span.order]).count();
        // Where entries name few orders, hours are logged by the day and shared over all.
        if named == 0 || 2 * named < done.len() {
            return known;
        }
        let with_stage = || done.iter().filter(|span| logged.named_with_stage[span.order]);
        let baked: Vec<Id<Order>> = with_stage().filter(|span| !span.cookies.is_empty()).map(|span| span.order).collect();
        let delivered: Vec<Id<Order>> = with_stage().filter(|span| !span.deliveries.is_empty()).map(|span| span.order).collect();
        let all: i128 = logged.minutes_naming.iter().sum::<i128>() + logged.minutes_without_stage;
        let (mut usual, mut of_delivery) = (Vec::new(), Vec::new());
        for stage in logged.has.ids() {
            let is_a_good_part = 100 * logged.minutes_naming[stage] >= GOOD_PART * all;
            match shop.hours.shared_by(Some(stage)) {
                SharedBy::Delivery if logged.is_had_by_most(stage, &delivered) => of_delivery.push(stage),
                SharedBy::Unattended | SharedBy::Delivery => {}
                _ if is_a_good_part && logged.is_had_by_most(stage, &baked) => usual.push(stage),
                _ => {}
            }
        }
        for span in done {
            let order = span.order;
            let lacking = |stages: &[Id<Stage>], lines: usize| -> Vec<Id<Stage>> {
                stages.iter().filter(|stage| lines > 0 && !logged.has(**stage, order)).copied().collect()
            };
            known.lacks[order] = Lacks {
                hours: !logged.named[order],
                stages: lacking(&usual, span.cookies.len()),
                of_delivery: lacking(&of_delivery, span.deliveries.len()),
            };
        }
        known
    }

    /// Whether a line of an order has known hours. Kept deposits count as known, with none worked.
    #[must_use]
    pub(crate) fn is_known(&self, order: Id<Order>, kind: LineKind) -> bool {
        let lacks = &self.lacks[order];
        self.any && (kind == LineKind::DepositKept || lacks.nothing() && (kind != LineKind::Delivery || lacks.of_delivery.is_empty()))
    }

    /// Whether entries of a stage cover the whole of an order; `None` is work without a stage.
    #[must_use]
    pub(super) fn has(&self, stage: Option<Id<Stage>>, order: Id<Order>) -> bool {
        stage.map_or(self.logged.has_all[order], |stage| self.logged.has(stage, order))
    }

    /// Whether an entry names an order.
    #[must_use]
    pub(super) fn is_named(&self, order: Id<Order>) -> bool {
        self.logged.named[order]
    }
}

/// What entries cover.
#[derive(Debug, Default)]
struct Logged {
    /// By stage: the orders that have it.
    has: IdVec<Stage, IdVec<Order, bool>>,
    /// Orders that work without a stage covers: they have every stage.
    has_all: IdVec<Order, bool>,
    /// Orders that entries name.
    named: IdVec<Order, bool>,
    /// Orders that entries with a stage name.
    named_with_stage: IdVec<Order, bool>,
    /// By stage: millionths of minutes of the entries that name an order handed over.
    minutes_naming: IdVec<Stage, i128>,
    /// The same of entries without a stage.
    minutes_without_stage: i128,
}

impl Logged {
    fn of(shop: &Shop, lines: &Lines, splitter: &Splitter<'_>) -> Self {
        let nowhere = IdVec::filled(false, shop.orders.ids.len());
        let mut logged = Self {
            has: shop.hours.stages.ids().map(|_| nowhere.clone()).collect(),
            has_all: nowhere.clone(),
            named: nowhere.clone(),
            named_with_stage: nowhere,
            minutes_naming: shop.hours.stages.ids().map(|_| 0).collect(),
            minutes_without_stage: 0,
        };
        let mut timed = HashSet::new();
        for entry in shop.hours.worked() {
            match (entry.link, entry.design) {
                (Some(link), design) => {
                    let orders = &shop.hours.links[link];
                    logged.note_named(entry, orders, splitter);
                    for order in orders {
                        match design {
                            None => logged.covering(entry.stage)[*order] = true,
                            Some(design) => {
                                timed.insert((entry.stage, *order, design));
                            }
                        }
                    }
                }
                (None, None) if entry.stage.is_some() => {
                    for order in splitter.orders_served(&EntryKey::of(entry)) {
                        logged.covering(entry.stage)[order] = true;
                    }
                }
                (None, _) => {}
            }
        }
        logged.add_timed(lines, &timed);
        logged
    }

    fn note_named(&mut self, entry: &Entry, orders: &[Id<Order>], splitter: &Splitter<'_>) {
        for order in orders {
            self.named[*order] = true;
            self.named_with_stage[*order] |= entry.stage.is_some();
        }
        if orders.iter().any(|order| splitter.is_done(*order)) {
            match entry.stage {
                Some(stage) => self.minutes_naming[stage] += i128::from(entry.minutes),
                None => self.minutes_without_stage += i128::from(entry.minutes),
            }
        }
    }

    /// An order whose designs were all timed one by one has the stage.
    fn add_timed(&mut self, lines: &Lines, timed: &HashSet<(Option<Id<Stage>>, Id<Order>, Id<Design>)>) {
        let orders: HashSet<Id<Order>> = timed.iter().map(|(_, order, _)| *order).collect();
        let stages: HashSet<Option<Id<Stage>>> = timed.iter().map(|(stage, ..)| *stage).collect();
        for span in lines.spans.iter().filter(|span| orders.contains(&span.order)) {
            for stage in &stages {
                let is_timed = |line: usize| lines.design[line].is_some_and(|design| timed.contains(&(*stage, span.order, design)));
                if span.cookies.clone().all(is_timed) {
                    self.covering(*stage)[span.order] = true;
                }
            }
        }
    }

    fn covering(&mut self, stage: Option<Id<Stage>>) -> &mut IdVec<Order, bool> {
        match stage {
            Some(stage) => &mut self.has[stage],
            None => &mut self.has_all,
        }
    }

    fn has(&self, stage: Id<Stage>, order: Id<Order>) -> bool {
        self.has[stage][order] || self.has_all[order]
    }

    fn is_had_by_most(&self, stage: Id<Stage>, orders: &[Id<Order>]) -> bool {
        let having = orders.iter().filter(|order| self.has(stage, **order)).count();
        orders.len() >= LEAST_ORDERS && 100 * having >= MOST_HAVE_IT * orders.len()
    }
}
