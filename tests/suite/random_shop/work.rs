//! The hours log at its three levels, and overheads of every base.

use super::{Maker, Row, row};
use chrono::{NaiveDate, TimeDelta};

impl Maker {
    pub(super) fn hours(&mut self) {
        if !self.chance(93) {
            return;
        }
        let mut rows = Vec::new();
        if self.chance(90) {
            for at in 0..self.sold.len() {
                // Some orders have no hours.
                for _ in 0..self.dice.one(&[0, 1, 1, 2, 3, 4]) {
                    self.naming_order(&mut rows, at);
                }
            }
        }
        for _ in 0..self.dice.whole(0, 8) {
            let day = self.day(-12, self.span + 10);
            let cells = row([("stage", self.stage())]);
            self.entry(&mut rows, day, cells);
        }
        if self.chance(50) {
            for _ in 0..self.dice.whole(1, 4) {
                let day = self.day(-5, self.span);
                // Without a card, designs are what the orders name.
                let known = if self.has("designs") { self.designs.clone() } else { self.sold[0].designs.clone() };
                let design = self.dice.one(&known);
                let cells = row([("stage", self.stage()), ("design", self.called(&design)), ("pieces", self.some_pieces())]);
                self.entry(&mut rows, day, cells);
            }
        }
        self.keep("hours", &["date", "minutes", "start", "end", "stage", "order", "design", "pieces", "who"], rows);
    }

    fn naming_order(&mut self, rows: &mut Vec<Row>, at: usize) {
        let (id, day) = (self.sold[at].id.clone(), self.sold[at].day);
        let designs = self.sold[at].designs.clone();
        let worked = day - TimeDelta::days(self.dice.whole(0, 5));
        let stage = self.stage();
        let whole_order = row([("stage", stage.clone()), ("order", id.clone())]);
        match self.dice.whole(1, 100) {
            1..=55 => self.entry(rows, worked, whole_order),
            56..=70 => {
                let ids: Vec<String> = self.sold.iter().map(|order| order.id.clone()).collect();
                let many = self.dice.whole(1, 2);
                let mut joined = self.dice.some(&ids, many);
                joined.push(id);
                let plus = self.dice.one(&["+", " + "]);
                self.entry(rows, worked, row([("stage", stage), ("order", joined.join(plus))]));
            }
            71..=92 if !designs.is_empty() => {
                let design = self.dice.one(&designs);
                let pieces = self.some_pieces();
                let timed = row([("stage", stage), ("order", id), ("design", self.called(&design)), ("pieces", pieces)]);
                self.entry(rows, worked, timed);
                // The rest of the order at the same stage is shared by what was not timed.
                if self.chance(60) {
                    self.entry(rows, worked, whole_order);
                }
            }
            _ => self.entry(rows, worked, row([("stage", stage), ("order", day.to_string())])),
        }
    }

    /// Minutes, or start and end; now and then a second entry alike in all but its minutes.
    fn entry(&mut self, rows: &mut Vec<Row>, day: NaiveDate, mut cells: Row) {
        cells.insert("date", day.to_string());
        if self.chance(15) {
            let start = self.dice.whole(0, 1439);
            let end = (start + self.dice.whole(5, 200)) % 1440;
            cells.insert("start", format!("{:02}:{:02}", start / 60, start % 60));
            cells.insert("end", format!("{:02}:{:02}", end / 60, end % 60));
        } else {
            let fraction = self.dice.one(&["", "", ".5", ".25", ".333333"]);
            cells.insert("minutes", format!("{}{fraction}", self.dice.whole(3, 240)));
        }
        let helpers: Vec<&str> = self.shop.options.helpers.keys().copied().collect();
        if !helpers.is_empty() && self.chance(20) {
            cells.insert("who", self.dice.one(&helpers).to_owned());
        }
        rows.push(cells.clone());
        if self.chance(6) {
            cells.remove("start");
            cells.remove("end");
            cells.insert("minutes", self.dice.whole(3, 60).to_string());
            rows.push(cells);
        }
    }

    fn stage(&mut self) -> String {
        let stages = self.shop.options.stages();
        match self.dice.whole(1, 100) {
            1..=12 => String::new(),
            13..=40 => self.dice.one(&["decorate", "pack"]).to_owned(),
            _ => self.dice.one(&stages).to_owned(),
        }
    }

    fn some_pieces(&mut self) -> String {
        if self.chance(40) { self.dice.whole(1, 20).to_string() } else { String::new() }
    }

    pub(super) fn overheads(&mut self) {
        if !self.chance(80) {
            return;
        }
        let mut rows = Vec::new();
        for _ in 0..self.dice.whole(1, 7) {
            let from = self.day(-40, self.span + 20);
            let days = self.dice.one(&[0, 0, 13, 30, 89, 364]);
            let to = if days == 0 && self.chance(70) { String::new() } else { (from + TimeDelta::days(days)).to_string() };
            rows.push(row([
                ("from", from.to_string()),
                ("to", to),
                ("what", self.dice.one(&["stall rent", "oven power", "cover", "permit"]).to_owned()),
                ("paid", self.dice.cents(400, 24000)),
                ("shared_by", self.dice.one(&["", "hours", "pieces", "orders", "revenue"]).to_owned()),
            ]));
        }
        self.keep("overheads", &["from", "to", "what", "paid", "shared_by"], rows);
    }
}
