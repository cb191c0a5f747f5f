//! Whom an entry of the hours log served, at one of three levels, and how its minutes are divided among them.

use super::bill::Bill;
use super::lines::{Lines, Span};
use super::minutes_each::MinutesEach;
use super::sharing::{self, HandOvers, Parts};
use crate::quantity::{Day, Month, TooLarge};
use crate::reading::Name;
use crate::shop::Shop;
use crate::shop::designs::Design;
use crate::shop::hours::{Entry, Stage};
use crate::shop::orders::Order;
use crate::shop::settings::SharedBy;
use std::collections::{HashMap, HashSet};

/// What makes entries alike: they are summed before they are shared.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub(super) struct Alike {
    pub day: Day,
    /// Sets of orders are numbered by their orders, whatever order the rows stand in.
    pub link: Option<usize>,
    pub stage: Option<Stage>,
    pub design: Option<Design>,
    pub who: Option<Name>,
}

/// Finds the lines an entry served, and divides over them.
pub(super) struct Splitter<'a> {
    shop: &'a Shop,
    lines: &'a Lines,
    minutes_each: &'a MinutesEach,
    hand_overs: HandOvers,
    /// Each order's place among the spans, where it was handed over.
    span_of: Vec<Option<usize>>,
    /// Grams of a piece on one scale; a design without rows has the plain mean of the others.
    weights: Vec<i128>,
    /// Colours on one scale by order; blank ones have the mean of the shop's.
    colours: Vec<i128>,
    /// Designs that entries of a stage name for an order.
    timed: HashSet<(Option<Stage>, Order, Design)>,
    /// Cookie lines of each design by month of hand-over.
    of_design: HashMap<(Design, Month), Vec<usize>>,
    by_stage: Vec<SharedBy>,
}

impl<'a> Splitter<'a> {
    /// Over a shop's lines.
    ///
    /// # Errors
    /// [`TooLarge`] where weights do not fit.
    pub fn new(shop: &'a Shop, lines: &'a Lines, bill: &Bill, minutes_each: &'a MinutesEach) -> Result<Self, TooLarge> {
        let mut span_of = vec![None; shop.orders.ids.len()];
        for (at, span) in lines.spans.iter().enumerate().filter(|(_, span)| span.is_done()) {
            span_of[span.order.0 as usize] = Some(at);
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
            by_stage: shop.hours.stages.iter().map(|stage| shop.settings.stages.get(stage).copied().unwrap_or(SharedBy::Minutes)).collect(),
            span_of,
            of_design,
        })
    }

    /// How a stage's minutes are shared; work without a stage as decorating is.
    pub fn shared_by(&self, stage: Option<Stage>) -> SharedBy {
        stage.map_or(SharedBy::Minutes, |stage| self.by_stage[stage.0 as usize])
    }

    /// The level and the parts of a total that an entry brings; `None` where nothing can carry it.
    ///
    /// # Errors
    /// [`TooLarge`] where weights do not fit.
    pub fn split(&self, entry: &Alike, total: i128) -> Result<Option<(usize, Parts)>, TooLarge> {
        if let Some(design) = entry.design {
            return Ok(self.over_design(entry, design, total)?.map(|parts| (0, parts)));
        }
        let by = self.shared_by(entry.stage);
        if let Some(link) = entry.link {
            let spans: Vec<usize> = self.shop.hours.links[link].iter().filter_map(|order| self.span_of[order.0 as usize]).collect();
            let left = self.untimed(&spans, entry.stage);
            return Ok(self.divide(total, by, &spans, &left)?.map(|parts| (1, parts)));
        }
        let mut spans = Vec::new();
        if by != SharedBy::Orders {
            spans = self.hand_overs.within(entry.day, Day(entry.day.0 + self.shop.settings.reach));
        }
        if spans.is_empty() {
            let month = entry.day.month();
            spans = self.hand_overs.within(month.first(), month.last());
        }
        let left = spans.iter().map(|span| self.lines.spans[*span].cookies.clone().collect()).collect::<Vec<_>>();
        Ok(self.divide(total, by, &spans, &left)?.map(|parts| (2, parts)))
    }

    /// Level 1: by pieces, over the design's lines in its order, or of its month.
    fn over_design(&self, entry: &Alike, design: Design, total: i128) -> Result<Option<Parts>, TooLarge> {
        let members: Vec<usize> = match entry.link {
            Some(link) => {
                let orders = self.shop.hours.links[link].iter();
                let cookies =
                    orders.filter_map(|order| self.span_of[order.0 as usize]).flat_map(|span| self.lines.spans[span].cookies.clone());
                cookies.filter(|line| self.lines.design[*line] == Some(design)).collect()
            }
            None => self.of_design.get(&(design, entry.day.month())).cloned().unwrap_or_default(),
        };
        let pieces: Vec<i128> = members.iter().map(|line| i128::from(self.lines.pieces[*line])).collect();
        sharing::by_weights(total, &members, &pieces)
    }

    /// Cookie lines of each order whose design no entry of this stage names for it; all of them where none would remain.
    fn untimed(&self, spans: &[usize], stage: Option<Stage>) -> Vec<Vec<usize>> {
        let of = |span: &usize, all: bool| -> Vec<usize> {
            let span = &self.lines.spans[*span];
            let timed = |line: &usize| self.lines.design[*line].is_some_and(|design| self.timed.contains(&(stage, span.order, design)));
            span.cookies.clone().filter(|line| all || !timed(line)).collect()
        };
        let left: Vec<Vec<usize>> = spans.iter().map(|span| of(span, false)).collect();
        if left.iter().all(Vec::is_empty) { spans.iter().map(|span| of(span, true)).collect() } else { left }
    }

    /// Divides over orders' lines as a stage is shared. `cookies` are the cookie lines in question of each order.
    fn divide(&self, total: i128, by: SharedBy, spans: &[usize], cookies: &[Vec<usize>]) -> Result<Option<Parts>, TooLarge> {
        let members: Vec<usize> = cookies.iter().flatten().copied().collect();
        let piece_weights = |each: &dyn Fn(Design) -> i128| -> Result<Vec<i128>, TooLarge> {
            let weights =
                members.iter().map(|line| self.lines.design[*line].map_or(0, each).checked_mul(i128::from(self.lines.pieces[*line])));
            weights.collect::<Option<_>>().ok_or(TooLarge)
        };
        let of_orders = |weight: &dyn Fn(&Span) -> i128| -> Vec<(Vec<usize>, i128)> {
            let orders = spans.iter().zip(cookies).filter_map(|(span, cookies)| {
                let span = &self.lines.spans[*span];
                // An order without cookie lines carries its share on its delivery lines; one whose cookies were all timed, none.
                let lines = if span.cookies.is_empty() { span.deliveries.clone().collect() } else { cookies.clone() };
                (!lines.is_empty()).then(|| (lines, weight(span)))
            });
            orders.collect()
        };
        let parts = match by {
            SharedBy::Weight => {
                sharing::by_weights(total, &members, &piece_weights(&|design| self.weights.get(design.0 as usize).copied().unwrap_or(0))?)?
            }
            SharedBy::Minutes => {
                sharing::by_weights(total, &members, &piece_weights(&|design| self.minutes_each.weight[design.0 as usize])?)?
            }
            SharedBy::Orders => sharing::by_order(total, &of_orders(&|_| 1), self.lines)?,
            SharedBy::Colours => sharing::by_order(total, &of_orders(&|span| self.colours[span.order.0 as usize]), self.lines)?,
            SharedBy::Delivery => {
                let bringing = spans.iter().map(|span| &self.lines.spans[*span]).filter(|span| !span.deliveries.is_empty());
                let orders: Vec<(Vec<usize>, i128)> = bringing.map(|span| (span.deliveries.clone().collect(), 1)).collect();
                sharing::by_order(total, &orders, self.lines)?
            }
            SharedBy::Pieces | SharedBy::Unattended => None,
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

/// Colours of each order handed over, where logged.
fn colours<'a>(shop: &'a Shop, span_of: &'a [Option<usize>]) -> impl Iterator<Item = Option<i128>> + Clone + 'a {
    shop.orders.heads.iter().zip(span_of).map(|(head, span)| head.colours.filter(|_| span.is_some()).map(i128::from))
}

/// Weights on one scale, the unknown ones at the plain mean of the known: exact, because all are multiplied by
/// how many are known. All nil where none is known.
fn with_mean(values: impl Iterator<Item = Option<i128>> + Clone) -> Result<Vec<i128>, TooLarge> {
    let count = i128::try_from(values.clone().flatten().count()).map_err(|_| TooLarge)?;
    let sum = values.clone().flatten().try_fold(0_i128, i128::checked_add).ok_or(TooLarge)?;
    values.map(|value| value.map_or(Some(sum), |value| value.checked_mul(count)).ok_or(TooLarge)).collect()
}
