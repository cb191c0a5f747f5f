//! Warnings and assumptions that show only when a shop is costed.

use super::bill::Bill;
use super::hours_known::HoursKnown;
use super::kinds::{
    COSTED_BY_SIZE, COUNT_GAP, EARLIER, EQUAL_MINUTES, FAR_COST, FAR_PRICE, FREE_ITEM, MAYBE_PACKAGING, NEVER_BOUGHT, NEVER_USED,
    NO_COUNTS, NO_FEES, NO_HOURS, NO_HOURS_LOGGED, NO_OVERHEADS, NO_RECIPE, NO_SPARES, NO_STAGE, NO_TARGET, NOT_LEARNED, PART_OF_LOGS,
    ROUGH_MINUTES, SHORTFALL, TIER_MINUTES, TOO_FEW_HOURS, WORKED_AFTER,
};
use super::lines::Lines;
use super::materials::Materials;
use super::minutes_each::MinutesFrom;
use super::overheads::Outside;
use super::slips::Slip;
use super::stock::Gap;
use super::wording::{amount, as_written, collective, difference, doing};
use crate::ids::{Design, Id, Item};
use crate::minutes::Unlearned;
use crate::minutes::fit::{Diagnostics, Method};
use crate::minutes::learned::LEAST;
use crate::quantity::household;
use crate::quantity::millionths::Money;
use crate::quantity::unit::Dimension;
use crate::reading::nearest::nearest;
use crate::reading::{Problem, ProblemKind};
use crate::shop::Shop;
use crate::shop::settings::CostFlow;
use std::collections::{BTreeMap, BTreeSet};

/// Adds remarks on stock and recipes: items never bought or never used, shortfalls, count gaps, designs without a
/// recipe.
pub(crate) fn of_materials(shop: &Shop, lines: &Lines, bill: &Bill, materials: &Materials, problems: &mut Vec<Problem>) {
    for (item, name) in shop.item_names.pairs() {
        let movements = &materials.movements[item];
        let run = &materials.runs[item];
        let measured = bill.base_units.dimension(item);
        let (is_bought, is_used) = (movements.has_price(), !movements.used.is_empty());
        if is_used && !is_bought {
            problems.push(never_bought(name));
        }
        if is_bought && !is_used {
            problems.push(never_used(shop, item, materials));
        }
        if shop.items.of(name).is_none()
            && household::food(name).is_none()
            && matches!(measured, Dimension::Count | Dimension::Length)
            && is_used
        {
            let what = "is assumed to be an ingredient: it is baked with the spares and weighed with the dough";
            let problem = Problem::of_file(&MAYBE_PACKAGING, "items.csv", what).found(name);
            problems.push(problem.instead("if it is packaging, write it there with class packaging"));
        }
        // An item never bought is short each time it is used, and has its warning already.
        for (day, short) in run.shortfalls.iter().filter(|_| is_bought) {
            let what = format!("ran out on {day}: your logs use {} more than you bought", amount(short.amount.0, measured));
            let problem = Problem::of_file(&SHORTFALL, "purchases.csv", what).found(name).at_stake(Money(short.cost));
            problems.push(problem.instead("log the missing purchase, or count your stock"));
        }
        problems.extend(run.gaps.iter().map(|gap| count_gap(shop, (item, measured), gap)));
    }
    let sold: BTreeSet<Id<Design>> = lines.design.iter().flatten().copied().collect();
    for design in sold.into_iter().filter(|design| !bill.has_rows[*design]) {
        let size = shop.designs.size[design];
        let word = size.word();
        let problem = if shop.settings.materials[size].is_some() {
            let what = format!("has no recipe, so it is costed as a {word} piece by [materials] in shop.toml");
            Problem::of_file(&COSTED_BY_SIZE, "recipes.csv", what).instead("add its dough and icing")
        } else {
            let what = "has no recipe, so its materials are costed at 0 and its costs are too low";
            let advice = format!("add its dough and icing, or a cost for {word} pieces under [materials] in shop.toml");
            Problem::of_file(&NO_RECIPE, "recipes.csv", what).instead(advice)
        };
        problems.push(problem.found(shop.designs.names.text(design)));
    }
}

/// Adds figures that are likely slips. At stake is the difference from what is usual.
pub(crate) fn of_slips(shop: &Shop, slips: &[Slip], problems: &mut Vec<Problem>) {
    let orders = &shop.orders;
    for slip in slips {
        problems.push(match *slip {
            Slip::Price { row, charged, usual } => {
                let what = format!("is far from the usual {} for one {}", as_written(usual), of_design(shop, orders.design[row]));
                let problem = Problem::of_file(&FAR_PRICE, "orders.csv", what).at(orders.place[row]).column("price");
                let difference = Money((charged - usual).0.abs().saturating_mul(orders.quantity[row].into()));
                let advice = "write the price of one piece, or leave it if you meant it";
                problem.found(&orders.price[row].to_string()).at_stake(difference).instead(advice)
            }
            Slip::HandedOver { order, worked } => {
                let what = format!("was handed over before any of its hours, the first on {worked}");
                let problem = Problem::of_file(&WORKED_AFTER, "orders.csv", what).at(orders.head(order).place).column("order");
                problem.found_order(orders.ids.text(order)).instead("check the month and year of its date and of its hours")
            }
            Slip::Purchase { row, paid, usual } => {
                let purchase = &shop.purchases.rows[row];
                let what = format!("cost {}, where as much usually costs {}", as_written(paid), as_written(usual));
                let problem = Problem::of_file(&FAR_COST, "purchases.csv", what).at(purchase.place).column("paid");
                let problem = problem.found(shop.item_names.text(purchase.item)).at_stake(Money((paid - usual).0.abs()));
                problem.instead("check its packs, size, unit and paid")
            }
        });
    }
}

fn of_design(shop: &Shop, design: Option<Id<Design>>) -> &str {
    design.map_or("piece", |design| shop.designs.names.text(design))
}

/// Adds the orders that lack hours, and those that lack a stage which orders usually have. What they brought in counts all the same, so
/// no money is at stake: their hourly pay alone is unknown.
pub(crate) fn of_hours(shop: &Shop, known: &HoursKnown, problems: &mut Vec<Problem>) {
    for (order, lacks) in known.lacks.pairs() {
        let head = shop.orders.head(order);
        let of_order = |kind: &'static ProblemKind, what: String| {
            Problem::of_file(kind, "orders.csv", what).at(head.place).column("order").found_order(shop.orders.ids.text(order))
        };
        if lacks.hours {
            problems.push(of_order(&NO_HOURS, "has no hours".into()).instead("log its minutes in hours.csv to see its hourly pay"));
        }
        for stage in lacks.stages.iter().chain(&lacks.of_delivery).filter(|_| !lacks.hours) {
            let stage = shop.hours.stages.text(*stage);
            let problem = of_order(&NO_STAGE, format!("has no {}, though most orders have", doing(stage)));
            problems.push(problem.instead(format!("log its minutes under {stage} in hours.csv; where none were needed, log 0")));
        }
    }
}

/// An item that is used but was never bought: water is free, all else costs something.
fn never_bought(name: &str) -> Problem {
    if household::is_free(name) {
        let problem = Problem::of_file(&FREE_ITEM, "purchases.csv", "is assumed to cost nothing").found(name);
        return problem.instead("log a purchase if you buy it");
    }
    let what = "is in a recipe but was never bought, so it is costed at 0 and costs that include it are too low";
    Problem::of_file(&NEVER_BOUGHT, "purchases.csv", what).found(name).instead("log a purchase of it (paid 0 if it was free)")
}

/// An item that was bought but nothing sold uses. At stake is the money paid for it.
fn never_used(shop: &Shop, item: Id<Item>, materials: &Materials) -> Problem {
    let name = shop.item_names.text(item);
    let paid = shop.purchases.rows.iter().filter(|row| row.item == item).map(|row| Money(row.paid.into())).sum();
    let what = "was bought, but nothing you sold uses it, so no design bears its cost";
    let problem = Problem::of_file(&NEVER_USED, "purchases.csv", what).found(name).at_stake(paid);
    let unbought = shop.item_names.pairs().filter(|(other, _)| !materials.movements[*other].has_price());
    match nearest(name, unbought.map(|(_, other)| other)) {
        Some(near) => problem.instead(format!("if it is the {near} of your recipes, use one name for both")),
        None => problem.instead("add it to a recipe or to every order"),
    }
}

/// A count that differs from the logs. At stake is the cost of the difference.
fn count_gap(shop: &Shop, (item, measured): (Id<Item>, Dimension), gap: &Gap) -> Problem {
    let name = shop.item_names.text(item);
    let found = difference(gap.missing.0, measured, name);
    let what = format!("the count on {} found {found} than the logs say", gap.through);
    let them = collective(name, measured);
    let advice = if gap.missing.0 > 0 {
        format!("the orders that used {them} are charged for this; count again if it is more than usual waste")
    } else {
        format!("the orders that used {them} are charged less for this; count again if it surprises you")
    };
    let problem = Problem::of_file(&COUNT_GAP, "counts.csv", what).at_stake(Money(gap.cost.abs())).instead(advice);
    let counted = shop.counts.iter().find(|count| count.item == item && count.day == gap.through);
    match counted {
        Some(count) => problem.at(count.place),
        None => problem,
    }
}

/// Adds overheads of months before the logs begin: they are in no answer, so what they serve later must be said.
pub(crate) fn of_earlier(earlier: &Outside, problems: &mut Vec<Problem>) {
    let mut by_what: BTreeMap<&str, Money> = BTreeMap::new();
    for ((_, what), cost) in earlier {
        *by_what.entry(what).or_default() += *cost;
    }
    for (what, cost) in by_what {
        let problem =
            Problem::of_file(&EARLIER, "overheads.csv", "is partly for months before your logs begin, so that part is in no answer");
        problems.push(problem.found(what).at_stake(cost).instead("if it serves longer, put the last day it serves in to"));
    }
}

/// Adds what is assumed where a table or a setting is absent. `minutes_from` is the source of minutes per piece.
pub(crate) fn of_assumptions(shop: &Shop, minutes_from: MinutesFrom, flow: CostFlow, problems: &mut Vec<Problem>) {
    let settings = &shop.settings;
    let mut assume = |kind: &'static ProblemKind, file: &str, what: &str, instead: &str| {
        problems.push(Problem::of_file(kind, file, what).instead(instead));
    };
    let guess = "write your own guesses under minutes_each";
    if shop.hours.entries.is_empty() {
        let what = "no hours are logged, so hourly pay is unknown";
        assume(&NO_HOURS_LOGGED, "hours.csv", what, "log minutes by order, and by design where you can");
    } else if minutes_from == MinutesFrom::Equal {
        assume(&EQUAL_MINUTES, "designs.csv", "every piece is assumed to take the same time to decorate", guess);
    } else if minutes_from == MinutesFrom::Card {
        match shop.designs.minutes_each.iter().filter(|minutes| minutes.is_none()).count() {
            0 => {}
            1 => assume(&TIER_MINUTES, "designs.csv", "1 design has no minutes_each: its tier's average is assumed", guess),
            blank => {
                let what = format!("{blank} designs have no minutes_each: their tiers' averages are assumed");
                assume(&TIER_MINUTES, "designs.csv", &what, guess);
            }
        }
    }
    if settings.target.is_none() {
        let what = "no target is set, so there are no fair prices and no verdicts";
        assume(&NO_TARGET, "shop.toml", what, "write target = 20.00, or your own, under [wage]");
    }
    if settings.spares.0 == 0 {
        let what = "you are assumed to bake only what you sell";
        assume(&NO_SPARES, "shop.toml", what, "write spares = \"10 %\", or your own, above the first section");
    }
    if settings.fees.percent.0 == 0 && settings.fees.fixed == Money::ZERO && settings.channel_fees.is_empty() {
        let advice = "if they do, write percent = \"2.9 %\" and fixed = 0.30, or your own, under [fees]";
        assume(&NO_FEES, "shop.toml", "card charges are assumed to cost nothing", advice);
    }
    if shop.overheads.is_empty() {
        let advice = "log insurance, permits, subscriptions and electricity";
        assume(&NO_OVERHEADS, "overheads.csv", "no overheads are logged, so none are counted", advice);
    }
    if flow != CostFlow::Latest && shop.counts.is_empty() && !shop.purchases.rows.is_empty() {
        let what = "stock is never counted, so what spoils or is nibbled is assumed to be in stock still";
        assume(&NO_COUNTS, "counts.csv", what, "count what is left now and then");
    }
}

/// Adds that minutes are learned from a part of very large logs.
pub(crate) fn of_part_used(thinning: usize, problems: &mut Vec<Problem>) {
    if thinning > 1 {
        let what = format!("minutes per piece are learned from one in {thinning} of the logged orders; more would change little");
        problems.push(Problem::of_file(&PART_OF_LOGS, "hours.csv", what));
    }
}

/// Adds what learned minutes rest on, or why there are none.
pub(crate) fn of_learning(learned: Result<&Diagnostics, Unlearned>, problems: &mut Vec<Problem>) {
    let instead = "until then the hours of whole orders are split by minutes_each in designs.csv, or equally";
    match learned {
        Ok(of) => {
            of_part_used(of.thinning, problems);
            if of.method == Method::Unsettled {
                let what = "sampling of the minutes per piece did not settle, so they are a best fit and their ranges are rough";
                problems.push(Problem::of_file(&ROUGH_MINUTES, "hours.csv", what).instead("time a batch of one design on its own"));
            }
        }
        // Without hours there is another assumption already.
        Err(Unlearned::NothingToLearnFrom) => {}
        Err(Unlearned::TooFew(seen)) => {
            let have = match seen {
                0 => "no order or batch has hours of its own".to_owned(),
                1 => "only 1 order or batch has hours".to_owned(),
                seen => format!("only {seen} orders or batches have hours"),
            };
            let what = format!("{have}; learning minutes per piece needs {LEAST}");
            problems.push(Problem::of_file(&TOO_FEW_HOURS, "hours.csv", what).instead(instead));
        }
        Err(Unlearned::Failed(_)) => {
            let what = "minutes per piece could not be learned: no values that fit the logs were found";
            let problem = Problem::of_file(&NOT_LEARNED, "hours.csv", what);
            problems.push(problem.instead("the hours of whole orders are split by minutes_each in designs.csv, or equally"));
        }
    }
}
