//! What a random shop's logs come to, worked out from its rows alone: no part of the program is used.
//!
//! Money and minutes are whole millionths.

use crate::random_shop::options::Fees;
use crate::random_shop::{RandomShop, Row, cell};
use chrono::NaiveDate;
use rust_decimal::{Decimal, RoundingStrategy};
use std::collections::{BTreeMap, BTreeSet};

/// A decimal number in millionths, rounded half away from zero.
pub fn millionths(value: Decimal) -> i128 {
    let whole = (value * Decimal::from(1_000_000)).round_dp_with_strategy(0, RoundingStrategy::MidpointAwayFromZero);
    whole.normalize().to_string().parse().unwrap()
}

/// A cell's number; nil where it is blank.
fn number(row: &Row, column: &str) -> Decimal {
    let text = cell(row, column);
    if text.is_empty() { Decimal::ZERO } else { text.parse().unwrap() }
}

pub fn date(text: &str) -> NaiveDate {
    text.parse().unwrap()
}

fn percent_of(value: Decimal, percent: &str) -> Decimal {
    value * percent.parse::<Decimal>().unwrap() / Decimal::from(100)
}

/// The logs of a shop, read by order.
pub struct Logs<'a> {
    shop: &'a RandomShop,
    pub orders: BTreeMap<&'a str, Order<'a>>,
}

/// One order's rows and what they agree on.
pub struct Order<'a> {
    pub rows: Vec<&'a Row>,
    pub day: NaiveDate,
    pub done: bool,
    channel: &'a str,
    payments: Option<i64>,
}

impl Order<'_> {
    fn of_kind(&self, kind: &str) -> impl Iterator<Item = &Row> {
        self.rows.iter().copied().filter(move |row| cell(row, "kind") == kind || (kind == "cookie" && cell(row, "kind").is_empty()))
    }

    fn sum(&self, kind: &str) -> Decimal {
        self.of_kind(kind).map(|row| number(row, "price")).sum()
    }
}

impl<'a> Logs<'a> {
    pub fn of(shop: &'a RandomShop) -> Self {
        let mut rows: BTreeMap<&str, Vec<&Row>> = BTreeMap::new();
        for row in shop.rows("orders") {
            rows.entry(cell(row, "order")).or_default().push(row);
        }
        let orders = rows.into_iter().map(|(id, rows)| {
            let agreed = |column: &str| rows.iter().map(|row| cell(row, column)).find(|text| !text.is_empty()).unwrap_or("");
            let deposits = rows.iter().all(|row| cell(row, "kind") == "deposit kept");
            let done = agreed("status") == "done" || (agreed("status").is_empty() && !deposits);
            let payments = rows.iter().filter_map(|row| cell(row, "payments").parse().ok()).max();
            let (day, channel) = (date(agreed("date")), agreed("channel"));
            (id, Order { rows, day, done, channel, payments })
        });
        Self { shop, orders: orders.collect() }
    }

    fn done(&self) -> impl Iterator<Item = &Order<'a>> {
        self.orders.values().filter(|order| order.done)
    }

    fn design(&self, row: &'a Row, column: &str) -> &'a str {
        self.shop.also_called.get(cell(row, column)).map_or(cell(row, column), String::as_str)
    }

    /// What a cookie row comes to at its own price, or the tier's of that day; free where neither is written.
    fn listed(&self, row: &Row, day: NaiveDate) -> i128 {
        let price = match cell(row, "price") {
            "" => self.list_price(self.design(row, "design"), day),
            price => price,
        };
        let (amount, each) = price.split_once('/').map_or((price, 1), |(amount, _)| (amount, 12));
        millionths(amount.parse::<Decimal>().unwrap() * pieces(cell(row, "quantity")) / Decimal::from(each))
    }

    fn list_price(&self, design: &str, day: NaiveDate) -> &str {
        let card = self.shop.rows("designs").iter().find(|row| cell(row, "design") == design);
        let tier = card.map_or("", |row| cell(row, "tier"));
        let started = self.shop.rows("tiers").iter().filter(|row| cell(row, "tier") == tier && !tier.is_empty());
        // Dates sort as text, and a blank one before all.
        let started = started.filter(|row| cell(row, "from").is_empty() || date(cell(row, "from")) <= day);
        started.max_by_key(|row| cell(row, "from")).map_or("0", |row| cell(row, "price"))
    }

    /// List value, or the price of the set where there is one.
    fn cookies(&self, order: &Order<'a>) -> i128 {
        if order.of_kind("set").next().is_some() {
            return millionths(order.sum("set"));
        }
        order.rows.iter().filter(|row| matches!(cell(row, "kind"), "" | "cookie")).map(|row| self.listed(row, order.day)).sum()
    }

    /// What each order brought in, or left as a kept deposit.
    pub fn revenue(&self) -> BTreeMap<&'a str, i128> {
        let of = |order: &Order<'a>| {
            if !order.done {
                return millionths(order.sum("deposit kept"));
            }
            let tips = if self.shop.options.tips_count { order.sum("tip") } else { Decimal::ZERO };
            let beside = order.sum("delivery") + order.sum("rush") + tips - order.sum("discount") - order.sum("refund");
            self.cookies(order) + millionths(beside)
        };
        self.orders.iter().map(|(id, order)| (*id, of(order))).collect()
    }

    /// What each order's card charges cost.
    pub fn fees(&self) -> BTreeMap<&'a str, i128> {
        let of = |order: &Order<'a>| {
            let options = &self.shop.options;
            let own = options.channel_fees.get(order.channel).copied().unwrap_or_default();
            let Fees { percent, fixed, payments } = options.fees;
            let payments = order.payments.or(own.payments).or(payments).unwrap_or(1);
            let charged = if order.done {
                let beside = order.sum("delivery") + order.sum("rush") + order.sum("tip") + order.sum("tax") - order.sum("discount");
                self.cookies(order) + millionths(beside)
            } else {
                millionths(order.sum("deposit kept"))
            };
            if payments == 0 || charged <= 0 {
                return 0;
            }
            let fixed = own.fixed.or(fixed).unwrap_or("0").parse::<Decimal>().unwrap() * Decimal::from(payments);
            let charged = Decimal::from_i128_with_scale(charged, 6);
            millionths(percent_of(charged, own.percent.or(percent).unwrap_or("0"))) + millionths(fixed)
        };
        self.orders.iter().map(|(id, order)| (*id, of(order))).collect()
    }

    /// The assumed materials of designs without a recipe: per piece made, by size.
    pub fn assumed_materials(&self) -> i128 {
        let with_recipe: BTreeSet<&str> = self.shop.rows("recipes").iter().map(|row| self.design(row, "for")).collect();
        let size = |design: &str| {
            let card = self.shop.rows("designs").iter().find(|row| cell(row, "design") == design);
            card.map(|row| cell(row, "size")).filter(|size| !size.is_empty()).unwrap_or("regular")
        };
        let spares = self.shop.options.spares.unwrap_or("0");
        let of = |row: &'a Row| {
            let design = self.design(row, "design");
            let each = self.shop.options.materials.get(size(design)).filter(|_| !with_recipe.contains(design));
            let sold = pieces(cell(row, "quantity"));
            let made = if cell(row, "made").is_empty() { sold + percent_of(sold, spares) } else { number(row, "made") };
            each.map_or(0, |each| millionths(each.parse::<Decimal>().unwrap() * made))
        };
        let rows = self.done().flat_map(|order| &order.rows);
        rows.filter(|row| matches!(cell(row, "kind"), "" | "cookie")).map(|row| of(row)).sum()
    }

    /// What all purchases cost, less what returns brought back: shipping, and tax where it is a cost, included.
    pub fn purchases(&self) -> i128 {
        let tax = |row: &Row| if self.shop.options.reclaim_purchase_tax { Decimal::ZERO } else { number(row, "tax") };
        let rows = self.shop.rows("purchases").iter();
        rows.map(|row| millionths(number(row, "paid") + number(row, "shipping") + tax(row))).sum()
    }

    pub fn overheads(&self) -> i128 {
        self.shop.rows("overheads").iter().map(|row| millionths(number(row, "paid"))).sum()
    }

    /// The owner's minutes, drying apart.
    pub fn owner_minutes(&self) -> i128 {
        self.worked().filter(|row| cell(row, "who").is_empty()).map(minutes).sum()
    }

    /// Helpers' minutes, drying apart.
    pub fn helper_minutes(&self) -> i128 {
        self.worked().filter(|row| !cell(row, "who").is_empty()).map(minutes).sum()
    }

    /// Helpers' pay: each one's rate × all of the helper's minutes.
    pub fn helper_pay(&self) -> i128 {
        let pay = |(who, rate): (&&str, &String)| {
            let minutes = self.worked().filter(|row| cell(row, "who") == *who).map(minutes).sum();
            millionths(rate.parse::<Decimal>().unwrap() * Decimal::from_i128_with_scale(minutes, 6) / Decimal::from(60))
        };
        self.shop.options.helpers.iter().map(pay).sum()
    }

    fn worked(&self) -> impl Iterator<Item = &'a Row> {
        self.shop.rows("hours").iter().filter(|row| self.shop.options.shared_by(cell(row, "stage")) != "unattended")
    }

    /// Every day the logs speak of, first and last.
    pub fn days(&self) -> (NaiveDate, NaiveDate) {
        let columns = [("hours", "date"), ("purchases", "date"), ("counts", "date"), ("overheads", "from"), ("overheads", "to")];
        let written = columns.iter().flat_map(|(table, column)| self.shop.rows(table).iter().map(|row| cell(row, column)));
        let written = written.filter(|text| !text.is_empty()).map(date);
        let all: BTreeSet<NaiveDate> = written.chain(self.orders.values().map(|order| order.day)).collect();
        (*all.first().unwrap(), *all.last().unwrap())
    }
}

/// Pieces of a quantity: `18`, `2 dozen`, `0.5 dozen`.
fn pieces(text: &str) -> Decimal {
    let (count, times) = text.split_once(' ').map_or((text, 1), |(count, _)| (count, 12));
    count.parse::<Decimal>().unwrap() * Decimal::from(times)
}

/// An entry's minutes: written, or from start to end, past midnight where the end is earlier.
fn minutes(row: &Row) -> i128 {
    if !cell(row, "minutes").is_empty() {
        return millionths(number(row, "minutes"));
    }
    let of_day =
        |text: &str| text.split_once(':').map(|(hours, minutes)| hours.parse::<i128>().unwrap() * 60 + minutes.parse::<i128>().unwrap());
    let span = of_day(cell(row, "end")).unwrap() - of_day(cell(row, "start")).unwrap();
    span.rem_euclid(24 * 60) * 1_000_000
}
