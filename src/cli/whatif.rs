//! `whatif`: past orders at other prices, costs, minimums or volumes.

use super::arguments::{WhatIf as Arguments, WhatIfBy};
use super::error::Error;
use super::outcome::Outcome;
use super::screen::on_screen;
use super::shop::{costed, left_out_note, open};
use super::tiers::changes;
use crate::period::last_year;
use crate::pricing::change::{Change, meant};
use crate::pricing::season::next_start;
use crate::pricing::what_if::{By, Of, Scenario, WhatIf, compare, smallest_order};
use crate::quantity::Factor;
use crate::quantity::Period;
use crate::quantity::millionths::Money;
use crate::reading::{Problem, Severity, file};
use crate::report::problems::{Listing, heading, sentences};
use crate::report::terminal;
use crate::report::whatif_document::{Asked, whatif_document};
use crate::report::whatif_records::{whatif_csv, whatif_json};
use crate::report::words::Currency;
use crate::shop::Shop;
use crate::shop::kinds::{EMPTY_LIST, UNKNOWN_IN_LIST};
use crate::shop::price_file::{PriceFile, is_tier};
use std::path::Path;

pub fn run(arguments: &Arguments) -> Result<Outcome, Error> {
    if arguments.prices.is_none() && arguments.fewer.is_empty() && arguments.changes.is_empty() && arguments.minimum.is_none() {
        return Err(Error::usage("nothing to change: give --prices FILE, --if \"butter +20%\", --fewer \"character 20%\" or --minimum 24"));
    }
    let mut opened = open(&arguments.shop, arguments.costing.skip_bad_rows, arguments.costing.hide_orders)?;
    let shop = &opened.shop;
    let period = arguments.period.resolve(shop)?;
    let scenario = Scenario {
        prices: arguments.prices.as_deref().map(|path| price_file(shop, path)).transpose()?,
        costs: changes(shop, &arguments.changes)?,
        fewer: fewer_of_each(shop, &arguments.fewer)?,
        minimum: arguments.minimum,
    };
    let options = arguments.costing.options();
    let costed = costed(&mut opened, options)?;
    let shop = &opened.shop;
    let compared = compare(shop, &costed, options, period, &scenario)?;
    let by = match arguments.by {
        WhatIfBy::Tier => By::Tier,
        WhatIfBy::Design => By::Design,
        WhatIfBy::Order => By::Order,
    };
    let target = arguments.target.or(shop.settings.target);
    let mut answer = WhatIf::of(shop, &compared, by, period, target)?;
    let aimed_at = target.filter(|target| *target > Money::ZERO && scenario.minimum.is_some());
    if let Some((target, starts)) = aimed_at.zip(next_start(shop)) {
        let season = if period == Period::default() { last_year(shop) } else { period };
        answer.smallest_order = smallest_order(shop, &costed, &scenario, (season, starts), target)?;
    }
    let out = if arguments.programs.json {
        whatif_json(&answer, &shop.settings.currency)?
    } else if arguments.programs.csv {
        whatif_csv(&answer)?
    } else {
        let asked = Asked {
            prices: arguments.prices.as_ref().map(|path| path.display().to_string()),
            starts: scenario.prices.as_ref().and_then(PriceFile::first_start).filter(|first| {
                let days = compared.before.iter().map(|line| line.day);
                days.max().is_some_and(|last| last < *first)
            }),
            unpriced: scenario.prices.as_ref().map_or_else(Vec::new, |list| {
                list.unpriced(shop, compared.before.iter().filter_map(|line| Some((line.design?, line.day))))
            }),
            changes: &arguments.changes,
            fewer: &arguments.fewer,
            fewer_orders: scenario.fewer.iter().any(|(of, _)| *of == Of::Orders),
            fewer_pieces: scenario.fewer.iter().any(|(of, _)| *of != Of::Orders),
            minimum: scenario.minimum,
        };
        on_screen(&whatif_document(&answer, &asked, &Currency::of(&shop.settings.currency)), arguments.screen.screen())
    };
    Ok(Outcome { out, err: left_out_note(&opened.problems), code: 0 })
}

/// Reads the price list in a file; each row must name a tier or a design of the shop.
fn price_file(shop: &Shop, path: &Path) -> Result<PriceFile, Error> {
    let name = path.display().to_string();
    let bytes =
        file::read(path).map_err(|error| Error::usage(format!("{name} {error}; name a CSV file with the headings tier and price")))?;
    let mut problems = Vec::new();
    let Some(list) = PriceFile::read(shop, &bytes, &mut problems) else {
        let advice = "it must have the headings tier and price, or design and price; more columns may stand beside them";
        return Err(Error::usage(format!("{name} is not a price list: {advice}")));
    };
    let known = || shop.designs.tiers.iter().chain(shop.prices.tiers()).chain(shop.designs.names.iter());
    for unknown in &list.unknown {
        let what = match meant(unknown, known(), "neither a tier nor a design") {
            Ok(alike) => format!("'{unknown}' is neither a tier nor a design; did you mean {alike}?"),
            Err(what) => what.to_string(),
        };
        problems.push(Problem::of_file(&UNKNOWN_IN_LIST, &name, what));
    }
    if list.is_empty() && problems.is_empty() {
        problems.push(Problem::of_file(&EMPTY_LIST, &name, "has no price").instead("write a row for each tier, as character,16.00"));
    }
    problems.retain(|problem| problem.severity == Severity::Error);
    if problems.is_empty() {
        return Ok(list);
    }
    for problem in &mut problems {
        problem.file.clone_from(&name);
    }
    Err(Error::usage(terminal::list(
        &heading(&problems, Severity::Error, Listing::Each),
        &sentences(&problems, Severity::Error, Listing::Each, None),
    )))
}

/// Reads what --fewer names, each tier or design once.
fn fewer_of_each(shop: &Shop, changes: &[Change]) -> Result<Vec<(Of, Factor)>, Error> {
    let mut found: Vec<(Of, Factor)> = Vec::new();
    for change in changes {
        let (of, times) = fewer(shop, change)?;
        if found.iter().any(|(known, _)| *known == of) {
            return Err(Error::usage(format!("--fewer names {} twice; give it one share", change.of)));
        }
        found.push((of, times));
    }
    Ok(found)
}

/// Reads what one --fewer names: orders, a tier or a design.
fn fewer(shop: &Shop, change: &Change) -> Result<(Of, Factor), Error> {
    let designs = &shop.designs;
    let of = if let Some(design) = designs.find(&change.of).filter(|_| !is_tier(shop, &change.of)) {
        Of::Design(design)
    } else {
        let known = designs.tiers.iter().chain(designs.names.iter()).chain(std::iter::once("orders"));
        let name = meant(&change.of, known, "neither a tier nor a design")?;
        match (designs.tiers.find(name), designs.find(name)) {
            (Some(tier), _) => Of::Tier(tier),
            (None, Some(design)) => Of::Design(design),
            (None, None) => Of::Orders,
        }
    };
    Ok((of, change.times))
}
