//! One row of the orders log: what its kind asks of it.

use super::designs::{Design, Designs};
use crate::quantity::millionths::Money;
use crate::quantity::{Price, ratio};
use crate::reading::{Problem, Table};

/// Nothing charged.
pub(super) const FREE: Price = Price { amount: Money::ZERO, pieces: 1 };

/// Checks one row of the log, and reads what it means.
pub(super) struct RowChecker<'a> {
    pub table: &'a Table,
    pub row: usize,
    pub problems: &'a mut Vec<Problem>,
}

impl RowChecker<'_> {
    /// The pieces of a cookie row.
    pub fn cookie(
        &mut self,
        text: Option<&str>,
        design: Option<Design>,
        quantity: Option<i64>,
        designs: &Designs,
        made: Option<i64>,
    ) -> i64 {
        let (table, row) = (self.table, self.row);
        match (text, design) {
            (None, _) if table.lacks("design") => {}
            (None, _) => self.problems.push(table.error(row, "design", "a cookie row names no design").instead("write the design")),
            (Some(text), None) => {
                let problem = table.error(row, "design", "is not a design of designs.csv").found(text);
                self.problems.push(match designs.nearest(text) {
                    Some(near) => problem.instead(format!("did you mean {near}? check --names can add it to also_called")),
                    None => problem.instead("add it to designs.csv"),
                });
            }
            _ => {}
        }
        if quantity.is_none() && !table.is_wrong(row, "quantity") && !table.lacks("quantity") {
            self.problems.push(table.error(row, "quantity", "a cookie row has no quantity").instead("write how many pieces"));
        }
        let pieces = quantity.unwrap_or(1);
        if made.is_some_and(|made| made < pieces) {
            self.problems.push(table.warning(row, "made", "fewer were baked than sold").instead("look at both numbers"));
        }
        pieces
    }

    /// A price whose pieces come to what a column can hold; more is a slip of the keyboard.
    pub fn bounded(&mut self, price: Price, pieces: i64) -> Price {
        if price.times(pieces).and_then(|amount| ratio::narrow(amount.0)).is_ok() {
            return price;
        }
        let problem = self.table.error(self.row, "price", "price and quantity come to more than can be held");
        self.problems.push(problem.instead("look for a slip of the keyboard in both"));
        FREE
    }

    /// A cookie row's price: as written, else the tier's list price that day.
    ///
    /// `may_be_blank`: the set says what was charged, or why there is no price was told before.
    pub fn cookie_price(&mut self, price: Option<Price>, listed: Option<Price>, may_be_blank: bool) -> Price {
        let (table, row) = (self.table, self.row);
        match (price, listed) {
            (Some(price), Some(listed)) if price.amount > Money::ZERO && price < listed && listed.times(1) != price.times(1) => {
                let what = format!("is under the tier's list price of {listed}");
                self.problems.push(table.warning(row, "price", what).found(&price.to_string()).instead("was that meant?"));
                price
            }
            (Some(price), _) => price,
            (None, Some(listed)) => listed,
            (None, None) => {
                if !may_be_blank {
                    let problem = table.error(row, "price", "the cell is blank, and no list price stands for the design that day");
                    self.problems.push(problem.instead("write the price (0 is free), or add its tier's to tiers.csv"));
                }
                FREE
            }
        }
    }

    /// A row that is not of cookies: one amount.
    pub fn other(&mut self, quantity: Option<i64>, price: Option<Price>) {
        let (table, row) = (self.table, self.row);
        if let Some(quantity) = quantity.filter(|quantity| *quantity != 1) {
            let problem = table.error(row, "quantity", "is a quantity on a row that is not of cookies").found(&quantity.to_string());
            self.problems.push(problem.instead("leave it blank and write the whole amount as the price"));
        }
        match price {
            None if table.is_wrong(row, "price") => {}
            None => self.problems.push(table.error(row, "price", "the row has no amount").instead("write the whole amount, positive")),
            Some(price) if price.pieces != 1 => {
                self.problems
                    .push(table.error(row, "price", "is by the dozen on a row that is not of cookies").instead("write the whole amount"));
            }
            Some(_) => {}
        }
    }
}
