//! The designs card and the price list.

use super::{FIRST, Maker, Row, SECOND, THEMES, row};
use chrono::TimeDelta;
use std::collections::BTreeSet;

impl Maker {
    pub(super) fn cards(&mut self) {
        let mut names: Vec<String> = FIRST.iter().flat_map(|first| SECOND.iter().map(move |second| format!("{first} {second}"))).collect();
        self.dice.shuffle(&mut names);
        let many = self.dice.whole(1, 7);
        self.designs = names.split_off(names.len() - usize::try_from(many).unwrap());
        if !self.chance(85) {
            return;
        }
        let many = self.dice.whole(1, 3);
        let tiers = self.dice.some(&["plain", "detailed", "character", "lace"], many);
        let guesses = self.chance(85);
        let mut rows = Vec::new();
        // One or two that were never sold stand on it too.
        for design in self.designs.clone().into_iter().chain(names.split_off(names.len() - 2)) {
            let tier = if self.chance(15) { String::new() } else { self.dice.one(&tiers).to_owned() };
            let mut others = Vec::new();
            for _ in 0..self.dice.one(&[0, 0, 1, 2]) {
                let other = names.pop().unwrap();
                self.shop.also_called.insert(other.clone(), design.clone());
                others.push(other);
            }
            let minutes = if guesses && self.chance(70) { self.dice.around(600) } else { String::new() };
            rows.push(row([
                ("design", design.clone()),
                ("tier", tier.clone()),
                ("size", self.dice.one(&["mini", "regular", "large", ""]).to_owned()),
                ("minutes_each", minutes),
                ("theme", self.dice.one(&["", "", THEMES[0], THEMES[1]]).to_owned()),
                ("also_called", others.join("; ")),
            ]));
            self.tiers.insert(design, tier);
        }
        self.keep("designs", &["design", "tier", "size", "minutes_each", "theme", "also_called"], rows);
        if self.chance(65) {
            self.price_list(&tiers);
        }
    }

    /// Each tier's price from before the first order, and some that follow it.
    fn price_list(&mut self, tiers: &[&str]) {
        let mut rows = Vec::new();
        for tier in tiers {
            let first = self.start - TimeDelta::days(40);
            let mut starts = vec![if self.chance(50) { first.to_string() } else { String::new() }];
            let later: BTreeSet<_> = (0..self.dice.whole(0, 2)).map(|_| self.day(0, self.span)).collect();
            starts.extend(later.iter().map(ToString::to_string));
            for from in starts {
                let price = if self.chance(20) { format!("{}/dozen", self.dice.cents(3000, 9000)) } else { self.dice.cents(200, 900) };
                rows.push(row([("tier", (*tier).to_owned()), ("price", price), ("from", from)]));
            }
        }
        self.keep("tiers", &["tier", "price", "from"], rows);
    }

    /// Whether a design has a list price on every day.
    pub(super) fn is_listed(&self, design: &str) -> bool {
        self.has("tiers") && self.tiers.get(design).is_some_and(|tier| !tier.is_empty())
    }

    /// A theme of its own, now and then.
    pub(super) fn themed(&mut self, row: &mut Row) {
        if self.chance(20) {
            row.insert("theme", self.dice.one(&THEMES).to_owned());
        }
    }
}
