//! The facts as CSV: one row a line, under the names programs read elsewhere.

use super::csv_text::{Cell, csv};
use crate::costing::facts::{Facts, column};
use crate::costing::minutes_each::MinutesFrom;
use crate::ids::Id;
use crate::quantity::millionths::Money;
use crate::quantity::{Day, Month};
use crate::shop::Shop;
use polars::prelude::*;

/// Columns of money and minutes, in the order they are written.
const FIGURES: &[&str] = &[
    column::LIST_VALUE,
    column::SET_DIFFERENCE,
    column::RUSH,
    column::DISCOUNT,
    column::REFUND,
    column::TIPS,
    column::REVENUE,
    column::INGREDIENTS,
    column::PACKAGING,
    column::FEES,
    column::HELPER_PAY,
    column::OVERHEAD,
    column::OWNER_MINUTES,
    column::HELPER_MINUTES,
    column::OWNER_PAY,
    column::LEVELS[0],
    column::LEVELS[1],
    column::LEVELS[2],
];

/// What our own columns that begin with `minutes_` end in.
const TAKEN: &[&str] = &["from", "no_stage", "naming_design", "naming_order", "naming_neither"];

const KINDS: [&str; 3] = ["cookie", "delivery", "deposit kept"];

/// All facts, in their fixed order; `minutes_from` is the shop's and `of_design` that of lines with a design.
///
/// # Errors
/// Where polars fails.
pub fn facts_csv(shop: &Shop, facts: &Facts, minutes_from: MinutesFrom, of_design: &[MinutesFrom]) -> PolarsResult<String> {
    let frame = facts.frame();
    let whole = |name: &str| -> PolarsResult<Vec<Option<i64>>> { Ok(frame.column(name)?.cast(&DataType::Int64)?.i64()?.iter().collect()) };
    let stages: Vec<String> = facts.stage_columns().map(str::to_owned).collect();
    let mut headings: Vec<String> = [
        "order",
        "date",
        "line_row",
        "month",
        "kind",
        "design",
        "tier",
        "theme",
        "channel",
        "colours",
        "order_pieces",
        "pieces",
        "set_priced_pieces",
    ]
    .map(String::from)
    .into();
    headings.extend(FIGURES.iter().map(|name| (*name).to_owned()));
    headings.extend(["hours_known", "incomplete", "minutes_from"].map(String::from));
    headings.extend(stages.iter().map(|stage| match stage.strip_prefix(column::STAGE) {
        Some("") | None => "minutes_no_stage".to_owned(),
        // A stage of hers may be called as a column of ours ends.
        Some(stage) if TAKEN.contains(&stage) => format!("minutes_stage_{stage}"),
        Some(stage) => format!("minutes_{stage}"),
    }));
    let ids = [
        column::ORDER,
        column::DAY,
        column::LINE_ROW,
        column::MONTH,
        column::KIND,
        column::DESIGN,
        column::TIER,
        column::THEME,
        column::CHANNEL,
    ];
    let ids = ids.map(whole).into_iter().collect::<PolarsResult<Vec<_>>>()?;
    let counts = [column::COLOURS, column::ORDER_PIECES, column::PIECES, column::SET_PRICED_PIECES]
        .map(whole)
        .into_iter()
        .collect::<PolarsResult<Vec<_>>>()?;
    let figures = FIGURES.iter().map(|name| whole(name)).collect::<PolarsResult<Vec<_>>>()?;
    let minutes = stages.iter().map(|name| whole(name)).collect::<PolarsResult<Vec<_>>>()?;
    let truths = [column::KNOWN, column::INCOMPLETE].map(whole).into_iter().collect::<PolarsResult<Vec<_>>>()?;
    let small = |value: i64| i32::try_from(value).unwrap_or_default();
    let stored = |value: Option<i64>| Cell::Figure(Money(i128::from(value.unwrap_or_default())).stored());
    let text = |value: Option<i64>, text: &dyn Fn(i64) -> String| value.map_or(Cell::Unknown, |value| Cell::Text(text(value)));
    let rows = (0..frame.height()).map(|row| {
        let id = |at: usize| ids[at][row];
        let mut cells = vec![
            text(id(0), &|order| shop.orders.ids.text(id_of(order)).to_owned()),
            text(id(1), &|day| Day(small(day)).to_string()),
            id(2).map_or(Cell::Unknown, |row| Cell::Figure(row.to_string())),
            text(id(3), &|month| Month(small(month)).to_string()),
            text(id(4), &|kind| KINDS[usize::try_from(kind).unwrap_or_default()].to_owned()),
            text(id(5), &|design| shop.designs.names.text(id_of(design)).to_owned()),
            text(id(6), &|tier| shop.designs.tiers.text(id_of(tier)).to_owned()),
            text(id(7), &|theme| facts.themes.text(id_of(theme)).to_owned()),
            text(id(8), &|channel| shop.orders.channels.text(id_of(channel)).to_owned()),
        ];
        cells.extend(counts.iter().map(|column| column[row].map_or(Cell::Unknown, |value| Cell::Figure(value.to_string()))));
        cells.extend(figures.iter().map(|column| stored(column[row])));
        cells.extend(truths.iter().map(|column| Cell::Figure((column[row] == Some(1)).to_string())));
        let source = id(5).and_then(|design| of_design.get(usize::try_from(design).ok()?)).unwrap_or(&minutes_from);
        cells.push(Cell::Figure(source.word().to_owned()));
        cells.extend(minutes.iter().map(|column| stored(column[row])));
        cells
    });
    Ok(csv(&headings, rows))
}

fn id_of<T>(value: i64) -> Id<T> {
    Id::new(u32::try_from(value).unwrap_or_default())
}
