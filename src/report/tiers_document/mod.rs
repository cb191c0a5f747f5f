//! The next price list as a person reads it: the list and what it would have paid first, then what it rests on.

mod around;
mod tables;

use super::document::{Block, Document};
use super::words::{Currency, NAMED, and, capitalised, counted, first_of, orders_of, percent, price_change};
use crate::pricing::change::Change;
use crate::pricing::list_findings::Uneven;
use crate::pricing::next_list::{DesignRow, NextList, TierRow, Wanted};
use crate::quantity::millionths::{MILLION, Money};
use crate::reading::problem::printable;
use std::cmp::Ordering;

/// Builds the list and what a raise puts at risk; with `--details` also each design, what fair prices are made of, other remedies and
/// what it is all based on.
#[must_use]
pub(crate) fn tiers_document(list: &NextList, wanted: &Wanted, changes: &[Change], currency: &Currency) -> Document {
    let mut document = Document::new("each design, what fair prices are made of, other remedies and what this is based on");
    document.push(Block::paragraph(answer(list, wanted, changes, currency)));
    document.section("The list");
    document.extend(tables::tiers(list, currency));
    document.section("Design by design, cheapest to make first");
    document.extend(tables::designs(list, currency).into_iter().map(Block::under_details));
    document.section("What the fair price of a piece is made of");
    document.extend(tables::made_of(list, currency).into_iter().map(Block::under_details));
    document.section("What a raise puts at risk");
    document.extend(around::risk(list, currency));
    document.section("What would help instead, at today's prices");
    document.push(Block::list(around::instead(list, currency)).under_details());
    document.section("What this is based on");
    document.push(Block::list(around::based_on(list, wanted, changes, currency)).under_details());
    document.section("");
    document.note(
        "Nobody knows how many customers a raise will cost. Hourly pay is before your own taxes. Not tax, legal or accounting advice.",
    );
    document
}

/// The list in a sentence, what it would have paid, and what is still wrong with it.
fn answer(list: &NextList, wanted: &Wanted, changes: &[Change], currency: &Currency) -> String {
    let mut said = vec![format!("{}: {}.", reach(list, wanted, changes, currency), prices(list, currency))];
    said.extend(fewer_tiers(list, wanted));
    said.extend(poorer(list, wanted, currency));
    said.extend(would_have_paid(list, currency));
    said.extend(carried(list, currency));
    for tier in list.short_tiers() {
        said.push(format!(
            "{} would still fall {} short over such a season, {} a piece.",
            capitalised(&printable(&tier.tier)),
            currency.whole(tier.short),
            currency.exact(tier.short.each_of(tier.pieces).unwrap_or_default()),
        ));
    }
    said.extend(under_floor(list, currency));
    said.extend(moves(list, currency));
    said.extend(thinned(list));
    said.extend(without_materials(list));
    said.extend(beside_the_list(list));
    said.join(" ")
}

/// What the list reaches: `For every tier to pay $20 an hour, and every design your floor of $15`.
fn reach(list: &NextList, wanted: &Wanted, changes: &[Change], currency: &Currency) -> String {
    let target = currency.short(list.target);
    let changed: Vec<String> = changes.iter().map(price_change).collect();
    let with = if changed.is_empty() { String::new() } else { format!("with {}, ", and(&changed)) };
    capitalised(&if list.reaches_target() {
        let above = |floor| if floor > list.target { ", which is higher" } else { "" };
        let floor = list.floor.map_or_else(String::new, |floor| {
            format!(" and every design at least your floor of {}{}", currency.short(floor), above(floor))
        });
        format!("{with}for every tier to pay {target} an hour{floor}")
    } else {
        let rise = wanted.max_rise.map_or_else(String::new, |rise| format!(" within a rise of {rise}"));
        format!("{with}as near to {target} an hour as prices can come{rise}")
    })
}

/// What to do with each tier's price: `keep numeral at $3.25; raise shape from $4.75 to $5.25 and scene from $6.50 to $7.50`.
fn prices(list: &NextList, currency: &Currency) -> String {
    let of_one = |tier: &TierRow| {
        let (name, price) = (printable(&tier.tier), currency.exact(tier.price));
        match tier.old_price {
            Some(old) if old == tier.price => format!("{name} at {price}"),
            Some(old) => format!("{name} from {} to {price}", currency.exact(old)),
            None => format!("{name} at {price} ({})", its_designs(list, tier)),
        }
    };
    let of = |does: Does| list.tiers.iter().filter(|tier| Does::of(tier) == does).map(of_one).collect::<Vec<_>>();
    let verbs = [(Does::Keep, "keep"), (Does::Raise, "raise"), (Does::Lower, "lower"), (Does::Set, "set")];
    let told = verbs.into_iter().map(|(does, verb)| (verb, of(does))).filter(|(_, tiers)| !tiers.is_empty());
    told.map(|(verb, tiers)| format!("{verb} {}", and(&tiers))).collect::<Vec<_>>().join("; ")
}

/// What a list does with a tier's price.
#[derive(Clone, Copy, PartialEq, Eq)]
enum Does {
    Keep,
    Raise,
    Lower,
    /// Gives it its first.
    Set,
}

impl Does {
    fn of(tier: &TierRow) -> Self {
        tier.old_price.map_or(Self::Set, |old| match tier.price.cmp(&old) {
            Ordering::Equal => Self::Keep,
            Ordering::Greater => Self::Raise,
            Ordering::Less => Self::Lower,
        })
    }
}

/// The designs of a new tier: `letter, little star and 2 more`.
fn its_designs(list: &NextList, tier: &TierRow) -> String {
    first_of(&list.designs_of(tier).map(|row| printable(&row.key)).collect::<Vec<_>>(), NAMED)
}

/// A list that leaves less than today's prices do. Under a cap tiers whose designs cost so differently cannot have one price near
/// them all; without one, what is charged now pays more than it must.
fn poorer(list: &NextList, wanted: &Wanted, currency: &Currency) -> Option<String> {
    let less = -list.orders.gain();
    let noted = less > Money::ZERO && !Currency::is_same_whole(less, Money::ZERO);
    noted.then(|| {
        let why = match wanted.max_rise {
            Some(rise) if list.short_tiers().next().is_some() => {
                let tiers = counted(list.tiers.len(), "tier is", "tiers are");
                format!("{tiers} too few under a {rise} cap. Allow a larger rise, or more tiers")
            }
            _ => "what you charge now pays more than this list needs to. Keep what sells at its price".to_owned(),
        };
        format!("You would be {} worse off than at today's prices: {why}.", currency.whole(less))
    })
}

/// That there are fewer tiers than asked for, because there are no more designs.
fn fewer_tiers(list: &NextList, wanted: &Wanted) -> Option<String> {
    let designs = list.rows.len();
    wanted.tiers.filter(|asked| *asked > list.tiers.len() && designs <= list.tiers.len()).map(|_| {
        let (were, tiers) = (counted(designs, "design was", "designs were"), counted(list.tiers.len(), "tier", "tiers"));
        format!("Only {were} sold, so the list has {tiers}.")
    })
}

/// Tiers in which some designs pay for others.
fn carried(list: &NextList, currency: &Currency) -> Option<String> {
    let of = |Uneven { tier, best, worst }: Uneven<'_>| {
        let (best, most) = (printable(&best.0.key), currency.exact(best.1));
        let (worst, least) = (printable(&worst.0.key), currency.exact(worst.1));
        format!("in {} {best} would pay {most} an hour and {worst} {least}", printable(&tier.tier))
    };
    let told: Vec<String> = list.uneven_tiers().map(of).collect();
    (!told.is_empty()).then(|| format!("{}: with more tiers each would come nearer to its own price.", capitalised(&told.join(", "))))
}

fn would_have_paid(list: &NextList, currency: &Currency) -> Option<String> {
    // Beside today's prices throughout: what was paid rests on those of its days, and stands under what this is based on.
    let (today, after) = (&list.today, &list.all_in.after);
    let (now, would) = (currency.exact(today.wage()?), currency.exact(after.wage()?));
    let money = |owner_pay| currency.whole(owner_pay);
    let (has, would_have) = (money(today.owner_pay()), money(after.owner_pay()));
    let orders = orders_of(list.season.period);
    Some(if (&now, &has) == (&would, &would_have) {
        format!("The orders {orders} would have paid you the same as at today's prices: {now} an hour, {has} in all.")
    } else {
        format!(
            "The orders {orders} would have paid you {would} an hour instead of {now} at today's prices, and {would_have} in all instead of {has}."
        )
    })
}

fn under_floor(list: &NextList, currency: &Currency) -> Option<String> {
    let floor = list.floor?;
    let under: Vec<String> = list
        .rows
        .iter()
        .filter(|row| row.under_floor)
        .map(|row| format!("{} ({})", printable(&row.key), row.wage.map_or_else(String::new, |wage| currency.exact(wage))))
        .collect();
    (!under.is_empty()).then(|| format!("Still below your floor of {}: {}.", currency.short(floor), and(&under)))
}

/// A search that did not try every price.
fn thinned(list: &NextList) -> Option<String> {
    list.search_thinned.then(|| {
        "Your prices span too many amounts to try them all, so only those near your old and fair prices were tried: a slightly better list \
         may exist."
            .to_owned()
    })
}

/// Prices without ingredients are too low by them.
fn without_materials(list: &NextList) -> Option<String> {
    let without: Vec<String> = list.without_materials().map(|row| printable(&row.key)).collect();
    let whose = if without.len() == list.rows.len() { "any design".to_owned() } else { and(&without) };
    let advice = "log purchases and recipes, or set materials by size in your settings";
    (!without.is_empty()).then(|| format!("No ingredients are counted for {whose}, so prices are too low by their cost: {advice}."))
}

fn moves(list: &NextList, currency: &Currency) -> Option<String> {
    // Designs that move alike are named together.
    let mut alike: Vec<Vec<&DesignRow>> = Vec::new();
    for row in list.rows.iter().filter(|row| row.moves()) {
        let is_like = |others: &&mut Vec<&DesignRow>| {
            let of = |row: &DesignRow| (row.old_tier.clone(), row.new_tier.clone(), row.old_price, row.new_price);
            of(others[0]) == of(row)
        };
        match alike.iter_mut().find(is_like) {
            Some(others) => others.push(row),
            None => alike.push(vec![row]),
        }
    }
    let moves_of = |rows: &Vec<&DesignRow>| {
        let row = rows[0];
        let stays = if rows.len() == 1 { "stays" } else { "stay" };
        let prices = match (row.old_price, row.new_price) {
            (old, new) if old == new => format!("{stays} {}", currency.exact(new)),
            (old, new) => format!("{} to {}", currency.exact(old), currency.exact(new)),
        };
        let (from, to) = (printable(row.old_tier.as_deref().unwrap_or_default()), printable(&row.new_tier));
        let names: Vec<String> = rows.iter().map(|row| printable(&row.key)).collect();
        format!("{} from {from} to {to} ({prices})", and(&names))
    };
    let moved: Vec<String> = alike.iter().map(moves_of).collect();
    let gone: Vec<String> = list.gone.iter().map(|name| printable(name)).collect();
    let mut said = Vec::new();
    if !moved.is_empty() {
        said.push(format!("These designs move: {}.", moved.join("; ")));
    }
    if !gone.is_empty() {
        said.push(format!("No longer needed: {}.", and(&gone)));
    }
    (!said.is_empty()).then(|| said.join(" "))
}

fn beside_the_list(list: &NextList) -> Option<String> {
    let collected = list.unusually_collected()?;
    let why = if collected > Money(MILLION) {
        "you charge more, by hand or by the set, and these prices assume you still will"
    } else {
        "discounts, gifts and prices by hand take the rest, and these prices make up for it"
    };
    Some(format!("You collect {} of list value: {why}.", percent(collected)))
}
