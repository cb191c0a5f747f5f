//! The facts as CSV: one row a line, under the names programs read elsewhere.

use super::record::{Form, WriteError, csv};
use crate::costing::column::{self, Column};
use crate::costing::facts::{Facts, Figure};
use crate::costing::minutes_each::MinutesFrom;
use crate::ids::{Design, Id, IdVec, Names};
use crate::quantity::millionths::Money;
use crate::shop::Shop;
use polars::prelude::PolarsResult;

/// Figures of money written before the out-of-pocket costs.
const BEFORE: [Figure; 7] =
    [Figure::ListValue, Figure::SetDifference, Figure::Rush, Figure::Discount, Figure::Refund, Figure::Tips, Figure::Revenue];
/// Figures written after them.
const AFTER: [Figure; 3] = [Figure::OwnerMinutes, Figure::HelperMinutes, Figure::OwnerPay];

/// Endings of our own columns that begin with `minutes_`.
const TAKEN: &[&str] = &["from", "no_stage", "naming_design", "naming_order", "naming_neither"];

/// Writes all facts as CSV, in their fixed order; `minutes_from` is the shop's and `of_design` that of lines with a design.
///
/// # Errors
/// [`WriteError`] where polars or csv fails.
pub(crate) fn facts_csv(
    shop: &Shop,
    facts: &Facts,
    minutes_from: MinutesFrom,
    of_design: &IdVec<Design, MinutesFrom>,
) -> Result<String, WriteError> {
    let mut headings: Vec<String> = [
        column::ORDER.name(),
        column::DAY.name(),
        column::LINE_ROW.name(),
        column::MONTH.name(),
        column::KIND.name(),
        column::DESIGN.name(),
        column::TIER.name(),
        column::THEME.name(),
        column::CHANNEL.name(),
        column::COLOURS.name(),
        column::ORDER_PIECES.name(),
    ]
    .map(str::to_owned)
    .into();
    let name = |column: &Column<i64>| column.name().to_owned();
    headings.extend([Figure::Pieces, Figure::SetPricedPieces].map(|figure| name(&figure.column())));
    let figures: Vec<Column<i64>> =
        BEFORE.into_iter().chain(Figure::COSTS).chain(AFTER).map(Figure::column).chain(column::LEVELS).collect();
    headings.extend(figures.iter().map(name));
    headings.extend([column::KNOWN.name(), column::INCOMPLETE.name(), "minutes_from"].map(str::to_owned));
    headings.extend(facts.stages().iter().map(|stage| match stage.map(|stage| shop.hours.stages.text(stage)) {
        None => "minutes_no_stage".to_owned(),
        // Her own stage may have a name that one of our columns ends in.
        Some(stage) if TAKEN.contains(&stage) => format!("minutes_stage_{stage}"),
        Some(stage) => format!("minutes_{stage}"),
    }));
    let (orders, days) = (facts.values(&column::ORDER)?, facts.values(&column::DAY)?);
    let (rows, kinds) = (facts.values(&column::LINE_ROW)?, facts.values(&column::KIND)?);
    let (designs, tiers) = (facts.values(&column::DESIGN)?, facts.values(&column::TIER)?);
    let (themes, channels) = (facts.values(&column::THEME)?, facts.values(&column::CHANNEL)?);
    let (colours, order_pieces) = (facts.values(&column::COLOURS)?, facts.values(&column::ORDER_PIECES)?);
    let counts = [Figure::Pieces, Figure::SetPricedPieces].map(|figure| facts.figure(figure));
    let counts = counts.into_iter().collect::<PolarsResult<Vec<_>>>()?;
    let figures = figures.iter().map(|column| facts.values(column)).collect::<PolarsResult<Vec<_>>>()?;
    let minutes = facts.stages().iter().map(|stage| facts.values(&column::minutes_in(*stage))).collect::<PolarsResult<Vec<_>>>()?;
    let (known, incomplete) = (facts.values(&column::KNOWN)?, facts.values(&column::INCOMPLETE)?);
    let stored = |value: i64| Money(i128::from(value)).stored();
    let lines = (0..facts.lines()).map(|line| {
        let mut cells = vec![
            Form::Csv.text(shop.orders.ids.text(orders[line])),
            days[line].to_string(),
            rows[line].to_string(),
            days[line].month().to_string(),
            kinds[line].word().to_owned(),
            text(designs[line], &shop.designs.names),
            text(tiers[line], &shop.designs.tiers),
            text(themes[line], &facts.themes),
            text(channels[line], &shop.orders.channels),
            colours[line].map_or_else(String::new, |colours| colours.to_string()),
            order_pieces[line].to_string(),
        ];
        cells.extend(counts.iter().map(|column| column[line].to_string()));
        cells.extend(figures.iter().map(|column| stored(column[line])));
        cells.extend([known[line], incomplete[line]].map(|is| is.to_string()));
        let source = designs[line].map_or(minutes_from, |design| of_design[design]);
        cells.push(source.word().to_owned());
        cells.extend(minutes.iter().map(|column| stored(column[line])));
        cells
    });
    csv(&headings, lines)
}

fn text<T>(id: Option<Id<T>>, names: &Names<T>) -> String {
    id.map_or_else(String::new, |id| Form::Csv.text(names.text(id)))
}
