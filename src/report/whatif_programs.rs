//! What would have been, for programs: JSON (`fairdozen.whatif/1`) and CSV, stable.

use super::csv_text::{Cell, csv};
use crate::pricing::cost::Smallest;
use crate::pricing::what_if::{Both, Figures, Row, WhatIf};
use crate::quantity::millionths::{Minutes, Money};
use serde_json::{Value, json};

/// The JSON object, pretty-printed with a last line break.
#[must_use]
pub fn whatif_json(answer: &WhatIf, currency: &str) -> String {
    let both = |both: &Both| json!({ "before": object(&both.before, answer.target), "after": object(&both.after, answer.target) });
    let row = |row: &Row| {
        json!({
            "key": row.key,
            "tier": row.tier,
            "before": object(&row.both.before, answer.target),
            "after": object(&row.both.after, answer.target),
        })
    };
    let object = json!({
        "schema": "fairdozen.whatif/1",
        "currency": currency,
        "from": answer.period.from.map(|day| day.to_string()),
        "to": answer.period.to.map(|day| day.to_string()),
        "by": answer.by.word(),
        "target": answer.target.map(Money::stored),
        "rows": answer.rows.iter().map(row).collect::<Vec<Value>>(),
        "total": both(&answer.total),
        "all_in": both(&answer.all_in),
        "orders": answer.orders,
        "orders_turned_away": answer.turned_away,
        "smallest_order": answer.smallest_order.and_then(Smallest::pieces),
    });
    format!("{object:#}\n")
}

/// The rows, the total and all in, told apart by the first column.
#[must_use]
pub fn whatif_csv(answer: &WhatIf) -> String {
    let names = ["pieces", "revenue", "owner_pay", "owner_minutes", "wage_per_hour", "surplus"];
    let mut headings: Vec<String> = ["part", "key", "tier"].map(str::to_owned).to_vec();
    headings.extend(["before", "after"].iter().flat_map(|when| names.iter().map(move |name| format!("{name}_{when}"))));
    let line = |part: &str, key: &str, tier: Option<&String>, both: &Both| {
        let mut cells =
            vec![Cell::Figure(part.to_owned()), Cell::Text(key.to_owned()), tier.map_or(Cell::Unknown, |tier| Cell::Text(tier.clone()))];
        for figures in [&both.before, &both.after] {
            cells.extend(fields(figures, answer.target).iter().map(|(_, value)| Cell::of(value, false)));
        }
        cells
    };
    let rows = answer.rows.iter().map(|row| line("row", &row.key, row.tier.as_ref(), &row.both));
    csv(&headings, rows.chain([line("total", "total", None, &answer.total), line("all_in", "all in", None, &answer.all_in)]))
}

fn object(figures: &Figures, target: Option<Money>) -> Value {
    Value::Object(fields(figures, target).into_iter().map(|(name, value)| (name.to_owned(), value)).collect())
}

/// Fields in their stable order. Pieces need not be whole where there are fewer.
fn fields(figures: &Figures, target: Option<Money>) -> Vec<(&'static str, Value)> {
    vec![
        ("pieces", json!(Minutes(figures.pieces).stored())),
        ("revenue", json!(figures.revenue.stored())),
        ("owner_pay", json!(figures.owner_pay.stored())),
        ("owner_minutes", json!(figures.owner_minutes.stored())),
        ("wage_per_hour", json!(figures.wage().map(Money::stored))),
        ("surplus", json!(figures.surplus(target).map(Money::stored))),
    ]
}
