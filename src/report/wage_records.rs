//! The wage table for programs: JSON (`fairdozen.wage/1`) and CSV, stable.

use super::record::{Form, Text, json, records};
use crate::costing::minutes_each::MinutesFrom;
use crate::quantity::Period;
use crate::quantity::millionths::{Minutes, Money};
use crate::reading::Problem;
use crate::review::certainty::Certainty;
use crate::review::{Row, Verdict, WageTable};
use serde::Serialize;

/// The JSON object, pretty-printed with a last line break.
#[must_use]
pub fn wage_json(table: &WageTable, currency: &str, minutes_from: MinutesFrom, problems: &[Problem]) -> String {
    let row = |row| WageRecord::of(row, Form::Json);
    let (Period { from, to }, of) = (table.period, &table.unassigned);
    json(&Wages {
        schema: "fairdozen.wage/1",
        currency,
        from: from.map(|day| day.to_string()),
        to: to.map(|day| day.to_string()),
        by: table.by.word(),
        minutes_from: minutes_from.word(),
        rows: table.rows.iter().map(row).collect(),
        total: row(&table.total),
        all_in: row(&table.all_in),
        unassigned: Untied {
            owner_minutes: of.owner_minutes,
            helper_minutes: of.helper_minutes,
            helper_pay: of.helper_pay,
            ingredients: of.ingredients,
            packaging: of.packaging,
            overhead: of.overhead,
        },
        prepaid: Prepaid { overhead: table.prepaid },
        left_out: LeftOut { quoted: table.left_out.quoted, cancelled: table.left_out.cancelled },
        problems,
    })
}

/// The rows, the total and all in, told apart by the first column.
#[must_use]
pub fn wage_csv(table: &WageTable) -> String {
    let line = |part, row| WageLine { part, record: WageRecord::of(row, Form::Csv) };
    let rows = table.rows.iter().map(|row| line("row", row));
    records(rows.chain([line("total", &table.total), line("all_in", &table.all_in)]))
}

#[derive(Serialize)]
struct Wages<'a> {
    schema: &'static str,
    currency: &'a str,
    from: Option<String>,
    to: Option<String>,
    by: &'static str,
    minutes_from: &'static str,
    rows: Vec<WageRecord<'a>>,
    total: WageRecord<'a>,
    all_in: WageRecord<'a>,
    unassigned: Untied,
    prepaid: Prepaid,
    left_out: LeftOut,
    problems: &'a [Problem],
}

#[derive(Serialize)]
struct Untied {
    owner_minutes: Minutes,
    helper_minutes: Minutes,
    helper_pay: Money,
    ingredients: Money,
    packaging: Money,
    overhead: Money,
}

#[derive(Serialize)]
struct Prepaid {
    overhead: Money,
}

#[derive(Serialize)]
struct LeftOut {
    quoted: usize,
    cancelled: usize,
}

/// A line of [`wage_csv`].
#[derive(Debug, Default, Serialize)]
pub struct WageLine<'a> {
    part: &'static str,
    #[serde(flatten)]
    record: WageRecord<'a>,
}

/// A row of a wage table.
#[derive(Debug, Default, Serialize)]
struct WageRecord<'a> {
    key: Text<'a>,
    tier: Option<Text<'a>>,
    orders: i64,
    pieces: i64,
    list_value: Money,
    revenue: Money,
    ingredients: Money,
    packaging: Money,
    fees: Money,
    helper_pay: Money,
    overhead: Money,
    owner_minutes: Minutes,
    owner_pay: Money,
    hours_known: Money,
    minutes_from: &'static str,
    wage_per_hour: Option<Money>,
    wage_low: Option<Money>,
    wage_high: Option<Money>,
    one_more_piece_wage: Option<Money>,
    set_priced_share: Money,
    price_per_piece: Option<Money>,
    full_cost_per_piece: Option<Money>,
    fair_price: Option<Money>,
    surplus: Option<Money>,
    verdict: Option<&'static str>,
    certainty: Option<&'static str>,
}

impl<'a> WageRecord<'a> {
    fn of(row: &'a Row, form: Form) -> Self {
        Self {
            key: form.text(&row.key),
            tier: form.known(row.tier.as_ref()),
            orders: row.orders,
            pieces: row.pieces,
            list_value: row.list_value,
            revenue: row.revenue,
            ingredients: row.ingredients,
            packaging: row.packaging,
            fees: row.fees,
            helper_pay: row.helper_pay,
            overhead: row.overhead,
            owner_minutes: row.owner_minutes,
            owner_pay: row.owner_pay,
            hours_known: row.hours_known,
            minutes_from: row.minutes_from.word(),
            wage_per_hour: row.wage_per_hour,
            // Only what is estimated from learned minutes has an interval.
            wage_low: row.interval.map(|interval| interval.low),
            wage_high: row.interval.map(|interval| interval.high),
            one_more_piece_wage: row.one_more_piece_wage,
            set_priced_share: row.set_priced_share,
            price_per_piece: row.price_per_piece,
            full_cost_per_piece: row.known.full_cost(),
            fair_price: row.fair_price,
            surplus: row.known.surplus(),
            verdict: row.verdict.map(Verdict::words),
            certainty: row.interval.and_then(|interval| interval.certainty).map(Certainty::word),
        }
    }
}
