//! Makes a shop of a folder's files: reads every table by its specification, then checks them against each other.

use super::counts::{self, Count};
use super::designs::Designs;
pub use super::folder::Folder;
use super::hours::Hours;
use super::items::ItemCard;
use super::kinds::{FAR_DAY, MISSING_FILE, NEVER_SOLD, UNUSED_FEES};
use super::orders::Orders;
use super::overheads::{self, Overhead};
use super::purchases::Purchases;
use super::recipes::{KnownItems, Recipes, Texts};
use super::settings::{self, Settings};
use super::specification::{self as spec, TABLES};
use super::tiers::PriceList;
use crate::ids::{Design, IdVec, Item, Names};
use crate::quantity::Day;
use crate::reading::nearest::nearest;
use crate::reading::problem_kind::NOT_UTF8;
use crate::reading::{Problem, Severity, Table, TableSpecification};
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

/// A table's file as it was found.
#[derive(Debug, Clone)]
pub struct FileRead {
    /// Its name.
    pub file: String,
    /// Rows read; `None` where the shop has no such file.
    pub rows: Option<usize>,
    /// Headings that stand for no column.
    pub ignored: Vec<String>,
}

/// What reading a folder gave.
#[derive(Debug)]
pub struct Loaded {
    /// The shop; `None` where the folder, its settings or its orders cannot be read at all.
    pub shop: Option<Shop>,
    /// The files.
    pub files: Vec<FileRead>,
    /// Errors and warnings.
    pub problems: Vec<Problem>,
}

/// Rows to pass over, by file.
pub type Skipped = BTreeMap<String, BTreeSet<u32>>;

impl Folder {
    /// Reads the shop, passing over the rows in `skipped`.
    #[must_use]
    pub fn load(&self, skipped: &Skipped) -> Loaded {
        let mut problems = self.problems().to_vec();
        if problems.iter().any(|problem| problem.severity == Severity::Error) {
            return Loaded { shop: None, files: Vec::new(), problems };
        }
        let settings = self.settings(&mut problems);
        let none = BTreeMap::new();
        let renamed = settings.as_ref().map_or(&none, |settings| &settings.columns);
        let mut reader = Reader { folder: self, renamed, skipped, files: Vec::new(), problems: &mut problems };
        let tables: BTreeMap<&str, Option<Table>> = TABLES.iter().map(|table| (table.name, reader.table(table))).collect();
        let files = reader.files;
        // What names rows of a table that could not be read whole would look wrong, so those are not looked at yet.
        let is_whole = |problem: &Problem| problem.severity != Severity::Error || problem.place.is_some() || problem.file == settings::FILE;
        let shop = settings.filter(|_| problems.iter().all(is_whole)).and_then(|settings| assemble(settings, tables, &mut problems));
        Loaded { shop, files, problems }
    }

    fn settings(&self, problems: &mut Vec<Problem>) -> Option<Settings> {
        let Some(bytes) = self.bytes(settings::FILE) else {
            let problem = Problem::of_file(&MISSING_FILE, settings::FILE, "is missing from the folder");
            problems.push(problem.instead("create it with one line: currency = \"USD\", or your own currency"));
            return None;
        };
        match std::str::from_utf8(bytes) {
            Ok(text) => Settings::read(text.trim_start_matches('\u{FEFF}'), problems),
            Err(_) => {
                problems.push(
                    Problem::of_file(&NOT_UTF8, settings::FILE, "the file has letters that are not UTF-8").instead("save it as UTF-8"),
                );
                None
            }
        }
    }
}

struct Reader<'a> {
    folder: &'a Folder,
    renamed: &'a BTreeMap<String, BTreeMap<String, String>>,
    skipped: &'a Skipped,
    files: Vec<FileRead>,
    problems: &'a mut Vec<Problem>,
}

impl Reader<'_> {
    fn table(&mut self, specification: &TableSpecification) -> Option<Table> {
        let file = specification.file();
        let Some(bytes) = self.folder.bytes(&file) else {
            if specification.name == spec::ORDERS.name {
                let problem = Problem::of_file(&MISSING_FILE, &file, "is missing from the folder");
                self.problems.push(problem.instead(format!("create it with the headings {}", specification.headings())));
            }
            self.files.push(FileRead { file, rows: None, ignored: Vec::new() });
            return None;
        };
        let (no_names, no_rows) = (BTreeMap::new(), BTreeSet::new());
        let renamed = self.renamed.get(specification.name).unwrap_or(&no_names);
        let skipped = self.skipped.get(&file).unwrap_or(&no_rows);
        let table = Table::read(specification, bytes, renamed, skipped, self.problems);
        self.files.push(FileRead { file, rows: Some(table.rows()), ignored: table.ignored.clone() });
        Some(table)
    }
}

/// Turns the tables into a shop, those that others refer to first.
fn assemble(settings: Settings, mut tables: BTreeMap<&str, Option<Table>>, problems: &mut Vec<Problem>) -> Option<Shop> {
    let mut take = |name: &str| tables.get_mut(name).and_then(Option::take);
    let mut orders_table = take(spec::ORDERS.name)?;
    let optional = |table: Option<Table>, specification: &TableSpecification| table.unwrap_or_else(|| Table::without_rows(specification));

    let prices = PriceList::read(optional(take(spec::TIERS.name), &spec::TIERS), problems);
    let items = ItemCard::read(optional(take(spec::ITEMS.name), &spec::ITEMS), problems);
    let design_texts = Orders::designs_named(&mut orders_table);
    let designs = match take(spec::DESIGNS.name) {
        Some(card) => Designs::read(card, &prices, problems),
        None => Designs::named_in(design_texts.1.iter(), &spec::ORDERS.file(), problems),
    };
    let orders = Orders::read(orders_table, design_texts, &designs, &prices, problems);

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
    let hours = Hours::read(optional(take(spec::HOURS.name), &spec::HOURS), &settings, &orders, &designs, problems);
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
