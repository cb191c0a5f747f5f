//! Finds which lines an entry of the hours log served, at one of three levels, and divides its minutes among them.

use super::bill::Bill;
use super::lines::{Lines, Span};
use super::minutes_each::{MinutesEach, Proportions};
use super::sharing::{self, HandOvers, Parts};
use crate::ids::{Design, Helper, Id, IdVec, Order, Stage};
use crate::quantity::{Day, Month, TooLarge, ratio, share};
use crate::shop::Shop;
use crate::shop::hours::Entry;
use crate::shop::settings::SharedBy;
use std::collections::{HashMap, HashSet};

/// Grouping key: entries with equal keys are added together before they are split.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub(super) struct EntryKey {
    pub day: Day,
    /// The set of orders it names, numbered whatever order the rows stand in.
    pub link: Option<usize>,
    pub stage: Option<Id<Stage>>,
    pub design: Option<Id<Design>>,
    pub who: Option<Id<Helper>>,
}

impl EntryKey {
    /// Returns the key of an entry.
    pub fn of(entry: &Entry) -> Self {
        Self { day: entry.day, link: entry.link, stage: entry.stage, design: entry.design, who: entry.who }
    }
}

/// An entry's total, divided over lines.
#[derive(Default)]
pub(super) struct Split {
    /// The level, from 0.
    pub level: usize,
    /// The parts.
    pub parts: Parts,
    /// The share of the parts that one more piece would add, if that is neither all nor nothing.
    pub of_pieces: Option<Parts>,
}

/// The orders an entry served, each with the lines that share it.
pub(super) type Served = Vec<(Id<Order>, Vec<usize>)>;

/// Finds the lines an entry served and divides totals over them.
pub(super) struct Splitter<'a> {
    shop: &'a Shop,
    lines: &'a Lines,
    minutes_each: &'a MinutesEach,
    hand_overs: HandOvers,
    /// The index of each order in the lines' spans, if it was handed over.
    span_of: IdVec<Order, Option<usize>>,
    /// Relative weight of a piece by design; a design without rows has the plain mean of the others.
    weights: IdVec<Design, i128>,
    /// Relative colours by order; an order that gives none has the mean of the shop's.
    colours: IdVec<Order, i128>,
    /// One colour on that scale.
    one_colour: i128,
    /// Stage, order and design of the entries that name a design for one order.
    timed: HashSet<(Option<Id<Stage>>, Id<Order>, Id<Design>)>,
    /// Cookie lines by design and month of hand-over.
    of_design: HashMap<(Id<Design>, Month), Vec<usize>>,
}

impl<'a> Splitter<'a> {
    /// Prepares the splits over a shop's lines.
    ///
    /// # Errors
    /// [`TooLarge`] where weights do not fit.
    pub fn new(shop: &'a Shop, lines: &'a Lines, bill: &Bill, minutes_each: &'a MinutesEach) -> Result<Self, TooLarge> {
        let mut span_of = IdVec::<Order, _>::filled(None, shop.orders.ids.len());
        for (at, span) in lines.spans.iter().enumerate().filter(|(_, span)| span.is_done()) {
            span_of[span.order] = Some(at);
        }
        let one_order = |entry: &Entry| match shop.hours.links[entry.link?].as_slice() {
            [order] => Some((entry.stage, *order, entry.design?)),
            _ => None,
        };
        let mut of_design: HashMap<_, Vec<usize>> = HashMap::new();
        if shop.hours.entries.iter().any(|entry| entry.design.is_some() && entry.link.is_none()) {
            for line in 0..lines.len() {
                if let Some(design) = lines.design[line] {
                    of_design.entry((design, lines.day(line).month())).or_default().push(line);
                }
            }
        }
        Ok(Self {
            shop,
            lines,
            minutes_each,
            hand_overs: HandOvers::of(&lines.spans),
            timed: shop.hours.entries.iter().filter_map(one_order).collect(),
            weights: with_mean(bill.grams.iter().map(|grams| grams.map(|grams| grams.0)))?,
            colours: with_mean(colours(shop, &span_of))?,
            one_colour: i128::try_from(colours(shop, &span_of).flatten().count()).map_err(|_| TooLarge)?.max(1),
            span_of,
            of_design,
        })
    }

    /// Divides an entry's total over the lines it served; `None` if no line can carry it.
    ///
    /// # Errors
    /// [`TooLarge`] where weights do not fit.
    pub fn split(&self, entry: &EntryKey, total: i128) -> Result<Option<Split>, TooLarge> {
        if let Some(design) = entry.design {
            return Ok(self.over_design(entry, design, total)?.map(|parts| Split { parts, ..Split::default() }));
        }
        let by = self.shop.hours.shared_by(entry.stage);
        let (level, spans) = self.spans(entry, by);
        let left = self.left(entry, &spans);
        if by == SharedBy::Minutes
            && let Some((parts, of_pieces)) = self.by_minutes(total, self.proportions(entry.stage), &spans, &left)?
        {
            return Ok(Some(Split { level, parts, of_pieces: Some(of_pieces) }));
        }
        Ok(self.divide(total, by, &spans, &left)?.map(|parts| Split { level, parts, of_pieces: None }))
    }

    /// Returns the orders whose lines share an entry by minutes per piece; empty if it is divided in another way.
    pub(crate) fn served(&self, entry: &EntryKey) -> Served {
        let by = self.shop.hours.shared_by(entry.stage);
        if entry.design.is_some() || by != SharedBy::Minutes {
            return Served::new();
        }
        let (_, spans) = self.spans(entry, by);
        let left = self.left(entry, &spans);
        spans.into_iter().map(|span| self.lines.spans[span].order).zip(left).filter(|(_, lines)| !lines.is_empty()).collect()
    }

    /// Whether an order was handed over.
    pub(crate) fn is_done(&self, order: Id<Order>) -> bool {
        self.span_of[order].is_some()
    }

    /// Returns the orders that share an entry without a design.
    pub(crate) fn orders_served(&self, entry: &EntryKey) -> impl Iterator<Item = Id<Order>> {
        let (_, spans) = self.spans(entry, self.shop.hours.shared_by(entry.stage));
        spans.into_iter().map(|span| self.lines.spans[span].order)
    }

    /// Computes how much an order has of what a stage is shared by, on a scale of the stage's own: pieces where it has none of that.
    ///
    /// # Errors
    /// [`TooLarge`] where it does not fit.
    pub fn base(&self, stage: Option<Id<Stage>>, span: &Span) -> Result<i128, TooLarge> {
        let by = self.shop.hours.shared_by(stage);
        let each: &dyn Fn(Id<Design>) -> i128 = match by {
            SharedBy::Orders => return Ok(1),
            SharedBy::Colours if self.colours.iter().any(|colours| *colours > 0) => return Ok(self.colours[span.order]),
            SharedBy::Delivery => return Ok(i128::from(!span.deliveries.is_empty())),
            SharedBy::Weight if self.weights.iter().any(|weight| *weight > 0) => &|design| self.weights[design],
            SharedBy::Minutes => &|design| self.proportions(stage).each[design],
            SharedBy::Colours | SharedBy::Weight | SharedBy::Pieces | SharedBy::Unattended => &|_| 1,
        };
        let mut sum = 0_i128;
        for line in span.cookies.clone() {
            let own = self.lines.design[line].map_or(0, each).checked_mul(i128::from(self.lines.pieces[line]));
            sum = own.and_then(|own| sum.checked_add(own)).ok_or(TooLarge)?;
        }
        if by == SharedBy::Minutes {
            return self.with_set_up(sum, stage, span).ok_or(TooLarge);
        }
        Ok(sum)
    }

    /// Adds an order's set-up and colours to the weight of its pieces.
    fn with_set_up(&self, pieces: i128, stage: Option<Id<Stage>>, span: &Span) -> Option<i128> {
        pieces.checked_mul(self.one_colour)?.checked_add(self.set_up(self.proportions(stage), span.order)?)
    }

    /// Computes an order's set-up and colours, on the scale of minutes × one colour.
    fn set_up(&self, proportions: &Proportions, order: Id<Order>) -> Option<i128> {
        proportions.set_up.checked_mul(self.one_colour)?.checked_add(proportions.colour.checked_mul(self.colours[order])?)
    }

    /// Finds the level of an entry that names no design, and the orders it served.
    fn spans(&self, entry: &EntryKey, by: SharedBy) -> (usize, Vec<usize>) {
        if let Some(link) = entry.link {
            return (1, self.shop.hours.links[link].iter().filter_map(|order| self.span_of[*order]).collect());
        }
        let mut spans = Vec::new();
        if by != SharedBy::Orders {
            spans = self.hand_overs.within(entry.day, Day(entry.day.0 + self.shop.settings.reach));
        }
        if spans.is_empty() {
            let month = entry.day.month();
            spans = self.hand_overs.within(month.first(), month.last());
        }
        (2, spans)
    }

    /// Returns the cookie lines of each order that share the entry.
    fn left(&self, entry: &EntryKey, spans: &[usize]) -> Vec<Vec<usize>> {
        match entry.link {
            Some(_) => self.untimed(spans, entry.stage),
            None => spans.iter().map(|span| self.lines.spans[*span].cookies.clone().collect()).collect(),
        }
    }

    fn proportions(&self, stage: Option<Id<Stage>>) -> &Proportions {
        if stage.is_some() { &self.minutes_each.decorating } else { &self.minutes_each.whole }
    }

    /// Divides by minutes: set-up equally by order and colours by colours, both then by pieces; the rest by minutes
    /// per piece × pieces; all scaled to the total. Returns the parts, and the pieces' own share of them.
    fn by_minutes(
        &self,
        total: i128,
        proportions: &Proportions,
        spans: &[usize],
        cookies: &[Vec<usize>],
    ) -> Result<Option<(Parts, Parts)>, TooLarge> {
        let (mut members, mut weights, mut of_pieces) = (Vec::new(), Vec::new(), Vec::new());
        for (span, cookies) in spans.iter().zip(cookies) {
            let whole = self.set_up(proportions, self.lines.spans[*span].order).ok_or(TooLarge)?;
            let pieces: Vec<i128> = cookies.iter().map(|line| i128::from(self.lines.pieces[*line])).collect();
            let shared = share::by_weight(whole, &pieces)?.unwrap_or_else(|| vec![0; pieces.len()]);
            for ((line, pieces), shared) in cookies.iter().zip(pieces).zip(shared) {
                let each = self.lines.design[*line].map_or(0, |design| proportions.each[design]);
                let own = each.checked_mul(pieces).and_then(|own| own.checked_mul(self.one_colour)).ok_or(TooLarge)?;
                members.push(*line);
                weights.push(own.checked_add(shared).ok_or(TooLarge)?);
                of_pieces.push(own);
            }
        }
        let Some(parts) = sharing::by_weights(total, &members, &weights)? else { return Ok(None) };
        let own = parts.iter().zip(weights.iter().zip(&of_pieces)).map(|((line, part), (weight, own))| {
            Ok((*line, if own == weight { *part } else { ratio::multiply_divide(*part, *own, *weight)? }))
        });
        let own = own.collect::<Result<Parts, TooLarge>>()?;
        Ok(Some((parts, own)))
    }

    /// Level 1: divides by pieces over the design's lines in its order, or of its month.
    fn over_design(&self, entry: &EntryKey, design: Id<Design>, total: i128) -> Result<Option<Parts>, TooLarge> {
        let members: Vec<usize> = match entry.link {
            Some(link) => {
                let orders = self.shop.hours.links[link].iter();
                let cookies = orders.filter_map(|order| self.span_of[*order]).flat_map(|span| self.lines.spans[span].cookies.clone());
                cookies.filter(|line| self.lines.design[*line] == Some(design)).collect()
            }
            None => self.of_design.get(&(design, entry.day.month())).cloned().unwrap_or_default(),
        };
        let pieces: Vec<i128> = members.iter().map(|line| i128::from(self.lines.pieces[*line])).collect();
        sharing::by_weights(total, &members, &pieces)
    }

    /// Returns each order's cookie lines without those whose design an entry of this stage names; all of them if none
    /// would remain.
    fn untimed(&self, spans: &[usize], stage: Option<Id<Stage>>) -> Vec<Vec<usize>> {
        let of = |span: &usize, all: bool| -> Vec<usize> {
            let span = &self.lines.spans[*span];
            let timed = |line: &usize| self.lines.design[*line].is_some_and(|design| self.timed.contains(&(stage, span.order, design)));
            span.cookies.clone().filter(|line| all || !timed(line)).collect()
        };
        let left: Vec<Vec<usize>> = spans.iter().map(|span| of(span, false)).collect();
        if left.iter().all(Vec::is_empty) { spans.iter().map(|span| of(span, true)).collect() } else { left }
    }

    /// Divides a total over orders' lines as its stage is shared. `cookies` are the cookie lines of each order that
    /// share it.
    fn divide(&self, total: i128, by: SharedBy, spans: &[usize], cookies: &[Vec<usize>]) -> Result<Option<Parts>, TooLarge> {
        let members: Vec<usize> = cookies.iter().flatten().copied().collect();
        let piece_weights = |each: &dyn Fn(Id<Design>) -> i128| -> Result<Vec<i128>, TooLarge> {
            let weights =
                members.iter().map(|line| self.lines.design[*line].map_or(0, each).checked_mul(i128::from(self.lines.pieces[*line])));
            weights.collect::<Option<_>>().ok_or(TooLarge)
        };
        let of_orders = |weight: &dyn Fn(&Span) -> i128| -> Vec<(Vec<usize>, i128)> {
            let orders = spans.iter().zip(cookies).filter_map(|(span, cookies)| {
                let span = &self.lines.spans[*span];
                // An order without cookie lines carries its share on its delivery lines; one whose cookies were all
                // timed carries none.
                let lines = if span.cookies.is_empty() { span.deliveries.clone().collect() } else { cookies.clone() };
                (!lines.is_empty()).then(|| (lines, weight(span)))
            });
            orders.collect()
        };
        let parts = match by {
            SharedBy::Weight => {
                sharing::by_weights(total, &members, &piece_weights(&|design| self.weights.get(design).copied().unwrap_or(0))?)?
            }
            SharedBy::Orders => sharing::by_order(total, &of_orders(&|_| 1), self.lines)?,
            SharedBy::Colours => sharing::by_order(total, &of_orders(&|span| self.colours[span.order]), self.lines)?,
            SharedBy::Delivery => {
                let bringing = spans.iter().map(|span| &self.lines.spans[*span]).filter(|span| !span.deliveries.is_empty());
                let orders: Vec<(Vec<usize>, i128)> = bringing.map(|span| (span.deliveries.clone().collect(), 1)).collect();
                sharing::by_order(total, &orders, self.lines)?
            }
            SharedBy::Pieces | SharedBy::Minutes | SharedBy::Unattended => None,
        };
        if parts.is_some() {
            return Ok(parts);
        }
        if let Some(parts) = sharing::by_weights(total, &members, &piece_weights(&|_| 1)?)? {
            return Ok(Some(parts));
        }
        let deliveries: Vec<usize> = spans.iter().flat_map(|span| self.lines.spans[*span].deliveries.clone()).collect();
        sharing::by_weights(total, &deliveries, &vec![1; deliveries.len()])
    }
}

/// Lists the colours of each order handed over, if logged.
fn colours<'a>(shop: &'a Shop, span_of: &'a IdVec<Order, Option<usize>>) -> impl Iterator<Item = Option<i128>> + Clone + 'a {
    shop.orders.heads.iter().zip(span_of).map(|(head, span)| head.colours.filter(|_| span.is_some()).map(i128::from))
}

/// Puts weights on one scale, with unknown ones at the plain mean of the known. Exact, because all are multiplied by
/// the number of known ones. All zero if none is known.
fn with_mean<T>(values: impl Iterator<Item = Option<i128>> + Clone) -> Result<IdVec<T, i128>, TooLarge> {
    let count = i128::try_from(values.clone().flatten().count()).map_err(|_| TooLarge)?;
    let sum = values.clone().flatten().try_fold(0_i128, i128::checked_add).ok_or(TooLarge)?;
    values.map(|value| value.map_or(Some(sum), |value| value.checked_mul(count)).ok_or(TooLarge)).collect()
}
