//! Learned minutes for programs: JSON (`fairdozen.minutes/1`) and CSV, and hours by stage, stable.

use super::record::{Form, Text, json, records};
use crate::minutes::Unlearned;
use crate::minutes::fit::Diagnostics;
use crate::minutes::learned::Estimate;
use crate::quantity::millionths::{Minutes, Money};
use crate::review::minutes::{MinutesRow, MinutesTable};
use crate::review::stage_hours::Worked;
use serde::Serialize;

/// The JSON object, pretty-printed with a last line break.
#[must_use]
pub fn minutes_json(table: &MinutesTable) -> String {
    let beside = table.beside.as_ref();
    // Shares of the minutes, by which a year changes them.
    let change = |trend: Estimate| Range::of(trend, |log| libm::exp(log) - 1.0);
    json(&TableRecord {
        schema: "fairdozen.minutes/1",
        rows: table.rows.iter().map(|row| RowRecord::of(row, Form::Json)).collect(),
        set_up_minutes: beside.map(|beside| Range::of(beside.set_up, |minutes| minutes)),
        minutes_per_colour: beside.and_then(|beside| beside.colour).map(|colour| Range::of(colour, |minutes| minutes)),
        noise: beside.and_then(|beside| Minutes::from_estimate(beside.noise.median)),
        diagnostics: diagnostics(table).map(DiagnosticsRecord::of),
        time_next: table.time_next.iter().map(|next| NextRecord { key: &next.key, narrowing: next.narrowing }).collect(),
        far_off: table.far_off().map(|(order, of)| FarRecord::of(order, of.logged, of.expected)).collect(),
        change_per_year: beside.and_then(|beside| beside.trend).map(change),
    })
}

/// The rows.
#[must_use]
pub fn minutes_csv(table: &MinutesTable) -> String {
    records(table.rows.iter().map(|row| RowRecord::of(row, Form::Csv)))
}

/// Hours by stage as a JSON object.
#[must_use]
pub fn stages_json(worked: &[Worked]) -> String {
    json(&StagesRecord { schema: "fairdozen.stages/1", rows: worked.iter().map(|of| StageRecord::of(of, Form::Json)).collect() })
}

/// Hours by stage as CSV.
#[must_use]
pub fn stages_csv(worked: &[Worked]) -> String {
    records(worked.iter().map(|of| StageRecord::of(of, Form::Csv)))
}

#[derive(Serialize)]
struct TableRecord<'a> {
    schema: &'static str,
    rows: Vec<RowRecord<'a>>,
    set_up_minutes: Option<Range>,
    minutes_per_colour: Option<Range>,
    noise: Option<Minutes>,
    diagnostics: Option<DiagnosticsRecord>,
    time_next: Vec<NextRecord<'a>>,
    far_off: Vec<FarRecord<'a>>,
    /// Only there where a trend was looked for.
    #[serde(skip_serializing_if = "Option::is_none")]
    change_per_year: Option<Range>,
}

#[derive(Default, Serialize)]
struct RowRecord<'a> {
    key: Text<'a>,
    tier: Option<Text<'a>>,
    orders: i64,
    pieces: i64,
    card_minutes: Option<Minutes>,
    minutes_per_piece: Option<Minutes>,
    minutes_low: Option<Minutes>,
    minutes_high: Option<Minutes>,
    told_apart: Option<bool>,
}

impl<'a> RowRecord<'a> {
    fn of(row: &'a MinutesRow, form: Form) -> Self {
        let learned = |of: fn(&Estimate) -> f64| row.learned.as_ref().map(of).and_then(Minutes::from_estimate);
        Self {
            key: form.text(&row.key),
            tier: form.known(row.tier.as_ref()),
            orders: row.orders,
            pieces: row.pieces,
            card_minutes: row.card,
            minutes_per_piece: learned(|of| of.median),
            minutes_low: learned(|of| of.low),
            minutes_high: learned(|of| of.high),
            told_apart: row.told_apart,
        }
    }
}

#[derive(Serialize)]
struct Range {
    median: Option<Minutes>,
    low: Option<Minutes>,
    high: Option<Minutes>,
}

impl Range {
    fn of(Estimate { median, low, high }: Estimate, to: fn(f64) -> f64) -> Self {
        let [median, low, high] = [median, low, high].map(|value| Minutes::from_estimate(to(value)));
        Self { median, low, high }
    }
}

/// Of the draws used, or of those that could not be.
fn diagnostics(table: &MinutesTable) -> Option<Diagnostics> {
    match table.unlearned {
        Some(Unlearned::Failed(diagnostics)) => diagnostics,
        _ => table.beside.as_ref().map(|beside| beside.diagnostics),
    }
}

#[derive(Serialize)]
struct DiagnosticsRecord {
    method: &'static str,
    chains: usize,
    draws: usize,
    r_hat: f64,
    ess_bulk: f64,
    ess_tail: f64,
    divergences: usize,
    passed: bool,
}

impl DiagnosticsRecord {
    fn of(of: Diagnostics) -> Self {
        let rounded = |value: f64, parts: f64| (value * parts).round() / parts;
        Self {
            method: of.method.word(),
            chains: of.chains,
            draws: of.draws,
            r_hat: rounded(of.r_hat, 1e6),
            ess_bulk: rounded(of.ess_bulk, 10.0),
            ess_tail: rounded(of.ess_tail, 10.0),
            divergences: of.divergences,
            passed: of.passed,
        }
    }
}

#[derive(Serialize)]
struct NextRecord<'a> {
    key: &'a str,
    narrowing: Option<Money>,
}

#[derive(Serialize)]
struct FarRecord<'a> {
    order: &'a str,
    logged: Option<Minutes>,
    expected: Option<Minutes>,
}

impl<'a> FarRecord<'a> {
    fn of(order: &'a str, logged: f64, expected: f64) -> Self {
        Self { order, logged: Minutes::from_estimate(logged), expected: Minutes::from_estimate(expected) }
    }
}

#[derive(Serialize)]
struct StagesRecord<'a> {
    schema: &'static str,
    rows: Vec<StageRecord<'a>>,
}

#[derive(Default, Serialize)]
struct StageRecord<'a> {
    stage: Option<Text<'a>>,
    month: String,
    who: Option<Text<'a>>,
    waiting: bool,
    minutes: Minutes,
}

impl<'a> StageRecord<'a> {
    fn of(of: &'a Worked, form: Form) -> Self {
        let (stage, who) = (form.known(of.stage.as_ref()), form.known(of.who.as_ref()));
        Self { stage, month: of.month.to_string(), who, waiting: of.waiting, minutes: of.minutes }
    }
}
