//! Turns a shop's orders and hours into observations.
//!
//! Minutes of stages shared by minutes are added up over the orders that entries log together. Entries without a
//! stage are a second response, for orders that have no such minutes. A design timed on its own is an observation of
//! that design alone, and its pieces leave the rest of its order.

use super::model::count;
use super::observations::{Covers, Design as Known, Group, Observations, Timed};
use crate::ids::{Design, Id, Order, Stage};
use crate::quantity::Day;
use crate::shop::Shop;
use crate::shop::hours::Entry;
use crate::shop::orders::{Kind, Status};
use crate::shop::settings::SharedBy;
use std::collections::{BTreeMap, BTreeSet};

/// A shop's observations, with the ids of their designs.
#[derive(Debug, Clone, Default)]
pub struct Observed {
    /// The observations.
    pub observations: Observations,
    /// The designs in the order of the observations: those sold in orders handed over.
    pub designs: Vec<Id<Design>>,
    /// First and last hand-over day of the orders observed.
    pub days: Option<(Day, Day)>,
}

/// Converts millionths to a float.
#[must_use]
pub fn real(millionths: i64) -> f64 {
    whole(millionths) / 1e6
}

/// Converts a whole number to a float.
#[must_use]
#[expect(clippy::cast_precision_loss, reason = "an estimate needs no more than 53 bits")]
pub fn whole(number: i64) -> f64 {
    number as f64
}

/// Returns the colours assumed for an order that gives none: the mean of the others; zero if none gives any.
#[must_use]
pub(crate) fn usual_colours(shop: &Shop) -> f64 {
    let done = shop.orders.heads.iter().filter(|head| head.status == Status::Done);
    let known: Vec<f64> = done.filter_map(|head| head.colours).map(whole).collect();
    known.iter().sum::<f64>() / count(known.len().max(1))
}

impl Observed {
    /// Collects a shop's observations.
    #[must_use]
    pub fn of(shop: &Shop) -> Self {
        let reader = Reader::of(shop);
        let mut observed = Self { designs: reader.designs.clone(), ..Self::default() };
        observed.observations.designs = reader.designs.iter().map(|design| known(shop, *design)).collect();
        let timed = reader.timed();
        let decorating = reader.groups(Covers::Decorating, &timed);
        let taken: BTreeSet<Id<Order>> = decorating.iter().flat_map(|group| group.named.clone()).collect();
        let whole = reader.groups(Covers::Whole, &timed).into_iter().filter(|group| !group.named.iter().any(|order| taken.contains(order)));
        let whole: Vec<Group> = whole.collect();
        let first = if decorating.is_empty() { &whole } else { &decorating };
        observed.observations.set_up_separate = reader.is_logged_separately(SharedBy::Orders, first);
        observed.observations.colours_separate = reader.is_logged_separately(SharedBy::Colours, first);
        observed.observations.groups = [decorating, whole].concat();
        observed.observations.timed = timed.observations;
        let days = || observed.observations.groups.iter().flat_map(|group| &group.named).filter_map(|order| shop.orders.head(*order).day);
        observed.days = days().min().zip(days().max());
        observed
    }

    /// Returns a design's index in the observations.
    #[must_use]
    pub fn place(&self, design: Id<Design>) -> Option<usize> {
        self.designs.binary_search(&design).ok()
    }
}

fn known(shop: &Shop, design: Id<Design>) -> Known {
    let card = shop.designs.minutes_each[design].filter(|minutes| *minutes > 0).map(real);
    Known { tier: shop.designs.tier[design].map(Id::index), card }
}

/// Designs timed on their own.
#[derive(Default)]
struct TimedLog {
    observations: Vec<Timed>,
    /// By order: pieces and minutes that are not in the rest of it.
    of_order: BTreeMap<(Covers, Id<Order>), BTreeMap<Id<Design>, (f64, f64)>>,
}

struct Reader<'a> {
    shop: &'a Shop,
    designs: Vec<Id<Design>>,
    /// Pieces of each order handed over, by design.
    pieces: BTreeMap<Id<Order>, BTreeMap<Id<Design>, f64>>,
    /// Entries of work by what they cover.
    entries: Vec<(&'a Entry, Covers)>,
    /// Colours assumed for an order that gives none.
    usual_colours: f64,
}

impl<'a> Reader<'a> {
    fn of(shop: &'a Shop) -> Self {
        let mut pieces: BTreeMap<Id<Order>, BTreeMap<Id<Design>, f64>> = BTreeMap::new();
        for row in 0..shop.orders.rows() {
            let order = shop.orders.order[row];
            if let (Kind::Cookie, Status::Done, Some(design)) =
                (shop.orders.kind[row], shop.orders.head(order).status, shop.orders.design[row])
            {
                *pieces.entry(order).or_default().entry(design).or_default() += whole(shop.orders.quantity[row]);
            }
        }
        let designs: BTreeSet<Id<Design>> = pieces.values().flat_map(BTreeMap::keys).copied().collect();
        let covers = |entry: &'a Entry| match entry.stage {
            None => Some((entry, Covers::Whole)),
            Some(stage) => (shop.hours.shared_by(Some(stage)) == SharedBy::Minutes).then_some((entry, Covers::Decorating)),
        };
        Self {
            shop,
            designs: designs.into_iter().collect(),
            pieces,
            entries: shop.hours.entries.iter().filter_map(covers).collect(),
            usual_colours: usual_colours(shop),
        }
    }

    /// Returns the orders that an entry names.
    fn named(&self, entry: &Entry) -> &'a [Id<Order>] {
        entry.link.map_or(&[], |link| self.shop.hours.links[link].as_slice())
    }

    /// Finds designs timed on their own: within an order, if every stage logged for it names the design; otherwise,
    /// if the entry gives the pieces made.
    fn timed(&self) -> TimedLog {
        let mut log = TimedLog::default();
        let mut stages: BTreeMap<(Covers, Id<Order>), BTreeSet<Option<Id<Stage>>>> = BTreeMap::new();
        let mut within: BTreeMap<((Covers, Id<Order>), Id<Design>), Stages> = BTreeMap::new();
        let mut without: BTreeMap<(Day, Id<Design>), Stages> = BTreeMap::new();
        for (entry, covers) in &self.entries {
            match (entry.design, self.named(entry)) {
                (Some(design), [order]) => within.entry(((*covers, *order), design)).or_default().add(entry),
                (Some(design), []) if entry.pieces.is_some() => without.entry((entry.day, design)).or_default().add(entry),
                (None, orders) => orders.iter().for_each(|order| {
                    stages.entry((*covers, *order)).or_default().insert(entry.stage);
                }),
                _ => {}
            }
        }
        let none = BTreeSet::new();
        for ((of, design), timed) in within {
            let quantity = self.pieces.get(&of.1).and_then(|sold| sold.get(&design));
            let fully = stages.get(&of).unwrap_or(&none).iter().all(|stage| timed.by_stage.contains_key(stage));
            let (Some(quantity), true) = (quantity, fully) else { continue };
            let (minutes, pieces) = (timed.minutes(), timed.pieces().unwrap_or(*quantity));
            if minutes > 0.0 && pieces > 0.0 {
                log.of_order.entry(of).or_default().insert(design, (pieces, minutes));
            }
        }
        // If all pieces of an order were timed and yet more was logged for it, its extra minutes have no pieces to
        // explain them.
        log.of_order.retain(|of, timed| {
            let sold = &self.pieces[&of.1];
            let is_all = sold.iter().all(|(design, quantity)| timed.get(design).is_some_and(|(pieces, _)| pieces >= quantity));
            !(is_all && stages.contains_key(of))
        });
        for ((_, order), timed) in &log.of_order {
            let Some(years) = self.shop.orders.head(*order).day.map(years) else { continue };
            log.observations.extend(timed.iter().filter_map(|(design, (pieces, minutes))| {
                Some(Timed { design: self.place(*design)?, pieces: *pieces, minutes: *minutes, years })
            }));
        }
        let used: BTreeSet<Id<Stage>> =
            self.entries.iter().filter(|(_, covers)| *covers == Covers::Decorating).filter_map(|(entry, _)| entry.stage).collect();
        for ((day, design), timed) in without {
            let fully = timed.by_stage.contains_key(&None) || used.iter().all(|stage| timed.by_stage.contains_key(&Some(*stage)));
            if let (true, Some(pieces), Some(design)) = (fully, timed.pieces(), self.place(design)) {
                let minutes = timed.minutes();
                if minutes > 0.0 && pieces > 0.0 {
                    log.observations.push(Timed { design, pieces, minutes, years: years(day) });
                }
            }
        }
        log
    }

    fn place(&self, design: Id<Design>) -> Option<usize> {
        self.designs.binary_search(&design).ok()
    }

    /// Groups orders that entries log together, with their minutes. Groups with an order that was not handed over are
    /// left out, since its share is unknown.
    fn groups(&self, covers: Covers, timed: &TimedLog) -> Vec<Group> {
        let entries = || self.entries.iter().filter(|(_, of)| *of == covers).map(|(entry, _)| *entry);
        let mut sets = Sets::default();
        for entry in entries() {
            sets.join(self.named(entry));
        }
        let mut minutes: BTreeMap<Id<Order>, i64> = BTreeMap::new();
        for entry in entries() {
            let Some(first) = self.named(entry).first() else { continue };
            let timed_alone =
                entry.design.is_some_and(|design| timed.of_order.get(&(covers, *first)).is_some_and(|timed| timed.contains_key(&design)));
            if !timed_alone {
                *minutes.entry(sets.of(*first)).or_default() += entry.minutes;
            }
        }
        let mut groups = Vec::new();
        for (set, orders) in sets.members() {
            let is_done = orders.iter().all(|order| self.shop.orders.head(*order).status == Status::Done);
            let minutes = real(minutes.get(&set).copied().unwrap_or_default());
            if let (true, true, Some(group)) = (is_done, minutes > 0.0, self.group(covers, minutes, orders, timed)) {
                groups.push(group);
            }
        }
        groups
    }

    fn group(&self, covers: Covers, minutes: f64, orders: Vec<Id<Order>>, timed: &TimedLog) -> Option<Group> {
        let mut pieces: BTreeMap<usize, f64> = BTreeMap::new();
        let mut colours = 0.0;
        let mut time = 0.0;
        for order in &orders {
            for (design, quantity) in self.pieces.get(order).into_iter().flatten() {
                let timed_alone =
                    timed.of_order.get(&(covers, *order)).and_then(|timed| timed.get(design)).map_or(0.0, |(pieces, _)| *pieces);
                if quantity - timed_alone > 0.0 {
                    *pieces.entry(self.place(*design)?).or_default() += quantity - timed_alone;
                }
            }
            let head = self.shop.orders.head(*order);
            colours += head.colours.map_or(self.usual_colours, whole);
            time += years(head.day?) / count(orders.len());
        }
        let is_empty = pieces.is_empty();
        let group = Group {
            minutes,
            covers,
            orders: count(orders.len()),
            colours,
            pieces: pieces.into_iter().collect(),
            years: time,
            named: orders,
        };
        (!is_empty).then_some(group)
    }

    /// Whether a kind of work is logged separately from decorating: entries of a stage shared so name at least half
    /// of the orders.
    fn is_logged_separately(&self, by: SharedBy, groups: &[Group]) -> bool {
        let hours = &self.shop.hours;
        let entries = hours.entries.iter().filter(|entry| entry.stage.is_some() && hours.shared_by(entry.stage) == by);
        let named: BTreeSet<Id<Order>> = entries.flat_map(|entry| self.named(entry)).copied().collect();
        let orders = || groups.iter().flat_map(|group| &group.named);
        let separate = orders().filter(|order| named.contains(order)).count();
        separate > 0 && 2 * separate >= orders().count()
    }
}

/// Minutes and pieces of a timed design, by stage.
#[derive(Default)]
struct Stages {
    by_stage: BTreeMap<Option<Id<Stage>>, (i64, Option<i64>)>,
}

impl Stages {
    fn add(&mut self, entry: &Entry) {
        let (minutes, pieces) = self.by_stage.entry(entry.stage).or_insert((0, Some(0)));
        *minutes += entry.minutes;
        *pieces = pieces.zip(entry.pieces).map(|(sum, more)| sum + more);
    }

    fn minutes(&self) -> f64 {
        self.by_stage.values().map(|(minutes, _)| real(*minutes)).sum()
    }

    /// Returns the pieces, which all stages work on; `None` if an entry does not say how many.
    fn pieces(&self) -> Option<f64> {
        let pieces: Option<Vec<i64>> = self.by_stage.values().map(|(_, pieces)| *pieces).collect();
        pieces?.into_iter().max().map(whole)
    }
}

fn years(day: Day) -> f64 {
    f64::from(day.0) / 365.25
}

/// Disjoint sets of orders logged together (union-find).
#[derive(Default)]
struct Sets {
    parent: BTreeMap<Id<Order>, Id<Order>>,
}

impl Sets {
    fn join(&mut self, orders: &[Id<Order>]) {
        for order in orders {
            let (one, other) = (self.of(orders[0]), self.of(*order));
            // The lesser order represents the set, whatever order the rows stand in.
            self.parent.insert(one.max(other), one.min(other));
        }
    }

    fn of(&mut self, order: Id<Order>) -> Id<Order> {
        let mut root = order;
        while let Some(parent) = self.parent.get(&root).filter(|parent| **parent != root) {
            root = *parent;
        }
        self.parent.insert(order, root);
        root
    }

    fn members(mut self) -> BTreeMap<Id<Order>, Vec<Id<Order>>> {
        let orders: Vec<Id<Order>> = self.parent.keys().copied().collect();
        let mut members: BTreeMap<Id<Order>, Vec<Id<Order>>> = BTreeMap::new();
        for order in orders {
            members.entry(self.of(order)).or_default().push(order);
        }
        members
    }
}
