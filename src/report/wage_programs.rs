//! The wage table for programs: JSON (`fairdozen.wage/1`) and CSV, stable.

use super::csv_text::{Cell, csv};
use crate::costing::minutes_each::MinutesFrom;
use crate::quantity::millionths::{Minutes, Money};
use crate::reading::Problem;
use crate::review::certainty::Certainty;
use crate::review::{Row, WageTable};
use serde_json::{Value, json};

/// The JSON object, pretty-printed with a last line break.
#[must_use]
pub fn json(table: &WageTable, currency: &str, minutes_from: MinutesFrom, problems: &[Problem]) -> String {
    let unassigned = &table.unassigned;
    let object = json!({
        "schema": "fairdozen.wage/1",
        "currency": currency,
        "from": table.period.from.map(|day| day.to_string()),
        "to": table.period.to.map(|day| day.to_string()),
        "by": table.by.word(),
        "minutes_from": minutes_from.word(),
        "rows": table.rows.iter().map(object).collect::<Vec<Value>>(),
        "total": object(&table.total),
        "all_in": object(&table.all_in),
        "unassigned": {
            "owner_minutes": unassigned.owner_minutes.stored(),
            "helper_minutes": unassigned.helper_minutes.stored(),
            "helper_pay": unassigned.helper_pay.stored(),
            "ingredients": unassigned.ingredients.stored(),
            "packaging": unassigned.packaging.stored(),
            "overhead": unassigned.overhead.stored(),
        },
        "prepaid": { "overhead": table.prepaid.stored() },
        "left_out": { "quoted": table.left_out.quoted, "cancelled": table.left_out.cancelled },
        "problems": problems,
    });
    format!("{object:#}\n")
}

/// The headings of [`wage_csv`]: `part`, and the names of the fields.
pub const HEADINGS: [&str; 27] = [
    "part",
    "key",
    "tier",
    "orders",
    "pieces",
    "list_value",
    "revenue",
    "ingredients",
    "packaging",
    "fees",
    "helper_pay",
    "overhead",
    "owner_minutes",
    "owner_pay",
    "hours_known",
    "minutes_from",
    "wage_per_hour",
    "wage_low",
    "wage_high",
    "one_more_piece_wage",
    "set_priced_share",
    "price_per_piece",
    "full_cost_per_piece",
    "fair_price",
    "surplus",
    "verdict",
    "certainty",
];

/// The rows, the total and all in, told apart by the first column.
#[must_use]
pub fn wage_csv(table: &WageTable) -> String {
    let line = |part: &str, row: &Row| {
        debug_assert!(fields(row).iter().map(|(name, _)| *name).eq(HEADINGS[1..].iter().copied()));
        let mut cells = vec![Cell::Figure(part.to_owned())];
        cells.extend(fields(row).iter().map(|(name, value)| Cell::of(value, matches!(*name, "key" | "tier"))));
        cells
    };
    let rows = table.rows.iter().map(|row| line("row", row));
    csv(&HEADINGS.map(str::to_owned), rows.chain([line("total", &table.total), line("all_in", &table.all_in)]))
}

fn object(row: &Row) -> Value {
    Value::Object(fields(row).into_iter().map(|(name, value)| (name.to_owned(), value)).collect())
}

/// A row's fields, in their stable order.
fn fields(row: &Row) -> Vec<(&'static str, Value)> {
    let money = |money: Money| json!(money.stored());
    let known = |money: Option<Money>| json!(money.map(Money::stored));
    let minutes = |minutes: Minutes| json!(minutes.stored());
    vec![
        ("key", json!(row.key)),
        ("tier", json!(row.tier)),
        ("orders", json!(row.orders)),
        ("pieces", json!(row.pieces)),
        ("list_value", money(row.list_value)),
        ("revenue", money(row.revenue)),
        ("ingredients", money(row.ingredients)),
        ("packaging", money(row.packaging)),
        ("fees", money(row.fees)),
        ("helper_pay", money(row.helper_pay)),
        ("overhead", money(row.overhead)),
        ("owner_minutes", minutes(row.owner_minutes)),
        ("owner_pay", money(row.owner_pay)),
        ("hours_known", money(row.hours_known)),
        ("minutes_from", json!(row.minutes_from.word())),
        ("wage_per_hour", known(row.wage_per_hour)),
        // Only what is estimated from learned minutes has an interval.
        ("wage_low", known(row.interval.map(|interval| interval.low))),
        ("wage_high", known(row.interval.map(|interval| interval.high))),
        ("one_more_piece_wage", known(row.one_more_piece_wage)),
        ("set_priced_share", money(row.set_priced_share)),
        ("price_per_piece", known(row.price_per_piece)),
        ("full_cost_per_piece", known(row.known.full_cost())),
        ("fair_price", known(row.fair_price)),
        ("surplus", known(row.known.surplus())),
        ("verdict", json!(row.verdict.map(crate::review::Verdict::words))),
        ("certainty", json!(row.interval.and_then(|interval| interval.certainty).map(Certainty::word))),
    ]
}
