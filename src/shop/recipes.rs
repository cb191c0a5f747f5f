//! Recipes: the items used by a recipe, a design, every order and every delivery, row by row. Costing adds them up.

use super::designs::Designs;
use super::items::{ItemCard, Measure};
use super::kinds::{RECIPE_DISAGREES, UNKNOWN_ITEM, UNKNOWN_UNIT, YIELD_OF_DESIGN, YIELD_UNIT_ALONE};
use crate::ids::{Design, Id, Item, Names, Text};
use crate::quantity::Percent;
use crate::quantity::household;
use crate::quantity::unit::Unit;
use crate::reading::nearest::nearest;
use crate::reading::{Place, Problem, Table};
use rust_decimal::Decimal;
use std::collections::{BTreeMap, BTreeSet};

/// The cell under `for` of what every order uses.
pub(super) const EVERY_ORDER: &str = "every order";
/// The cell under `for` of what every delivery uses.
pub(super) const EVERY_DELIVERY: &str = "every delivery";

/// What a row is for.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum Taker {
    /// One piece of a design.
    Design(Id<Design>),
    /// An order.
    EveryOrder,
    /// A delivery line.
    EveryDelivery,
    /// A batch of a recipe, by its place in [`Recipes::batches`].
    Batch(usize),
}

/// What a row uses.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Part {
    /// A purchased item, by its number in the shop's list.
    Item(Id<Item>),
    /// Another recipe, by its place in [`Recipes::batches`].
    Batch(usize),
}

/// One row.
#[derive(Debug, Clone)]
pub struct Row {
    /// What it is for.
    pub taker: Taker,
    /// What it uses.
    pub part: Part,
    /// How much, in `measure`.
    pub amount: Decimal,
    /// The unit.
    pub measure: Measure,
    /// Where it stands.
    pub place: Place,
}

/// A recipe that is not a design, such as a dough, and what one batch yields.
#[derive(Debug, Clone)]
pub struct Batch {
    /// Its name.
    pub name: String,
    /// How much one batch makes; `None` for the weight of its parts.
    pub yields: Option<(Decimal, Unit)>,
    /// Percentage made beyond what is used.
    pub extra: Percent,
    /// Its first row.
    pub place: Place,
}

/// The `recipes` card.
#[derive(Debug, Clone, Default)]
pub struct Recipes {
    /// Its rows, in the order written.
    pub rows: Vec<Row>,
    /// Recipes that are not designs, sorted by name.
    pub batches: Vec<Batch>,
}

/// The text columns of the card, taken out before items are numbered.
#[derive(Debug, Default)]
pub struct Texts {
    takers: (Vec<Option<Id<Text>>>, Names<Text>),
    parts: (Vec<Option<Id<Text>>>, Names<Text>),
}

impl Texts {
    /// Takes them out of the table.
    pub fn take(table: &mut Table) -> Self {
        Self { takers: table.text("for"), parts: table.text("item") }
    }

    /// Names of recipes that are neither designs nor every order or delivery, sorted.
    #[must_use]
    pub fn batches(&self, designs: &Designs) -> BTreeSet<String> {
        let used: BTreeSet<&str> = self.takers.0.iter().flatten().map(|name| self.takers.1.text(*name)).collect();
        used.into_iter()
            .filter(|name| *name != EVERY_ORDER && *name != EVERY_DELIVERY && designs.find(name).is_none())
            .map(str::to_owned)
            .collect()
    }

    /// Names of the parts that are not recipes: the items.
    pub fn items<'a>(&'a self, batches: &'a BTreeSet<String>) -> impl Iterator<Item = &'a str> {
        self.parts.1.iter().filter(|name| !batches.contains(*name))
    }
}

/// Known items, by which a misspelt one is told from one not yet bought.
pub struct KnownItems<'a> {
    /// Every item of the shop.
    pub names: &'a Names<Item>,
    /// Items bought or counted.
    pub stocked: &'a BTreeSet<String>,
    /// The card.
    pub card: &'a ItemCard,
}

impl Recipes {
    /// Reads the `recipes` card, its text columns in `texts`; a row that lacks a part, an amount or a known unit is left out, with a
    /// problem.
    pub fn read(mut table: Table, texts: &Texts, designs: &Designs, items: &KnownItems<'_>, problems: &mut Vec<Problem>) -> Self {
        let names = texts.batches(designs);
        let number_of: BTreeMap<&str, usize> = names.iter().enumerate().map(|(number, name)| (name.as_str(), number)).collect();
        let mut heads = BatchHeads::read(&mut table, names.len());
        let amounts = table.numbers("amount");
        let (units, unit_names) = table.text("unit");
        let measures = super::items::measures(&table, (&texts.parts.0, &texts.parts.1), (&units, &unit_names), problems);
        let mut rows = Vec::with_capacity(table.rows());
        for row in 0..table.rows() {
            let (Some(taker), Some(part)) = (texts.takers.0[row], texts.parts.0[row]) else { continue };
            let (taker, part) = (texts.takers.1.text(taker), texts.parts.1.text(part));
            let taker = match taker {
                EVERY_ORDER => Taker::EveryOrder,
                EVERY_DELIVERY => Taker::EveryDelivery,
                name => match (number_of.get(name), designs.find(name)) {
                    (Some(batch), _) => Taker::Batch(*batch),
                    (None, Some(design)) => Taker::Design(design),
                    (None, None) => continue,
                },
            };
            heads.note(&table, row, taker, problems);
            let found = match number_of.get(part) {
                Some(batch) => Some(Part::Batch(*batch)),
                None => items.names.find(part).map(Part::Item),
            };
            if let Some(Part::Item(_)) = found {
                check_item(&table, row, part, items, &number_of, problems);
            }
            let (Some(part), Some(amount), Some(measure)) = (found, amounts[row], measures[row]) else { continue };
            rows.push(Row { taker, part, amount, measure, place: table.places[row] });
        }
        let batches = names
            .into_iter()
            .zip(heads.yields)
            .zip(heads.extra)
            .zip(heads.place)
            .map(|(((name, yields), extra), place)| Batch {
                name,
                yields: yields.map(|(yields, _)| yields),
                extra: extra.map_or(Percent(0), |(extra, _)| extra),
                place: place.unwrap_or(Place::of_row(0, 0)),
            })
            .collect();
        Self { rows, batches }
    }
}

/// Reports an item that was never bought or counted and is on no card, where a known name is close.
fn check_item(table: &Table, row: usize, part: &str, items: &KnownItems<'_>, batches: &BTreeMap<&str, usize>, problems: &mut Vec<Problem>) {
    if items.stocked.contains(part) || items.card.of(part).is_some() || household::food(part).is_some() {
        return;
    }
    let known = items.stocked.iter().map(String::as_str).chain(items.card.names()).chain(batches.keys().copied());
    if let Some(near) = nearest(part, known) {
        let what = "was never bought, and is neither in items.csv nor a recipe";
        problems.push(table.problem(&UNKNOWN_ITEM, row, "item", what).found(part).did_you_mean(near));
    }
}

/// Collects the yield and the extra of each recipe, which stand on one of its rows.
struct BatchHeads {
    yield_cells: Vec<Option<Decimal>>,
    unit_cells: (Vec<Option<Id<Text>>>, Names<Text>),
    extra_cells: Vec<Option<Percent>>,
    yields: Vec<Option<((Decimal, Unit), u32)>>,
    extra: Vec<Option<(Percent, u32)>>,
    place: Vec<Option<Place>>,
}

impl BatchHeads {
    fn read(table: &mut Table, count: usize) -> Self {
        Self {
            yield_cells: table.numbers("yields"),
            unit_cells: table.text("yield_unit"),
            extra_cells: table.percents("extra"),
            yields: vec![None; count],
            extra: vec![None; count],
            place: vec![None; count],
        }
    }

    fn note(&mut self, table: &Table, row: usize, taker: Taker, problems: &mut Vec<Problem>) {
        let unit = self.unit_cells.0[row].map(|unit| self.unit_cells.1.text(unit).to_owned());
        let Taker::Batch(batch) = taker else {
            if self.yield_cells[row].is_some() || self.extra_cells[row].is_some() {
                let column = if self.yield_cells[row].is_some() { "yields" } else { "extra" };
                let what = "only a recipe has one; a design, every order and every delivery do not";
                problems.push(table.problem(&YIELD_OF_DESIGN, row, column, what).instead("leave it blank here"));
            }
            return;
        };
        let place = table.places[row];
        self.place[batch].get_or_insert(place);
        if self.yield_cells[row].is_none()
            && let Some(unit) = unit.as_deref().filter(|_| !table.is_wrong(row, "yields"))
        {
            let problem = table.problem(&YIELD_UNIT_ALONE, row, "yield_unit", "is a unit without a yield").found(unit);
            problems.push(problem.instead("write yields and yield_unit on the same row"));
        }
        if let Some(amount) = self.yield_cells[row] {
            let unit = unit.unwrap_or_else(|| "g".to_owned());
            let Some(unit) = Unit::parse(&unit) else {
                let problem = table.problem(&UNKNOWN_UNIT, row, "yield_unit", "is not a known unit").found(&unit);
                problems.push(problem.instead(Measure::advice(&unit)));
                return;
            };
            agree(&mut self.yields[batch], (amount, unit), table, row, "yields", problems);
        }
        if let Some(extra) = self.extra_cells[row] {
            agree(&mut self.extra[batch], extra, table, row, "extra", problems);
        }
    }
}

fn agree<T: PartialEq>(said: &mut Option<(T, u32)>, value: T, table: &Table, row: usize, column: &str, problems: &mut Vec<Problem>) {
    match said {
        Some((first, at)) if *first != value => {
            let what = format!("the cell contradicts row {at} of the same recipe");
            problems.push(table.problem(&RECIPE_DISAGREES, row, column, what).instead("write it on one row alone"));
        }
        Some(_) => {}
        None => *said = Some((value, table.places[row].row)),
    }
}
