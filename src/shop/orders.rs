//! Orders: what was charged, row by row, and what holds for each order as a whole.

pub use super::charge::Kind;
pub use super::charges::Charges;
use super::designs::Designs;
use super::kinds::{DEPOSIT_OF_DONE, NO_SHARE_OF_SET, NOTHING_SOLD};
pub use super::order_heads::Head;
use super::order_heads::heads;
use super::order_row::{FREE, RowChecker, refuse_negative};
use super::specification::ORDERS;
pub use super::status::Status;
use super::tiers::PriceList;
use crate::ids::{Channel, Design, Id, IdVec, Names, Order, Text, Theme};
use crate::quantity::{Day, Price, ratio};
use crate::reading::format::Style;
use crate::reading::format::date::DateStyle;
use crate::reading::headings::missing_column;
use crate::reading::{Place, Problem, Table};

/// The rows, as columns, and the orders they belong to.
#[derive(Debug, Clone, Default)]
pub struct Orders {
    /// Order ids, sorted.
    pub ids: Names<Order>,
    /// What holds for each order.
    pub heads: IdVec<Order, Head>,
    /// How their dates are written, where the cells or `shop.toml` say so.
    pub dates: Option<DateStyle>,
    /// Channels.
    pub channels: Names<Channel>,
    /// Themes written on rows.
    pub themes: Names<Theme>,
    /// Each row's order.
    pub order: Vec<Id<Order>>,
    /// Each row's kind.
    pub kind: Vec<Kind>,
    /// Each cookie row's design.
    pub design: Vec<Option<Id<Design>>>,
    /// Each cookie row's pieces; 1 on the others.
    pub quantity: Vec<i64>,
    /// Each row's price a piece, or amount; a blank cookie price is the tier's list price that day.
    pub price: Vec<Price>,
    /// Pieces baked for a cookie row, where known.
    pub made: Vec<Option<i64>>,
    /// Each row's theme.
    pub theme: Vec<Option<Id<Theme>>>,
    /// Each row's place.
    pub place: Vec<Place>,
}

impl Orders {
    /// Reads the `orders` log, what its rows charge taken out of it before. A row without an order is left out; any other cell
    /// that cannot be used is a problem and stands as nothing.
    pub fn read(mut table: Table, charges: &Charges, designs: &Designs, prices: &PriceList, problems: &mut Vec<Problem>) -> Self {
        let (order_texts, met) = table.text("order");
        let ids = Names::sorted(met.iter());
        let rank: IdVec<Text, Option<Id<Order>>> = met.iter().map(|text| ids.find(text)).collect();
        let order: Vec<Option<Id<Order>>> = order_texts.iter().map(|name| rank[(*name)?]).collect();
        let rows = table.rows();
        let kind: Vec<Kind> = charges.kind.iter().map(|kind| kind.unwrap_or(Kind::Cookie)).collect();
        let (channel_texts, channels) = table.names("channel");
        let (theme, themes) = table.names("theme");
        let dates = table.format_of("date").and_then(DateStyle::named);
        let heads = heads(&mut table, &order, &kind, &channel_texts, &channels, &ids, problems);
        let resolved: IdVec<Text, Option<Id<Design>>> = charges.names.iter().map(|text| designs.find(text)).collect();
        let quantity = table.wholes("quantity");
        let mut by_pieces = IdVec::<Text, bool>::filled(false, charges.names.len());
        for text in charges.design.iter().zip(&quantity).filter(|(_, quantity)| quantity.is_some()).filter_map(|(text, _)| *text) {
            by_pieces[text] = true;
        }
        let mut price = table.prices("price");
        refuse_negative(&mut table, &charges.kind, &mut price, problems);
        let made = table.wholes("made");
        let set_priced = orders_with(&order, &kind, Kind::Set, ids.len());
        check_columns(&table, &kind, problems);
        let mut rows_of = Self { ids, heads, dates, channels, themes, ..Self::default() };
        for row in 0..rows {
            let Some(order) = order[row] else { continue };
            let head = rows_of.heads[order];
            let design_text = charges.design[row].map(|name| charges.names.text(name));
            let design = charges.design[row].and_then(|name| resolved[name]);
            let mut checker = RowChecker { table: &table, row, problems };
            let (pieces, charged) = if charges.kind[row].is_none() {
                (1, FREE)
            } else if kind[row] == Kind::Cookie {
                // What no card lists, has an amount alone and is sold by the piece nowhere.
                let is_listed = designs.on_card && design.is_some();
                let may_be_charge = price[row].is_some() && !is_listed && charges.design[row].is_some_and(|text| !by_pieces[text]);
                let pieces = checker.cookie(design_text, design, quantity[row], may_be_charge, designs, made[row]);
                let listed = design.zip(head.day).and_then(|(design, day)| prices.price(designs.tier_on(design, day)?, day));
                let free_to_be_blank = set_priced[order];
                let is_reported = table.is_wrong(row, "price") || head.day.is_none() || (design_text.is_some() && design.is_none());
                (pieces, checker.cookie_price(price[row], listed, pieces, free_to_be_blank || is_reported))
            } else {
                (1, checker.other(kind[row], quantity[row], price[row]))
            };
            let charged = RowChecker { table: &table, row, problems }.bounded(charged, pieces);
            rows_of.order.push(order);
            rows_of.kind.push(kind[row]);
            rows_of.design.push(design.filter(|_| kind[row] == Kind::Cookie));
            rows_of.quantity.push(pieces);
            rows_of.price.push(charged);
            rows_of.made.push(made[row].filter(|_| kind[row] == Kind::Cookie));
            rows_of.theme.push(theme[row]);
            rows_of.place.push(table.places[row]);
        }
        rows_of.check_set_prices(&table, &price, &set_priced, problems);
        rows_of.check_carriers(&table.file, problems);
        rows_of
    }

    /// How many rows there are.
    #[must_use]
    pub fn rows(&self) -> usize {
        self.order.len()
    }

    /// What holds for an order.
    #[must_use]
    pub fn head(&self, order: Id<Order>) -> &Head {
        &self.heads[order]
    }

    /// Price × quantity of a row, in millionths of the main unit.
    ///
    /// # Errors
    /// [`ratio::TooLarge`] where it does not fit 64 bits.
    pub fn amount(&self, row: usize) -> Result<i64, ratio::TooLarge> {
        ratio::narrow(self.price[row].times(self.quantity[row])?.0)
    }

    /// Names that stand in for the ids: each order's hand-over day, and its place among that day's orders.
    #[must_use]
    pub(crate) fn dated_ids(&self) -> Names<Order> {
        let mut met: std::collections::BTreeMap<Option<Day>, usize> = std::collections::BTreeMap::new();
        let mut names = Names::default();
        for head in &self.heads {
            let place = met.entry(head.day).or_insert(0);
            *place += 1;
            let day = head.day.map_or_else(|| "undated".to_owned(), |day| day.to_string());
            names.intern(&format!("{day} no. {place}"));
        }
        names
    }

    /// Reports blank prices in sets where other rows have one: a set price is shared by list value, so they would get nothing of it.
    fn check_set_prices(&self, table: &Table, written: &[Option<Price>], set_priced: &IdVec<Order, bool>, problems: &mut Vec<Problem>) {
        let cookies = || (0..self.rows()).filter(|row| self.kind[*row] == Kind::Cookie && set_priced[self.order[*row]]);
        let mut listed = IdVec::<Order, bool>::filled(false, self.ids.len());
        for row in cookies().filter(|row| self.price[*row].amount > FREE.amount) {
            listed[self.order[row]] = true;
        }
        let at_row = |row: usize| table.places.iter().position(|place| *place == self.place[row]);
        for row in cookies().filter(|row| listed[self.order[*row]] && self.price[*row] == FREE) {
            let Some(row) = at_row(row).filter(|row| written[*row].is_none() && !table.is_wrong(*row, "price")) else { continue };
            let problem = table.problem(&NO_SHARE_OF_SET, row, "price", "the cell is blank, so these pieces get none of the set's price");
            problems.push(problem.instead("write what the pieces would cost alone, or 0 if they were free"));
        }
    }

    /// Reports finished orders without cookies or delivery, and deposits kept from finished orders.
    fn check_carriers(&self, file: &str, problems: &mut Vec<Problem>) {
        let mut carried = IdVec::<Order, bool>::filled(false, self.ids.len());
        for (order, kind) in self.order.iter().zip(&self.kind) {
            carried[*order] |= matches!(kind, Kind::Cookie | Kind::Delivery);
        }
        for row in 0..self.rows() {
            let head = self.head(self.order[row]);
            if self.kind[row] == Kind::DepositKept && head.status == Status::Done {
                let what = "a deposit was kept, but the order was handed over";
                let problem = Problem::of_file(&DEPOSIT_OF_DONE, file, what).at(self.place[row]).column("kind");
                problems.push(problem.instead("write cancelled as the order's status, or remove the row"));
            }
        }
        for (order, head) in self.heads.pairs() {
            if head.status == Status::Done && !carried[order] {
                let id = self.ids.text(order);
                let what = "has neither cookies nor a delivery";
                let problem = Problem::of_file(&NOTHING_SOLD, file, what).at(head.place).column("order").found_order(id);
                problems.push(problem.instead("add its cookies, or write quoted or cancelled as its status"));
            }
        }
    }
}

/// Reports a missing design or quantity column once, instead of on each cookie row.
fn check_columns(table: &Table, kind: &[Kind], problems: &mut Vec<Problem>) {
    if !kind.contains(&Kind::Cookie) {
        return;
    }
    for column in ["design", "quantity"].into_iter().filter(|column| table.lacks(column)) {
        problems.push(missing_column(&ORDERS, &table.file, column, &table.ignored));
    }
}

fn orders_with(order: &[Option<Id<Order>>], kind: &[Kind], wanted: Kind, count: usize) -> IdVec<Order, bool> {
    let mut with = IdVec::filled(false, count);
    for (order, kind) in order.iter().zip(kind) {
        if let (Some(order), true) = (order, *kind == wanted) {
            with[*order] = true;
        }
    }
    with
}
