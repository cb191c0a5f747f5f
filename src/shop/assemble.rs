//! Makes a shop of its tables and settings: those that others refer to first, each checked against the others.

use super::counts::{self, Count};
use super::designs::Designs;
use super::hours::Hours;
use super::items::ItemCard;
use super::kinds::{FAR_DAY, NEVER_SOLD, UNUSED_FEES};
use super::orders::{Charges, Orders};
use super::overheads::{self, Overhead};
use super::purchases::Purchases;
use super::recipes::{KnownItems, Recipes, Texts};
use super::settings::{self, Settings};
use super::specification as spec;
use super::table_read::TableRead;
use super::tiers::PriceList;
use super::unused_words;
use crate::ids::{Design, IdVec, Item, Names};
use crate::quantity::Day;
use crate::reading::nearest::nearest;
use crate::reading::{Problem, Table, TableSpecification};
use std::collections::{BTreeMap, BTreeSet};

/// A shop: its settings and typed tables.
#[derive(Debug, Clone)]
pub struct Shop {
    /// The settings.
    pub settings: Settings,
    /// What was charged.
    pub orders: Orders,
    /// What was bought.
    pub purchases: Purchases,
    /// Time worked.
    pub hours: Hours,
    /// Costs of being in business.
    pub overheads: Vec<Overhead>,
    /// Stock counts.
    pub counts: Vec<Count>,
    /// The designs.
    pub designs: Designs,
    /// The recipes.
    pub recipes: Recipes,
    /// The items card.
    pub items: ItemCard,
    /// The price list.
    pub prices: PriceList,
    /// Every item's name, sorted.
    pub item_names: Names<Item>,
}

/// Turns the tables into a shop, those that others refer to first.
pub(super) fn assemble(
    settings: Settings,
    mut tables: BTreeMap<&str, Option<Table>>,
    found: &mut [TableRead],
    problems: &mut Vec<Problem>,
) -> Option<Shop> {
    let mut take = |name: &str| tables.get_mut(name).and_then(Option::take);
    let mut orders_table = take(spec::ORDERS.name)?;
    let optional = |table: Option<Table>, specification: &TableSpecification| table.unwrap_or_else(|| Table::without_rows(specification));

    let prices = PriceList::read(optional(take(spec::TIERS.name), &spec::TIERS), problems);
    let items = ItemCard::read(optional(take(spec::ITEMS.name), &spec::ITEMS), problems);
    let card = take(spec::DESIGNS.name).map(|card| Designs::read(card, &prices, problems));
    let is_on_card = |name: &str| card.as_ref().is_some_and(|card| card.find(name).is_some());
    let charges = Charges::take(&mut orders_table, is_on_card, card.is_some(), &settings.words, problems);
    if let Some(read) = found.iter_mut().find(|read| read.table == spec::ORDERS.name) {
        read.note(&orders_table);
    }
    let designs = card.unwrap_or_else(|| Designs::named_in(charges.designs(), &spec::ORDERS.file(), problems));
    let orders = Orders::read(orders_table, &charges, &designs, &prices, problems);

    let mut purchases_table = optional(take(spec::PURCHASES.name), &spec::PURCHASES);
    let mut counts_table = optional(take(spec::COUNTS.name), &spec::COUNTS);
    let mut recipes_table = optional(take(spec::RECIPES.name), &spec::RECIPES);
    let bought = purchases_table.text("item");
    let counted = counts_table.text("item");
    let recipe_texts = Texts::take(&mut recipes_table);
    let batches = recipe_texts.batches(&designs);
    let item_names = Names::sorted(bought.1.iter().chain(counted.1.iter()).chain(recipe_texts.items(&batches)));
    let stocked: BTreeSet<String> = bought.1.iter().chain(counted.1.iter()).map(str::to_owned).collect();
    let purchases = Purchases::read(purchases_table, bought, &item_names, problems);
    let counts = counts::read(counts_table, counted, &item_names, problems);
    let known = KnownItems { names: &item_names, stocked: &stocked, card: &items };
    let recipes = Recipes::read(recipes_table, &recipe_texts, &designs, &known, problems);
    let mut hours_table = optional(take(spec::HOURS.name), &spec::HOURS);
    let hours = Hours::read(&mut hours_table, &settings, &orders, &designs, problems);
    if let Some(read) = found.iter_mut().find(|read| read.table == spec::HOURS.name) {
        read.note(&hours_table);
    }
    unused_words::warn(&settings, found, problems);
    let overheads = overheads::read(optional(take(spec::OVERHEADS.name), &spec::OVERHEADS), problems);
    warn_of_unsold(&designs, &orders, problems);
    warn_of_unused_fees(&settings, &orders, problems);
    warn_of_far_days(&orders, &hours, problems);
    Some(Shop { settings, orders, purchases, hours, overheads, counts, designs, recipes, items, prices, item_names })
}

fn warn_of_unsold(designs: &Designs, orders: &Orders, problems: &mut Vec<Problem>) {
    let mut sold = IdVec::<Design, bool>::filled(false, designs.names.len());
    for design in orders.design.iter().flatten() {
        sold[*design] = true;
    }
    for (design, name) in designs.names.pairs() {
        if let (false, Some(place)) = (sold[design], designs.place[design]) {
            let problem = Problem::of_file(&NEVER_SOLD, &spec::DESIGNS.file(), "was never sold").at(place).column("design").found(name);
            problems.push(problem.instead("take it out of designs.csv if you no longer make it"));
        }
    }
}

fn warn_of_unused_fees(settings: &Settings, orders: &Orders, problems: &mut Vec<Problem>) {
    for channel in settings.channel_fees.keys().filter(|channel| orders.channels.find(channel).is_none()) {
        let problem = Problem::of_file(&UNUSED_FEES, settings::FILE, "is a channel that no order names").column("fees").found(channel);
        problems.push(match nearest(channel, orders.channels.iter()) {
            Some(near) => problem.did_you_mean(&format!("[fees.{near}]")),
            None => problem.instead("spell it as the channel column of orders.csv does"),
        });
    }
}

/// Warns of days more than a year past nearly all others: a mistyped year would move the latest month and what is prepaid.
fn warn_of_far_days(orders: &Orders, hours: &Hours, problems: &mut Vec<Problem>) {
    let ordered = orders.heads.iter().filter_map(|head| Some((spec::ORDERS.file(), head.day?, head.place)));
    let worked = hours.entries.iter().map(|entry| (spec::HOURS.file(), entry.day, entry.place));
    // An order whose date could not be read has none.
    let dated: Vec<_> = ordered.chain(worked).collect();
    let mut days: Vec<Day> = dated.iter().map(|(_, day, _)| *day).collect();
    days.sort_unstable();
    // Nine tenths of the days lie before this one, and a year past it is no season's work.
    let Some(most) = days.get(days.len() * 9 / 10) else { return };
    for (file, day, place) in dated.iter().filter(|(_, day, _)| day.0 > most.0 + 366) {
        let problem = Problem::of_file(&FAR_DAY, file, "is more than a year past nearly all other dates").at(*place);
        problems.push(problem.column("date").found(&day.to_string()).instead("check the year"));
    }
}
