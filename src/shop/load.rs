//! Makes a shop of a folder's files: reads every table by its specification, then checks them against each other.

use super::beliefs::Beliefs;
use super::counts::{self, Count};
use super::designs::Designs;
pub use super::folder::Folder;
use super::follow_on::{is_of_lost_row, retain_of_known_orders, retain_own};
use super::hours::{self, Hours};
use super::items::ItemCard;
use super::kinds::{FAR_DAY, MISSING_FILE, NEVER_SOLD, ORDER_CHANGED, ORDER_IN_TWO_FILES, UNUSED_FEES};
use super::orders::{Charges, Orders};
use super::overheads::{self, Overhead};
use super::purchases::Purchases;
use super::recipes::{KnownItems, Recipes, Texts};
use super::settings::{self, Proposal, Settings};
use super::sources::{Found, Source, Sources};
use super::specification::{self as spec, TABLES};
use super::spelling;
use super::tiers::PriceList;
use super::understand::{self, Headed};
use crate::ids::{self, Design, Id, IdVec, Item, Names};
use crate::quantity::Day;
use crate::reading::encoding::Encoding;
use crate::reading::merge::{Differing, Groups, merge};
use crate::reading::nearest::nearest;
use crate::reading::problem_kind::{AMBIGUOUS_FORMAT, NOT_UTF8};
use crate::reading::separator::Separator;
use crate::reading::table::{ColumnRead, Reading, WordRead};
use crate::reading::workbook::{SETTINGS, Setting, Workbook};
use crate::reading::{Cells, Known, Place, Problem, Severity, Table, TableSpecification};
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

/// A table as it was found.
#[derive(Debug, Clone)]
pub struct TableRead {
    /// Its name.
    pub table: &'static str,
    /// Its files; none where the shop has no such table.
    pub files: Vec<FileRead>,
    /// Rows that count, of all its files.
    pub rows: usize,
    /// Rows that stand in several files and were counted once.
    pub repeated: usize,
    /// Names and charges spelt or meant otherwise than written, by column.
    pub words: Vec<(&'static str, Vec<WordRead>)>,
}

impl FileRead {
    /// Whether a column of it asks for its format.
    fn is_open(&self) -> bool {
        self.understood.iter().any(|read| read.is_open)
    }
}

impl TableRead {
    /// Keeps the names of a table that were read as others since its files were read.
    fn note(&mut self, table: &Table) {
        let columns = table.understood.iter().filter(|read| !read.words.is_empty());
        self.words = columns.map(|read| (read.column, read.words.clone())).collect();
    }
}

/// One file of a table as it was found.
#[derive(Debug, Clone)]
pub struct FileRead {
    /// Its name.
    pub file: String,
    /// Rows read.
    pub rows: usize,
    /// Headings that stand for no column.
    pub ignored: Vec<String>,
    /// How its columns were read.
    pub understood: Vec<ColumnRead>,
    /// How its letters were written; `None` in a workbook.
    pub encoding: Option<Encoding>,
    /// What stands between its columns; `None` in a workbook.
    pub separator: Option<Separator>,
    /// Rows above the headings that were passed over.
    pub titles: usize,
    /// TOTAL rows, which were left out.
    pub left_out: Vec<Place>,
}

/// What reading a folder gave.
#[derive(Debug)]
pub struct Loaded {
    /// The shop; `None` where the folder, its settings or its orders cannot be read at all.
    pub shop: Option<Shop>,
    /// The tables.
    pub tables: Vec<TableRead>,
    /// Errors, warnings and what was assumed; each names its file.
    pub problems: Vec<Problem>,
    /// What the tables suggest for `shop.toml`.
    pub proposals: Vec<Proposal>,
}

/// Rows to pass over, by the file they are in.
pub type Skipped = BTreeMap<Id<ids::Source>, BTreeSet<u32>>;

impl Folder {
    /// Reads the shop as it is believed to be written, passing over the rows in `skipped`.
    pub(super) fn load_believing(&self, skipped: &Skipped, believed: &Beliefs) -> Loaded {
        let mut problems = self.problems().to_vec();
        if problems.iter().any(|problem| problem.severity == Severity::Error) {
            return Loaded { shop: None, tables: Vec::new(), problems, proposals: Vec::new() };
        }
        let mut settings = self.settings(&mut problems);
        if let Some(settings) = &mut settings {
            believed.apply(settings);
        }
        let sources = self.sources();
        let found = (Vec::new(), Vec::new());
        let is_nameless = |found: &Found<'_>| found.table().is_none() && found.sheet.is_some_and(|sheet| !is_settings(sheet));
        let nameless = self.found().filter(is_nameless).filter_map(|found| found.sheet).collect();
        let mut reader = Reader { sources: &sources, settings: settings.as_ref(), skipped, nameless, found, problems: &mut problems };
        let mut tables: BTreeMap<&str, Option<Table>> = TABLES.iter().map(|table| (table.name, reader.table(table))).collect();
        let (mut found, proposals) = reader.found;
        // A card without rows, as a new shop has it, lists nothing to keep to; one whose rows are passed over does.
        let passes_over = |source: &Source<'_>| skipped.contains_key(&source.id);
        if !sources.of_table(&spec::DESIGNS).iter().any(passes_over) {
            tables.entry(spec::DESIGNS.name).and_modify(|card| drop(card.take_if(|card| card.rows() == 0)));
        }
        if let Some(settings) = &settings {
            spelling::unify(&mut tables, settings);
            if let Some(Some(hours)) = tables.get_mut(spec::HOURS.name) {
                hours::respell(hours, settings);
            }
            for read in &mut found {
                if let Some(Some(table)) = tables.get(read.table) {
                    read.note(table);
                }
            }
        }
        // What looks into a table that could not be read whole would look wrong, and there is no shop to work with.
        // A column that asks for its format counts as one of wrong cells, but where its rows are to be compared with another file's.
        let is_compared = found.iter().any(|read| read.files.len() > 1 && read.files.iter().any(FileRead::is_open));
        let is_whole = |problem: &Problem| {
            let is_of_cells = problem.place.is_some() || (*problem.kind == AMBIGUOUS_FORMAT && !is_compared);
            problem.severity != Severity::Error || is_of_cells || problem.file == settings::FILE
        };
        let table_of = |problem: &Problem| {
            let source = sources.iter().find(|source| source.name == problem.file).map(|source| source.table);
            source.or_else(|| TABLES.iter().find(|table| table.file() == problem.file)).map(|table| table.name)
        };
        let broken: Option<BTreeSet<&str>> = problems.iter().filter(|problem| !is_whole(problem)).map(table_of).collect();
        let has_lost_rows = problems.iter().any(|problem| table_of(problem) == Some(spec::ORDERS.name) && is_of_lost_row(problem));
        let mut of_shop = Vec::new();
        let shop = settings.filter(|_| broken.is_some()).and_then(|settings| assemble(settings, tables, &mut found, &mut of_shop));
        sources.name_problems(&mut of_shop);
        if has_lost_rows {
            retain_of_known_orders(&mut of_shop);
        }
        let broken = broken.unwrap_or_default();
        retain_own(&mut of_shop, &broken, table_of);
        let shop = shop.filter(|_| broken.is_empty());
        sources.name_problems(&mut problems);
        problems.append(&mut of_shop);
        Loaded { shop, tables: found, problems, proposals }
    }

    /// The settings of `shop.toml`, and of a sheet where the file does not say.
    pub(super) fn settings(&self, problems: &mut Vec<Problem>) -> Option<Settings> {
        let sheet = self.settings_sheet(problems);
        let text = match self.bytes(settings::FILE).map(std::str::from_utf8) {
            None if sheet.is_none() => {
                let problem = Problem::of_file(&MISSING_FILE, settings::FILE, "is missing from the folder");
                problems.push(problem.instead("create it with one line: currency = \"USD\", or your own currency"));
                return None;
            }
            None => "",
            Some(Ok(text)) => text.trim_start_matches('\u{FEFF}'),
            Some(Err(_)) => {
                let problem = Problem::of_file(&NOT_UTF8, settings::FILE, "the file has letters that are not UTF-8");
                problems.push(problem.instead("save it as UTF-8"));
                return None;
            }
        };
        match &sheet {
            Some((name, settings)) => settings::read_with_sheet(text, name, settings, problems),
            None => Settings::read(text, problems),
        }
    }

    /// The settings of the first sheet of that name, with what to call the sheet.
    fn settings_sheet(&self, problems: &mut Vec<Problem>) -> Option<(String, Vec<Setting>)> {
        let found = self.found().find(|found| found.sheet.is_some_and(is_settings))?;
        let mut workbook = Workbook::open(found.name, found.bytes).ok()?;
        let sheet = workbook.sheets().iter().find(|sheet| Some(sheet.name.as_str()) == found.sheet).cloned()?;
        let (settings, mut wrong) = workbook.settings(&sheet, found.name);
        problems.append(&mut wrong);
        Some((found.name.to_owned(), settings))
    }
}

/// Whether a sheet of this name holds settings.
fn is_settings(sheet: &str) -> bool {
    sheet.trim().eq_ignore_ascii_case(SETTINGS.name)
}

struct Reader<'a> {
    sources: &'a Sources<'a>,
    settings: Option<&'a Settings>,
    skipped: &'a Skipped,
    /// Sheets whose names are of no table.
    nameless: Vec<&'a str>,
    found: (Vec<TableRead>, Vec<Proposal>),
    problems: &'a mut Vec<Problem>,
}

impl Reader<'_> {
    /// Reads a table from all its files. `None` where it has none.
    fn table(&mut self, specification: &'static TableSpecification) -> Option<Table> {
        let mut sources = self.sources.of_table(specification);
        // A sheet that nothing is written in yet is no card.
        let is_begun = |source: &Source<'_>| source.sheet.is_none() || !cells_of(source, specification, &Reading::default()).is_blank();
        sources.retain(|source| specification.name == spec::ORDERS.name || is_begun(source));
        if sources.is_empty() {
            if specification.name == spec::ORDERS.name {
                let problem = Problem::of_file(&MISSING_FILE, &specification.file(), "is missing from the folder");
                let create = || format!("create it with the headings {}", specification.headings());
                let rename = || format!("name the sheet of your orders orders; no table yet: {}", self.nameless.join(", "));
                self.problems.push(problem.instead(if self.nameless.is_empty() { create() } else { rename() }));
            }
            self.found.0.push(TableRead { table: specification.name, files: Vec::new(), rows: 0, repeated: 0, words: Vec::new() });
            return None;
        }
        let (none, reading) = (BTreeSet::new(), self.settings.map(|settings| settings.reading(specification.name)).unwrap_or_default());
        let (mut tables, mut headed, mut files) = (Vec::new(), Vec::new(), Vec::new());
        for source in &sources {
            let cells = cells_of(source, specification, &reading);
            let skipped = self.skipped.get(&source.id).unwrap_or(&none);
            let mut table = Table::read(specification, &cells, &reading, skipped, self.problems);
            files.push(FileRead {
                file: source.name.to_owned(),
                rows: table.rows(),
                ignored: table.ignored.clone(),
                understood: table.understood.clone(),
                encoding: cells.encoding,
                separator: cells.separator,
                titles: cells.titles,
                left_out: cells.left_out,
            });
            // Its words are listed with the file; what is respelt later is listed with the table.
            table.understood.iter_mut().for_each(|read| read.words.clear());
            tables.push(table);
            let reread = |reading: &Reading| {
                let mut problems = Vec::new();
                (Table::read(specification, &cells_of(source, specification, reading), reading, &none, &mut problems), problems)
            };
            headed.push(Headed { file: source.name, headings: cells.headings, reread: Box::new(reread) });
        }
        let mut proposals = understand::heading_proposals(specification, &headed, &reading, self.problems);
        understand::check_mapped(specification, &headed, &reading, self.problems);
        drop(headed);
        let understood = sources.iter().zip(&tables).map(|(source, table)| (source.name, table.understood.as_slice()));
        proposals.extend(understand::format_proposals(specification, &understood, &reading));
        let groups = (specification.name == spec::ORDERS.name).then_some(Groups { group: "order", day: "date" });
        let merged = merge(specification, tables, groups);
        let names: Vec<&str> = sources.iter().map(|source| source.name).collect();
        // Until she says how a column is written, its cells are blank, and rows would seem to differ.
        if !files.iter().any(FileRead::is_open) {
            self.problems.extend(merged.differing.iter().map(|order| differing_order(order, &names)));
        }
        self.found.0.push(TableRead {
            table: specification.name,
            files,
            rows: merged.table.rows(),
            repeated: merged.repeated,
            words: Vec::new(),
        });
        self.found.1.append(&mut proposals);
        Some(merged.table)
    }
}

/// The cells of a source, with its place in each.
pub(super) fn cells_of(source: &Source<'_>, specification: &TableSpecification, reading: &Reading) -> Cells {
    let known = Known { specification, columns: &reading.columns };
    let cells = match source.sheet {
        None => Cells::of_csv(source.name, source.bytes, known),
        Some(sheet) => match Workbook::open(source.name, source.bytes) {
            Ok(mut workbook) => match workbook.sheets().iter().find(|known| known.name == sheet).cloned() {
                Some(sheet) => workbook.cells(&sheet, source.name, known),
                None => Cells::default(),
            },
            Err(problem) => Cells::unreadable(source.name, *problem),
        },
    };
    cells.of_source(source.id)
}

/// That an order's rows differ between files: the later file decides, or she is asked where none is later.
fn differing_order(order: &Differing, files: &[&str]) -> Problem {
    let others: Vec<&str> = order.passed_over.iter().map(|at| files[*at]).collect();
    let (counted, others) = (files[order.counted], others.join(", "));
    let (kind, what, instead) = if order.is_open {
        let what = format!("has other rows in {others}, and both files end the same day");
        (&ORDER_IN_TWO_FILES, what, format!("take it out of {others} or out of {counted}, whichever is out of date"))
    } else {
        let what = format!("has other rows in {others}; those in {counted} count, because its orders run later");
        (&ORDER_CHANGED, what, "take it out of one of them if that is wrong".to_owned())
    };
    Problem::of_file(kind, &spec::ORDERS.file(), what).at(order.place).column("order").found_order(&order.group).instead(instead)
}

/// Turns the tables into a shop, those that others refer to first.
fn assemble(
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
    let charges = Charges::take(&mut orders_table, is_on_card, problems);
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
