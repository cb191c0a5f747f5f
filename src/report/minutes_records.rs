//! Learned minutes for programs: JSON (`fairdozen.minutes/1`) and CSV, and hours by stage, stable.

use super::record::{Form, WriteError, json, record, records};
use crate::minutes::Unlearned;
use crate::minutes::fit::Diagnostics;
use crate::minutes::learned::Estimate;
use crate::quantity::millionths::{Minutes, Money};
use crate::review::minutes::{MinutesRow, MinutesTable, TimeNext};
use crate::review::stage_hours::Worked;
use serde::Serialize;

/// Writes the JSON object, pretty-printed with a last line break.
///
/// # Errors
/// Where a record cannot be written.
pub fn minutes_json(table: &MinutesTable) -> Result<String, WriteError> {
    // Shares of the minutes, by which a year changes them.
    let change = |trend: &Estimate| RangeRecord::of(trend, |log| libm::exp(log) - 1.0);
    let change_per_year = table.fit.as_ref().and_then(|beside| beside.trend.as_ref()).map(change);
    json(&WithTrend { table: TableRecord::of(table), change_per_year })
}

/// Writes the rows as CSV.
///
/// # Errors
/// Where a record cannot be written.
pub(crate) fn minutes_csv(table: &MinutesTable) -> Result<String, WriteError> {
    records(table.rows.iter().map(|row| RowRecord::of(row, Form::Csv)))
}

/// Writes hours by stage as a JSON object.
///
/// # Errors
/// Where a record cannot be written.
pub(crate) fn stages_json(worked: &[Worked]) -> Result<String, WriteError> {
    json(&StagesRecord::of(worked))
}

/// Writes hours by stage as CSV.
///
/// # Errors
/// Where a record cannot be written.
pub(crate) fn stages_csv(worked: &[Worked]) -> Result<String, WriteError> {
    records(worked.iter().map(|of| StageRecord::of(of, Form::Csv)))
}

#[derive(Serialize)]
struct WithTrend {
    #[serde(flatten)]
    table: TableRecord,
    /// Only there where a trend was looked for.
    #[serde(skip_serializing_if = "Option::is_none")]
    change_per_year: Option<RangeRecord>,
}

record! {
    TableRecord(table: &MinutesTable) {
        schema: &'static str = "fairdozen.minutes/1",
        rows: Vec<RowRecord> = table.rows.iter().map(|row| RowRecord::of(row, Form::Json)).collect(),
        set_up_minutes: Option<RangeRecord> = table.fit.as_ref().map(|beside| RangeRecord::of_minutes(&beside.set_up)),
        minutes_per_colour: Option<RangeRecord> =
            table.fit.as_ref().and_then(|beside| beside.colour.as_ref()).map(RangeRecord::of_minutes),
        noise: Option<Minutes> = table.fit.as_ref().and_then(|beside| Minutes::from_estimate(beside.noise.median)),
        diagnostics: Option<DiagnosticsRecord> = diagnostics(table).map(DiagnosticsRecord::of),
        time_next: Vec<NextRecord> = table.time_next.iter().map(NextRecord::of).collect(),
        far_off: Vec<FarRecord> = table.far_off().map(|(order, of)| FarRecord::of(order, of.logged, of.expected)).collect(),
    }
}

record! {
    RowRecord(row: &MinutesRow, form: Form) {
        key: String = form.text(&row.key),
        tier: Option<String> = form.known(row.tier.as_ref()),
        orders: i64 = row.orders,
        pieces: i64 = row.pieces,
        card_minutes: Option<Minutes> = row.card,
        minutes_per_piece: Option<Minutes> = row.learned.and_then(|learned| Minutes::from_estimate(learned.median)),
        minutes_low: Option<Minutes> = row.learned.and_then(|learned| Minutes::from_estimate(learned.low)),
        minutes_high: Option<Minutes> = row.learned.and_then(|learned| Minutes::from_estimate(learned.high)),
        told_apart: Option<bool> = row.told_apart,
    }
}

record! {
    RangeRecord(of: &Estimate, to: fn(f64) -> f64) {
        median: Option<Minutes> = Minutes::from_estimate(to(of.median)),
        low: Option<Minutes> = Minutes::from_estimate(to(of.low)),
        high: Option<Minutes> = Minutes::from_estimate(to(of.high)),
    }
}

impl RangeRecord {
    fn of_minutes(of: &Estimate) -> Self {
        Self::of(of, |minutes| minutes)
    }
}

/// Of the draws used, or of those that could not be.
fn diagnostics(table: &MinutesTable) -> Option<Diagnostics> {
    match table.unlearned {
        Some(Unlearned::Failed(diagnostics)) => diagnostics,
        _ => table.fit.as_ref().map(|beside| beside.diagnostics),
    }
}

record! {
    DiagnosticsRecord(of: Diagnostics) {
        method: &'static str = of.method.word(),
        chains: usize = of.chains,
        draws: usize = of.draws,
        r_hat: f64 = rounded(of.r_hat, 1e6),
        ess_bulk: f64 = rounded(of.ess_bulk, 10.0),
        ess_tail: f64 = rounded(of.ess_tail, 10.0),
        divergences: usize = of.divergences,
        passed: bool = of.passed,
    }
}

fn rounded(value: f64, parts: f64) -> f64 {
    (value * parts).round() / parts
}

record! { NextRecord(next: &TimeNext) { key: String = next.key.clone(), narrowing: Option<Money> = next.narrowing, } }

record! {
    FarRecord(order: &str, logged: f64, expected: f64) {
        order: String = order.to_owned(),
        logged: Option<Minutes> = Minutes::from_estimate(logged),
        expected: Option<Minutes> = Minutes::from_estimate(expected),
    }
}

record! {
    StagesRecord(worked: &[Worked]) {
        schema: &'static str = "fairdozen.stages/1",
        rows: Vec<StageRecord> = worked.iter().map(|of| StageRecord::of(of, Form::Json)).collect(),
    }
}

record! {
    StageRecord(of: &Worked, form: Form) {
        stage: Option<String> = form.known(of.stage.as_ref()),
        month: String = of.month.to_string(),
        who: Option<String> = form.known(of.who.as_ref()),
        waiting: bool = of.waiting,
        minutes: Minutes = of.minutes,
    }
}
