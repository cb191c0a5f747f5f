//! The bridge as a person reads it: what changed since another month or season, in all and by design.

use super::bridge_notes::notes;
use super::bridge_text::{finding, name};
use super::document::{Block, Column, Table, Tells};
use super::words::{Currency, capitalised, counted, number};
use crate::quantity::millionths::Money;
use crate::reading::problem::printable;
use crate::review::Bridge;
use crate::review::bridge::findings::Together;
use crate::review::bridge::{Effect, End, GroupVariance};

/// Builds what stands under [`heading`](super::bridge_text::heading).
#[must_use]
pub fn change(bridge: &Bridge, currency: &Currency) -> Vec<Block> {
    let finding = finding(bridge, currency);
    if !bridge.is_comparable() {
        return vec![Block::list(vec![finding])];
    }
    let tables = [Some(parts(bridge, currency)), designs(bridge, currency)].into_iter().flatten();
    let blocks = std::iter::once(Block::paragraph(finding)).chain(tables.map(Block::from));
    blocks.chain([Block::list(notes(bridge, currency))]).collect()
}

/// Builds the table from the base period to this one; parts that changed nothing are left out.
#[must_use]
pub fn parts(bridge: &Bridge, currency: &Currency) -> Table {
    let has_wage = bridge.change.wage.is_some();
    let row = |label: String, surplus: String, wage: String| {
        let mut cells = vec![label, surplus];
        cells.extend(has_wage.then_some(wage));
        cells
    };
    let whole = |end: &End| row(capitalised(&name(end)), currency.exact(end.whole.surplus), currency.known(end.whole.wage));
    let mut rows = vec![whole(&bridge.then)];
    let signed = |money: Money| currency.change(money);
    let shows = |effect: &Effect| !currency.is_nil(effect.surplus) || effect.wage.is_some_and(|wage| has_wage && !currency.is_nil(wage));
    rows.extend(
        bridge.moved().into_iter().filter(|(_, effect)| shows(effect)).map(|(part, effect)| {
            row(format!("  {}", part.in_words()), signed(effect.surplus), effect.wage.map_or_else(String::new, signed))
        }),
    );
    rows.push(whole(&bridge.now));
    let surplus = Column::figures(if bridge.target.is_some() { "above or\nbelow" } else { "left for\nyour time" });
    let columns = [Column::name("what changed"), surplus].into_iter().chain(has_wage.then(|| Column::of(Tells::HourlyPay)));
    Table { columns: columns.collect(), rows, totals: 1 }
}

/// Builds the table of the designs that moved it most, the others together; `None` where none was sold.
#[must_use]
pub fn designs(bridge: &Bridge, currency: &Currency) -> Option<Table> {
    let by_design = bridge.by_design()?;
    let row = |label: String, of: &Together| {
        let changes = [of.change, of.volume_and_mix, of.prices, of.time, of.ingredients, of.rest].map(|money| currency.change(money));
        [label, number(of.pieces.0), number(of.pieces.1)].into_iter().chain(changes).collect::<Vec<String>>()
    };
    let of_design = |design: &GroupVariance| bridge.names.design(design).map_or_else(String::new, printable);
    let mut rows: Vec<Vec<String>> = by_design.shown.iter().map(|(design, of)| row(of_design(design), of)).collect();
    rows.extend(by_design.others.iter().map(|(count, of)| row(counted(*count, "other", "others"), of)));
    rows.push(row("all designs".to_owned(), &by_design.designs));
    let beside = by_design.beside.iter().flatten().zip(["deliveries and the rest", "total"]);
    rows.extend(beside.map(|(of, label)| {
        let mut cells = row(label.to_owned(), of);
        cells[1..3].fill(String::new());
        cells
    }));
    let changes = ["pieces\nand mix", "prices", "your\ntime", "ingredients", "the rest"].map(Column::figures);
    let columns = [Column::name("design"), Column::figures("pieces\nthen"), Column::figures("pieces\nnow"), Column::of(Tells::Change)];
    let totals = if by_design.beside.is_some() { 3 } else { 1 };
    Some(Table { columns: columns.into_iter().chain(changes).collect(), rows, totals })
}
