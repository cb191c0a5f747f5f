//! What costing found worth a look, and what it took to be so where the records do not say.

use super::bill::Bill;
use super::lines::Lines;
use super::materials::Materials;
use super::minutes_each::{MinutesEach, MinutesFrom};
use crate::quantity::millionths::Money;
use crate::reading::{Name, Problem, Severity};
use crate::shop::Shop;
use crate::shop::settings::CostFlow;
use std::collections::BTreeSet;

/// Shortfalls, items never bought, items no recipe takes, designs without a recipe.
pub fn of_materials(shop: &Shop, lines: &Lines, bill: &Bill, materials: &Materials, problems: &mut Vec<Problem>) {
    let warning = |file: &str, what: String| Problem::of_file(Severity::Warning, file, what);
    for (item, name) in (0..).map(Name).zip(shop.item_names.iter()) {
        let movements = &materials.movements[item.0 as usize];
        let run = &materials.runs[item.0 as usize];
        let unit = bill.base_units.name(item);
        if !movements.has_price() && !movements.used.is_empty() {
            let problem = warning(
                "purchases.csv",
                format!("{name} is taken by recipes but was never bought: it costs nil, and figures it touches are incomplete"),
            );
            problems.push(problem.instead("log a purchase of it (paid 0 if it was free)"));
        }
        if movements.has_price() && movements.used.is_empty() {
            let problem = warning("purchases.csv", format!("{name} was bought but nothing sold takes it: its cost reaches no design"));
            problems.push(problem.instead("add it to a recipe, or to every order"));
        }
        for (day, short) in &run.shortfalls {
            let amount = short.amount.decimal().round_dp(2).normalize();
            let problem = warning(
                "purchases.csv",
                format!("{name} ran short by {amount} {unit} on {day}: more was used than bought, costed at the latest price"),
            );
            problems.push(problem.instead("log the missing purchase, or a count"));
        }
        for gap in &run.gaps {
            let amount = gap.missing.decimal().abs().round_dp(2).normalize();
            let cost = Money(gap.cost.abs()).decimal().round_dp(2);
            let way = if gap.missing.0 > 0 { "fewer than" } else { "more than" };
            let problem = warning(
                "counts.csv",
                format!("{amount} {unit} {way} the logs say of {name} on {}: {cost} goes to what used it", gap.through),
            );
            problems.push(problem);
        }
    }
    let sold: BTreeSet<Name> = lines.design.iter().flatten().copied().collect();
    for design in sold.into_iter().filter(|design| !bill.has_rows[design.0 as usize]) {
        let name = shop.designs.names.text(design);
        let size = shop.designs.size[design.0 as usize];
        match shop.settings.materials[size] {
            Some(each) => {
                let size = crate::shop::specification::SIZES[size];
                let what = format!("{name} has no recipe: a {size} piece is taken to cost {} in materials", each.decimal().normalize());
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

/// What is taken to be so where a table or a setting is absent.
pub fn of_assumptions(shop: &Shop, minutes_each: &MinutesEach, flow: CostFlow, problems: &mut Vec<Problem>) {
    let settings = &shop.settings;
    let mut assume =
        |file: &str, what: &str, instead: &str| problems.push(Problem::of_file(Severity::Assumed, file, what).instead(instead));
    if shop.hours.entries.is_empty() {
        assume("hours.csv", "no hours are logged: no wage can be told", "log minutes by order, and by design where you can");
    } else if minutes_each.from == MinutesFrom::Equal {
        assume("designs.csv", "every piece is taken to last as long to decorate as any other", "write your own guess as minutes_each");
    } else {
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
