//! What would have been, for programs: JSON (`fairdozen.whatif/1`) and CSV, stable.

use super::record::{Form, WriteError, json, record, records};
use crate::pricing::cost::Smallest;
use crate::pricing::figures::{Both, Totals};
use crate::pricing::what_if::WhatIf;
use crate::quantity::millionths::{Minutes, Money};
use serde::Serialize;

/// Writes the JSON object, pretty-printed with a last line break.
///
/// # Errors
/// Where a record cannot be written.
pub(crate) fn whatif_json(answer: &WhatIf, currency: &str) -> Result<String, WriteError> {
    json(&AnswerRecord::of(answer, currency))
}

/// Writes as CSV the rows, the total and all in, told apart by the first column.
///
/// # Errors
/// Where a record cannot be written.
pub(crate) fn whatif_csv(answer: &WhatIf) -> Result<String, WriteError> {
    let line = |part, row| LineRecord { part, row };
    let whole = |key, both| RowRecord::of(key, None, both, Form::Csv);
    let totals = [line("total", whole("total", &answer.total)), line("all_in", whole("all in", &answer.all_in))];
    records(rows(answer, Form::Csv).into_iter().map(|row| line("row", row)).chain(totals))
}

fn rows(answer: &WhatIf, form: Form) -> Vec<RowRecord> {
    answer.rows.iter().map(|row| RowRecord::of(&row.key, row.tier.as_ref(), &row.both, form)).collect()
}

record! {
    AnswerRecord(answer: &WhatIf, currency: &str) {
        schema: &'static str = "fairdozen.whatif/1",
        currency: String = currency.to_owned(),
        from: Option<String> = answer.period.from.map(|day| day.to_string()),
        to: Option<String> = answer.period.to.map(|day| day.to_string()),
        by: &'static str = answer.by.word(),
        target: Option<Money> = answer.target,
        rows: Vec<RowRecord> = rows(answer, Form::Json),
        total: BothRecord = BothRecord::of(&answer.total),
        all_in: BothRecord = BothRecord::of(&answer.all_in),
        orders: usize = answer.orders,
        orders_turned_away: usize = answer.turned_away,
        smallest_order: Option<i64> = answer.smallest_order.and_then(Smallest::pieces),
    }
}

#[derive(Default, Serialize)]
struct LineRecord {
    part: &'static str,
    #[serde(flatten)]
    row: RowRecord,
}

record! {
    RowRecord(key: &str, tier: Option<&String>, both: &Both, form: Form) {
        key: String = form.text(key),
        tier: Option<String> = form.known(tier),
        before: FiguresRecord = FiguresRecord::of(&both.before),
        after: FiguresRecord = FiguresRecord::of(&both.after),
    }
}

record! {
    BothRecord(both: &Both) {
        before: FiguresRecord = FiguresRecord::of(&both.before),
        after: FiguresRecord = FiguresRecord::of(&both.after),
    }
}

record! {
    FiguresRecord(figures: &Totals) {
        // Need not be whole where there are fewer.
        pieces: Minutes = Minutes(figures.pieces()),
        revenue: Money = figures.revenue(),
        owner_pay: Money = figures.owner_pay(),
        owner_minutes: Minutes = figures.owner_minutes(),
        wage_per_hour: Option<Money> = figures.wage(),
        surplus: Option<Money> = figures.surplus(),
    }
}
