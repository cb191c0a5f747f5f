//! What costing found worth a look, and what it took to be so where the records do not say.

use super::bill::Bill;
use super::lines::Lines;
use super::materials::Materials;
use super::minutes_each::MinutesFrom;
use crate::minutes::Unlearned;
use crate::minutes::fit::{Diagnostics, Method};
use crate::minutes::learned::LEAST;
use crate::quantity::millionths::Money;
use crate::quantity::{household, ratio};
use crate::reading::nearest::nearest;
use crate::reading::{Name, Problem, Severity};
use crate::shop::Shop;
use crate::shop::settings::CostFlow;
use rust_decimal::Decimal;
use std::collections::BTreeSet;

/// Shortfalls, items never bought, items no recipe takes, designs without a recipe.
pub fn of_materials(shop: &Shop, lines: &Lines, bill: &Bill, materials: &Materials, problems: &mut Vec<Problem>) {
    let warning = |file: &str, what: String| Problem::of_file(Severity::Warning, file, what);
    for (item, name) in (0..).map(Name).zip(shop.item_names.iter()) {
        let movements = &materials.movements[item.0 as usize];
        let run = &materials.runs[item.0 as usize];
        let unit = bill.base_units.name(item);
        if !movements.has_price() && !movements.used.is_empty() && household::is_free(name) {
            problems.push(
                Problem::of_file(Severity::Assumed, "purchases.csv", format!("{name} costs nothing"))
                    .instead("log a purchase of it if you buy it"),
            );
        } else if !movements.has_price() && !movements.used.is_empty() {
            let problem = warning(
                "purchases.csv",
                format!("{name} is taken by recipes but was never bought: it costs nil, and figures it touches are incomplete"),
            );
            problems.push(problem.instead("log a purchase of it (paid 0 if it was free)"));
        }
        if movements.has_price() && movements.used.is_empty() {
            let problem = warning("purchases.csv", format!("{name} was bought but nothing sold takes it: its cost reaches no design"));
            let unbought =
                (0..).map(Name).zip(shop.item_names.iter()).filter(|(other, _)| !materials.movements[other.0 as usize].has_price());
            problems.push(match nearest(name, unbought.map(|(_, other)| other)) {
                Some(near) => problem.instead(format!("is it the {near} that recipes take? use one name")),
                None => problem.instead("add it to a recipe, or to every order"),
            });
        }
        if shop.items.of(name).is_none() && household::food(name).is_none() && matches!(unit, "each" | "m") && !movements.used.is_empty() {
            let what = format!("{name} is an ingredient, baked with the spares and weighed with the dough");
            problems
                .push(Problem::of_file(Severity::Assumed, "items.csv", what).instead("write it there with class packaging if it is that"));
        }
        for (day, short) in &run.shortfalls {
            let amount = rounded(short.amount.0, 10);
            let problem = warning(
                "purchases.csv",
                format!("{name} ran short by {amount} {unit} on {day}: more was used than bought, costed at the latest price"),
            );
            problems.push(problem.instead("log the missing purchase, or a count"));
        }
        for gap in &run.gaps {
            let amount = rounded(gap.missing.0.abs(), 10);
            let cost = money(shop, Money(gap.cost.abs()));
            let way = if gap.missing.0 > 0 { "fewer than" } else { "more than" };
            let problem = warning(
                "counts.csv",
                format!("{amount} {unit} {way} the logs say of {name} on {}: {cost} goes to what used it", gap.through),
            );
            problems.push(problem.instead("if that is more than spoils, is tasted or is spilt, count again"));
        }
    }
    let sold: BTreeSet<Name> = lines.design.iter().flatten().copied().collect();
    for design in sold.into_iter().filter(|design| !bill.has_rows[design.0 as usize]) {
        let name = shop.designs.names.text(design);
        let size = shop.designs.size[design.0 as usize];
        match shop.settings.materials[size] {
            Some(each) => {
                let size = crate::shop::specification::SIZES[size];
                let what = format!("{name} has no recipe: a {size} piece is taken to cost {} in materials", money(shop, each));
                problems.push(Problem::of_file(Severity::Assumed, "recipes.csv", what).instead("add its dough and icing"));
            }
            None => {
                let problem =
                    warning("recipes.csv", format!("{name} has no recipe: its materials cost nil, and its figures are incomplete"));
                problems.push(problem.instead("add its dough and icing, or [materials] to shop.toml"));
            }
        }
    }
}

/// What is assumed where a table or a setting is absent; `minutes_from` is what whole orders' minutes are split by.
pub fn of_assumptions(shop: &Shop, minutes_from: MinutesFrom, flow: CostFlow, problems: &mut Vec<Problem>) {
    let settings = &shop.settings;
    let mut assume =
        |file: &str, what: &str, instead: &str| problems.push(Problem::of_file(Severity::Assumed, file, what).instead(instead));
    if shop.hours.entries.is_empty() {
        assume("hours.csv", "no hours are logged: no wage can be told", "log minutes by order, and by design where you can");
    } else if minutes_from == MinutesFrom::Equal {
        assume("designs.csv", "every piece is taken to last as long to decorate as any other", "write your own guess as minutes_each");
    } else if minutes_from == MinutesFrom::Card {
        let blank = shop.designs.minutes_each.iter().filter(|minutes| minutes.is_none()).count();
        if blank > 0 {
            let what = format!("{blank} designs without minutes_each are taken to last as their tier's others do");
            assume("designs.csv", &what, "write your own guess as minutes_each");
        }
    }
    if settings.target.is_none() {
        assume("shop.toml", "no wage is aimed at: no fair price and no verdict can be told", "write [wage] target = 20.00, or your own");
    }
    if settings.spares.0 == 0 {
        assume("shop.toml", "nothing is baked beyond what is sold", "write spares = \"10 %\", or your own");
    }
    if settings.fees.percent.0 == 0 && settings.fees.fixed == Money::ZERO && settings.channel_fees.is_empty() {
        assume("shop.toml", "card charges cost nothing", "write [fees] percent and fixed, if they do");
    }
    if shop.overheads.is_empty() {
        assume("overheads.csv", "there are no overheads", "log insurance, permits, subscriptions, electricity");
    }
    if flow != CostFlow::Latest && shop.counts.is_empty() && !shop.purchases.rows.is_empty() {
        assume("counts.csv", "stock is never counted: what spoils or is nibbled stays in stock", "count what is left now and then");
    }
}

/// Of very large logs only a part is used to learn minutes from.
pub fn of_part_used(one_in: usize, problems: &mut Vec<Problem>) {
    if one_in > 1 {
        let what = format!("minutes per piece are learned from one in {one_in} of the logged orders; more would change little");
        problems.push(Problem::of_file(Severity::Assumed, "hours.csv", what));
    }
}

/// What learned minutes rest on, or why none were learned.
pub fn of_learning(learned: Result<&Diagnostics, Unlearned>, problems: &mut Vec<Problem>) {
    let instead = "whole orders are split by the guesses on the design card, or equally";
    let assumed = |what: String| Problem::of_file(Severity::Assumed, "hours.csv", what);
    match learned {
        Ok(of) => {
            of_part_used(of.one_in, problems);
            if of.method == Method::Unsettled {
                let what = "sampling of the minutes per piece did not settle, so they are the best fit and their ranges are rough";
                problems.push(assumed(what.to_owned()).instead("time a batch of one design on its own"));
            }
        }
        // Without hours, that is said already.
        Err(Unlearned::NothingToLearnFrom) => {}
        Err(Unlearned::TooFew(seen)) => {
            let have = if seen == 1 { "order or batch has" } else { "orders or batches have" };
            let what = format!("only {seen} {have} hours; learning minutes per piece needs {LEAST}");
            problems.push(assumed(what).instead(instead));
        }
        Err(Unlearned::Failed(diagnostics)) => {
            let found = diagnostics
                .map_or_else(String::new, |of| format!(" (R-hat {:.3}, effective draws {:.0})", of.r_hat, of.ess_bulk.min(of.ess_tail)));
            let what = format!("minutes per piece could not be learned: no values that fit the logs were found{found}");
            problems.push(Problem::of_file(Severity::Warning, "hours.csv", what).instead(instead));
        }
    }
}

/// An amount with its currency, to the hundredth.
fn money(shop: &Shop, money: Money) -> String {
    format!("{} {}", shop.settings.currency, rounded(money.0, 4))
}

/// A figure without its last decimals but two, half away from zero. `beyond` is how many it is stored with past those.
fn rounded(value: i128, beyond: u32) -> Decimal {
    let hundredths = ratio::divide(value, 10_i128.pow(beyond)).unwrap_or_default();
    Decimal::try_from_i128_with_scale(hundredths, 2).unwrap_or_default()
}
