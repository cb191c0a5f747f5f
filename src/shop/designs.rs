//! The designs a shop sells, from its card, or from what its orders name.

use super::earlier_tiers::EarlierTiers;
use super::kinds::{DESIGN_TWICE, EARLIER_TIERS, NAME_TAKEN, SIMILAR_DESIGNS, TIER_WITHOUT_PRICE, UNKNOWN_TIER};
use super::size::Size;
use super::tiers::PriceList;
use crate::ids::{Design, Id, IdVec, Names, Tier};
use crate::quantity::Day;
use crate::reading::nearest::{bare, nearest};
use crate::reading::{Place, Problem, Table};
use std::collections::{BTreeMap, HashMap};

/// The designs, by number.
#[derive(Debug, Clone, Default)]
pub struct Designs {
    /// Names, sorted.
    pub names: Names<Design>,
    /// The tiers they sit in, sorted.
    pub tiers: Names<Tier>,
    /// Each design's tier.
    pub tier: IdVec<Design, Option<Id<Tier>>>,
    /// The tiers each design sat in before.
    pub earlier: IdVec<Design, EarlierTiers>,
    /// Each design's size, which picks its assumed materials.
    pub size: IdVec<Design, Size>,
    /// The maker's own guess of decorating minutes for one piece, in millionths.
    pub minutes_each: IdVec<Design, Option<i64>>,
    /// Each design's theme.
    pub theme: IdVec<Design, Option<String>>,
    /// Where each stands on the card.
    pub place: IdVec<Design, Option<Place>>,
    /// Whether the shop has a designs card.
    pub on_card: bool,
    also_called: HashMap<String, Id<Design>>,
}

impl Designs {
    /// Reads the `designs` card; of a design listed twice the first row counts, with a problem.
    pub fn read(mut table: Table, prices: &PriceList, problems: &mut Vec<Problem>) -> Self {
        let (designs, names) = table.text("design");
        let (tiers, tier_names) = table.text("tier");
        let (themes, theme_names) = table.text("theme");
        let (others, other_names) = table.text("also_called");
        let (earlier, earlier_texts) = table.text("earlier_tiers");
        let sizes = table.wholes("size");
        let minutes = table.millionths("minutes_each");
        let mut rows: BTreeMap<&str, usize> = BTreeMap::new();
        for (row, name) in designs.iter().enumerate() {
            let Some(name) = name.map(|name| names.text(name)) else { continue };
            let first = *rows.entry(name).or_insert(row);
            if first != row {
                let what = format!("is in designs.csv twice, first in row {}", table.places[first].row);
                problems.push(table.problem(&DESIGN_TWICE, row, "design", what).found(name).instead("keep one of the rows"));
            }
        }
        let mut card = Self { on_card: true, names: Names::sorted(rows.keys().copied()), ..Self::default() };
        card.tiers = Names::sorted(rows.values().filter_map(|row| tiers[*row]).map(|tier| tier_names.text(tier)));
        for row in rows.values().copied() {
            let tier = tiers[row].map(|tier| tier_names.text(tier));
            if let Some(tier) = tier {
                check_tier(&table, (row, "tier"), tier, prices, problems);
            }
            card.tier.push(tier.and_then(|tier| card.tiers.find(tier)));
            let earlier = earlier[row].map_or("", |text| earlier_texts.text(text));
            card.earlier.push(read_earlier(&table, row, earlier, prices, problems));
            card.size.push(sizes[row].and_then(|at| Size::ALL.get(usize::try_from(at).ok()?).copied()).unwrap_or_default());
            card.minutes_each.push(minutes[row]);
            card.theme.push(themes[row].map(|theme| theme_names.text(theme).to_owned()));
            card.place.push(table.places.get(row).copied());
        }
        for (name, row) in &rows {
            let (Some(design), Some(others)) = (card.names.find(name), others[*row]) else { continue };
            for other in other_names.text(others).split(';').map(str::trim).filter(|other| !other.is_empty()) {
                let owner = card.names.find(other).or_else(|| card.also_called.get(other).copied());
                match owner {
                    Some(owner) if owner != design => {
                        let what = format!("is also a name of {}", card.names.text(owner));
                        problems
                            .push(table.problem(&NAME_TAKEN, *row, "also_called", what).found(other).instead("leave it with one design"));
                    }
                    _ => {
                        card.also_called.insert(other.to_owned(), design);
                    }
                }
            }
        }
        card.warn_of_near_duplicates(&table.file, problems);
        card
    }

    /// Makes designs of the names in the orders, for a shop without a card.
    pub(crate) fn named_in<'a>(names: impl IntoIterator<Item = &'a str>, file: &str, problems: &mut Vec<Problem>) -> Self {
        let names = Names::sorted(names);
        let count = names.len();
        let designs = Self {
            names,
            tier: IdVec::filled(None, count),
            earlier: IdVec::filled(EarlierTiers::default(), count),
            size: IdVec::filled(Size::default(), count),
            minutes_each: IdVec::filled(None, count),
            theme: IdVec::filled(None, count),
            place: IdVec::filled(None, count),
            ..Self::default()
        };
        designs.warn_of_near_duplicates(file, problems);
        designs
    }

    /// Finds a design by its name or a name it is also called.
    #[must_use]
    pub fn find(&self, text: &str) -> Option<Id<Design>> {
        self.names.find(text).or_else(|| self.also_called.get(text).copied())
    }

    /// The tier that a design sits in on a day; `None` where it sits in none.
    #[must_use]
    pub(crate) fn tier_on(&self, design: Id<Design>, day: Day) -> Option<&str> {
        self.earlier[design].on(day).unwrap_or_else(|| self.tier[design].map(|tier| self.tiers.text(tier)))
    }

    /// The known name closest to a misspelt one, if one is close enough.
    #[must_use]
    pub fn nearest(&self, text: &str) -> Option<&str> {
        nearest(text, self.names.iter().chain(self.also_called.keys().map(String::as_str)))
    }

    /// All designs.
    pub fn all(&self) -> impl Iterator<Item = Id<Design>> + use<> {
        self.names.ids()
    }

    fn warn_of_near_duplicates(&self, file: &str, problems: &mut Vec<Problem>) {
        let mut by_bare_name: BTreeMap<String, Vec<&str>> = BTreeMap::new();
        for name in self.names.iter() {
            by_bare_name.entry(bare(name)).or_default().push(name);
        }
        for same in by_bare_name.into_values().filter(|same| same.len() > 1) {
            let what = if same.len() == 2 { "look like two names of one design" } else { "look like several names of one design" };
            let instead = if self.on_card { "if so, keep one and list the others under its also_called" } else { "if so, use one name" };
            problems.push(Problem::of_file(&SIMILAR_DESIGNS, file, what).found(&same.join("', '")).instead(instead));
        }
    }
}

fn check_tier(table: &Table, (row, column): (usize, &str), tier: &str, prices: &PriceList, problems: &mut Vec<Problem>) {
    if prices.is_empty() || prices.tiers().any(|known| known == tier) {
        return;
    }
    let problem = match nearest(tier, prices.tiers()) {
        Some(near) => table.problem(&UNKNOWN_TIER, row, column, "is not in tiers.csv").did_you_mean(near),
        None => table.problem(&TIER_WITHOUT_PRICE, row, column, "has no price in tiers.csv").instead("add its list price there"),
    };
    problems.push(problem.found(tier));
}

fn read_earlier(table: &Table, row: usize, text: &str, prices: &PriceList, problems: &mut Vec<Problem>) -> EarlierTiers {
    let earlier = EarlierTiers::parse(text).unwrap_or_else(|what| {
        let problem = table.problem(&EARLIER_TIERS, row, "earlier_tiers", what.to_string()).found(text);
        problems.push(problem.instead("write each tier with its last day, separated by semicolons: shape until 2026-05-31"));
        EarlierTiers::default()
    });
    for tier in earlier.tiers() {
        check_tier(table, (row, "earlier_tiers"), tier, prices, problems);
    }
    earlier
}
