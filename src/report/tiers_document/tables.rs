//! The tables of the next list: tiers, designs, and what a fair price is made of.

use crate::pricing::next_list::{DesignRow, FairParts, NextList, TierRow};
use crate::quantity::millionths::Share;
use crate::quantity::millionths::{MILLION, Money};
use crate::reading::problem::printable;
use crate::report::document::{Block, Column, Table, Tells};
use crate::report::words::{Currency, UNKNOWN, and, chance_in_words, number, percent, tenths};

pub(super) fn tiers(list: &NextList, currency: &Currency) -> [Block; 3] {
    let estimated = list.tiers.iter().any(|tier| tier.range.is_some());
    let has_list = list.tiers.iter().any(|tier| tier.old_price.is_some());
    let mut columns = vec![Column::name("tier"), Column::figures("pieces")];
    columns.extend(has_list.then(|| Column::figures("price\nnow")));
    columns.extend(["next\nprice", "fair\nprice"].map(Column::figures));
    columns.push(Column::of(Tells::HourlyPay));
    columns.extend(estimated.then(|| [Column::of(Tells::Range), chance(list, currency)]).into_iter().flatten());
    let says_any = list.tiers.iter().any(|tier| tier.may_lose.for_pay.is_some() || tier.may_lose.for_wage.is_some());
    if says_any {
        columns.extend(["can lose\nfor pay", "can lose for\nhourly pay"].map(Column::figures));
    }
    let cells = |tier: &TierRow| {
        let mut cells = vec![printable(&tier.tier), number(tier.pieces)];
        cells.extend(has_list.then(|| tier.old_price.map_or_else(|| "new".to_owned(), |old| currency.exact(old))));
        cells.extend([currency.exact(tier.price), currency.exact(tier.fair_price), currency.known(tier.wage)]);
        if estimated {
            cells.push(tier.range.zip(tier.wage).map_or_else(String::new, |((low, high), wage)| currency.whole_range(low, wage, high)));
            cells.push(tier.chance.map_or_else(String::new, chance_in_words));
        }
        if says_any {
            cells.extend([lose(tier.may_lose.for_pay), lose(tier.may_lose.for_wage)]);
        }
        cells
    };
    let mut rows: Vec<Vec<String>> = list.tiers.iter().map(cells).collect();
    let pieces: i64 = list.tiers.iter().map(|tier| tier.pieces).sum();
    let mut total = vec![String::new(); columns.len()];
    (total[0], total[1]) = ("total".to_owned(), number(pieces));
    rows.push(total);
    let loses = |share: Option<Share>| share.is_some_and(|share| share < Money::ZERO);
    let is_needed = list.tiers.iter().any(|tier| loses(tier.may_lose.for_pay) || loses(tier.may_lose.for_wage));
    let range = if estimated {
        "Range: hourly pay lies in it with 90 % probability."
    } else {
        "Minutes per piece are your own guesses or equal ones, so there is no range."
    };
    let more = if is_needed { " More: you must sell that much more to earn as much." } else { "" };
    let (lose, of_what) = if says_any {
        (
            " Can lose: the share of sales you can lose before you earn less, or before your hour pays less.",
            " It is a share of the tier's pieces, compared with today's price; lost pieces free their hours.",
        )
    } else {
        ("", "")
    };
    let average = if has_list { "" } else { " You have no price list yet, so today's prices are what you charged on average." };
    let notes = format!("{range}{lose}{more}{average}");
    [
        Table { columns, rows, totals: 1 }.into(),
        Block::paragraph(notes.as_str()).on_first(),
        Block::paragraph(format!("{notes}{of_what}")).under_details(),
    ]
}

fn chance(list: &NextList, currency: &Currency) -> Column {
    Column::figures(format!("chance\nof {}", currency.short(list.target)))
}

pub(super) fn designs(list: &NextList, currency: &Currency) -> Vec<Block> {
    let estimated = list.rows.iter().any(|row| row.fair.is_some());
    let figures = ["pieces", "price\nnow", "next\nprice", "fair\nprice"].map(Column::figures);
    let mut columns: Vec<Column> = [Column::name("design"), Column::words("tier")].into_iter().chain(figures).collect();
    columns.extend(estimated.then(|| Column::of(Tells::Range)));
    columns.push(Column::of(Tells::HourlyPay));
    columns.extend(estimated.then(|| chance(list, currency)));
    let cells = |row: &DesignRow| {
        let tier = if row.moves() { format!("→ {}", printable(&row.new_tier)) } else { printable(&row.new_tier) };
        let mut cells = vec![
            printable(&row.key),
            tier,
            number(row.pieces),
            currency.exact(row.old_price),
            currency.exact(row.new_price),
            currency.exact(row.fair_price),
        ];
        if estimated {
            cells.push(row.fair.map_or_else(String::new, |(low, high)| currency.exact_range(low, high)));
        }
        cells.push(currency.known(row.wage));
        if estimated {
            cells.push(row.chance.map_or_else(String::new, chance_in_words));
        }
        cells
    };
    let rows = list.rows.iter().map(cells).collect();
    let mut blocks = vec![Block::from(Table { columns, rows, totals: 0 })];
    for (said, was_sold) in [("Not sold in this period, so not on the list", false), ("Only given away, so not on the list", true)] {
        let of = list.unsold.iter().filter(|design| design.was_sold == was_sold);
        let named = of.map(|design| match (&design.old_tier, &design.new_tier) {
            (old, Some(new)) if old.as_ref() != Some(new) => format!("{} (to {})", printable(&design.key), printable(new)),
            (Some(old), _) => format!("{} ({})", printable(&design.key), printable(old)),
            _ => printable(&design.key),
        });
        let named: Vec<String> = named.collect();
        blocks.extend((!named.is_empty()).then(|| Block::paragraph(format!("{said}: {}.", and(&named)))));
    }
    blocks
}

/// Tiers that stand side by side in a table.
const ABREAST: usize = 6;

/// Elements down, tiers across, so that a column adds up to the fair price.
pub(super) fn made_of(list: &NextList, currency: &Currency) -> Vec<Block> {
    let tables = list.tiers.chunks(ABREAST).map(|tiers| parts_of(tiers, list.target, currency).into());
    let minutes = list.tiers.iter().map(|tier| {
        let all = tenths(tier.piece.own_minutes + tier.piece.set_up_minutes);
        format!("{} {all}", printable(&tier.tier))
    });
    let notes = format!(
        "Materials include spares. Your time, set-up and colours are at {} an hour. Outside orders: hours and costs not tied to an order. \
         Discounts, fees: what a list price loses before it reaches you. Your minutes per piece, set-up included: {}.",
        currency.short(list.target),
        minutes.collect::<Vec<_>>().join(", ")
    );
    tables.chain([Block::paragraph(notes)]).collect()
}

/// A part of a fair price.
type Part = fn(&FairParts) -> Money;

fn parts_of(tiers: &[TierRow], target: Money, currency: &Currency) -> Table {
    const PARTS: [(&str, Part); 8] = [
        ("materials", |parts| parts.materials),
        ("box, fixed fees", |parts| parts.of_order),
        ("helper pay", |parts| parts.helper_pay),
        ("overhead", |parts| parts.overhead),
        ("your time on it", |parts| parts.own_time),
        ("set-up, colours", |parts| parts.set_up_time),
        ("outside orders", |parts| parts.unassigned),
        ("discounts, fees", |parts| parts.off_list),
    ];
    let taken: Vec<Option<FairParts>> = tiers.iter().map(|tier| tier.fair_parts(target).ok()).collect();
    let names = tiers.iter().map(|tier| Column::figures(printable(&tier.tier)));
    let line = |label: &str, amounts: Vec<Option<Money>>| {
        std::iter::once(label.to_owned()).chain(amounts.into_iter().map(|amount| currency.known(amount))).collect::<Vec<String>>()
    };
    let mut rows: Vec<Vec<String>> = PARTS
        .iter()
        .map(|(label, of)| (label, taken.iter().map(|parts| parts.as_ref().map(of)).collect::<Vec<_>>()))
        .filter(|(_, amounts)| amounts.iter().any(|amount| *amount != Some(Money::ZERO)))
        .map(|(label, amounts)| line(label, amounts))
        .collect();
    rows.push(line("fair price", tiers.iter().map(|tier| Some(tier.fair_price)).collect()));
    Table { columns: [Column::name("")].into_iter().chain(names).collect(), rows, totals: 1 }
}

/// What can be lost; where it is negative, what must be gained.
fn lose(share: Option<Share>) -> String {
    match share {
        None => UNKNOWN.to_owned(),
        Some(share) if share >= Money(MILLION) => "all".to_owned(),
        Some(share) if share < Money::ZERO => format!("{} more", percent(-share)),
        Some(share) => percent(share),
    }
}
