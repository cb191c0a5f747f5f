//! The wage table for programs: JSON (`fairdozen.wage/1`) and CSV, stable.

use super::record::{Form, WriteError, json, record, records};
use crate::costing::figure::Figure;
use crate::costing::minutes_each::MinutesFrom;
use crate::costing::unassigned::Unassigned;
use crate::quantity::millionths::{Minutes, Money};
use crate::reading::Problem;
use crate::review::certainty::Certainty;
use crate::review::wage::LeftOut;
use crate::review::{Row, Verdict, WageTable};
use serde::Serialize;

/// Writes the JSON object, pretty-printed with a last line break.
///
/// # Errors
/// Where a record cannot be written.
pub(crate) fn wage_json(table: &WageTable, currency: &str, minutes_from: MinutesFrom, problems: &[Problem]) -> Result<String, WriteError> {
    json(&TableRecord::of(table, currency, minutes_from, problems))
}

/// Writes as CSV the rows, the total and all in, told apart by the first column.
///
/// # Errors
/// Where a record cannot be written.
pub(crate) fn wage_csv(table: &WageTable) -> Result<String, WriteError> {
    let line = |part, row| WageLine { part, record: RowRecord::of(row, Form::Csv) };
    let rows = table.rows.iter().map(|row| line("row", row));
    records(rows.chain([line("total", &table.total), line("all_in", &table.all_in)]))
}

/// A line of [`wage_csv`].
#[derive(Debug, Default, Serialize)]
pub(crate) struct WageLine {
    part: &'static str,
    #[serde(flatten)]
    record: RowRecord,
}

record! {
    TableRecord(table: &WageTable, currency: &str, minutes_from: MinutesFrom, problems: &[Problem]) {
        schema: &'static str = "fairdozen.wage/1",
        currency: String = currency.to_owned(),
        from: Option<String> = table.period.from.map(|day| day.to_string()),
        to: Option<String> = table.period.to.map(|day| day.to_string()),
        by: &'static str = table.by.word(),
        minutes_from: &'static str = minutes_from.word(),
        rows: Vec<RowRecord> = table.rows.iter().map(|row| RowRecord::of(row, Form::Json)).collect(),
        total: RowRecord = RowRecord::of(&table.total, Form::Json),
        all_in: RowRecord = RowRecord::of(&table.all_in, Form::Json),
        unassigned: UnassignedRecord = UnassignedRecord::of(&table.unassigned),
        prepaid: OutsideRecord = OutsideRecord::of(table.prepaid),
        earlier: OutsideRecord = OutsideRecord::of(table.earlier),
        left_out: LeftOutRecord = LeftOutRecord::of(table.left_out),
        problems: Vec<Problem> = problems.to_vec(),
    }
}

record! {
    UnassignedRecord(of: &Unassigned) {
        owner_minutes: Minutes = of.owner_minutes,
        helper_minutes: Minutes = of.helper_minutes,
        helper_pay: Money = of.helper_pay,
        ingredients: Money = of.ingredients,
        packaging: Money = of.packaging,
        overhead: Money = of.overhead,
    }
}

record! { OutsideRecord(cost: Money) { overhead: Money = cost, } }

record! { LeftOutRecord(of: LeftOut) { quoted: usize = of.quoted, cancelled: usize = of.cancelled, } }

record! {
    RowRecord(row: &Row, form: Form) {
        key: String = form.text(&row.key),
        tier: Option<String> = form.known(row.tier.as_ref()),
        orders: i64 = row.orders,
        pieces: i64 = row.pieces,
        list_value: Money = row.list_value,
        revenue: Money = row.revenue,
        ingredients: Money = row.figures.money(Figure::Ingredients),
        packaging: Money = row.figures.money(Figure::Packaging),
        fees: Money = row.figures.money(Figure::Fees),
        helper_pay: Money = row.figures.money(Figure::HelperPay),
        overhead: Money = row.figures.money(Figure::Overhead),
        owner_minutes: Minutes = row.owner_minutes,
        owner_pay: Money = row.owner_pay,
        hours_known: Money = row.hours_known,
        minutes_from: &'static str = row.minutes_from.word(),
        wage_per_hour: Option<Money> = row.wage_per_hour,
        // Only what is estimated from learned minutes has an interval.
        wage_low: Option<Money> = row.interval.map(|interval| interval.low),
        wage_high: Option<Money> = row.interval.map(|interval| interval.high),
        one_more_piece_wage: Option<Money> = row.one_more_piece_wage,
        set_priced_share: Money = row.set_priced_share,
        price_per_piece: Option<Money> = row.price_per_piece,
        full_cost_per_piece: Option<Money> = row.known.full_cost(),
        fair_price: Option<Money> = row.fair_price,
        surplus: Option<Money> = row.known.surplus(),
        verdict: Option<&'static str> = row.verdict.map(Verdict::words),
        certainty: Option<&'static str> = row.interval.and_then(|interval| interval.certainty).map(Certainty::word),
    }
}
