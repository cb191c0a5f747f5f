//! Learned minutes for programs: JSON (`fairdozen.minutes/1`) and CSV, and hours by stage, stable.

use super::csv_text::{Cell, csv};
use crate::minutes::fit::Diagnostics;
use crate::minutes::learned::Estimate;
use crate::quantity::millionths::Minutes;
use crate::review::minutes::{MinutesRow, MinutesTable};
use crate::review::stage_hours::Worked;
use serde_json::{Value, json};

/// The JSON object, pretty-printed with a last line break.
#[must_use]
pub fn json(table: &MinutesTable) -> String {
    let beside = table.fit.as_ref();
    let interval = |estimate: Option<Estimate>| match estimate {
        Some(Estimate { median, low, high }) => json!({ "median": minutes(median), "low": minutes(low), "high": minutes(high) }),
        None => Value::Null,
    };
    let far_off =
        table.far_off().map(|(order, of)| json!({ "order": order, "logged": minutes(of.logged), "expected": minutes(of.expected) }));
    let mut object = json!({
        "schema": "fairdozen.minutes/1",
        "rows": table.rows.iter().map(|row| Value::Object(fields(row).into_iter().map(|(name, value)| (name.to_owned(), value)).collect())).collect::<Vec<Value>>(),
        "set_up_minutes": interval(beside.map(|beside| beside.set_up)),
        "minutes_per_colour": interval(beside.and_then(|beside| beside.colour)),
        "noise": beside.map(|beside| minutes(beside.noise.median)),
        "diagnostics": diagnostics(table).map(|of| json!({
            "method": of.method.word(),
            "chains": of.chains,
            "draws": of.draws,
            "r_hat": rounded(of.r_hat, 1e6),
            "ess_bulk": rounded(of.ess_bulk, 10.0),
            "ess_tail": rounded(of.ess_tail, 10.0),
            "divergences": of.divergences,
            "passed": of.passed,
        })),
        "time_next": table.time_next.iter().map(|next| json!({
            "key": next.key,
            "narrowing": next.narrowing.map(crate::quantity::millionths::Money::stored),
        })).collect::<Vec<Value>>(),
        "far_off": far_off.collect::<Vec<Value>>(),
    });
    if let (Some(trend), Some(object)) = (beside.and_then(|beside| beside.trend), object.as_object_mut()) {
        // Shares of the minutes, by which a year changes them; only there where a trend was looked for.
        let share = |log: f64| minutes(libm::exp(log) - 1.0);
        let trend = json!({ "median": share(trend.median), "low": share(trend.low), "high": share(trend.high) });
        object.insert("change_per_year".to_owned(), trend);
    }
    format!("{object:#}\n")
}

/// The rows.
#[must_use]
pub fn minutes_csv(table: &MinutesTable) -> String {
    let headings = ["key", "tier", "orders", "pieces", "card_minutes", "minutes_per_piece", "minutes_low", "minutes_high", "told_apart"];
    let cells = |row: &MinutesRow| fields(row).iter().map(|(name, value)| Cell::of(value, matches!(*name, "key" | "tier"))).collect();
    csv(&headings.map(str::to_owned), table.rows.iter().map(cells))
}

/// Hours by stage as a JSON object.
#[must_use]
pub fn stages_json(worked: &[Worked]) -> String {
    let rows: Vec<Value> = worked
        .iter()
        .map(|of| {
            json!({ "stage": of.stage, "month": of.month.to_string(), "who": of.who, "waiting": of.waiting, "minutes": of.minutes.stored() })
        })
        .collect();
    format!("{:#}\n", json!({ "schema": "fairdozen.stages/1", "rows": rows }))
}

/// Hours by stage as CSV.
#[must_use]
pub fn stages_csv(worked: &[Worked]) -> String {
    let headings = ["stage", "month", "who", "waiting", "minutes"].map(str::to_owned);
    let text = |text: &Option<String>| text.clone().map_or(Cell::Unknown, Cell::Text);
    let figure = |text: String| Cell::Figure(text);
    csv(
        &headings,
        worked.iter().map(|of| {
            let waiting = figure(of.waiting.to_string());
            vec![text(&of.stage), figure(of.month.to_string()), text(&of.who), waiting, figure(of.minutes.stored())]
        }),
    )
}

/// A row's fields, in their stable order.
fn fields(row: &MinutesRow) -> Vec<(&'static str, Value)> {
    let learned = |of: fn(&Estimate) -> f64| json!(row.learned.as_ref().map(|learned| minutes(of(learned))));
    vec![
        ("key", json!(row.key)),
        ("tier", json!(row.tier)),
        ("orders", json!(row.orders)),
        ("pieces", json!(row.pieces)),
        ("card_minutes", json!(row.card.map(Minutes::stored))),
        ("minutes_per_piece", learned(|of| of.median)),
        ("minutes_low", learned(|of| of.low)),
        ("minutes_high", learned(|of| of.high)),
        ("told_apart", json!(row.told_apart)),
    ]
}

/// Of the draws used, or of those that could not be.
fn diagnostics(table: &MinutesTable) -> Option<Diagnostics> {
    match table.unlearned {
        Some(crate::minutes::Unlearned::Failed(diagnostics)) => diagnostics,
        _ => table.fit.as_ref().map(|beside| beside.diagnostics),
    }
}

/// Six decimals, as all stored minutes have.
fn minutes(value: f64) -> Option<String> {
    Minutes::from_estimate(value).map(Minutes::stored)
}

fn rounded(value: f64, parts: f64) -> f64 {
    (value * parts).round() / parts
}
