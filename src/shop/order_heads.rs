//! Order heads: day, status, channel, colours and payments of each order, gathered from its rows.

use super::charge::Kind;
use super::kinds::{DATES_DISAGREE, NO_DATE, ROWS_DISAGREE};
use super::status::Status;
use crate::ids::{Channel, Id, IdVec, Names, Order};
use crate::quantity::Day;
use crate::reading::{Place, Problem, Table};

/// What holds for all rows of an order.
#[derive(Debug, Clone, Copy)]
pub struct Head {
    /// Hand-over day; none where no row has one, which is an error.
    pub day: Option<Day>,
    /// What became of it.
    pub status: Status,
    /// Where it was sold.
    pub channel: Option<Id<Channel>>,
    /// Icing colours in the set.
    pub colours: Option<i64>,
    /// Card charges made.
    pub payments: Option<i64>,
    /// Its first row, for problems.
    pub place: Place,
}

/// Gathers the head of each order. Rows that disagree on date, status or channel are a problem; of colours and payments the largest
/// counts.
pub(super) fn heads(
    table: &mut Table,
    order: &[Option<Id<Order>>],
    kind: &[Kind],
    channel: &[Option<Id<Channel>>],
    channels: &Names<Channel>,
    ids: &Names<Order>,
    problems: &mut Vec<Problem>,
) -> IdVec<Order, Head> {
    let days = table.days("date");
    let statuses = table.wholes("status").into_iter().map(|at| Status::ALL.get(usize::try_from(at?).ok()?).copied());
    let statuses: Vec<Option<Status>> = statuses.collect();
    let colours = table.wholes("colours");
    let payments = table.wholes("payments");
    let mut first = IdVec::filled(None, ids.len());
    let mut day: Agreed<Day> = Agreed::new(ids.len());
    let mut status: Agreed<Status> = Agreed::new(ids.len());
    let mut sold_in: Agreed<Id<Channel>> = Agreed::new(ids.len());
    let mut most: IdVec<Order, (Option<i64>, Option<i64>)> = IdVec::filled((None, None), ids.len());
    let mut only_deposits = IdVec::<Order, bool>::filled(true, ids.len());
    let mut dated_wrongly = IdVec::<Order, bool>::filled(false, ids.len());
    for row in 0..table.rows() {
        let Some(order) = order[row] else { continue };
        first[order].get_or_insert(table.places[row]);
        only_deposits[order] &= kind[row] == Kind::DepositKept;
        dated_wrongly[order] |= table.is_wrong(row, "date");
        most[order] = (most[order].0.max(colours[row]), most[order].1.max(payments[row]));
        day.note(table, row, order, days[row], "date", ToString::to_string, problems);
        status.note(table, row, order, statuses[row], "status", |status| status.word().to_owned(), problems);
        sold_in.note(table, row, order, channel[row], "channel", |name| channels.text(*name).to_owned(), problems);
    }
    ids.ids()
        .map(|order| {
            let place = first[order].unwrap_or(Place::of_row(0, 0));
            let day = day.value(order);
            if day.is_none() && !dated_wrongly[order] {
                let text = ids.text(order);
                let problem = Problem::of_file(&NO_DATE, &table.file, "has no date on any of its rows").at(place);
                problems.push(problem.column("order").found_order(text).instead("write the day it was handed over"));
            }
            let assumed = if only_deposits[order] { Status::Cancelled } else { Status::Done };
            let status = status.value(order).unwrap_or(assumed);
            Head { day, status, channel: sold_in.value(order), colours: most[order].0, payments: most[order].1, place }
        })
        .collect()
}

/// A column whose cells must agree over each order's rows: the first value of each order, and its row.
struct Agreed<T> {
    said: IdVec<Order, Option<(T, usize)>>,
}

impl<T: Copy + PartialEq> Agreed<T> {
    fn new(count: usize) -> Self {
        Self { said: IdVec::filled(None, count) }
    }

    fn value(&self, at: Id<Order>) -> Option<T> {
        self.said[at].map(|(value, _)| value)
    }

    #[allow(clippy::too_many_arguments, reason = "a row, its cell and how to write it")]
    fn note(
        &mut self,
        table: &Table,
        row: usize,
        at: Id<Order>,
        value: Option<T>,
        column: &str,
        text: impl Fn(&T) -> String,
        problems: &mut Vec<Problem>,
    ) {
        let Some(value) = value else { return };
        match self.said[at] {
            None => self.said[at] = Some((value, row)),
            Some((said, first)) if said != value => {
                let what = format!("contradicts '{}' in row {} of the same order", text(&said), table.places[first].row);
                let (kind, instead) = if column == "date" {
                    let twice = "write the same on both; if it was handed over twice, give each hand-over its own order, as A1a and A1b, \
                                 and write A1a+A1b in hours";
                    (&DATES_DISAGREE, twice)
                } else {
                    (&ROWS_DISAGREE, "write the same on both, or leave one blank")
                };
                problems.push(table.problem(kind, row, column, what).found(&text(&value)).instead(instead));
            }
            Some(_) => {}
        }
    }
}
