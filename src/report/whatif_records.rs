//! What would have been, for programs: JSON (`fairdozen.whatif/1`) and CSV, stable.

use super::record::{Form, Text, json, records};
use crate::pricing::what_if::{Both, Figures, WhatIf};
use crate::quantity::Period;
use crate::quantity::millionths::{Minutes, Money};
use serde::Serialize;

/// The JSON object, pretty-printed with a last line break.
#[must_use]
pub fn whatif_json(answer: &WhatIf, currency: &str) -> String {
    let Period { from, to } = answer.period;
    let both = |both| BothRecord::of(both, answer.target);
    json(&Answer {
        schema: "fairdozen.whatif/1",
        currency,
        from: from.map(|day| day.to_string()),
        to: to.map(|day| day.to_string()),
        by: answer.by.word(),
        target: answer.target,
        rows: answer.rows.iter().map(|row| RowRecord::of(&row.key, row.tier.as_ref(), both(&row.both), Form::Json)).collect(),
        total: both(&answer.total),
        all_in: both(&answer.all_in),
        orders: answer.orders,
        orders_turned_away: answer.turned_away,
    })
}

/// The rows, the total and all in, told apart by the first column.
#[must_use]
pub fn whatif_csv(answer: &WhatIf) -> String {
    let line = |part, key, tier, both| LineRecord {
        part,
        row: RowRecord::of(key, tier, BothRecord::of(both, answer.target), Form::Csv),
    };
    let rows = answer.rows.iter().map(|row| line("row", &row.key, row.tier.as_ref(), &row.both));
    records(rows.chain([line("total", "total", None, &answer.total), line("all_in", "all in", None, &answer.all_in)]))
}

#[derive(Serialize)]
struct Answer<'a> {
    schema: &'static str,
    currency: &'a str,
    from: Option<String>,
    to: Option<String>,
    by: &'static str,
    target: Option<Money>,
    rows: Vec<RowRecord<'a>>,
    total: BothRecord,
    all_in: BothRecord,
    orders: usize,
    orders_turned_away: usize,
}

#[derive(Default, Serialize)]
struct LineRecord<'a> {
    part: &'static str,
    #[serde(flatten)]
    row: RowRecord<'a>,
}

#[derive(Default, Serialize)]
struct RowRecord<'a> {
    key: Text<'a>,
    tier: Option<Text<'a>>,
    #[serde(flatten)]
    both: BothRecord,
}

impl<'a> RowRecord<'a> {
    fn of(key: &'a str, tier: Option<&'a String>, both: BothRecord, form: Form) -> Self {
        Self { key: form.text(key), tier: form.known(tier), both }
    }
}

#[derive(Default, Serialize)]
struct BothRecord {
    before: FiguresRecord,
    after: FiguresRecord,
}

#[derive(Default, Serialize)]
struct FiguresRecord {
    /// Need not be whole where there are fewer.
    pieces: Minutes,
    revenue: Money,
    owner_pay: Money,
    owner_minutes: Minutes,
    wage_per_hour: Option<Money>,
    surplus: Option<Money>,
}

impl BothRecord {
    fn of(both: &Both, target: Option<Money>) -> Self {
        let of = |figures: &Figures| FiguresRecord {
            pieces: Minutes(figures.pieces),
            revenue: figures.revenue,
            owner_pay: figures.owner_pay,
            owner_minutes: figures.owner_minutes,
            wage_per_hour: figures.wage(),
            surplus: figures.surplus(target),
        };
        Self { before: of(&both.before), after: of(&both.after) }
    }
}
