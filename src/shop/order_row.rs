//! Checks of one row of the orders log, by its kind.

use super::charge::Kind;
use super::designs::Designs;
use super::kinds::{
    CHARGE_AMOUNT, CHARGE_BY_DOZEN, CHARGE_QUANTITY, CHARGE_SIGN, FEWER_MADE, LINE_TOO_LARGE, NO_DESIGN, NO_PRICE, NO_QUANTITY, UNDER_LIST,
    UNKNOWN_DESIGN,
};
use crate::ids::{Design, Id};
use crate::quantity::millionths::Money;
use crate::quantity::{Price, ratio};
use crate::reading::format::word::key;
use crate::reading::problem_kind::TOO_SMALL;
use crate::reading::{Problem, Table};

/// Nothing charged.
pub(super) const FREE: Price = Price { amount: Money::ZERO, pieces: 1 };

/// Reports cookies priced below 0 and leaves their prices out.
pub(super) fn refuse_negative(table: &mut Table, kinds: &[Option<Kind>], prices: &mut [Option<Price>], problems: &mut Vec<Problem>) {
    for (row, (cell, _)) in prices.iter_mut().zip(kinds).enumerate().filter(|(_, (_, kind))| **kind == Some(Kind::Cookie)) {
        if let Some(price) = cell.filter(|price| price.amount < Money::ZERO) {
            let problem = table.problem(&TOO_SMALL, row, "price", "is less than 0").found(&price.to_string());
            problems.push(problem.instead("write it without a minus; money given back is a row of kind refund"));
            table.mark_wrong(row, "price");
            *cell = None;
        }
    }
}

fn is_slip(price: Price, listed: Price) -> bool {
    price.times(1).is_ok_and(|price| listed.times(1).is_ok_and(|listed| ratio::is_far(price.0, listed.0)))
}

/// Checks one row and returns what it stands for.
pub(super) struct RowChecker<'a> {
    pub table: &'a Table,
    pub row: usize,
    pub problems: &'a mut Vec<Problem>,
}

impl RowChecker<'_> {
    /// Checks a cookie row's design and quantity, and returns its pieces. A row without a quantity may be a charge that is not known
    /// as one.
    pub fn cookie(
        &mut self,
        text: Option<&str>,
        design: Option<Id<Design>>,
        quantity: Option<i64>,
        may_be_charge: bool,
        designs: &Designs,
        made: Option<i64>,
    ) -> i64 {
        let (table, row) = (self.table, self.row);
        match (text, design) {
            (None, _) if table.lacks("design") => {}
            (None, _) => {
                self.problems.push(table.problem(&NO_DESIGN, row, "design", "the row has no design").instead("write the design"));
            }
            (Some(text), None) => {
                let problem = table.problem(&UNKNOWN_DESIGN, row, "design", "is not in designs.csv").found(text);
                self.problems.push(match designs.nearest(text) {
                    Some(near) => problem.instead(format!("did you mean {near}? check --names can add it under also_called")),
                    None => problem.instead("add it there, or correct it"),
                });
            }
            _ => {}
        }
        if quantity.is_none() && !table.is_wrong(row, "quantity") && !table.lacks("quantity") {
            let problem = table.problem(&NO_QUANTITY, row, "quantity", "the row has no quantity");
            self.problems.push(problem.instead(match text.filter(|_| may_be_charge) {
                Some(text) => format!(
                    "write how many pieces; or, if it is a charge, {} = \"delivery\" or another kind under [words] in shop.toml",
                    key(text)
                ),
                None => "write how many pieces".to_owned(),
            }));
        }
        let pieces = quantity.unwrap_or(1);
        if made.is_some_and(|made| made < pieces) {
            self.problems.push(table.problem(&FEWER_MADE, row, "made", "fewer were baked than sold").instead("check both numbers"));
        }
        pieces
    }

    /// Returns the price, or a free one with a problem where price × pieces does not fit 64 bits.
    pub(crate) fn bounded(&mut self, price: Price, pieces: i64) -> Price {
        if price.times(pieces).and_then(|amount| ratio::narrow(amount.0)).is_ok() {
            return price;
        }
        let problem = self.table.problem(&LINE_TOO_LARGE, self.row, "price", "price × quantity is more money than can be worked with");
        self.problems.push(problem.instead("check both for a typing slip"));
        FREE
    }

    /// Returns a cookie row's price: as written, else the tier's list price that day, else free with a problem.
    ///
    /// `may_be_blank` is true where a set price covers the row or another problem already explains the blank.
    pub(crate) fn cookie_price(&mut self, price: Option<Price>, listed: Option<Price>, pieces: i64, may_be_blank: bool) -> Price {
        let (table, row) = (self.table, self.row);
        match (price, listed) {
            // A price far from its list price is warned of as a likely slip, once what is usual is known.
            (Some(price), Some(listed))
                if price.amount > Money::ZERO && price < listed && listed.times(1) != price.times(1) && !is_slip(price, listed) =>
            {
                let what = format!("is under the list price, '{listed}'");
                let problem = table.problem(&UNDER_LIST, row, "price", what).found(&price.to_string()).instead("if you meant it, leave it");
                let less = listed.times(pieces).and_then(|list| Ok(list - price.times(pieces)?));
                self.problems.push(less.map_or(problem.clone(), |less| problem.at_stake(less)));
                price
            }
            (Some(price), _) => price,
            (None, Some(listed)) => listed,
            (None, None) => {
                if !may_be_blank {
                    let problem =
                        table.problem(&NO_PRICE, row, "price", "the cell is blank, and no list price holds for the design that day");
                    self.problems.push(problem.instead("write the price (0 if it was free), or add its tier's list price to tiers.csv"));
                }
                FREE
            }
        }
    }

    /// Checks a row that charges something other than cookies: it has one amount and no quantity. Returns the amount; that of a
    /// discount or a refund may be written with a minus.
    pub fn other(&mut self, kind: Kind, quantity: Option<i64>, price: Option<Price>) -> Price {
        let (table, row) = (self.table, self.row);
        if let Some(quantity) = quantity.filter(|quantity| *quantity != 1) {
            let problem =
                table.problem(&CHARGE_QUANTITY, row, "quantity", "is a quantity, but the row is a charge").found(&quantity.to_string());
            self.problems.push(problem.instead("leave it blank and write the whole amount as the price"));
        }
        match price {
            None if table.is_wrong(row, "price") => {}
            None => {
                let problem = table.problem(&CHARGE_AMOUNT, row, "price", "the charge has no amount");
                self.problems.push(problem.instead("write the whole amount"));
            }
            Some(price) if price.pieces != 1 => {
                let problem = table.problem(&CHARGE_BY_DOZEN, row, "price", "is by the dozen, but the row is a charge");
                self.problems.push(problem.found(&price.to_string()).instead("write the whole amount"));
            }
            Some(price) if price.amount < Money::ZERO && matches!(kind, Kind::Discount | Kind::Refund) => {
                return Price { amount: Money(-price.amount.0), ..price };
            }
            Some(price) if price.amount < Money::ZERO => {
                let problem = table.problem(&CHARGE_SIGN, row, "price", "is less than 0").found(&price.to_string());
                self.problems.push(problem.instead("write it without a minus, or discount or refund as its kind"));
                return FREE;
            }
            Some(_) => {}
        }
        price.unwrap_or(FREE)
    }
}
