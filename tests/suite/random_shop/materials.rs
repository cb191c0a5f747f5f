//! What is bought, returned and counted, and the recipes that use it.

use super::dice::hundredths;
use super::{Maker, Row, row};
use chrono::{NaiveDate, TimeDelta};
use std::collections::BTreeSet;

/// A thing that is bought: its packs (size, unit, cents), and the units recipes use it in with the hundredths of a batch.
struct Thing {
    name: &'static str,
    packs: &'static [(&'static str, &'static str, i64)],
    uses: &'static [(&'static str, i64)],
}

const INGREDIENTS: [Thing; 9] = [
    Thing {
        name: "flour",
        packs: &[("5", "lb", 320), ("2", "kg", 290), ("1000", "g", 160)],
        uses: &[("g", 40_000), ("cup", 300), ("oz", 1300), ("tbsp", 4000)],
    },
    Thing {
        name: "butter",
        packs: &[("1", "lb", 490), ("454", "g", 470), ("8", "oz", 260)],
        uses: &[("g", 22_700), ("cup", 100), ("tbsp", 1600)],
    },
    Thing {
        name: "icing sugar",
        packs: &[("2", "lb", 240), ("1", "kg", 270)],
        uses: &[("g", 90_000), ("lb", 200), ("cup", 700), ("tsp", 9000)],
    },
    Thing { name: "egg", packs: &[("1", "dozen", 390), ("30", "each", 820)], uses: &[("each", 100), ("g", 5000)] },
    Thing {
        name: "vanilla",
        packs: &[("8", "fl oz", 1150), ("100", "ml", 640)],
        uses: &[("tsp", 200), ("tbsp", 50), ("ml", 800), ("g", 900)],
    },
    Thing { name: "salt", packs: &[("500", "g", 110), ("1", "cup", 80)], uses: &[("tsp", 50), ("g", 300)] },
    Thing { name: "water", packs: &[("1", "l", 30), ("1", "gallon", 110)], uses: &[("ml", 18_000), ("cup", 75)] },
    // These two have weights on the items card alone.
    Thing { name: "meringue dust", packs: &[("10", "oz", 950), ("1", "lb", 1400)], uses: &[("g", 6000), ("cup", 40), ("tbsp", 600)] },
    Thing { name: "sugar pearls", packs: &[("500", "each", 600), ("100", "g", 500)], uses: &[("each", 4000), ("g", 900)] },
];
const ONLY_CARDED: [&str; 2] = ["meringue dust", "sugar pearls"];
const PACKAGING: [Thing; 4] = [
    Thing { name: "sleeve", packs: &[("100", "each", 750), ("10", "dozen", 900)], uses: &[("each", 100)] },
    Thing { name: "gift box", packs: &[("25", "each", 2100), ("2", "dozen", 1900)], uses: &[("each", 100)] },
    Thing { name: "ribbon", packs: &[("25", "m", 600), ("20", "yd", 550)], uses: &[("cm", 6000), ("in", 2400), ("ft", 200)] },
    Thing { name: "paper tag", packs: &[("20", "dozen", 1200), ("250", "each", 1300)], uses: &[("each", 100)] },
];

impl Maker {
    pub(super) fn materials(&mut self) {
        if self.chance(85) {
            self.items();
        }
        if self.chance(88) {
            self.recipes();
        }
        if self.chance(92) {
            self.purchases();
        }
        if self.chance(60) {
            self.counts();
        }
    }

    fn items(&mut self) {
        let carded = |item: &str, class: &str, cup: &str, each: &str| {
            row([
                ("item", item.to_owned()),
                ("class", class.to_owned()),
                ("grams_per_cup", cup.to_owned()),
                ("grams_each", each.to_owned()),
            ])
        };
        let mut rows = vec![carded("meringue dust", "", "152.5", ""), carded("sugar pearls", "ingredient", "", "0.22")];
        if self.chance(30) {
            rows.push(carded("flour", "", "131.5", ""));
        }
        rows.extend(PACKAGING.iter().map(|thing| carded(thing.name, "packaging", "", "")));
        self.keep("items", &["item", "class", "grams_per_cup", "grams_each"], rows);
    }

    /// What this shop can buy: things that only the items card weighs need the card.
    fn things(&self) -> Vec<&'static Thing> {
        let ingredients = INGREDIENTS.iter().filter(|thing| self.has("items") || !ONLY_CARDED.contains(&thing.name));
        ingredients.chain(&PACKAGING).collect()
    }

    /// Some ingredients in a recipe, at so many per cent of a batch's amount.
    fn ingredients(&mut self, rows: &mut Vec<Row>, taker: &str, many: i64, percent: i64) {
        let all: Vec<&Thing> = self.things().into_iter().filter(|thing| PACKAGING.iter().all(|other| other.name != thing.name)).collect();
        for thing in self.dice.some(&all, many) {
            rows.push(self.taking(taker, thing, percent));
        }
    }

    fn packaging(&mut self, rows: &mut Vec<Row>, taker: &str, many: i64) {
        let all: Vec<&Thing> = PACKAGING.iter().collect();
        for thing in self.dice.some(&all, many) {
            rows.push(self.taking(taker, thing, 100));
        }
    }

    fn taking(&mut self, taker: &str, thing: &Thing, percent: i64) -> Row {
        let (unit, size) = self.dice.one(thing.uses);
        takes(taker, thing.name, self.dice.around(size * percent / 100), unit)
    }

    fn recipes(&mut self) {
        let mut rows = Vec::new();
        let many = self.dice.whole(2, 5);
        let mut batch = Vec::new();
        self.ingredients(&mut batch, "dough", many, 100);
        self.finish(&mut rows, batch, 800);
        let mut recipes = vec![("dough", 3000)];
        if self.chance(80) {
            let mut batch = Vec::new();
            self.ingredients(&mut batch, "royal icing", 3, 100);
            self.finish(&mut rows, batch, 900);
            recipes.push(("royal icing", 1400));
        }
        if recipes.len() == 2 && self.chance(60) {
            let mut batch = vec![takes("flood icing", "royal icing", self.dice.around(30_000), "g")];
            self.ingredients(&mut batch, "flood icing", 1, 20);
            if self.chance(30) {
                batch.push(takes("flood icing", "royal icing", self.dice.around(400), "oz"));
            }
            self.finish(&mut rows, batch, 400);
            recipes.push(("flood icing", 1200));
        }
        for design in self.designs.clone() {
            if self.chance(25) {
                continue;
            }
            let many = self.dice.whole(1, 3);
            for (recipe, grams) in self.dice.some(&recipes, many) {
                let (unit, size) = self.dice.one(&[("g", grams), ("g", grams), ("oz", grams * 10 / 283)]);
                let taker = self.called(&design);
                rows.push(takes(&taker, recipe, self.dice.around(size), unit));
            }
            if self.chance(40) {
                self.ingredients(&mut rows, &design, 1, 3);
            }
            if self.has("items") && self.chance(50) {
                self.packaging(&mut rows, &design, 1);
            }
        }
        self.for_orders(&mut rows);
        self.keep("recipes", &["for", "item", "amount", "unit", "yields", "yield_unit", "extra"], rows);
    }

    /// What every order and every delivery take; a kit is a recipe that makes one of itself.
    fn for_orders(&mut self, rows: &mut Vec<Row>) {
        if self.chance(70) {
            let many = self.dice.whole(1, 3);
            self.packaging(rows, "every order", many);
            if self.chance(30) {
                self.ingredients(rows, "every order", 1, 10);
            }
            if self.chance(30) {
                let mut kit = Vec::new();
                self.packaging(&mut kit, "wrapping kit", 2);
                kit[0].extend([("yields", "1".to_owned()), ("yield_unit", "each".to_owned()), ("extra", "5 %".to_owned())]);
                rows.append(&mut kit);
                rows.push(takes("every order", "wrapping kit", self.dice.one(&["1", "2", "0.5"]).to_owned(), "each"));
            }
        }
        if self.chance(40) {
            self.packaging(rows, "every delivery", 1);
            if self.chance(30) {
                self.ingredients(rows, "every delivery", 1, 10);
            }
        }
    }

    /// A yield on one of a recipe's rows, or blank; and extra, or none.
    fn finish(&mut self, rows: &mut Vec<Row>, mut batch: Vec<Row>, grams: i64) {
        let last = batch.len() - 1;
        if self.chance(50) {
            let (unit, size) = self.dice.one(&[("g", grams * 100), ("oz", grams * 1000 / 283), ("kg", grams / 10)]);
            batch[0].extend([("yields", self.dice.around(size)), ("yield_unit", unit.to_owned())]);
        }
        if self.chance(40) {
            batch[last].insert("extra", self.dice.one(&["10 %", "30 %", "12.5 %"]).to_owned());
        }
        rows.append(&mut batch);
    }

    fn purchases(&mut self) {
        let mut rows = Vec::new();
        for thing in self.things() {
            // Some are never bought.
            if self.chance(12) {
                continue;
            }
            for _ in 0..self.dice.one(&[1, 1, 2, 3, 5]) {
                let (size, unit, cents) = self.dice.one(thing.packs);
                let packs = self.dice.one(&[1, 1, 2, 3, 6]);
                let paid = if self.chance(3) { 0 } else { packs * cents * self.dice.whole(70, 160) / 100 };
                let day = self.day(-20, self.span);
                rows.push(bought(day, thing.name, packs, size, unit, paid));
                if paid > 0 && self.chance(10) {
                    let back = self.dice.whole(1, packs);
                    let money = (paid * back / packs * self.dice.one(&[100, 100, 80, 110]) / 100).max(1);
                    let day = day + TimeDelta::days(self.dice.one(&[0, 1, 6, 20]));
                    rows.push(bought(day, thing.name, -back, size, unit, -money));
                }
            }
        }
        let count = i64::try_from(rows.len()).unwrap();
        if count == 0 {
            return;
        }
        for receipt in 1..=self.dice.whole(0, 6) {
            for _ in 0..self.dice.whole(1, 4) {
                let at = usize::try_from(self.dice.whole(0, count - 1)).unwrap();
                rows[at].insert("receipt", format!("R{receipt}"));
            }
        }
        for row in &mut rows {
            if self.chance(20) {
                row.insert("shipping", self.dice.cents(100, 900));
            }
            if self.chance(25) {
                row.insert("tax", self.dice.cents(10, 200));
            }
        }
        self.keep("purchases", &["date", "item", "packs", "size", "unit", "paid", "shipping", "tax", "receipt", "supplier"], rows);
    }

    fn counts(&mut self) {
        let mut rows = Vec::new();
        for thing in self.things() {
            if self.chance(50) {
                continue;
            }
            let mut days: BTreeSet<NaiveDate> = (0..self.dice.whole(0, 3)).map(|_| self.day(1, self.span + 5)).collect();
            if self.chance(30) {
                days.insert(self.start - TimeDelta::days(30));
            }
            for day in days {
                let (size, unit, _) = self.dice.one(thing.packs);
                let packs = size.parse::<i64>().unwrap() * 100 * self.dice.one(&[30, 100, 200]) / 100;
                let amount = if self.chance(10) { "0".to_owned() } else { self.dice.around(packs) };
                rows.push(row([("date", day.to_string()), ("item", thing.name.to_owned()), ("amount", amount), ("unit", unit.to_owned())]));
            }
        }
        self.keep("counts", &["date", "item", "amount", "unit"], rows);
    }
}

fn takes(taker: &str, item: &str, amount: String, unit: &str) -> Row {
    row([("for", taker.to_owned()), ("item", item.to_owned()), ("amount", amount), ("unit", unit.to_owned())])
}

fn bought(day: NaiveDate, item: &str, packs: i64, size: &str, unit: &str, cents: i64) -> Row {
    row([
        ("date", day.to_string()),
        ("item", item.to_owned()),
        ("packs", packs.to_string()),
        ("size", size.to_owned()),
        ("unit", unit.to_owned()),
        ("paid", hundredths(cents)),
    ])
}
