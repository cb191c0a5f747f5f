//! The orders log: every kind of row, in orders done, quoted and cancelled.

use super::{Maker, Row, Sold, cell, row};
use chrono::NaiveDate;

const COLUMNS: [&str; 13] =
    ["order", "date", "kind", "design", "quantity", "price", "made", "colours", "payments", "theme", "channel", "status", "notes"];

impl Maker {
    pub(super) fn orders(&mut self) {
        let days: Vec<NaiveDate> = (0..self.dice.whole(3, 15)).map(|_| self.day(0, self.span)).collect();
        let mut rows = Vec::new();
        for number in 1..=self.dice.whole(4, 20) {
            let day = self.dice.one(&days);
            // The first is done and has cookies, so that no shop is without any.
            let status = if number == 1 { "done" } else { self.dice.one(&["done", "done", "done", "done", "done", "quoted", "cancelled"]) };
            let only_delivery = number > 1 && status == "done" && self.chance(7);
            let mut of_order = if only_delivery { Vec::new() } else { self.cookies() };
            self.beside(&mut of_order, only_delivery);
            if status == "cancelled" && self.chance(70) {
                for _ in 0..self.dice.one(&[1, 1, 2]) {
                    of_order.push(row([("kind", "deposit kept".to_owned()), ("price", self.dice.cents(1000, 6000))]));
                }
                if self.chance(30) {
                    of_order.retain(|row| cell(row, "kind") == "deposit kept");
                }
            }
            let designs = of_order.iter().filter(|row| !cell(row, "design").is_empty());
            let designs = designs.map(|row| self.meant(cell(row, "design"))).collect();
            let id = format!("t{number:03}");
            self.heads(&mut of_order, &id, day, status);
            rows.extend(of_order);
            self.sold.push(Sold { id, day, designs });
        }
        self.keep("orders", &COLUMNS, rows);
    }

    fn meant(&self, name: &str) -> String {
        self.shop.also_called.get(name).cloned().unwrap_or_else(|| name.to_owned())
    }

    fn cookies(&mut self) -> Vec<Row> {
        let mut rows = Vec::new();
        let by_set = self.chance(25);
        let all_free = by_set && self.chance(15);
        for _ in 0..self.dice.one(&[1, 1, 2, 2, 3, 4]) {
            let design = self.dice.one(&self.designs.clone());
            let pieces = self.dice.one(&[6, 8, 12, 12, 18, 24, 36, 5, 1]);
            let quantity = if pieces % 6 == 0 && self.chance(40) {
                format!("{}{} dozen", pieces / 12, if pieces % 12 == 0 { "" } else { ".5" })
            } else {
                pieces.to_string()
            };
            let blank = self.chance(50) && (self.is_listed(&design) || by_set);
            let price = if blank {
                String::new()
            } else if all_free || self.chance(6) {
                "0".to_owned()
            } else if self.chance(20) {
                format!("{}/dozen", self.dice.one(&["30", "40", "54", "55", "71.5"]))
            } else {
                self.dice.cents(150, 1100)
            };
            let made = if self.chance(25) { (pieces + self.dice.whole(0, 4)).to_string() } else { String::new() };
            let mut row = row([
                ("kind", self.dice.one(&["", "cookie"]).to_owned()),
                ("design", self.called(&design)),
                ("quantity", quantity),
                ("price", price),
                ("made", made),
            ]);
            self.themed(&mut row);
            rows.push(row);
        }
        if self.chance(10) {
            rows.push(rows[0].clone());
        }
        if by_set {
            rows.push(row([("kind", "set".to_owned()), ("price", self.dice.cents(2000, 18000)), ("quantity", "1".to_owned())]));
        }
        rows
    }

    /// What is charged or given back beside the cookies.
    fn beside(&mut self, rows: &mut Vec<Row>, only_delivery: bool) {
        if only_delivery || self.chance(20) {
            for _ in 0..self.dice.one(&[1, 1, 1, 2]) {
                let price = if self.chance(15) { "0".to_owned() } else { self.dice.cents(500, 2500) };
                let mut row = row([("kind", "delivery".to_owned()), ("price", price)]);
                self.themed(&mut row);
                rows.push(row);
            }
        }
        for (kind, chance, most) in [("rush", 12, 3000), ("discount", 14, 1800), ("refund", 9, 2500), ("tip", 14, 1500), ("tax", 15, 1200)]
        {
            if self.chance(chance) {
                for _ in 0..self.dice.one(&[1, 1, 1, 2]) {
                    let quantity = self.dice.one(&["", "1"]).to_owned();
                    rows.push(row([("kind", kind.to_owned()), ("price", self.dice.cents(100, most)), ("quantity", quantity)]));
                }
            }
        }
    }

    /// What holds for the whole order stands on one of its rows at least.
    fn heads(&mut self, rows: &mut [Row], id: &str, day: NaiveDate, status: &str) {
        // Blank says done, or cancelled where there is nothing but kept deposits.
        let goes_without = status == "done" || rows.iter().all(|row| cell(row, "kind") == "deposit kept");
        let status = if goes_without && self.chance(50) { "" } else { status };
        let channel = if self.channels.is_empty() || self.chance(30) { "" } else { self.dice.one(&self.channels.clone()) };
        for (column, value) in [("date", day.to_string().as_str()), ("status", status), ("channel", channel)] {
            let kept = self.dice.whole(1, i64::try_from(rows.len()).unwrap());
            let on_all = self.chance(70);
            for (place, row) in (1..).zip(rows.iter_mut()) {
                if on_all || place == kept || self.chance(40) {
                    row.insert(column, value.to_owned());
                }
            }
        }
        let last = rows.len() - 1;
        if self.chance(60) {
            rows[0].insert("colours", self.dice.whole(0, 8).to_string());
            if self.chance(20) {
                rows[last].insert("colours", self.dice.whole(0, 8).to_string());
            }
        }
        if self.chance(35) {
            rows[last].insert("payments", self.dice.whole(0, 3).to_string());
        }
        for row in rows {
            row.insert("order", id.to_owned());
            row.insert("notes", self.dice.one(&["", "ring the bell"]).to_owned());
        }
    }
}
